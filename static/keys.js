// Keys for the tutor at a projector. Letters work in projector mode only, and
// never where something is typed: a single letter must not surprise anybody.

import { openDialog } from "./dialogs.js";
import { byId, el, keyed, setText, show } from "./dom.js";
import { say } from "./messages.js";
import { move, onPlace, place } from "./place.js";
import { choose, onSettings } from "./settings.js";
import { state } from "./state.js";

const VIEWS = { 1: "job", 2: "bench", 3: "fall", 4: "practice", 5: "model" };
const SWITCH = "F2";
const TYPING = "input[type=text], textarea, select";
const ALL = { name: "?", words: "all keys", key: "?", run: showKeys };
const HANDLE = { name: "M", words: "handle", key: "m", run: nextHandle };
const TABS = { name: "1 to 5", words: "the job, benches, the fall, practice, the model" };
const OUT = { name: "Esc", words: "out of the field: then the letters are keys again" };
const ALWAYS = [
  { name: SWITCH, words: "projector mode on, or off again" },
  { name: "Tab", words: "from one handle, field and button to the next, and to the numbers of a picture" },
  { name: "Arrows", words: "move the handle that has the focus, or go from one number of a picture to the next" },
  { name: "Shift + arrows", words: "move it in finer steps" },
  { name: "Enter", words: "goes from the handle to its number; opens the working of an underlined number" },
  { name: "Esc", words: "gives a drag up, closes a panel" },
  { name: "L, A, H", words: "in a working that has the focus: next line, all, hide again" },
];

const keys = {}; // by view

// onKeys sets the keys of a view: a list of { key, name, words, run }, the key
// as the browser names it ("b", "B" with Shift), name as it is shown, if it is.
export function onKeys(view, list) {
  keys[view] = list;
  placeLine();
}

export function startKeys() {
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.target.closest?.("dialog")) return;
    if (event.key === SWITCH) {
      event.preventDefault();
      choose("size", inUse() ? "ordinary" : "large");
      say(inUse() ? "Projector mode." : "Projector mode is off.");
      return;
    }
    if (!inUse() || event.defaultPrevented || event.target.closest?.(".menu")) return;
    if (event.target.closest?.(TYPING)) {
      if (event.key === "Escape") event.target.blur();
      return;
    }
    const command = commands().find((c) => c.key === event.key);
    if (command) {
      event.preventDefault();
      command.run(event);
    } else if (VIEWS[event.key] && VIEWS[event.key] !== place.view) {
      event.preventDefault();
      move({ view: VIEWS[event.key] });
    }
  });
  for (const name of ["focusin", "focusout"]) document.addEventListener(name, () => queueMicrotask(placeLine));
  onPlace(placeLine);
  onSettings(placeLine);
  placeLine();
}

function inUse() {
  return state.settings.size === "large";
}

// commands lists the keys of the view that is up.
function commands() {
  return [ALL, ...(hasHandles() ? [HANDLE] : []), ...(keys[place.view] ?? [])];
}

// hasHandles: the arrow keys turn the falling tree without going to its handle.
function hasHandles() {
  return ["job", "bench"].includes(place.view) && state.settings.handles !== "off" && state.settings.readonly !== "on";
}

// nextHandle gives the focus to the next handle of the pictures.
function nextHandle() {
  const all = [...document.querySelectorAll("main:not([hidden]) .handle, .view:not([hidden]) .handle")];
  all[(all.indexOf(document.activeElement) + 1) % all.length]?.focus();
}

// placeLine names the keys at the foot of the page.
function placeLine() {
  const line = byId("key-line");
  show(line, inUse());
  const typing = document.activeElement?.matches(TYPING) && !document.activeElement.closest("dialog, .menu");
  keyed(line, typing ? [OUT] : [...commands().filter((c) => c.name), TABS], (c) => c.name, () => el("span", {}, el("kbd", {}), " ", el("span", {})), (node, c) => {
    setText(node.firstChild, c.name);
    setText(node.lastChild, c.words);
  });
}

// showKeys lists the keys in a panel.
export function showKeys() {
  const { body } = openDialog("Keys");
  const list = (commands) => el("dl", { class: "keys" },
    ...commands.filter((c) => c.name).map((c) => el("div", {}, el("dt", {}, el("kbd", { text: c.name })), el("dd", { text: c.words }))));
  body.append(
    el("h3", { text: "In projector mode" }), list([...commands(), TABS, OUT]),
    el("p", { class: "quiet", text: "Letters do nothing where something is typed or picked from a list." }),
    el("h3", { text: "Always" }), list(ALWAYS));
}
