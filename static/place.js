// Where on the page the person is: the view and what it shows. The address
// follows it, and the browser's ways back and forward lead through it.

import { addressOf, readAddress } from "./address.js";
import { state } from "./state.js";

const REST = 300; // ms: browsers refuse an address that changes with every frame
const OPTIONS = ["units", "words", "theme", "projector", "guess", "handles", "readonly"];
// The parameters that say something in a view.
/** @type {Record<string, (keyof typeof place)[]>} */
const OF_VIEW = { job: ["plan"], bench: ["bench", "values"], fall: ["plan"], practice: ["seed", "grade"], model: [] };

/** @typedef {Partial<typeof place>} Where */
/** @typedef {import("./address.js").Given} Given */

export const place = { view: "job", bench: "", values: "", plan: "", seed: "", grade: "" };

/**
 * An answer to the question of a view.
 *
 * @typedef {{ kind: string, id: string, text: string, state: "right" | "wrong" }} Answered
 */

/** @type {Set<string>} */
const fixed = new Set(); // the settings that the address gave
/** @type {(() => void)[]} */
const listeners = [];
/** @type {((what: Answered) => void)[]} */
const askers = [];
let due = 0;
let planLeft = false;

// startPlace reads the address and gives { given, problems }.
export function startPlace() {
  const read = readAddress(location.search);
  take(read.given);
  for (const name of OPTIONS) if (name in read.given) fixed.add(name);
  addEventListener("popstate", () => {
    clearTimeout(due);
    due = 0;
    take(readAddress(location.search).given);
    tell();
  });
  return read;
}

const names = () => /** @type {(keyof typeof place)[]} */ (Object.keys(place));

/** @param {Given} given */
function take(given) {
  for (const name of names()) place[name] = given[name] ?? "";
  place.view ||= "job";
  if (planLeft) place.plan = "";
}

// leavePlan says that the plan of the address has been changed or left: no
// address leads back to it.
export function leavePlan() {
  planLeft = true;
  keep({ plan: "" });
}

// onPlace calls a listener when the person is somewhere else.
/** @param {() => void} listener */
export function onPlace(listener) {
  listeners.push(listener);
}

function tell() {
  for (const listener of listeners) listener();
}

// move goes somewhere else; back leads here again.
/** @param {Where} more */
export function move(more) {
  write("replaceState");
  Object.assign(place, more);
  write("pushState");
  tell();
}

// go goes to what was asked for from outside, without a way back to here. Values
// belong to the bench they were given with.
/** @param {Given} more */
export function go(more) {
  /** @type {Where} */
  const to = Object.fromEntries(names().filter((name) => name in more).map((name) => [name, more[name]]));
  if (to.bench && to.bench !== place.bench) to.values ??= "";
  if (!Object.keys(to).length) return;
  Object.assign(place, to);
  rewrite();
  tell();
}

// keep notes what is shown here now, without telling anybody.
/** @param {Where} more */
export function keep(more) {
  if (names().every((name) => !(name in more) || place[name] === more[name])) return;
  Object.assign(place, more);
  rewrite();
}

// rewrite brings the address up to date at rest.
export function rewrite() {
  if (!due) due = setTimeout(() => write("replaceState"), REST);
}

// chosenHere says that a setting is now as chosen on the page, whatever the
// address gave.
/** @param {string} name */
export function chosenHere(name) {
  if (fixed.has(name) || name in SHOWN) rewrite();
}

// Settings of the view itself, not of the device.
const SHOWN = { guess: true, handles: true, readonly: true };

// shown gives everything an address can say of what is shown now.
/** @returns {Given & { view: string }} */
export function shown() {
  return { ...of(place.view), ...options(() => true) };
}

/** @param {string} view */
function of(view) {
  return { view, ...Object.fromEntries(OF_VIEW[view].map((name) => [name, place[name]])) };
}

/** @param {(name: string) => boolean} wanted @returns {Given} */
function options(wanted) {
  const { units, words, size, guess, handles, readonly } = state.settings;
  const theme = fixed.has("theme") || state.settings.theme !== "light" ? state.settings.theme : "";
  /** @type {Given} */
  const all = { units, words, theme, projector: size === "large" ? "on" : "off", guess, handles, readonly };
  return Object.fromEntries(OPTIONS.filter(wanted).map((name) => [name, all[name]]));
}

// answered tells that an answer was given, to whoever asked to know.
/** @param {Answered} what */
export function answered(what) {
  for (const listener of askers) listener(what);
}

/** @param {(what: Answered) => void} listener */
export function onAnswered(listener) {
  askers.push(listener);
}

/** @param {"replaceState" | "pushState"} how */
function write(how) {
  clearTimeout(due);
  due = 0;
  const query = addressOf({ ...of(place.view), ...options((name) => fixed.has(name) || name in SHOWN) });
  const hash = place.view === "job" ? location.hash : "";
  if (how === "replaceState" && query === location.search) return;
  try {
    history[how](history.state, "", `${location.pathname}${query}${hash}`);
  } catch {
    // an address that cannot be changed: the page works without
  }
}
