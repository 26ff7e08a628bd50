// Keys for the tutor at a projector. They work in projector mode only, and
// never where something is typed: a single letter must not surprise anybody.

import { openDialog } from "./dialogs.js";
import { byId, el, keyed, setText, show } from "./dom.js";
import { move, onPlace, place } from "./place.js";
import { onSettings } from "./settings.js";
import { state } from "./state.js";

const VIEWS = { 1: "job", 2: "bench", 3: "fall", 4: "practice", 5: "model" };
const COMMON = [
  { name: "?", words: "all keys", key: "?", run: showKeys },
];
const TABS = { name: "1 to 5", words: "the job, benches, the fall, practice, the model" };
const HANDLES = [
  { name: "Tab", words: "from one handle, field and button to the next, and to the numbers of a picture" },
  { name: "Arrow keys", words: "move the handle that has the focus, or go from one number of a picture to the next" },
  { name: "Shift and arrow keys", words: "move it in finer steps" },
  { name: "Enter", words: "goes from the handle to its number; opens the working of an underlined number" },
  { name: "Escape", words: "gives a drag up, closes a panel" },
];

const keys = {}; // by view

// onKeys sets the keys of a view: a list of { key, name, words, run }, the key
// as the browser names it ("b", "B" with Shift), name as it is shown.
export function onKeys(view, list) {
  keys[view] = list;
  placeLine();
}

export function startKeys() {
  document.addEventListener("keydown", (event) => {
    if (!inUse() || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.closest?.("input[type=text], textarea, select, dialog, .menu")) return;
    const command = [...(keys[place.view] ?? []), ...COMMON].find((c) => c.key === event.key);
    if (command) {
      event.preventDefault();
      command.run();
    } else if (VIEWS[event.key] && VIEWS[event.key] !== place.view) {
      event.preventDefault();
      move({ view: VIEWS[event.key] });
    }
  });
  onPlace(placeLine);
  onSettings(placeLine);
  placeLine();
}

function inUse() {
  return state.settings.size === "large";
}

// placeLine names the keys at the foot of the page.
function placeLine() {
  const line = byId("key-line");
  show(line, inUse() && Boolean(keys[place.view]));
  keyed(line, [...(keys[place.view] ?? []), ...COMMON], (c) => c.name, () => el("span", {}, el("kbd", {}), " ", el("span", {})), (node, c) => {
    setText(node.firstChild, c.name);
    setText(node.lastChild, c.words);
  });
}

// showKeys lists the keys in a panel.
export function showKeys() {
  const { body } = openDialog("Keys");
  const list = (commands) => el("dl", { class: "keys" },
    ...commands.map((c) => el("div", {}, el("dt", {}, el("kbd", { text: c.name })), el("dd", { text: c.words }))));
  body.append(
    el("h3", { text: "Pictures" }), list(HANDLES),
    el("h3", { text: "In projector mode" }), list([...(keys[place.view] ?? []), TABS, ...COMMON]),
    el("p", { class: "quiet", text: "These letters do nothing where something is typed. Projector mode is switched on in the menu." }));
}
