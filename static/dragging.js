// Dragging the handles of a drawing, by pointer and by keyboard.

import { within } from "./dom.js";
import { announce } from "./messages.js";

/** @type {{ [key: string]: [x: number, y: number] }} */
const ARROW_KEYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** @type {Element | null} */
let announcing = null; // the handle whose new label is to be said

// sayMoved tells what has become of the handle that was moved, once it is
// drawn anew, and what it led to.
export function sayMoved(more = "") {
  if (!announcing) return;
  const label = announcing.getAttribute("aria-label");
  announcing = null;
  if (label) announce(more ? `${label}. ${more}` : label);
}

/**
 * Where the moves of handles go: to() in the drawing's pixels, step() from the
 * keyboard, and with Enter reveal() for the field that a handle stands for.
 *
 * @typedef {object} Moves
 * @property {(handle: string) => void} start
 * @property {(x: number, y: number) => void} to
 * @property {(giveUp: boolean) => void} end
 * @property {(handle: string, x: number, y: number, fine: boolean) => void} step
 * @property {(path: string) => void} reveal
 */

// draggable makes the handles in a group of a picture movable.
/** @param {SVGSVGElement} picture @param {SVGGElement} group @param {Moves} moves */
export function draggable(picture, group, moves) {
  /** @type {{ node: SVGElement, pointer: number, dx: number, dy: number } | null} */
  let held = null;

  const place = (/** @type {PointerEvent} */ event) => {
    const matrix = picture.getScreenCTM();
    return matrix ? new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse()) : null;
  };

  const letGo = (/** @type {boolean} */ giveUp) => {
    if (!held) return;
    const { node, pointer } = held;
    held = null;
    node.classList.remove("held");
    picture.classList.remove("dragging");
    if (node.hasPointerCapture(pointer)) node.releasePointerCapture(pointer);
    announcing = node;
    moves.end(giveUp);
  };

  group.addEventListener("pointerdown", (event) => {
    if (!within(event, "[data-handle]") || held || event.button !== 0) return;
    const p = place(event);
    const node = p && nearest(group, p);
    if (!node) return;
    event.preventDefault(); // no selecting of text on the way
    node.focus({ preventScroll: true });
    node.setPointerCapture(event.pointerId);
    held = { node, pointer: event.pointerId, dx: Number(node.dataset.x) - p.x, dy: Number(node.dataset.y) - p.y };
    node.classList.add("held");
    picture.classList.add("dragging");
    moves.start(node.dataset.handle ?? "");
  });

  // Some browsers do not heed touch-action inside a picture and would scroll.
  group.addEventListener("touchstart", (event) => {
    if (within(event, "[data-handle]")) event.preventDefault();
  }, { passive: false });

  group.addEventListener("pointermove", (event) => {
    if (!held || event.pointerId !== held.pointer) return;
    const p = place(event);
    if (p) moves.to(p.x + held.dx, p.y + held.dy);
  });

  group.addEventListener("pointerup", (event) => {
    if (held && event.pointerId === held.pointer) letGo(false);
  });
  for (const name of /** @type {const} */ (["pointercancel", "lostpointercapture"])) {
    group.addEventListener(name, (event) => {
      if (held && event.pointerId === held.pointer) letGo(false);
    });
  }

  group.addEventListener("keydown", (event) => {
    const node = within(event, "[data-handle]");
    if (!node) return;
    if (event.key === "Escape" && held) {
      event.preventDefault();
      letGo(true);
      return;
    }
    if (event.key === "Enter" && node.dataset.path && !held) {
      event.preventDefault();
      moves.reveal(node.dataset.path);
      return;
    }
    const arrow = ARROW_KEYS[event.key];
    if (!arrow || event.ctrlKey || event.metaKey || event.altKey || held) return;
    event.preventDefault();
    announcing = node;
    moves.step(node.dataset.handle ?? "", arrow[0], arrow[1], event.shiftKey);
  });
}

// nearest gives the handle whose middle lies nearest: the areas to touch
// are large and may overlap.
/** @param {SVGGElement} group @param {{ x: number, y: number }} p */
function nearest(group, p) {
  let best = null;
  let least = Infinity;
  for (const node of /** @type {HTMLCollectionOf<SVGElement>} */ (group.children)) {
    const dx = Number(node.dataset.x) - p.x;
    const dy = Number(node.dataset.y) - p.y;
    const apart = dx * dx + dy * dy;
    if (apart <= least) {
      least = apart;
      best = node;
    }
  }
  return best;
}
