// Practice.

import { el } from "./dom.js";

// startPractice fills the view.
export function startPractice(root) {
  root.append(el("h2", { text: "Practice" }));
}

export function showPractice() {}

export function leavePractice() {}
