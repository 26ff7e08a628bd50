// The fall.

import { el } from "./dom.js";

// startFall fills the view.
export function startFall(root) {
  root.append(el("h2", { text: "The fall" }));
}

export function showFall() {}

export function leaveFall() {}
