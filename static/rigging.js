// The calculator: loads the Go program and hands out its calls. This is the
// only module that knows WebAssembly. It works in a page, in the single-file
// page (where the program is inlined) and in Node.
//
// Scripts of other pages may use load, demo, version, evaluate, vary, sample, places and changes:
// those stay as they are described here. The calculator's other calls belong to the page
// and change with it. The types are in rigging.d.ts beside this file, and as
// JSON Schema in plan.schema.json and report.schema.json; all three are made
// from the program's own code.

// A plan is what is asked, with every number in the unit its name ends in; a report
// is what comes of it, with null for a number that could not be computed.

import "./wasm_exec.js";

/** @typedef {plan.Calculator & Calls} Calculator with the calls of the page */

/** @type {Promise<Calculator> | null} */
let loading = null;

/**
 * Loads the program and gives a promise of the calculator. Every call gives
 * the same one; after a failure the next call tries again. The calculator's
 * evaluate(plan) never throws: what is wrong is in the report's problems, and
 * the verdict is then "unknown", or "over" where that is certain all the same.
 * Only "within" says that every piece is within its limit as computed; what it
 * leaves out, and who decides, is in the report's cautions. How each number came
 * about is in the report's working with evaluate(plan, { working: true }). For
 * thousands of plans that differ in a few values there is vary(request); how sure
 * the numbers are, sample(plan) promises to say, and where a point may stand,
 * places(plan, { point, bearings_deg, distances_m }), and what would make a plan
 * right, changes(plan).
 *
 * @returns {Promise<Calculator>}
 *
 * @example <caption>The invented example, and its most heavily loaded piece</caption>
 * import { load, demo } from "./rigging.js";
 * const calculator = await load();
 * const report = calculator.evaluate(await demo());
 * console.log(report.verdict, report.governing, report.governing_use.toFixed(2));
 * // prints: within pull/puller 0.69
 *
 * @example <caption>The same with more lean: what the pull and the anchor get to carry</caption>
 * import { load, demo } from "./rigging.js";
 * const calculator = await load();
 * const plan = await demo();
 * for (const lean of [2, 4, 6]) {
 *   plan.tree.lean_deg = lean;
 *   const { verdict, pull } = calculator.evaluate(plan);
 *   console.log(lean, pull.peak_kN.toFixed(1), verdict);
 * }
 * // prints: 2 7.9 within 4 10.8 within 6 13.8 near
 *
 * @example <caption>Many plans in one call: the puller's use by lean and place of the redirect</caption>
 * import { load, demo } from "./rigging.js";
 * const { rows } = (await load()).vary({
 *   plan: await demo(),
 *   paths: ["tree.lean_deg", "points[0].distance_m"],
 *   values: [[2, 40], [4, 40], [6, 50]],
 *   want: ["verdict", "gear[pull/puller].use"],
 * });
 * console.log(rows.map(([verdict, use]) => `${verdict} ${use.toFixed(2)}`).join(", "));
 * // prints: within 0.51, within 0.69, near 0.86
 *
 * @example <caption>A plan of one's own, with nothing said of what holds</caption>
 * import { load } from "./rigging.js";
 * const plan = {
 *   version: 1,
 *   tree: { species: "unknown_conifer", height_m: 24, diameter_cm: 50, lean_deg: 3, lean_bearing_deg: 180 },
 *   points: [{ id: "A", bearing_deg: 0, distance_m: 40 }],
 *   lines: [{ id: "pull", path: [{ stem_m: 10 }, { point: "A" }], puller: { rated_kN: 20 } }],
 * };
 * const { verdict, problems, assumed } = (await load()).evaluate(plan);
 * console.log(verdict, problems.map((problem) => problem.path).join(" "), assumed.length > 0);
 * // prints: unknown points[0].anchor lines[0] lines[0].path[0] lines[0].path[1] lines[0].puller.limited_by true
 */
export function load() {
  if (!loading) {
    loading = start();
    loading.catch(() => { loading = null; });
  }
  return loading;
}

/**
 * Gives a promise of the example plan, which is invented.
 *
 * @returns {Promise<plan.Plan>}
 */
export async function demo() {
  const inlined = element("demo-plan");
  if (inlined) return JSON.parse(inlined.textContent ?? "");
  return (await beside("demo.json")).json();
}

/**
 * The version of the page this stands in, "" outside a built one.
 *
 * @returns {string}
 */
export function version() {
  return globalThis.document?.querySelector('meta[name="version"]')?.getAttribute("content") ?? "";
}

/** @returns {Promise<Calculator>} */
async function start() {
  const go = new globalThis.Go();
  // A call leaves a few hundred kilobytes behind and a drag makes sixty of
  // them a second: collecting less often keeps the frames even.
  go.env = { ...go.env, GOGC: "400" };
  const instance = await instantiated(go.importObject).catch((err) => {
    throw new Error(`The program of the calculation, rigging.wasm.gz, is not whole or does not run here: ${err.message}`);
  });
  const ended = go.run(instance); // runs until the program waits for calls
  const bridge = globalThis.pullline;
  if (typeof bridge !== "function") throw new Error("The calculator did not start");

  let fatal = "";
  /** @type {((why: string) => void) | null} */
  let hook = null;
  function tell() {
    try {
      hook?.(fatal);
    } catch (err) {
      console.error(err);
    }
  }
  function stop(/** @type {string} */ why) {
    if (fatal) return;
    fatal = why;
    tell();
  }
  const stopped = () => stop("The calculator has stopped and gives no results. Load the page again.");
  ended.then(stopped, stopped);

  // ask never throws: what cannot be written, run or read is a problem.
  function ask(/** @type {string} */ call, /** @type {unknown} */ input) {
    if (fatal) return trouble(fatal);
    const text = write(input);
    if (!text) return trouble("What was given cannot be written as JSON: it is nothing, a loop, or a part of it throws.");
    let output;
    try {
      output = bridge?.(call, text);
    } catch {
      output = undefined;
    }
    if (typeof output !== "string") { // the program ended under the call
      stopped();
      return trouble(fatal);
    }
    try {
      return JSON.parse(output);
    } catch {
      return trouble("The calculator gave an answer that cannot be read");
    }
  }

  return {
    evaluate: (plan, options) => ask(options?.working ? "working" : "evaluate", plan),
    vary: (request) => ({ rows: [], ...ask("vary", request) }),
    sample: async (plan, options) => ask("sample", { ...options, plan }),
    places: async (plan, options) => ask("places", { ...options, plan }),
    changes: async (plan, options) => ask("changes", { ...options, plan }),
    view: (request) => withLists(ask("view", request)),
    sure: (request) => ask("sure", request),
    right: (request) => ask("right", request),
    stand: (request) => ask("stand", request),
    edit: (request) => ask("edit", request),
    act: (request) => ask("act", request),
    drag: (request) => ask("drag", request),
    inventory: (request) => ask("inventory", request),
    measure: (request) => ask("measure", request),
    bench: (request) => ask("bench", request),
    model: (request) => ask("model", request),
    practice: (request) => ask("practice", request),
    fall: (request) => ask("fall", request),
    compare: (request) => ask("compare", request),
    handover: (request) => ask("handover", request),
    pulls: (request) => ask("pulls", request),
    // onfatal is called once with a sentence when the program has ended, at
    // once if it had ended before.
    get onfatal() { return hook; },
    set onfatal(called) {
      hook = called;
      if (fatal) tell();
    },
  };
}

// instantiated takes the program that start.js has asked for and had compiled
// before this script came, or else does both itself.
/** @param {WebAssembly.Imports} imports */
async function instantiated(imports) {
  const early = globalThis.pulllineProgram;
  delete globalThis.pulllineProgram; // one time only
  const module = await early;
  if (module) return WebAssembly.instantiate(module, imports);
  const response = await program();
  const { instance } = WebAssembly.instantiateStreaming
    ? await WebAssembly.instantiateStreaming(response, imports)
    : await WebAssembly.instantiate(await response.arrayBuffer(), imports);
  return instance;
}

// withLists puts the lists and helps that a view gives once where its form
// has them.
/** @param {ReturnType<Calls["view"]>} view */
function withLists(view) {
  const { lists = [], helps = [] } = view;
  const fill = (/** @type {parts.Section} */ section) => {
    for (const field of section.fields ?? []) {
      if (field.options_of) field.options = lists[field.options_of - 1];
      if (field.suggest_of) field.suggest = lists[field.suggest_of - 1];
      if (field.help_of) field.help = helps[field.help_of - 1];
    }
    section.sections?.forEach(fill);
  };
  view.form?.forEach(fill);
  return view;
}

// write gives the JSON text of a value, or "" when it has none. JSON would
// turn a number that is not finite into null and drop a function, as if they
// had been left out; they become texts, so that Go reports them.
/** @param {unknown} value */
function write(value) {
  try {
    return JSON.stringify(value, (_, v) => {
      if (v instanceof Number) v = v.valueOf();
      if (typeof v === "number" && !Number.isFinite(v)) return String(v);
      if (typeof v === "bigint" || typeof v === "function" || typeof v === "symbol") return `${typeof v} ${String(v)}`;
      return v;
    }) ?? "";
  } catch {
    return "";
  }
}

/** @param {string} message @returns {Trouble} */
function trouble(message) {
  return { version: 1, verdict: "unknown", at_most_verdict: "unknown", why: [], problems: [{ path: "", message }] };
}

// program gives the inflated Go program as a response of the right type.
async function program() {
  const inlined = element("rigging-wasm");
  const bytes = inlined
    ? Uint8Array.from(atob((inlined.textContent ?? "").trim()), (c) => c.charCodeAt(0))
    : new Uint8Array(await (await beside("rigging.wasm.gz")).arrayBuffer());
  // Some hosts declare .gz files as compressed transfer; then the browser has
  // inflated it already.
  const packed = bytes[0] === 0x1f && bytes[1] === 0x8b;
  const stream = new Blob([bytes]).stream();
  const inflated = packed ? stream.pipeThrough(new DecompressionStream("gzip")) : stream;
  return new Response(inflated, { headers: { "Content-Type": "application/wasm" } });
}

// beside gives the response for a file next to this module.
/** @param {string} name */
async function beside(name) {
  const url = new URL(name, import.meta.url);
  const files = url.protocol === "file:" ? globalThis.process?.getBuiltinModule?.("node:fs") : null;
  if (files) return new Response(files.readFileSync(url)); // Node does not fetch files
  const fail = (/** @type {string} */ why) => {
    throw Object.assign(new Error(`${name}: ${why}`), { file: name });
  };
  const response = await fetch(url).catch((err) => fail(err.message));
  return response.ok ? response : fail(`${response.status} ${response.statusText}`);
}

/** @param {string} id */
function element(id) {
  return globalThis.document?.getElementById(id) ?? null;
}
