// The mark of a verdict: an outline and a pattern of its own for each, so
// that it can be told without colour. "Near, but only because the puller must be
// held" has one of its own.

import { setAttr, svg } from "./dom.js";

const OUTLINES = {
  within: "M16 3A13 13 0 1 1 16 29A13 13 0 1 1 16 3Z",
  near: "M16 3L30 28H2Z",
  held: "M16 1.5L30.5 16L16 30.5L1.5 16Z",
  over: "M10.5 2.5H21.5L29.5 10.5V21.5L21.5 29.5H10.5L2.5 21.5V10.5Z",
  unknown: "M4 4H28V28H4Z",
};

const SIGNS = {
  within: "M21 8.5L11.5 13.5L21 18.5M11.5 22.5H21",
  near: "M16 12V19M16 23V24",
  held: "M9.5 16H22.5M9.5 11.5V20.5M22.5 11.5V20.5",
  over: "M11 11L21 21M21 11L11 21",
  unknown: "M12 12.5A4 4 0 1 1 16 16.5V19M16 23V23.5",
};

// known gives the verdict, or unknown for anything that is none.
/** @param {string} verdict */
export function known(verdict) {
  return Object.hasOwn(OUTLINES, verdict) ? /** @type {keyof typeof OUTLINES} */ (verdict) : "unknown";
}

/** @param {string} verdict */
export function makeMark(verdict) {
  const mark = svg("svg", { class: "mark", viewBox: "0 0 32 32", "aria-hidden": "true" },
    svg("path", { class: "mark-outline" }), svg("path", { class: "mark-halo" }), svg("path", { class: "mark-sign" }));
  setMark(mark, verdict);
  return mark;
}

/** @param {Element} mark @param {string} verdict */
export function setMark(mark, verdict) {
  const v = known(verdict);
  if (mark.getAttribute("data-state") === v) return;
  setAttr(mark, "data-state", v);
  const [outline, halo, sign] = mark.children;
  setAttr(outline, "d", OUTLINES[v]);
  setAttr(outline, "fill", pattern(v));
  setAttr(halo, "d", SIGNS[v]);
  setAttr(sign, "d", SIGNS[v]);
}

// pattern is the fill of a verdict, defined in the page.
/** @param {string} verdict */
export function pattern(verdict) {
  return `url(#pattern-${known(verdict)})`;
}
