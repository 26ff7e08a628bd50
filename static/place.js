// Where on the page the person is: the view and what it shows. The address
// follows it, and the browser's ways back and forward lead through it.

import { addressOf, readAddress } from "./address.js";
import { state } from "./state.js";

const REST = 300; // ms: browsers refuse an address that changes with every frame
const OPTIONS = ["units", "words", "theme", "projector", "guess", "handles", "readonly"];
// The parameters that say something in a view.
const OF_VIEW = { job: ["plan"], bench: ["bench", "values"], fall: ["plan"], practice: ["seed", "grade"], model: [] };

export const place = { view: "job", bench: "", values: "", plan: "", seed: "", grade: "" };

const fixed = new Set(); // the settings that the address gave
const listeners = [];
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

function take(given) {
  for (const name of Object.keys(place)) place[name] = given[name] ?? "";
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
export function onPlace(listener) {
  listeners.push(listener);
}

function tell() {
  for (const listener of listeners) listener(place);
}

// move goes somewhere else; back leads here again.
export function move(more) {
  write("replaceState");
  Object.assign(place, more);
  write("pushState");
  tell();
}

// go goes to what was asked for from outside, without a way back to here. Values
// belong to the bench they were given with.
export function go(more) {
  const to = Object.fromEntries(Object.keys(place).filter((name) => name in more).map((name) => [name, more[name]]));
  if (to.bench && to.bench !== place.bench) to.values ??= "";
  if (!Object.keys(to).length) return;
  Object.assign(place, to);
  rewrite();
  tell();
}

// keep notes what is shown here now, without telling anybody.
export function keep(more) {
  if (Object.keys(more).every((name) => place[name] === more[name])) return;
  Object.assign(place, more);
  rewrite();
}

// rewrite brings the address up to date at rest.
export function rewrite() {
  if (!due) due = setTimeout(() => write("replaceState"), REST);
}

// chosenHere says that a setting is now as chosen on the page, whatever the
// address gave.
export function chosenHere(name) {
  if (fixed.has(name) || name in SHOWN) rewrite();
}

// Settings of the view itself, not of the device.
const SHOWN = { guess: true, handles: true, readonly: true };

// shown gives everything an address can say of what is shown now.
export function shown() {
  return { ...of(place.view), ...options(() => true) };
}

function of(view) {
  return { view, ...Object.fromEntries(OF_VIEW[view].map((name) => [name, place[name]])) };
}

function options(wanted) {
  const { units, words, size, guess, handles, readonly } = state.settings;
  const theme = fixed.has("theme") || state.settings.theme !== "light" ? state.settings.theme : "";
  const all = { units, words, theme, projector: size === "large" ? "on" : "off", guess, handles, readonly };
  return Object.fromEntries(OPTIONS.filter(wanted).map((name) => [name, all[name]]));
}

// answered tells that an answer was given, to whoever asked to know: { kind,
// id, text, state }, the state being right or wrong.
export function answered(what) {
  for (const listener of askers) listener(what);
}

export function onAnswered(listener) {
  askers.push(listener);
}

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
