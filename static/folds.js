// The parts of the job inside another page: there they are closed until they
// are opened, so that the frame is a few screens tall and begins with the
// verdict and the drawings.

import { byId, el, setAttr, setText } from "./dom.js";

const heads = new Map(); // part → its button and the word on how much is in it

// startFolds closes the parts below the drawings.
export function startFolds() {
  for (const id of ["form", "pieces", "cautions", "working"]) {
    const title = byId(`${id}-title`);
    const many = el("span", { class: "fold-count" });
    const button = el("button", { type: "button", class: "fold", "aria-controls": id, on: { click: () => fold(id, button.getAttribute("aria-expanded") === "true") } },
      el("span", { text: title.textContent }), many);
    title.replaceChildren(button);
    heads.set(id, { button, many });
    fold(id, true);
  }
}

function fold(id, closed) {
  const head = heads.get(id);
  if (!head) return;
  setAttr(head.button, "aria-expanded", closed ? "false" : "true");
  setAttr(byId(id), "data-folded", closed);
}

// unfold opens a part, for what leads into it.
export function unfold(id) {
  fold(id, false);
}

// showFolds says how much a view has in each part.
export function showFolds({ problems, cautions }, pieces) {
  if (!heads.size) return;
  const missing = problems?.length ?? 0;
  const count = (id, n) => setText(heads.get(id).many, n ? String(n) : "");
  count("form", missing);
  setAttr(heads.get("form").many, "data-missing", missing > 0);
  count("pieces", pieces?.length);
  count("cautions", cautions?.length);
}
