// Practice: a sheet of questions from a number, answers judged as they are
// given, the working line by line, and the sheet on paper.

import { button } from "./dialogs.js";
import { el, keyed, setAttr, setNote, setText, show } from "./dom.js";
import { boxOf, makePicture } from "./drawing.js";
import { readOnly } from "./form.js";
import { isObject } from "./intake.js";
import { keep as keepEntry, kept as keptEntry, keptMost } from "./journal.js";
import { onKeys } from "./keys.js";
import { announce, dismiss, notice } from "./messages.js";
import { breakPage, printInstead } from "./paper.js";
import { answered, keep, move, place } from "./place.js";
import { makeReveal } from "./reveal.js";
import { say } from "./say.js";
import { showSnippet } from "./snippet.js";
import { ask } from "./state.js";

const FIRST_BOX = { w: 340, h: 190 }; // until a picture is there to be measured
const PAPER_BOX = { w: 300, h: 165 };
const MOST_SHEETS = 20; // the sheets worked on last are kept, in the journal

const parts = {}; // the nodes that are filled
const cards = new WeakMap(); // the parts of a question's node
let kept = { key: "", given: {}, typed: {} }; // the answers to the sheet, by question: as given, and as they stand in the boxes
let box = FIRST_BOX;
let at = ""; // seed and grade that are shown
let sheet = null; // what the calculator last answered
let wrong = ""; // what of the address it could not use
let toPrint = ["questions", "answers"];
let printed = null; // the sheet as it is printed, with its answers

export function startPractice(root) {
  parts.title = el("h2", {});
  parts.grade = el("select", { id: "practice-grade" });
  parts.grade.addEventListener("change", () => move({ grade: parts.grade.value }));
  parts.seed = el("input", { type: "text", id: "practice-seed", maxlength: "24", autocomplete: "off", autocapitalize: "off", spellcheck: "false" });
  parts.seed.addEventListener("change", () => move({ seed: parts.seed.value.trim() }));
  parts.another = button(say("Another sheet"), another, "", { id: "practice-another" });
  parts.message = el("p", { class: "practice-message", role: "status", hidden: true });
  parts.invented = el("p", { class: "quiet" });
  parts.score = el("p", { class: "practice-score", role: "status" });
  parts.list = el("ol", { class: "drills" });
  parts.again = button(say("Clear the answers"), () => (canBringBack() ? bringBack() : startAgain()), "", { id: "practice-again" });
  root.append(parts.title,
    el("div", { class: "practice-choice" },
      el("label", { class: "practice-grade" }, el("span", { text: say("Grade") }), parts.grade),
      el("label", { class: "practice-seed" }, el("span", { text: say("Sheet") }), parts.seed),
      parts.another),
    parts.message, parts.invented, parts.score, parts.list,
    el("div", { class: "actions practice-print" },
      parts.again,
      button(say("Print questions"), () => printSheets("questions"), "", { id: "print-questions" }),
      button(say("Print answers"), () => printSheets("answers"), "", { id: "print-answers" }),
      button(say("Embed on a website"), showSnippet, "", { "data-do": "snippet" })));
  printInstead("practice", paperPages, breakSheets);
  addEventListener("afterprint", () => { toPrint = ["questions", "answers"]; });
  onKeys("practice", [
    { key: "n", name: "N", words: say("next question"), run: () => goBy(1) },
    { key: "N", name: say("Shift N"), words: say("previous question"), run: () => goBy(-1) },
    { key: "l", name: "L", words: say("next line of its working"), run: () => cards.get(here())?.reveal.next() },
    { key: "s", name: "S", words: say("another sheet"), run: another },
  ]);
}

export function showPractice() {
  if (at !== `${place.seed} ${place.grade}`) begin();
  compute();
}

export function leavePractice() {}

// begin takes up the sheet that the address names.
function begin() {
  const first = asked({});
  wrong = first?.message ?? "";
  if (first?.questions) keep({ seed: first.seed, grade: first.grade });
  at = `${place.seed} ${place.grade}`;
}

// loadSheet gives what was kept of a sheet, or null.
function loadSheet(key) {
  const { given, typed: boxes } = keptEntry(`practice/${key}`) ?? {};
  return isObject(given) && isObject(boxes) ? structuredClone({ key, given, typed: boxes }) : null;
}

// saveSheet keeps a sheet, in place of what was kept of it before; one
// without any answer is forgotten.
function saveSheet(sheet) {
  keepEntry(`practice/${sheet.key}`, isClean(sheet) ? null : structuredClone(sheet));
  keptMost("practice/", MOST_SHEETS);
}

// takeUp begins to work on a sheet, with what was kept of it before.
function takeUp(sheet) {
  kept = sheet;
  const list = el("ol", { class: "drills" });
  parts.list.replaceWith(list);
  parts.list = list;
}

function another() {
  if (readOnly()) return;
  move({ seed: String(1000 + Math.floor(Math.random() * 9000)) });
}

// A sheet that was cleared can be had back: from the bar above for as long as
// that stands, and from the button that cleared it until an answer is typed.
const CLEARED = "practice-cleared";
let cleared = null; // the answers, with the place of their sheet

const isClean = (answers) => Object.keys({ ...answers.given, ...answers.typed }).length === 0;
const canBringBack = () => cleared !== null && cleared.key === kept.key && isClean(kept);

function startAgain() {
  if (!isClean(kept)) {
    cleared = { ...kept, place: { seed: place.seed, grade: place.grade } };
    notice(CLEARED, say("The answers to sheet {seed} are cleared.", { seed: sheet.seed }), say("Undo"), bringBack);
  }
  takeUp({ key: kept.key, given: {}, typed: {} });
  saveSheet(kept);
  compute();
  scrollTo({ top: 0, behavior: "instant" });
}

// bringBack brings cleared answers back; what was typed since then stays.
function bringBack() {
  dismiss(CLEARED);
  const { key, given, typed, place: at } = cleared;
  cleared = null;
  const now = kept.key === key ? kept : loadSheet(key);
  const both = { key, given: { ...given, ...now?.given }, typed: { ...typed, ...now?.typed } };
  saveSheet(both);
  if (kept.key === key) {
    takeUp(both);
    compute();
  } else {
    move(at);
  }
}

function dressAgain() {
  setText(parts.again, canBringBack() ? say("Restore the answers") : say("Clear the answers"));
}

function asked(more) {
  return ask("practice", { seed: place.seed || undefined, grade: place.grade || undefined, ...more });
}

function compute() {
  let got = asked({ answers: kept.given, box });
  if (!got?.questions) return; // the calculator has ended, and the page says so
  if (got.key !== kept.key) {
    takeUp(loadSheet(got.key) ?? { key: got.key, given: {}, typed: {} });
    got = asked({ answers: kept.given, box });
  }
  sheet = got;
  draw();
  const picture = parts.list.querySelector(".drill-picture:not([hidden]) .picture-box");
  const now = picture ? boxOf(picture) : box;
  if (now.w > 0 && (now.w !== box.w || now.h !== box.h)) {
    box = now;
    compute();
  }
}

function draw() {
  const { grades, grade, seed } = sheet;
  if (parts.grade.options.length !== grades.length || grades.some((g, i) => parts.grade.options[i].text !== g.label)) {
    parts.grade.replaceChildren(...grades.map((g) => el("option", { value: g.value, text: g.label })));
  }
  parts.grade.value = grade;
  if (document.activeElement !== parts.seed) parts.seed.value = seed;
  for (const control of [parts.grade, parts.seed, parts.another]) control.disabled = readOnly();
  setText(parts.title, sheet.title);
  setNote(parts.message, sheet.message || wrong);
  setText(parts.invented, sheet.invented);
  setText(parts.score, sheet.score);
  dressAgain();
  keyed(parts.list, sheet.questions, (q) => `${q.kind} ${q.id}`, makeCard, updateCard);
}

function makeCard(q) {
  const name = `drill-${q.id}`;
  const p = {
    number: el("h3", { class: "drill-number", tabindex: "-1" }), text: el("p", { class: "drill-text", id: `${name}-text` }),
    given: el("ul", { class: "drill-given" }), figure: el("figure", { class: "drill-picture" }),
    said: el("p", { class: "said", role: "status", id: `${name}-said`, hidden: true }),
    reveal: makeReveal({ label: say("Working of question {n}", { n: q.id }), level: 4 }), state: "",
  };
  p.picture = makePicture(p.figure, say("Picture of question {n}", { n: q.id }), null);
  p.working = el("section", { class: "drill-working" }, el("h4", { text: say("Working") }), p.reveal.node);
  p.answer = q.kind === "choice" ? makeChoice(q, p, name) : makeNumber(q, p, name);
  const node = el("li", { class: "drill", "data-question": q.id },
    el("div", { class: "drill-body" }, p.number, p.text, p.given, p.answer, p.said), p.figure, p.working);
  cards.set(node, p);
  return node;
}

function makeNumber(q, p, name) {
  p.input = el("input", { type: "text", id: `${name}-answer`, inputmode: "decimal", maxlength: "60", autocomplete: "off", autocapitalize: "off", spellcheck: "false" });
  p.unit = el("span", { class: "unit", id: `${name}-unit` });
  p.tolerance = el("p", { class: "quiet", id: `${name}-tolerance` });
  setAttr(p.input, "aria-labelledby", `${name}-text ${name}-unit`);
  setAttr(p.input, "aria-describedby", `${name}-said ${name}-tolerance`);
  const check = () => give(q.id, p.input.value.trim(), p.input);
  p.input.value = kept.typed[q.id] ?? "";
  p.input.addEventListener("input", () => typed(q.id, p.input.value));
  p.input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") check();
  });
  return el("div", { class: "drill-answer" },
    el("div", { class: "field-row" }, p.input, p.unit, button(say("Check"), check, "main", { "data-do": "check" })), p.tolerance);
}

function makeChoice(q, p, name) {
  p.options = el("div", { class: "drill-options", role: "radiogroup", "aria-labelledby": `${name}-text` });
  p.name = name;
  const check = () => {
    const chosen = p.options.querySelector("input:checked");
    give(q.id, chosen?.value ?? "", chosen ?? p.options.querySelector("input"));
  };
  p.options.addEventListener("change", (event) => typed(q.id, event.target.value));
  p.options.addEventListener("keydown", (event) => {
    if (event.key === "Enter") check();
  });
  return el("div", { class: "drill-answer" }, p.options, el("div", {}, button(say("Check"), check, "main", { "data-do": "check" })));
}

function updateCard(node, q) {
  const p = cards.get(node);
  setText(p.number, say("Question {n}", { n: q.id }));
  setText(p.text, q.text);
  keyed(p.given, q.given.map((text, i) => ({ text, i })), (g) => String(g.i), () => el("li", {}), (li, g) => setText(li, g.text));
  show(p.given, q.given.length > 0);
  show(p.figure, Boolean(q.picture));
  p.picture.update(q.picture, false);
  if (p.input) {
    setNote(p.unit, q.unit);
    setText(p.tolerance, q.tolerance);
    setAttr(p.input, "aria-invalid", q.state === "unread" ? "true" : null);
  } else {
    keyed(p.options, q.options, (o) => o.value, (o) => el("label", { class: "drill-option" }, el("input", { type: "radio", name: p.name, value: o.value, checked: kept.typed[q.id] === o.value }), el("span", {})),
      (label, o) => setText(label.lastChild, o.label));
  }
  setAttr(node, "data-state", q.state || null);
  setAttr(p.said, "data-state", q.state || null);
  setNote(p.said, q.says);
  show(p.working, Boolean(q.solution));
  p.reveal.update(q.solution, `${sheet.key} ${q.id}`);
}

// typed keeps what stands in a box at once: the page may be killed.
function typed(id, text) {
  if (text === "") delete kept.typed[id];
  else kept.typed[id] = text;
  saveSheet(kept);
  dressAgain();
}

// give gives an answer to a question; focus goes back to where it was typed.
function give(id, text, input) {
  if (text === "") {
    input?.focus();
    return;
  }
  kept.given[id] = text;
  typed(id, text);
  compute();
  input?.focus({ preventScroll: true });
  const q = sheet?.questions.find((other) => other.id === id);
  if (q?.state === "right" || q?.state === "wrong") answered({ kind: "practice", id, text, state: q.state });
}

// here is the question the focus is in, or the first one in sight.
function here() {
  const nodes = [...parts.list.children];
  return document.activeElement?.closest?.(".drill") ?? nodes.find((n) => n.getBoundingClientRect().bottom > innerHeight / 3);
}

// goBy goes to the question so many further on.
function goBy(by) {
  const nodes = [...parts.list.children];
  const focused = document.activeElement?.closest?.(".drill");
  const to = nodes[focused ? nodes.indexOf(focused) + by : 0];
  if (!to) return;
  to.scrollIntoView({ block: "start" });
  cards.get(to).number.focus({ preventScroll: true });
}

// On paper: the questions with room for answers, and the answers with their
// working, each beginning a page of its own.

function printSheets(what) {
  toPrint = [what];
  announce(what === "questions" ? say("Printing the questions.") : say("Printing the answers."));
  print();
}

function paperPages() {
  printed = asked({ solutions: true, box: PAPER_BOX });
  if (!printed?.questions) return [el("p", { text: say("There are no questions.") })];
  return toPrint.map((what) => {
    const page = paperPage(what, true);
    page.lastChild.append(...printed.questions.map(paperItems[what]));
    return page;
  });
}

// paperPage is a page without anything on it but its head.
function paperPage(what, first) {
  const blank = (word) => el("span", { class: "blank" }, el("span", { text: word }));
  const answers = what === "answers";
  return el("div", { class: "page practice-page", "data-sheet": what },
    el("header", { class: "practice-head" },
      el("p", { class: "practice-mark" }, el("strong", { text: answers ? say("Answers: {sheet}", { sheet: printed.mark }) : printed.mark }), el("span", {})),
      first ? el("h1", { text: answers ? say("Answers: {sheet}", { sheet: printed.title }) : printed.title }) : null,
      first ? el("p", { text: printed.invented }) : null,
      answers ? null : el("p", { class: "paper-names" }, blank(say("Name")), blank(say("Date")))),
    el("ol", {}));
}

// breakSheets makes pages of every sheet, and numbers them. No question is
// split, and one that asks on stays with the one before.
function breakSheets(sheet) {
  for (const first of sheet.querySelectorAll(".practice-page")) {
    const groups = [];
    printed.questions.forEach((q, i) => {
      if (!q.follows) groups.push([]);
      groups.at(-1).push(first.lastChild.children[i]);
    });
    const all = breakPage(sheet, first, first.lastChild, groups, () => {
      const page = paperPage(first.dataset.sheet, false);
      return { page, parent: page.lastChild };
    });
    all.forEach((page, i) => setText(page.querySelector(".practice-mark span"), say("Page {page} of {pages}", { page: i + 1, pages: all.length })));
  }
}

const paperItems = { questions: paperQuestion, answers: paperAnswer };

function paperQuestion(q) {
  const figure = el("figure", {});
  if (q.picture) makePicture(figure, "", null).update(q.picture, false);
  const answer = q.kind === "choice"
    ? el("ul", { class: "paper-options" }, ...q.options.map((o) => el("li", { text: `${o.value}) ${o.label}` })))
    : el("p", { class: "paper-answer" }, el("span", { class: "blank" }), el("span", { text: q.unit ?? "" }), el("span", { class: "quiet", text: q.tolerance }));
  const item = el("li", { class: "paper-question", "data-kind": q.kind },
    el("div", {}, el("p", {}, el("strong", { text: `${q.id}.` }), ` ${q.text}`), el("ul", { class: "paper-given" }, ...q.given.map((text) => el("li", { text }))), answer),
    q.picture ? figure : null);
  item.style.setProperty("--steps", q.solution.length);
  return item;
}

function paperAnswer(q) {
  const letter = q.options?.find((o) => o.label === q.right)?.value;
  return el("li", { class: "paper-question" }, el("div", {},
    el("p", {}, el("strong", { text: `${q.id}. ${letter ? `${letter}) ` : ""}${q.right}` }), ` – ${q.text}`, el("span", { class: "quiet", text: q.tolerance ? ` ${q.tolerance}` : "" })),
    el("ol", { class: "paper-steps" }, ...q.solution.map((s) => el("li", {},
      el("span", { text: `${s.name}: ${s.formula}` }), el("span", { text: s.values.length ? `; ${s.values.join(", ")}` : "" }),
      el("strong", { text: ` = ${s.result}` }), el("span", { class: "source", text: s.source ? ` (${s.source})` : "" }))))));
}
