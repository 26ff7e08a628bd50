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

const SPEEDS = [{ rate: 1, word: say("Real time") }, { rate: 0.5, word: "½", said: say("Half speed") }, { rate: 0.25, word: "¼", said: say("Quarter speed") }];
const REST = 120; // ms without a change until working and notes follow
const CALM = 500; // ms between pictures where motion is to be reduced
const SPOKEN = 400; // ms without a change until the turn is said aloud

const parts = {};
let turn = 0; // degrees
let speed = ""; // of the line, as typed
let out = null;
let rest = null; // what only a whole answer gives
let pending = null;
let frame = 0;
let resting = 0;
let speaking = 0;
let playing = null; // { from, since, drawn }
let rate = 1;
let before = 0; // the turn before a drag

export function startFall(root) {
  const picture = el("figure", { class: "fall-picture" });
  const curve = el("figure", { class: "fall-curve" });
  const course = el("figure", { class: "fall-course" });
  parts.picture = makePicture(picture, say("The fall"), {
    reveal: () => parts.slider.focus(),
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
  }, numbers);
  parts.curve = makePicture(curve, say("Pull needed over the turn"), null, numbers);
  parts.course = makePicture(course, say("Turn over time"), null);
  parts.legend = el("ul", { class: "legend", "aria-label": say("What the lines mean") });

  parts.message = el("p", { class: "fall-message", role: "status", hidden: true });
  parts.problems = el("ul", { class: "notes" });
  parts.toPlan = el("div", { class: "actions" }, button(say("Go to the plan"), () => move({ view: "job" })));
  parts.problemsPart = el("div", { class: "fall-problems" },
    parts.problemsLead = el("p", { text: say("This plan has problems, so there is no verdict. The fall is shown as far as it can be worked out.") }), parts.problems);

  parts.nowLabel = el("p", { class: "main-label" });
  parts.nowValue = el("p", { class: "main-value" });
  parts.awayLabel = el("p", { class: "main-label" });
  parts.awayValue = el("p", { class: "main-value" });
  parts.awayNote = el("p", { class: "quiet" });
  parts.facts = el("dl", { class: "facts fall-now" });
  parts.whole = el("dl", { class: "facts" });
  parts.fields = el("div", { class: "fields" });
  parts.notes = el("ul", { class: "cautions" });
  parts.working = makeReveal({ level: 4 });

  parts.body = el("div", { class: "fall-body" },
    el("div", { class: "fall-stage" }, picture, makeControls(), parts.legend),
    parts.side = el("div", { class: "fall-side" },
      el("div", { class: "fall-mains" },
        el("div", { class: "fall-main" }, parts.nowLabel, parts.nowValue),
        el("div", { class: "fall-main" }, parts.awayLabel, parts.awayValue), parts.awayNote),
      el("h3", { class: "fall-now", text: say("At this turn") }), parts.facts,
      el("h3", { text: say("The whole fall") }), parts.whole, parts.fields),
    el("div", { class: "fall-curves" }, curve, course),
    el("section", { class: "fall-working" }, el("h3", { text: say("Working at this turn") }), parts.working.node));
  parts.notesPart = el("section", { class: "fall-notes" }, el("h3", { text: say("Before you rely on this") }), parts.notes);
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

function makeControls() {
  parts.slider = el("input", { type: "range", class: "fall-slider", id: "fall-turn", min: "0", max: "90", step: "any", value: "0" });
  parts.slider.addEventListener("input", () => {
    pause();
    queue({ turn_deg: Number(parts.slider.value) });
  });
  parts.slider.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -10, PageUp: 10 }[event.key];
    if (by) stepBy(by, event.shiftKey);
    else if (event.key === "Home") goTo(0);
    else if (event.key === "End") goTo(out?.end_deg ?? 0);
    else return;
    event.preventDefault();
  });
  parts.turnWord = el("output", { for: "fall-turn", class: "fall-turn-word" });
  parts.play = button(say("Play"), toggle, "main fall-play", { "data-do": "play" });
  parts.speeds = el("div", { class: "fall-speeds", role: "group", "aria-label": say("Speed") },
    ...SPEEDS.map((s) => button(s.word, () => setSpeed(s.rate), "", { "data-rate": s.rate, "aria-label": s.said, "aria-pressed": s.rate === rate ? "true" : "false" })));
  parts.events = el("div", { class: "fall-events", role: "group", "aria-label": say("Moments of the fall") });
  return el("div", { class: "fall-controls" },
    el("label", { class: "fall-turn-label", for: "fall-turn", text: say("Turn") }), parts.slider, parts.turnWord, parts.play, parts.speeds, parts.events);
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
function get(where, light) {
  clearTimeout(resting);
  const got = ask("fall", {
    plan: state.plan, speed, ...where, light,
    box: boxOf(parts.picture.box), curve_box: boxOf(parts.curve.box), course_box: boxOf(parts.course.box),
  });
  if (!got) return; // the calculator has ended, and the page says so
  out = { facts: [], whole: [], events: [], ...got };
  if (!light) rest = { fields: [], working: [], problems: [], notes: [], ...got };
  else if (!playing) resting = setTimeout(() => get({ turn_deg: turn }, false), REST);
  if (out.fresh) turn = out.turn_deg;
  draw(light);
}

// open leads to the working of a number: it is that of one turn.
function open(path) {
  pause();
  if (rest?.turn_deg !== out.turn_deg) get({ turn_deg: turn }, false);
  parts.working.open(path);
}

// Numbers in the pictures are of this turn, or the plan's.
const ownStep = (path) => rest?.working.find((s) => s.path === path);
const numbers = {
  name: (path) => ownStep(path)?.name ?? stepName(path),
  open: (path, name, text) => (ownStep(path) ? open(path) : openWorking(path, name, text)),
};

function draw(light) {
  const { fresh } = out;
  setNote(parts.message, fresh ? "" : out.message || out.problems?.[0]?.message || say("No fall can be shown."));
  show(parts.toPlan, !fresh);
  setAttr(parts.body, "data-fresh", fresh ? "true" : "false");
  // Its boxes say how large the pictures may be, also while there are none.
  parts.picture.update(fresh ? out.picture : null, false);
  parts.curve.update(fresh ? out.curve : null, false);
  parts.course.update(fresh ? out.course : null, false);
  if (fresh) {
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
    if (parts.slider.value !== String(out.turn_deg)) parts.slider.value = out.turn_deg;
    setAttr(parts.slider, "aria-valuetext", out.now);
    setText(parts.turnWord, facts.find((f) => f.id === "turn")?.value);
    placeEvents();
    if (!light) placeLegend(parts.legend, [out.picture]);
  }
  if (!light) {
    (fresh ? parts.side : parts.body.parentNode).append(parts.notesPart);
    show(parts.problemsPart, Boolean(rest.problems.length));
    show(parts.problemsLead, fresh);
    placeNotes(parts.problems, rest.problems);
    for (const item of parts.problems.children) setAttr(item, "class", "problem");
    placeNotes(parts.notes, rest.notes);
    parts.working.update(fresh ? rest.working : [], "fall");
    keyed(parts.fields, rest.fields, (f) => f.path, (f) => makeField(f, {
      edit: (_, text) => {
        pause();
        speed = text;
        rest = null;
        queue();
      },
      done: () => {},
    }), updateField);
  }
  setText(parts.play, playing ? say("Pause") : say("Play"));
  if (!parts.picture.box.querySelector(".handle.held")) sayMoved(out.now);
}

function placeEvents() {
  keyed(parts.events, out.events, (e) => e.id, (e) => {
    const node = button("", () => goTo(e.id), "fall-event", { "data-event": e.id });
    node.append(el("span", { class: "fall-event-name" }), el("span", { class: "fall-event-at" }));
    return node;
  }, (node, e) => {
    setText(node.firstChild, e.label);
    setText(node.lastChild, e.text);
    setAttr(node, "aria-current", e.deg === out.turn_deg ? "true" : null);
  });
}

// goTo goes to a turn in degrees or to an event by its id.
function goTo(where) {
  pause();
  const event = out?.events.find((e) => e.id === where);
  queue({ turn_deg: event ? event.deg : Number(where) || 0 });
}

function nextEvent(by) {
  if (pending) compute(); // the next after the one asked for before
  const events = out?.events ?? [];
  const list = by > 0 ? events : [...events].reverse();
  const next = list.find((e) => (by > 0 ? e.deg > turn : e.deg < turn));
  if (next) goTo(next.id);
}

function stepBy(step, fine) {
  pause();
  if (pending && ("x" in pending || "turn_deg" in pending || pending.fine !== fine)) compute();
  queue({ step: (pending?.step ?? 0) + step, fine });
}

function setSpeed(to) {
  if (playing) playing = { ...playing, from: out.time_s, since: performance.now() };
  rate = to;
  const { word } = SPEEDS.find((s) => s.rate === rate);
  setAttr(parts.play, "data-rate-word", rate === 1 ? null : word);
  for (const b of parts.speeds.children) setAttr(b, "aria-pressed", Number(b.dataset.rate) === rate ? "true" : "false");
}

function nextSpeed() {
  const i = SPEEDS.findIndex((s) => s.rate === rate);
  const next = SPEEDS[(i + 1) % SPEEDS.length];
  setSpeed(next.rate);
  announce(next.said ?? next.word);
}

// Nothing moves unless it is asked for.
function toggle() {
  if (playing) {
    pause();
    announce(out.now);
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

function play(now) {
  if (!playing) return;
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
