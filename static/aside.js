// Calls that take long, answered beside the page: by a worker with a program of its
// own, or, where there can be none, by the page's own between two frames.

import { version } from "./rigging.js";

/** @typedef {"sure" | "right" | "stand"} Long the calls that take long */
/** @typedef {{ call: Long, request: object, done: (answer: unknown) => void, here: () => unknown }} Asked */

/** @type {Worker | null | undefined} */
let worker; // undefined before it is tried, null where there is none
let count = 0;
/** @type {Map<number, Asked>} */
const waiting = new Map(); // by id

// aside promises the answer of a call; here answers it where no worker can.
/**
 * @template {Long} C
 * @param {C} call
 * @param {Parameters<Calls[C]>[0]} request
 * @param {() => ReturnType<Calls[C]> | null} here
 * @returns {Promise<ReturnType<Calls[C]> | null>}
 */
export function aside(call, request, here) {
  return new Promise((answered) => {
    const asked = { call, request, done: /** @type {(answer: unknown) => void} */ (answered), here };
    const own = started();
    if (!own) {
      byItself(asked);
      return;
    }
    waiting.set(++count, asked);
    own.postMessage({ id: count, call, request });
  });
}

// apart tells whether a worker answers, so that long calls hold nothing up.
export function apart() {
  return Boolean(started());
}

/** @param {Asked} asked */
function byItself({ done, here }) {
  setTimeout(() => done(here()));
}

function started() {
  if (worker !== undefined) return worker;
  worker = null;
  if (document.getElementById("rigging-wasm")) return null; // the single file has no other
  try {
    worker = new Worker(`judging.js${version() && `?${version()}`}`, { type: "module" });
    worker.addEventListener("message", ({ data: { id, answer, failed } }) => {
      const asked = waiting.get(id);
      waiting.delete(id);
      if (!asked) return;
      if (failed === undefined) asked.done(answer);
      else byItself(asked);
    });
    for (const event of ["error", "messageerror"]) worker.addEventListener(event, lost);
  } catch {
    lost();
  }
  return worker;
}

// lost has the page itself answer what the worker did not.
function lost() {
  worker?.terminate();
  worker = null;
  for (const asked of waiting.values()) byItself(asked);
  waiting.clear();
}
