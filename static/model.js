// The model in words, as the calculator tells it.

import { button } from "./dialogs.js";
import { el, setSymbols } from "./dom.js";
import { onKeys } from "./keys.js";
import { say } from "./say.js";
import { ask } from "./state.js";

const body = el("div", { class: "model" });
let told = "";

// startModel fills the view.
/** @param {HTMLElement} root */
export function startModel(root) {
  root.append(body);
  onKeys("model", [
    { key: "n", name: "N", words: say("next part"), run: () => goBy(1) },
    { key: "N", name: say("Shift N"), words: say("previous part"), run: () => goBy(-1) },
  ]);
  // On paper everything is unfolded.
  /** @type {HTMLDetailsElement[]} */
  let folded = [];
  addEventListener("beforeprint", () => {
    folded = [...body.querySelectorAll("details")].filter((part) => !part.open);
    for (const part of folded) part.open = true;
  });
  addEventListener("afterprint", () => {
    for (const part of folded) part.open = false;
  });
}

export function showModel() {
  const model = ask("model", {});
  if (!model) return;
  const text = JSON.stringify(model);
  if (text === told) return; // nothing that is being read is laid out anew
  told = text;
  body.replaceChildren(
    el("div", { class: "model-head" }, el("h2", { text: model.title }), button(say("Print"), () => print(), "model-print")),
    ...(model.message ? [el("p", { role: "alert", text: model.message })] : []),
    ...(model.sections ?? []).map(place));
}

export function leaveModel() {}

// goBy goes to the part so many further; a folded one opens with Enter.
/** @param {number} by */
function goBy(by) {
  const heads = [.../** @type {NodeListOf<HTMLElement>} */ (body.querySelectorAll("section > h3, summary"))];
  const at = heads.findIndex((head) => head === document.activeElement);
  const head = heads.at(Math.min(heads.length - 1, Math.max(0, at + by)));
  head?.focus({ preventScroll: true });
  head?.scrollIntoView({ block: "start", behavior: "instant" });
}

// place lays a section out: formulas and tables folded, to be looked up.
/** @param {model.Section} s */
function place(s) {
  const id = { id: `model-${s.id}`, "data-section": s.id };
  const parts = [
    ...(s.paragraphs ?? []).map((text) => el("p", { text })),
    s.items?.length ? el("ul", { class: "model-items" }, ...s.items.map((n) => el("li", {},
      el("span", { text: n.message }), n.source ? el("span", { class: "source", text: say("Source: {source}", { source: n.source }) }) : null))) : null,
    ...(s.steps ?? []).map(step)];
  return s.folded
    ? el("details", id, el("summary", {}, el("h3", { text: s.title })), el("div", {}, ...parts))
    : el("section", id, el("h3", { text: s.title, tabindex: "-1" }), ...parts);
}

/** @param {parts.Step} s */
function step(s) {
  const formula = el("p", { class: "formula" });
  setSymbols(formula, s.formula);
  return el("div", { class: "model-step" }, el("h4", { text: s.name }), formula,
    el("ul", { class: "step-values" }, ...s.values.map((text) => {
      const li = el("li", {});
      setSymbols(li, text);
      return li;
    })),
    el("p", { class: "source", text: say("Source: {source}", { source: s.source }) }));
}
