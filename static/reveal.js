// The working of a number, hidden and revealed one line at a time.
//
//   const reveal = makeReveal({ label: "Working" });
//   root.append(reveal.node);
//   reveal.update(steps, key);
//
// makeReveal(options):
//   label   names the group for those who cannot see it ("Working")
//   level   level of a step's heading (4)
//   open    true: every line is shown from the start (false)
//   onshow  called with { shown, total } when lines were shown or hidden
// It gives:
//   node    to be put into the page, hidden while there are no steps
//   update(steps, key)  the steps of an answer of Go: [{ path, name, formula,
//           values: [text], from: [path] or none, result, source }]. With the
//           same key as before what was shown stays shown; with another one
//           all is hidden again.
//   next()  shows the next line and says whether there was one
//   all(), hide()  show every line, hide them all again
//   open(path)     shows all of one step and goes to it; false if not here
//   shown, total   how many lines are shown, and how many there are
//
// A step's lines: its name, the formula, each value, the result with its
// source. A value with a path in from is a button that opens the step of that
// path where it is among the steps. Keys while the focus is inside: Enter or
// Space on the button, L next line, A all, H hide again.

import { el, keyed, setAttr, setNote, setSymbols, setText, show } from "./dom.js";
import { say, sayCount, sayNumber } from "./say.js";

export function makeReveal({ label = say("Working"), level = 4, open = false, onshow = null } = {}) {
  let steps = [];
  let shown = []; // lines shown of each step
  let lastKey = null;
  let latest = -1; // the step whose last shown line is the newest
  const parts = new WeakMap();

  const list = el("div", { class: "reveal-steps" });
  const count = el("p", { class: "reveal-count quiet", role: "note" });
  const live = el("p", { class: "live", "aria-live": "polite" });
  const nextButton = el("button", { type: "button", class: "main reveal-next", text: say("Next line"), on: { click: () => next() } });
  const allButton = el("button", { type: "button", class: "reveal-all", text: say("All"), on: { click: () => all() } });
  const hideButton = el("button", { type: "button", class: "reveal-hide", text: say("Hide"), on: { click: () => hide() } });
  const node = el("div", { class: "reveal", role: "group", "aria-label": label, hidden: true, on: { keydown: keys } },
    list, el("div", { class: "reveal-bar" }, nextButton, allButton, hideButton, count), live);

  const lines = (s) => 3 + (s.values?.length ?? 0);
  const sum = (numbers) => numbers.reduce((a, b) => a + b, 0);
  const total = () => sum(steps.map(lines));

  function keys(event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.target.matches?.("input, textarea, select")) return;
    const run = { l: next, a: all, h: hide }[event.key.toLowerCase()];
    if (!run) return;
    event.preventDefault();
    event.stopPropagation();
    run();
  }

  function update(given, key = "") {
    const whole = steps.length > 0 && sum(shown) === total();
    const before = new Map(steps.map((s, i) => [s.path + s.name, shown[i]]));
    steps = given ?? [];
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
  function wordOf(s, line) {
    const values = s.values ?? [];
    if (line === 0) return s.name;
    if (line === 1) return s.formula;
    if (line < 2 + values.length) return values[line - 2];
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
    shown = steps.map(() => 0);
    latest = -1;
    setText(live, say("All lines are hidden."));
    place();
    if (node.contains(document.activeElement)) nextButton.focus({ preventScroll: true });
  }

  function openStep(path) {
    const i = steps.findIndex((s) => s.path === path);
    if (i < 0) return false;
    shown[i] = lines(steps[i]);
    setText(live, `${steps[i].name}: ${steps[i].formula}`);
    place();
    const head = list.children[i].firstChild;
    head.focus({ preventScroll: true });
    list.children[i].scrollIntoView({ block: "nearest", behavior: "instant" });
    return true;
  }

  function makeStep() {
    const p = {
      name: el(`h${level}`, { class: "reveal-name", tabindex: "-1" }), formula: el("p", { class: "formula" }), values: el("ul", { class: "step-values" }),
      result: el("p", { class: "reveal-result" }), source: el("p", { class: "source" }),
    };
    const step = el("div", { class: "reveal-step" }, p.name, p.formula, p.values, p.result, p.source);
    parts.set(step, p);
    return step;
  }

  function place() {
    let last = null;
    keyed(list, steps, (s) => `${s.path} ${s.name}`, makeStep, (step, s, i) => {
      const p = parts.get(step);
      const values = s.values ?? [];
      const n = shown[i];
      show(step, n > 0);
      setAttr(step, "data-step", s.path || null);
      setText(p.name, s.name);
      setSymbols(p.formula, n > 1 ? s.formula : "");
      show(p.formula, n > 1 && Boolean(s.formula));
      keyed(p.values, values.slice(0, Math.max(0, n - 2)).map((text, k) => ({ text, from: s.from?.[k], k })),
        (v) => `${v.k}${v.from ? " opens" : ""}`, (v) => el("li", {}, v.from ? el("button", { type: "button", class: "link" }) : el("span", {})), (li, v) => {
          const opens = v.from && steps.some((other) => other.path === v.from);
          setSymbols(li.firstChild, v.text);
          if (v.from) {
            li.firstChild.onclick = () => openStep(v.from);
            li.firstChild.disabled = !opens;
          }
        });
      show(p.values, n > 2 && values.length > 0);
      const done = n === lines(s);
      setNote(p.result, done ? `= ${s.result}` : "");
      setNote(p.source, done && s.source ? say("Source: {source}", { source: s.source }) : "");
      const shownNodes = [p.name, p.formula, ...p.values.children, p.result];
      for (const line of shownNodes) line.classList.remove("reveal-last");
      if (i === latest) last = done ? p.result : shownNodes[n - 1];
    });
    last?.classList.add("reveal-last");
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

  return {
    node, update, next, all, hide, open: openStep,
    get shown() { return sum(shown); },
    get total() { return total(); },
  };
}
