// The labels of a drawing whose number has a working: pressed, they open it.
// The Tab key stops at one of them; arrow keys, Home and End move among them.

import { setAttr, svg, within } from "./dom.js";
import { say } from "./say.js";

const NEAR = 14; // px about a label that count as on it: with its height the width of a finger
const STILL = 10; // px that a press may slip
/** @type {{ [key: string]: number }} */
const STEPS = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 };

/**
 * Where the numbers of a drawing lead: name() names the step of the working under
 * a path, "" where there is none, and open() shows it.
 *
 * @typedef {object} Numbers
 * @property {(path: string, name: string, text: string) => void} open
 * @property {(path: string) => string} name
 */

// pressable makes the labels in a group of a picture pressable. It gives
// place(node, path, text) for a text that is drawn and placed() when all are.
/** @param {SVGSVGElement} picture @param {SVGGElement} shapes @param {Numbers} numbers */
export function pressable(picture, shapes, numbers) {
  const lines = svg("path", { class: "label-lines" });
  const ring = svg("rect", { class: "label-focus", rx: "4", hidden: true });
  shapes.after(lines, ring);
  /** @type {Element | undefined} */
  let stop; // the label at which Tab stops
  /** @type {{ x: number, y: number } | null} */
  let from = null; // where the press under way began
  const labels = () => [.../** @type {NodeListOf<SVGTextElement>} */ (shapes.querySelectorAll("[data-working]"))];

  function press(/** @type {Element & HTMLOrSVGElement} */ node) {
    const path = node.dataset.working ?? "";
    stopAt(node);
    node.focus({ preventScroll: true }); // it comes back here
    numbers.open(path, numbers.name(path), node.textContent ?? "");
  }

  function stopAt(/** @type {Element | undefined} */ node) {
    stop = node;
    for (const label of labels()) setAttr(label, "tabindex", label === node ? "0" : "-1");
  }

  // nearest gives the label at a place of the window, or one next to it.
  function nearest(/** @type {number} */ x, /** @type {number} */ y) {
    let best = null;
    let least = NEAR;
    for (const label of labels()) {
      const r = label.getBoundingClientRect();
      const apart = Math.max(r.left - x, x - r.right, r.top - y, y - r.bottom);
      if (apart <= least) {
        least = apart;
        best = label;
      }
    }
    return best;
  }

  // drawLines underlines the labels. As a decoration of the text the browsers
  // would each place it elsewhere.
  function drawLines() {
    setAttr(lines, "d", labels().map((label) => {
      const { x, y, width, height } = label.getBBox();
      return width ? `M${x} ${y + height}h${width}` : "";
    }).join(""));
  }

  function drawRing() {
    const node = labels().find((label) => label === document.activeElement && label.matches(":focus-visible"));
    if (node) {
      const box = node.getBBox();
      setAttr(ring, "x", box.x - 4);
      setAttr(ring, "y", box.y - 3);
      setAttr(ring, "width", box.width + 8);
      setAttr(ring, "height", box.height + 6);
    }
    setAttr(ring, "hidden", !node);
  }

  picture.addEventListener("pointerdown", (event) => {
    from = within(event, "[data-handle]") ? null : { x: event.clientX, y: event.clientY };
  });
  picture.addEventListener("click", (event) => {
    let node = within(event, "[data-working]");
    if (event.detail > 0) { // else not by a pointer
      const slipped = !from || Math.abs(event.clientX - from.x) > STILL || Math.abs(event.clientY - from.y) > STILL;
      node = slipped ? null : node ?? nearest(event.clientX, event.clientY);
    }
    if (node) press(node);
  });
  shapes.addEventListener("keydown", (event) => {
    const node = within(event, "[data-working]");
    if (!node || event.ctrlKey || event.metaKey || event.altKey) return;
    const list = labels();
    const at = list.findIndex((label) => label === node);
    const to = event.key === "Home" ? 0 : event.key === "End" ? list.length - 1 : (at + STEPS[event.key] + list.length) % list.length;
    if (event.key === "Enter" || event.key === " ") press(node);
    else if (list[to]) {
      stopAt(list[to]);
      list[to].focus();
    } else return;
    event.preventDefault();
  });
  shapes.addEventListener("focusin", drawRing);
  shapes.addEventListener("focusout", drawRing);
  new ResizeObserver(drawLines).observe(picture); // nothing hidden has a size

  return {
    place: (/** @type {Element} */ node, path = "", text = "") => {
      const name = path ? numbers.name(path) : "";
      setAttr(node, "data-working", name ? path : null);
      setAttr(node, "role", name ? "button" : null);
      setAttr(node, "aria-haspopup", name ? "dialog" : null);
      setAttr(node, "aria-label", name ? `${name}: ${text}` : null);
      if (!name) setAttr(node, "tabindex", null);
    },
    placed: () => {
      const list = labels();
      setAttr(shapes, "role", list.length ? "toolbar" : null);
      setAttr(shapes, "aria-label", list.length ? say("Numbers that open their working") : null);
      stopAt(list.find((label) => label === stop) ?? list[0]);
      drawLines();
      drawRing();
    },
  };
}
