// All plans in one file, and back again.
//
//	{
//	  "kind": "pull-line plans",
//	  "version": 1,
//	  "made": "2025-06-03T12:00:00.000Z",
//	  "plans": [{"id": "…", "changed": "2025-06-02T…Z", "archived": false, "plan": {the plan}}],
//	  "gear": [{the pieces of the gear list}]
//	}
//
// What is in the bin is left out. A verdict is never in the file: it is worked
// out anew. Reading takes nothing on trust; a plan that cannot be one is left
// out and counted.

import { button, openDialog, when } from "./dialogs.js";
import { el, setText } from "./dom.js";
import { Refused, checkPlan, count, isObject, nameOf, same } from "./intake.js";
import { addPieces, gearPieces } from "./inventory.js";
import { notice } from "./messages.js";
import { listPlans, mergePlans } from "./plans.js";

const KIND = "pull-line plans";
const VERSION = 1;
const MOST = 2000; // plans, or pieces of gear, in one file

export function isBackup(value) {
  return isObject(value) && value.kind === KIND;
}

// backupText gives the text of the file with everything.
export async function backupText() {
  const plans = (await listPlans()).filter((r) => !r.binned && r.origin !== "example")
    .map(({ id, changed, archived, plan }) => ({ id, changed: new Date(changed).toISOString(), archived, plan }));
  return `${JSON.stringify({ kind: KIND, version: VERSION, made: new Date().toISOString(), plans, gear: await gearPieces() }, null, 1)}\n`;
}

export function backupName() {
  return `pull-line-plans-${new Date().toISOString().slice(0, 10)}.json`;
}

// readBackup gives { plans, gear, left }, left being how many were left out.
export function readBackup(value) {
  if (!Number.isInteger(value.version) || value.version < 1) throw new Refused("This file of plans names no version, so it is not read.");
  if (value.version > VERSION) throw new Refused("This file of plans was made by a newer version of this page. Load the newest version first.");
  const list = Array.isArray(value.plans) ? value.plans : [];
  if (list.length > MOST) throw new Refused(`This file holds ${count(list.length)} plans, and at most ${count(MOST)} are read.`);
  const plans = [];
  let left = 0;
  for (const item of list) {
    try {
      const plan = checkPlan(item?.plan);
      const changed = typeof item.changed === "string" ? Date.parse(item.changed) : NaN;
      plans.push({
        id: typeof item.id === "string" && /^[0-9a-f]{24}$/.test(item.id) ? item.id : "",
        changed: changed > 0 && changed <= Date.now() ? changed : 0,
        archived: item.archived === true,
        plan,
      });
    } catch {
      left++;
    }
  }
  const gear = [];
  for (const piece of Array.isArray(value.gear) ? value.gear.slice(0, MOST) : []) {
    try {
      gear.push(checkPlan(piece)); // what no plan can be, no piece can
    } catch {
      left++;
    }
  }
  return { plans, gear, left };
}

// compare says of each plan of a backup what it is beside the plans here:
// { item, is: "new" | "same" | "different", mine: the record }.
export function compare(plans, records) {
  const here = records.filter((r) => !r.binned && r.revision > 0);
  const seen = [];
  return plans.map((item) => {
    const twin = here.find((r) => same(r.plan, item.plan));
    if (twin || seen.some((plan) => same(plan, item.plan))) return { item, is: "same", mine: twin };
    seen.push(item.plan);
    const named = (r) => typeof item.plan.name === "string" && item.plan.name.trim() !== "" && nameOf(r.plan) === nameOf(item.plan);
    const mine = here.find((r) => item.id && r.id === item.id) ?? here.find(named);
    return { item, is: mine ? "different" : "new", mine };
  });
}

// offerBackup shows what a file of plans holds and does, and asks. It gives a
// promise of whether anything was taken.
export async function offerBackup(value, from) {
  const { plans, gear: pieces, left } = readBackup(value);
  const rows = compare(plans, await listPlans());
  const of = (is) => rows.filter((row) => row.is === is);
  const gearWord = pieces.length ? `The file also holds ${plural(pieces.length, "piece")} of gear. Those that are not in the gear list just the same are added to it.` : "";
  const { body, close, closed } = openDialog("Add plans from a file?", { closeWord: "Leave it" });
  const boxes = new Map();
  const add = button("", () => close(true), "main");
  const label = () => {
    const many = of("new").length + of("different").length;
    setText(add, many ? `Add ${plural(many, "plan")}` : gearWord ? "Add the gear" : "Nothing to add");
    add.disabled = !many && !gearWord;
  };
  body.append(
    el("p", { text: `${from}: ${plural(plans.length, "plan")}. ${of("new").length} new, ${of("same").length} the same as here, ${of("different").length} different.` }),
    left ? el("p", { class: "warn", text: `${plural(left, "entry", "entries")} in the file cannot be read and ${left === 1 ? "is" : "are"} left out.` }) : "",
    gearWord ? el("p", { text: gearWord }) : "");
  if (of("new").length) body.append(details("New", of("new").map((row) => el("li", { text: nameOf(row.item.plan) }))));
  if (of("different").length) {
    body.append(
      el("h3", { text: "Different from the plan here" }),
      el("p", { class: "quiet", text: "Both are kept, the file’s with “(copy)” after its name, unless you tick that it takes the place of yours. Yours then goes to the bin." }),
      el("ul", { class: "merge" }, ...of("different").map((row) => {
        const box = el("input", { type: "checkbox" });
        boxes.set(row, box);
        return el("li", {}, el("label", {}, box, el("span", {},
          el("strong", { text: nameOf(row.item.plan) }),
          el("span", { class: "quiet", text: `In the file: ${when(row.item.changed)}` }),
          el("span", { class: "quiet", text: `Here: ${nameOf(row.mine.plan) === nameOf(row.item.plan) ? "" : `“${nameOf(row.mine.plan)}”, `}${when(row.mine.changed)}` }),
          el("span", { class: "quiet", text: "Tick to replace" }))));
      })));
  }
  if (of("same").length) body.append(details("The same, left alone", of("same").map((row) => el("li", { text: nameOf(row.item.plan) }))));
  label();
  body.append(el("div", { class: "actions" }, add));
  if (!await closed) return false;
  await mergePlans([...of("new"), ...of("different")].map((row) => {
    const into = boxes.get(row)?.checked ? row.mine.id : "";
    const both = row.is === "different" && !into;
    return { ...row.item, id: both ? "" : row.item.id, plan: both ? { ...row.item.plan, name: `${nameOf(row.item.plan)} (copy)` } : row.item.plan, into };
  }));
  const said = gearWord ? ` Gear list: ${await addPieces(pieces)}` : "";
  notice("file", `${plural(of("new").length + of("different").length, "plan")} added, under Plans.${said}`);
  return true;
}

function details(title, items) {
  return el("details", { class: "merge-list" }, el("summary", { text: `${title}: ${items.length}` }), el("ul", {}, ...items));
}

export function plural(n, one, many = `${one}s`) {
  return `${count(n)} ${n === 1 ? one : many}`;
}
