// Numbers, pieces, cautions, assumptions and working.

import { byId, el, keyed, once, setAttr, setNote, setSymbols, setText, show } from "./dom.js";
import { known, makeMark, setMark } from "./marks.js";
import { say } from "./say.js";
import { placeNumber } from "./working.js";

const HEADS = [say("Piece"), say("Limit"), say("Greatest load as planned"), say("Used as planned"), say("Load at most"), say("Used at most")];
// As said on cards, where what is used stands below its load.
const LIMIT = say("Limit");
const PLANNED = say("As planned");
const MOST = say("At most");

/** @typedef {(path: string) => void} Reveal leads to a part of the form */

// placeFacts fills a list of terms with the main numbers. On paper they are
// no buttons; open, where given, opens the working of a path.
/** @param {Element} list @param {parts.Fact[]} facts @param {boolean} [paper] @param {import("./working.js").Open} [open] */
export function placeFacts(list, facts, paper, open) {
  keyed(list, facts, (f) => f.id, () => {
    const parts = { label: el("dt", {}), value: el("dd", { class: "value" }), note: el("dd", { class: "quiet" }) };
    return Object.assign(el("div", { class: "fact" }, ...Object.values(parts)), { parts });
  }, (node, f) => {
    const p = node.parts;
    setAttr(node, "data-fact", f.id);
    setText(p.label, f.label);
    placeNumber(p.value, { text: f.value, path: paper ? "" : f.working, label: f.label, open });
    setNote(p.note, f.note);
  });
}

// placePieces fills the table of pieces. reveal opens a part of the form; a
// table on paper has none.
/** @param {Element} root @param {show.Piece[]} pieces @param {Reveal} [reveal] */
export function placePieces(root, pieces, reveal) {
  const { table, body, none } = once(root, () => {
    const head = el("tr", { role: "row" }, ...HEADS.map((h) => el("th", { role: "columnheader", scope: "col", text: h })));
    const body = el("tbody", { role: "rowgroup" });
    const table = el("table", { class: "pieces", role: "table" }, el("thead", { role: "rowgroup" }, head), body);
    return withNone(root, { table, body }, say("No pieces yet. Add lines, points and gear in the form."));
  });
  show(table, pieces.length > 0);
  show(none, pieces.length === 0);
  keyed(body, pieces, (p) => p.id, (p) => makeRow(p, reveal), updateRow);
}

// withNone puts a table into a root, and what is said where it has no rows.
/** @template {{ table: HTMLElement }} P @param {Element} root @param {P} parts @param {string} text */
function withNone(root, parts, text) {
  const none = el("p", { class: "quiet", text });
  root.append(parts.table, none);
  return { ...parts, none };
}

/** @param {show.Piece} piece @param {Reveal} [reveal] */
function makeRow(piece, reveal) {
  const p = {
    piece, paper: !reveal,
    name: reveal ? el("button", { type: "button", class: "link" }) : el("strong", {}),
    where: el("span", { class: "where" }), estimate: el("span", { class: "estimate" }),
    limit: el("td", { class: "limit", role: "cell", "data-head": LIMIT }),
    load: el("td", { class: "load", role: "cell", "data-head": PLANNED }),
    most: el("td", { class: "most-load", role: "cell", "data-head": MOST }),
    mark: makeMark("unknown"), word: el("span", { class: "word" }), use: el("span", { class: "use" }), bar: el("span", { class: "use-bar", "aria-hidden": "true" }, el("span", {})),
    mostMark: makeMark("unknown"), mostWord: el("span", { class: "word" }), mostUse: el("span", { class: "use" }),
  };
  p.name.addEventListener("click", () => {
    if (p.piece.path) reveal?.(p.piece.path);
  });
  const row = el("tr", { role: "row" },
    el("th", { role: "rowheader", scope: "row" }, p.name, p.where, p.estimate),
    p.limit, p.load,
    el("td", { class: "planned-use", role: "cell" }, el("span", { class: "judged" }, p.mark, p.use, p.word), p.bar),
    p.most,
    el("td", { class: "most-use", role: "cell" }, el("span", { class: "judged" }, p.mostMark, p.mostUse, p.mostWord)));
  return Object.assign(row, { parts: p });
}

/** @param {ReturnType<typeof makeRow>} row @param {show.Piece} piece */
function updateRow(row, piece) {
  const p = row.parts;
  /** @type {(node: HTMLElement, text: string, path: string | undefined, label: string) => void} */
  const number = (node, text, path, label) => placeNumber(node, { text, path: p.paper ? "" : path, label });
  const title = { piece: piece.title };
  p.piece = piece;
  setAttr(row, "data-piece", piece.id);
  setAttr(row, "data-state", known(piece.verdict));
  setText(p.name, piece.title);
  setText(p.where, piece.where);
  setNote(p.estimate, piece.estimate);
  number(p.limit, piece.capacity, piece.capacity_working, say("{piece}: limit", title));
  number(p.load, piece.load, piece.load_working, say("{piece}: load as planned", title));
  number(p.use, piece.use, piece.use_working, say("{piece}: used as planned", title));
  setText(p.word, piece.word);
  setMark(p.mark, piece.verdict);
  const share = Number.isFinite(piece.use_share) ? Math.min(Math.max(piece.use_share, 0), 1) : 0;
  p.bar.style.setProperty("--share", String(share));
  setAttr(p.bar, "data-state", known(piece.verdict));
  number(p.most, piece.at_most_load, piece.at_most_working, say("{piece}: load at most", title));
  setText(p.mostUse, piece.at_most_use);
  setText(p.mostWord, piece.at_most_word);
  setMark(p.mostMark, piece.at_most_verdict);
}

// placeNotes fills a list with cautions or standing notes.
/** @param {Element} list @param {parts.Note[]} notes @param {Reveal} [reveal] */
export function placeNotes(list, notes, reveal) {
  keyed(list, notes, (n) => `${n.code ?? ""} ${n.path ?? ""} ${n.message}`, ({ code, path, message, source }) => el("li", { "data-code": code || null },
    el("span", { text: message }),
    source ? el("span", { class: "source", text: say("Source: {source}", { source }) }) : null,
    reveal && path ? el("button", { type: "button", class: "link", text: say("Show it in the form"), on: { click: () => reveal(path) } }) : null));
}

// placeWhy fills a list with the reasons for the verdict, worst first.
/** @param {HTMLElement} root @param {Element} list @param {parts.Note[]} why @param {Reveal} reveal */
export function placeWhy(root, list, why, reveal) {
  show(root, why.length > 0);
  keyed(list, why, (y) => `${y.code} ${y.path ?? ""}`, () => {
    const parts = { path: "", mark: makeMark("unknown"), text: el("button", { type: "button", class: "link" }) };
    parts.text.addEventListener("click", () => parts.path && reveal(parts.path));
    return Object.assign(el("li", {}, parts.mark, parts.text), { parts });
  }, (node, y) => {
    const p = node.parts;
    p.path = y.path ?? "";
    setMark(p.mark, y.state ?? "unknown");
    setText(p.text, y.message);
    setAttr(node, "data-code", y.code);
  });
}

/** @param {Element} root @param {parts.Note[]} cautions @param {Reveal} reveal */
export function placeCautions(root, cautions, reveal) {
  const { table, none } = once(root, () => withNone(root, { table: el("ul", { class: "cautions" }) },
    say("No caution is particular to this plan. The notes under “For every pull” still apply.")));
  placeNotes(table, cautions, reveal);
  show(table, cautions.length > 0);
  show(none, cautions.length === 0);
}

// placeAssumed fills a table of the defaults taken.
/** @param {Element} root @param {parts.Assumed[]} assumed @param {Reveal} [reveal] */
export function placeAssumed(root, assumed, reveal) {
  const { table, none } = once(root, () => withNone(root, { table: el("dl", { class: "assumed" }) }, say("Nothing was assumed: every value was given.")));
  show(table, assumed.length > 0);
  show(none, assumed.length === 0);
  keyed(table, assumed, (a) => a.path, (a) => {
    const parts = {
      label: reveal ? el("button", { type: "button", class: "link", on: { click: () => reveal(a.path) } }) : el("span", {}),
      value: el("dd", { class: "value" }), why: el("dd", {}), source: el("dd", { class: "source" }),
    };
    return Object.assign(el("div", {}, el("dt", {}, parts.label), parts.value, parts.why, parts.source), { parts });
  }, (node, a) => {
    const p = node.parts;
    setText(p.label, a.label || a.path);
    placeNumber(p.value, { text: a.value, path: reveal ? a.working : "", label: a.label });
    setText(p.why, a.why);
    setNote(p.source, a.source ? say("Source: {source}", { source: a.source }) : "");
  });
}

/** @type {{ [name: string]: string }} */
const GROUPS = { tree: say("Tree"), pull: say("Pull"), lines: say("Lines"), points: say("Points"), gear: say("Gear") };

// placeSteps fills a list with the working, by what it is of: folded on
// screen, open on paper.
/** @param {Element} root @param {parts.Step[]} steps @param {boolean} [unfolded] */
export function placeSteps(root, steps, unfolded) {
  const group = (/** @type {parts.Step} */ s) => s.path.split(/[.[]/)[0];
  /** @type {Map<string, parts.Step[]>} */
  const groups = new Map();
  for (const s of steps) groups.set(group(s), [...(groups.get(group(s)) ?? []), s]);
  keyed(root, [...groups], ([name]) => name, ([name]) => {
    const parts = { many: el("span", { class: "quiet" }), list: el("div", {}) };
    return Object.assign(unfolded
      ? el("div", { class: "step-group" }, el("h3", { text: GROUPS[name] ?? name }), parts.list)
      : el("details", { class: "step-group" }, el("summary", {}, el("span", { text: GROUPS[name] ?? name }), parts.many), parts.list), { parts });
  }, (node, [, list]) => {
    setText(node.parts.many, `${list.length}`);
    placeGroup(node.parts.list, list, unfolded);
  });
}

/** @param {Element} root @param {parts.Step[]} steps @param {boolean} [unfolded] */
function placeGroup(root, steps, unfolded) {
  keyed(root, steps, (s) => `${s.path} ${s.name}`, () => {
    const p = {
      name: el("span", { class: "step-name" }), result: el("span", { class: "step-result" }),
      formula: el("p", { class: "formula" }), values: el("ul", { class: "step-values" }), source: el("p", { class: "source" }),
    };
    const node = unfolded
      ? el("div", { class: "step" }, el("p", { class: "step-head" }, p.name, p.result), p.formula, p.values, p.source)
      : el("details", { class: "step" }, el("summary", {}, p.name, p.result), p.formula, p.values, p.source);
    return Object.assign(node, { parts: p });
  }, (node, s) => {
    const p = node.parts;
    setText(p.name, s.name);
    setText(p.result, s.result);
    setSymbols(p.formula, s.formula);
    show(p.formula, Boolean(s.formula));
    keyed(p.values, s.values.map((text, i) => ({ text, i })), (v) => String(v.i), () => el("li", {}), (li, v) => setSymbols(li, v.text));
    setNote(p.source, s.source ? say("Source: {source}", { source: s.source }) : "");
  });
}

// setStale greys the tables and says that they are not updated.
/** @param {boolean} stale */
export function setStale(stale) {
  for (const id of ["drawings", "pieces", "working"]) {
    setAttr(byId(id), "data-stale", stale ? "true" : null);
    show(byId(`${id}-stale`), stale);
  }
}
