// Benches.

import { el } from "./dom.js";

// startBench fills the view.
export function startBench(root) {
  root.append(el("h2", { text: "Benches" }));
}

export function showBench() {}

export function leaveBench() {}
