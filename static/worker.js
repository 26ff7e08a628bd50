{
// The service worker: serves the page from what is stored on this device, of
// one version only, and nothing that is not byte for byte as it was built. The
// site builder fills in the version and the list of files.
//
// Which version is served stands in a book, not in this script: a new worker
// goes on serving the version in use until the user has agreed to another and
// that one has shown a verdict in this browser. So it does not matter which
// worker is at work, and this one may take over as soon as it is there.
//
// A page of one version talks to the worker of another. The names of the
// stores, what lies in them and the messages may be added to, never changed.
//
// All of it stands in one block: a script that was cut short is then none.

/** @typedef {[type: string, ...sums: string[]]} Entry of a file: its type, and SHA-256 in base64 */
/** @typedef {{ [path: string]: Entry }} List the files of a version */

const VERSION = "{{version}}"; // of the site that this worker came with
const FILES = /** @type {List} */ (/** @type {unknown} */ ("{{files}}"));

const own = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

// Two copies of the site on one origin keep their stores apart.
const SCOPE = own.registration.scope;
const SUFFIX = " " + new URL(SCOPE).pathname;
const PREFIX = "pullline-";
const BOOK = "pullline" + SUFFIX;
const PAGE = "./"; // index.html
const LIST = "stored-files.json"; // in a store: what FILES was for its version
const ANY = "any"; // where the browser does not say which page a request is for
const HOST_PAGES = 8; // kept in the book

const storeOf = (/** @type {string} */ version) => PREFIX + version + SUFFIX;
const at = (/** @type {string} */ path) => new URL(path, SCOPE).href;

// stored gives what a store has as JSON, null where it has nothing that is.
/** @param {string} path @param {string} store */
async function stored(path, store) {
  try {
    return await (await caches.match(at(path), { cacheName: store }))?.json() ?? null;
  } catch {
    return null;
  }
}

/**
 * The book. In use is a version; tried is the one the user has agreed to, until it
 * has shown a verdict; client is the page it was tried in; failed is one that was
 * tried and showed none; host are the pages opened last that came from the host.
 * Without a book this worker's own version is in use.
 *
 * @typedef {{ use: string, tried: string, client: string, failed: string, host: string[], written?: boolean }} Book
 */

/** @returns {Promise<Book>} */
async function readBook() {
  return { use: VERSION, tried: "", client: "", failed: "", host: [], ...await stored("book.json", BOOK) };
}

/** @type {Promise<unknown>} */
let turn = Promise.resolve();

// change lets decide change the book and gives its answer. What is written once
// holds for the next worker too. Without room to write the book stays as it
// was, which never leads to less than it says.
/** @template A @param {(book: Book) => A} decide */
function change(decide) {
  const next = turn.then(async () => {
    const book = await readBook();
    const before = JSON.stringify(book);
    book.written = true;
    const answer = decide(book);
    const after = JSON.stringify(book);
    if (after !== before) {
      await caches.open(BOOK).then((store) => store.put(at("book.json"), new Response(after))).catch(() => {});
    }
    return answer;
  });
  turn = next.catch(() => {});
  return next;
}

// The files.

// whole gives a response anew if its body is as it was built, else null. The
// host's headers stay, such as who may frame the page; the type is ours, and
// the browser is not to keep the file where the next version would find it.
/** @param {Response | undefined} response @param {Entry} entry */
async function whole(response, [type, ...sums]) {
  if (!response?.ok) return null;
  const body = await response.arrayBuffer();
  const sum = btoa(String.fromCharCode(...new Uint8Array(await crypto.subtle.digest("SHA-256", body))));
  if (!sums.includes(sum)) return null;
  const headers = new Headers(response.headers);
  headers.set("Content-Type", type);
  headers.set("Cache-Control", "no-store");
  for (const name of ["Content-Encoding", "Content-Length"]) headers.delete(name);
  return new Response(body, { headers });
}

// kept gives a stored file, null where it is missing or damaged.
/** @param {string} store @param {string} path @param {Entry} entry */
async function kept(store, path, entry) {
  try {
    return await whole(await caches.match(at(path), { cacheName: store }), entry);
  } catch {
    return null;
  }
}

// fetched gives a file from the host, null where it does not come or is another.
/** @param {string} path @param {Entry} entry */
async function fetched(path, entry) {
  for (const cache of /** @type {const} */ (["no-cache", "reload"])) { // what lies between may hold a wrong one
    try {
      const file = await whole(await fetch(at(path), { cache }), entry);
      if (file) return file;
    } catch {
      // no signal, or cut short
    }
  }
  return null;
}

// listOf gives the files of a version, null where it cannot be known.
const lists = new Map([[VERSION, FILES]]);
/** @param {string} version */
async function listOf(version) {
  const list = version && !lists.has(version) ? await stored(LIST, storeOf(version)) : null;
  if (list) lists.set(version, list);
  return lists.get(version) ?? null;
}

// keepList notes the files of a version for the workers after this one.
/** @param {string} version @param {List} list */
async function keepList(version, list) {
  const text = JSON.stringify(list);
  const before = await caches.match(at(LIST), { cacheName: storeOf(version) });
  if (await before?.text() !== text) await (await caches.open(storeOf(version))).put(at(LIST), new Response(text));
}

async function ourStores() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name.endsWith(SUFFIX));
}

// found gives a file of a version that its store does not have: from another
// version that has just the same, or from the host, which has this worker's
// version and no other.
/** @param {string} version @param {string} path @param {Entry} entry */
async function found(version, path, entry) {
  for (const other of await ourStores()) {
    const same = await kept(other, path, entry);
    if (same) return same;
  }
  return version === VERSION ? fetched(path, entry) : null;
}

// fill stores what is missing or damaged of a version and gives the paths of
// what is so still.
/** @param {string} version @param {List} list */
async function fill(version, list) {
  const name = storeOf(version);
  const store = await caches.open(name);
  /** @type {string[]} */
  const missing = [];
  await Promise.all(Object.entries(list).map(async ([path, entry]) => {
    if (await kept(name, path, entry)) return;
    const anew = await found(version, path, entry);
    if (anew) await store.put(at(path), anew);
    else missing.push(path);
  }));
  await keepList(version, list);
  return missing.sort();
}

// tidy deletes the versions that nobody needs any more; this worker's own stays,
// as it may be the one that is ready.
async function tidy() {
  if (own.registration.installing) return; // it is filling its store; it tidies when it is there
  const book = await readBook();
  const needed = [VERSION, book.use, book.tried].map(storeOf);
  for (const name of await ourStores()) if (!needed.includes(name)) await caches.delete(name);
}

own.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const missing = await fill(VERSION, FILES);
    if (missing.length) throw new Error(`Not as it was built: ${missing.join(", ")}`);
    own.skipWaiting();
  })());
});

own.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    await change(() => {});
    await tidy();
  })());
});

// Requests.

/** @type {Map<string, string>} */
const versions = new Map(); // by page; "" is one that comes from the host

own.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  event.respondWith(answer(event).catch(() => (request.mode === "navigate" ? fetch(request) : Response.error())));
});

/** @param {FetchEvent} event */
async function answer({ request, clientId, resultingClientId }) {
  let path = request.url.slice(SCOPE.length).replace(/[?#].*$/s, "");
  if (path === "" || path === "index.html") path = PAGE;
  const opening = request.mode === "navigate" && path === PAGE;
  /** @type {string} */
  let version;
  if (opening) {
    version = request.destination === "document" ? await begin(resultingClientId) : (await readBook()).use;
    if (!await listOf(version)) version = VERSION; // the browser has taken it away
    if (version === VERSION) await keepList(VERSION, FILES).catch(() => {}); // no room
    versions.set(resultingClientId, version);
  } else {
    version = versions.get(clientId) ?? await versionOf(clientId);
  }
  const list = await listOf(version);
  if (!list || !Object.hasOwn(list, path)) return fetch(request);

  const here = await kept(storeOf(version), path, list[path]);
  if (here) return here;
  const anew = await found(version, path, list[path]);
  if (anew) {
    await caches.open(storeOf(version)).then((store) => store.put(at(path), anew.clone())).catch(() => {});
    return anew;
  }
  if (!opening) return Response.error();
  // Without its first file a version is not there: as at a first visit.
  versions.set(resultingClientId, "");
  await change((book) => { book.host = [...book.host, resultingClientId].slice(-HOST_PAGES); });
  return fetch(request).catch(sayMissing);
}

// begin says of which version a page is made that is being opened.
/** @param {string} client */
function begin(client) {
  return change((book) => {
    if (book.tried && !book.client) {
      book.client = client || ANY;
      return book.tried;
    }
    if (book.tried) { // it was opened before and has shown no verdict
      book.failed = book.tried;
      book.tried = book.client = "";
    }
    return book.use;
  });
}

/** @param {string} client */
async function versionOf(client) {
  const book = await readBook();
  if (book.host.includes(client)) return "";
  return book.tried && [client, ANY].includes(book.client) ? book.tried : book.use;
}

function sayMissing() {
  const page = `<!DOCTYPE html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Pull-line load calculator</title>
<h1>The page is not whole on this device</h1>
<p>Its first file is missing or damaged, and there is no signal to fetch it anew. Open this page again where there is a signal.</p>
<p>Plans kept on this device are not touched by this. Do not clear the browser’s data for this site: that would delete them.</p></html>`;
  return new Response(page, { headers: { "Content-Type": "text/html; charset=utf-8" } }); // with an error's status Chromium shows a page of its own
}

// Messages, each answered through its port.

own.addEventListener("message", (event) => {
  const { type, version } = event.data ?? {};
  /** @type {{ [type: string]: () => Promise<unknown> }} */
  const works = { check, try: () => tryOut(version), works: () => proven(version) };
  const work = works[type];
  if (work) {
    event.waitUntil(work().catch(() => null).then((told) => event.ports[0]?.postMessage(told)));
  } else if (type === "take-over" && event.source instanceof WindowClient) { // from a page older than the book
    event.waitUntil(event.source.navigate(event.source.url));
  }
});

// check looks through all that is stored, mends what it can, and tells: the
// version in use, its files that are missing or damaged still, the version
// that is ready for the user to agree to, and what the book says more.
async function check() {
  const { use } = await readBook();
  const list = await listOf(use);
  const missing = list ? await fill(use, list) : [];
  let ready = "";
  if (!list || use !== VERSION) {
    const lacking = await fill(VERSION, FILES);
    if (!lacking.length) ready = VERSION;
    if (!list) { // the browser has taken the version in use away: there is nothing to stay with
      if (ready) await change((book) => { book.use = VERSION; });
      else missing.push(...lacking);
      ready = "";
    }
  }
  return { ...await readBook(), missing, ready };
}

// tryOut makes the next page to be opened one of the version that is ready.
/** @param {string} version */
async function tryOut(version) {
  if (version !== VERSION) return false; // another has become ready since
  await change((book) => Object.assign(book, { tried: VERSION, client: "", failed: "" }));
  return true;
}

// proven: a page of this version has shown a verdict.
/** @param {string} version */
async function proven(version) {
  const use = await change((book) => {
    if (version && [book.tried, book.failed].includes(version)) {
      Object.assign(book, { use: version, tried: "", client: "", failed: "" });
    }
    return book.use;
  });
  if (use === version) await tidy();
  return use === version;
}
}
