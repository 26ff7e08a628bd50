// The user's choices that do not belong to a plan: units, words, way, light,
// size, and what of a view is offered.

import { byId, setAttr } from "./dom.js";
import { setOptions } from "./form.js";
import { chosenHere } from "./place.js";
import { language } from "./say.js";
import { refresh, state } from "./state.js";
import { dressWay } from "./steps.js";
import { loadSettings, saveSettings } from "./storage.js";

const THEMES = ["light", "dark", "auto"];
const SIZES = ["ordinary", "large"];
const WAYS = ["auto", "steps", "all"];
const KEPT = /** @type {const} */ (["units", "words", "way", "theme", "size"]); // on this device
const SWITCHES = /** @type {const} */ (["guess", "handles", "readonly"]); // of the view that is open

/** @typedef {import("./state.js").Setting} Setting */
/** @typedef {import("./address.js").Given} Given */

/** @type {(() => void)[]} */
const listeners = [];
/** @type {{ [name: string]: string }} */
let chosen = {}; // as kept; what the address gave is not in it

// startSettings reads what was chosen before, puts what the address gave in
// its place, and listens for new choices.
/** @param {Given} given */
export function startSettings(given) {
  const before = loadSettings();
  chosen = Object.fromEntries(KEPT.map((name) => [name, state.settings[name]]));
  for (const [name, allowed] of /** @type {const} */ ([["units"], ["theme", THEMES], ["size", SIZES], ["words"], ["way", WAYS]])) {
    const value = before[name];
    if (typeof value === "string" && (allowed?.includes(value) ?? true)) chosen[name] = value;
  }
  Object.assign(state.settings, chosen);
  // Where the page speaks English, the browser's own says which region's words.
  state.settings.language = language === "en" ? navigator.language ?? "" : language;
  takeGiven(given);
  for (const name of KEPT.filter((n) => n !== "size")) {
    const list = byId(`set-${name}`, HTMLSelectElement);
    list.addEventListener("change", () => choose(name, list.value));
  }
  const projector = box("projector");
  projector.addEventListener("change", () => choose("size", projector.checked ? "large" : "ordinary"));
  for (const name of SWITCHES) {
    const on = box(name);
    on.addEventListener("change", () => choose(name, on.checked ? "on" : "off"));
  }
}

const box = (/** @type {string} */ name) => byId(`set-${name}`, HTMLInputElement);

/** @param {Given} given */
function takeGiven(given) {
  for (const name of /** @type {const} */ (["units", "words", "theme", ...SWITCHES])) if (given[name]) state.settings[name] = given[name];
  if (given.projector) state.settings.size = given.projector === "on" ? "large" : "ordinary";
  dress();
}

// setGiven takes choices given from outside the page; they are not kept.
/** @param {Given} given */
export function setGiven(given) {
  takeGiven(given);
  refresh();
  for (const listener of listeners) listener();
}

// choose takes a choice made on the page.
/** @param {Setting} name @param {string} value */
export function choose(name, value) {
  state.settings[name] = value;
  if (name in chosen) {
    chosen[name] = value;
    saveSettings(chosen);
  }
  dress();
  chosenHere(name === "size" ? "projector" : name);
  refresh();
  for (const listener of listeners) listener();
}

// onSettings calls a listener when a choice was made.
/** @param {() => void} listener */
export function onSettings(listener) {
  listeners.push(listener);
}

function dress() {
  const { theme, size, way } = state.settings;
  setAttr(document.documentElement, "data-theme", theme);
  setAttr(document.documentElement, "data-size", size);
  byId("set-theme", HTMLSelectElement).value = theme;
  box("projector").checked = size === "large";
  byId("set-way", HTMLSelectElement).value = way;
  for (const name of SWITCHES) {
    setAttr(document.documentElement, `data-${name}`, state.settings[name]);
    box(name).checked = state.settings[name] === "on";
  }
  dressWay();
}

// showChoices offers the unit systems and the regions of the calculator, as
// it takes them now.
/** @param {page.View} view */
export function showChoices(view) {
  if (view.units.length) setOptions(byId("set-units", HTMLSelectElement), view.units, view.units_now);
  if (view.words.length) setOptions(byId("set-words", HTMLSelectElement), view.words, view.words_now);
}
