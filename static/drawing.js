// Drawings: marks laid out by the calculator, placed here as they come.

import { el, keyed, setAttr, setText, svg } from "./dom.js";
import { draggable } from "./dragging.js";
import { pressable } from "./labels.js";
import { known, pattern } from "./marks.js";
import { say } from "./say.js";

const FILLED = new Set(["anchor", "block", "puller", "point"]);
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
export function makePicture(figure, caption, moves, numbers = null) {
  const movable = Boolean(moves);
  const id = `picture-${++count}`;
  const title = svg("title", { id: `${id}-title` });
  const shapes = svg("g", { class: "shapes" });
  const handles = svg("g", { class: "handles" });
  const picture = svg("svg", { class: "drawing", role: movable || numbers ? "group" : "img", "aria-labelledby": `${id}-title` }, title, shapes, handles);
  const box = el("div", { class: "picture-box" }, picture);
  const desc = el("p", {});
  const words = el("details", { class: "in-words" }, el("summary", { text: say("Describe this drawing") }), desc);
  figure.append(el("figcaption", { text: caption }), box, words);
  if (movable) draggable(picture, handles, moves);
  const labels = numbers ? pressable(picture, shapes, numbers) : null;
  const at = { figure, picture, title, shapes, handles, desc, movable, labels, font: "" };
  return { box, update: (drawing, stale) => update(at, drawing, stale) };
}

function update(at, drawing, stale) {
  setAttr(at.figure, "data-stale", stale ? "true" : null);
  setAttr(at.figure, "data-empty", drawing ? null : "true");
  if (!drawing) return;
  setAttr(at.picture, "viewBox", `0 0 ${drawing.w} ${drawing.h}`);
  const font = `${drawing.font}px`; // what the labels were given room for
  if (at.font !== font) at.shapes.style.setProperty("font-size", at.font = font);
  setText(at.title, drawing.title);
  setText(at.desc, drawing.desc);
  placeShapes(at.shapes, drawing.shapes ?? [], at.labels);
  at.labels?.placed();
  // A handle in the hand stays, also over a plan that cannot be worked out.
  const still = stale && !at.handles.querySelector(".held");
  if (at.movable) placeHandles(at.handles, still ? [] : drawing.handles ?? []);
}

// boxOf gives the size of a box in the drawing's own pixels: on a page whose
// text is larger the drawings are larger as well.
export function boxOf(box) {
  const scale = parseFloat(getComputedStyle(box).getPropertyValue("--picture-scale")) || 1;
  return { w: Math.floor(box.clientWidth / scale), h: Math.floor(box.clientHeight / scale) };
}

// placeLegend fills a list with what the kinds of line in the drawings mean,
// each kind once.
export function placeLegend(list, drawings) {
  if (!drawings.some(Boolean)) return; // the pictures stay as well
  const items = new Map(drawings.flatMap((d) => d?.legend ?? []).map((item) => [item.label, item]));
  keyed(list, [...items.values()], (item) => item.label, (item) => {
    const shapes = svg("g", { class: "shapes" });
    placeShapes(shapes, item.shapes ?? []);
    return el("li", {},
      svg("svg", { viewBox: `0 0 ${item.w} ${item.h}`, width: item.w, height: item.h, "aria-hidden": "true" }, shapes),
      el("span", { text: item.label }));
  });
}

// placeShapes reuses the nodes in their order: a drawing has the same marks
// from frame to frame as long as the plan has the same parts.
function placeShapes(group, shapes, labels = null) {
  shapes.forEach((shape, i) => {
    let node = group.children[i];
    if (!node || node.localName !== shape.kind) {
      const made = svg(shape.kind);
      if (node) node.replaceWith(made);
      else group.append(made);
      node = made;
    }
    const name = shape.class.split(" ")[0];
    setAttr(node, "class", shape.class);
    setAttr(node, "data-state", shape.state ? known(shape.state) : null);
    const filling = FILLED.has(name) && shape.state ? pattern(shape.state) : "";
    if (node.filling !== filling) node.style.setProperty("fill", node.filling = filling);
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
  while (group.children.length > shapes.length) group.lastChild.remove();
}

function placeHandles(group, handles) {
  keyed(group, handles, (h) => h.id, makeHandle, (node, h) => {
    setAttr(node, "transform", `translate(${h.x} ${h.y})`);
    setAttr(node, "aria-label", h.label);
    setAttr(node, "aria-valuetext", h.label);
    setAttr(node, "data-x", h.x);
    setAttr(node, "data-y", h.y);
    setAttr(node, "data-path", h.paths?.[0]);
    setAttr(node.querySelector(".handle-arrows"), "d", ARROWS[h.axes] ?? ARROWS.xy);
  });
}

function makeHandle(handle) {
  return svg("g", {
    class: "handle", role: "slider", tabindex: "0", "data-handle": handle.id,
    // The state is in aria-valuetext: a place has no single number.
    "aria-valuemin": "0", "aria-valuemax": "0", "aria-valuenow": "0", "aria-describedby": "drag-help",
  },
  svg("circle", { class: "handle-hit", r: "22" }),
  svg("circle", { class: "handle-focus", r: "18" }),
  svg("circle", { class: "handle-ring", r: "10" }),
  svg("path", { class: "handle-arrows" }));
}
