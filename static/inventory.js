// The crew's gear list: its pieces with their inspections, kept on this
// device apart from the plans, and picked into a plan from here. All words
// and states come from the calculator; this module lists, listens and stores.

import { applyChanges } from "./changes.js";
import { button, openDialog } from "./dialogs.js";
import { el, keyed, setAttr, setNote, setText, show, svg } from "./dom.js";
import { saveText } from "./files.js";
import { makeForm, setOptions } from "./form.js";
import { isObject, same } from "./intake.js";
import { keep, kept, keptMost, leftBehind, settle, tab, takenUp } from "./journal.js";
import { announce, ask, notice } from "./messages.js";
import { say, sayCount } from "./say.js";
import { askInventory, takeChanges, today } from "./state.js";
import { Leaving, lasting, readOne, transact } from "./storage.js";

const STORE = "gear";
const RECORD = "list";
const ENTRY = `gear/${tab}`; // of the list, in the journal
const SAVE_AFTER = 300; // ms without a change; the journal bridges them
const MOST_SHEETS = 20; // worksheets begun and not recorded yet
const BIGGEST = 5e6; // bytes of a file

const CALENDAR = "M5 7H27V27H5ZM5 12.5H27M11 3.5V8M21 3.5V8";
const CIRCLE = "M16 4A12 12 0 1 1 16 28A12 12 0 1 1 16 4Z";
/** @type {{ [state: string]: [outline: string, sign: string] }} */
const MARKS = {
  in_date: [CALENDAR, "M12 20H20"],
  due: [CALENDAR, "M16 15V20M16 23.5V24"],
  past: [CALENDAR, "M12 16L20 24M20 16L12 24"],
  found: ["M16 2L30 16L16 30L2 16Z", "M16 10V17M16 21.5V22"],
  retired: [CIRCLE, "M8 8L24 24"],
  undated: [CALENDAR, ""],
  unknown: [CIRCLE, "M12.5 13A3.5 3.5 0 1 1 16 16.5V18.5M16 22V22.5"],
};

function fitMark() {
  return svg("svg", { class: "fit", viewBox: "0 0 32 32", "aria-hidden": "true" }, svg("path", { class: "fit-outline" }), svg("path", { class: "fit-sign" }));
}

/** @param {Element} mark @param {string} key */
function setFit(mark, key) {
  const known = Object.hasOwn(MARKS, key) ? key : "unknown";
  setAttr(mark, "data-fit", known);
  setAttr(mark.children[0], "d", MARKS[known][0]);
  setAttr(mark.children[1], "d", MARKS[known][1]);
}

/**
 * The gear list; nothing in it is certain.
 *
 * @typedef {{ [key: string]: unknown }} List
 */

/**
 * The list as it is kept, in one record: with a count of its writings, so that
 * one window does not write over what another has written, and the last entries
 * of the journal that are in it, by their pages.
 *
 * @typedef {{ id: string, list: List, written?: number, edits?: { [page: string]: number } }} Kept
 */

/** @type {List | null} */
let list = null;
let written = 0;
let journaled = 0; // the moment of the entry that the store has not, 0 without one
let saving = 0;
let chain = Promise.resolve();

/** @returns {record is Kept} */
const whole = (/** @type {unknown} */ record) => isObject(record) && isObject(record.list);

async function read() {
  if (journaled) return; // what is here is newer than the store
  for (const entry of leftBehind("gear/")) await takeUp(entry);
  const record = await readOne(STORE, RECORD).catch(() => undefined);
  if (record && !whole(record)) await putAside(record);
  list = whole(record) ? record.list : emptyList();
  written = whole(record) ? record.written ?? 0 : 0;
}

function emptyList() {
  const made = askInventory({ do: "new" })?.list;
  return isObject(made) ? made : null;
}

// putAside lays a damaged list among the plans, where damaged records are
// shown.
/** @param {{ damaged?: unknown }} record */
async function putAside(record) {
  const id = `gear ${Date.now()}`;
  await transact(STORE, RECORD, () => ({ put: [["plans", { id, damaged: typeof record.damaged === "string" ? record.damaged : JSON.stringify(record) }]], drop: [[STORE, RECORD]] }));
  notice("gear", say("The gear list on this device is damaged. Save it to a file or delete it under Plans."));
}

// takeUp stores what a page that has ended could not store.
/** @param {import("./journal.js").Entry} entry */
async function takeUp(entry) {
  const { tab: page, at } = entry;
  const value = /** @type {(Kept & { base: number }) | null} */ (entry.value);
  if (whole(value)) {
    const taken = await transact(STORE, RECORD, (/** @type {Kept | undefined} */ stored) => {
      if (whole(stored) && ((stored.edits?.[page] ?? 0) >= at || same(stored.list, value.list))) return { answer: true };
      if (whole(stored) && stored.written !== value.base) return { answer: false };
      return { put: [[STORE, { id: RECORD, list: value.list, written: (stored?.written ?? 0) + 1, edits: { ...stored?.edits, [page]: at } }]], answer: true };
    });
    if (!taken) return offerOther(value.list, say("The gear list was changed in two windows, and one has closed. The list from the other is shown. Save the one not shown to a file, then import it to add its pieces."), () => takenUp(entry));
  }
  takenUp(entry);
}

// offerOther offers a list that did not become the one on this device.
/** @param {List} other @param {string} words @param {() => void} done */
function offerOther(other, words, done) {
  notice("gear-other", words, say("Save to a file"), () => {
    saveText("gear-list-other.json", listText(other));
    done();
  });
}

const listText = (/** @type {List | null} */ which) => `${JSON.stringify(which, null, 2)}\n`;

function journal() {
  journaled = keep(ENTRY, { list, base: written });
}

function save() {
  clearTimeout(saving);
  saving = 0;
  chain = chain.then(saveOnce).catch((err) => {
    if (err instanceof Leaving) return; // the journal has it
    notice("gear", say("The gear list could not be stored on this device. Save it to a file before you leave."), say("Save to a file"), () => saveText("gear-list.json", listText(list)));
  });
  return chain;
}

async function saveOnce() {
  const mine = list;
  const at = journaled;
  if (!at || !mine) return;
  const next = written + 1;
  const other = await transact(STORE, RECORD, (/** @type {Kept | undefined} */ stored) => (whole(stored) && (stored.written ?? 0) !== written
    ? { answer: stored }
    : { put: [[STORE, { id: RECORD, list: mine, written: next, edits: { ...stored?.edits, [tab]: at } }]] }));
  if (!other) {
    written = next;
    if (journaled === at) {
      journaled = 0;
      settle(ENTRY, at);
    } else { // changed meanwhile: on top of what is stored now
      journal();
      saveSoon();
    }
    return;
  }
  const lost = list ?? mine;
  list = other.list;
  written = other.written ?? 0;
  const entry = journaled;
  journaled = 0;
  drawOpen?.();
  offerOther(lost, say("The gear list was changed in another window, and that list is shown now. Save the one not shown to a file, then import it to add its pieces."), () => settle(ENTRY, entry));
}

function saveSoon() {
  clearTimeout(saving);
  saving = setTimeout(save, SAVE_AFTER);
}

/** @type {(() => void) | null} */
let drawOpen = null; // draws the panel that is open
let mostRecent = ""; // where a piece was last put in the plan

/** @param {gear.asked} more */
function call(more) {
  return askInventory({ list, today: today(), ...more });
}

// change asks for changes to the list and applies them.
/** @param {gear.asked} more */
function change(more) {
  const answer = call(more);
  if (list && answer?.changes?.length) {
    try {
      list = applyChanges(list, answer.changes);
    } catch (err) {
      console.error(err);
      notice("gear", say("Nothing was changed: the change does not fit the gear list."));
      return null;
    }
    journal();
    saveSoon();
  }
  return answer;
}

// gearPieces gives the pieces, for a file of everything.
export async function gearPieces() {
  await chain;
  await read();
  const pieces = list?.pieces;
  return Array.isArray(pieces) ? pieces : [];
}

// addPieces adds the pieces of such a file that are not here just the same,
// and gives a sentence on it.
/** @param {unknown[]} pieces */
export async function addPieces(pieces) {
  await chain;
  await read();
  const answer = change({ do: "import-json", text: JSON.stringify({ ...emptyList(), pieces }) });
  await save();
  return answer?.message ?? "";
}

// openInventory shows the list; picked is called when a piece has gone
// into the plan.
/** @param {() => void} picked */
export async function openInventory(picked) {
  await chain;
  await read();
  const { dialog, body, closed } = openDialog(say("Gear list"), { wide: true });
  dialog.classList.add("inventory");
  /** @type {gear.Row[]} */
  let pieces = []; // all rows
  let open = ""; // the path of the piece shown, "" for the list
  /** @type {{ answers: { [key: string]: string }, by: string, date: string } | null} */
  let sheet = null; // while a piece is looked over
  /** @type {{ text: string, notes: parts.Note[] } | null} */
  let rest = null; // the rows not taken

  const message = el("p", { class: "gear-message", role: "status", hidden: true });
  const tell = (text = "") => setNote(message, text);

  // The list.
  const search = el("input", { type: "text", inputmode: "search", autocomplete: "off", "aria-label": say("Search the gear"), placeholder: say("Search name, kind, size, state") });
  const day = el("p", { class: "quiet" });
  const wrong = el("ul", { class: "notes" });
  const rows = el("ul", { class: "gear-list" });
  const none = el("p", { class: "quiet" });
  const chooser = el("input", { type: "file", accept: ".csv,.json,.txt,text/csv,application/json,text/plain", hidden: true });
  const mend = el("div", { class: "gear-mend" });
  const files = el("details", { class: "gear-files" }, el("summary", { text: say("Save or import the list") }),
    el("div", { class: "actions" },
      button(say("Save gear list"), () => saveText("gear-list.json", listText(list)), "", { "data-do": "save" }),
      button(say("Save as a table (CSV)"), saveTable, "", { "data-do": "save-table" }),
      button(say("Import from a file"), () => chooser.click(), "", { "data-do": "read" })),
    el("p", { class: "quiet", text: say("Imports a gear list, or a table with the same column names as the saved one. Inspections are saved in the gear list file only.") }), chooser);
  const listPart = el("div", { class: "gear-part" },
    el("div", { class: "list-top" }, button(say("Add a piece"), add, "main", { "data-do": "add" }), search), day, wrong, rows, none, mend, files);

  // One piece.
  const pieceTitle = el("h3", { class: "gear-piece-title", tabindex: "-1" });
  const pieceMark = fitMark();
  const pieceState = el("p", { class: "gear-state" });
  const place = el("select", { "aria-label": say("Where in the plan") });
  const pick = el("div", { class: "gear-pick" }, place, button(say("Add to plan"), putIn, "main", { "data-do": "pick" }));
  const noPlace = el("p", { class: "quiet", text: say("The plan has no lines or points yet to add it to.") });
  const formBox = el("div", { class: "gear-form" });
  const retire = button("", () => act(isRetired() ? "unretire" : "retire", open), "", { "data-do": "retire" });
  const piecePart = el("div", { class: "gear-part", hidden: true },
    button(say("All gear"), () => go(""), "plain gear-back"),
    el("div", { class: "gear-head" }, pieceMark, el("div", {}, pieceTitle, pieceState)), pick, noPlace, formBox,
    el("div", { class: "actions" }, button(say("Inspect"), startSheet, "", { "data-do": "sheet" }), retire, button(say("Delete"), remove, "plain", { "data-do": "delete" })));

  // Looking over a piece.
  const sheetTitle = el("h3", { class: "gear-piece-title", tabindex: "-1" });
  const sheetForm = el("div", { class: "gear-form" });
  const outcome = el("p", { class: "gear-outcome" });
  const meaning = el("p", {});
  const reasons = el("ul", { class: "notes" });
  const record = button(say("Record inspection"), () => keepSheet(false), "main", { "data-do": "record" });
  const recordRetire = button(say("Record and retire"), () => keepSheet(true), "main", { "data-do": "record-retire" });
  const sheetPart = el("div", { class: "gear-part", hidden: true },
    button(say("Back to the piece"), () => go(open), "plain gear-back"), sheetTitle, sheetForm,
    el("div", { class: "gear-result", role: "status" }, outcome, meaning, reasons), el("div", { class: "actions" }, recordRetire, record));

  body.append(message, listPart, piecePart, sheetPart);
  search.addEventListener("input", drawRows);
  chooser.addEventListener("change", () => {
    const file = chooser.files?.[0];
    chooser.value = "";
    if (file) readFile(file);
  });

  /** @type {ReturnType<typeof makeForm> | null} */
  let form = null;
  /** @type {ReturnType<typeof makeForm> | null} */
  let sheets = null;

  const openRow = () => pieces.find((r) => r.path === open);

  function isRetired() {
    return openRow()?.state === "retired";
  }

  function go(/** @type {string} */ path) {
    open = path;
    sheet = null;
    tell("");
    form = null;
    if (path) {
      const root = el("div", {});
      formBox.replaceChildren(root);
      form = makeForm(root, el("div", {}), {
        edit: (at, text) => {
          tell(change({ do: "edit", path: at, text })?.message);
          draw();
        },
        act: (action) => act(action.do, action.path),
      });
    }
    draw();
    dialog.scrollTop = 0;
    (path ? pieceTitle : search).focus({ preventScroll: true });
  }

  function act(/** @type {string} */ what, /** @type {string} */ path) {
    const answer = change({ do: "act", act: what, path });
    tell(answer?.message);
    draw();
    if (answer?.focus && open) form?.reveal(answer.focus);
    return answer;
  }

  function add() {
    const answer = act("add", "pieces");
    if (answer?.focus) go(answer.focus);
  }

  async function remove() {
    const row = openRow();
    if (!row || !await ask(say("Delete “{name}”?", { name: row.title }), say("It is deleted for good, with its inspections. Plans that use it keep their copy. If the piece still exists, retire it instead."), say("Delete"), say("Keep"))) return;
    const answer = change({ do: "act", act: "remove", path: open });
    go("");
    tell(answer?.message);
  }

  function putIn() {
    mostRecent = place.value;
    const answer = call({ do: "pick", path: open, text: place.value });
    if (answer?.plan?.length) {
      takeChanges(answer.plan);
      picked();
      announce(answer.message ?? "");
    }
    draw();
    tell(answer?.message);
  }

  // Tables and files.
  function saveTable() {
    const answer = call({ do: "export-csv" });
    if (answer?.file) saveText("gear-list.csv", answer.file, "text/csv");
    tell(answer?.message);
  }

  async function readFile(/** @type {File} */ file) {
    if (file.size > BIGGEST) {
      tell(say("{file} is too big for a gear list. Nothing was changed.", { file: file.name }));
      return;
    }
    let text;
    try {
      text = await file.text();
    } catch {
      tell(say("{file} cannot be read. Nothing was changed.", { file: file.name }));
      return;
    }
    readText(text);
  }

  function readText(/** @type {string} */ text) {
    const isList = text.trimStart().replace(/^\ufeff/, "").startsWith("{");
    const answer = change({ do: isList ? "import-json" : "import-csv", text });
    rest = answer?.rest ? { text: answer.rest, notes: answer.notes ?? [] } : null;
    drawMend();
    draw();
    tell(answer?.message);
    if (rest) mend.scrollIntoView({ block: "nearest" });
  }

  function drawMend() {
    mend.replaceChildren();
    if (!rest) return;
    const box = el("textarea", { rows: "8", spellcheck: "false", "aria-label": say("Rows to fix") });
    box.value = rest.text;
    mend.append(el("h3", { text: say("Rows not imported") }),
      el("ul", { class: "notes" }, ...rest.notes.map((n) => el("li", { class: "problem", text: n.message }))), box,
      el("div", { class: "actions" }, button(say("Import these rows again"), () => readText(box.value), "main", { "data-do": "again" }),
        button(say("Save to a file"), () => saveText("gear-rows.csv", box.value, "text/csv")),
        button(say("Discard these rows"), () => {
          rest = null;
          drawMend();
        }, "plain")));
  }

  // The worksheet. One that is begun waits in the journal for its piece.
  const sheetEntry = () => `sheet/${openRow()?.title ?? open}`;

  function startSheet() {
    let now = /** @type {NonNullable<typeof sheet> | null} */ (kept(sheetEntry())) ?? { answers: {}, by: "", date: today() };
    sheet = now;
    const root = el("div", {});
    sheetForm.replaceChildren(root);
    sheets = makeForm(root, el("div", {}), {
      edit: (path, text) => {
        const [, key] = /^answers\.(.*)$/s.exec(path) ?? [];
        sheet = now = key === undefined ? { ...now, [path]: text } : { ...now, answers: { ...now.answers, [key]: text } };
        keep(sheetEntry(), sheet);
        keptMost("sheet/", MOST_SHEETS);
        draw();
      },
    });
    tell("");
    draw();
    dialog.scrollTop = 0;
    sheetTitle.focus({ preventScroll: true });
  }

  function keepSheet(/** @type {boolean} */ withRetiring) {
    const done = sheetEntry();
    const answer = change({ do: "record", path: open, ...sheet, retire: withRetiring });
    if (answer?.changes?.length) {
      keep(done, null);
      go(open);
    } else {
      draw();
    }
    tell(answer?.message);
  }

  function drawSheet() {
    const found = call({ do: "sheet", path: open, ...sheet })?.sheet;
    if (!found) return;
    setText(sheetTitle, found.title);
    sheets?.update({ form: found.form });
    setText(outcome, found.word);
    setAttr(outcome, "data-outcome", found.outcome);
    setText(meaning, found.text);
    show(reasons, found.reasons.length > 0);
    keyed(reasons, found.reasons, (r) => r.path + r.message, (r) => el("li", { class: "caution" },
      el("span", { text: r.message }), " ", r.source ? el("span", { class: "source", text: say("Source: {source}", { source: r.source }) }) : null));
    record.disabled = !found.ready;
    show(recordRetire, found.outcome === "retire");
    recordRetire.disabled = !found.ready;
    setText(record, found.outcome === "retire" ? say("Record only") : say("Record inspection"));
    record.classList.toggle("main", found.outcome !== "retire");
  }

  function drawRows() {
    const words = search.value.trim().toLowerCase().split(/\s+/).filter(Boolean);
    const found = pieces.filter((r) => words.every((word) => r.find.includes(word)));
    keyed(rows, found, (r) => r.path, makeRow, updateRow);
    setNote(none, found.length ? "" : words.length ? say("No piece matches all these words.") : say("No gear yet. Add a piece with the limit from its tag, or import a list from a file."));
  }

  function makeRow(/** @type {gear.Row} */ r) {
    const parts = { mark: fitMark(), title: el("span", { class: "gear-title" }), line: el("span", { class: "gear-line" }), word: el("span", { class: "gear-word" }), count: el("span", { class: "section-count" }) };
    const node = el("li", { class: "gear-row" }, el("button", { type: "button", class: "gear-open", on: { click: () => go(r.path) } },
      parts.mark, el("span", { class: "gear-words" }, parts.title, parts.line, parts.word), parts.count));
    return Object.assign(node, { parts });
  }

  function updateRow(/** @type {ReturnType<typeof makeRow>} */ node, /** @type {gear.Row} */ r) {
    const { mark, title, line, word, count } = node.parts;
    setFit(mark, r.state);
    setAttr(node, "data-fit", r.state);
    setText(title, r.title);
    setNote(line, [r.kind, r.line].filter(Boolean).join(", "));
    setText(word, `${r.word}. ${r.sentence}`);
    setNote(count, r.problems ? sayCount(r.problems, "{n} to fix", "{n} to fix") : "");
  }

  function draw() {
    const view = call({ do: "view", path: open });
    if (!view?.rows) {
      tell(view?.problems[0]?.message ?? say("The calculator gave no result."));
      return;
    }
    pieces = view.rows;
    const row = openRow();
    if (!row) open = "";
    show(listPart, !open);
    show(piecePart, Boolean(open) && !sheet);
    show(sheetPart, Boolean(open) && Boolean(sheet));
    if (!row) {
      setText(day, view.day);
      keyed(wrong, view.problems, (p) => p.message, (p) => el("li", { class: "problem", text: p.message }));
      show(wrong, view.problems.length > 0);
      drawRows();
      return;
    }
    if (sheet) {
      drawSheet();
      return;
    }
    setText(pieceTitle, row.title);
    setFit(pieceMark, row.state);
    setText(pieceState, `${row.word}. ${row.sentence}`);
    setAttr(piecePart, "data-fit", row.state);
    setText(retire, row.state === "retired" ? say("Return to service") : say("Retire"));
    show(pick, view.places.length > 0);
    show(noPlace, view.places.length === 0);
    if (view.places.length) {
      const now = place.value || mostRecent;
      setOptions(place, view.places, view.places.some((p) => p.value === now) ? now : view.places[0].value);
    }
    form?.update({ form: view.form });
  }

  drawOpen = draw;
  if (!list) {
    tell(say("The calculator is not running."));
    return;
  }
  draw();
  if (!await lasting()) tell(say("This browser does not let the page keep the gear list. Save it to a file before you leave."));
  await closed;
  drawOpen = null;
  if (journaled) save();
}

