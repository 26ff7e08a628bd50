// Keeping the page usable without a signal, and telling when a new version is
// ready. The service worker does the work; see there.

const LONG = 60000; // ms of storing after which the page is said not to be stored

/**
 * What the service worker tells of a check.
 *
 * @typedef {{ use: string, tried: string, failed: string, ready: string, missing: string[] }} Found
 */

/**
 * Stores the page for use without a signal. It does nothing where there is no
 * service worker: a file opened from disk, a sandboxed frame, a browser that
 * has none.
 *
 * @param {string} version of this page, "" while it has shown no computed verdict
 * @param {object} calls
 * @param {(missing: string[]) => void} calls.stored when all files have been looked
 *   through: the names of those missing or damaged, none when all are there
 * @param {() => void} calls.unstored when the page could not be stored
 * @param {(agree: () => void, failed: boolean) => void} calls.ready when a new version
 *   is stored and can be taken: agree() loads the page again with it; failed says
 *   that it did not start when it was last tried
 */
export async function keepOffline(version, { stored, unstored, ready }) {
  /** @type {ServiceWorkerContainer} */
  let workers;
  try {
    workers = navigator.serviceWorker; // throws in a sandboxed frame
    if (!workers || !/^https?:$/.test(location.protocol)) return;
  } catch (err) {
    console.info("The page is not kept for use without a signal:", err);
    return;
  }
  let offered = "";
  const followed = new WeakSet();

  async function look(/** @type {ServiceWorkerRegistration} */ registration) {
    if (!registration.active) return;
    const worker = newest(registration);
    await ask(worker, { type: "works", version });
    const found = await ask(worker, { type: "check" });
    if (!found) return;
    if (found.missing.length || found.use === version) stored(found.missing);
    if (found.ready && found.ready !== offered) {
      offered = found.ready;
      ready(() => take(registration, found.ready), found.failed === found.ready);
    }
  }

  function follow(/** @type {ServiceWorkerRegistration} */ registration, /** @type {ServiceWorker | null} */ worker) {
    if (!worker || followed.has(worker)) return;
    followed.add(worker);
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" || worker.state === "activated") look(registration);
      if (worker.state === "redundant" && !registration.active) unstored();
    });
    // WebKit may leave one at that for good if its page goes away meanwhile.
    setTimeout(() => {
      if (worker.state === "installing" && !registration.active) unstored();
    }, LONG);
  }

  const known = new WeakSet();
  async function start() {
    try {
      const registration = await workers.register("worker.js", { updateViaCache: "none" });
      follow(registration, registration.installing ?? registration.waiting);
      if (known.has(registration)) {
        if (!registration.installing && !registration.waiting) await registration.update();
        return;
      }
      known.add(registration);
      registration.addEventListener("updatefound", () => follow(registration, registration.installing));
      await look(registration);
    } catch (err) {
      console.info("The page was not looked for anew:", err);
      if (!await workers.getRegistration()) unstored();
    }
  }
  await start();
  // A page left open for days still hears of a new version.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") start();
  });
  addEventListener("online", start);
}

// take loads the page again with a version that is ready, or with the one that
// has become ready since.
/** @param {ServiceWorkerRegistration} registration @param {string} version */
async function take(registration, version) {
  if (!await ask(newest(registration), { type: "try", version })) {
    const found = await ask(newest(registration), { type: "check" });
    if (found?.ready) await ask(newest(registration), { type: "try", version: found.ready });
  }
  location.reload();
}

// newest gives the worker that knows the newest version: Chromium may let one
// wait for minutes while the one before is busy.
/** @param {ServiceWorkerRegistration} registration */
function newest(registration) {
  return registration.waiting ?? registration.active;
}

// ask gives a worker's answer, null without a worker.
/** @param {ServiceWorker | null} worker @param {{ type: string, version?: string }} message @returns {Promise<Found | null>} */
function ask(worker, message) {
  return new Promise((answer) => {
    if (!worker) {
      answer(null);
      return;
    }
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => answer(data);
    worker.postMessage(message, [port2]);
  });
}
