// Keys for the tutor at a projector. Letters work in projector mode only, and
// never where something is typed: a single letter must not surprise anybody.

import { openDialog } from "./dialogs.js";
import { byId, el, keyed, setText, show, within } from "./dom.js";
import { announce } from "./messages.js";
import { move, onPlace, place } from "./place.js";
import { say } from "./say.js";
import { choose, onSettings } from "./settings.js";
import { state } from "./state.js";

/**
 * A key of a view, as the browser names it ("b", "B" with Shift), and as it is
 * shown, where it is.
 *
 * @typedef {{ key: string, name?: string, words?: string, run: (event: KeyboardEvent) => void }} Command
 */

/** @type {{ [key: string]: string }} */
const VIEWS = { 1: "job", 2: "bench", 3: "fall", 4: "practice", 5: "model" };
const SWITCH = "F2";
const TYPING = "input[type=text], textarea, select";
const ALL = { name: "?", words: say("all keys"), key: "?", run: showKeys };
const HANDLE = { name: "M", words: say("handle"), key: "m", run: nextHandle };
const TABS = { name: say("1 to 5"), words: say("the job, benches, the fall, practice, the model") };
const OUT = { name: say("Esc"), words: say("leave the field, so that letters work as keys again") };
const ALWAYS = [
  { name: SWITCH, words: say("projector mode on or off") },
  { name: say("Tab"), words: say("next handle, field or button, or the numbers of a drawing") },
  { name: say("Arrows"), words: say("move the selected handle, or step through the numbers of a drawing") },
  { name: say("Shift + arrows"), words: say("move the handle in finer steps") },
  { name: say("Enter"), words: say("go from a handle to its field, or open the working of an underlined number") },
  { name: say("Esc"), words: say("cancel a drag, close a panel") },
  { name: "L, A, H", words: say("in the selected working: next line, all lines, hide") },
];

/** @type {{ [view: string]: Command[] }} */
const keys = {};

// onKeys sets the keys of a view.
/** @param {string} view @param {Command[]} list */
export function onKeys(view, list) {
  keys[view] = list;
  placeLine();
}

export function startKeys() {
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || within(event, "dialog")) return;
    if (event.key === SWITCH) {
      event.preventDefault();
      choose("size", inUse() ? "ordinary" : "large");
      announce(inUse() ? say("Projector mode is on.") : say("Projector mode is off."));
      return;
    }
    if (!inUse() || event.defaultPrevented || within(event, ".menu")) return;
    const typing = within(event, TYPING);
    if (typing) {
      if (event.key === "Escape") typing.blur();
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
/** @returns {Command[]} */
function commands() {
  return [ALL, ...(hasHandles() ? [HANDLE] : []), ...(keys[place.view] ?? [])];
}

// hasHandles: the arrow keys turn the falling tree without going to its handle.
function hasHandles() {
  return ["job", "bench"].includes(place.view) && state.settings.handles !== "off" && state.settings.readonly !== "on";
}

// nextHandle gives the focus to the next handle of the pictures.
function nextHandle() {
  const all = [.../** @type {NodeListOf<SVGElement>} */ (document.querySelectorAll("main:not([hidden]) .handle, .view:not([hidden]) .handle"))];
  all[(all.findIndex((handle) => handle === document.activeElement) + 1) % all.length]?.focus();
}

// placeLine names the keys at the foot of the page.
function placeLine() {
  const line = byId("key-line");
  show(line, inUse());
  const typing = document.activeElement?.matches(TYPING) && !document.activeElement.closest("dialog, .menu");
  keyed(line, typing ? [OUT] : [...named(commands()), TABS], (c) => c.name, () => {
    const parts = { key: el("kbd", {}), words: el("span", {}) };
    return Object.assign(el("span", {}, parts.key, " ", parts.words), { parts });
  }, ({ parts }, c) => {
    setText(parts.key, c.name);
    setText(parts.words, c.words);
  });
}

// named gives the keys that are shown.
/** @param {{ name?: string, words?: string }[]} commands */
function named(commands) {
  return commands.flatMap(({ name, words = "" }) => (name ? { name, words } : []));
}

// showKeys lists the keys in a panel.
export function showKeys() {
  const { body } = openDialog(say("Keys"));
  const list = (/** @type {{ name?: string, words?: string }[]} */ commands) => el("dl", { class: "keys" },
    ...named(commands).map((c) => el("div", {}, el("dt", {}, el("kbd", { text: c.name })), el("dd", { text: c.words }))));
  body.append(
    el("h3", { text: say("In projector mode") }), list([...commands(), TABS, OUT]),
    el("p", { class: "quiet", text: say("Letters do nothing while you type in a field or pick from a list.") }),
    el("h3", { text: say("Always") }), list(ALWAYS));
}
