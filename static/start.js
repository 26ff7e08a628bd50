// Watches over the start of the page, and says what is missing where it does
// not start. It has to run where the modules of the page do not: it is no
// module, stands alone, and is written for browsers of many years ago.

(function () {
  "use strict";

  var LATE = 8000; // ms without a start until the page says so
  var LOOK = 3000; // ms between two looks for a new version
  var LOOKS = 40;
  var LONGEST = 200; // characters of what a browser says
  var OFFERS = ".skip, .top-buttons, .jumps, .class-bar, .menu, #bars, main, .view, .framed-line, #verdict-mark"; // page.css, which hides most of these, may be what is missing

  // What the page is made with that not every browser has.
  /** @type {[what: string, there: () => boolean][]} */
  var NEEDS = [
    ["scripts made of modules", function () { return "noModule" in document.createElement("script"); }],
    ["WebAssembly, which runs the calculation", function () { return typeof WebAssembly === "object" && typeof WebAssembly.instantiate === "function"; }],
    ["DecompressionStream, which unpacks the calculation", function () { return typeof DecompressionStream === "function"; }],
    ["dialog, for its panels", function () { return typeof HTMLDialogElement === "function" && typeof HTMLDialogElement.prototype.showModal === "function"; }],
    ["ResizeObserver, for its drawings", function () { return typeof ResizeObserver === "function"; }],
    ["structuredClone, for its plans", function () { return typeof structuredClone === "function"; }],
    ["queueMicrotask", function () { return typeof queueMicrotask === "function"; }],
    ["Object.hasOwn", function () { return typeof Object.hasOwn === "function"; }],
    ["replaceChildren", function () { return typeof Element.prototype.replaceChildren === "function"; }],
    ["replaceAll", function () { return typeof String.prototype.replaceAll === "function"; }],
    ["at", function () { return typeof Array.prototype.at === "function"; }]
  ];

  var root = document.documentElement;
  /** @type {string[]} */
  var files = []; // that did not load
  /** @type {string[]} */
  var errors = []; // that were thrown
  /** @type {string[]} */
  var lacks = []; // of NEEDS
  /** @type {string[]} */
  var damaged = []; // files stored on this device, as the service worker says
  var tried = false; // this is a new version, shown for the first time
  var shown = false;
  var looks = 0;

  /** @param {string} id */
  function byId(id) { return /** @type {HTMLElement} */ (document.getElementById(id)); }
  function started() { return root.getAttribute("data-start") === "done"; }
  /** @param {string[]} list @param {string} text */
  function add(list, text) {
    if (text.length > LONGEST) text = text.slice(0, LONGEST) + "…";
    if (list.indexOf(text) < 0) list.push(text);
  }
  /** @param {unknown} address */
  function nameOf(address) { return String(address || "").replace(/[?#].*$/, "").replace(/^.*\//, ""); }

  // tell shows what is known; it is called again when more is.
  function tell() {
    if (started() || !document.getElementById("fatal-do")) return;
    var why;
    /** @type {string[]} */
    var list = [];
    var advice;
    var again = "Load the page again where there is a signal.";
    if (lacks.length) {
      why = "This browser lacks what the page needs:";
      list = lacks;
      advice = "Use another browser, or bring this one up to date.";
    } else if (files.length || damaged.length) {
      why = "Parts of the page are missing, or are not what they should be:";
      list = files.concat(damaged);
      advice = again;
    } else if (errors.length) {
      why = "The page failed while it was starting. The browser says:";
      list = errors;
      advice = "Load the page again. If that does not help, use another browser, or bring this one up to date.";
    } else {
      why = "The page has not started within " + LATE / 1000 + " seconds. On a slow connection it may still come: then this goes away by itself.";
      advice = /^http/.test(location.protocol) ? again : "If it does not come, this file may be cut short, or the browser too old: get the file again, or use another browser.";
    }
    if (tried) advice = "This is a new version. “Load the page again” brings back the version before.";
    var failed = lacks.length > 0 || files.length > 0; // else it may still come
    root.setAttribute("data-start", failed ? "failed" : "late");
    if (failed) {
      var offers = /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(OFFERS));
      for (var k = 0; k < offers.length; k++) offers[k].hidden = true;
    }
    byId("fatal-why").textContent = why;
    byId("fatal-do").textContent = advice + " No number on this page counts until it has started.";
    var ul = byId("fatal-list");
    ul.textContent = "";
    for (var i = 0; i < list.length; i++) ul.appendChild(document.createElement("li")).textContent = list[i];
    ul.hidden = !list.length;
    byId("fatal").hidden = false;
    byId("verdict").removeAttribute("data-verdict");
    byId("verdict-word").textContent = "Not started";
    byId("verdict-sentence").textContent = "The calculator is not running.";
    if (!shown) look();
    shown = true;
  }

  // whenRead waits until the panel can have been read from the page.
  /** @param {() => void} run */
  function whenRead(run) {
    if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", run);
    else run();
  }

  addEventListener("error", function (event) {
    if (started()) return;
    var node = /** @type {HTMLScriptElement & HTMLLinkElement | null} */ (event.target === window ? null : event.target);
    if (node) { // something that did not load
      if (node.nodeName !== "SCRIPT" && node.rel !== "stylesheet") return;
      add(files, nameOf(node.src || node.href));
    } else if (/^ResizeObserver/.test(event.message)) {
      return; // says only that drawing again had to wait
    } else {
      add(errors, (event.message || "An error") + (event.filename ? " (" + nameOf(event.filename) + ")" : ""));
    }
    whenRead(tell);
  }, true);
  addEventListener("unhandledrejection", function (event) {
    if (started()) return;
    var reason = event.reason;
    if (reason && reason.file) add(files, String(reason.message)); // the page's own word for a file that did not come
    else add(errors, String(reason && reason.message || reason));
    whenRead(tell);
  });

  // look asks the service worker what is missing on this device, and whether a
  // version is ready that can be loaded instead.
  function look() {
    if (started() || looks++ > LOOKS) return;
    try {
      navigator.serviceWorker.getRegistration().then(function (registration) {
        if (!registration || !registration.active) return;
        if (!registration.installing && !registration.waiting) registration.update().catch(function () {}); // no signal
        var newest = registration.waiting || registration.active; // one may wait for minutes
        ask(newest, { type: "check" }, function (found) {
          if (!found) return;
          tried = Boolean(found.tried);
          for (var i = 0; i < found.missing.length; i++) add(damaged, found.missing[i].replace("./", "index.html"));
          tell();
          if (!found.ready || tried || started()) return;
          var button = byId("fatal-new");
          button.hidden = false;
          button.onclick = function () {
            ask(newest, { type: "try", version: found.ready }, function () { location.reload(); });
          };
        });
      }, function () {});
      setTimeout(look, LOOK);
    } catch (err) {
      // a page without a service worker
    }
  }

  /** @param {ServiceWorker} worker @param {{ type: string, version?: string }} message @param {(found: import("./update.js").Found | null) => void} answer */
  function ask(worker, message, answer) {
    var channel = new MessageChannel();
    channel.port1.onmessage = function (event) { answer(event.data); };
    worker.postMessage(message, [channel.port2]);
  }

  // early has a worker ask for the program, which takes longest to come, before
  // the page's own script is there. What comes of it is the program compiled,
  // or null where anything fails: then rigging.js does it, and says why.
  /** @param {HTMLElement} own @returns {Promise<WebAssembly.Module | null>} */
  function early(own) {
    return new Promise(function (/** @type {(module: WebAssembly.Module | null) => void} */ done) {
      var worker = new Worker(own.getAttribute("data-unpack") || "");
      /** @param {WebAssembly.Module | null} module */
      function end(module) {
        worker.terminate();
        done(module);
      }
      worker.onmessage = function (event) { end(event.data); };
      worker.onerror = function () { end(null); };
      worker.onmessageerror = function () { end(null); };
      worker.postMessage({ program: own.getAttribute("data-program"), sums: own.getAttribute("data-sums") });
    }).then(null, function () { return null; }); // there are no workers
  }

  for (var i = 0; i < NEEDS.length; i++) {
    var there = false;
    try {
      there = NEEDS[i][1]();
    } catch (err) {
      // it is not there
    }
    if (!there) add(lacks, NEEDS[i][0]);
  }
  if (lacks.length) root.setAttribute("data-start", "failed"); // page.js does not begin then
  var own = /** @type {HTMLElement | null} */ (document.currentScript);
  if (!lacks.length && own && own.getAttribute("data-program")) window.pulllineProgram = early(own); // the single file has it inside
  whenRead(function () {
    byId("fatal-reload").onclick = function () { location.reload(); };
    if (lacks.length) tell();
  });
  setTimeout(function () { whenRead(tell); }, LATE);
})();
