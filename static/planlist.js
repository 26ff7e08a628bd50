// The list of the plans on this device: search, open, name, copy, put away.

import { backupName, backupText } from "./backup.js";
import { showCompared } from "./compare.js";
import { askLine, button, openDialog, when } from "./dialogs.js";
import { el, keyed, setAttr, setText, show } from "./dom.js";
import { saveText } from "./files.js";
import { cut, isObject, nameOf, reason } from "./intake.js";
import { keepingPart } from "./lasting.js";
import { makeMark, setMark } from "./marks.js";
import { announce, ask, notice } from "./messages.js";
import {
  addPlan, archivePlan, binPlan, dropDamaged, duplicatePlan, emptyBin, listDamaged, listPlans, openRecord, renamePlan, restorePlan, startPlan,
  workId, workedOut,
} from "./plans.js";
import { showPulls } from "./pulls.js";
import { say, sayCount, sayNumber } from "./say.js";
import { edit, endGroup, newPlan, nextStem, takeRig } from "./state.js";

/** @typedef {import("./plans.js").PlanRecord} PlanRecord */

/** @type {Pick<import("./plans.js").Summary, "verdict" | "word" | "tree"> & Partial<import("./plans.js").Summary>} */
const NONE = { verdict: "unknown", word: say("Not calculated yet"), tree: "" };
const MOST = 100; // rows drawn at once
/** @type {{ id: string, word: string, has: (r: PlanRecord) => boolean, empty: string }[]} */
const SHELVES = [
  { id: "plans", word: say("Plans"), has: (r) => !r.binned && !r.archived, empty: say("No plans yet.") },
  { id: "archive", word: say("Archive"), has: (r) => !r.binned && r.archived, empty: say("The archive is empty. Move a plan here when its job is done.") },
  { id: "bin", word: say("Bin"), has: (r) => r.binned > 0, empty: say("The bin is empty.") },
];

// showPlans opens the list; addFile is called when the person wants to add
// plans from a file.
/** @param {(added: () => void) => void} addFile */
export function showPlans(addFile) {
  const { dialog, body, close } = openDialog(say("Plans"), { wide: true });
  const search = el("input", { type: "text", inputmode: "search", autocomplete: "off", "aria-label": say("Search by name, notes or species"), placeholder: say("Search name, notes, species") });
  const list = el("ul", { class: "plan-list" });
  const none = el("p", { class: "quiet" });
  const broken = el("ul", { class: "damaged-list" });
  const empty = button(say("Empty the bin"), async () => {
    const many = records.filter((r) => r.binned).length;
    if (!await ask(say("Empty the bin?"), sayCount(many, "{n} plan will be deleted for good.", "{n} plans will be deleted for good."), say("Delete for good"), say("Keep"))) return;
    await run(emptyBin, say("The bin is empty."));
  });
  const shelves = el("div", { class: "shelves", role: "group", "aria-label": say("Which plans") },
    ...SHELVES.map((s) => button(s.word, () => {
      shelf = s;
      draw();
    }, "", { "data-shelf": s.id })));
  /** @type {PlanRecord[]} */
  let records = [];
  let shelf = SHELVES[0];
  let drawn = 0;

  const keeping = keepingPart([
    button(say("Measured against computed"), () => showPulls(records.filter((r) => !r.binned).map((r) => r.plan), close), "", { "data-do": "pulls" }),
    button(say("Save all plans to a file"), async () => saveText(backupName(), await backupText()), "", { "data-do": "backup" }),
    button(say("Add plans from a file"), () => addFile(read), "", { "data-do": "add" }),
  ]);
  body.append(
    el("div", { class: "list-top" },
      button(say("New plan"), () => go(() => startPlan(newPlan(), "own")), "main", { "data-do": "new" }), search),
    keeping.line, broken, shelves, list, none, el("div", { class: "actions" }, empty), keeping.part);
  search.addEventListener("input", draw);

  async function run(/** @type {() => void} */ change, /** @type {string} */ word) {
    try {
      await change();
      announce(word);
    } catch (err) {
      notice("file", say("{why} Nothing was changed.", { why: reason(err) }));
      close();
      return;
    }
    await read();
  }

  async function go(/** @type {() => void} */ open, word = "") {
    try {
      await open();
      if (word) notice("stem", word);
    } catch (err) {
      notice("file", reason(err));
    }
    close();
    scrollTo({ top: 0 });
  }

  async function read() {
    records = await listPlans();
    const damaged = await listDamaged();
    show(broken, damaged.length > 0);
    keyed(broken, damaged, (d) => d.id, makeDamaged);
    draw();
  }

  // What is damaged is nobody's guess: it goes to a file as it is, or away.
  function makeDamaged(/** @type {{ id: string, text: string }} */ { id, text }) {
    return el("li", { "data-damaged": id },
      el("p", {}, el("strong", { text: say("A damaged record") }), " ", el("span", { class: "quiet", text: text ? cut(text.replace(/\s+/g, " "), 120) : say("The browser can no longer read it.") })),
      el("div", { class: "actions" },
        text ? button(say("Save it to a file"), () => saveText("damaged-record.json", text), "", { "data-act": "save-damaged" }) : null,
        button(say("Delete it"), async () => {
          if (await ask(say("Delete the damaged record?"), say("It will be gone for good. Your other plans are not affected."), say("Delete for good"), say("Keep"))) await run(() => dropDamaged(id), say("Deleted."));
        }, "", { "data-act": "drop-damaged" })));
  }

  function draw() {
    const words = search.value.trim().toLowerCase().split(/\s+/).filter(Boolean);
    const found = records.filter((r) => shelf.has(r) && words.every((word) => textOf(r).includes(word)));
    for (const [i, s] of SHELVES.entries()) {
      const b = shelves.children[i];
      b.setAttribute("aria-pressed", String(s === shelf));
      setText(b, say("{shelf} ({n})", { shelf: s.word, n: sayNumber(records.filter(s.has).length) }));
    }
    const more = found.length - MOST;
    const rows = byTree(found).slice(0, MOST);
    keyed(list, withHeads(rows), (r) => (typeof r === "string" ? `tree ${r} ` : r.id) + shelf.id, (r) => (typeof r === "string" ? makeHead(r) : makeRow(r)),
      (node, r) => {
        if (typeof r !== "string" && "row" in node) updateRow(node, r);
        else if ("tree" in node) updateHead(node);
      });
    setText(none, more > 0 ? sayCount(more, "{n} more plan: search to find it.", "{n} more plans: search to find them.") : found.length ? "" : words.length ? say("No plan matches all these words.") : shelf.empty);
    show(none, Boolean(none.textContent));
    show(empty, shelf.id === "bin" && found.length > 0);
    workOut(rows);
  }

  /** @typedef {ReturnType<typeof makeHead>} Head */
  /** @typedef {ReturnType<typeof makeRow>} Row */

  function makeHead(/** @type {string} */ tree) {
    const caution = el("p", { class: "stems-caution" });
    return Object.assign(el("li", { class: "stems-head", "data-tree": tree }, el("h3", { class: "stems-tree", text: tree }), caution), { tree, caution });
  }

  // The caution is the calculator's, with what it says of each plan.
  function updateHead(/** @type {Head} */ { tree, caution }) {
    setText(caution, records.find((r) => treeOf(r) === tree && r.summary?.stem)?.summary?.stem?.caution ?? "");
  }

  // workOut lets the calculator say what it has not said yet, one plan at a
  // time, so that the list stays quick.
  async function workOut(/** @type {PlanRecord[]} */ found) {
    const mine = ++drawn;
    for (const r of found) {
      await new Promise((next) => setTimeout(next));
      if (mine !== drawn || !dialog.isConnected) return;
      const summary = await workedOut(r);
      if (!summary || summary === r.summary) continue;
      r.summary = summary;
      for (const node of /** @type {Iterable<Head | Row>} */ (list.children)) {
        if ("row" in node) {
          if (node.row.id === r.id) updateRow(node, r);
        } else if (node.tree === treeOf(r)) {
          updateHead(node);
        }
      }
    }
  }

  function makeRow(/** @type {PlanRecord} */ r) {
    const id = r.id;
    const now = () => records.find((other) => other.id === id) ?? r;
    const act = (/** @type {string} */ name, /** @type {string} */ word, /** @type {() => void} */ press) => button(word, press, "", { "data-act": name });
    const others = [
      act("compare", say("Compare with the current plan"), () => showCompared(now().plan, nameOf(now().plan))),
      act("rig", say("Use its rig in the current plan"), () => go(() => takeRig(now().plan))),
    ];
    const stem = act("stem", say("Plan another stem of this tree"), () => another(now()));
    const actions = shelf.id === "bin" ? [act("restore", say("Restore"), () => run(() => restorePlan(id), say("Restored.")))] : [
      act("rename", say("Rename"), () => rename(now())),
      act("duplicate", say("Duplicate"), () => run(async () => {
        await duplicatePlan(now());
      }, say("Duplicated."))),
      ...others, stem,
      shelf.id === "archive"
        ? act("unarchive", say("Unarchive"), () => run(() => archivePlan(id, false), say("Moved back to Plans.")))
        : act("archive", say("Archive"), () => run(() => archivePlan(id, true), say("Moved to the archive."))),
      act("delete", say("Delete"), () => run(() => binPlan(id), say("Moved to the bin."))),
    ];
    const words = {
      title: el("strong", { class: "plan-title" }), verdict: el("span", { class: "plan-verdict" }), after: el("span", { class: "plan-after" }),
      stem: el("span", { class: "quiet plan-stem" }), tree: el("span", { class: "quiet plan-tree" }), date: el("span", { class: "quiet plan-date" }),
    };
    const mark = makeMark("unknown");
    const pick = el("button", { type: "button", class: "plan-pick", on: { click: () => (shelf.id === "bin" ? null : id === workId() ? close() : go(() => openRecord(id))) } },
      mark, el("span", { class: "plan-words" }, ...Object.values(words)));
    const moreOf = el("summary", {}, el("span", { text: say("More") }));
    const more = el("details", { class: "plan-more" }, moreOf, el("div", { class: "actions" }, ...actions));
    return Object.assign(el("li", { class: "plan-row", "data-id": id }, pick, more), { row: { id, mark, pick, more, moreOf, others, stem, words } });
  }

  function updateRow(/** @type {Row} */ node, /** @type {PlanRecord} */ r) {
    const { mark, pick, more, moreOf, others, stem, words } = node.row;
    const summary = r.summary ?? NONE;
    setMark(mark, summary.verdict);
    setText(words.title, nameOf(r.plan));
    setText(words.verdict, summary.word);
    setText(words.after, summary.after?.line ?? "");
    setAttr(words.after, "data-after", summary.after?.state);
    setText(words.stem, summary.stem?.words ?? "");
    setAttr(node, "data-stem-of", treeOf(r) || null);
    show(stem, Boolean(treeOf(r)));
    for (const other of others) show(other, r.id !== workId());
    setText(words.tree, cut(summary.tree ?? "", 160));
    setText(words.date, dateOf(r));
    setAttr(node, "data-in-work", r.id === workId());
    pick.disabled = shelf.id === "bin";
    setAttr(moreOf, "aria-label", say("More for {name}", { name: nameOf(r.plan) }));
    show(more, r.revision > 0);
  }

  async function rename(/** @type {PlanRecord} */ r) {
    const name = await askLine(say("Rename plan"), say("Name"), typeof r.plan.name === "string" ? r.plan.name : "", say("Rename"));
    if (name === null || name === r.plan.name) return;
    await run(async () => {
      if (r.id !== workId()) return renamePlan(r.id, name);
      edit("name", name);
      endGroup();
    }, say("Renamed."));
  }

  // another plans the next stem of a plan's tree, in a plan of its own. The
  // calculator says what of the plan holds for it, and what it is to be given.
  async function another(/** @type {PlanRecord} */ r) {
    const taken = records.filter((other) => !other.binned && treeOf(other) === treeOf(r)).map(stemOf).filter(Number.isFinite);
    const { plan, message } = nextStem(r.plan, taken);
    if (!plan) {
      notice("stem", message);
      close();
      return;
    }
    await go(() => addPlan(plan), message);
  }

  read();
  return close;
}

// treeOf is the name of the tree that a plan's stem shares with others.
/** @param {PlanRecord} r */
function treeOf({ plan: { fork } }) {
  return isObject(fork) && typeof fork.tree === "string" ? fork.tree.trim() : "";
}

// stemOf is the number of the stem, infinite where it has none.
/** @param {PlanRecord} r */
function stemOf({ plan: { fork } }) {
  return isObject(fork) && typeof fork.stem === "number" ? fork.stem : Infinity;
}

// byTree puts plans of one tree together, where the first of them stands, in
// the order of their stems.
/** @param {PlanRecord[]} found */
function byTree(found) {
  /** @type {Map<string, PlanRecord[]>} */
  const groups = new Map(); // a plan without a tree is a group of its own
  for (const r of found) {
    const key = treeOf(r) ? `tree ${treeOf(r)}` : r.id;
    groups.set(key, [...(groups.get(key) ?? []), r]);
  }
  return [...groups.values()].flatMap((group) => group.sort((a, b) => (stemOf(a) < stemOf(b) ? -1 : stemOf(a) > stemOf(b) ? 1 : 0)));
}

// withHeads puts the name of the tree before its plans.
/** @param {PlanRecord[]} rows @returns {(string | PlanRecord)[]} */
function withHeads(rows) {
  return rows.flatMap((r, i) => {
    const tree = treeOf(r);
    return tree && (i === 0 || treeOf(rows[i - 1]) !== tree) ? [tree, r] : [r];
  });
}

/** @param {PlanRecord} r */
function dateOf(r) {
  if (r.id !== workId()) return say("Changed {when}", { when: when(r.changed) });
  return r.revision > 0 ? say("Current plan, changed {when}", { when: when(r.changed) }) : say("Current plan, stored once you change it");
}

/** @param {PlanRecord} r */
function textOf(r) {
  const { name, notes, tree } = r.plan;
  return [name, notes, isObject(tree) ? tree.species : "", r.summary?.tree].filter((t) => typeof t === "string").join(" ").toLowerCase();
}
