// Any number opens its derivation: its own step of the working and those its
// values come from, line by line, beside the drawings with the same letters.

import { openDialog } from "./dialogs.js";
import { makePicture } from "./drawing.js";
import { el, keyed, once, setText, show } from "./dom.js";
import { move } from "./place.js";
import { makeReveal } from "./reveal.js";
import { say } from "./say.js";
import { lettered, state } from "./state.js";

/** @typedef {(path: string, label: string, value: string) => void} Open opens the working of a number */

// placeNumber writes a number, as a button where a step of the working gives it.
/** @param {HTMLElement} node @param {{ text: string, path?: string, label: string, open?: Open }} number */
export function placeNumber(node, { text, path, label, open = openWorking }) {
  if (!path) {
    if (node.firstElementChild) node.replaceChildren();
    setText(node, text);
    return;
  }
  let button = node.querySelector("button");
  if (!button) {
    button = el("button", { type: "button", class: "number", "aria-haspopup": open === openWorking ? "dialog" : null });
    node.replaceChildren(button);
  }
  button.onclick = () => open(path, label, text);
  setText(button, text);
}

// allSteps are the steps of the working, and those of what was assumed.
function allSteps() {
  return [...(state.shown?.working ?? []), ...(state.shown?.taken ?? [])];
}

// stepName is the name of the step under a path, "" where there is none.
/** @param {string} path */
export function stepName(path) {
  return allSteps().find((s) => s.path === path)?.name ?? "";
}

// placeParts writes a sentence given in parts, with its numbers as buttons.
/** @param {HTMLElement} node @param {show.Part[]} parts */
export function placeParts(node, parts) {
  once(node, () => node.replaceChildren()); // of what stood there from the start
  keyed(node, parts, (p, i) => `${i}${p.working ? " opens" : ""}`, (p) => (p.working ? makeWord(p) : Object.assign(document.createTextNode(""), { piece: p })), (word, p) => {
    word.piece = p;
    setText(word, p.text);
  });
}

// makeWord makes a number that breaks across lines as a word does, which a
// button would not.
/** @param {show.Part} part */
function makeWord(part) {
  const open = ({ working = "", text } = word.piece) => openWorking(working, stepName(working), text);
  const word = Object.assign(el("span", {
    class: "number-word", role: "button", tabindex: "0", "aria-haspopup": "dialog", on: {
      click: (event) => {
        event.stopPropagation();
        open();
      },
      keydown: (event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        open();
      },
    },
  }), { piece: part });
  return word;
}

// chain lists steps and all that their values come from, each after what it is
// needed for.
/** @param {parts.Step[]} steps @param {string[]} paths */
export function chain(steps, ...paths) {
  const byPath = new Map(steps.map((s) => [s.path, s]));
  /** @type {Set<parts.Step>} */
  const out = new Set();
  for (const path of paths) {
    const step = byPath.get(path);
    if (!step || out.has(step)) continue;
    out.add(step);
    paths.push(...(step.from ?? []));
  }
  return [...out];
}

// openWorking shows how a number comes about.
/** @type {Open} */
export function openWorking(path, label, value) {
  const all = allSteps();
  const assumed = (state.shown?.taken ?? []).some((s) => s.path === path);
  // Of what was assumed there is more to see in what it goes into.
  const uses = assumed ? all.filter((s) => s.from?.includes(path)).map((s) => s.path) : [];
  const steps = chain(all, path, ...uses);
  const { dialog, body, close } = openDialog(label, { wide: true });
  dialog.classList.add("working-panel");
  const reveal = makeReveal({ label, level: 3 });
  reveal.update(steps, path);
  const figures = [say("Side view"), say("Plan view")].map((caption) => {
    const figure = el("figure", {});
    return { ...makePicture(figure, caption, null), figure };
  });
  const drawings = el("details", { class: "working-drawings" }, el("summary", { text: say("The drawings with these letters") }), ...figures.map((f) => f.figure));
  drawings.open = matchMedia("(min-width: 900px)").matches;
  const draw = () => {
    const scale = parseFloat(getComputedStyle(document.documentElement).getPropertyValue("--picture-scale")) || 1;
    const box = (/** @type {typeof figures[number]} */ { box: { clientWidth: w, clientHeight: h } }) => ({ w: Math.floor(w / scale), h: Math.floor(h / scale) });
    if (!drawings.open) return;
    const view = lettered({ side: box(figures[0]), plan: box(figures[1]) });
    figures[0].update(view?.side, state.stale);
    figures[1].update(view?.plan, state.stale);
  };
  const sizes = new ResizeObserver(draw);
  sizes.observe(drawings);
  drawings.addEventListener("toggle", draw);
  const none = el("p", { text: say("The plan has changed. Close this and open the number again.") });
  show(none, steps.length === 0);
  body.append(
    el("div", { class: "working-lines" },
      el("p", { class: "working-value" }, value),
      el("p", { class: "quiet", text: assumed
        ? say("Not given in the plan, so it was assumed. The steps after it use it; their other values follow.")
        : say("Rounded as shown, loads to the side that protects the crew. The steps after it show where its values come from.") }),
      none, reveal.node,
      el("button", {
        type: "button", class: "link", text: say("The model in words: what it assumes and leaves out"), on: {
          click: () => {
            close();
            move({ view: "model" });
          },
        },
      })),
    drawings);
  reveal.focus();
  draw();
}
