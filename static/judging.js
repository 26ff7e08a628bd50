// A worker with a program of its own, for what takes long: one call at a time.

import { load } from "./rigging.js";

/** @typedef {{ id: number, call: import("./aside.js").Long, request: judgement.asked }} Asked */

onmessage = async (/** @type {MessageEvent<Asked>} */ { data: { id, call, request } }) => {
  try {
    postMessage({ id, answer: (await load())[call](request) });
  } catch (err) {
    postMessage({ id, failed: String(err) });
  }
};
