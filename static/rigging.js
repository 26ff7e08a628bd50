// The calculator: loads the Go program and hands out its calls.
//
//   import { load } from "./rigging.js";
//   const calculator = await load();
//   const report = calculator.evaluate(plan);
//
// This is the only module that knows WebAssembly. It works in a page, in the
// single-file page (where the program is inlined) and in Node.

import "./wasm_exec.js";

let loading = null;

// load gives a promise of the calculator. Every call of load gives the same
// one; after a failure the next call tries again.
export function load() {
  if (!loading) {
    loading = start();
    loading.catch(() => { loading = null; });
  }
  return loading;
}

// demo gives a promise of the demonstration plan.
export async function demo() {
  const inlined = element("demo-plan");
  if (inlined) return JSON.parse(inlined.textContent);
  return (await beside("demo.json")).json();
}

// version is the version of the page, or "" outside a built one.
export function version() {
  return globalThis.document?.querySelector('meta[name="version"]')?.content ?? "";
}

async function start() {
  const go = new globalThis.Go();
  const { instance } = WebAssembly.instantiateStreaming
    ? await WebAssembly.instantiateStreaming(await program(), go.importObject)
    : await WebAssembly.instantiate(await (await program()).arrayBuffer(), go.importObject);
  const ended = go.run(instance); // runs until the program waits for calls
  const bridge = globalThis.pullline;
  if (typeof bridge !== "function") throw new Error("The calculator did not start");

  let fatal = "";
  let hook = null;
  function tell() {
    try {
      hook?.(fatal);
    } catch (err) {
      console.error(err);
    }
  }
  function stop(why) {
    if (fatal) return;
    fatal = why;
    tell();
  }
  const stopped = () => stop("The calculator has stopped and gives no results. Load the page again.");
  ended.then(stopped, stopped);

  // ask never throws: what cannot be written, run or read is a problem.
  function ask(call, input) {
    if (fatal) return trouble(fatal);
    let output;
    try {
      output = bridge(call, write(input));
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
    evaluate: (plan) => ask("evaluate", plan),
    view: (request) => withLists(ask("view", request)),
    edit: (request) => ask("edit", request),
    act: (request) => ask("act", request),
    drag: (request) => ask("drag", request),
    inventory: (request) => ask("inventory", request),
    measure: (request) => ask("measure", request),
    bench: (request) => ask("bench", request),
    practice: (request) => ask("practice", request),
    fall: (request) => ask("fall", request),
    // onfatal is called once with a sentence when the program has ended, at
    // once if it had ended before.
    get onfatal() { return hook; },
    set onfatal(called) {
      hook = called;
      if (fatal) tell();
    },
  };
}

// withLists puts the lists and helps that a view gives once where its form
// has them.
function withLists(view) {
  const { lists = [], helps = [] } = view;
  const fill = (section) => {
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

function trouble(message) {
  return { version: 1, verdict: "unknown", stall_verdict: "unknown", problems: [{ path: "", message }] };
}

// program gives the inflated Go program as a response of the right type.
async function program() {
  const inlined = element("rigging-wasm");
  const bytes = inlined
    ? Uint8Array.from(atob(inlined.textContent.trim()), (c) => c.charCodeAt(0))
    : new Uint8Array(await (await beside("rigging.wasm.gz")).arrayBuffer());
  // Some hosts declare .gz files as compressed transfer; then the browser has
  // inflated it already.
  const packed = bytes[0] === 0x1f && bytes[1] === 0x8b;
  const stream = new Blob([bytes]).stream();
  const inflated = packed ? stream.pipeThrough(new DecompressionStream("gzip")) : stream;
  return new Response(inflated, { headers: { "Content-Type": "application/wasm" } });
}

// beside gives the response for a file next to this module.
async function beside(name) {
  const url = new URL(name, import.meta.url);
  if (url.protocol === "file:" && globalThis.process?.getBuiltinModule) { // Node does not fetch files
    return new Response(process.getBuiltinModule("node:fs").readFileSync(url));
  }
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${name}: ${response.status} ${response.statusText}`);
  return response;
}

function element(id) {
  return globalThis.document?.getElementById(id) ?? null;
}
