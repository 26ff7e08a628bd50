// The page's memory between visits, on this device only: the one module that
// touches the browser's stores. Where the browser denies them, everything is
// kept for this visit only, and nothing fails.
//
// Plans, marks and gear lie in a database, written in whole transactions:
// what was there stays until the new is complete. Small things that must be
// written at once, before the page can be killed, lie in the local store.

const DATABASE = "pullline";
const STORES = { plans: "id", meta: "key", gear: "id" };
const OPEN_LIMIT = 8000; // ms, for opening and for a transaction; some browsers never answer at all

const SETTINGS = "pullline.settings";
const SAID = "pullline.said";
const OLD_PLAN = "pullline.plan"; // where versions with one plan kept it
const JOURNAL = "pullline.journal.";
const HERE = "pullline.here";
const CHANGED = "pullline.changed";
const SHEETS = "pullline.practice";
const MOST_SHEETS = 20; // the practice sheets worked on last

function read(key, store = "localStorage") {
  try {
    return JSON.parse(globalThis[store].getItem(key));
  } catch {
    return null;
  }
}

function write(key, value, store = "localStorage") {
  try {
    globalThis[store].setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

function drop(key) {
  try {
    globalThis.localStorage.removeItem(key);
  } catch {
    // nothing is kept, so nothing is to be dropped
  }
}

// denied says that this page has no store at all, as in a sandboxed frame.
export function denied() {
  try {
    return !globalThis.localStorage;
  } catch {
    return true;
  }
}

const isObject = (value) => value !== null && typeof value === "object" && !Array.isArray(value);

export function loadSettings() {
  const kept = read(SETTINGS);
  return isObject(kept) ? kept : {};
}

export function saveSettings(settings) {
  return write(SETTINGS, settings);
}

// sayOnce is true the first time it is asked for a word on this device.
export function sayOnce(word) {
  const said = read(SAID);
  const list = Array.isArray(said) ? said : [];
  if (list.includes(word)) return false;
  write(SAID, [...list, word]);
  return true;
}

// oldPlan gives the plan that a version with one plan kept, or null.
export function oldPlan() {
  const kept = read(OLD_PLAN);
  return isObject(kept) && isObject(kept.plan) ? { plan: kept.plan, origin: kept.origin === "example" ? "example" : "own" } : null;
}

export function dropOldPlan() {
  drop(OLD_PLAN);
}

// The journal holds what is being changed until the database has it.

export function writeJournal(entry) {
  return write(JOURNAL + entry.tab, entry);
}

export function dropJournal(tab) {
  drop(JOURNAL + tab);
}

export function readJournals() {
  const entries = [];
  try {
    for (const key of Object.keys(globalThis.localStorage)) {
      const entry = key.startsWith(JOURNAL) ? read(key) : null;
      if (isObject(entry) && isObject(entry.plan) && typeof entry.id === "string") entries.push({ ...entry, tab: key.slice(JOURNAL.length) });
    }
  } catch {
    // no store, no journals
  }
  return entries;
}

// The answers to practice sheets: { key, given, typed } of each.

let unwritten = null; // the sheets, where the store does not take them

function sheets() {
  const list = unwritten ?? read(SHEETS);
  return Array.isArray(list) ? list.filter((s) => isObject(s) && typeof s.key === "string" && isObject(s.given) && isObject(s.typed)) : [];
}

// loadSheet gives what was kept of a sheet, or null.
export function loadSheet(key) {
  return structuredClone(sheets().find((s) => s.key === key) ?? null);
}

// saveSheet keeps a sheet, in place of what was kept of it before; one
// without any answer is forgotten.
export function saveSheet(sheet) {
  const list = sheets().filter((s) => s.key !== sheet.key);
  if (Object.keys(sheet.given).length || Object.keys(sheet.typed).length) list.push(structuredClone(sheet));
  const kept = list.slice(-MOST_SHEETS);
  unwritten = write(SHEETS, kept) ? null : kept;
}

// here is the id of the plan open in this window, kept with the window.
export function here() {
  const id = read(HERE, "sessionStorage");
  return typeof id === "string" ? id : "";
}

export function setHere(id) {
  write(HERE, id, "sessionStorage");
}

// tellOthers lets the other windows know that a plan has been stored.
export function tellOthers(id) {
  write(CHANGED, { id, at: Date.now() });
}

export function onOthers(listener) {
  addEventListener("storage", (event) => {
    if (event.key !== CHANGED) return;
    const told = read(CHANGED);
    if (isObject(told)) listener(told.id);
  });
}

// The database. Where there is none, maps stand in for it.

let memory = null; // stands in for the database
let opening = null;

// lasting says whether the database keeps what is written.
export async function lasting() {
  await database();
  return memory === null;
}

function database() {
  if (memory) return Promise.resolve(null);
  opening ??= open().catch((err) => {
    console.info("This browser keeps nothing for the page:", err?.message ?? err);
    memory = Object.fromEntries(Object.keys(STORES).map((name) => [name, new Map()]));
    return null;
  });
  return opening;
}

function open() {
  return new Promise((done, fail) => {
    const request = globalThis.indexedDB.open(DATABASE, 1); // throws in a sandboxed frame
    const late = setTimeout(() => fail(new Error("no answer")), OPEN_LIMIT);
    request.onupgradeneeded = () => {
      for (const [name, keyPath] of Object.entries(STORES)) {
        if (!request.result.objectStoreNames.contains(name)) request.result.createObjectStore(name, { keyPath });
      }
    };
    request.onerror = () => {
      clearTimeout(late);
      fail(request.error);
    };
    request.onsuccess = () => {
      clearTimeout(late);
      const db = request.result;
      const again = () => { opening = null; }; // the next call opens it anew
      db.onclose = again;
      db.onversionchange = () => {
        db.close();
        again();
      };
      done(db);
    };
  });
}

// Leaving is why nothing is written any more: the page is being left. What was
// typed lies in the journal by then.
export class Leaving extends Error {}

// A page that is left is often only put to sleep. A transaction asleep with it
// would keep every later page waiting for the database, so none may outlive
// the page's going, and none begins after it.
const running = new Set();
let leaving = false;

globalThis.addEventListener?.("pagehide", () => {
  leaving = true;
  for (const transaction of running) giveUp(transaction);
  opening?.then((db) => db?.close()).catch(() => {});
  opening = null;
});
globalThis.addEventListener?.("pageshow", () => { leaving = false; });

// begin begins a transaction. Some browsers lose the database without a word:
// then the next call opens it anew. One that gets no answer is given up.
function begin(db, stores, mode) {
  if (leaving) throw new Leaving("The page is being left");
  let transaction;
  try {
    transaction = db.transaction(stores, mode, { durability: "strict" });
  } catch (err) {
    opening = null;
    throw err;
  }
  running.add(transaction);
  const late = setTimeout(() => giveUp(transaction), OPEN_LIMIT);
  const over = () => {
    clearTimeout(late);
    running.delete(transaction);
  };
  transaction.addEventListener("complete", over);
  transaction.addEventListener("abort", over);
  return transaction;
}

function giveUp(transaction) {
  try {
    transaction.abort();
  } catch {
    // it was over already
  }
}

// given is why a transaction came to nothing.
function given(transaction, wrong) {
  if (leaving) return new Leaving("The page is being left");
  return wrong ?? transaction.error ?? new Error("The browser gave up on the store");
}

// readAll gives every record of a store.
export async function readAll(store) {
  const db = await database();
  if (!db) return structuredClone([...memory[store].values()]);
  return new Promise((done, fail) => {
    const all = begin(db, store, "readonly");
    all.onabort = () => fail(given(all));
    const request = all.objectStore(store).getAll();
    request.onsuccess = () => done(request.result);
  });
}

// readOne gives a record, or undefined.
export async function readOne(store, key) {
  let found;
  await transact(store, key, (stored) => {
    found = stored;
    return {};
  });
  return found;
}

// transact reads one record and writes what decide makes of it, all in one
// transaction. decide(record or undefined) gives { put: [[store, record]],
// drop: [[store, key]], answer }. The promise gives the answer once all is
// written for good; if anything fails nothing is written.
export async function transact(store, key, decide) {
  const db = await database();
  if (!db) {
    const { put = [], drop: gone = [], answer } = decide(structuredClone(memory[store].get(key)));
    for (const [name, record] of put) memory[name].set(record[STORES[name]], structuredClone(record));
    for (const [name, id] of gone) memory[name].delete(id);
    return answer;
  }
  return new Promise((done, fail) => {
    const all = begin(db, Object.keys(STORES), "readwrite");
    let answer;
    let wrong;
    all.oncomplete = () => done(answer);
    all.onabort = () => fail(given(all, wrong));
    const request = all.objectStore(store).get(key);
    request.onsuccess = () => {
      try {
        const result = decide(request.result);
        answer = result.answer;
        for (const [name, record] of result.put ?? []) all.objectStore(name).put(record);
        for (const [name, id] of result.drop ?? []) all.objectStore(name).delete(id);
      } catch (err) {
        wrong = err;
        all.abort();
      }
    };
  });
}
