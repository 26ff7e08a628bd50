// The user's choices that do not belong to a plan: units, words, way, light, size.

import { byId, setAttr } from "./dom.js";
import { setOptions } from "./form.js";
import { refresh, state } from "./state.js";
import { dressWay } from "./steps.js";
import { loadSettings, saveSettings } from "./storage.js";

const THEMES = ["light", "dark", "auto"];
const SIZES = ["ordinary", "large"];
const WAYS = ["auto", "steps", "all"];

// startSettings reads what was chosen before and listens for new choices.
export function startSettings() {
  const before = loadSettings();
  if (typeof before.units === "string") state.settings.units = before.units;
  if (THEMES.includes(before.theme)) state.settings.theme = before.theme;
  if (SIZES.includes(before.size)) state.settings.size = before.size;
  if (typeof before.words === "string") state.settings.words = before.words;
  if (WAYS.includes(before.way)) state.settings.way = before.way;
  state.settings.language = navigator.language ?? ""; // for a first guess at the words
  dress();
  for (const name of ["units", "words", "way", "theme", "size"]) {
    byId(`set-${name}`).addEventListener("change", (event) => {
      state.settings[name] = event.target.value;
      saveSettings(state.settings);
      dress();
      refresh();
    });
  }
}

function dress() {
  const { theme, size, way } = state.settings;
  setAttr(document.documentElement, "data-theme", theme);
  setAttr(document.documentElement, "data-size", size);
  byId("set-theme").value = theme;
  byId("set-size").value = size;
  byId("set-way").value = way;
  dressWay();
}

// showChoices offers the unit systems and the regions of the calculator, as
// it takes them now.
export function showChoices(view) {
  if (view.units?.length) setOptions(byId("set-units"), view.units, view.units_now);
  if (view.words?.length) setOptions(byId("set-words"), view.words, view.words_now);
}
