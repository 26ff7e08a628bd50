// The working of a number, hidden and revealed one line at a time.
//
//   const reveal = makeReveal({ label: "Working" });
//   root.append(reveal.node);
//   reveal.update(steps, key);
//
// makeReveal gives:
//   node    to be put into the page, hidden while there are no steps
//   update(steps, key)  the steps of an answer of Go. With the same key as
//           before what was shown stays shown; with another one all is hidden
//           again.
//   next()  shows the next line and says whether there was one
//   all(), hide()  show every line, hide them all again
//   open(path)     shows all of one step and goes to it; false if not here
//   focus()        goes to the button of the next line
//   shown, total   how many lines are shown, and how many there are
//
// A step's lines: its name, the formula, each value, the result with its
// source. A value with a path in from is a button that opens the step of that
// path where it is among the steps. Keys while the focus is inside: Enter or
// Space on the button, L next line, A all, H hide again.

import { el, keyed, setAttr, setNote, setSymbols, setText, show, within } from "./dom.js";
import { say, sayCount, sayNumber } from "./say.js";

/**
 * @param {object} options
 * @param {string} [options.label] names the group for those who cannot see it
 * @param {3 | 4} [options.level] of a step's heading
 * @param {boolean} [options.open] every line is shown from the start
 * @param {(lines: { shown: number, total: number }) => void} [options.onshow] called when lines were shown or hidden
 */
export function makeReveal({ label = say("Working"), level = 4, open = false, onshow } = {}) {
  /** @type {parts.Step[]} */
  let steps = [];
  /** @type {number[]} */
  let shown = []; // lines shown of each step
  let lastKey = "";
  let latest = -1; // the step whose last shown line is the newest

  const list = el("div", { class: "reveal-steps" });
  const count = el("p", { class: "reveal-count quiet", role: "note" });
  const live = el("p", { class: "live", "aria-live": "polite" });
  const nextButton = el("button", { type: "button", class: "main reveal-next", text: say("Next line"), on: { click: () => next() } });
  const allButton = el("button", { type: "button", class: "reveal-all", text: say("All"), on: { click: () => all() } });
  const hideButton = el("button", { type: "button", class: "reveal-hide", text: say("Hide"), on: { click: () => hide() } });
  const node = el("div", { class: "reveal", role: "group", "aria-label": label, hidden: true, on: { keydown: keys } },
    list, el("div", { class: "reveal-bar" }, nextButton, allButton, hideButton, count), live);

  const lines = (/** @type {parts.Step} */ s) => 3 + s.values.length;
  const sum = (/** @type {number[]} */ numbers) => numbers.reduce((a, b) => a + b, 0);
  const total = () => sum(steps.map(lines));

  function keys(/** @type {KeyboardEvent} */ event) {
    if (event.ctrlKey || event.metaKey || event.altKey || within(event, "input, textarea, select")) return;
    const run = new Map([["l", next], ["a", all], ["h", hide]]).get(event.key.toLowerCase());
    if (!run) return;
    event.preventDefault();
    event.stopPropagation();
    run();
  }

  function update(/** @type {parts.Step[]} */ given = [], key = "") {
    const whole = steps.length > 0 && sum(shown) === total();
    const before = new Map(steps.map((s, i) => [s.path + s.name, shown[i]]));
    steps = given;
    const fresh = key !== lastKey;
    lastKey = key;
    shown = steps.map((s) => {
      if (fresh ? open : whole) return lines(s);
      return fresh ? 0 : Math.min(before.get(s.path + s.name) ?? 0, lines(s));
    });
    if (fresh) {
      latest = -1;
      setText(live, "");
    }
    place();
  }

  // wordOf says a line.
  function wordOf(/** @type {parts.Step} */ s, /** @type {number} */ line) {
    if (line === 0) return s.name;
    if (line === 1) return s.formula;
    if (line < 2 + s.values.length) return s.values[line - 2];
    return `${s.name}: ${s.result}`;
  }

  function next() {
    const i = steps.findIndex((s, k) => shown[k] < lines(s));
    if (i < 0) return false;
    setText(live, wordOf(steps[i], shown[i]));
    shown[i]++;
    latest = i;
    place();
    list.querySelector(".reveal-last")?.scrollIntoView({ block: "nearest", behavior: "instant" });
    if (node.contains(document.activeElement)) nextButton.scrollIntoView({ block: "nearest", behavior: "instant" });
    return true;
  }

  function all() {
    shown = steps.map(lines);
    latest = -1;
    setText(live, say("All lines are shown."));
    place();
  }

  function hide() {
    shown = steps.map((_) => 0);
    latest = -1;
    setText(live, say("All lines are hidden."));
    place();
    if (node.contains(document.activeElement)) nextButton.focus({ preventScroll: true });
  }

  function openStep(/** @type {string} */ path) {
    const i = steps.findIndex((s) => s.path === path);
    if (i < 0) return false;
    shown[i] = lines(steps[i]);
    setText(live, `${steps[i].name}: ${steps[i].formula}`);
    place();
    /** @type {NodeListOf<HTMLElement>} */ (list.querySelectorAll(".reveal-name"))[i].focus({ preventScroll: true });
    list.children[i].scrollIntoView({ block: "nearest", behavior: "instant" });
    return true;
  }

  function makeStep() {
    const parts = {
      name: el(`h${level}`, { class: "reveal-name", tabindex: "-1" }), formula: el("p", { class: "formula" }), values: el("ul", { class: "step-values" }),
      result: el("p", { class: "reveal-result" }), source: el("p", { class: "source" }),
    };
    return Object.assign(el("div", { class: "reveal-step" }, ...Object.values(parts)), { parts });
  }

  function place() {
    for (const line of list.querySelectorAll(".reveal-last")) line.classList.remove("reveal-last");
    keyed(list, steps, (s) => `${s.path} ${s.name}`, makeStep, (step, s, i) => {
      const p = step.parts;
      const { values } = s;
      const n = shown[i];
      show(step, n > 0);
      setAttr(step, "data-step", s.path || null);
      setText(p.name, s.name);
      setSymbols(p.formula, n > 1 ? s.formula : "");
      show(p.formula, n > 1 && Boolean(s.formula));
      keyed(p.values, values.slice(0, Math.max(0, n - 2)).map((text, k) => ({ text, from: s.from?.[k], k })),
        (v) => `${v.k}${v.from ? " opens" : ""}`, (v) => makeValue(Boolean(v.from)), (li, { text, from }) => {
          setSymbols(li.word, text);
          if (!from || !(li.word instanceof HTMLButtonElement)) return;
          li.word.onclick = () => openStep(from);
          li.word.disabled = !steps.some((other) => other.path === from);
        });
      show(p.values, n > 2 && values.length > 0);
      const done = n === lines(s);
      setNote(p.result, done ? `= ${s.result}` : "");
      setNote(p.source, done && s.source ? say("Source: {source}", { source: s.source }) : "");
      if (i === latest) (done ? p.result : [p.name, p.formula, ...p.values.children][n - 1])?.classList.add("reveal-last");
    });
    const have = sum(shown);
    const whole = have === total();
    show(node, steps.length > 0);
    setAttr(nextButton, "aria-disabled", whole ? "true" : null); // a button that is off would lose the focus
    setAttr(allButton, "aria-disabled", whole ? "true" : null);
    setAttr(hideButton, "aria-disabled", have === 0 ? "true" : null);
    setText(count, `${have} / ${total()}`);
    setAttr(count, "aria-label", sayCount(total(), "{have} of {n} line", "{have} of {n} lines", { have: sayNumber(have) }));
    onshow?.({ shown: have, total: total() });
  }

  function makeValue(/** @type {boolean} */ opens) {
    const word = opens ? el("button", { type: "button", class: "link" }) : el("span", {});
    return Object.assign(el("li", {}, word), { word });
  }

  return {
    node, update, next, all, hide, open: openStep,
    focus: () => nextButton.focus(),
    get shown() { return sum(shown); },
    get total() { return total(); },
  };
}
