// Numbers, pieces, cautions, assumptions and working.

import { byId, el, keyed, setAttr, setNote, setSymbols, setText, show } from "./dom.js";
import { known, makeMark, setMark } from "./marks.js";
import { say } from "./say.js";
import { placeNumber } from "./working.js";

const HEADS = [say("Piece"), say("Limit"), say("Greatest load as planned"), say("Used as planned"), say("Load at most"), say("Used at most")];
// As said on cards, where what is used stands below its load.
const LIMIT = say("Limit");
const PLANNED = say("As planned");
const MOST = say("At most");
const parts = new WeakMap();

// placeFacts fills a list of terms with the main numbers. On paper they are
// no buttons; open, where given, opens the working of a path.
export function placeFacts(list, facts, paper, open) {
  keyed(list, facts ?? [], (f) => f.id, () => {
    const p = { label: el("dt", {}), value: el("dd", { class: "value" }), note: el("dd", { class: "quiet" }) };
    const node = el("div", { class: "fact" }, p.label, p.value, p.note);
    parts.set(node, p);
    return node;
  }, (node, f) => {
    const p = parts.get(node);
    setAttr(node, "data-fact", f.id);
    setText(p.label, f.label);
    placeNumber(p.value, { text: f.value, path: paper ? "" : f.working, label: f.label, open });
    setNote(p.note, f.note);
  });
}

// placePieces fills the table of pieces. reveal opens a part of the form; a
// table on paper has none.
export function placePieces(root, pieces, reveal) {
  const list = pieces ?? [];
  if (!root.firstChild) {
    const head = el("tr", { role: "row" }, ...HEADS.map((h) => el("th", { role: "columnheader", scope: "col", text: h })));
    root.append(
      el("table", { class: "pieces", role: "table" }, el("thead", { role: "rowgroup" }, head), el("tbody", { role: "rowgroup" })),
      el("p", { class: "quiet", text: say("No pieces yet. Add lines, points and gear in the form.") }));
  }
  const [table, none] = root.children;
  show(table, list.length > 0);
  show(none, list.length === 0);
  keyed(table.lastChild, list, (p) => p.id, (p) => makeRow(p, reveal), updateRow);
}

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
  if (reveal) {
    p.name.addEventListener("click", () => {
      if (p.piece.path) reveal(p.piece.path);
    });
  }
  const row = el("tr", { role: "row" },
    el("th", { role: "rowheader", scope: "row" }, p.name, p.where, p.estimate),
    p.limit, p.load,
    el("td", { class: "planned-use", role: "cell" }, el("span", { class: "judged" }, p.mark, p.use, p.word), p.bar),
    p.most,
    el("td", { class: "most-use", role: "cell" }, el("span", { class: "judged" }, p.mostMark, p.mostUse, p.mostWord)));
  parts.set(row, p);
  return row;
}

function updateRow(row, piece) {
  const p = parts.get(row);
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
export function placeNotes(list, notes, reveal) {
  keyed(list, notes ?? [], (n) => `${n.code ?? ""} ${n.path ?? ""} ${n.message}`, (n) => el("li", { "data-code": n.code || null },
    el("span", { text: n.message }),
    n.source ? el("span", { class: "source", text: say("Source: {source}", { source: n.source }) }) : null,
    reveal && n.path ? el("button", { type: "button", class: "link", text: say("Show it in the form"), on: { click: () => reveal(n.path) } }) : null));
}

// placeWhy fills a list with the reasons for the verdict, worst first.
export function placeWhy(root, list, why, reveal) {
  show(root, Boolean(why?.length));
  keyed(list, why ?? [], (y) => `${y.code} ${y.path ?? ""}`, () => {
    const p = { mark: makeMark("unknown"), text: reveal ? el("button", { type: "button", class: "link", on: { click: () => p.path && reveal(p.path) } }) : el("span", {}), path: "" };
    const node = el("li", {}, p.mark, p.text);
    parts.set(node, p);
    return node;
  }, (node, y) => {
    const p = parts.get(node);
    p.path = y.path ?? "";
    setMark(p.mark, y.state);
    setText(p.text, y.message);
    setAttr(node, "data-code", y.code);
  });
}

export function placeCautions(root, cautions, reveal) {
  if (!root.firstChild) root.append(el("ul", { class: "cautions" }), el("p", { class: "quiet", text: say("No caution is particular to this plan. The notes under “For every pull” still apply.") }));
  const [list, none] = root.children;
  placeNotes(list, cautions, reveal);
  show(list, Boolean(cautions?.length));
  show(none, !cautions?.length);
}

// placeAssumed fills a table of the defaults taken.
export function placeAssumed(root, assumed, reveal) {
  const list = assumed ?? [];
  if (!root.firstChild) {
    root.append(
      el("dl", { class: "assumed" }),
      el("p", { class: "quiet", text: say("Nothing was assumed: every value was given.") }));
  }
  const [table, none] = root.children;
  show(table, list.length > 0);
  show(none, list.length === 0);
  keyed(table, list, (a) => a.path, (a) => {
    const p = {
      label: reveal ? el("button", { type: "button", class: "link", on: { click: () => reveal(a.path) } }) : el("span", {}),
      value: el("dd", { class: "value" }), why: el("dd", {}), source: el("dd", { class: "source" }),
    };
    const node = el("div", {}, el("dt", {}, p.label), p.value, p.why, p.source);
    parts.set(node, p);
    return node;
  }, (node, a) => {
    const p = parts.get(node);
    setText(p.label, a.label || a.path);
    placeNumber(p.value, { text: a.value, path: reveal ? a.working : "", label: a.label });
    setText(p.why, a.why);
    setNote(p.source, a.source ? say("Source: {source}", { source: a.source }) : "");
  });
}

const GROUPS = { tree: say("Tree"), pull: say("Pull"), lines: say("Lines"), points: say("Points"), gear: say("Gear") };

// placeSteps fills a list with the working, by what it is of: folded on
// screen, open on paper.
export function placeSteps(root, steps, unfolded) {
  const group = (s) => s.path.split(/[.[]/)[0];
  const groups = new Map();
  for (const s of steps ?? []) groups.set(group(s), [...(groups.get(group(s)) ?? []), s]);
  keyed(root, [...groups], ([name]) => name, ([name]) => (unfolded
    ? el("div", { class: "step-group" }, el("h3", { text: GROUPS[name] ?? name }), el("div", {}))
    : el("details", { class: "step-group" }, el("summary", {}, el("span", { text: GROUPS[name] ?? name }), el("span", { class: "quiet" })), el("div", {}))),
  (node, [, list]) => {
    if (!unfolded) setText(node.firstChild.lastChild, `${list.length}`);
    placeGroup(node.lastChild, list, unfolded);
  });
}

function placeGroup(root, steps, unfolded) {
  keyed(root, steps, (s) => `${s.path} ${s.name}`, () => {
    const p = {
      name: el("span", { class: "step-name" }), result: el("span", { class: "step-result" }),
      formula: el("p", { class: "formula" }), values: el("ul", { class: "step-values" }), source: el("p", { class: "source" }),
    };
    const node = unfolded
      ? el("div", { class: "step" }, el("p", { class: "step-head" }, p.name, p.result), p.formula, p.values, p.source)
      : el("details", { class: "step" }, el("summary", {}, p.name, p.result), p.formula, p.values, p.source);
    parts.set(node, p);
    return node;
  }, (node, s) => {
    const p = parts.get(node);
    setText(p.name, s.name);
    setText(p.result, s.result);
    setSymbols(p.formula, s.formula);
    show(p.formula, Boolean(s.formula));
    keyed(p.values, (s.values ?? []).map((text, i) => ({ text, i })), (v) => String(v.i), () => el("li", {}), (li, v) => setSymbols(li, v.text));
    setNote(p.source, s.source ? say("Source: {source}", { source: s.source }) : "");
  });
}

// setStale greys the tables and says that they are not updated.
export function setStale(stale) {
  for (const id of ["drawings", "pieces", "working"]) {
    setAttr(byId(id), "data-stale", stale ? "true" : null);
    show(byId(`${id}-stale`), stale);
  }
}
