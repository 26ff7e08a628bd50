// The fall: the present plan turned through its fall by a slider,
// in real time or slowly, with what it asks of the lines at every turn.

import { button } from "./dialogs.js";
import { el, keyed, setAttr, setNote, setText, show } from "./dom.js";
import { sayMoved } from "./dragging.js";
import { boxOf, makePicture, placeLegend } from "./drawing.js";
import { makeField, updateField } from "./form.js";
import { onKeys } from "./keys.js";
import { announce } from "./messages.js";
import { move, place } from "./place.js";
import { makeReveal } from "./reveal.js";
import { say } from "./say.js";
import { ask, onPlan, state } from "./state.js";
import { placeFacts, placeNotes } from "./tables.js";
import { openWorking, placeNumber, stepName } from "./working.js";

/** @typedef {{ rate: number, word: string, said?: string }} Speed */

/** @type {Speed[]} */
const SPEEDS = [{ rate: 1, word: say("Real time") }, { rate: 0.5, word: "½", said: say("Half speed") }, { rate: 0.25, word: "¼", said: say("Quarter speed") }];
const REST = 120; // ms without a change until working and notes follow
const CALM = 500; // ms between pictures where motion is to be reduced
const SPOKEN = 400; // ms without a change until the turn is said aloud

/** @type {ReturnType<typeof makeParts>} */
let parts;
let turn = 0; // degrees
let speed = ""; // of the line, as typed
/** @type {fall.View | null} */
let out = null;
/** @type {fall.View | null} */
let rest = null; // the last whole answer
/** @type {fall.asked | null} */
let pending = null;
let frame = 0;
let resting = 0;
let speaking = 0;
/** @type {{ from: number, since: number, drawn: number } | null} */
let playing = null;
let rate = 1;
let before = 0; // the turn before a drag

/** @param {HTMLElement} root */
export function startFall(root) {
  parts = makeParts();
  root.append(el("h2", { class: "fall-title", text: say("Step through the fall") }), parts.message, parts.toPlan, parts.problemsPart, parts.body);
  onPlan(() => {
    if (place.view !== "fall") return;
    pause();
    queue();
  });
  onKeys("fall", [
    { key: "p", name: "P", words: say("play, pause"), run: toggle },
    { key: "ArrowRight", name: "← →", words: say("turn"), run: (event) => stepBy(1, event.shiftKey) },
    { key: "ArrowLeft", run: (event) => stepBy(-1, event.shiftKey) },
    { key: "e", name: "E", words: say("next moment"), run: () => nextEvent(1) },
    { key: "r", name: "R", words: say("back to standing"), run: () => goTo(0) },
    { key: "v", name: "V", words: say("speed"), run: nextSpeed },
    { key: "l", name: "L", words: say("next line"), run: () => parts.working.next() },
    { key: "E", name: say("Shift E"), words: say("previous moment"), run: () => nextEvent(-1) },
  ]);
}

function makeParts() {
  const controls = makeControls();
  const picture = el("figure", { class: "fall-picture" });
  const curve = el("figure", { class: "fall-curve" });
  const course = el("figure", { class: "fall-course" });
  const pictures = {
    picture: makePicture(picture, say("The fall"), {
      reveal: () => controls.slider.focus(),
      start: () => {
        pause();
        before = turn;
      },
      to: (x, y) => queue({ x, y }),
      end: (giveUp) => {
        if (giveUp) queue({ turn_deg: before });
        else compute();
      },
      step: (_, x, y, fine) => stepBy(x + y, fine),
    }, numbers),
    curve: makePicture(curve, say("Pull needed over the turn"), null, numbers),
    course: makePicture(course, say("Turn over time")),
  };
  const legend = el("ul", { class: "legend", "aria-label": say("What the lines mean") });

  const problems = el("ul", { class: "notes" });
  const problemsLead = el("p", { text: say("This plan has problems, so there is no verdict. The fall is shown as far as it can be worked out.") });
  const mains = {
    nowLabel: el("p", { class: "main-label" }), nowValue: el("p", { class: "main-value" }),
    awayLabel: el("p", { class: "main-label" }), awayValue: el("p", { class: "main-value" }), awayNote: el("p", { class: "quiet" }),
  };
  const facts = el("dl", { class: "facts fall-now" });
  const whole = el("dl", { class: "facts" });
  const fields = el("div", { class: "fields" });
  const notes = el("ul", { class: "cautions" });
  const working = makeReveal({ level: 4 });

  const side = el("div", { class: "fall-side" },
    el("div", { class: "fall-mains" },
      el("div", { class: "fall-main" }, mains.nowLabel, mains.nowValue),
      el("div", { class: "fall-main" }, mains.awayLabel, mains.awayValue), mains.awayNote),
    el("h3", { class: "fall-now", text: say("At this turn") }), facts,
    el("h3", { text: say("The whole fall") }), whole, fields);
  return {
    ...pictures, ...controls, ...mains, legend, problems, problemsLead, facts, whole, fields, notes, working, side,
    message: el("p", { class: "fall-message", role: "status", hidden: true }),
    toPlan: el("div", { class: "actions" }, button(say("Go to the plan"), () => move({ view: "job" }))),
    problemsPart: el("div", { class: "fall-problems" }, problemsLead, problems),
    notesPart: el("section", { class: "fall-notes" }, el("h3", { text: say("Before you rely on this") }), notes),
    body: el("div", { class: "fall-body" },
      el("div", { class: "fall-stage" }, picture, controls.node, legend), side,
      el("div", { class: "fall-curves" }, curve, course),
      el("section", { class: "fall-working" }, el("h3", { text: say("Working at this turn") }), working.node)),
  };
}

/** @type {{ [key: string]: number }} */
const SLIDES = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -10, PageUp: 10 };

function makeControls() {
  const slider = el("input", { type: "range", class: "fall-slider", id: "fall-turn", min: "0", max: "90", step: "any", value: "0" });
  slider.addEventListener("input", () => {
    pause();
    queue({ turn_deg: Number(slider.value) });
  });
  slider.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const by = SLIDES[event.key];
    if (by) stepBy(by, event.shiftKey);
    else if (event.key === "Home") goTo(0);
    else if (event.key === "End") goTo(out?.end_deg ?? 0);
    else return;
    event.preventDefault();
  });
  const turnWord = el("output", { for: "fall-turn", class: "fall-turn-word" });
  const play = button(say("Play"), toggle, "main fall-play", { "data-do": "play" });
  const speeds = SPEEDS.map((s) => button(s.word, () => setSpeed(s), "", { "data-rate": s.rate, "aria-label": s.said, "aria-pressed": s.rate === rate ? "true" : "false" }));
  const events = el("div", { class: "fall-events", role: "group", "aria-label": say("Moments of the fall") });
  const node = el("div", { class: "fall-controls" },
    el("label", { class: "fall-turn-label", for: "fall-turn", text: say("Turn") }), slider, turnWord, play,
    el("div", { class: "fall-speeds", role: "group", "aria-label": say("Speed") }, ...speeds), events);
  return { node, slider, turnWord, play, speeds, events };
}

export function showFall() {
  queue();
}

export function leaveFall() {
  pause();
  cancelAnimationFrame(frame);
  frame = 0;
  pending = null;
  clearTimeout(resting);
  clearTimeout(speaking);
}

// queue asks with the next frame; a later place takes over from an earlier.
/** @param {fall.asked} more */
function queue(more = {}) {
  pending = { ...pending, ...more };
  if ("x" in more) delete pending.turn_deg;
  if ("turn_deg" in more) {
    delete pending.x;
    delete pending.y;
  }
  if (!frame) frame = requestAnimationFrame(compute);
}

function compute() {
  cancelAnimationFrame(frame);
  frame = 0;
  const more = pending ?? {};
  pending = null;
  const moving = "x" in more || "turn_deg" in more || "step" in more;
  get({ turn_deg: turn, ...more }, moving && rest !== null);
  if (moving) speak();
}

// get asks for the tree at one turn. A light answer is without working and
// notes: those follow at rest.
/** @param {fall.asked} where @param {boolean} light */
function get(where, light) {
  clearTimeout(resting);
  const got = ask("fall", {
    plan: state.plan, speed, ...where, light,
    box: boxOf(parts.picture.box), curve_box: boxOf(parts.curve.box), course_box: boxOf(parts.course.box),
  });
  if (!got?.facts) return; // the calculator has ended, and the page says so
  out = got;
  if (!light) rest = got;
  else if (!playing) resting = setTimeout(() => get({ turn_deg: turn }, false), REST);
  if (out.fresh) turn = out.turn_deg;
  draw(out);
  if (!light) drawRest(out);
  setText(parts.play, playing ? say("Pause") : say("Play"));
  if (!parts.picture.box.querySelector(".handle.held")) sayMoved(out.now);
}

// open leads to the working of a number: it is that of one turn.
/** @param {string} path */
function open(path) {
  pause();
  if (rest?.turn_deg !== out?.turn_deg) get({ turn_deg: turn }, false);
  parts.working.open(path);
}

// Numbers in the pictures are of this turn, or the plan's.
const ownStep = (/** @type {string} */ path) => rest?.working.find((s) => s.path === path);
/** @type {import("./labels.js").Numbers} */
const numbers = {
  name: (path) => ownStep(path)?.name ?? stepName(path),
  open: (path, name, text) => (ownStep(path) ? open(path) : openWorking(path, name, text)),
};

/** @param {fall.View} out */
function draw(out) {
  const { fresh } = out;
  setNote(parts.message, fresh ? "" : out.message || out.problems.at(0)?.message || say("No fall can be shown."));
  show(parts.toPlan, !fresh);
  setAttr(parts.body, "data-fresh", fresh ? "true" : "false");
  // Its boxes say how large the pictures may be, also while there are none.
  parts.picture.update(fresh ? out.picture : null, false);
  parts.curve.update(fresh ? out.curve : null, false);
  parts.course.update(fresh ? out.course : null, false);
  if (!fresh) return;
  const [left, ...facts] = out.facts;
  const [away, ...whole] = out.whole;
  setText(parts.nowLabel, left.label);
  placeNumber(parts.nowValue, { text: left.value, path: left.working, label: left.label, open });
  setText(parts.awayLabel, away.label);
  placeNumber(parts.awayValue, { text: away.value, path: away.working, label: away.label, open });
  setNote(parts.awayNote, away.note);
  placeFacts(parts.facts, facts.filter((f) => f.id !== "turn"), false, open); // that stands by the slider
  placeFacts(parts.whole, whole, false, open);
  setAttr(parts.slider, "max", out.end_deg);
  parts.slider.value = String(out.turn_deg);
  setAttr(parts.slider, "aria-valuetext", out.now);
  setText(parts.turnWord, facts.find((f) => f.id === "turn")?.value);
  placeEvents(out);
}

// drawRest draws what only a whole answer gives.
/** @param {fall.View} out */
function drawRest({ fresh, picture, problems, notes, working, fields }) {
  if (fresh) placeLegend(parts.legend, [picture]);
  (fresh ? parts.side : parts.body.parentElement)?.append(parts.notesPart);
  show(parts.problemsPart, problems.length > 0);
  show(parts.problemsLead, fresh);
  placeNotes(parts.problems, problems);
  for (const item of parts.problems.children) setAttr(item, "class", "problem");
  placeNotes(parts.notes, notes);
  parts.working.update(fresh ? working : [], "fall");
  keyed(parts.fields, fields ?? [], (f) => f.path, (f) => makeField(f, {
    edit: (_, text) => {
      pause();
      speed = text;
      rest = null;
      queue();
    },
  }), updateField);
}

/** @param {fall.View} out */
function placeEvents({ events, turn_deg: now }) {
  keyed(parts.events, events, (e) => e.id, (e) => {
    const words = { name: el("span", { class: "fall-event-name" }), at: el("span", { class: "fall-event-at" }) };
    return Object.assign(button("", () => goTo(e.id), "fall-event", { "data-event": e.id }, ...Object.values(words)), { words });
  }, (node, e) => {
    setText(node.words.name, e.label);
    setText(node.words.at, e.text);
    setAttr(node, "aria-current", e.deg === now ? "true" : null);
  });
}

// goTo goes to a turn in degrees or to an event by its id.
/** @param {number | string} where */
function goTo(where) {
  pause();
  const event = out?.events.find((e) => e.id === where);
  queue({ turn_deg: event ? event.deg : Number(where) || 0 });
}

/** @param {number} by */
function nextEvent(by) {
  if (pending) compute(); // the next after the one asked for before
  const events = out?.events ?? [];
  const list = by > 0 ? events : [...events].reverse();
  const next = list.find((e) => (by > 0 ? e.deg > turn : e.deg < turn));
  if (next) goTo(next.id);
}

/** @param {number} step @param {boolean} fine */
function stepBy(step, fine) {
  pause();
  if (pending && ("x" in pending || "turn_deg" in pending || pending.fine !== fine)) compute();
  queue({ step: (pending?.step ?? 0) + step, fine });
}

/** @param {Speed} to */
function setSpeed(to) {
  if (playing && out) playing = { ...playing, from: out.time_s, since: performance.now() };
  rate = to.rate;
  setAttr(parts.play, "data-rate-word", rate === 1 ? null : to.word);
  for (const [i, b] of parts.speeds.entries()) setAttr(b, "aria-pressed", SPEEDS[i] === to ? "true" : "false");
}

function nextSpeed() {
  const i = SPEEDS.findIndex((s) => s.rate === rate);
  const next = SPEEDS[(i + 1) % SPEEDS.length];
  setSpeed(next);
  announce(next.said ?? next.word);
}

// Nothing moves unless it is asked for.
function toggle() {
  if (playing) {
    pause();
    announce(out?.now ?? "");
    return;
  }
  if (!out?.fresh) return;
  const from = turn >= out.end_deg ? 0 : out.time_s;
  playing = { from, since: performance.now(), drawn: 0 };
  cancelAnimationFrame(frame);
  frame = requestAnimationFrame(play);
  setText(parts.play, say("Pause"));
}

function pause() {
  if (!playing) return;
  playing = null;
  cancelAnimationFrame(frame);
  frame = 0;
  setText(parts.play, say("Play"));
  resting = setTimeout(() => get({ turn_deg: turn }, false), REST);
}

/** @param {number} now */
function play(now) {
  if (!playing || !out) return;
  const { from, since, drawn } = playing;
  const time = from + (Math.max(0, now - since) / 1000) * rate;
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches && now - drawn < CALM && time < out.duration_s;
  if (!still) {
    playing.drawn = now;
    get({ time_s: time }, true);
    if (!out?.fresh || turn >= out.end_deg) {
      pause();
      if (out?.fresh) announce(out.now);
      return;
    }
  }
  frame = requestAnimationFrame(play);
}

function speak() {
  clearTimeout(speaking);
  if (document.activeElement === parts.slider) return; // it says its own value
  speaking = setTimeout(() => {
    if (out?.fresh && place.view === "fall") announce(out.now);
  }, SPOKEN);
}
