// The user's choices that do not belong to a plan: units, light, size.

import { byId, setAttr } from "./dom.js";
import { setOptions } from "./form.js";
import { refresh, state } from "./state.js";
import { loadSettings, saveSettings } from "./storage.js";

const THEMES = ["light", "dark", "auto"];
const SIZES = ["ordinary", "large"];

// startSettings reads what was chosen before and listens for new choices.
export function startSettings() {
  const before = loadSettings();
  if (typeof before.units === "string") state.settings.units = before.units;
  if (THEMES.includes(before.theme)) state.settings.theme = before.theme;
  if (SIZES.includes(before.size)) state.settings.size = before.size;
  dress();
  for (const name of ["units", "theme", "size"]) {
    byId(`set-${name}`).addEventListener("change", (event) => {
      state.settings[name] = event.target.value;
      saveSettings(state.settings);
      dress();
      refresh();
    });
  }
}

function dress() {
  const { theme, size } = state.settings;
  setAttr(document.documentElement, "data-theme", theme);
  setAttr(document.documentElement, "data-size", size);
  byId("set-theme").value = theme;
  byId("set-size").value = size;
}

// showUnits offers the unit systems of the calculator.
export function showUnits(units) {
  if (units?.length) setOptions(byId("set-units"), units, state.settings.units);
}
