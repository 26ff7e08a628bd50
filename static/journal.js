// The journal: the one place for everything that can be typed. What is typed
// is written here at once, twice: into the local store, which outlives a
// reload at any moment, and into the database, flushed, which outlives the
// browser being killed. The plans and the gear list have stores of their own
// that follow at rest; then their entry is settled. Practice sheets, readings
// and worksheets not used yet have none: for them the journal is the store.
//
// The id of an entry says what it is and where it belongs, with a stroke
// between; tab is the page that wrote it; at, in milliseconds and never twice the
// same in one page, tells the newer from the older. A value of null is an entry
// that is done with.

import { isObject } from "./intake.js";
import {
  Leaving, dropFromLocalStore, dropNow, dropOldSheets, inDatabase, lasting, leftInLocalStore, oldSheets, readAll, readNow, swapWindow, transact,
  writeNow, writtenNow,
} from "./storage.js";

/** @typedef {{ id: string, tab: string, at: number, value: unknown }} Entry */

const IN_DATABASE = "journal "; // begins the keys among the small things of the database
const BEFORE_ALIVE = 5000; // ms that the page before in this window may take to end

export const tab = Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => b.toString(16).padStart(2, "0")).join("");

/** @type {Map<string, Entry>} */
const entries = new Map(); // by id
/** @type {Map<string, Entry | null>} */
const waiting = new Map(); // for the database, by id; null is to be dropped
/** @type {Set<string>} */
const loose = new Set(); // ids that no store has yet
/** @type {Entry[]} */
let left = []; // entries of pages that have ended
let last = 0;
let lasts = true; // what is stored outlives this visit
/** @type {Promise<void> | null} */
let pumping = null;
/** @type {(id: string) => void} */
let lost = () => {};

// onLost calls a listener with the id of what could not be kept.
/** @param {(id: string) => void} listener */
export function onLost(listener) {
  lost = listener;
}

// moment is now, and later than every moment before it.
export function moment() {
  last = Math.max(Date.now(), last + 1);
  return last;
}

// keep writes what was typed; it gives the entry's moment.
/** @param {string} id @param {unknown} value */
export function keep(id, value) {
  const entry = { id, tab, at: moment(), value };
  entries.set(id, entry);
  loose.add(id);
  if (writeNow(id, entry)) loose.delete(id);
  waiting.set(id, entry);
  pump();
  return entry.at;
}

// settle lets go of an entry that lies in a store of its own, unless it has
// changed since then.
/** @param {string} id @param {number} at */
export function settle(id, at) {
  const entry = entries.get(id);
  if (!entry || entry.at !== at) return;
  entries.delete(id);
  if (lasts) loose.delete(id);
  dropNow(id);
  waiting.set(id, null);
  pump();
}

// kept gives the value of an entry, null where there is none; of two windows
// that wrote it the later one's.
/** @param {string} id */
export function kept(id) {
  const now = asEntry(readNow(id));
  if (now && now.at > (entries.get(id)?.at ?? 0)) entries.set(id, now);
  return entries.get(id)?.value ?? null;
}

// asEntry gives what was stored as an entry, null where it is none.
/** @param {{ [key: string]: unknown } | null} stored @returns {Entry | null} */
function asEntry(stored) {
  const { id, tab: page, at, value = null } = stored ?? {};
  return typeof id === "string" && typeof at === "number" && Number.isFinite(at) ? { id, tab: String(page), at, value } : null;
}

// keptMost forgets all but the newest entries whose ids begin the same.
/** @param {string} beginning @param {number} most */
export function keptMost(beginning, most) {
  const all = [...entries.values()].filter(({ id, value }) => value !== null && id.startsWith(beginning)).sort((a, b) => b.at - a.at);
  for (const { id, at } of all.slice(most)) settle(id, at);
}

// leftBehind gives the entries of pages that have ended, oldest first.
/** @param {string} beginning */
export function leftBehind(beginning) {
  return left.filter(({ id }) => id.startsWith(beginning));
}

// takenUp lets go of such an entry: it lies in a store of its own.
/** @param {{ id: string }} entry */
export function takenUp({ id }) {
  left = left.filter((entry) => entry.id !== id);
  dropNow(id);
  waiting.set(id, null);
  pump();
}

// flushed gives a promise that the database has what was written so far.
export async function flushed() {
  while (pumping) await pumping;
}

function pump() {
  pumping ??= toDatabase();
}

async function toDatabase() {
  try {
    if (await inDatabase()) {
      await write();
    } else { // the local store has it, or nothing does
      waiting.clear();
      tellLost();
    }
  } catch (err) {
    if (!(err instanceof Leaving)) tellLost(); // the next change tries again
  } finally {
    pumping = null; // at once: what comes next begins anew
  }
}

async function write() {
  while (waiting.size) {
    const now = [...waiting];
    waiting.clear();
    const key = (/** @type {string} */ id) => IN_DATABASE + id;
    try {
      await transact("meta", "", () => ({
        put: now.filter(([, entry]) => entry).map(([id, entry]) => ["meta", { key: key(id), ...entry }]),
        drop: now.filter(([, entry]) => !entry).map(([id]) => ["meta", key(id)]),
      }));
      for (const [id] of now) if (!waiting.has(id)) loose.delete(id);
    } catch (err) {
      for (const [id, entry] of now) if (!waiting.has(id)) waiting.set(id, entry);
      throw err;
    }
  }
}

function tellLost() {
  for (const id of loose) lost(id);
}

// The browser asks before a page is left that has something no store took. A
// frame is for this visit only, and nobody expects otherwise.
globalThis.addEventListener?.("beforeunload", (event) => {
  if (loose.size && parent === window) event.preventDefault();
});

// openJournal reads what is there, and is called once before all else.
export async function openJournal() {
  const before = swapWindow(tab);
  holdTab();
  addEventListener("pagehide", () => letGo());
  addEventListener("pageshow", (event) => {
    if (!event.persisted) return;
    holdTab();
    pump();
  });
  const database = await inDatabase();
  lasts = await lasting();
  if (database) await fromLocalStore().catch(console.error); // what is left there waits for the next start
  /** @type {Map<string, Entry>} */
  const found = new Map();
  const take = (/** @type {Entry | null} */ entry) => {
    if (entry && (found.get(entry.id)?.at ?? 0) < entry.at) found.set(entry.id, entry);
  };
  for (const { name, entry } of writtenNow()) take(name.includes("/") ? asEntry(entry) : ofBefore(name, entry));
  if (database) {
    for (const stored of await readAll("meta").catch(() => [])) if (String(stored.key).startsWith(IN_DATABASE)) take(asEntry(stored));
  }
  await ended(before);
  const alive = await tabsAlive();
  for (const entry of [...found.values()].sort((a, b) => a.at - b.at)) {
    last = Math.max(last, entry.at);
    if (entry.value === null) takenUp(entry);
    else if (!/^(plan|gear)\//.test(entry.id)) entries.set(entry.id, entry);
    else if (!alive.has(entry.tab)) left.push(entry);
  }
  for (const sheet of oldSheets()) if (isObject(sheet) && sheet.key && !entries.has(`practice/${sheet.key}`)) keep(`practice/${sheet.key}`, sheet);
  dropOldSheets();
}

// ofBefore gives an entry as it is written now; versions before this one
// wrote the plan in work only.
/** @param {string} name @param {{ [key: string]: unknown }} entry */
function ofBefore(name, entry) {
  const now = { id: `plan/${name}`, tab: name, at: Number(entry.changed) || 1, value: entry };
  if (writeNow(now.id, now)) dropNow(name);
  return now;
}

// fromLocalStore makes entries of the records that the local store kept while
// there was no database: whoever takes up the entries finds a place for them.
async function fromLocalStore() {
  for (const [store, kind] of /** @type {const} */ ([["plans", "plan"], ["gear", "gear"]])) {
    for (const record of leftInLocalStore(store)) {
      const id = `${kind}/local ${record.id}`;
      await transact("meta", "", () => ({ put: [["meta", { key: IN_DATABASE + id, id, tab: "", at: moment(), value: { ...record, base: -1 } }]] }));
      dropFromLocalStore(store, String(record.id));
    }
  }
  for (const { key } of leftInLocalStore("meta")) dropFromLocalStore("meta", String(key));
}

// Every page holds a lock in its name, so that the entries of one that is
// only slow are left to it; one that is left lets go of it.
let letGo = () => {};

function holdTab() {
  try {
    navigator.locks?.request(`pullline-${tab}`, () => new Promise((/** @type {(value?: undefined) => void} */ done) => { letGo = done; })).catch(() => {});
  } catch {
    // no locks: every other page counts as ended
  }
}

// ended waits a while for the end of the page before this one in this window.
/** @param {string} before */
async function ended(before) {
  if (!before) return;
  try {
    const { timeout } = /** @type {typeof AbortSignal & { timeout(ms: number): AbortSignal }} */ (AbortSignal);
    await navigator.locks.request(`pullline-${before}`, { signal: timeout(BEFORE_ALIVE) }, () => {});
  } catch {
    // the window was doubled, and that page lives on; or there are no locks
  }
}

async function tabsAlive() {
  try {
    const { held = [] } = await navigator.locks.query();
    return new Set(held.map((lock) => lock.name?.replace("pullline-", "")));
  } catch {
    return new Set();
  }
}
