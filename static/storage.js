// The page's memory between visits, on this device only: the one module that
// touches the browser's stores. Records lie in a database and are written in
// whole transactions: what was there stays until the new is complete. Where
// there is no database the local store stands in for it; where that is denied
// too, everything is kept for this visit only, and nothing fails.

/** @typedef {keyof typeof STORES} Store */
/** @typedef {{ [key: string]: unknown }} Stored a record as it lies in a store: nothing in it is certain */

/**
 * What is to be made of a record, in one transaction.
 *
 * @template A
 * @typedef {{ put?: [Store, object][], drop?: [Store, string][], answer?: A }} Decision
 */

/**
 * What stands in for the database.
 *
 * @typedef {object} StandIn
 * @property {boolean} lasts
 * @property {(store: Store, key: string) => Stored | undefined} get
 * @property {(store: Store) => Stored[]} all
 * @property {(store: Store, record: Stored) => void} put
 * @property {(store: Store, key: string) => void} drop
 */

const DATABASE = "pullline";
const STORES = { plans: "id", meta: "key", gear: "id" };
const OPEN_LIMIT = 8000; // ms, for opening and for a transaction; some browsers never answer at all

const SETTINGS = "pullline.settings";
const LANGUAGE = "pullline.language";
const SAID = "pullline.said";
const OLD_PLAN = "pullline.plan"; // where versions with one plan kept it
const OLD_SHEETS = "pullline.practice"; // where versions without a journal for them kept practice sheets
const JOURNAL = "pullline.journal.";
const STAND_IN = "pullline.kept."; // records, where there is no database
const HERE = "pullline.here";
const WINDOW = "pullline.window";
const CHANGED = "pullline.changed";
const PARTS = "pullline.parts"; // of a plan that comes in several QR codes

// apart says that this page stands inside another one that is not this page
// itself, opened by the user: then it neither shows nor changes what is kept.
const apart = (() => {
  const { window } = globalThis;
  if (!window || window.parent === window) return false;
  try {
    return parent.location.origin !== location.origin || parent.location.pathname !== location.pathname || parent.parent !== parent;
  } catch {
    return true; // of another origin
  }
})();

/** @template {"localStorage" | "sessionStorage" | "indexedDB"} S @param {S} store */
function browser(store) {
  if (apart) throw new Error("Framed by another page");
  return globalThis[store];
}

/** @param {string} key @param {"localStorage" | "sessionStorage"} [store] @returns {unknown} */
function read(key, store = "localStorage") {
  try {
    return JSON.parse(browser(store).getItem(key) ?? "null");
  } catch {
    return null;
  }
}

/** @param {string} key @param {unknown} value @param {"localStorage" | "sessionStorage"} [store] */
function write(key, value, store = "localStorage") {
  try {
    browser(store).setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** @param {string} key */
function drop(key) {
  try {
    browser("localStorage").removeItem(key);
  } catch {
    // nothing is kept, so nothing is to be dropped
  }
}

// named gives what follows a beginning in the names of the local store.
/** @param {string} beginning */
function named(beginning) {
  try {
    return Object.keys(browser("localStorage")).filter((key) => key.startsWith(beginning)).map((key) => key.slice(beginning.length));
  } catch {
    return [];
  }
}

// denied says that this page has no store at all, as in a sandboxed frame.
export function denied() {
  try {
    return !browser("localStorage");
  } catch {
    return true;
  }
}

/** @returns {value is Stored} */
const isObject = (/** @type {unknown} */ value) => value !== null && typeof value === "object" && !Array.isArray(value);

export function loadSettings() {
  const kept = read(SETTINGS);
  return isObject(kept) ? kept : {};
}

/** @param {object} settings */
export function saveSettings(settings) {
  return write(SETTINGS, settings);
}

// keptLanguage is the language kept on this device, "" without one. The page
// offers no choice as long as it has one language only.
export function keptLanguage() {
  const kept = read(LANGUAGE);
  return typeof kept === "string" ? kept : "";
}

// sayOnce is true the first time it is asked for a word on this device.
/** @param {string} word */
export function sayOnce(word) {
  const said = read(SAID);
  const list = Array.isArray(said) ? said : [];
  if (list.includes(word)) return false;
  write(SAID, [...list, word]);
  return true;
}

// oldPlan gives the plan that a version with one plan kept, or null.
/** @returns {import("./state.js").Step | null} */
export function oldPlan() {
  const kept = read(OLD_PLAN);
  return isObject(kept) && isObject(kept.plan) ? { plan: kept.plan, origin: kept.origin === "example" ? "example" : "own" } : null;
}

export function dropOldPlan() {
  drop(OLD_PLAN);
}

// oldSheets gives the practice sheets that an earlier version kept.
/** @returns {unknown[]} */
export function oldSheets() {
  const list = read(OLD_SHEETS);
  return Array.isArray(list) ? list : [];
}

export function dropOldSheets() {
  drop(OLD_SHEETS);
}

// What must be written before anything else happens, by its name: see
// journal.js.

/** @param {string} name @param {object} entry */
export function writeNow(name, entry) {
  return write(JOURNAL + name, entry);
}

/** @param {string} name */
export function dropNow(name) {
  drop(JOURNAL + name);
}

/** @param {string} name */
export function readNow(name) {
  const entry = read(JOURNAL + name);
  return isObject(entry) ? entry : null;
}

// writtenNow gives them all.
export function writtenNow() {
  return named(JOURNAL).flatMap((name) => {
    const entry = readNow(name);
    return entry ? [{ name, entry }] : [];
  });
}

// swapWindow notes the name of the page in this window and gives the name of
// the one before it.
/** @param {string} name */
export function swapWindow(name) {
  const before = read(WINDOW, "sessionStorage");
  write(WINDOW, name, "sessionStorage");
  return typeof before === "string" ? before : "";
}

/** @typedef {{ head: string, many: string, got: { [number: string]: string } }} Parts of a code, the digits of each by its number */

// keptParts gives the codes of a plan that have been read so far.
export function keptParts() {
  return /** @type {Parts | null} */ (read(PARTS));
}

// keepParts keeps them for the next; null forgets them. It is false where nothing is kept.
/** @param {Parts | null} parts */
export function keepParts(parts) {
  return write(PARTS, parts);
}

// here is the id of the plan open in this window, kept with the window.
export function here() {
  const id = read(HERE, "sessionStorage");
  return typeof id === "string" ? id : "";
}

/** @param {string} id */
export function setHere(id) {
  write(HERE, id, "sessionStorage");
}

// tellOthers lets the other windows know that a plan has been stored.
/** @param {string} id */
export function tellOthers(id) {
  write(CHANGED, { id, at: Date.now() });
}

/** @param {(id: string) => void} listener */
export function onOthers(listener) {
  addEventListener("storage", (event) => {
    if (event.key !== CHANGED) return;
    const told = read(CHANGED);
    if (isObject(told)) listener(String(told.id));
  });
}

// The stand-ins for the database: get, all, put and drop work at once.

// In the local store: a text that cannot be read is a damaged record.
/** @returns {StandIn} */
function inLocalStore() {
  const at = (/** @type {Store} */ store, /** @type {unknown} */ key) => `${STAND_IN}${store}.${key}`;
  /** @type {StandIn["get"]} */
  const get = (store, key) => {
    const text = browser("localStorage").getItem(at(store, key));
    if (text === null) return undefined;
    try {
      const record = JSON.parse(text);
      if (isObject(record)) return { ...record, [STORES[store]]: key };
    } catch {
      // damaged
    }
    return { [STORES[store]]: key, damaged: text };
  };
  return {
    lasts: true,
    get,
    all: (store) => named(at(store, "")).map((key) => /** @type {Stored} */ (get(store, key))),
    put: (store, record) => browser("localStorage").setItem(at(store, record[STORES[store]]), JSON.stringify(record)),
    drop: (store, key) => drop(at(store, key)),
  };
}

/** @returns {StandIn} */
function inMemory() {
  /** @type {Record<Store, Map<unknown, Stored>>} */
  const maps = { plans: new Map(), meta: new Map(), gear: new Map() };
  return {
    lasts: false,
    get: (store, key) => structuredClone(maps[store].get(key)),
    all: (store) => structuredClone([...maps[store].values()]),
    put: (store, record) => maps[store].set(record[STORES[store]], structuredClone(record)),
    drop: (store, key) => maps[store].delete(key),
  };
}

/** @type {StandIn | null} */
let standIn = null; // stands in for the database
/** @type {Promise<IDBDatabase | null> | null} */
let opening = null;

// lasting says whether what is written outlives this visit.
export async function lasting() {
  await database();
  return standIn === null || standIn.lasts;
}

// inDatabase says whether it is the database that keeps it.
export async function inDatabase() {
  await database();
  return standIn === null;
}

function inItsPlace() {
  if (!standIn) throw new Error("Nothing stands in for the database");
  return standIn;
}

// leftInLocalStore gives what the local store kept of a store while there was
// no database. Once the database has it, it is dropped here.
/** @param {Store} store */
export function leftInLocalStore(store) {
  return inLocalStore().all(store);
}

/** @param {Store} store @param {string} key */
export function dropFromLocalStore(store, key) {
  inLocalStore().drop(store, key);
}

function database() {
  if (standIn) return Promise.resolve(null);
  opening ??= connect().catch((err) => {
    if (leaving) { // it may well be there when the page comes back
      opening = null;
      throw new Leaving("The page is being left");
    }
    standIn = write("pullline.probe", 1) ? inLocalStore() : inMemory();
    drop("pullline.probe");
    console.info(`This browser has no database for the page${standIn.lasts ? "; the local store stands in for it" : " and keeps nothing for it"}:`, err?.message ?? err);
    return null;
  });
  return opening;
}

/** @returns {Promise<IDBDatabase>} */
function connect() {
  return new Promise((done, fail) => {
    const request = browser("indexedDB").open(DATABASE, 1); // throws in a sandboxed frame
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
/** @type {Set<IDBTransaction>} */
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
/** @param {IDBDatabase} db @param {string | string[]} stores @param {IDBTransactionMode} mode */
function begin(db, stores, mode) {
  if (leaving) throw new Leaving("The page is being left");
  /** @type {IDBTransaction} */
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

/** @param {IDBTransaction} transaction */
function giveUp(transaction) {
  try {
    transaction.abort();
  } catch {
    // it was over already
  }
}

// given is why a transaction came to nothing.
/** @param {IDBTransaction} transaction @param {unknown} [wrong] */
function given(transaction, wrong) {
  if (leaving) return new Leaving("The page is being left");
  return wrong ?? transaction.error ?? new Error("The browser gave up on the store");
}

// readAll gives every record of a store. One that the browser cannot read any
// more does not hide the others: it comes as { damaged: "" } under its key.
/** @param {Store} store @returns {Promise<Stored[]>} */
export async function readAll(store) {
  const db = await database();
  if (!db) return inItsPlace().all(store);
  return new Promise((done, fail) => {
    const all = begin(db, store, "readonly");
    all.onabort = () => fail(given(all));
    const records = all.objectStore(store);
    const request = records.getAll();
    request.onsuccess = () => done(request.result);
    request.onerror = (event) => {
      event.preventDefault(); // the transaction goes on
      oneByOne(all, store, done);
    };
  });
}

/** @param {IDBTransaction} all @param {Store} store @param {(found: Stored[]) => void} done */
function oneByOne(all, store, done) {
  const records = all.objectStore(store);
  /** @type {Stored[]} */
  const found = [];
  const keys = records.getAllKeys();
  keys.onsuccess = () => {
    for (const key of keys.result) {
      const request = records.get(key);
      request.onsuccess = () => found.push(request.result);
      request.onerror = (event) => {
        event.preventDefault();
        found.push({ [STORES[store]]: key, damaged: "" });
      };
    }
  };
  all.addEventListener("complete", () => done(found));
}

// readOne gives a record, or undefined.
/** @param {Store} store @param {string} key */
export function readOne(store, key) {
  return transact(store, key, (/** @type {Stored | undefined} */ stored) => ({ answer: stored }));
}

// transact reads one record and writes what decide makes of it, all in one
// transaction. decide(record or undefined) gives { put: [[store, record]],
// drop: [[store, key]], answer }. The promise gives the answer once all is
// written for good; if anything fails nothing is written.
/**
 * @template {object} R
 * @template A
 * @param {Store} store
 * @param {string} key
 * @param {(stored: R | undefined) => Decision<A>} decide
 * @returns {Promise<A | undefined>}
 */
export async function transact(store, key, decide) {
  const db = await database();
  if (!db) {
    const place = inItsPlace();
    const { put = [], drop: gone = [], answer } = decide(/** @type {R | undefined} */ (place.get(store, key)));
    const records = put.map(([name, record]) => ({ name, record: /** @type {Stored} */ (record) }));
    const before = [...records.map(({ name, record }) => ({ name, id: String(record[STORES[name]]) })), ...gone.map(([name, id]) => ({ name, id }))]
      .map(({ name, id }) => ({ name, id, record: place.get(name, id) }));
    try {
      for (const { name, record } of records) place.put(name, record);
      for (const [name, id] of gone) place.drop(name, id);
    } catch (err) { // no room: all is as it was
      for (const { name, id } of before) place.drop(name, id);
      for (const { name, record } of before) if (record) place.put(name, record);
      throw err;
    }
    return answer;
  }
  return new Promise((done, fail) => {
    const all = begin(db, Object.keys(STORES), "readwrite");
    /** @type {A | undefined} */
    let answer;
    /** @type {unknown} */
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
