// Measuring a field: the ways to do it, how to stand, the readings, and what
// they give. All of it comes from the calculator, which is asked again with
// every key.

import { el, keyed, setAttr, setNote, setText, show } from "./dom.js";
import { makePicture } from "./drawing.js";
import { setOptions } from "./form.js";
import { PHONE_WORDS, watchPhone } from "./incline.js";
import { isObject, nameOf } from "./intake.js";
import { keep, kept as keptBefore, keptMost } from "./journal.js";
import { announce } from "./messages.js";
import { makePhoto, noPhotos } from "./photo.js";
import { workId, workKept } from "./plans.js";
import { say } from "./say.js";
import { askMeasure, state, takeMeasured } from "./state.js";

const MOST_DRAFTS = 20; // readings typed and not used yet wait in the journal
const SPOKEN = 900; // ms without a change until the result is said aloud
let count = 0;

/** @typedef {{ [key: string]: string }} Texts by reading */

/**
 * The readings of a field: as typed, their ±, and those taken with the phone. The
 * calculator is told no texts while there are none: then it gives those of the plan.
 *
 * @typedef {object} Job
 * @property {string} method
 * @property {Texts} [texts]
 * @property {Texts} [pm]
 * @property {{ [key: string]: survey.sight }} sights
 * @property {import("./photo.js").Photo[]} photos
 */

// fromDraft gives the readings that were kept, each part only where it is one.
/** @param {unknown} kept @returns {Job} */
function fromDraft(kept) {
  const { method, texts, pm, sights, photos } = /** @type {Partial<Job>} */ (isObject(kept) ? kept : {});
  return {
    method: typeof method === "string" ? method : "",
    texts: isObject(texts) ? { ...texts } : undefined, pm: isObject(pm) ? { ...pm } : undefined, sights: isObject(sights) ? structuredClone(sights) : {},
    photos: noPhotos().map((photo, n) => {
      const { w = 0, h = 0, marks } = photos?.[n] ?? {};
      return w > 0 && h > 0 && isObject(marks) ? { ...photo, w, h, marks: structuredClone(marks) } : photo;
    }),
  };
}

// openMeasure shows the dialog for a field; used(path) is called when a result
// has gone into the plan.
/** @param {string} field @param {(path: string) => void} used */
export function openMeasure(field, used) {
  const draftOf = (/** @type {string} */ plan) => `readings/${JSON.stringify([plan, state.settings.units, field])}`;
  // A plan that is not kept yet has another id with every visit.
  const drafts = workKept() ? [draftOf(workId())] : [draftOf(workId()), draftOf(nameOf(state.plan))];
  const job = fromDraft(drafts.map(keptBefore).find(Boolean));
  const id = `measure-${++count}`;
  /** @type {survey.View | null} */
  let answer = null;
  /** @type {{ key: string, panel: HTMLElement, stop(): void } | null} */
  let phone = null;
  let speaking = 0;

  const title = el("h2", { id: `${id}-title`, tabindex: "-1", autofocus: true });
  const close = el("button", { type: "button", class: "plain measure-close", text: say("Close"), on: { click: () => leave() } });
  const method = el("select", { id: `${id}-method` });
  const figure = el("figure", { class: "measure-figure" });
  const picture = makePicture(figure, say("How to stand"), null);
  const howTo = el("p", { class: "measure-how" });
  const kept = el("p", { class: "measure-kept" });
  const readings = el("div", { class: "measure-readings" });
  const results = el("div", { class: "measure-results" });
  const message = el("p", { class: "measure-message" });
  const leftOut = el("p", { class: "measure-watch" });
  const formula = el("p", { class: "formula" });
  const working = el("ul", {});
  const source = el("p", { class: "source" });
  const photo = makePhoto(job.photos, () => {
    remember();
    ask();
  });
  const foot = el("div", { class: "measure-foot" }, message, results);
  const dialog = el("dialog", { class: "measure", "aria-labelledby": title.id },
    el("div", { class: "measure-top" }, title, close),
    el("div", { class: "measure-body" },
      el("div", { class: "measure-method" }, el("label", { for: method.id, text: say("How to measure") }), method),
      kept, figure, howTo, photo.node, readings, leftOut,
      el("details", { class: "measure-working" }, el("summary", { text: say("How it is worked out") }), formula, working, source)),
    foot);

  function request(/** @type {survey.asked} */ more = {}) {
    const box = figure.clientWidth || 320;
    return {
      field, method: job.method, texts: job.texts, plus_minus: job.pm, sights: job.sights,
      photos: job.photos.map(({ w, h, marks }) => ({ w, h, marks })), photo: photo.current,
      box: { w: Math.min(box, 640), h: Math.min(box * 0.56, 340) }, ...more,
    };
  }

  function remember() {
    const { method: by, texts, pm, sights, photos } = job;
    const now = structuredClone({ method: by, texts, pm, sights, photos: photos.map(({ w, h, marks }) => ({ w, h, marks })) });
    for (const id of drafts) keep(id, now);
    keptMost("readings/", MOST_DRAFTS);
  }

  function ask() {
    const given = askMeasure(request());
    if (!given?.methods) {
      setNote(message, given?.problems[0]?.message ?? say("The calculator gave no result."));
      return;
    }
    answer = given;
    job.method = answer.method;
    job.texts ??= {};
    job.pm ??= {};
    for (const r of answer.readings) {
      job.texts[r.key] = r.text;
      job.pm[r.key] = r.plus_minus ?? "";
    }
    draw(answer);
  }

  function draw(/** @type {survey.View} */ answer) {
    setText(title, answer.title);
    setOptions(method, answer.methods, answer.method);
    show(figure, Boolean(answer.picture));
    picture.update(answer.picture, false);
    setNote(howTo, answer.how_to);
    setNote(kept, answer.kept);
    show(photo.node, Boolean(answer.photo));
    if (answer.photo) photo.update(answer.photo);
    keyed(readings, answer.readings, (r) => `${answer.method} ${r.key}`, makeReading, updateReading);
    setNote(leftOut, answer.watch ? say("Not included in the ±: {what}", { what: answer.watch }) : "");
    setNote(formula, answer.formula);
    keyed(working, answer.working ?? [], (line) => line, (line) => el("li", { text: line }));
    setNote(source, answer.source ? say("Source: {source}", { source: answer.source }) : "");
    const wrong = answer.readings.some((r) => r.problem);
    const first = answer.results.at(0);
    // Many results stand with the readings, a picture's first one here too.
    const many = answer.photo || answer.results.length > 2;
    if (many) readings.after(results);
    else foot.append(results);
    const shown = first && answer.photo ? `${first.label}: ${first.text} ${first.plus_minus}` : say("The results are below the readings.");
    const summary = many && first ? shown : "";
    setNote(message, answer.message ?? (wrong ? say("Fix the marked reading.") : summary));
    keyed(results, answer.results, (r) => r.label, makeResult, updateResult);
    clearTimeout(speaking);
    speaking = setTimeout(() => announce(answer.message ?? answer.results.map((r) => `${r.label}: ${r.text} ${r.plus_minus}`).join(". ")), SPOKEN);
  }

  // Readings.
  /** @typedef {ReturnType<typeof makeNumber>} NumberNode */
  /** @typedef {ReturnType<typeof makeChoice>} ChoiceNode */

  function makeReading(/** @type {survey.Reading} */ reading) {
    return reading.kind === "choice" ? makeChoice(reading) : makeNumber(reading);
  }

  function frame(/** @type {survey.Reading} */ reading) {
    const rid = `${id}-${reading.key}`;
    return {
      rid, label: el("label", { for: rid }), problem: el("p", { class: "field-problem", id: `${rid}-problem` }),
      node: el("div", { class: `field measure-reading kind-${reading.kind}`, "data-reading": reading.key }),
    };
  }

  function makeChoice(/** @type {survey.Reading} */ reading) {
    const { rid, node, label, problem } = frame(reading);
    const input = el("select", { id: rid });
    input.addEventListener("change", () => type(reading.key, "texts", input.value));
    node.append(label, input, problem);
    return Object.assign(node, { key: reading.key, parts: { label, input, problem } });
  }

  function makeNumber(/** @type {survey.Reading} */ reading) {
    const { rid, node, label, problem } = frame(reading);
    const box = (/** @type {import("./dom.js").Props} */ props) => el("input", { type: "text", inputmode: reading.signed ? "text" : "decimal", autocomplete: "off", autocapitalize: "off", spellcheck: "false", ...props });
    const input = box({ id: rid });
    const pm = box({ class: "measure-pm", inputmode: "decimal" });
    input.addEventListener("input", () => type(reading.key, "texts", input.value));
    pm.addEventListener("input", () => type(reading.key, "pm", pm.value));
    const unit = el("span", { class: "unit" });
    const pmUnit = el("span", { class: "unit" });
    const standard = el("p", { class: "standard" });
    const sighted = el("p", { class: "measure-sighted" });
    const open = el("button", { type: "button", class: "measure-phone-open", text: say("Use the phone"), on: { click: () => openPhone(reading.key) } });
    const panel = el("div", { class: "measure-phone", hidden: true });
    node.append(label,
      el("div", { class: "measure-row" },
        el("span", { class: "measure-value" }, input, unit),
        el("span", { class: "measure-give" }, el("span", { class: "measure-sign", text: "±", "aria-hidden": "true" }), pm, pmUnit)),
      standard, problem, sighted, open, panel);
    return Object.assign(node, { key: reading.key, parts: { label, input, pm, unit, pmUnit, standard, sighted, open, panel, problem } });
  }

  function updateReading(/** @type {NumberNode | ChoiceNode} */ { parts: p }, /** @type {survey.Reading} */ r) {
    setText(p.label, r.label);
    setNote(p.problem, r.problem);
    setAttr(p.input, "aria-invalid", r.problem ? "true" : null);
    setAttr(p.input, "aria-describedby", r.problem ? p.problem.id : null);
    if (!("pm" in p)) {
      setOptions(p.input, r.options ?? [], r.text);
      return;
    }
    if (p.input.value !== r.text) p.input.value = r.text;
    if (p.pm.value !== (r.plus_minus ?? "")) p.pm.value = r.plus_minus ?? "";
    setAttr(p.input, "placeholder", r.default || null);
    setAttr(p.pm, "placeholder", r.usual || null);
    setAttr(p.pm, "aria-label", say("Measurement uncertainty (±): {reading}", { reading: r.label }));
    setNote(p.unit, r.unit);
    setNote(p.pmUnit, r.usual?.endsWith("%") && !r.plus_minus ? "" : r.unit);
    setNote(p.standard, r.default && !r.text ? say("Default if empty: {value}", { value: r.unit ? `${r.default} ${r.unit}` : r.default }) : "");
    setNote(p.sighted, r.sighted);
    show(p.open, Boolean(r.phone?.length) && phone?.key !== r.key);
  }

  function type(/** @type {string} */ key, /** @type {"texts" | "pm"} */ where, /** @type {string} */ text) {
    (job[where] ??= {})[key] = text;
    delete job.sights[key]; // what is typed counts
    remember();
    ask();
  }

  // The phone's own angle, for one reading at a time.
  async function openPhone(/** @type {string} */ key) {
    closePhone();
    const node = [.../** @type {Iterable<NumberNode>} */ (readings.children)].find((n) => n.key === key);
    const ways = answer?.readings.find((r) => r.key === key)?.phone;
    if (!node || !ways) return;
    const { panel } = node.parts;
    const words = el("p", { text: PHONE_WORDS.asking });
    const hold = el("select", { "aria-label": say("How the phone is held") });
    setOptions(hold, ways, ways[0].value);
    const live = el("p", { class: "measure-live", text: "–" });
    const take = el("button", { type: "button", class: "main measure-take", text: say("Take reading"), disabled: true });
    const again = el("button", { type: "button", text: say("Start again") });
    const end = el("button", { type: "button", class: "plain", text: say("Stop"), on: { click: () => closePhone() } });
    panel.replaceChildren(words, hold, live, el("div", { class: "actions" }, take, again, end));
    panel.hidden = false;
    const mine = phone = { key, panel, stop() {} };
    /** @type {[beta: number, gamma: number][]} */
    let now = []; // how it is held, once that is known
    show(node.parts.open, false);
    const sights = () => job.sights[key] ??= { hold: hold.value, taken: [] };
    let drawing = 0;
    const showLive = () => {
      drawing = 0;
      setText(live, askMeasure({ live: { hold: hold.value, taken: now } })?.live ?? "–");
    };
    take.addEventListener("click", () => {
      if (!now.length) return;
      sights().taken.push(...now);
      remember();
      ask();
    });
    const restart = () => {
      job.pm = { ...job.pm, [key]: "" };
      type(key, "texts", "");
    };
    again.addEventListener("click", restart);
    hold.addEventListener("change", restart);
    const watch = await watchPhone((attitude) => {
      now = [attitude];
      drawing ||= requestAnimationFrame(showLive);
    });
    if (phone !== mine) { // put away while waiting
      watch.stop();
      return;
    }
    mine.stop = watch.stop;
    setAttr(panel, "data-state", watch.state);
    setText(words, PHONE_WORDS[watch.state]);
    const works = watch.state === "working";
    take.disabled = !works;
    for (const part of [hold, live, take, again]) show(part, works);
  }

  function closePhone() {
    if (!phone) return;
    phone.stop();
    phone.panel.hidden = true;
    phone = null;
    if (answer) draw(answer);
  }

  // Results.
  function makeResult() {
    const use = el("button", { type: "button", class: "main" });
    const parts = { label: el("span", { class: "measure-label" }), value: el("span", { class: "measure-number" }), pm: el("span", { class: "measure-plus" }), note: el("span", { class: "measure-note" }), use };
    const node = Object.assign(el("div", { class: "measure-result" }, el("p", {}, parts.label, parts.value, parts.pm, parts.note), use), { parts, use: "" });
    use.addEventListener("click", () => useIt(node.use, use));
    return node;
  }

  function updateResult(/** @type {ReturnType<typeof makeResult>} */ node, /** @type {survey.Result} */ r) {
    node.use = r.use ?? "";
    setText(node.parts.label, r.label);
    setText(node.parts.value, r.text);
    setText(node.parts.pm, r.plus_minus);
    setNote(node.parts.note, r.note);
    show(node.parts.use, Boolean(r.use_label));
    setText(node.parts.use, r.use_label);
    setAttr(node.parts.use, "data-use", node.use || null);
  }

  function useIt(/** @type {string} */ use, /** @type {HTMLElement} */ button) {
    const given = askMeasure(request({ use }));
    if (!given?.changes?.length) {
      setNote(message, given?.message ?? say("Nothing was changed."));
      return;
    }
    takeMeasured(given);
    if (answer?.photo) { // a picture may give more than one field
      ask();
      setText(button, say("Added to the plan"));
      announce(say("Added to the plan"));
      return;
    }
    for (const id of drafts) if (keptBefore(id)) keep(id, null);
    finish();
    used(given.focus ?? "");
  }

  function leave() {
    finish();
    used("");
  }

  function finish() {
    clearTimeout(speaking);
    closePhone();
    photo.close();
    removeEventListener("resize", resized);
    dialog.close();
    dialog.remove();
  }

  const resized = () => {
    ask();
    photo.layOut();
  };
  method.addEventListener("change", () => {
    closePhone();
    job.method = method.value;
    remember();
    ask();
    dialog.querySelector(".measure-body")?.scrollTo({ top: 0 });
  });
  dialog.addEventListener("cancel", (event) => {
    event.preventDefault();
    leave();
  });
  document.body.append(dialog);
  dialog.showModal();
  ask();
  // Drawn once the dialog has its size: the picture, and the marks in it.
  requestAnimationFrame(resized);
  addEventListener("resize", resized);
  return dialog;
}
