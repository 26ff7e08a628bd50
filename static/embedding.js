// The page inside another page, such as a course website: what it tells the
// page around it and what that one may set. The only module of the page with
// messages between windows; embed.js is their other end, and README has the
// table of them. Outside a frame it does nothing.

import { readAddress } from "./address.js";
import { setAttr } from "./dom.js";
import { Refused, checkPlan, isObject } from "./intake.js";
import { notice } from "./messages.js";
import { go, onAnswered, onPlace, place } from "./place.js";
import { say } from "./say.js";
import { setGiven } from "./settings.js";
import { onPlan, onView, state } from "./state.js";
import { denied } from "./storage.js";

const host = window.parent === window ? null : window.parent;

// framed says whether the page stands inside another one.
export const framed = host !== null;

const PLAN_REST = 400; // ms between two plans told
const FOLLOWED = 3; // times the height may follow the frame's own

// tell tells the page around this one something: kind is "ready", "height",
// "answer" or "plan", detail an object of plain values.
/** @param {"ready" | "height" | "answer" | "plan"} kind @param {object} detail */
export function tell(kind, detail) {
  host?.postMessage({ pullline: 1, kind, ...detail }, "*");
}

// A plan kept on this device is nobody else's business. It is told, and one
// is taken, only where nothing kept can be reached (a sandboxed frame), or by
// a page of the same site.
function trusted() {
  if (globalThis.origin === "null") return denied(); // a file has no origin either, and what it keeps can be reached
  try {
    return host?.location.origin === location.origin;
  } catch {
    return false;
  }
}

// dressFrame makes the page compact where it is framed, before anything is
// shown.
export function dressFrame() {
  if (framed) setAttr(document.documentElement, "data-framed", true);
}

// startEmbedding tells that the page is ready, and from now on its height, its
// plan and what is asked of it. takePlan puts a plan into work.
/** @typedef {(plan: string | import("./intake.js").Plan) => Promise<void>} TakePlan */

/** @param {string} version @param {TakePlan} takePlan */
export function startEmbedding(version, takePlan) {
  if (!framed) return;
  watchHeight();
  tell("ready", { view: place.view, bench: place.bench, version });
  onPlace(() => tell("ready", { view: place.view, bench: place.bench, version }));
  onAnswered(({ kind, id, text, state: found }) => {
    tell("answer", { view: kind, id, text, state: found, seed: place.seed, grade: place.grade });
  });
  if (!trusted()) return;
  watchPlan();
  let before = Promise.resolve(); // what was asked first is done first
  addEventListener("message", ({ source, data }) => {
    if (source !== host || data?.pullline !== 1 || data.kind !== "set") return;
    before = before.then(() => set(data, takePlan)).catch(sayRefused);
  });
}

/** @param {unknown} err */
function sayRefused(err) {
  notice("host", [say("The website around this view asked for something that cannot be done."), err instanceof Refused ? err.message : say("The request is not valid.")].join(" "));
}

// set takes { parameters: { name: text }, plan }, both as an address would
// give them; a plan may also be the plan itself.
/** @param {{ parameters?: unknown, plan?: unknown }} asked @param {TakePlan} takePlan */
async function set({ parameters, plan }, takePlan) {
  if (isObject(parameters)) {
    const texts = Object.entries(parameters).map(([name, value]) => [name, String(value)]);
    const { given, problems } = readAddress(String(new URLSearchParams(texts)));
    if (problems.length) notice("host", problems.join(" "));
    setGiven(given);
    if (given.plan) {
      await takePlan(given.plan).catch((err) => {
        delete given.plan;
        sayRefused(err);
      });
    }
    go(given);
  }
  if (isObject(plan)) await takePlan(checkPlan(plan));
}

// watchHeight tells the height of what is shown, whenever it is another. What
// is as tall as the frame itself would make the frame grow for ever: a height
// that only follows the frame's is told a few times and no more.
function watchHeight() {
  let told = 0;
  let frame = innerHeight;
  let followed = 0;
  let due = 0;
  const measure = () => {
    due = 0;
    const height = Math.ceil(document.body.getBoundingClientRect().height);
    const follows = innerHeight !== frame;
    frame = innerHeight;
    if (height === told || height === 0) return;
    followed = follows && height > told ? followed + 1 : 0;
    if (followed > FOLLOWED) return;
    told = height;
    tell("height", { height });
  };
  const later = () => { due ||= requestAnimationFrame(measure); };
  new ResizeObserver(later).observe(document.body);
  addEventListener("resize", later);
  measure();
}

// watchPlan tells the plan and its verdict at rest, where the plan is shown.
function watchPlan() {
  let due = 0;
  let told = "";
  const now = () => {
    due = 0;
    if (place.view !== "job" && place.view !== "fall") return;
    const verdict = state.view?.headline.verdict ?? "unknown";
    const text = JSON.stringify([state.plan, verdict]);
    if (text === told) return;
    told = text;
    tell("plan", { plan: state.plan, verdict });
  };
  const later = () => { due ||= setTimeout(now, PLAN_REST); };
  onPlan(later);
  onView(later);
  onPlace(later);
  later();
}
