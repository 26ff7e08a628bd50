// Drawings: marks laid out by the calculator, placed here as they come.

import { el, keyed, setAttr, setText, svg } from "./dom.js";
import { draggable } from "./dragging.js";
import { pressable } from "./labels.js";
import { known, pattern } from "./marks.js";
import { say } from "./say.js";

const FILLED = new Set(["anchor", "block", "puller", "point"]);
/** @type {{ [axes: string]: string }} */
const ARROWS = {
  x: "M-15 0H15M-10 -5L-15 0L-10 5M10 -5L15 0L10 5",
  y: "M0 -15V15M-5 -10L0 -15L5 -10M-5 10L0 15L5 10",
  xy: "M-14 0H14M0 -14V14",
};

let count = 0;

// makePicture fills a figure with a drawing that can be updated. With moves,
// as draggable takes them, its handles can be moved; with numbers, as
// pressable takes them, its labels open their working. Without both it is a
// plain image.
/**
 * @param {HTMLElement} figure
 * @param {string} caption
 * @param {import("./dragging.js").Moves | null} [moves]
 * @param {import("./labels.js").Numbers | null} [numbers]
 */
export function makePicture(figure, caption, moves, numbers) {
  const id = `picture-${++count}`;
  const title = svg("title", { id: `${id}-title` });
  const shapes = svg("g", { class: "shapes" });
  const handles = svg("g", { class: "handles" });
  const picture = svg("svg", { class: "drawing", role: moves || numbers ? "group" : "img", "aria-labelledby": `${id}-title` }, title, shapes, handles);
  const box = el("div", { class: "picture-box" }, picture);
  const desc = el("p", {});
  const words = el("details", { class: "in-words" }, el("summary", { text: say("Describe this drawing") }), desc);
  figure.append(el("figcaption", { text: caption }), box, words);
  if (moves) draggable(picture, handles, moves);
  const labels = numbers ? pressable(picture, shapes, numbers) : null;
  let font = "";
  function update(/** @type {draw.Drawing | null | undefined} */ drawing, /** @type {boolean} */ stale) {
    setAttr(figure, "data-stale", stale ? "true" : null);
    setAttr(figure, "data-empty", drawing ? null : "true");
    if (!drawing) return;
    setAttr(picture, "viewBox", `0 0 ${drawing.w} ${drawing.h}`);
    const now = `${drawing.font}px`; // what the labels were given room for
    if (font !== now) shapes.style.setProperty("font-size", font = now);
    setText(title, drawing.title);
    setText(desc, drawing.desc);
    placeShapes(shapes, drawing.shapes, labels);
    labels?.placed();
    // A handle in the hand stays, also over a plan that cannot be worked out.
    const still = stale && !handles.querySelector(".held");
    if (moves) placeHandles(handles, still ? [] : drawing.handles);
  }
  return { box, update };
}

// boxOf gives the size of a box in the drawing's own pixels: on a page whose
// text is larger the drawings are larger as well.
/** @param {Element} box */
export function boxOf(box) {
  const scale = parseFloat(getComputedStyle(box).getPropertyValue("--picture-scale")) || 1;
  return { w: Math.floor(box.clientWidth / scale), h: Math.floor(box.clientHeight / scale) };
}

// placeLegend fills a list with what the kinds of line in the drawings mean,
// each kind once.
/** @param {Element} list @param {(draw.Drawing | null | undefined)[]} drawings */
export function placeLegend(list, drawings) {
  if (!drawings.some(Boolean)) return; // the pictures stay as well
  const items = new Map(drawings.flatMap((d) => d?.legend ?? []).map((item) => [item.label, item]));
  keyed(list, [...items.values()], (item) => item.label, (item) => {
    const shapes = svg("g", { class: "shapes" });
    placeShapes(shapes, item.shapes);
    return el("li", {},
      svg("svg", { viewBox: `0 0 ${item.w} ${item.h}`, width: item.w, height: item.h, "aria-hidden": "true" }, shapes),
      el("span", { text: item.label }));
  });
}

/** @type {WeakMap<Element, string>} */
const fillings = new WeakMap(); // as set last

// placeShapes reuses the nodes in their order: a drawing has the same marks
// from frame to frame as long as the plan has the same parts.
/** @param {SVGGElement} group @param {draw.Shape[]} shapes @param {ReturnType<typeof pressable> | null} [labels] */
function placeShapes(group, shapes, labels) {
  shapes.forEach((shape, i) => {
    let node = /** @type {SVGElement | undefined} */ (group.children[i]);
    if (!node || node.localName !== shape.kind) {
      const made = svg(/** @type {"path" | "circle" | "text"} */ (shape.kind));
      if (node) node.replaceWith(made);
      else group.append(made);
      node = made;
    }
    const name = shape.class.split(" ")[0];
    setAttr(node, "class", shape.class);
    setAttr(node, "data-state", shape.state ? known(shape.state) : null);
    const filling = FILLED.has(name) && shape.state ? pattern(shape.state) : "";
    if ((fillings.get(node) ?? "") !== filling) {
      fillings.set(node, filling);
      node.style.setProperty("fill", filling);
    }
    if (shape.kind === "path") {
      setAttr(node, "d", shape.d ?? "");
    } else if (shape.kind === "circle") {
      setAttr(node, "cx", shape.x ?? 0);
      setAttr(node, "cy", shape.y ?? 0);
      setAttr(node, "r", shape.r ?? 0);
    } else {
      setAttr(node, "x", shape.x ?? 0);
      setAttr(node, "y", shape.y ?? 0);
      setAttr(node, "text-anchor", shape.anchor || "start");
      setText(node, shape.text);
      labels?.place(node, shape.working, shape.text);
    }
  });
  while (group.children.length > shapes.length) group.lastChild?.remove();
}

/** @param {SVGGElement} group @param {draw.Handle[]} handles */
function placeHandles(group, handles) {
  keyed(group, handles, (h) => h.id, makeHandle, (node, h) => {
    setAttr(node, "transform", `translate(${h.x} ${h.y})`);
    setAttr(node, "aria-label", h.label);
    setAttr(node, "aria-valuetext", h.label);
    setAttr(node, "data-x", h.x);
    setAttr(node, "data-y", h.y);
    setAttr(node, "data-path", h.paths[0]);
    setAttr(node.arrows, "d", ARROWS[h.axes] ?? ARROWS.xy);
  });
}

/** @param {draw.Handle} handle */
function makeHandle(handle) {
  const arrows = svg("path", { class: "handle-arrows" });
  return Object.assign(svg("g", {
    class: "handle", role: "slider", tabindex: "0", "data-handle": handle.id,
    // The state is in aria-valuetext: a place has no single number.
    "aria-valuemin": "0", "aria-valuemax": "0", "aria-valuenow": "0", "aria-describedby": "drag-help",
  },
  svg("circle", { class: "handle-hit", r: "22" }),
  svg("circle", { class: "handle-focus", r: "18" }),
  svg("circle", { class: "handle-ring", r: "10" }),
  arrows), { arrows });
}
