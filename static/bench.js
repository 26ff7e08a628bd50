// A bench: one idea in a picture with its handles, the number it leads to,
// its curve, its working and the question asked first.

import { answered, keep, move, place } from "./place.js";
import { cut, readValues, writeValues } from "./address.js";
import { showAddress } from "./addressing.js";
import { button } from "./dialogs.js";
import { el, keyed, setAttr, setNote, setText, show, svg } from "./dom.js";
import { sayMoved } from "./dragging.js";
import { boxOf, makePicture } from "./drawing.js";
import { makeField, readOnly, updateField } from "./form.js";
import { onKeys, showKeys } from "./keys.js";
import { announce, notice } from "./messages.js";
import { makeReveal } from "./reveal.js";
import { say } from "./say.js";
import { choose } from "./settings.js";
import { ask, state } from "./state.js";
import { showSnippet } from "./snippet.js";
import { placeFacts, placeNotes } from "./tables.js";

const NOT_KNOWN = say("Not known");

const parts = {}; // the nodes that are filled
let at = null; // the bench and values of the address that is shown
let bench = ""; // its id
let values = {}; // those that are not as it begins, as the calculator last gave them
let answer = ""; // to the question
let seen = false; // the numbers are shown without one
let guessing = false;
let out = null; // what the calculator last answered
let lastGood = null; // the last answer with pictures
let pending = null; // what is asked with the next frame
let frame = 0;
let before = null; // values before a drag

export function startBench(root) {
  const picture = el("figure", { class: "bench-picture" });
  const curve = el("figure", { class: "bench-curve" });
  parts.picture = makePicture(picture, say("Picture"), {
    reveal: (path) => parts.fields.querySelector(`[data-path="${path}"] :is(input, select)`)?.focus(),
    start: () => { before = { values, answer, seen }; },
    to: (x, y) => change({ handle: heldHandle(), x, y }),
    end: (giveUp) => {
      if (giveUp) {
        ({ values, answer, seen } = before);
        pending = null;
        queue();
      } else if (pending) {
        compute();
      } else {
        sayMoved(mainWords());
      }
    },
    step: (handle, x, y, fine) => change({ handle, step_x: x, step_y: y, fine }),
  });
  parts.spots = svg("g", { class: "spots" });
  parts.picture.box.querySelector(".shapes").after(parts.spots);
  parts.parts = el("dl", { class: "facts bench-parts", "aria-label": say("Parts of rope") });
  picture.append(parts.parts);
  parts.curve = makePicture(curve, say("Curve"), null);
  parts.curveFigure = curve;

  parts.select = el("select", { id: "bench-select", "aria-label": say("Bench") });
  parts.select.addEventListener("change", () => move({ bench: parts.select.value, values: "" }));
  parts.title = el("h2", { class: "bench-title" });
  parts.idea = el("p", { class: "bench-idea" });
  parts.message = el("p", { class: "bench-message", role: "status", hidden: true });

  parts.guessing = el("input", { type: "checkbox", id: "bench-guess" });
  parts.guessing.addEventListener("change", () => choose("guess", parts.guessing.checked ? "on" : "off"));
  const guessSwitch = el("label", { class: "menu-check guess-switch" }, parts.guessing, " ", say("Guess first"));
  parts.mainLabel = el("p", { class: "main-label" });
  parts.mainValue = el("p", { class: "main-value" });
  parts.mainNote = el("p", { class: "quiet" });
  parts.why = button(say("Why?"), () => parts.working.open(out.facts[0].working), "bench-why");
  parts.main = el("div", { class: "bench-main" }, parts.mainLabel, el("div", { class: "main-row" }, parts.mainValue, parts.why, guessSwitch), parts.mainNote);

  parts.fields = el("div", { class: "fields" });
  parts.actions = el("div", { class: "actions edits" });
  parts.facts = el("dl", { class: "facts" });
  parts.notes = el("ul", { class: "cautions" });
  parts.working = makeReveal({ level: 4 });
  parts.workingPart = el("section", { class: "bench-working" }, el("h3", { text: say("Working") }), parts.working.node);

  root.append(
    el("div", { class: "bench-head" },
      button("", () => go(-1), "icon-button", { "aria-label": say("Previous bench") }),
      parts.select,
      button("", () => go(1), "icon-button", { "aria-label": say("Next bench") })),
    parts.title, parts.idea,
    el("div", { class: "bench-body" },
      picture,
      el("div", { class: "bench-side" },
        parts.message, parts.main, makeGuess(), parts.actions, parts.fields,
        parts.facts, parts.notes),
      curve, parts.workingPart),
    el("div", { class: "actions bench-more" },
      button(say("Address of this view"), showAddress), button(say("Embed on a website"), showSnippet, "", { "data-do": "snippet" }), button(say("Keys"), showKeys, "for-keys")));
  for (const [i, d] of [[0, "M15 5L8 12L15 19"], [2, "M9 5L16 12L9 19"]]) root.querySelector(".bench-head").children[i].append(arrow(d));

  onKeys("bench", [
    { key: "b", name: "B", words: say("next bench"), run: () => go(1) },
    { key: "t", name: "T", words: say("type an answer"), run: toAnswer },
    { key: "g", name: "G", words: say("guess first"), run: () => choose("guess", state.settings.guess === "on" ? "off" : "on") },
    { key: "s", name: "S", words: say("show or hide"), run: showOrHide },
    { key: "l", name: "L", words: say("next line"), run: () => parts.working.next() },
    { key: "B", name: say("Shift B"), words: say("previous bench"), run: () => go(-1) },
  ]);
}

function arrow(d) {
  const ns = "http://www.w3.org/2000/svg";
  const icon = document.createElementNS(ns, "svg");
  const path = document.createElementNS(ns, "path");
  setAttr(icon, "viewBox", "0 0 24 24");
  setAttr(icon, "aria-hidden", "true");
  setAttr(path, "d", d);
  icon.append(path);
  return icon;
}

function makeGuess() {
  parts.question = el("label", { class: "question", for: "bench-answer" });
  parts.answer = el("input", { type: "text", id: "bench-answer", inputmode: "decimal", autocomplete: "off", autocapitalize: "off", spellcheck: "false" });
  parts.answer.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault(); // the button that takes the focus would be pressed by the same key
    give();
  });
  parts.answerUnit = el("span", { class: "unit", id: "bench-answer-unit" });
  parts.give = button(say("Answer"), give, "main", { "data-do": "answer" });
  parts.showIt = button(say("Show the answer"), () => hold(false), "", { "data-do": "show" });
  parts.again = button(say("Ask again"), () => hold(true), "", { "data-do": "again" });
  parts.said = el("p", { class: "said", id: "bench-said", role: "status", hidden: true });
  parts.guess = el("div", { class: "guess", hidden: true }, parts.question,
    el("div", { class: "field-row" }, parts.answer, parts.answerUnit, parts.give, parts.showIt, parts.again), parts.said);
  return parts.guess;
}

export function showBench() {
  const on = state.settings.guess === "on";
  const named = `${place.bench} ${place.values}`;
  if (at !== named) {
    begin();
    at = named;
  }
  if (on !== guessing) {
    guessing = on;
    answer = "";
    seen = false;
    parts.answer.value = "";
  }
  queue();
}

export function leaveBench() {
  cancelAnimationFrame(frame);
  frame = 0;
  pending = null;
}

// begin takes up the bench and the values that the address names.
function begin() {
  bench = place.bench;
  const plain = ask("bench", { bench });
  const starts = plain?.values ?? {};
  values = readValues(place.values);
  // The names have metric units, and what is accepted is said in them.
  const first = ask("bench", { bench, values, settings: { units: "kN", words: state.settings.words, language: state.settings.language } });
  const wrong = first?.message ? [first.message] : [];
  for (const f of first?.fields ?? []) {
    if (!f.problem) continue;
    wrong.push(say("“{name}” in the address cannot be “{text}”. {problem} Used instead: {standard}.", { name: f.path, text: cut(values[f.path]), problem: f.problem, standard: starts[f.path] }));
    delete values[f.path];
  }
  if (wrong.length) notice("bench", wrong.join(" "));
  answer = "";
  seen = false;
  lastGood = null;
  parts.answer.value = "";
  bench = plain?.id ?? "";
}

// go goes to the bench so many further in the list.
function go(by) {
  const list = out?.benches ?? [];
  const i = list.findIndex((b) => b.value === bench);
  if (i < 0 || list.length < 2) return;
  scrollTo({ top: 0, behavior: "instant" });
  move({ bench: list[(i + by + list.length) % list.length].value, values: "" });
}

function heldHandle() {
  return parts.picture.box.querySelector(".handle.held")?.dataset.handle ?? "";
}

// change asks for something that changes a value; what was answered before
// was of other numbers.
function change(more) {
  if (readOnly()) return;
  const { state: judged } = out?.guess ?? {};
  if (answer && (judged === "right" || judged === "wrong")) {
    answer = "";
    seen = true;
  }
  queue(more);
}

// queue asks the calculator with the next frame. Moves of one kind become
// one; another kind has to wait for the first to be worked out.
function queue(more = {}) {
  const kind = (m) => (m.set ? `set ${m.set}` : m.handle ? `${m.handle} ${"x" in m} ${m.fine}` : "");
  if (pending && kind(pending) && kind(more) && kind(pending) !== kind(more)) compute();
  if (pending?.step_x !== undefined && more.step_x !== undefined) {
    more = { ...more, step_x: pending.step_x + more.step_x, step_y: pending.step_y + more.step_y };
  }
  pending = { ...pending, ...more };
  if (!frame) frame = requestAnimationFrame(compute);
}

function compute() {
  cancelAnimationFrame(frame);
  frame = 0;
  const more = pending ?? {};
  pending = null;
  const got = ask("bench", {
    bench, values, box: boxOf(parts.picture.box), curve_box: boxOf(parts.curve.box),
    guess: state.settings.guess === "on", answer, shown: seen, ...more,
  });
  if (!got) return; // the calculator has ended, and the page says so
  out = { facts: [], fields: [], working: [], notes: [], benches: [], themes: [], ...got };
  if (out.id) {
    values = out.changed;
    keep({ bench, values: writeValues(values) });
    at = `${place.bench} ${place.values}`;
  }
  if (out.fresh && out.picture) lastGood = out;
  draw();
}

function draw() {
  const locked = readOnly();
  const { fresh, hidden } = out;
  const stale = !fresh;
  if (parts.title.textContent && parts.title.textContent !== out.title) announce(`${out.title}. ${mainWords()}`);
  setBenches(out);
  setText(parts.title, out.title);
  setText(parts.idea, out.idea);
  setNote(parts.message, out.message || out.lacks);
  parts.picture.box.style.setProperty("--needs", out.height ?? lastGood?.height ?? 0);
  parts.picture.update(fresh ? out.picture : lastGood?.picture, stale);
  parts.curve.update(fresh ? out.curve : lastGood?.curve, stale);

  const fact = out.facts[0];
  setAttr(parts.main, "data-state", hidden ? "hidden" : stale || !fact ? "unknown" : "known");
  setText(parts.mainLabel, hidden ? say("Hidden until you answer") : out.lacks ? say("No number yet") : stale || !fact ? say("A value below needs fixing") : fact.label);
  setText(parts.mainValue, hidden ? "?" : stale || !fact ? NOT_KNOWN : fact.value);
  setNote(parts.mainNote, fresh && !hidden ? fact?.note : "");
  show(parts.why, fresh && !hidden && Boolean(fact?.working));
  placeFacts(parts.parts, fresh ? out.parts ?? [] : [], false, (path) => parts.working.open(path));
  show(parts.parts, fresh && Boolean(out.parts?.length));
  placeFacts(parts.facts, fresh ? out.facts.slice(1) : [], false, (path) => parts.working.open(path));
  placeGuess(fresh);

  keyed(parts.fields, out.fields, (f) => `${f.kind} ${f.path}`, (f) => makeField(f, {
    edit: (path, text) => change({ set: path, text }),
    done: () => {},
  }), updateField);
  placeSpots(locked || stale ? null : out.picture);
  setAttr(parts.actions, "data-first", out.lacks ? "true" : null);
  show(parts.actions, !locked && Boolean(out.actions?.length));
  keyed(parts.actions, out.actions ?? [], (a) => a.do, (a) => button(a.label, () => {
    act(a.do);
    // The one pressed may be gone now: the next press is near.
    if (document.activeElement === document.body) parts.actions.querySelector("button")?.focus({ preventScroll: true });
  }, "", { "data-do": a.do }), (node, a) => setText(node, a.label));

  placeNotes(parts.notes, out.notes);
  parts.working.update(fresh ? out.working : [], bench);
  show(parts.workingPart, fresh && out.working.length > 0);
  if (!heldHandle()) sayMoved(mainWords());
}

// act does one of the bench's actions.
function act(name) {
  change({ do: name });
  compute();
}

// placeSpots lights the places of the picture that do what a button beside it
// does; for the keyboard there are the buttons.
function placeSpots(picture) {
  parts.spots.style.setProperty("font-size", `${picture?.font ?? 0}px`);
  keyed(parts.spots, picture?.spots ?? [], (s) => s.do, (s) => {
    const spot = svg("g", { class: "spot", "data-spot": s.do, "aria-hidden": "true" },
      svg("title"), svg("rect", { y: 0 }), svg("circle", { r: "0.85em" }), svg("text", { "text-anchor": "middle" }));
    spot.addEventListener("click", () => act(s.do));
    return spot;
  }, (node, s) => {
    const [title, area, ring, letter] = node.children;
    setText(title, s.label);
    setAttr(area, "width", s.w);
    setAttr(area, "height", picture.h);
    setAttr(area, "x", s.x - s.w / 2);
    setAttr(ring, "cx", s.x);
    setAttr(ring, "cy", s.y);
    setAttr(letter, "x", s.x);
    setAttr(letter, "y", s.y);
    setText(letter, s.mark);
  });
}

// mainWords says the main number.
function mainWords() {
  const fact = out?.facts[0];
  return out?.fresh && !out.hidden && fact ? `${fact.label}: ${fact.value}` : "";
}

function setBenches({ benches: list, themes, id }) {
  const { select } = parts;
  if (select.options.length !== list.length || list.some((b, i) => select.options[i].value !== b.value || select.options[i].text !== b.label)) {
    let group = select;
    select.replaceChildren();
    for (const b of list) {
      const theme = themes.find((t) => t.value === b.value);
      if (theme) select.append(group = el("optgroup", { label: theme.label }));
      group.append(el("option", { value: b.value, text: b.label }));
    }
  }
  if (select.value !== id) select.value = id;
}

function placeGuess(fresh) {
  const on = state.settings.guess === "on";
  const { guess, hidden } = out;
  const waiting = Boolean(hidden);
  parts.guessing.checked = on;
  show(parts.guess, on && fresh && Boolean(guess));
  if (!guess) return;
  setText(parts.question, guess.question);
  setNote(parts.answerUnit, guess.unit);
  show(parts.answer, waiting);
  show(parts.give, waiting);
  show(parts.showIt, waiting);
  show(parts.again, !waiting);
  if (!waiting) show(parts.answerUnit, false);
  setAttr(parts.said, "data-state", guess.state || null);
  setNote(parts.said, guess.message);
  setAttr(parts.answer, "aria-invalid", guess.state === "unread" ? "true" : null);
  setAttr(parts.answer, "aria-describedby", [guess.unit ? "bench-answer-unit" : "", guess.message ? "bench-said" : ""].filter(Boolean).join(" ") || null);
}

// give gives the answer that was typed.
function give() {
  answer = parts.answer.value.trim();
  if (answer === "") {
    parts.answer.focus();
    return;
  }
  compute();
  const { guess } = out;
  if (guess?.state === "right" || guess?.state === "wrong") {
    parts.again.focus({ preventScroll: true });
    answered({ kind: "bench", id: bench, text: answer, state: guess.state });
  }
}

// hold holds the numbers back again, or shows them without an answer.
function hold(back) {
  answer = "";
  seen = !back;
  parts.answer.value = "";
  compute();
  (back ? parts.answer : parts.again).focus({ preventScroll: true });
}

// toAnswer goes to where the answer is typed, or the first value.
function toAnswer() {
  (parts.answer.checkVisibility() ? parts.answer : parts.fields.querySelector("input, select"))?.focus();
}

function showOrHide() {
  parts.main.scrollIntoView({ block: "nearest", behavior: "instant" });
  if (state.settings.guess !== "on" && !out?.hidden) choose("guess", "on");
  else hold(!out?.hidden);
}
