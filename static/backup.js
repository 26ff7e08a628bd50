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
import { Refused, checkPlan, copyName, isObject, nameOf, same } from "./intake.js";
import { addPieces, gearPieces } from "./inventory.js";
import { notice } from "./messages.js";
import { listPlans, mergePlans } from "./plans.js";
import { say, sayCount, sayNumber } from "./say.js";

const KIND = "pull-line plans";
const VERSION = 1;
const MOST = 2000; // plans, or pieces of gear, in one file

/**
 * @typedef {import("./intake.js").Plan} Plan
 * @typedef {import("./plans.js").PlanRecord} PlanRecord
 * @typedef {{ id: string, changed: number, archived: boolean, plan: Plan }} Item a plan of the file; changed is 0 where the file does not say
 */

/** @param {unknown} value */
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
/** @param {{ [key: string]: unknown }} value */
export function readBackup(value) {
  if (typeof value.version !== "number" || !Number.isInteger(value.version) || value.version < 1) throw new Refused(say("This file of plans gives no version, so it cannot be read."));
  if (value.version > VERSION) throw new Refused(say("This file was made by a newer version of this page. Load the newest version first."));
  const list = Array.isArray(value.plans) ? value.plans : [];
  if (list.length > MOST) throw new Refused(say("This file has {n} plans. The most that can be read is {most}.", { n: sayNumber(list.length), most: sayNumber(MOST) }));
  /** @type {Item[]} */
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

/**
 * Says of each plan of a backup what it is beside the plans here.
 *
 * @param {Item[]} plans
 * @param {PlanRecord[]} records
 * @returns {{ item: Item, is: "new" | "same" | "different", mine?: PlanRecord }[]}
 */
export function compare(plans, records) {
  const here = records.filter((r) => !r.binned && r.revision > 0);
  /** @type {Plan[]} */
  const seen = [];
  return plans.map((item) => {
    const twin = here.find((r) => same(r.plan, item.plan));
    if (twin || seen.some((plan) => same(plan, item.plan))) return { item, is: "same", mine: twin };
    seen.push(item.plan);
    const named = (/** @type {PlanRecord} */ r) => typeof item.plan.name === "string" && item.plan.name.trim() !== "" && nameOf(r.plan) === nameOf(item.plan);
    const mine = here.find((r) => item.id && r.id === item.id) ?? here.find(named);
    return { item, is: mine ? "different" : "new", mine };
  });
}

// offerBackup shows what a file of plans holds and does, and asks. It gives a
// promise of whether anything was taken.
/** @param {{ [key: string]: unknown }} value @param {string} from */
export async function offerBackup(value, from) {
  const { plans, gear: pieces, left } = readBackup(value);
  const rows = compare(plans, await listPlans());
  const of = (/** @type {typeof rows[number]["is"]} */ is) => rows.filter((row) => row.is === is);
  const gearWord = pieces.length
    ? sayCount(pieces.length, "The file also has {n} piece of gear. It is added unless the gear list already has the same one.", "The file also has {n} pieces of gear. Those not already in the gear list are added.")
    : "";
  const { body, close, closed } = openDialog(say("Add plans from a file?"), { closeWord: say("Leave it") });
  const boxes = new Map();
  const add = button("", () => close(true), "main");
  const label = () => {
    const many = of("new").length + of("different").length;
    setText(add, many ? sayCount(many, "Add {n} plan", "Add {n} plans") : gearWord ? say("Add the gear") : say("Nothing to add"));
    add.disabled = !many && !gearWord;
  };
  body.append(
    el("p", { text: from }),
    el("p", { text: sayCount(plans.length, "{n} plan: {new} new, {same} already here, {different} different.", "{n} plans: {new} new, {same} already here, {different} different.",
      { new: of("new").length, same: of("same").length, different: of("different").length }) }),
    left ? el("p", { class: "warn", text: sayCount(left, "{n} entry in the file cannot be read and is left out.", "{n} entries in the file cannot be read and are left out.") }) : "",
    gearWord ? el("p", { text: gearWord }) : "");
  if (of("new").length) body.append(details(say("New"), of("new").map((row) => el("li", { text: nameOf(row.item.plan) }))));
  if (of("different").length) {
    body.append(
      el("h3", { text: say("Different from your plan") }),
      el("p", { class: "quiet", text: say("Both are kept, the file’s as a copy. Tick a plan to replace yours with it; yours then goes to the bin.") }),
      el("ul", { class: "merge" }, ...of("different").map((row) => {
        const box = el("input", { type: "checkbox" });
        boxes.set(row, box);
        return el("li", {}, el("label", {}, box, el("span", {},
          el("strong", { text: nameOf(row.item.plan) }),
          el("span", { class: "quiet", text: say("In the file: {when}", { when: when(row.item.changed) }) }),
          el("span", { class: "quiet", text: nameOf(row.mine?.plan) === nameOf(row.item.plan)
            ? say("Yours: {when}", { when: when(row.mine?.changed ?? 0) })
            : say("Yours: “{name}”, {when}", { name: nameOf(row.mine?.plan), when: when(row.mine?.changed ?? 0) }) }),
          el("span", { class: "quiet", text: say("Tick to replace") }))));
      })));
  }
  if (of("same").length) body.append(details(say("Already here"), of("same").map((row) => el("li", { text: nameOf(row.item.plan) }))));
  label();
  body.append(el("div", { class: "actions" }, add));
  if (!await closed) return false;
  await mergePlans([...of("new"), ...of("different")].map((row) => {
    const into = boxes.get(row)?.checked && row.mine ? row.mine.id : "";
    const both = row.is === "different" && !into;
    return { ...row.item, id: both ? "" : row.item.id, plan: both ? { ...row.item.plan, name: copyName(row.item.plan) } : row.item.plan, into };
  }));
  const said = [sayCount(of("new").length + of("different").length, "{n} plan added.", "{n} plans added.")];
  if (gearWord) said.push(say("Gear list: {message}", { message: await addPieces(pieces) }));
  notice("file", said.join(" "));
  return true;
}

/** @param {string} title @param {HTMLElement[]} items */
function details(title, items) {
  return el("details", { class: "merge-list" }, el("summary", { text: say("{title}: {n}", { title, n: sayNumber(items.length) }) }), el("ul", {}, ...items));
}
