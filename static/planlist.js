// The list of the plans on this device: search, open, name, copy, put away.

import { backupName, backupText } from "./backup.js";
import { showCompared } from "./compare.js";
import { askLine, button, openDialog, when } from "./dialogs.js";
import { el, keyed, setAttr, setText, show } from "./dom.js";
import { saveText } from "./files.js";
import { cut, nameOf, reason } from "./intake.js";
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

const NONE = { verdict: "unknown", word: say("Not calculated yet"), tree: "" };
const MOST = 100; // rows drawn at once
const SHELVES = [
  { id: "plans", word: say("Plans"), has: (r) => !r.binned && !r.archived, empty: say("No plans yet.") },
  { id: "archive", word: say("Archive"), has: (r) => !r.binned && r.archived, empty: say("The archive is empty. Move a plan here when its job is done.") },
  { id: "bin", word: say("Bin"), has: (r) => r.binned > 0, empty: say("The bin is empty.") },
];

// showPlans opens the list; addFile is called when the person wants to add
// plans from a file.
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

  async function run(change, word) {
    try {
      await change();
      if (word) announce(word);
    } catch (err) {
      notice("file", say("{why} Nothing was changed.", { why: reason(err) }));
      close();
      return;
    }
    await read();
  }

  async function go(open, word) {
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
    keyed(broken, damaged, (d) => String(d.id), makeDamaged);
    draw();
  }

  // What is damaged is nobody's guess: it goes to a file as it is, or away.
  function makeDamaged({ id, text }) {
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
    for (const b of shelves.children) {
      const s = SHELVES.find(({ id }) => id === b.dataset.shelf);
      b.setAttribute("aria-pressed", String(s === shelf));
      setText(b, say("{shelf} ({n})", { shelf: s.word, n: sayNumber(records.filter(s.has).length) }));
    }
    const more = found.length - MOST;
    const rows = byTree(found).slice(0, MOST);
    keyed(list, withHeads(rows), (r) => r.id + shelf.id, (r) => (r.head ? makeHead() : makeRow(r)), (node, r) => (r.head ? updateHead(node, r) : updateRow(node, r)));
    setText(none, more > 0 ? sayCount(more, "{n} more plan: search to find it.", "{n} more plans: search to find them.") : found.length ? "" : words.length ? say("No plan matches all these words.") : shelf.empty);
    show(none, Boolean(none.textContent));
    show(empty, shelf.id === "bin" && found.length > 0);
    workOut(rows);
  }

  function makeHead() {
    return el("li", { class: "stems-head" }, el("h3", { class: "stems-tree" }), el("p", { class: "stems-caution" }));
  }

  // updateHead is given the name of the tree; the caution is the
  // calculator's, with what it says of each plan.
  function updateHead(node, { head }) {
    node.dataset.tree = head;
    setText(node.querySelector("h3"), head);
    setText(node.querySelector("p"), records.find((r) => treeOf(r) === head && r.summary?.stem)?.summary.stem.caution ?? "");
  }

  // workOut lets the calculator say what it has not said yet, one plan at a
  // time, so that the list stays quick.
  async function workOut(found) {
    const mine = ++drawn;
    for (const r of found) {
      await new Promise((next) => setTimeout(next));
      if (mine !== drawn || !dialog.isConnected) return;
      const summary = await workedOut(r);
      if (!summary || summary === r.summary) continue;
      r.summary = summary;
      const row = [...list.children].find((node) => node.dataset.id === r.id);
      if (row) updateRow(row, r);
      const head = treeOf(r) && [...list.children].find((node) => node.dataset.tree === treeOf(r));
      if (head) updateHead(head, { head: treeOf(r) });
    }
  }

  function makeRow(r) {
    const id = r.id;
    const now = () => records.find((other) => other.id === id) ?? r;
    const act = (name, word, press) => button(word, press, "", { "data-act": name });
    const actions = shelf.id === "bin" ? [act("restore", say("Restore"), () => run(() => restorePlan(id), say("Restored.")))] : [
      act("rename", say("Rename"), () => rename(now())),
      act("duplicate", say("Duplicate"), () => run(async () => {
        await duplicatePlan(now());
      }, say("Duplicated."))),
      act("compare", say("Compare with the current plan"), () => showCompared(now().plan, nameOf(now().plan))),
      act("rig", say("Use its rig in the current plan"), () => go(() => takeRig(now().plan))),
      act("stem", say("Plan another stem of this tree"), () => another(now())),
      shelf.id === "archive"
        ? act("unarchive", say("Unarchive"), () => run(() => archivePlan(id, false), say("Moved back to Plans.")))
        : act("archive", say("Archive"), () => run(() => archivePlan(id, true), say("Moved to the archive."))),
      act("delete", say("Delete"), () => run(() => binPlan(id), say("Moved to the bin."))),
    ];
    return el("li", { class: "plan-row", "data-id": id },
      el("button", { type: "button", class: "plan-pick", on: { click: () => (shelf.id === "bin" ? null : id === workId() ? close() : go(() => openRecord(id))) } },
        makeMark("unknown"),
        el("span", { class: "plan-words" },
          el("strong", { class: "plan-title" }), el("span", { class: "plan-verdict" }), el("span", { class: "plan-after" }),
          el("span", { class: "quiet plan-stem" }), el("span", { class: "quiet plan-tree" }), el("span", { class: "quiet plan-date" }))),
      el("details", { class: "plan-more" }, el("summary", {}, el("span", { text: say("More") })), el("div", { class: "actions" }, ...actions)));
  }

  function updateRow(row, r) {
    const summary = r.summary ?? NONE;
    const stored = r.revision > 0;
    setMark(row.querySelector(".mark"), summary.verdict);
    setText(row.querySelector(".plan-title"), nameOf(r.plan));
    setText(row.querySelector(".plan-verdict"), summary.word);
    const after = row.querySelector(".plan-after");
    setText(after, summary.after?.line ?? "");
    setAttr(after, "data-after", summary.after?.state);
    setText(row.querySelector(".plan-stem"), summary.stem?.words ?? "");
    setAttr(row, "data-stem-of", treeOf(r) || null);
    const stem = row.querySelector("[data-act=stem]");
    if (stem) show(stem, Boolean(treeOf(r)));
    for (const other of row.querySelectorAll("[data-act=compare], [data-act=rig]")) show(other, r.id !== workId());
    setText(row.querySelector(".plan-tree"), cut(summary.tree ?? "", 160));
    setText(row.querySelector(".plan-date"), dateOf(r));
    row.toggleAttribute("data-in-work", r.id === workId());
    row.querySelector(".plan-pick").disabled = shelf.id === "bin";
    row.querySelector(".plan-more summary").setAttribute("aria-label", say("More for {name}", { name: nameOf(r.plan) }));
    show(row.querySelector(".plan-more"), stored);
  }

  async function rename(r) {
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
  async function another(r) {
    const taken = records.filter((other) => !other.binned && treeOf(other) === treeOf(r)).map((other) => other.plan.fork.stem);
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
function treeOf({ plan }) {
  const tree = plan.fork?.tree;
  return typeof tree === "string" ? tree.trim() : "";
}

// byTree puts plans of one tree together, where the first of them stands, in
// the order of their stems.
function byTree(found) {
  const trees = new Map();
  const groups = [];
  for (const r of found) {
    const tree = treeOf(r);
    if (!tree || !trees.has(tree)) groups.push([]);
    if (tree && !trees.has(tree)) trees.set(tree, groups.at(-1));
    (tree ? trees.get(tree) : groups.at(-1)).push(r);
  }
  const stem = ({ plan }) => (Number.isFinite(plan.fork?.stem) ? plan.fork.stem : Infinity);
  for (const group of trees.values()) group.sort((a, b) => (stem(a) < stem(b) ? -1 : stem(a) > stem(b) ? 1 : 0));
  return groups.flat();
}

// withHeads puts the name of the tree before its plans.
function withHeads(rows) {
  return rows.flatMap((r, i) => {
    const tree = treeOf(r);
    return tree && (i === 0 || treeOf(rows[i - 1]) !== tree) ? [{ head: tree, id: `tree ${tree} ` }, r] : [r];
  });
}

function dateOf(r) {
  if (r.id !== workId()) return say("Changed {when}", { when: when(r.changed) });
  return r.revision > 0 ? say("Current plan, changed {when}", { when: when(r.changed) }) : say("Current plan, stored once you change it");
}

function textOf(r) {
  const { name, notes, tree } = r.plan;
  return [name, notes, tree?.species, r.summary?.tree].filter((t) => typeof t === "string").join(" ").toLowerCase();
}
