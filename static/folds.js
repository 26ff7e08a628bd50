// The parts of the job inside another page: there they are closed until they
// are opened, so that the frame is a few screens tall and begins with the
// verdict and the drawings.

import { byId, el, setAttr, setText } from "./dom.js";

/** @type {Map<string, { button: HTMLElement, many: HTMLElement }>} */
const heads = new Map(); // of each part its button and the word on how much is in it

// startFolds closes the parts below the drawings.
export function startFolds() {
  for (const id of ["form", "pieces", "cautions", "working"]) {
    const title = byId(`${id}-title`);
    const many = el("span", { class: "fold-count" });
    const button = el("button", { type: "button", class: "fold", "aria-controls": id }, el("span", { text: title.textContent }), many);
    button.addEventListener("click", () => fold(id, button.getAttribute("aria-expanded") === "true"));
    title.replaceChildren(button);
    heads.set(id, { button, many });
    fold(id, true);
  }
}

/** @param {string} id @param {boolean} closed */
function fold(id, closed) {
  const head = heads.get(id);
  if (!head) return;
  setAttr(head.button, "aria-expanded", closed ? "false" : "true");
  setAttr(byId(id), "data-folded", closed);
}

// unfold opens a part, for what leads into it.
/** @param {string} id */
export function unfold(id) {
  fold(id, false);
}

// showFolds says how much a view has in each part.
/** @param {page.View} view @param {show.Piece[]} pieces */
export function showFolds({ problems, cautions }, pieces) {
  const lists = { form: problems, pieces, cautions };
  for (const [id, { length }] of Object.entries(lists)) {
    const many = heads.get(id)?.many;
    if (!many) continue;
    setText(many, length ? String(length) : "");
    if (id === "form") setAttr(many, "data-missing", length > 0);
  }
}
