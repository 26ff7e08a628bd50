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
const KEPT = ["units", "words", "way", "theme", "size"]; // on this device
const SWITCHES = ["guess", "handles", "readonly"]; // of the view that is open

const listeners = [];
let chosen = {}; // as kept; what the address gave is not in it

// startSettings reads what was chosen before, puts what the address gave in
// its place, and listens for new choices.
export function startSettings(given) {
  const before = loadSettings();
  chosen = Object.fromEntries(KEPT.map((name) => [name, state.settings[name]]));
  if (typeof before.units === "string") chosen.units = before.units;
  if (THEMES.includes(before.theme)) chosen.theme = before.theme;
  if (SIZES.includes(before.size)) chosen.size = before.size;
  if (typeof before.words === "string") chosen.words = before.words;
  if (WAYS.includes(before.way)) chosen.way = before.way;
  Object.assign(state.settings, chosen);
  // Where the page speaks English, the browser's own says which region's words.
  state.settings.language = language === "en" ? navigator.language ?? "" : language;
  takeGiven(given);
  for (const name of KEPT.filter((n) => n !== "size")) {
    byId(`set-${name}`).addEventListener("change", (event) => choose(name, event.target.value));
  }
  byId("set-projector").addEventListener("change", (event) => choose("size", event.target.checked ? "large" : "ordinary"));
  for (const name of SWITCHES) {
    byId(`set-${name}`).addEventListener("change", (event) => choose(name, event.target.checked ? "on" : "off"));
  }
}

function takeGiven(given) {
  for (const name of ["units", "words", "theme", ...SWITCHES]) if (given[name]) state.settings[name] = given[name];
  if (given.projector) state.settings.size = given.projector === "on" ? "large" : "ordinary";
  dress();
}

// setGiven takes choices given from outside the page; they are not kept.
export function setGiven(given) {
  takeGiven(given);
  refresh();
  for (const listener of listeners) listener();
}

// choose takes a choice made on the page.
export function choose(name, value) {
  state.settings[name] = value;
  if (KEPT.includes(name)) {
    chosen[name] = value;
    saveSettings(chosen);
  }
  dress();
  chosenHere(name === "size" ? "projector" : name);
  refresh();
  for (const listener of listeners) listener();
}

// onSettings calls a listener when a choice was made.
export function onSettings(listener) {
  listeners.push(listener);
}

function dress() {
  const { theme, size, way } = state.settings;
  setAttr(document.documentElement, "data-theme", theme);
  setAttr(document.documentElement, "data-size", size);
  byId("set-theme").value = theme;
  byId("set-projector").checked = size === "large";
  byId("set-way").value = way;
  for (const name of SWITCHES) {
    setAttr(document.documentElement, `data-${name}`, state.settings[name]);
    byId(`set-${name}`).checked = state.settings[name] === "on";
  }
  dressWay();
}

// showChoices offers the unit systems and the regions of the calculator, as
// it takes them now.
export function showChoices(view) {
  if (view.units?.length) setOptions(byId("set-units"), view.units, view.units_now);
  if (view.words?.length) setOptions(byId("set-words"), view.words, view.words_now);
}
