// The sheet for printing, both sides of one for the plan and more for the
// working, made when the browser is about to print.

import { byId, el } from "./dom.js";
import { makePicture, placeLegend } from "./drawing.js";
import { makeMark } from "./marks.js";
import { state, viewFor } from "./state.js";
import { placeAssumed, placeFacts, placeNotes, placePieces, placeSteps } from "./tables.js";

// The drawings are laid out anew for the width they have on the sheet, in
// CSS pixels; the style sheet scales them to it.
const BOXES = { side: { w: 460, h: 300 }, plan: { w: 460, h: 300 }, curve: { w: 460, h: 200 } };

export function startPaper(version) {
  const sheet = byId("print-sheet");
  addEventListener("beforeprint", () => sheet.replaceChildren(...pages(version)));
  addEventListener("afterprint", () => sheet.replaceChildren());
}

function pages(version) {
  const now = state.view;
  if (!now) return [el("p", { text: "Nothing was worked out yet." })];
  const view = viewFor(BOXES) ?? now;
  const date = new Date().toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" });
  const head = el("header", {},
    el("h1", { text: view.name || "Plan without a name" }),
    el("p", { text: `Pull-line load calculator${version ? `, version ${version}` : ""}. Printed ${date}.` }));
  if (state.origin === "example") head.append(el("p", { text: "This is an invented example, not a plan of a real job." }));

  const { headline } = view;
  const verdict = el("section", { class: "sheet-verdict" }, makeMark(headline.verdict),
    el("div", {}, el("p", { class: "sheet-word", text: headline.word }), el("p", { text: headline.sentence }),
      headline.stall_text ? el("p", { text: headline.stall_text }) : null));

  const pictures = el("section", { class: "sheet-pictures" });
  for (const [name, caption] of [["side", "Side view"], ["plan", "Plan view"], ["curve", "Pull through the fall"]]) {
    if (!view[name]) continue;
    const figure = el("figure", { class: `sheet-${name}` });
    makePicture(figure, caption).update(view[name], false);
    pictures.append(figure);
  }

  const legend = el("ul", { class: "legend" });
  placeLegend(legend, [view.side, view.plan]);
  const facts = el("dl", { class: "facts" });
  placeFacts(facts, view.facts);
  const table = el("div", {});
  placePieces(table, view.pieces);
  const standing = el("ul", {});
  placeNotes(standing, view.standing);
  const cautions = el("ul", {});
  placeNotes(cautions, view.cautions);
  const problems = el("ul", {});
  placeNotes(problems, view.problems);
  const assumed = el("div", {});
  placeAssumed(assumed, view.assumed);
  const steps = el("div", { class: "sheet-steps" });
  placeSteps(steps, view.working, true);

  const part = (title, node, cls) => el("section", { class: cls ?? null }, el("h2", { text: title }), node);
  const plan = el("div", { class: "page" }, head, verdict);
  if (view.problems?.length) plan.append(part("To put right before this counts", problems));
  plan.append(legend, pictures, part("Every piece, the hardest worked first", table));
  if (view.cautions?.length) plan.append(part("Cautions for this plan", cautions));
  plan.append(part("For every pull", standing), part("What was typed in", inputs(view.form)), part("What was assumed", assumed), signatures());
  pictures.append(part("Main numbers", facts, "sheet-facts"));
  const working = el("div", { class: "page" }, part("Working", steps));
  return view.working?.length ? [plan, working] : [plan];
}

// inputs lists every value given, with its unit, in a table for each point,
// line and piece.
function inputs(sections) {
  const list = el("div", { class: "inputs" });
  const add = (section, title) => {
    const rows = el("dl", {});
    fillRows(rows, section, title);
    if (rows.children.length) list.append(el("div", { class: "input-group" }, el("h3", { text: title }), rows));
  };
  for (const section of sections ?? []) {
    if (section.fields?.length) add(section, section.title);
    else for (const item of section.sections ?? []) add(item, item.title);
  }
  return list;
}

function fillRows(rows, section, title) {
  for (const field of section.fields ?? []) {
    if ((field.text ?? "") === "") continue;
    if (field.kind === "text" && title.toLowerCase().includes(field.text.toLowerCase())) continue; // the title says it
    rows.append(el("div", { class: field.kind === "long" ? "long" : null }, el("dt", { text: field.label }), el("dd", { text: shown(field) })));
  }
  let above = section.title === title ? "" : `${section.title}: `;
  for (const below of section.sections ?? []) {
    const before = rows.children.length;
    const given = (below.fields ?? []).filter((f) => (f.text ?? "") !== "");
    // A part that only holds others is named with the first of them.
    const name = given.length && given[0].label !== below.title ? el("div", { class: "below" }, el("dt", { text: `${section.fields?.length ? "" : above}${below.title}` })) : null;
    if (name) rows.append(name);
    fillRows(rows, below, title);
    if (name && rows.children.length === before + 1) name.remove();
    above = "";
  }
}

function shown(field) {
  if (field.kind === "choice") return field.options?.find((o) => o.value === field.text)?.label ?? field.text;
  if (field.kind === "flag") return field.text === "true" ? "yes" : field.text;
  if (!field.unit) return field.text;
  return field.unit === "°" ? `${field.text}°` : `${field.text} ${field.unit}`;
}

function signatures() {
  const line = (label) => el("div", {}, el("span", { class: "rule" }), el("span", { text: label }));
  return el("section", { class: "signatures" },
    line("Planned by: name, signature"), line("Anchors judged by: name, signature"), line("Go-ahead by: name, signature, date and time"));
}
