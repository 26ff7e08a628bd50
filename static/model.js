// The model in words.

import { el } from "./dom.js";

// startModel fills the view.
export function startModel(root) {
  root.append(el("h2", { text: "The model in words" }));
}

export function showModel() {}

export function leaveModel() {}
