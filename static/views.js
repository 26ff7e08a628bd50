// The views of the page: the job, and those of the class, each in a section
// filled by its own module.
//
// Of a view NAME, startNAME(root) is called once, when it first comes up;
// showNAME() whenever it comes up and while it is up whenever the settings,
// the place or its size have changed; leaveNAME() when another takes over.

import { leaveBench, showBench, startBench } from "./bench.js";
import { byId, setAttr, show } from "./dom.js";
import { leaveFall, showFall, startFall } from "./fall.js";
import { leaveModel, showModel, startModel } from "./model.js";
import { announce } from "./messages.js";
import { move, onPlace, place } from "./place.js";
import { leavePractice, showPractice, startPractice } from "./practice.js";
import { say } from "./say.js";
import { onSettings } from "./settings.js";

/**
 * @typedef {object} View
 * @property {HTMLElement} root
 * @property {string} title
 * @property {(root: HTMLElement) => void} [start]
 * @property {() => void} [show]
 * @property {() => void} [leave]
 * @property {boolean} [started]
 * @property {number} [scrolled] how far, when it was left
 */

/** @type {{ [name: string]: View }} */
const VIEWS = {
  job: { root: byId("main"), title: "" },
  bench: { root: byId("view-bench"), title: say("Benches"), start: startBench, show: showBench, leave: leaveBench },
  fall: { root: byId("view-fall"), title: say("The fall"), start: startFall, show: showFall, leave: leaveFall },
  practice: { root: byId("view-practice"), title: say("Practice"), start: startPractice, show: showPractice, leave: leavePractice },
  model: { root: byId("view-model"), title: say("The model in words"), start: startModel, show: showModel, leave: leaveModel },
};
const NAME = document.title;

let up = ""; // the view that is up

// dressViews shows the section of the view that is up, still empty.
export function dressViews() {
  setAttr(document.body, "data-view", place.view);
  document.title = [VIEWS[place.view].title, NAME].filter(Boolean).join(" · ");
  for (const [name, { root }] of Object.entries(VIEWS)) show(root, name === place.view);
  for (const link of document.querySelectorAll("[data-goto]")) {
    setAttr(link, "aria-current", link.getAttribute("data-goto") === place.view ? "page" : null);
  }
}

// startViews takes the views into use, once the calculator is there.
export function startViews() {
  onPlace(change);
  onSettings(change);
  for (const button of document.querySelectorAll("[data-goto]")) {
    const view = button.getAttribute("data-goto") ?? "";
    button.addEventListener("click", () => {
      if (place.view !== view) move({ view });
    });
  }
  const sizes = new ResizeObserver((entries) => {
    if (entries.some((e) => e.target === VIEWS[up]?.root)) VIEWS[up].show?.();
  });
  for (const { root, start } of Object.values(VIEWS)) if (start) sizes.observe(root);
  change();
}

function change() {
  const view = VIEWS[place.view];
  if (up !== place.view) {
    const was = VIEWS[up];
    if (was) {
      was.scrolled = scrollY;
      was.leave?.();
    }
    dressViews();
    const first = up === "";
    up = place.view;
    if (view.start && !view.started) {
      view.started = true;
      view.start(view.root);
    }
    view.show?.();
    if (first) return;
    scrollTo({ top: view.scrolled ?? 0, behavior: "instant" });
    announce(view.title || say("The job"));
    return;
  }
  view.show?.();
}
