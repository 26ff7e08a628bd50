// How sure a plan is, what would make it right, and where a point may stand: worked out
// beside the page once the plan is at rest.

import { apart, aside } from "./aside.js";
import { byId, el, keyed, setAttr, setNote, setText, show } from "./dom.js";
import { boxOf, makePicture } from "./drawing.js";
import { gearPieces } from "./inventory.js";
import { makeMark, setMark } from "./marks.js";
import { say } from "./say.js";
import { ask, asked, sampled, state, takeChanges } from "./state.js";
import { placeFacts } from "./tables.js";

// Draws in all, go by go: the first answer comes at once. On the page's own thread
// each go is short.
const ALL = 2000;
const GOES = [64, 500, 1000, ALL];
const OWN_GOES = Array.from({ length: 32 }, (_, i) => 64 + i * 62.5 | 0).concat(ALL);
const REST = 400; // ms without another plan
const NEAR = 16; // px of the drawing between a tap and a place

/** @typedef {import("./intake.js").Plan} Plan */
/** @typedef {"sure" | "right" | "stand"} Call */

/** @type {Plan | null} */
let plan = null; // the one worked on
let key = ""; // the settings it is said in
let timer = 0;
/** @type {(path: string) => void} */
let reveal = () => {};
/** @type {judgement.Cell[]} */
let cells = [];
/** @typedef {"point" | "side" | "reach"} Choice */
const CHOICES = /** @type {const} */ (["point", "side", "reach"]);
/** @type {Record<Choice, string>} */
const chosen = { point: "", side: "", reach: "" };

const picture = makePicture(byId("figure-stand"), say("Where it may stand"));
const stand = byId("stand", HTMLDetailsElement);
const choice = (/** @type {Choice} */ what) => byId(`stand-${what}`, HTMLSelectElement);
const mark = makeMark("unknown");

/** @param {(path: string) => void} revealField */
export function startJudgement(revealField) {
  reveal = revealField;
  byId("sure-mark").append(mark);
  byId("sure-measure").addEventListener("click", () => reveal(byId("sure-measure").dataset.path ?? ""));
  for (const what of CHOICES) {
    const select = choice(what);
    select.addEventListener("change", () => {
      chosen[what] = select.value;
      map();
    });
  }
  stand.addEventListener("toggle", () => {
    if (stand.open) map();
  });
  picture.box.addEventListener("click", tapped);
}

// showJudgement follows the plan that a view shows.
/** @param {{ plan: Plan, stale: boolean, light: boolean }} shown */
export function showJudgement({ plan: now, stale, light }) {
  const settings = JSON.stringify(asked());
  if (light || (now === plan && settings === key)) return;
  plan = now;
  key = settings;
  clearTimeout(timer);
  setAttr(byId("judgement"), "data-old", "true");
  show(byId("judgement"), !stale);
  timer = setTimeout(() => run(now, settings), REST);
}

const current = (/** @type {Plan | null} */ now, /** @type {string} */ settings) => now === plan && settings === key;

/** @template {Call} C @param {C} call @param {judgement.asked} more */
function beside(call, more) {
  const request = { plan, settings: asked(), ...more };
  return aside(call, request, () => ask(call, request));
}

/** @param {Plan} now @param {string} settings */
async function run(now, settings) {
  let answer = null;
  for (const draws of apart() ? GOES : OWN_GOES) {
    answer = await beside("sure", { draws });
    if (!current(now, settings)) return;
    placeSure(answer, draws);
    if (!answer?.draws) break; // nothing more can come
  }
  const right = await beside("right", { pieces: await gearPieces().catch(() => []), sampled: answer?.verdict });
  if (!current(now, settings)) return;
  placeRight(right);
  setAttr(byId("judgement"), "data-old", null);
  if (stand.open) map();
}

/** @param {ReturnType<Calls["sure"]> | null} answer @param {number} draws */
function placeSure(answer, draws) {
  setMark(mark, answer?.verdict ?? "unknown");
  setText(byId("sure-word"), answer?.word ?? "");
  setNote(byId("sure-message"), answer?.message);
  placeFacts(byId("sure-facts"), answer?.facts ?? []);
  setNote(byId("sure-measure"), answer?.measure);
  setAttr(byId("sure-measure"), "data-path", answer?.path);
  placeList(byId("sure-rows"), answer?.rows);
  placeList(byId("sure-doubts"), answer?.doubts);
  setNote(byId("sure-basis"), answer?.basis);
  setAttr(byId("sure"), "data-draws", answer?.draws ?? 0);
  if (plan && (draws === ALL || !answer?.draws)) sampled(plan, answer?.verdict ?? "unknown", answer?.hold_kN ?? 0);
}

/** @param {HTMLElement} list @param {parts.Note[]} [notes] */
function placeList(list, notes = []) {
  show(list, notes.length > 0);
  keyed(list, notes, (note) => note.message, ({ path, state: verdict }) => {
    const parts = {
      mark: verdict ? makeMark(verdict) : null,
      text: path ? el("button", { type: "button", class: "link", on: { click: () => reveal(path) } }) : el("span", {}),
    };
    return Object.assign(el("li", {}, parts.mark, parts.text), { parts });
  }, (node, note) => {
    setText(node.parts.text, note.message);
    if (note.state && node.parts.mark) setMark(node.parts.mark, note.state);
  });
}

/** @param {ReturnType<Calls["right"]> | null} answer */
function placeRight(answer) {
  setNote(byId("right-message"), answer?.message);
  placeItems(byId("right-list"), answer?.items ?? [], say("Apply"));
}

// placeItems lists changes, each with a button that makes it: one undo step.
/** @param {HTMLElement} list @param {judgement.Item[]} items @param {string} word */
function placeItems(list, items, word) {
  show(list, items.length > 0);
  list.replaceChildren(...items.map((item) => {
    const button = el("button", { type: "button", text: word, "aria-label": `${word}: ${item.message}`, on: { click: () => takeChanges(item.changes) } });
    return el("li", {}, el("p", { class: "item-message", text: item.message }), item.before ? el("p", { text: item.before }) : null, el("p", { text: item.after }),
      item.changes.length ? button : el("p", { class: "quiet", text: item.note }));
  }));
}

// map works the places out, a coarse map first.
async function map() {
  const now = plan;
  const settings = key;
  const asks = JSON.stringify(chosen);
  show(byId("figure-stand"), chosen.point !== ""); // measured below
  for (const coarse of [true, false]) {
    const answer = await beside("stand", { point: chosen.point, side: chosen.side, reach: Number(chosen.reach), coarse, box: boxOf(picture.box) });
    if (!current(now, settings) || asks !== JSON.stringify(chosen) || !stand.open || !answer?.points) return;
    placeChoices("point", [{ value: "", label: say("Choose a point") }, ...answer.points]);
    placeChoices("side", answer.sides);
    placeChoices("reach", answer.reaches);
    cells = answer.cells ?? [];
    setNote(byId("stand-message"), answer.message);
    show(byId("figure-stand"), Boolean(answer.map));
    picture.update(answer.map ?? null, false);
    placeItems(byId("stand-places"), answer.places ?? [], say("Move it there"));
    byId("stand-words").replaceChildren(...(answer.words ?? []).map((text) => el("li", { text })));
    if (!answer.map) return;
    setAttr(stand, "data-map", coarse ? "coarse" : "fine");
  }
}

/** @param {Choice} what @param {parts.Option[]} options */
function placeChoices(what, options) {
  const select = choice(what);
  if (!options.some((o) => o.value === chosen[what])) chosen[what] = "";
  const old = [...select.options].map((o) => o.text).join();
  if (old !== options.map((o) => o.label).join()) select.replaceChildren(...options.map((o) => el("option", { value: o.value, text: o.label })));
  select.value = chosen[what];
}

// tapped moves the point to the place that is tapped, or says why it cannot stand there.
/** @param {MouseEvent} event */
function tapped(event) {
  const matrix = picture.box.querySelector("svg")?.getScreenCTM();
  if (!matrix) return;
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  let best = null;
  let least = NEAR * NEAR;
  for (const cell of cells) {
    const off = (cell.x - at.x) ** 2 + (cell.y - at.y) ** 2;
    if (off < least) [best, least] = [cell, off];
  }
  setNote(byId("stand-said"), best?.label);
  if (best?.changes) takeChanges(best.changes);
}
