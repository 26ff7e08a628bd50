// The plans kept on this device, and the one in work among them.
//
// Every change goes into the journal at once and among the plans soon after,
// in one transaction; so a page that is killed loses nothing. A plan has a
// revision: when another window has stored a newer one than this window began
// with, this window's goes into a plan of its own and both stay.

import { Refused, copyName, isObject, nameOf, same } from "./intake.js";
import { keep, leftBehind, moment, openJournal, settle, tab, takenUp } from "./journal.js";
import { version } from "./rigging.js";
import { say } from "./say.js";
import { emptyPlan, look, onPlan, onView, openPlan, state, treeWords } from "./state.js";
import { Leaving, dropOldPlan, here, lasting, oldPlan, onOthers, readAll, readOne, setHere, tellOthers, transact } from "./storage.js";

const SAVE_AFTER = 150; // ms without a change; the journal bridges them
const ENTRY = `plan/${tab}`; // of the plan in work, in the journal
const HISTORIES = 20; // plans whose undo steps are kept while the page is open

let journaled = 0; // the moment of the entry that the store has not, 0 without one
/** @type {Promise<void> | null} */
let saving = null;
let due = 0;
let troubled = "";

/**
 * What to call when a plan cannot be stored, when this window's became a copy,
 * and when another window has stored a newer one.
 *
 * @typedef {{ notStored(err: unknown): void, forked(name: string): void, newer(name: string): void }} Calls
 */

/** @type {Calls} */
let tell = { notStored() {}, forked() {}, newer() {} };

/**
 * The plan in work as the database has it: plan is the very object stored,
 * revision 0 while it is not stored yet.
 *
 * @typedef {{ id: string, revision: number, plan: Plan | null, summary: Summary | null }} Work
 */

/** @type {Work} */
let work = { id: newId(), revision: 0, plan: null, summary: null };
/** @type {Map<string, { revision: number, steps: import("./state.js").Steps }>} */
const histories = new Map(); // by id

function newId() {
  return Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => b.toString(16).padStart(2, "0")).join("");
}

/**
 * @typedef {import("./intake.js").Plan} Plan
 * @typedef {import("./state.js").Origin} Origin
 */

/**
 * A plan as it is kept. The edits are the moments of the last entry of the
 * journal that is in it, by the page that wrote them: an entry that is there
 * still, though settled, is then known for an old one.
 *
 * @typedef {object} PlanRecord
 * @property {string} id
 * @property {Plan} plan
 * @property {Origin} origin
 * @property {number} revision
 * @property {string} writer
 * @property {{ [page: string]: number }} edits
 * @property {number} made ms since the epoch
 * @property {number} changed ms since the epoch
 * @property {boolean} archived
 * @property {number} binned ms since the epoch, 0 while it is not in the bin
 * @property {Summary | null} summary
 */

/**
 * What the calculator last said of a plan, for the list of plans; made says
 * what its words hold for.
 *
 * @typedef {{ verdict: string, word: string, problems: number, tree: string, after: show.After | null, stem: job.Stem | null, made: string }} Summary
 */

/** @param {Plan} plan @param {Partial<PlanRecord>} [more] @returns {PlanRecord} */
function newRecord(plan, more) {
  const now = Date.now();
  return { id: newId(), plan, origin: "own", revision: 1, writer: tab, edits: {}, made: now, changed: now, archived: false, binned: 0, summary: null, ...more };
}

const PAGES = 8; // whose last edits a record names

/** @param {PlanRecord | undefined} before @param {string} page @param {number} at */
function edited(before, page, at) {
  const all = Object.entries({ ...before?.edits, [page]: at }).sort(([, a], [, b]) => b - a);
  return Object.fromEntries(all.slice(0, PAGES));
}

// whole says whether a record is one; a damaged one is shown as such and
// touches nothing else.
/** @param {unknown} record @returns {record is PlanRecord} */
export function whole(record) {
  return isObject(record) && isObject(record.plan) && Number.isInteger(record.revision) && Number.isFinite(record.changed) && Number.isFinite(record.binned)
    && (record.summary === null || isObject(record.summary));
}

// kept gives the records that are whole.
async function kept() {
  return (await readAll("plans")).filter(whole);
}

export function workId() {
  return work.id;
}

// workKept says whether the plan in work is among those stored.
export function workKept() {
  return work.revision > 0;
}

// firstPlan readies the plans and gives the one to begin with, or null where
// there is none. One that is given is none of those kept until it is changed.
/** @param {import("./state.js").Step | null} given */
export async function firstPlan(given) {
  await openJournal();
  let own = "";
  let last = "";
  try {
    ({ own, last } = await fromJournal());
    last ||= await fromBefore();
  } catch (err) {
    console.error(err);
  }
  if (given) return given;
  const records = await kept().catch(() => []);
  const wanted = [own, here(), last, (await readOne("meta", "work").catch(() => null))?.id];
  const open = records.filter((r) => !r.binned);
  const newest = open.filter((r) => !r.archived).sort((a, b) => b.changed - a.changed)[0];
  const record = wanted.map((id) => open.find((r) => r.id === id)).find(Boolean) ?? newest;
  if (!record) return null;
  adopt(record);
  return { plan: record.plan, origin: record.origin };
}

// begun is called once the first plan is in the state.
/** @param {Calls} calls */
export function begun(calls) {
  tell = calls;
  if (!work.plan) work.plan = state.plan;
  onPlan(changed);
  onView(viewed);
  onOthers(otherWindow);
  addEventListener("pageshow", (event) => {
    if (!event.persisted) return;
    if (journaled) saveSoon();
    otherWindow(work.id);
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") saveNow();
    else otherWindow(work.id);
  });
}

/** @param {PlanRecord} record */
function adopt(record) {
  work = { id: record.id, revision: record.revision, plan: record.plan, summary: record.summary };
  setHere(record.id);
}

// fromBefore takes over the plan of a version of this page that kept one.
async function fromBefore() {
  const before = oldPlan();
  if (!before) return "";
  const record = newRecord(before.plan, { origin: before.origin });
  const had = (await readAll("plans")).some((r) => same(r?.plan, before.plan));
  if (before.origin === "own" && !had) await transact("plans", record.id, () => ({ put: [["plans", record]] }));
  if (await lasting()) dropOldPlan();
  return before.origin === "own" && !had ? record.id : "";
}

// fromJournal stores what pages that have ended could not store, and gives the
// id of the last one's plan, and of that which was in work in this window: it may
// have become a copy.
async function fromJournal() {
  let own = "";
  let last = "";
  for (const entry of leftBehind("plan/")) {
    const { value } = entry;
    if (isObject(value) && typeof value.id === "string") {
      const id = await fromEntry(entry, value, value.id);
      last = id ?? last;
      if (id && value.id === here()) own = id;
    }
    takenUp(entry);
  }
  return { own, last };
}

/** @param {import("./journal.js").Entry} entry @param {{ [key: string]: unknown }} value @param {string} id @returns {Promise<string | undefined>} */
function fromEntry({ tab: page, at }, value, id) {
  const { plan, origin, base, changed, archived, binned } = value;
  if (!isObject(plan)) return transact("plans", id, (stored) => ({ put: stored ? [] : [["plans", value]] })); // damaged, and shown as such
  /** @type {Partial<PlanRecord>} */
  const more = { plan, origin: origin === "example" ? "example" : "own", changed: Number(changed) || Date.now(), summary: null };
  return transact("plans", id, (stored) => {
    if (!whole(stored)) { // damaged, or not there
      const kept = newRecord(plan, { ...more, id, edits: { [page]: at }, archived: Boolean(archived), binned: Number(binned) || 0 });
      return { put: [["plans", kept], ...aside(stored)], answer: id };
    }
    if (stored.edits?.[page] >= at) return {}; // it is in there already
    const edits = edited(stored, page, at);
    if (same(stored.plan, plan)) return { put: [["plans", { ...stored, edits }]], answer: id };
    if (stored.revision === base || stored.writer === page) {
      return { put: [["plans", { ...stored, ...more, edits, revision: stored.revision + 1, binned: 0 }]], answer: id };
    }
    const copy = newRecord(plan, { ...more, plan: copyOf(plan) });
    return { put: [["plans", copy], ["plans", { ...stored, edits }]], answer: copy.id };
  });
}

// aside lays a damaged record beside those that are whole.
/** @param {object | undefined} stored @returns {[["plans", object]] | []} */
function aside(stored) {
  return stored ? [["plans", { ...stored, id: newId() }]] : [];
}

/** @param {Plan} plan */
export function copyOf(plan) {
  return { ...plan, name: copyName(plan) };
}

// Keeping the plan in work.

function changed() {
  if (state.plan === work.plan && !journaled) return;
  journal();
  saveSoon();
}

function journal() {
  journaled = keep(ENTRY, { id: work.id, base: work.revision, plan: state.plan, origin: state.origin, changed: Date.now() });
}

function saveSoon() {
  clearTimeout(due);
  due = setTimeout(save, SAVE_AFTER);
}

function saveNow() {
  if (journaled || due) save();
}

// What the calculator last said of a plan, and of which.
/** @type {{ plan: Plan | null, summary: Summary | null }} */
let judged = { plan: null, summary: null };

/** @param {import("./state.js").Viewed} now */
function viewed({ view }) {
  if (!view.form.length) return; // the first view: the form, with its words for the tree, follows
  judged = { plan: state.plan, summary: summaryOf(view, treeWords(view)) };
  if (work.revision > 0 && state.plan === work.plan && !same(judged.summary, work.summary)) saveSoon();
}

/** @param {page.View} view @param {string} tree @returns {Summary} */
function summaryOf(view, tree) {
  return { verdict: view.headline.held ? "held" : view.headline.verdict, word: view.headline.word, problems: view.problems.length, tree, after: view.after ?? null, stem: view.stem ?? null, made: stamp() };
}

// stamp tells what a summary's words hold for: the version of the page and
// the person's choices.
function stamp() {
  const { units, words, language } = state.settings;
  return [version(), units, words, language].join(" ");
}

// save gives a promise that all is stored; it never fails.
export function save() {
  clearTimeout(due);
  due = 0;
  saving = (saving ?? Promise.resolve()).then(saveOnce).catch((err) => {
    if (err instanceof Leaving) return; // the journal has it, and is read when the page comes back
    if (troubled !== work.id) console.error(err);
    troubled = work.id;
    tell.notStored(err);
  });
  return saving;
}

async function saveOnce() {
  const { plan, origin } = state;
  const was = work;
  if (!was.plan) return; // not begun: nothing can have been changed
  const at = journaled;
  const fresh = plan !== was.plan || at > 0;
  const summary = judged.plan === plan ? judged.summary : null;
  if (!fresh && (was.revision === 0 || same(summary ?? was.summary, was.summary))) return;
  const stored = await transact("plans", was.id, (/** @type {PlanRecord | undefined} */ before) => {
    if (!fresh) return before && before.revision === was.revision ? { put: [["plans", { ...before, summary }]], answer: { ...before, plan, summary } } : {};
    const edits = edited(before, tab, at || moment());
    const mine = !before || whole(before) && (before.revision === was.revision || before.writer === tab || same(before.plan, plan));
    const record = mine
      ? { ...newRecord(plan, { id: was.id }), ...before, plan, origin, summary, writer: tab, edits, changed: Date.now(), binned: 0, revision: (before?.revision ?? 0) + 1 }
      : newRecord(copyOf(plan), { summary });
    /** @type {[["plans", object]] | []} */
    const others = mine ? [] : [["plans", { ...before, edits }]];
    return { put: [["plans", record], ...others, ["meta", { key: "work", id: record.id }]], answer: record };
  });
  if (!stored) return;
  troubled = "";
  const forked = stored.id !== was.id;
  if (work === was) { // still in work
    work = { id: stored.id, revision: stored.revision, plan, summary: stored.summary };
    setHere(work.id);
    settleJournal(plan, at);
  }
  if (fresh) tellOthers(stored.id);
  if (forked && work.id === stored.id) {
    rename(plan, stored.plan);
    tell.forked(nameOf(stored.plan));
  }
  if (work.id === stored.id && judged.plan === plan && !same(judged.summary, work.summary)) saveSoon();
}

/** @param {Plan} plan @param {number} at */
function settleJournal(plan, at) {
  if (state.plan !== plan) { // changed meanwhile: on top of what is stored now
    journal();
    saveSoon();
    return;
  }
  journaled = 0;
  settle(ENTRY, at);
}

// rename puts the name of the copy into the plan in work; its undo steps stay.
/** @param {Plan} plan @param {Plan} stored */
function rename(plan, stored) {
  const renamed = state.plan === plan ? stored : { ...state.plan, name: stored.name };
  if (state.plan === plan) work.plan = stored;
  const steps = openPlan(renamed, "own");
  openPlan(renamed, "own", steps);
}

/** @param {string} id */
async function otherWindow(id) {
  if (id !== work.id || work.revision === 0) return;
  const stored = await readOne("plans", id).catch(() => null);
  if (whole(stored) && id === work.id && stored.revision > work.revision && stored.writer !== tab && !same(stored.plan, state.plan)) tell.newer(nameOf(stored.plan));
}

// Going from plan to plan.

/** @param {Work} next @param {Plan} plan @param {Origin} origin @param {import("./state.js").Steps} [steps] */
function leave(next, plan, origin, steps) {
  const was = work;
  work = next;
  setHere(work.id); // also of a plan that no store has yet: the journal may be all there is of it
  journaled = 0;
  const left = openPlan(plan, origin, steps);
  histories.delete(was.id);
  histories.set(was.id, { revision: was.revision, steps: left });
  const [oldest] = histories.keys();
  if (histories.size > HISTORIES) histories.delete(oldest);
}

// settled waits until the plan in work is stored; only then may it go.
async function settled() {
  await save();
  if (journaled) await save();
  if (journaled) throw new Refused(say("Your current plan could not be stored, so it stays open. Save it to a file, then make room."));
}

// openRecord takes a kept plan into work; false where it is gone.
/** @param {string} id */
export async function openRecord(id) {
  await settled();
  const record = await readOne("plans", id);
  if (!whole(record)) return false;
  if (journaled) await settled(); // changed while it was read
  const before = histories.get(id);
  leave({ id, revision: record.revision, plan: record.plan, summary: record.summary }, record.plan, record.origin, before?.revision === record.revision ? before.steps : undefined);
  await transact("meta", "work", () => ({ put: [["meta", { key: "work", id }]] })).catch(() => {});
  return true;
}

// startPlan takes a plan into work that is not kept until it is changed.
/** @param {Plan} plan @param {Origin} origin */
export async function startPlan(plan, origin) {
  await settled();
  leave({ id: newId(), revision: 0, plan, summary: null }, plan, origin);
}

// addPlan keeps a plan from elsewhere and takes it into work.
/** @param {Plan} plan */
export async function addPlan(plan) {
  const record = newRecord(plan);
  await transact("plans", record.id, () => ({ put: [["plans", record]] }));
  await openRecord(record.id);
}

// replaceRecord puts a plan from elsewhere in the place of a kept one, which
// goes to the bin as a copy.
/** @param {string} id @param {Plan} plan */
export async function replaceRecord(id, plan) {
  await settled();
  await transact("plans", id, (/** @type {PlanRecord | undefined} */ stored) => ({ put: replacing(stored, plan, id) }));
  await openRecord(id);
  tellOthers(id);
}

/** @param {PlanRecord | undefined} stored @param {Plan} plan @param {string} id @returns {["plans", PlanRecord][]} */
function replacing(stored, plan, id) {
  if (!stored) return [["plans", newRecord(plan, { id })]];
  return [
    ["plans", { ...stored, id: newId(), binned: Date.now() }],
    ["plans", { ...stored, plan, origin: "own", summary: null, writer: tab, changed: Date.now(), revision: stored.revision + 1 }],
  ];
}

// listPlans gives all records that are whole, that of the plan in work among
// them, newest first.
export async function listPlans() {
  await save();
  const records = await kept();
  if (!records.some((r) => r.id === work.id)) {
    records.push(newRecord(state.plan, { id: work.id, revision: 0, origin: state.origin, summary: judged.plan === state.plan ? judged.summary : null }));
  }
  return records.sort((a, b) => b.changed - a.changed);
}

// listDamaged gives what lies among the plans and is none.
export async function listDamaged() {
  return (await readAll("plans")).filter((record) => !whole(record))
    .map((record) => ({ id: String(record.id), text: typeof record.damaged === "string" ? record.damaged : JSON.stringify(record, null, 2) }));
}

/** @param {string} id */
export function dropDamaged(id) {
  return transact("meta", "", () => ({ drop: [["plans", id]] }));
}

// workedOut gives a record's summary, made anew where it holds no longer or
// there is none.
/** @param {PlanRecord} record */
export async function workedOut(record) {
  if (record.summary && record.summary.made === stamp()) return record.summary;
  const view = look(record.plan);
  if (!view) return null;
  const summary = summaryOf(view, view.tree);
  if (record.revision > 0) {
    await transact("plans", record.id, (/** @type {PlanRecord | undefined} */ stored) => (stored?.revision === record.revision ? { put: [["plans", { ...stored, summary }]] } : {})).catch(() => {});
  }
  return summary;
}

/** @param {string} id @param {Partial<PlanRecord>} marks */
function mark(id, marks) {
  return transact("plans", id, (stored) => (stored ? { put: [["plans", { ...stored, ...marks }]] } : {}));
}

/** @param {string} id @param {string} name */
export async function renamePlan(id, name) {
  await transact("plans", id, (/** @type {PlanRecord | undefined} */ stored) => (stored
    ? { put: [["plans", { ...stored, plan: { ...stored.plan, name }, writer: tab, changed: Date.now(), revision: stored.revision + 1 }]] }
    : {}));
  tellOthers(id);
}

/** @param {PlanRecord} record */
export async function duplicatePlan(record) {
  const copy = newRecord(structuredClone(copyOf(record.plan)), { summary: record.summary });
  await transact("plans", copy.id, () => ({ put: [["plans", copy]] }));
  return copy;
}

/** @param {string} id @param {boolean} archived */
export function archivePlan(id, archived) {
  return mark(id, { archived });
}

// binPlan puts a plan into the bin. When it is the one in work the newest of
// the others comes into work, or an empty one.
/** @param {string} id */
export async function binPlan(id) {
  await save();
  await mark(id, { binned: Date.now() });
  if (id !== work.id) return;
  const next = (await listPlans()).find((r) => r.id !== id && !r.binned && !r.archived && r.revision > 0);
  if (!next || !await openRecord(next.id)) await startPlan(emptyPlan(), "own");
}

/** @param {string} id */
export function restorePlan(id) {
  return mark(id, { binned: 0, archived: false });
}

export async function emptyBin() {
  const gone = (await kept()).filter((r) => r.binned).map((r) => r.id);
  await transact("meta", "work", () => ({ drop: gone.map((id) => ["plans", id]) }));
  for (const id of gone) histories.delete(id);
}

// mergePlans keeps plans of a backup, into being the id of the record that is
// replaced, "" for a new one.
/** @param {{ id: string, plan: Plan, changed: number, archived: boolean, into: string }[]} list */
export async function mergePlans(list) {
  await settled();
  const taken = new Set((await readAll("plans")).map((r) => r.id));
  const fresh = list.filter(({ into }) => !into).map(({ id, plan, changed: when, archived }) => {
    const free = id && !taken.has(id) ? { id } : {};
    taken.add(id);
    return newRecord(plan, { ...free, changed: when || Date.now(), archived: Boolean(archived) });
  });
  await transact("meta", "work", () => ({ put: fresh.map((record) => ["plans", record]) }));
  for (const { plan, into } of list.filter((item) => item.into)) {
    await transact("plans", into, (/** @type {PlanRecord | undefined} */ stored) => ({ put: replacing(stored, plan, into) }));
  }
  if (list.some(({ into }) => into === work.id)) await openRecord(work.id);
}

// newerOne takes the plan as another window has stored it into work. What
// this window has and has not stored goes into a plan of its own.
export async function newerOne() {
  const { id } = work;
  await openRecord(id);
}
