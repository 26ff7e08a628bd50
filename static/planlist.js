// The list of the plans on this device: search, open, name, copy, put away.

import { backupName, backupText, plural } from "./backup.js";
import { askLine, button, openDialog, when } from "./dialogs.js";
import { el, keyed, setText, show } from "./dom.js";
import { saveText } from "./files.js";
import { cut, nameOf } from "./intake.js";
import { keepingPart } from "./lasting.js";
import { makeMark, setMark } from "./marks.js";
import { ask, notice, say } from "./messages.js";
import {
  archivePlan, binPlan, duplicatePlan, emptyBin, listPlans, openRecord, renamePlan, restorePlan, startPlan, workId, workedOut,
} from "./plans.js";
import { edit, endGroup, newPlan } from "./state.js";

const NONE = { verdict: "unknown", word: "Not worked out yet", tree: "" };
const MOST = 100; // rows drawn at once
const SHELVES = [
  { id: "plans", word: "Plans", has: (r) => !r.binned && !r.archived, empty: "No plan here yet." },
  { id: "archive", word: "Archive", has: (r) => !r.binned && r.archived, empty: "Nothing in the archive. Put a plan here when its job is done." },
  { id: "bin", word: "Bin", has: (r) => r.binned > 0, empty: "The bin is empty." },
];

// showPlans opens the list; addFile is called when the person wants to add
// plans from a file.
export function showPlans(addFile) {
  const { dialog, body, close } = openDialog("Plans", { wide: true });
  const search = el("input", { type: "text", inputmode: "search", autocomplete: "off", "aria-label": "Search by name, notes or species", placeholder: "Search name, notes, species" });
  const list = el("ul", { class: "plan-list" });
  const none = el("p", { class: "quiet" });
  const empty = button("Empty the bin", async () => {
    const many = records.filter((r) => r.binned).length;
    if (!await ask("Empty the bin?", `${plural(many, "plan")} would be deleted for good.`, "Delete for good", "Keep them")) return;
    await run(emptyBin, "The bin is empty.");
  });
  const shelves = el("div", { class: "shelves", role: "group", "aria-label": "Which plans" },
    ...SHELVES.map((s) => button(s.word, () => {
      shelf = s;
      draw();
    }, "", { "data-shelf": s.id })));
  let records = [];
  let shelf = SHELVES[0];
  let drawn = 0;

  const keeping = keepingPart([
    button("Save all plans to a file", async () => saveText(backupName(), await backupText()), "", { "data-do": "backup" }),
    button("Add plans from a file", () => addFile(read), "", { "data-do": "add" }),
  ]);
  body.append(
    el("div", { class: "list-top" },
      button("New plan", () => go(() => startPlan(newPlan(), "own")), "main", { "data-do": "new" }), search),
    keeping.line, shelves, list, none, el("div", { class: "actions" }, empty), keeping.part);
  search.addEventListener("input", draw);

  async function run(change, word) {
    try {
      await change();
      if (word) say(word);
    } catch (err) {
      notice("file", `${err.message} Nothing was changed.`);
      close();
      return;
    }
    await read();
  }

  async function go(open) {
    try {
      await open();
    } catch (err) {
      notice("file", err.message);
    }
    close();
    scrollTo({ top: 0 });
  }

  async function read() {
    records = await listPlans();
    draw();
  }

  function draw() {
    const words = search.value.trim().toLowerCase().split(/\s+/).filter(Boolean);
    const found = records.filter((r) => shelf.has(r) && words.every((word) => textOf(r).includes(word)));
    for (const b of shelves.children) {
      const s = SHELVES.find(({ id }) => id === b.dataset.shelf);
      b.setAttribute("aria-pressed", String(s === shelf));
      setText(b, `${s.word} (${records.filter(s.has).length})`);
    }
    const more = found.length - MOST;
    found.length = Math.min(found.length, MOST);
    keyed(list, found, (r) => r.id + shelf.id, makeRow, updateRow);
    setText(none, more > 0 ? `${plural(more, "more plan")}: search to find them.` : found.length ? "" : words.length ? "No plan has all these words." : shelf.empty);
    show(none, Boolean(none.textContent));
    show(empty, shelf.id === "bin" && found.length > 0);
    workOut(found);
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
    }
  }

  function makeRow(r) {
    const id = r.id;
    const now = () => records.find((other) => other.id === id) ?? r;
    const act = (word, press) => button(word, press, "", { "data-act": word.toLowerCase() });
    const actions = shelf.id === "bin" ? [act("Restore", () => run(() => restorePlan(id), "Restored."))] : [
      act("Rename", () => rename(now())),
      act("Duplicate", () => run(async () => {
        await duplicatePlan(now());
      }, "Duplicated.")),
      act(shelf.id === "archive" ? "Unarchive" : "Archive", () => run(() => archivePlan(id, shelf.id !== "archive"), shelf.id === "archive" ? "Back among the plans." : "In the archive.")),
      act("Delete", () => run(() => binPlan(id), "In the bin.")),
    ];
    return el("li", { class: "plan-row", "data-id": id },
      el("button", { type: "button", class: "plan-pick", on: { click: () => (shelf.id === "bin" ? null : id === workId() ? close() : go(() => openRecord(id))) } },
        makeMark("unknown"),
        el("span", { class: "plan-words" },
          el("strong", { class: "plan-title" }), el("span", { class: "plan-verdict" }), el("span", { class: "quiet plan-tree" }), el("span", { class: "quiet plan-date" }))),
      el("details", { class: "plan-more" }, el("summary", {}, el("span", { text: "More" })), el("div", { class: "actions" }, ...actions)));
  }

  function updateRow(row, r) {
    const summary = r.summary ?? NONE;
    const stored = r.revision > 0;
    setMark(row.querySelector(".mark"), summary.verdict);
    setText(row.querySelector(".plan-title"), nameOf(r.plan));
    setText(row.querySelector(".plan-verdict"), summary.word);
    setText(row.querySelector(".plan-tree"), cut(summary.tree ?? "", 160));
    setText(row.querySelector(".plan-date"), r.id === workId() ? `In work. ${stored ? `Changed ${when(r.changed)}` : "Kept from its first change on"}` : `Changed ${when(r.changed)}`);
    row.toggleAttribute("data-in-work", r.id === workId());
    row.querySelector(".plan-pick").disabled = shelf.id === "bin";
    row.querySelector(".plan-more summary").setAttribute("aria-label", `More for ${nameOf(r.plan)}`);
    show(row.querySelector(".plan-more"), stored);
  }

  async function rename(r) {
    const name = await askLine("Name of the plan", "Name", typeof r.plan.name === "string" ? r.plan.name : "", "Rename");
    if (name === null || name === r.plan.name) return;
    await run(async () => {
      if (r.id !== workId()) return renamePlan(r.id, name);
      edit("name", name);
      endGroup();
    }, "Renamed.");
  }

  read();
  return close;
}

function textOf(r) {
  const { name, notes, tree } = r.plan;
  return [name, notes, tree?.species, r.summary?.tree].filter((t) => typeof t === "string").join(" ").toLowerCase();
}
