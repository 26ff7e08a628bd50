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

/** @typedef {{ [question: string]: string }} Texts by the question's id */
/** @typedef {{ key: string, given: Texts, typed: Texts }} Answers to a sheet: as given, and as they stand in the boxes */
/** @typedef {"questions" | "answers"} Paper */
/** @typedef {ReturnType<typeof makeCard>} Card */

/** @type {ReturnType<typeof makeParts>} */
let parts; // the nodes that are filled
/** @type {Answers} */
let kept = { key: "", given: {}, typed: {} };
let box = FIRST_BOX;
let at = ""; // seed and grade that are shown
/** @type {practice.Sheet | null} */
let sheet = null; // what the calculator last answered
let wrong = ""; // what of the address it could not use
/** @type {Paper[]} */
let toPrint = ["questions", "answers"];

/** @param {HTMLElement} root */
export function startPractice(root) {
  parts = makeParts();
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
    { key: "l", name: "L", words: say("next line of its working"), run: () => here()?.parts.reveal.next() },
    { key: "s", name: "S", words: say("another sheet"), run: another },
  ]);
}

function makeParts() {
  const grade = el("select", { id: "practice-grade" });
  grade.addEventListener("change", () => move({ grade: grade.value }));
  const seed = el("input", { type: "text", id: "practice-seed", maxlength: "24", autocomplete: "off", autocapitalize: "off", spellcheck: "false" });
  seed.addEventListener("change", () => move({ seed: seed.value.trim() }));
  return {
    title: el("h2", {}), grade, seed,
    another: button(say("Another sheet"), another, "", { id: "practice-another" }),
    message: el("p", { class: "practice-message", role: "status", hidden: true }),
    invented: el("p", { class: "quiet" }),
    score: el("p", { class: "practice-score", role: "status" }),
    list: el("ol", { class: "drills" }),
    again: button(say("Clear the answers"), () => (canBringBack() ? bringBack() : startAgain()), "", { id: "practice-again" }),
  };
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
/** @param {string} key @returns {Answers | null} */
function loadSheet(key) {
  const entry = keptEntry(`practice/${key}`);
  return isObject(entry) && isObject(entry.given) && isObject(entry.typed) ? structuredClone({ key, given: entry.given, typed: entry.typed }) : null;
}

// saveSheet keeps a sheet, in place of what was kept of it before; one
// without any answer is forgotten.
/** @param {Answers} sheet */
function saveSheet(sheet) {
  keepEntry(`practice/${sheet.key}`, isClean(sheet) ? null : structuredClone(sheet));
  keptMost("practice/", MOST_SHEETS);
}

// takeUp begins to work on a sheet, with what was kept of it before.
/** @param {Answers} sheet */
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
/** @type {(Answers & { place: import("./place.js").Where }) | null} */
let cleared = null; // the answers, with the place of their sheet

const isClean = (/** @type {Answers} */ answers) => Object.keys({ ...answers.given, ...answers.typed }).length === 0;
const canBringBack = () => cleared !== null && cleared.key === kept.key && isClean(kept);

function startAgain() {
  if (!isClean(kept)) {
    cleared = { ...kept, place: { seed: place.seed, grade: place.grade } };
    notice(CLEARED, say("The answers to sheet {seed} are cleared.", { seed: sheet?.seed ?? "" }), say("Undo"), bringBack);
  }
  takeUp({ key: kept.key, given: {}, typed: {} });
  saveSheet(kept);
  compute();
  scrollTo({ top: 0, behavior: "instant" });
}

// bringBack brings cleared answers back; what was typed since then stays.
function bringBack() {
  dismiss(CLEARED);
  if (!cleared) return;
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

/** @param {practice.asked} more */
function asked(more) {
  return ask("practice", { seed: place.seed || undefined, grade: place.grade || undefined, ...more });
}

function compute() {
  let got = asked({ answers: kept.given, box });
  if (!got?.questions) return; // the calculator has ended, and the page says so
  if (got.key !== kept.key) {
    takeUp(loadSheet(got.key) ?? { key: got.key, given: {}, typed: {} });
    got = asked({ answers: kept.given, box });
    if (!got?.questions) return;
  }
  sheet = got;
  draw(sheet);
  const picture = parts.list.querySelector(".drill-picture:not([hidden]) .picture-box");
  const now = picture ? boxOf(picture) : box;
  if (now.w > 0 && (now.w !== box.w || now.h !== box.h)) {
    box = now;
    compute();
  }
}

/** @param {practice.Sheet} sheet */
function draw(sheet) {
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
  keyed(parts.list, sheet.questions, (q) => `${q.kind} ${q.id}`, makeCard, (card, q) => updateCard(card, q, sheet.key));
}

/** @param {practice.Question} q */
function makeCard(q) {
  const name = `drill-${q.id}`;
  const figure = el("figure", { class: "drill-picture" });
  const reveal = makeReveal({ label: say("Working of question {n}", { n: q.id }), level: 4 });
  const p = {
    number: el("h3", { class: "drill-number", tabindex: "-1" }), text: el("p", { class: "drill-text", id: `${name}-text` }),
    given: el("ul", { class: "drill-given" }), figure, picture: makePicture(figure, say("Picture of question {n}", { n: q.id })),
    answer: q.kind === "choice" ? makeChoice(q, name) : makeNumber(q, name),
    said: el("p", { class: "said", role: "status", id: `${name}-said`, hidden: true }),
    reveal, working: el("section", { class: "drill-working" }, el("h4", { text: say("Working") }), reveal.node),
  };
  const node = el("li", { class: "drill", "data-question": q.id },
    el("div", { class: "drill-body" }, p.number, p.text, p.given, p.answer.node, p.said), figure, p.working);
  return Object.assign(node, { parts: p });
}

/** @param {practice.Question} q @param {string} name */
function makeNumber(q, name) {
  const input = el("input", {
    type: "text", id: `${name}-answer`, inputmode: "decimal", maxlength: "60", autocomplete: "off", autocapitalize: "off", spellcheck: "false",
    "aria-labelledby": `${name}-text ${name}-unit`, "aria-describedby": `${name}-said ${name}-tolerance`,
  });
  const unit = el("span", { class: "unit", id: `${name}-unit` });
  const tolerance = el("p", { class: "quiet", id: `${name}-tolerance` });
  const check = () => give(q.id, input.value.trim(), input);
  input.value = kept.typed[q.id] ?? "";
  input.addEventListener("input", () => typed(q.id, input.value));
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") check();
  });
  const node = el("div", { class: "drill-answer" }, el("div", { class: "field-row" }, input, unit, button(say("Check"), check, "main", { "data-do": "check" })), tolerance);
  return { node, input, unit, tolerance };
}

/** @param {practice.Question} q @param {string} name */
function makeChoice(q, name) {
  const options = el("div", { class: "drill-options", role: "radiogroup", "aria-labelledby": `${name}-text` });
  const chosen = () => [...options.querySelectorAll("input")].find((input) => input.checked);
  const check = () => give(q.id, chosen()?.value ?? "", chosen() ?? options.querySelector("input"));
  options.addEventListener("change", () => typed(q.id, chosen()?.value ?? ""));
  options.addEventListener("keydown", (event) => {
    if (event.key === "Enter") check();
  });
  const node = el("div", { class: "drill-answer" }, options, el("div", {}, button(say("Check"), check, "main", { "data-do": "check" })));
  return { node, options, name };
}

/** @param {practice.Question} q @param {parts.Option} option @param {string} name */
function makeOption(q, option, name) {
  const words = el("span", {});
  const input = el("input", { type: "radio", name, value: option.value, checked: kept.typed[q.id] === option.value });
  return Object.assign(el("label", { class: "drill-option" }, input, words), { words });
}

/** @param {Card} card @param {practice.Question} q @param {string} key of the sheet */
function updateCard(card, q, key) {
  const p = card.parts;
  setText(p.number, say("Question {n}", { n: q.id }));
  setText(p.text, q.text);
  keyed(p.given, q.given.map((text, i) => ({ text, i })), (g) => String(g.i), () => el("li", {}), (li, g) => setText(li, g.text));
  show(p.given, q.given.length > 0);
  show(p.figure, Boolean(q.picture));
  p.picture.update(q.picture, false);
  if ("input" in p.answer) {
    setNote(p.answer.unit, q.unit);
    setText(p.answer.tolerance, q.tolerance);
    setAttr(p.answer.input, "aria-invalid", q.state === "unread" ? "true" : null);
  } else {
    const { options, name } = p.answer;
    keyed(options, q.options ?? [], (o) => o.value, (o) => makeOption(q, o, name), ({ words }, o) => setText(words, o.label));
  }
  setAttr(card, "data-state", q.state || null);
  setAttr(p.said, "data-state", q.state || null);
  setNote(p.said, q.says);
  show(p.working, Boolean(q.solution));
  p.reveal.update(q.solution, `${key} ${q.id}`);
}

// typed keeps what stands in a box at once: the page may be killed.
/** @param {string} id @param {string} text */
function typed(id, text) {
  if (text === "") delete kept.typed[id];
  else kept.typed[id] = text;
  saveSheet(kept);
  dressAgain();
}

// give gives an answer to a question; focus goes back to where it was typed.
/** @param {string} id @param {string} text @param {HTMLElement | null} input */
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
  return inFocus() ?? all().find((card) => card.getBoundingClientRect().bottom > innerHeight / 3);
}

/** The questions of the sheet. */
const all = () => /** @type {Card[]} */ ([...parts.list.children]);
const inFocus = () => all().find((card) => card.contains(document.activeElement));

// goBy goes to the question so many further on.
/** @param {number} by */
function goBy(by) {
  const focused = inFocus();
  const to = all()[focused ? all().indexOf(focused) + by : 0];
  if (!to) return;
  to.scrollIntoView({ block: "start" });
  to.parts.number.focus({ preventScroll: true });
}

// On paper: the questions with room for answers, and the answers with their
// working, each beginning a page of its own.

/** @param {Paper} what */
function printSheets(what) {
  toPrint = [what];
  announce(what === "questions" ? say("Printing the questions.") : say("Printing the answers."));
  print();
}

/** @type {{ what: Paper, sheet: practice.Sheet, page: ReturnType<typeof paperPage> }[]} */
let printing = [];

function paperPages() {
  const sheet = asked({ solutions: true, box: PAPER_BOX });
  printing = sheet?.questions ? toPrint.map((what) => ({ what, sheet, page: paperPage(sheet, what, true) })) : [];
  for (const { what, sheet: { questions }, page } of printing) page.list.append(...questions.map(what === "answers" ? paperAnswer : paperQuestion));
  return printing.length ? printing.map(({ page }) => page) : [el("p", { text: say("There are no questions.") })];
}

// paperPage is a page without anything on it but its head.
/** @param {practice.Sheet} printed @param {Paper} what @param {boolean} first */
function paperPage(printed, what, first) {
  const blank = (/** @type {string} */ word) => el("span", { class: "blank" }, el("span", { text: word }));
  const answers = what === "answers";
  const list = el("ol", {});
  const number = el("span", {});
  return Object.assign(el("div", { class: "page practice-page", "data-sheet": what },
    el("header", { class: "practice-head" },
      el("p", { class: "practice-mark" }, el("strong", { text: answers ? say("Answers: {sheet}", { sheet: printed.mark }) : printed.mark }), number),
      first ? el("h1", { text: answers ? say("Answers: {sheet}", { sheet: printed.title }) : printed.title }) : null,
      first ? el("p", { text: printed.invented }) : null,
      answers ? null : el("p", { class: "paper-names" }, blank(say("Name")), blank(say("Date")))),
    list), { list, number });
}

// breakSheets makes pages of every sheet, and numbers them. No question is
// split, and one that asks on stays with the one before.
/** @param {HTMLElement} paper */
function breakSheets(paper) {
  for (const { what, sheet, page: first } of printing) {
    /** @type {Element[][]} */
    const groups = [];
    for (const [i, item] of [...first.list.children].entries()) {
      if (sheet.questions[i].follows) groups.at(-1)?.push(item);
      else groups.push([item]);
    }
    const pages = [first];
    breakPage(paper, first, first.list, groups, () => {
      const page = paperPage(sheet, what, false);
      pages.push(page);
      return { page, parent: page.list };
    });
    pages.forEach(({ number }, i) => setText(number, say("Page {page} of {pages}", { page: i + 1, pages: pages.length })));
  }
}

/** @param {practice.Question} q */
function paperQuestion(q) {
  const figure = el("figure", {});
  if (q.picture) makePicture(figure, "", null).update(q.picture, false);
  const answer = q.kind === "choice"
    ? el("ul", { class: "paper-options" }, ...(q.options ?? []).map((o) => el("li", { text: `${o.value}) ${o.label}` })))
    : el("p", { class: "paper-answer" }, el("span", { class: "blank" }), el("span", { text: q.unit ?? "" }), el("span", { class: "quiet", text: q.tolerance }));
  const item = el("li", { class: "paper-question", "data-kind": q.kind },
    el("div", {}, el("p", {}, el("strong", { text: `${q.id}.` }), ` ${q.text}`), el("ul", { class: "paper-given" }, ...q.given.map((text) => el("li", { text }))), answer),
    q.picture ? figure : null);
  item.style.setProperty("--steps", String(q.solution?.length ?? 0));
  return item;
}

/** @param {practice.Question} q */
function paperAnswer(q) {
  const letter = q.options?.find((o) => o.label === q.right)?.value;
  return el("li", { class: "paper-question" }, el("div", {},
    el("p", {}, el("strong", { text: `${q.id}. ${letter ? `${letter}) ` : ""}${q.right}` }), ` – ${q.text}`, el("span", { class: "quiet", text: q.tolerance ? ` ${q.tolerance}` : "" })),
    el("ol", { class: "paper-steps" }, ...(q.solution ?? []).map((s) => el("li", {},
      el("span", { text: `${s.name}: ${s.formula}` }), el("span", { text: s.values.length ? `; ${s.values.join(", ")}` : "" }),
      el("strong", { text: ` = ${s.result}` }), el("span", { class: "source", text: s.source ? ` (${s.source})` : "" }))))));
}
