// The page's entry: puts the parts together and starts them.

import { wrong } from "./address.js";
import { showAddress } from "./addressing.js";
import { load, demo, version } from "./rigging.js";
import { byId, setAttr, setText, show, within } from "./dom.js";
import { sayMoved } from "./dragging.js";
import { boxOf, makePicture, placeLegend } from "./drawing.js";
import { savePlanFile, takeFiles } from "./files.js";
import { dressFrame, framed, startEmbedding } from "./embedding.js";
import { showFolds, startFolds, unfold } from "./folds.js";
import { makeForm } from "./form.js";
import { showWhatIf } from "./compare.js";
import { openInventory } from "./inventory.js";
import { openMeasure } from "./measure.js";
import { nameOf, reason } from "./intake.js";
import { onLost } from "./journal.js";
import { showJudgement, startJudgement } from "./judgement.js";
import { showKeys, startKeys } from "./keys.js";
import { startInstalling } from "./lasting.js";
import { announce, dismiss, notice, passing } from "./messages.js";
import { openFile, openText, showOpening, watchLinks } from "./opening.js";
import { showBrief, startPaper } from "./paper.js";
import { showPlans } from "./planlist.js";
import { leavePlan, place, startPlace } from "./place.js";
import { begun, firstPlan, newerOne, openRecord, save, startPlan, workId, workKept } from "./plans.js";
import { say, sayCount } from "./say.js";
import { showSending } from "./sending.js";
import { planFromCode } from "./share.js";
import { showChoices, startSettings } from "./settings.js";
import { showSnippet } from "./snippet.js";
import {
  DRAWINGS, act, begin, canRedo, canUndo, computeLight, computeNow, dragEnd, dragStart, dragTo, edit, emptyPlan, endGroup, newPlan, noVerdict, onPlan, onView, redo, refresh, start,
  state, step, stop, undo,
} from "./state.js";
import { beginSteps, seek, showSteps, startSteps } from "./steps.js";
import { sayOnce } from "./storage.js";
import { placeAssumed, placeCautions, placeFacts, placeNotes, placePieces, placeSteps, placeWhy, setStale } from "./tables.js";
import { keepOffline } from "./update.js";
import { showVerdict } from "./verdict.js";
import { dressViews, startViews } from "./views.js";
import { openWorking, stepName } from "./working.js";

/** @param {string} why */
function fatal(why) {
  stop();
  setText(byId("fatal-why"), why);
  show(byId("fatal"), true);
  show(byId("main"), false);
  for (const view of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".view, .class-bar"))) show(view, false);
  show(byId("menu"), false);
  show(byId("bars"), false);
  for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll(".top button"))) button.disabled = true;
  showVerdict(noVerdict(say("The calculator is not running.")), announce);
}

const form = makeForm(byId("form-sections"), byId("problems"), {
  edit,
  done: endGroup,
  seek: (section) => {
    unfold("form");
    seek(section);
  },
  measure: (path) => openMeasure(path, () => {
    computeNow();
    form.reveal(path);
  }),
  act: (action) => {
    if (action.do === "pick-gear") {
      showGear();
      return;
    }
    const focus = act(action);
    computeNow();
    if (focus) form.reveal(focus);
  },
});

function showGear() {
  openInventory(computeNow).catch((err) => notice("gear", say("The gear list could not be opened. {why}", { why: reason(err) })));
}

const numbers = { open: openWorking, name: stepName };
const moves = { reveal: form.reveal, start: dragStart, to: dragTo, end: dragEnd, step };
const pictures = {
  side: makePicture(byId("figure-side"), say("Side view"), moves, numbers),
  plan: makePicture(byId("figure-plan"), say("Plan view"), moves, numbers),
  curve: makePicture(byId("figure-curve"), say("Pull through the fall"), null, numbers),
};

/** The buttons to undo and to do again. */
const commands = () => /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll("[data-command]"));

/** @param {import("./state.js").Viewed} now */
function draw({ view, shown, stale, light, origin }) {
  showVerdict(view.headline, announce);
  setText(byId("plan-name"), view.name || say("Unnamed plan"));
  setAttr(document.body, "data-origin", origin);
  for (const name of DRAWINGS) pictures[name].update(shown?.[name], stale);
  placeLegend(byId("legend"), [shown?.side, shown?.plan]);
  sayMoved();
  setStale(stale);
  placeFacts(byId("facts"), shown?.facts ?? []);
  placePieces(byId("pieces-table"), shown?.pieces ?? [], form.reveal);
  for (const button of commands()) {
    button.disabled = button.dataset.command === "undo" ? !canUndo() : !canRedo();
  }
  if (!light) drawRest(view, shown);
  showJudgement({ plan: state.plan, stale, light });
  if (document.querySelector(".handle.held")) return; // a bar that goes would move the picture under the pointer
  if (origin !== "example") dismiss("example");
  else if (!exampleSaid) notice("example", say("Invented example, not a real job."));
  exampleSaid = origin === "example";
}

// drawRest draws what may follow when things have come to rest.
/** @param {page.View} view @param {page.View | null} shown */
function drawRest(view, shown) {
  form.update(view);
  placeAssumed(byId("assumed"), shown?.assumed ?? [], form.reveal);
  placeSteps(byId("steps"), shown?.working ?? []);
  placeCautions(byId("caution-list"), view.cautions, form.reveal);
  placeNotes(byId("standing"), view.standing);
  placeWhy(byId("why"), byId("why-list"), view.headline.why, form.reveal);
  showFolds(view, shown?.pieces ?? []);
  showSteps(view.steps);
  showBrief(view.brief);
  showChoices(view);
}
let exampleSaid = false;

// notStored is told why a plan could not be stored, notKept what of all that
// is typed could not.
/** @param {unknown} err */
function notStored(err) {
  if (framed) return; // a frame is for this visit only, and nobody expects otherwise
  if (err instanceof DOMException && err.name === "QuotaExceededError") {
    notice("loss", say("No room left on this device for the plan. Save it to a file, then empty the bin under Plans."), ...toFile);
    lossSaid.add("plan");
  } else {
    notKept("plan/");
  }
}

/** @type {[word: string, press: () => void]} */
const toFile = [say("Save to a file"), () => savePlanFile(state.plan)];
const lossSaid = new Set();

/** @param {string} id */
function notKept(id) {
  const [kind] = id.split("/");
  if (framed || lossSaid.has(kind)) return;
  lossSaid.add(kind);
  if (kind === "plan") notice("loss", say("This browser does not let the page keep the plan. Save it to a file before you leave."), ...toFile);
  else if (kind === "practice") notice("loss-practice", say("This browser does not let the page keep your answers: they are gone when you leave the page."));
  else if (kind === "readings") notice("loss-readings", say("This browser does not let the page keep readings. Add the results to the plan and save the plan to a file."));
}

// startAnother takes another plan into work and offers the way back.
/** @param {import("./intake.js").Plan} plan @param {import("./state.js").Origin} origin */
async function startAnother(plan, origin) {
  await save();
  const id = workId();
  const name = nameOf(state.plan);
  const kept = workKept();
  try {
    await startPlan(plan, origin);
  } catch (err) {
    notice("file", reason(err));
    return;
  }
  scrollTo({ top: 0 });
  if (!kept) return;
  notice("back", say("“{name}” is under Plans.", { name }), say("Back to it"), () => {
    dismiss("back");
    openRecord(id).catch((err) => notice("file", reason(err)));
  });
}

// example gives the invented example as any plan.
/** @returns {Promise<import("./intake.js").Plan>} */
async function example() {
  return { ...await demo() };
}

function openExample() {
  example().then((plan) => startAnother(plan, "example"),
    () => notice("file", say("The example could not be loaded. Nothing was changed.")));
}

function listen() {
  const menu = byId("menu");
  const menuButton = byId("menu-button");
  const toggle = (/** @type {boolean} */ open) => {
    show(menu, open);
    setAttr(menuButton, "aria-expanded", open ? "true" : "false");
  };
  menuButton.addEventListener("click", () => toggle(menu.hidden));
  document.addEventListener("click", (event) => {
    const node = event.target instanceof Node ? event.target : null;
    if (!menu.hidden && !menu.contains(node) && !menuButton.contains(node)) toggle(false);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !menu.hidden) {
      toggle(false);
      menuButton.focus();
    }
  });
  const choose = (/** @type {string} */ id, /** @type {() => void} */ run) => byId(id).addEventListener("click", () => {
    toggle(false);
    menuButton.focus({ preventScroll: true });
    run();
  });
  const chooseFile = takeFiles(openFile, openText);
  choose("plan-list", () => showPlans((added) => chooseFile(async (file) => {
    await openFile(file);
    added();
  })));
  choose("plan-new", async () => {
    await startAnother(newPlan(), "own");
    beginSteps();
  });
  choose("plan-open", () => showOpening(() => chooseFile()));
  choose("plan-save", () => savePlanFile(state.plan));
  choose("plan-compare", showWhatIf);
  choose("plan-send", () => showSending(state.plan));
  choose("plan-example", openExample);
  choose("gear-list", showGear);
  choose("plan-print", () => print());
  choose("class-open", () => {});
  choose("view-link", showAddress);
  choose("view-snippet", showSnippet);
  choose("keys-open", showKeys);

  for (const button of commands()) {
    button.addEventListener("click", button.dataset.command === "undo" ? undo : redo);
  }
  document.addEventListener("keydown", (event) => {
    if (place.view !== "job" || !(event.ctrlKey || event.metaKey) || event.altKey || within(event, "input[type=text], textarea")) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) undo();
    else if (key === "y" || key === "z") redo();
    else return;
    event.preventDefault();
  });

  onPlan(() => dismiss("answer"));
  const letters = byId("letters", HTMLInputElement);
  letters.addEventListener("change", () => {
    state.letters = letters.checked;
    refresh();
  });
}

// measure takes the sizes of the drawings and says whether one has changed.
function measure() {
  if (place.view !== "job") return false; // hidden boxes have no size
  let changed = false;
  for (const name of DRAWINGS) {
    const { w, h } = boxOf(pictures[name].box);
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

// planGiven gives the plan that the address names, as { plan, origin }, or
// null; once it is changed, the address no longer names it.
/** @param {string[]} problems @returns {Promise<import("./state.js").Step | null>} */
async function planGiven(problems) {
  if (!place.plan) return null;
  try {
    const plan = place.plan === "example" ? await example() : await planFromCode(place.plan);
    onPlan(() => {
      if (state.plan !== plan) leavePlan();
    });
    return { plan, origin: place.plan === "example" ? "example" : "own" };
  } catch (err) {
    problems.push(wrong("plan", place.plan), reason(err));
    place.plan = "";
    return null;
  }
}

// takePlan puts a plan that the page around this one gave into work: the plan
// itself, or what the address would give for it.
/** @param {string | import("./intake.js").Plan} plan */
async function takePlan(plan) {
  if (plan === "example") await startPlan(await example(), "example");
  else await startPlan(typeof plan === "string" ? await planFromCode(plan) : plan, "own");
}

// lacking tells whether something is missing that the page needs; start.js says what.
const lacking = () => document.documentElement.dataset.start === "failed";

async function run() {
  if (lacking()) return;
  dressFrame();
  if (framed) startFolds();
  const { given, problems } = startPlace();
  startSteps(form.reveal);
  startJudgement(form.reveal);
  startSettings(given);
  dressViews();
  startInstalling();
  listen();
  onLost(notKept);
  const first = planGiven(problems).then(firstPlan); // read while the program comes
  const calculator = await load(); // start.js says what keeps the page from starting
  calculator.onfatal = fatal;
  start(calculator, (text) => {
    notice("answer", text);
  });
  const kept = await first;
  if (kept) {
    begin(kept.plan, kept.origin);
  } else {
    try {
      begin(await example(), "example");
    } catch {
      begin(emptyPlan(), "own");
    }
  }
  onView(draw);
  begun({
    notStored,
    forked: (name) => notice("fork", say("This plan was also changed in another window. Both are kept; yours is now “{name}”.", { name })),
    newer: (name) => notice("fork", say("“{name}” was changed in another window. If you change it here too, your changes become a copy.", { name }), say("Show the newer one"), () => {
      dismiss("fork");
      newerOne();
    }),
  });
  if (lacking()) return; // known since: a style sheet that did not come
  watchBoxes();
  if (place.view === "job") { // what counts comes first, the form after it
    computeLight();
    document.documentElement.dataset.start ||= "shown"; // not where start.js has said that something is missing
    await frame();
    if (lacking()) return;
  }
  computeNow();
  const computes = started(calculator);
  startViews();
  startKeys();
  startEmbedding(version(), takePlan);
  if (problems.length) notice("address", problems.join(" "));
  watchLinks();
  setText(byId("version-word"), version() ? say("Version {version}", { version: version() }) : "");
  startPaper(version());
  const inlined = document.getElementById("rigging-wasm") !== null;
  show(byId("single-file"), version() !== "" && !inlined);
  if (framed || inlined) return; // the single file keeps itself
  keepOffline(await computes ? version() : "", {
    stored: (missing) => {
      if (missing.length) {
        const words = sayMissing(missing);
        setText(byId("offline-word"), words);
        notice("stored", words);
        return;
      }
      const word = say("Stored on this device: this page works without a signal.");
      setText(byId("offline-word"), word);
      dismiss("stored");
      passing("offline", word, () => sayOnce("offline"));
    },
    unstored: () => setText(byId("offline-word"), say("Not stored on this device: this page needs a signal. It tries again next time you open it.")),
    ready: (agree, failed) => notice("update",
      failed ? say("The new version did not start. This is the previous version; your plan is kept.") : say("A new version of this page is ready. Your plan is kept."),
      failed ? say("Try the new version again") : say("Load the new version"), async () => {
        await save();
        agree();
      }),
  });
}

// frame waits until what is drawn can have been seen; a page in the background
// has no frames.
function frame() {
  return new Promise((seen) => {
    requestAnimationFrame(() => setTimeout(seen));
    setTimeout(seen, UNSEEN);
  });
}
const UNSEEN = 100; // ms

/** @param {string[]} missing */
function sayMissing([file, ...more]) {
  const first = file === "./" ? "index.html" : file;
  return more.length
    ? sayCount(more.length, "Incomplete on this device: {first} and {n} other file are missing or damaged. Open this page once with a signal, or it may not open without one.",
      "Incomplete on this device: {first} and {n} other files are missing or damaged. Open this page once with a signal, or it may not open without one.", { first })
    : say("Incomplete on this device: {first} is missing or damaged. Open this page once with a signal, or it may not open without one.", { first });
}

// started lets the page be used, and says whether this version works here: it
// shows a view, and computes a verdict on the example.
/** @param {import("./rigging.js").Calculator} calculator */
async function started(calculator) {
  if (lacking()) return false;
  document.documentElement.dataset.start = "done";
  show(byId("fatal"), false);
  try {
    return Boolean(state.view?.form.length) && calculator.evaluate(await demo()).verdict !== "unknown";
  } catch {
    return false;
  }
}

run();
