// Calls that take long, answered beside the page: by a worker with a program of its
// own, or, where there can be none, by the page's own between two frames.

import { version } from "./rigging.js";

let worker; // undefined before it is tried, null where there is none
let count = 0;
const waiting = new Map(); // id → { call, request, done }

// aside promises the answer of a call; here answers it where no worker can.
export function aside(call, request, here) {
  return new Promise((done) => {
    const asked = { call, request, done, here };
    if (!started()) {
      own(asked);
      return;
    }
    waiting.set(++count, asked);
    worker.postMessage({ id: count, call, request });
  });
}

// apart tells whether a worker answers, so that long calls hold nothing up.
export function apart() {
  return Boolean(started());
}

function own({ call, request, done, here }) {
  setTimeout(() => done(here(call, request)));
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
      else own(asked);
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
  for (const asked of waiting.values()) own(asked);
  waiting.clear();
}
