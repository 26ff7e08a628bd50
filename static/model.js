// The model in words, as the calculator tells it.

import { el, setSymbols } from "./dom.js";
import { button } from "./dialogs.js";
import { ask } from "./state.js";

let body = null;
let told = "";

// startModel fills the view.
export function startModel(root) {
  body = el("div", { class: "model" });
  root.append(body);
}

export function showModel() {
  const model = ask("model", {});
  if (!model) return;
  const text = JSON.stringify(model);
  if (text === told) return; // nothing that is being read is laid out anew
  told = text;
  const sections = model.sections ?? [];
  body.replaceChildren(
    el("div", { class: "model-head" }, el("h2", { text: model.title }), button("Print", () => print(), "model-print")),
    ...(model.message ? [el("p", { role: "alert", text: model.message })] : []),
    el("nav", { class: "model-contents", "aria-label": "Parts of the model" }, el("ul", {}, ...sections.map((s) => el("li", {},
      button(s.title, () => show(s.id), "link"))))),
    ...sections.map(place));
}

export function leaveModel() {}

function show(id) {
  const head = body.querySelector(`#model-${id} h3`);
  head.focus({ preventScroll: true });
  head.scrollIntoView();
}

function place(s) {
  return el("section", { id: `model-${s.id}`, "data-section": s.id },
    el("h3", { text: s.title, tabindex: "-1" }),
    ...(s.paragraphs ?? []).map((text) => el("p", { text })),
    s.items?.length ? el("ul", { class: "model-items" }, ...s.items.map((n) => el("li", {},
      el("span", { text: n.message }), n.source ? el("span", { class: "source", text: `Source: ${n.source}` }) : null))) : null,
    ...(s.steps ?? []).map(step));
}

function step(s) {
  const formula = el("p", { class: "formula" });
  setSymbols(formula, s.formula);
  return el("div", { class: "model-step" }, el("h4", { text: s.name }), formula,
    el("ul", { class: "step-values" }, ...(s.values ?? []).map((text) => {
      const li = el("li", {});
      setSymbols(li, text);
      return li;
    })),
    el("p", { class: "source", text: `Source: ${s.source}` }));
}
