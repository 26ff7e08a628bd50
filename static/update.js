// Keeping the page usable without a signal, and telling when a new version
// waits. This is the only module of the page that knows the service worker.

// keepOffline stores the page for use without a signal. It calls ready()
// once everything is stored, and waiting(agree) when a new version has been
// stored and waits: agree() switches to it and loads the page again. It does
// nothing where there is no service worker: a file opened from disk, a
// sandboxed frame, a browser that has none.
export async function keepOffline({ ready, waiting } = {}) {
  let workers;
  try {
    workers = navigator.serviceWorker; // throws in a sandboxed frame
    if (!workers || !/^https?:$/.test(location.protocol)) return;
    const registration = await workers.register("worker.js", { updateViaCache: "none" });

    let offered;
    const offer = (worker) => {
      if (!registration.active || worker === offered) return;
      offered = worker;
      waiting?.(() => takeOver(worker));
    };
    const told = ({ target }) => {
      if (target.state === "installed") offer(target);
    };
    // A version may be found, even stored, before anybody listened.
    const look = () => {
      registration.installing?.addEventListener("statechange", told);
      if (registration.waiting) offer(registration.waiting);
    };
    look();
    registration.addEventListener("updatefound", look);
    // A page left open for days still hears of a new version.
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") registration.update().then(look, () => {});
    });

    await workers.ready;
    ready?.();
  } catch (err) {
    console.info("The page is not kept for use without a signal:", err.message);
  }
}

function takeOver(worker) {
  worker.addEventListener("statechange", () => {
    if (worker.state === "activated") location.reload();
  });
  worker.postMessage({ type: "take-over" });
}
