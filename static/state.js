// The one state of the page. Events change it; it asks the calculator for a
// view, at most once a frame; the views draw what they are given.

import { applyChanges } from "./changes.js";
import { say } from "./say.js";

/** @typedef {import("./intake.js").Plan} Plan */
/** @typedef {"own" | "example"} Origin "example" while the invented example is as it came */
/** @typedef {{ plan: Plan, origin: Origin }} Step to undo, or to do again */
/** @typedef {{ past: Step[], future: Step[] }} Steps */
/** @typedef {"units" | "words" | "language" | "way" | "theme" | "size" | "guess" | "handles" | "readonly"} Setting */
/** @typedef {typeof state & { view: page.View }} Viewed the state with a view */

const EMPTY = { version: 1 };
const UNDO_STEPS = 200;
const REST = 120; // ms without a change until the form and the working follow
export const DRAWINGS = /** @type {const} */ (["side", "plan", "curve"]);

export const state = {
  plan: /** @type {Plan} */ (EMPTY),
  origin: /** @type {Origin} */ ("own"),
  settings: /** @type {Record<Setting, string>} */ ({ units: "", words: "", language: "", way: "auto", theme: "light", size: "ordinary", guess: "off", handles: "on", readonly: "off" }), // "": as the calculator takes it
  boxes: /** @type {Record<typeof DRAWINGS[number], draw.Box>} */ ({ side: { w: 0, h: 0 }, plan: { w: 0, h: 0 }, curve: { w: 0, h: 0 } }),
  view: /** @type {page.View | null} */ (null), // what the calculator last answered
  shown: /** @type {page.View | null} */ (null), // the last view that could be worked out, or the only one there is
  stale: false, // shown is not what the plan says now
  letters: false, // the drawings name what they measure by the letters of the formulas
  light: false, // the view has verdict, drawings and loads only; form and working are those before
};

/** @type {(plan.Calculator & Calls) | null} */
let calculator = null;
let waiting = 0;
let resting = 0;
let whole = false; // the next view is to be a whole one
/** @type {{ base: Plan, origin: Origin, handle: string, x: number, y: number, moved: boolean, done: boolean } | null} */
let drag = null;
let group = ""; // edits of one kind make one undo step
/** @type {Step[]} */
const past = [];
/** @type {Step[]} */
const future = [];
/** @type {((state: Viewed) => void)[]} */
const views = [];
/** @type {(() => void)[]} */
const keepers = [];
let report = (/** @type {string} */ _message) => {};

// start takes the calculator and a function that shows a message.
/** @param {plan.Calculator & Calls} calc @param {(message: string) => void} message */
export function start(calc, message) {
  calculator = calc;
  report = message;
}

// stop ends all calculating: the calculator has failed.
export function stop() {
  calculator = null;
}

/** @param {(state: Viewed) => void} listener */
export function onView(listener) {
  views.push(listener);
}

// onPlan calls a listener whenever there is another plan to keep.
/** @param {() => void} listener */
export function onPlan(listener) {
  keepers.push(listener);
}

export function canUndo() {
  return past.length > 0;
}

export function canRedo() {
  return future.length > 0;
}

// refresh asks for a new view with the next frame. While things are moving
// or being typed a light one is enough; the whole one follows at rest.
export function refresh(light = false) {
  if (!calculator) return;
  whole = whole || !light;
  if (waiting) return;
  waiting = requestAnimationFrame(() => {
    waiting = 0;
    compute(!whole && state.view !== null);
  });
}

// computeNow gives the whole view at once.
export function computeNow() {
  if (waiting) cancelAnimationFrame(waiting);
  waiting = 0;
  compute(false);
}

// computeLight gives verdict, drawings and loads at once; the whole view is to
// follow.
export function computeLight() {
  compute(true);
}

/** @param {boolean} light */
function compute(light) {
  whole = false;
  clearTimeout(resting);
  if (drag?.moved) dragStep(drag);
  const answer = calculator?.view(request({ light }));
  if (!answer || !calculator) return; // it has ended, perhaps under the call
  state.light = light;
  if (answer.headline) {
    const view = light && state.view ? { ...answer, form: state.view.form, working: state.view.working, taken: state.view.taken, standing: state.view.standing } : answer;
    state.view = view;
    if (view.fresh || !state.shown) state.shown = view;
    state.stale = !view.fresh && state.shown !== view;
  } else {
    state.view = failed(answer);
    state.stale = state.shown !== null;
  }
  for (const listener of views) listener(/** @type {Viewed} */ (state));
  if (light) resting = setTimeout(() => refresh(), REST);
}

// failed stands in for a view that did not come: unknown, and why.
/** @param {Trouble} answer @returns {page.View} */
function failed(answer) {
  const problems = answer.problems.length ? answer.problems : [{ path: "", message: say("The calculator gave no result.") }];
  const { view } = state;
  return {
    headline: noVerdict(problems[0].message), problems,
    form: view?.form ?? [], cautions: view?.cautions ?? [], standing: view?.standing ?? [], name: view?.name ?? "",
    units: view?.units ?? [], units_now: view?.units_now ?? "", words: view?.words ?? [], words_now: view?.words_now ?? "",
    facts: [], pieces: [], assumed: [], working: [], taken: [], steps: [], fresh: false,
  };
}

// noVerdict is the headline where nothing is computed.
/** @param {string} sentence @returns {show.Headline} */
export function noVerdict(sentence) {
  return { verdict: "unknown", word: say("Not known"), sentence, governing: "", use: "", at_most: "unknown", at_most_text: "", why: [] };
}

/** @template M @param {M} more */
function request(more) {
  return { plan: state.plan, settings: asked(), boxes: state.boxes, letters: state.letters, ...(doubt.plan === state.plan ? doubt.said : {}), ...more };
}

/** @type {{ plan: Plan | null, said: { sampled?: string, safe_hold_kN?: number } }} */
let doubt = { plan: null, said: {} };

// sampled takes the verdict on a plan with what is not known exactly counted in, and the
// number to hold the puller to that is safe then, 0 where there is none.
/** @param {Plan} plan @param {string} verdict @param {number} hold */
export function sampled(plan, verdict, hold) {
  doubt = { plan, said: { sampled: verdict, safe_hold_kN: hold } };
  refresh();
}

// lettered gives the drawings of the plan with the letters of the formulas.
/** @param {scene.Boxes} boxes */
export function lettered(boxes) {
  return calculator ? calculator.view(request({ boxes, light: true, letters: true })) : null;
}

// viewFor gives a view of the same plan for boxes of another size.
/** @param {scene.Boxes} boxes */
export function viewFor(boxes) {
  return calculator ? calculator.view(request({ boxes, letters: false })) : null;
}

// look gives the view of another plan, without drawings and form. Of the form
// there are the words for the tree only, in tree; null without a calculator.
/** @param {Plan} plan */
export function look(plan) {
  if (!calculator) return null;
  const view = calculator.view(request({ plan, boxes: {}, light: true }));
  const tree = { version: plan.version, tree: plan.tree };
  const small = plan.tree && JSON.stringify(tree).length < 4000;
  return { ...(view.headline ? view : failed(view)), tree: small ? treeWords(calculator.view(request({ plan: tree, boxes: {} }))) : "" };
}

// treeWords are the form's words for the tree.
/** @param {{ form?: parts.Section[] }} view */
export function treeWords(view) {
  return view.form?.find((section) => section.id === "tree")?.summary ?? "";
}

/** @param {Plan} plan @param {Origin} origin @param {boolean} [light] */
function put(plan, origin, light) {
  state.plan = plan;
  state.origin = origin;
  for (const listener of keepers) listener();
  refresh(light);
}

/** @param {string} kind */
function remember(kind) {
  if (!kind || kind !== group) {
    past.push({ plan: state.plan, origin: state.origin });
    if (past.length > UNDO_STEPS) past.shift();
  }
  group = kind;
  future.length = 0;
}

// endGroup makes the next edit an undo step of its own.
export function endGroup() {
  group = "";
}

// openPlan puts another plan in place of this one with the undo steps that
// belong to it, and gives the steps that belong to the one before.
/** @param {Plan} plan @param {Origin} origin @param {Steps} [steps] */
export function openPlan(plan, origin, steps) {
  dragEnd(true);
  const before = { past: past.splice(0), future: future.splice(0) };
  past.push(...(steps?.past ?? []));
  future.push(...(steps?.future ?? []));
  group = "";
  state.shown = null;
  put(plan, origin);
  return before;
}

// begin sets the first plan: there is nothing before it to go back to.
/** @param {Plan} plan @param {Origin} origin */
export function begin(plan, origin) {
  state.plan = plan;
  state.origin = origin;
}

// A new plan is for today until it says otherwise.
/** @returns {Plan} */
export function emptyPlan() {
  return { ...structuredClone(EMPTY), pull_date: today() };
}

// today is the day on this device, as a plan writes it.
export function today() {
  const now = new Date();
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

// newPlan is a plan laid out to be filled in.
export function newPlan() {
  const plan = emptyPlan();
  try {
    return applyChanges(plan, calculator?.act({ plan, settings: asked(), do: "start" }).changes ?? []);
  } catch {
    return plan;
  }
}

// nextStem gives { plan, message }: a plan for the next stem of a plan's tree
// and what is to be said of it, without a plan where there can be none. Taken
// are the numbers of the stems that have one.
/** @param {Plan} plan @param {number[]} taken */
export function nextStem(plan, taken) {
  const answer = calculator?.act({ plan, settings: asked(), do: "next-stem", text: taken.join(" ") });
  const message = answer?.message || answer?.problems?.[0]?.message || say("The calculator gave no result.");
  return answer?.changes?.length ? { plan: applyChanges(plan, answer.changes), message } : { plan: null, message };
}

// asked are the settings that the calculator is told.
export function asked() {
  const { units, words, language } = state.settings;
  return { units, words, language };
}

/** @param {Step[]} from @param {Step[]} to */
function go(from, to) {
  const step = state.settings.readonly === "on" ? null : from.pop();
  if (!step) return;
  to.push({ plan: state.plan, origin: state.origin });
  group = "";
  put(step.plan, step.origin);
}

export function undo() {
  go(past, future);
}

export function redo() {
  go(future, past);
}

// take applies an answer of changes; it gives what to show next, or null.
/**
 * @param {{ changes?: parts.Change[], focus?: string, message?: string, problems?: { message: string }[] }} answer
 * @param {string} kind
 * @param {boolean} [light]
 */
function take(answer, kind, light) {
  if (state.settings.readonly === "on") return null;
  const trouble = answer.message || (!answer.changes && answer.problems?.[0]?.message);
  if (answer.changes?.length) {
    let plan;
    try {
      plan = applyChanges(state.plan, answer.changes);
    } catch (err) {
      console.error(err);
      report(say("Nothing was changed: the change does not fit the plan."));
      return null;
    }
    remember(kind);
    put(plan, "own", light);
  }
  if (trouble) report(trouble); // after the plan: what was said of the one before goes
  return answer.focus ?? null;
}

// ask puts a question of a class view to the calculator; null without one.
// The settings go with it.
/**
 * @template {"bench" | "fall" | "handover" | "model" | "practice" | "right" | "stand" | "sure"} C
 * @param {C} call
 * @param {Parameters<Calls[C]>[0]} more
 */
export function ask(call, more) {
  if (!calculator) return null;
  const put = /** @type {(request: object) => unknown} */ (calculator[call]);
  return /** @type {ReturnType<Calls[C]>} */ (put({ settings: asked(), ...more }));
}

// askMeasure asks for a measurement of a field of the plan.
/** @param {survey.asked} more */
export function askMeasure(more) {
  return calculator ? calculator.measure(request(more)) : null;
}

// takeMeasured puts a measurement's changes into the plan.
/** @param {survey.View} answer */
export function takeMeasured(answer) {
  group = "";
  take(answer, "");
}

// askInventory asks about the gear list; the plan goes with the question.
/** @param {gear.asked} more */
export function askInventory(more) {
  return calculator ? calculator.inventory(request(more)) : null;
}

// askPulls compares the measured pulls of plans; the plan in work goes with them.
/** @param {Plan[]} plans */
export function askPulls(plans) {
  return calculator ? calculator.pulls(request({ plans })) : null;
}

// goBackTo puts an earlier state of this plan in its place, as a step to undo.
/** @param {Plan} plan */
export function goBackTo(plan) {
  if (state.settings.readonly === "on") return;
  group = "";
  remember("");
  put(plan, "own");
}

// takeRig takes over the lines, points and gear of another plan, and says what
// has to be given anew.
/** @param {Plan} from */
export function takeRig(from) {
  if (!calculator) return;
  group = "";
  take(calculator.act(request({ do: "rig", from })), "");
}

// askCompare sets the plan in work against another setting of it.
/** @param {Plan} before */
export function askCompare(before) {
  return calculator ? calculator.compare(request({ before })) : null;
}

// takeChanges puts changes that were worked out or offered outside the form into
// the plan: one undo step.
/** @param {parts.Change[]} changes */
export function takeChanges(changes) {
  group = "";
  take({ changes }, "");
}

// edit takes the text typed into a field.
/** @param {string} path @param {string} text */
export function edit(path, text) {
  if (calculator) take(calculator.edit(request({ path, text })), `edit ${path}`, true);
}

// act does one of the form's actions and gives the path to show next.
/** @param {parts.Action} action */
export function act(action) {
  if (!calculator) return null;
  group = "";
  return take(calculator.act(request({ do: action.do, path: action.path })), "");
}

// step moves a handle by steps from the keyboard.
/** @param {string} handle @param {number} stepX @param {number} stepY @param {boolean} fine */
export function step(handle, stepX, stepY, fine) {
  if (calculator) take(calculator.drag(request({ handle, step_x: stepX, step_y: stepY, fine })), `step ${handle}`, true);
}

// A drag is worked out with the drawing as it stands. What is in view at the
// press stays in view until the release, so the scale does not change under
// the pointer; the plan it began with is kept for giving up.
/** @param {string} handle */
export function dragStart(handle) {
  if (state.settings.readonly === "on") return;
  const view = DRAWINGS.find((name) => handle.startsWith(`${name}/`));
  const frame = view && state.shown?.[view]?.frame;
  if (frame) state.boxes[view] = { ...state.boxes[view], frame };
  drag = { base: state.plan, origin: state.origin, handle, x: 0, y: 0, moved: false, done: false };
}

/** @param {number} x @param {number} y */
export function dragTo(x, y) {
  if (!drag) return;
  drag.x = x;
  drag.y = y;
  drag.moved = true;
  refresh(true);
}

/** @param {NonNullable<typeof drag>} now */
function dragStep(now) {
  now.moved = false;
  const answer = calculator?.drag(request({ handle: now.handle, x: now.x, y: now.y }));
  if (!answer?.changes?.length) return;
  let plan;
  try {
    plan = applyChanges(state.plan, answer.changes);
  } catch {
    return;
  }
  if (!now.done) {
    remember("");
    now.done = true;
  }
  state.plan = plan;
  state.origin = "own";
}

// dragEnd lets the handle go; a drag that is given up leaves no trace.
/** @param {boolean} giveUp */
export function dragEnd(giveUp) {
  if (!drag) return;
  const was = drag;
  if (was.moved && !giveUp) dragStep(was);
  drag = null;
  for (const name of DRAWINGS) {
    const { w, h } = state.boxes[name];
    state.boxes[name] = { w, h };
  }
  if (giveUp && was.done) {
    past.pop();
    put(was.base, was.origin);
  } else if (was.done) {
    put(state.plan, state.origin);
  }
}
