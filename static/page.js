// The page's entry: puts the parts together and starts them.

import { load, demo, version } from "./rigging.js";
import { byId, setAttr, setText, show } from "./dom.js";
import { sayMoved } from "./dragging.js";
import { makePicture, placeLegend } from "./drawing.js";
import { canSend, parsePlan, planText, readPlan, savePlanFile, sendPlan, takeFiles } from "./files.js";
import { makeForm } from "./form.js";
import { ask, askText, dismiss, notice, say } from "./messages.js";
import { startPaper } from "./paper.js";
import { showUnits, startSettings } from "./settings.js";
import {
  act, begin, canRedo, canUndo, computeNow, edit, emptyPlan, endGroup, onPlan, onView, redo, refresh, replacePlan, start, state, stop, undo,
} from "./state.js";
import { loadPlan, savePlan } from "./storage.js";
import { placeAssumed, placeCautions, placeFacts, placeNotes, placePieces, placeSteps, setStale } from "./tables.js";
import { keepOffline } from "./update.js";
import { showVerdict } from "./verdict.js";

const SAVE_AFTER = 400; // ms without a change

function fatal(why) {
  stop();
  setText(byId("fatal-why"), why);
  show(byId("fatal"), true);
  show(byId("main"), false);
  show(byId("menu"), false);
  show(byId("bars"), false);
  for (const button of document.querySelectorAll(".top button")) button.disabled = true;
  showVerdict({ verdict: "unknown", word: "Not known", sentence: "The calculator is not running.", stall: "unknown", stall_text: "" }, say);
}

const form = makeForm(byId("form-sections"), byId("problems"), {
  edit,
  done: endGroup,
  act: (action) => {
    const focus = act(action);
    computeNow();
    if (focus) form.reveal(focus);
  },
});

const pictures = {
  side: makePicture(byId("figure-side"), "Side view", form.reveal),
  plan: makePicture(byId("figure-plan"), "Plan view", form.reveal),
  curve: makePicture(byId("figure-curve"), "Pull through the fall", null),
};

function draw({ view, shown, stale, light, origin }) {
  showVerdict(view.headline, say);
  setText(byId("plan-name"), view.name || "Plan without a name");
  setAttr(document.body, "data-origin", origin);
  for (const name of ["side", "plan", "curve"]) pictures[name].update(shown?.[name], stale);
  placeLegend(byId("legend"), [shown?.side, shown?.plan]);
  sayMoved();
  setStale(stale);
  placeFacts(byId("facts"), shown?.facts);
  placePieces(byId("pieces-table"), shown?.pieces, form.reveal);
  for (const button of document.querySelectorAll("[data-command]")) {
    button.disabled = button.dataset.command === "undo" ? !canUndo() : !canRedo();
  }
  if (!light) drawRest(view, shown);
  if (origin !== "example") dismiss("example");
  else if (!exampleSaid) notice("example", "Invented example, not a real job.");
  exampleSaid = origin === "example";
}

// drawRest draws what may follow when things have come to rest.
function drawRest(view, shown) {
  form.update(view);
  placeAssumed(byId("assumed"), shown?.assumed, form.reveal);
  placeSteps(byId("steps"), shown?.working);
  placeCautions(byId("caution-list"), view.cautions, form.reveal);
  placeNotes(byId("standing"), view.standing);
  showUnits(view.units);
}
let exampleSaid = false;

// Keeping the plan: soon after a change, and at once when the page goes away.
let saving = 0;
let lossSaid = false;
function keep() {
  clearTimeout(saving);
  saving = 0;
  if (savePlan(state.plan, state.origin) || lossSaid) return;
  lossSaid = true;
  notice("loss", "This browser does not let the page keep the plan. Save it to a file before leaving.");
}
function keepSoon() {
  clearTimeout(saving);
  saving = setTimeout(keep, SAVE_AFTER);
}
function keepNow() {
  if (saving) keep();
}

// replace asks before another plan takes the place of this one.
async function replace(title, plan, origin, yes) {
  const name = state.view?.name ? `“${state.view.name}”` : "The plan without a name";
  const keep = state.origin === "example" ? "" : " Save it to a file first if it is still needed.";
  if (await ask(title, `${name} goes from this page.${keep} Undo brings it back as long as the page stays open.`, yes)) {
    replacePlan(plan, origin);
    scrollTo({ top: 0 });
  }
}

async function openFile(file) {
  const plan = await readPlan(file);
  if (!plan) return;
  dismiss("file");
  await replace(`Open “${file.name}”?`, plan, "own", "Open the file");
}

async function planAsText() {
  const given = await askText("The plan as text", "Copy it to send it on, or put the text of another plan in its place.", planText(state.plan), "Open this text");
  const plan = given === null ? null : parsePlan("The text", given);
  if (plan) await replace("Open the text?", plan, "own", "Open the text");
}

function openExample() {
  demo().then((plan) => replace("Open the example?", plan, "example", "Open the example"),
    () => notice("file", "The example could not be loaded. Nothing was changed."));
}

function listen() {
  const menu = byId("menu");
  const menuButton = byId("menu-button");
  const toggle = (open) => {
    show(menu, open);
    setAttr(menuButton, "aria-expanded", open ? "true" : "false");
  };
  menuButton.addEventListener("click", () => toggle(menu.hidden));
  document.addEventListener("click", (event) => {
    if (!menu.hidden && !menu.contains(event.target) && !menuButton.contains(event.target)) toggle(false);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !menu.hidden) {
      toggle(false);
      menuButton.focus();
    }
  });
  const choose = (id, run) => byId(id).addEventListener("click", () => {
    toggle(false);
    menuButton.focus({ preventScroll: true });
    run();
  });
  const chooseFile = takeFiles(openFile);
  choose("plan-new", () => replace("Start a new plan?", emptyPlan(), "own", "Start a new plan"));
  choose("plan-open", chooseFile);
  choose("plan-save", () => savePlanFile(state.plan));
  choose("plan-share", () => sendPlan(state.plan));
  choose("plan-text", planAsText);
  choose("plan-example", openExample);
  choose("plan-print", () => print());
  show(byId("plan-share"), canSend());

  for (const button of document.querySelectorAll("[data-command]")) {
    button.addEventListener("click", button.dataset.command === "undo" ? undo : redo);
  }
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.target.matches?.("input[type=text], textarea")) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) undo();
    else if (key === "y" || key === "z") redo();
    else return;
    event.preventDefault();
  });

  onPlan(keepSoon);
  onPlan(() => dismiss("answer"));
  addEventListener("pagehide", keepNow);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") keepNow();
  });
  byId("fatal-reload").addEventListener("click", () => location.reload());
}

// Boxes of the drawings, in the drawing's own pixels: on a page whose text
// is larger the drawings are larger as well.
function measure() {
  const scale = parseFloat(getComputedStyle(document.documentElement).getPropertyValue("--picture-scale")) || 1;
  let changed = false;
  for (const [name, { box }] of Object.entries(pictures)) {
    const w = Math.floor(box.clientWidth / scale);
    const h = Math.floor(box.clientHeight / scale);
    if (state.boxes[name].w !== w || state.boxes[name].h !== h) {
      state.boxes[name] = { ...state.boxes[name], w, h };
      changed = true;
    }
  }
  return changed;
}

function watchBoxes() {
  measure();
  const observer = new ResizeObserver(() => {
    if (measure()) refresh();
  });
  for (const { box } of Object.values(pictures)) observer.observe(box);
}

async function run() {
  startSettings();
  listen();
  let calculator;
  try {
    calculator = await load();
  } catch (err) {
    console.error(err);
    fatal("The calculator could not be loaded.");
    return;
  }
  calculator.onfatal = fatal;
  start(calculator, (text) => {
    notice("answer", text);
  });
  const kept = loadPlan();
  if (kept) {
    begin(kept.plan, kept.origin);
  } else {
    try {
      begin(await demo(), "example");
    } catch {
      begin(emptyPlan(), "own");
    }
  }
  onView(draw);
  watchBoxes();
  computeNow();
  setText(byId("version-word"), version() ? `Version ${version()}` : "");
  startPaper(version());
  keepOffline({
    ready: () => setText(byId("offline-word"), "Stored on this device: this page works without a signal."),
    waiting: (agree) => notice("update", "A new version of this page is ready. The plan is kept.", "Load the new version", () => {
      keep();
      agree();
    }),
  });
}

run();
