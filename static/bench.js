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


/** @type {ReturnType<typeof makeParts>} */
let parts; // the nodes that are filled
let at = ""; // the bench and values of the address that is shown
let bench = ""; // its id
/** @type {{ [key: string]: string }} */
let values = {}; // those that are not as it begins, as the calculator last gave them
let answer = ""; // to the question
let seen = false; // the numbers are shown without one
let guessing = false;
/** @type {bench.View | null} */
let out = null; // what the calculator last answered
/** @type {bench.View | null} */
let lastGood = null; // the last answer with pictures
/** @type {bench.asked | null} */
let pending = null; // what is asked with the next frame
let frame = 0;
let before = { values, answer, seen }; // as they were before a drag

/** @param {HTMLElement} root */
export function startBench(root) {
  parts = makeParts();
  const { picture, curve, title, idea, main, message, guess, actions, fields, facts, notes, workingPart, select } = parts;
  root.append(
    el("div", { class: "bench-head" },
      button("", () => go(-1), "icon-button", { "aria-label": say("Previous bench") }, arrow("M15 5L8 12L15 19")),
      select,
      button("", () => go(1), "icon-button", { "aria-label": say("Next bench") }, arrow("M9 5L16 12L9 19"))),
    title, idea,
    el("div", { class: "bench-body" },
      picture.figure,
      el("div", { class: "bench-side" }, message, main.node, guess.node, actions, fields, facts, notes),
      curve.figure, workingPart),
    el("div", { class: "actions bench-more" },
      button(say("Address of this view"), showAddress), button(say("Embed on a website"), showSnippet, "", { "data-do": "snippet" }), button(say("Keys"), showKeys, "for-keys")));

  onKeys("bench", [
    { key: "b", name: "B", words: say("next bench"), run: () => go(1) },
    { key: "t", name: "T", words: say("type an answer"), run: toAnswer },
    { key: "g", name: "G", words: say("guess first"), run: () => choose("guess", state.settings.guess === "on" ? "off" : "on") },
    { key: "s", name: "S", words: say("show or hide"), run: showOrHide },
    { key: "l", name: "L", words: say("next line"), run: () => parts.working.next() },
    { key: "B", name: say("Shift B"), words: say("previous bench"), run: () => go(-1) },
  ]);
}

function makeParts() {
  const select = el("select", { id: "bench-select", "aria-label": say("Bench") });
  select.addEventListener("change", () => move({ bench: select.value, values: "" }));
  const fields = el("div", { class: "fields" });
  const working = makeReveal({ level: 4 });
  return {
    select, fields, working,
    picture: makePlace(fields), curve: makeCurve(), main: makeMain(working), guess: makeGuess(),
    title: el("h2", { class: "bench-title" }),
    idea: el("p", { class: "bench-idea" }),
    message: el("p", { class: "bench-message", role: "status", hidden: true }),
    actions: el("div", { class: "actions edits" }),
    facts: el("dl", { class: "facts" }),
    notes: el("ul", { class: "cautions" }),
    workingPart: el("section", { class: "bench-working" }, el("h3", { text: say("Working") }), working.node),
  };
}

// makePlace makes the picture with its handles.
/** @param {HTMLElement} fields */
function makePlace(fields) {
  const figure = el("figure", { class: "bench-picture" });
  const { box, update } = makePicture(figure, say("Picture"), {
    reveal: (path) => /** @type {HTMLElement | null} */ (fields.querySelector(`[data-path="${path}"] :is(input, select)`))?.focus(),
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
  const spots = svg("g", { class: "spots" });
  box.querySelector(".shapes")?.after(spots);
  const parts = el("dl", { class: "facts bench-parts", "aria-label": say("Parts of rope") });
  figure.append(parts);
  return { figure, box, update, spots, parts };
}

function makeCurve() {
  const figure = el("figure", { class: "bench-curve" });
  return { figure, ...makePicture(figure, say("Curve")) };
}

// makeMain makes the main number, with the switch to hold it back.
/** @param {ReturnType<typeof makeReveal>} working */
function makeMain(working) {
  const guessing = el("input", { type: "checkbox", id: "bench-guess" });
  guessing.addEventListener("change", () => choose("guess", guessing.checked ? "on" : "off"));
  const label = el("p", { class: "main-label" });
  const value = el("p", { class: "main-value" });
  const note = el("p", { class: "quiet" });
  const why = button(say("Why?"), () => working.open(out?.facts[0].working ?? ""), "bench-why");
  const node = el("div", { class: "bench-main" }, label,
    el("div", { class: "main-row" }, value, why, el("label", { class: "menu-check guess-switch" }, guessing, " ", say("Guess first"))), note);
  return { node, guessing, label, value, note, why };
}

/** @param {string} d */
function arrow(d) {
  return svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true" }, svg("path", { d }));
}

function makeGuess() {
  const question = el("label", { class: "question", for: "bench-answer" });
  const answer = el("input", { type: "text", id: "bench-answer", inputmode: "decimal", autocomplete: "off", autocapitalize: "off", spellcheck: "false" });
  answer.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault(); // the button that takes the focus would be pressed by the same key
    give();
  });
  const unit = el("span", { class: "unit", id: "bench-answer-unit" });
  const giveIt = button(say("Answer"), give, "main", { "data-do": "answer" });
  const showIt = button(say("Show the answer"), () => hold(false), "", { "data-do": "show" });
  const again = button(say("Ask again"), () => hold(true), "", { "data-do": "again" });
  const said = el("p", { class: "said", id: "bench-said", role: "status", hidden: true });
  const node = el("div", { class: "guess", hidden: true }, question, el("div", { class: "field-row" }, answer, unit, giveIt, showIt, again), said);
  return { node, question, answer, unit, giveIt, showIt, again, said };
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
    parts.guess.answer.value = "";
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
  values = readValues(place.values) ?? {};
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
  parts.guess.answer.value = "";
  bench = plain?.id ?? "";
}

// go goes to the bench so many further in the list.
/** @param {number} by */
function go(by) {
  const list = out?.benches ?? [];
  const i = list.findIndex((b) => b.value === bench);
  if (i < 0 || list.length < 2) return;
  scrollTo({ top: 0, behavior: "instant" });
  move({ bench: list[(i + by + list.length) % list.length].value, values: "" });
}

function heldHandle() {
  return parts.picture.box.querySelector(".handle.held")?.getAttribute("data-handle") ?? "";
}

// change asks for something that changes a value; what was answered before
// was of other numbers.
/** @param {bench.asked} more */
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
/** @param {bench.asked} more */
function queue(more = {}) {
  const kind = (/** @type {bench.asked} */ m) => (m.set ? `set ${m.set}` : m.handle ? `${m.handle} ${"x" in m} ${m.fine}` : "");
  if (pending && kind(pending) && kind(more) && kind(pending) !== kind(more)) compute();
  const steps = pending && more.step_x !== undefined
    ? { step_x: (pending.step_x ?? 0) + more.step_x, step_y: (pending.step_y ?? 0) + (more.step_y ?? 0) } : {};
  pending = { ...pending, ...more, ...steps };
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
  if (!got?.facts) return; // the calculator has ended, and the page says so
  out = got;
  if (out.id) {
    values = out.changed;
    keep({ bench, values: writeValues(values) });
    at = `${place.bench} ${place.values}`;
  }
  if (out.fresh && out.picture) lastGood = out;
  draw(out);
}

/** @param {bench.View} out */
function draw(out) {
  const locked = readOnly();
  const { fresh, hidden } = out;
  const { main } = parts;
  const stale = !fresh;
  if (parts.title.textContent && parts.title.textContent !== out.title) announce(`${out.title}. ${mainWords()}`);
  setBenches(out);
  setText(parts.title, out.title);
  setText(parts.idea, out.idea);
  setNote(parts.message, out.message || out.lacks);
  parts.picture.box.style.setProperty("--needs", String(out.height ?? lastGood?.height ?? 0));
  parts.picture.update(fresh ? out.picture : lastGood?.picture, stale);
  parts.curve.update(fresh ? out.curve : lastGood?.curve, stale);

  const fact = out.facts.at(0);
  setAttr(main.node, "data-state", hidden ? "hidden" : stale || !fact ? "unknown" : "known");
  setText(main.label, hidden ? say("Hidden until you answer") : out.lacks ? say("No number yet") : stale || !fact ? say("A value below needs fixing") : fact.label);
  setText(main.value, hidden ? "?" : stale || !fact ? NOT_KNOWN : fact.value);
  setNote(main.note, fresh && !hidden ? fact?.note : "");
  show(main.why, fresh && !hidden && Boolean(fact?.working));
  placeFacts(parts.picture.parts, fresh ? out.parts ?? [] : [], false, parts.working.open);
  show(parts.picture.parts, fresh && Boolean(out.parts?.length));
  placeFacts(parts.facts, fresh ? out.facts.slice(1) : [], false, parts.working.open);
  placeGuess(out);

  keyed(parts.fields, out.fields, (f) => `${f.kind} ${f.path}`, (f) => makeField(f, {
    edit: (path, text) => change({ set: path, text }),
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
/** @param {string} name */
function act(name) {
  change({ do: name });
  compute();
}

// placeSpots lights the places of the picture that do what a button beside it
// does; for the keyboard there are the buttons.
/** @param {draw.Drawing | null | undefined} picture */
function placeSpots(picture) {
  const { spots } = parts.picture;
  spots.style.setProperty("font-size", `${picture?.font ?? 0}px`);
  keyed(spots, picture?.spots ?? [], (s) => s.do, (s) => {
    const parts = { title: svg("title"), area: svg("rect", { y: 0 }), ring: svg("circle", { r: "0.85em" }), letter: svg("text", { "text-anchor": "middle" }) };
    const spot = svg("g", { class: "spot", "data-spot": s.do, "aria-hidden": "true" }, ...Object.values(parts));
    spot.addEventListener("click", () => act(s.do));
    return Object.assign(spot, { parts });
  }, (node, s) => {
    const { title, area, ring, letter } = node.parts;
    setText(title, s.label);
    setAttr(area, "width", s.w);
    setAttr(area, "height", picture?.h);
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
  const fact = out?.facts.at(0);
  return out?.fresh && !out.hidden && fact ? `${fact.label}: ${fact.value}` : "";
}

/** @param {bench.View} out */
function setBenches({ benches: list, themes, id }) {
  const { select } = parts;
  if (select.options.length !== list.length || list.some((b, i) => select.options[i].value !== b.value || select.options[i].text !== b.label)) {
    /** @type {HTMLElement} */
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

/** @param {bench.View} out */
function placeGuess({ guess, hidden, fresh }) {
  const on = state.settings.guess === "on";
  const { node, question, answer, unit, giveIt, showIt, again, said } = parts.guess;
  parts.main.guessing.checked = on;
  show(node, on && fresh && Boolean(guess));
  if (!guess) return;
  setText(question, guess.question);
  setNote(unit, guess.unit);
  show(answer, hidden);
  show(giveIt, hidden);
  show(showIt, hidden);
  show(again, !hidden);
  if (!hidden) show(unit, false);
  setAttr(said, "data-state", guess.state || null);
  setNote(said, guess.message);
  setAttr(answer, "aria-invalid", guess.state === "unread" ? "true" : null);
  setAttr(answer, "aria-describedby", [guess.unit ? "bench-answer-unit" : "", guess.message ? "bench-said" : ""].filter(Boolean).join(" ") || null);
}

// give gives the answer that was typed.
function give() {
  answer = parts.guess.answer.value.trim();
  if (answer === "") {
    parts.guess.answer.focus();
    return;
  }
  compute();
  const found = out?.guess?.state;
  if (found === "right" || found === "wrong") {
    parts.guess.again.focus({ preventScroll: true });
    answered({ kind: "bench", id: bench, text: answer, state: found });
  }
}

// hold holds the numbers back again, or shows them without an answer.
/** @param {boolean} back */
function hold(back) {
  answer = "";
  seen = !back;
  parts.guess.answer.value = "";
  compute();
  (back ? parts.guess.answer : parts.guess.again).focus({ preventScroll: true });
}

// toAnswer goes to where the answer is typed, or the first value.
function toAnswer() {
  const field = /** @type {HTMLElement | null} */ (parts.fields.querySelector("input, select"));
  (parts.guess.answer.checkVisibility() ? parts.guess.answer : field)?.focus();
}

function showOrHide() {
  parts.main.node.scrollIntoView({ block: "nearest", behavior: "instant" });
  if (state.settings.guess !== "on" && !out?.hidden) choose("guess", "on");
  else hold(!out?.hidden);
}
