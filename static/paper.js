// The pull sheet for printing: one page for the crew, one with what was typed
// in and assumed, and the working where it is asked for. It is made when the
// browser is about to print.

import { byId, el } from "./dom.js";
import { makePicture, placeLegend } from "./drawing.js";
import { makeMark } from "./marks.js";
import { place } from "./place.js";
import { say, sayDay } from "./say.js";
import { state, viewFor } from "./state.js";
import { placeAssumed, placeFacts, placeNotes, placePieces, placeSteps } from "./tables.js";

// The drawings are laid out anew for the width they have on the sheet, in
// CSS pixels; the style sheet scales them to it.
const BOXES = { side: { w: 440, h: 240 }, plan: { w: 440, h: 260 }, curve: { w: 460, h: 200 } };
// The first page has to be one on both usual papers: as wide as A4 and as
// high as US Letter, each less its margins. The largest type that fits is
// taken; where none does, the page runs on.
const WIDTH = "190mm";
const HEIGHT = "257mm";
const PAPER = 718; // CSS pixels, WIDTH for rules that ask for it
const ZOOM = ["1", "0.95", "0.9", "0.85", "0.8", "0.75"];
const TYPE = [8.4, 8.1, 7.8, 7.6, 7.4, 7.2, 7, 6.8, 6.6, 6.4, 6.2, 6, 5.8, 5.6, 5.4]; // pt
const MAIN_FACTS = ["planned", "start", "peak", "hold-puller", "haul", "rope", "commit", "hold-tension", "hold-length"];

/** @type {{ [view: string]: { make: () => HTMLElement[], fit: (sheet: HTMLElement) => void } }} */
const others = {}; // what makes and fits the pages of the views that print their own

// printInstead has a view print the pages that make() gives, after fit(sheet)
// has put them right, with what holds on paper holding.
/** @param {string} view @param {() => HTMLElement[]} make @param {(sheet: HTMLElement) => void} fit */
export function printInstead(view, make, fit) {
  others[view] = { make, fit };
}

/** @param {string} version */
export function startPaper(version) {
  const sheet = byId("print-sheet");
  addEventListener("beforeprint", () => {
    const { make, fit } = others[place.view] ?? { make: () => pages(version), fit: fitPlan };
    sheet.replaceChildren(...make());
    asOnPaper(() => fit(sheet));
  });
  addEventListener("afterprint", () => sheet.replaceChildren());
}

// asOnPaper runs what measures, under the rules for paper.
/** @param {() => void} run */
function asOnPaper(run) {
  const rules = [...document.styleSheets].flatMap((s) => [...s.cssRules])
    .flatMap((rule) => (rule instanceof CSSMediaRule ? [{ rule, was: rule.media.mediaText }] : []));
  for (const { rule, was } of rules) rule.media.mediaText = holdsOnPaper(was) ? "all" : "not all";
  try {
    run();
  } finally {
    for (const { rule, was } of rules) rule.media.mediaText = was;
  }
}

// fitPlan measures the first page and sets its type.
/** @param {HTMLElement} sheet */
function fitPlan(sheet) {
  const page = /** @type {HTMLElement | null} */ (sheet.querySelector(".crew-page"));
  const inputs = /** @type {HTMLElement | null} */ (sheet.querySelector(".input-page"));
  if (!page || !inputs) return;
  const root = document.documentElement;
  page.style.width = WIDTH;
  for (const size of TYPE) {
    root.style.setProperty("--paper-type", `${size}pt`);
    if (fits(sheet, page)) break;
  }
  // What was typed in may be long: its page is drawn smaller, within reason.
  inputs.style.width = WIDTH;
  for (const zoom of ZOOM) {
    inputs.style.setProperty("zoom", zoom);
    if (fits(sheet, inputs)) break;
  }
  page.style.width = "";
  inputs.style.width = "";
}

// breakPage takes what does not fit on a page, from a part on, to further ones:
// next() makes one, and gives it with the parts' new parent. Parts of a group
// stay together.
/**
 * @param {HTMLElement} sheet
 * @param {HTMLElement} page
 * @param {Element} parent
 * @param {Element[][]} groups
 * @param {() => { page: HTMLElement, parent: Element }} next
 */
export function breakPage(sheet, page, parent, groups, next) {
  const all = [page];
  page.style.width = WIDTH;
  parent.replaceChildren();
  for (const group of groups) {
    parent.append(...group);
    if (parent.children.length === group.length || fits(sheet, page)) continue;
    const after = next();
    page.after(after.page);
    all.push(after.page);
    ({ page, parent } = after);
    page.style.width = WIDTH;
    parent.append(...group);
  }
  for (const one of all) one.style.width = "";
}

/** @param {HTMLElement} sheet @param {HTMLElement} page */
function fits(sheet, page) {
  const tall = el("div");
  tall.style.height = HEIGHT;
  sheet.append(tall);
  const fitting = page.getBoundingClientRect().height <= tall.getBoundingClientRect().height;
  tall.remove();
  return fitting;
}

// holdsOnPaper says whether rules for a medium hold on a sheet.
/** @param {string} media */
function holdsOnPaper(media) {
  const [, least = "0"] = /min-width: (\d+)px/.exec(media) ?? [];
  const [, most = "Infinity"] = /max-width: (\d+)px/.exec(media) ?? [];
  return media === "print" || (/width/.test(media) && Number(least) <= PAPER && PAPER <= Number(most));
}

/** @type {(title: string, node: Node, cls?: string) => HTMLElement} */
const part = (title, node, cls) => el("section", { class: cls }, el("h2", { text: title }), node);

/** @param {string} version */
function pages(version) {
  const now = state.view;
  if (!now) return [el("p", { text: say("Nothing has been calculated yet.") })];
  const own = viewFor(BOXES);
  const view = own?.headline ? own : now;
  const out = [crewPage(view, version), inputPage(view)];
  if (byId("print-working", HTMLInputElement).checked && view.working.length) {
    const steps = el("div", { class: "sheet-steps" });
    placeSteps(steps, view.working, true);
    out.push(el("div", { class: "page" }, part(say("Working"), steps)));
  }
  return out;
}

/** @param {page.View} view @param {string} version */
function crewPage(view, version) {
  const date = sayDay(new Date());
  const day = fieldText(view.form, "pull_date");
  const head = el("header", { class: "sheet-head" },
    el("h1", { text: view.name || say("Unnamed plan") }),
    el("p", { text: [
      day ? say("Pull sheet for {day}.", { day }) : say("Pull sheet."),
      say("Printed {date} from the pull-line load calculator.", { date }),
      version ? say("Version {version}.", { version }) : "",
      state.origin === "example" ? say("Invented example, not a real job.") : "",
    ].filter(Boolean).join(" ") }));

  const { headline } = view;
  const verdict = el("section", { class: "sheet-verdict" }, makeMark(headline.held ? "held" : headline.verdict),
    el("div", {}, el("p", { class: "sheet-word", text: headline.word }), el("p", { text: headline.sentence })),
    headline.at_most_text ? el("div", { class: "sheet-most" }, makeMark(headline.at_most), el("p", { text: headline.at_most_text })) : null);
  const page = el("div", { class: "page crew-page", "data-verdict-printed": headline.verdict }, head, verdict);
  if (headline.why.length > 1) page.append(part(say("Why"), messages(headline.why), "sheet-notes sheet-why"));
  if (view.problems.length) page.append(part(say("Fix before relying on this"), messages(view.problems), "sheet-notes"));

  const pictures = el("div", { class: "sheet-pictures" });
  pictures.append(picture(view, "side", say("Side view")), picture(view, "plan", say("Plan view")));
  const legend = el("ul", { class: "legend" });
  placeLegend(legend, [view.side, view.plan]);
  pictures.append(legend);

  const table = el("div", {});
  placePieces(table, view.pieces);
  const facts = el("dl", { class: "facts" });
  placeFacts(facts, view.facts.filter((f) => MAIN_FACTS.includes(f.id.split(":")[0])), true);
  page.append(el("div", { class: "sheet-main" }, pictures, el("div", {}, part(say("Every piece, most heavily loaded first"), table), part(say("Main numbers"), facts))));

  const { brief } = view;
  const assumed = view.assumed.length ? part(say("Assumed"), el("p", { text: `${view.assumed.map((a) => `${a.label} ${a.value}`).join("; ")}.` }), "sheet-short") : null;
  page.append(briefPart(brief ?? NO_BRIEF, assumed),
    part(say("Cautions"), messages([...view.cautions, ...view.standing]), "sheet-notes sheet-short"), names(brief));
  return page;
}

/** @param {page.View} view @param {"side" | "plan" | "curve"} name @param {string} caption */
function picture(view, name, caption) {
  const figure = el("figure", { class: `sheet-${name}` });
  if (view[name]) makePicture(figure, caption).update(view[name], false);
  return figure;
}

/** @type {brief.Briefing} */
const NO_BRIEF = { sequence: [], signals: [], stop: [], distances: [], roles: [], mark: "" };

// showBrief shows the briefing on the page, as the sheet has it.
let briefShown = "";
/** @param {brief.Briefing | undefined} brief */
export function showBrief(brief) {
  const now = JSON.stringify(brief ?? null);
  if (now === briefShown) return;
  briefShown = now;
  byId("brief-shown").replaceChildren(brief ? briefPart(brief, null) : "");
}

/** @param {brief.Briefing} brief @param {Node | null} assumed */
function briefPart(brief, assumed) {
  /** @typedef {{ suggested?: boolean }} Marked */
  // Where all of a part is suggested its title says so.
  const whole = (/** @type {Marked[]} */ lines) => lines.length > 0 && lines.every((l) => l.suggested);
  const titled = (/** @type {string} */ text, /** @type {Marked[]} */ lines) => (whole(lines) ? say("{text} ({mark})", { text, mark: brief.mark }) : text);
  const mark = (/** @type {Marked} */ line, /** @type {Marked[]} */ lines) => (line.suggested && !whole(lines) ? el("span", { class: "suggested", text: ` (${brief.mark})` }) : null);
  const list = (/** @type {"ol" | "ul"} */ tag, /** @type {brief.Line[]} */ lines) => el(tag, {}, ...lines.map((l) => el("li", {}, el("span", { text: l.text }), mark(l, lines))));
  const signals = el("table", { class: "signals" },
    el("thead", {}, el("tr", {}, ...[say("Signal"), say("Means"), say("Given by")].map((h) => el("th", { scope: "col", text: h })))),
    el("tbody", {}, ...brief.signals.map((s) => el("tr", {}, el("td", { text: s.sign }), el("td", {}, el("span", { text: s.means }), mark(s, brief.signals)), el("td", { text: s.by })))));
  const notes = brief.notes ? part(say("Notes"), el("p", { class: "lines", text: brief.notes })) : null;
  return el("div", { class: "sheet-brief" },
    part(titled(say("Sequence"), brief.sequence), list("ol", brief.sequence)),
    el("div", {}, part(titled(say("Signals: if unclear, stop"), brief.signals), signals), part(say("Stop when"), list("ul", brief.stop))),
    el("div", {}, part(say("Who stays where"), list("ul", brief.distances)), notes, assumed));
}

/** @param {parts.Note[]} notes */
function messages(notes) {
  return el("ul", {}, ...notes.map((n) => el("li", { text: n.message })));
}

// names leaves a line for each who takes part, and for those who answer for
// the pull.
/** @param {brief.Briefing | undefined} brief */
function names(brief) {
  const line = (/** @type {string} */ role, /** @type {string} */ name) => el("div", {}, el("span", { class: "rule", text: name }), el("span", { text: role }));
  return el("section", { class: "signatures" },
    ...(brief?.roles ?? []).map((r) => line(say("{role}: name, signature", { role: r.role || say("Task") }), r.name)),
    line(say("Planned by: name, signature"), ""), line(say("Anchors checked by: name, signature"), ""), line(say("Go-ahead by: name, signature, time"), ""));
}

/** @param {page.View} view */
function inputPage(view) {
  const page = el("div", { class: "page input-page" }, part(say("Values entered"), inputs(view.form)));
  const facts = el("dl", { class: "facts" });
  placeFacts(facts, view.facts, true);
  page.append(el("div", { class: "sheet-main" }, picture(view, "curve", say("Pull through the fall")), part(say("All main numbers"), facts)));
  const notes = (/** @type {string} */ title, /** @type {parts.Note[]} */ list) => {
    const items = el("ul", {});
    placeNotes(items, list);
    if (list.length) page.append(part(title, items, "sheet-notes"));
  };
  notes(say("Cautions for this plan"), view.cautions);
  notes(say("For every pull"), view.standing);
  const assumed = el("div", {});
  placeAssumed(assumed, view.assumed);
  page.append(part(say("Assumed values"), assumed));
  if (view.after) {
    const measured = el("dl", { class: "facts" });
    placeFacts(measured, view.after.facts, true);
    page.append(part(say("After the pull"), el("div", {}, el("p", { text: view.after.words }), measured)));
  }
  return page;
}

/** @param {parts.Section[]} sections @param {string} path @returns {string} */
function fieldText(sections, path) {
  for (const s of sections) {
    const text = s.fields?.find((f) => f.path === path)?.text || fieldText(s.sections ?? [], path);
    if (text) return text;
  }
  return "";
}

// inputs lists every value given, with its unit, in a table for each point,
// line and piece.
/** @param {parts.Section[]} sections */
function inputs(sections) {
  const list = el("div", { class: "inputs" });
  const add = (/** @type {parts.Section} */ section, /** @type {string} */ title) => {
    const rows = el("dl", {});
    fillRows(rows, section, title);
    if (rows.children.length) list.append(el("div", { class: "input-group" }, el("h3", { text: title }), rows));
  };
  for (const section of sections) {
    if (section.fields?.length) add(section, section.title);
    else for (const item of section.sections ?? []) add(item, item.title);
  }
  return list;
}

/** @param {Element} rows @param {parts.Section} section @param {string} title */
function fillRows(rows, section, title) {
  for (const field of section.fields ?? []) {
    if (field.text === "") continue;
    if (field.kind === "text" && title.toLowerCase().includes(field.text.toLowerCase())) continue; // the title says it
    rows.append(el("div", { class: field.kind === "long" ? "long" : null }, el("dt", { text: field.label }), el("dd", { text: shown(field) })));
  }
  let above = section.title === title ? "" : `${section.title}: `;
  for (const below of section.sections ?? []) {
    const before = rows.children.length;
    const given = (below.fields ?? []).filter((f) => f.text !== "");
    // A part that only holds others is named with the first of them.
    const name = given.length && given[0].label !== below.title ? el("div", { class: "below" }, el("dt", { text: `${section.fields?.length ? "" : above}${below.title}` })) : null;
    if (name) rows.append(name);
    fillRows(rows, below, title);
    if (name && rows.children.length === before + 1) name.remove();
    above = "";
  }
}

/** @param {parts.Field} field */
function shown(field) {
  if (field.kind === "choice") return field.options?.find((o) => o.value === field.text)?.label ?? field.text;
  if (field.kind === "flag") return field.text === "true" ? say("yes") : field.text;
  if (!field.unit) return field.text;
  return field.unit === "°" ? `${field.text}°` : `${field.text} ${field.unit}`;
}
