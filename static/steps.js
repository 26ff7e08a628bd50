// The path through the job: the calculator's steps as a bar. Step by step,
// the form shows only the step's sections; all at once, everything stands
// there and the bar leads to what is missing.

import { byId, el, keyed, setAttr, setText, show, within } from "./dom.js";
import { say } from "./say.js";
import { computeNow, state } from "./state.js";

const NARROW = matchMedia("(max-width: 699px)");

/** @type {page.JobStep[]} */
let steps = [];
let current = "tree";
/** @type {(path: string) => void} */
let reveal = () => {};

// startSteps takes what leads to a field of the form.
/** @param {(path: string) => void} toField */
export function startSteps(toField) {
  reveal = toField;
  byId("step-next").addEventListener("click", next);
  byId("brief-print").addEventListener("click", () => print());
  byId("form-sections").addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !within(event, "input[inputmode=decimal]")) return;
    event.preventDefault();
    next();
  });
  NARROW.addEventListener("change", dressWay);
  dressWay();
  setAttr(document.body, "data-step", current);
}

// dressWay follows the setting: step by step, all at once, or as suits the
// width of the screen.
export function dressWay() {
  setAttr(document.documentElement, "data-way", stepwise() ? "steps" : "all");
  place();
}

// Inside another page the verdict and the drawings come first.
function stepwise() {
  const { way } = state.settings;
  const framed = document.documentElement.hasAttribute("data-framed");
  return way === "steps" || (way !== "all" && NARROW.matches && !framed);
}

// showSteps draws the steps of a view.
/** @param {page.JobStep[]} list */
export function showSteps(list) {
  if (list.length) steps = list;
  keyed(byId("path-list"), steps, (s) => s.key, makeStep, updateStep);
  place();
}

/** @param {page.JobStep} step */
function makeStep(step) {
  const parts = { mark: el("span", { class: "step-mark", "aria-hidden": "true" }), label: el("span", { class: "step-label" }), said: el("span", { class: "step-said" }) };
  const button = el("button", { type: "button", class: "step-button", on: { click: () => choose(step.key, true) } }, ...Object.values(parts));
  return Object.assign(el("li", {}, button), { button, ...parts });
}

/** @param {ReturnType<typeof makeStep>} node @param {page.JobStep} step @param {number} i */
function updateStep({ button, mark, label, said }, step, i) {
  setText(mark, step.done ? "✓" : String(i + 1));
  setText(label, step.name);
  setText(said, `. ${step.state}`);
  setAttr(button, "data-done", step.done ? "yes" : null);
}

function chosen() {
  return steps.find((s) => s.key === current) ?? steps.at(0);
}

// place shows the form's sections of the step, and what it still lacks.
function place() {
  const step = chosen();
  if (!step) return;
  const only = stepwise();
  for (const node of sections()) show(node, !only || Boolean(step.sections?.includes(node.dataset.section ?? "")));
  for (const [i, button] of byId("path-list").querySelectorAll("button").entries()) {
    setAttr(button, "aria-current", only && steps[i] === step ? "step" : null);
  }
  setText(byId("step-title"), step.name);
  setText(byId("step-state"), step.state);
  setAttr(byId("step-head"), "data-done", step.done ? "yes" : null);
  const to = steps.at(steps.indexOf(step) + 1);
  const button = byId("step-next");
  setText(button, say("Next: {step}", { step: (step.path ? step.next : to?.name) ?? "" }));
  show(button, Boolean(step.path || (step.done && to)));
}

/** The sections of the form, each with what is in it. */
const sections = () => /** @type {HTMLDetailsElement[]} */ ([...byId("form-sections").children]);

/** @param {string} key @param {boolean} byHand */
function choose(key, byHand) {
  current = key;
  setAttr(document.body, "data-step", key);
  place();
  if (!byHand) return;
  if (stepwise()) {
    scrollTo({ top: 0, behavior: "instant" });
    const shown = sections().filter((n) => !n.hidden);
    if (shown.length && shown.every((n) => !n.open)) shown[0].open = true;
  } else {
    const step = chosen();
    reveal(step?.path || step?.sections?.[0] || "");
  }
}

// seek goes to the step that a section of the form belongs to.
/** @param {string} section */
export function seek(section) {
  const step = steps.find((s) => s.sections?.includes(section));
  if (step && step.key !== current) choose(step.key, false);
}

function next() {
  computeNow();
  const step = chosen();
  if (!step) return;
  if (step.path) {
    reveal(step.path);
    return;
  }
  const to = steps[steps.indexOf(step) + 1];
  if (step.done && to && stepwise()) choose(to.key, true);
}

// beginSteps goes back to the first step, for a new plan.
export function beginSteps() {
  choose("tree", false);
}
