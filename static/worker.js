// The service worker: serves the page from the store, whole versions only.
// The site builder fills in the version and the list of files.

const VERSION = "{{version}}";
const FILES = ["{{files}}"];

// Two copies of the site on one origin keep their stores apart.
const PREFIX = "pullline-";
const SUFFIX = " " + new URL(self.registration.scope).pathname;
const STORE = PREFIX + VERSION + SUFFIX;

// A new version stores all its files or none, then waits for the page's word.
self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const store = await caches.open(STORE);
    await store.addAll(FILES.map((file) => new Request(file, { cache: "no-cache" })));
  })());
});

self.addEventListener("message", (event) => {
  if (event.data?.type === "take-over") self.skipWaiting();
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith(PREFIX) && name.endsWith(SUFFIX) && name !== STORE) await caches.delete(name);
    }
  })());
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  const url = new URL(event.request.url);
  if (url.origin !== self.location.origin) return;
  event.respondWith(answer(event.request, url));
});

async function answer(request, url) {
  const store = await caches.open(STORE);
  const index = new URL("index.html", self.registration.scope);
  const wanted = url.pathname === index.pathname ? new URL("./", index) : request;
  return (await store.match(wanted, { ignoreSearch: true })) ?? fetch(request);
}
