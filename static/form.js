// The form: sections and fields as the calculator lists them. Nodes are kept
// by path, and the text in a field being typed in is never touched.

import { el, keyed, once, setAttr, setNote, setText, show } from "./dom.js";
import { makeMark, setMark } from "./marks.js";
import { say, sayCount } from "./say.js";

/**
 * What a form does with what is typed into it.
 *
 * @typedef {object} Hooks
 * @property {(path: string, text: string) => void} edit
 * @property {() => void} [done] a field is left
 * @property {(path: string) => void} [measure]
 * @property {(action: parts.Action) => void} [act]
 * @property {(section: string) => void} [seek] a section is to be shown
 */

/** @typedef {ReturnType<typeof makeSection>} SectionNode */
/** @typedef {ReturnType<typeof makeField>} FieldNode */

const NO_LABEL = say("Choose");
let count = 0;

// makeForm gives a form in a node: update draws the sections of a view,
// reveal opens and focuses a path.
/** @param {HTMLElement} root @param {HTMLElement} problemsRoot @param {Hooks} hooks */
export function makeForm(root, problemsRoot, hooks) {
  /** @type {parts.Section[]} */
  let form = [];
  const reveal = (/** @type {string} */ path) => {
    const chain = findChain(form, path);
    if (chain.length) hooks.seek?.(chain[0].id);
    let parent = root;
    /** @type {SectionNode | undefined} */
    let last;
    for (const section of chain) {
      const node = /** @type {SectionNode | undefined} */ ([...parent.children].find((c) => c.getAttribute("data-section") === section.id));
      if (!node) break;
      node.open = true;
      updateSection(node, section, hooks);
      parent = node.parts.sections;
      last = node;
    }
    if (!last) return false;
    const { fields, summary } = last.parts;
    const field = /** @type {FieldNode | undefined} */ ([...fields.children].find((f) => f.getAttribute("data-path") === path));
    (field?.parts.input ?? summary).focus({ preventScroll: true });
    (field ?? summary).scrollIntoView({ block: field ? "center" : "start" });
    return true;
  };
  return {
    reveal,
    update(/** @type {{ form?: parts.Section[], problems?: parts.Note[] }} */ view) {
      form = view.form ?? [];
      placeSections(root, form, 0, hooks);
      placeProblems(problemsRoot, view.problems ?? [], reveal);
    },
  };
}

// findChain gives the sections that lead to a field, or to the deepest
// section that holds a path.
/** @param {parts.Section[] | undefined} sections @param {string} path @returns {parts.Section[]} */
export function findChain(sections, path) {
  for (const section of sections ?? []) {
    if (section.id === path || section.fields?.some((f) => f.path === path)) return [section];
    const below = findChain(section.sections, path);
    if (below.length) return [section, ...below];
  }
  for (const section of sections ?? []) {
    if (path.startsWith(`${section.id}.`) || path.startsWith(`${section.id}[`)) return [section];
  }
  return [];
}

/** @param {HTMLElement} parent @param {parts.Section[]} sections @param {number} depth @param {Hooks} hooks */
function placeSections(parent, sections, depth, hooks) {
  keyed(parent, sections, (s) => s.id, (s, i) => makeSection(s, depth, depth === 0 && i === 0, hooks), (node, s) => updateSection(node, s, hooks));
}

/** @param {parts.Section} section @param {number} depth @param {boolean} opened @param {Hooks} hooks */
function makeSection(section, depth, opened, hooks) {
  const parts = sectionParts(section, depth);
  const node = el("details", { class: `section depth-${depth}`, "data-section": section.id },
    parts.summary, el("div", { class: "section-body" }, parts.help, parts.notes, parts.fields, parts.sections, parts.actions));
  node.open = opened;
  node.addEventListener("toggle", () => {
    if (node.open) fillSection(parts, hooks);
  });
  return Object.assign(node, { parts });
}

/** @param {parts.Section} section @param {number} depth */
function sectionParts(section, depth) {
  const mark = makeMark("unknown");
  const title = el("span", { class: "section-title" });
  const line = el("span", { class: "section-line" });
  const count = el("span", { class: "section-count" });
  return {
    depth, section, mark, title, line, count,
    summary: el("summary", {}, mark, el("span", { class: "section-head" }, title, line), count),
    help: el("p", { class: "help" }),
    notes: el("ul", { class: "notes" }),
    fields: el("div", { class: "fields" }),
    sections: el("div", { class: "sections" }),
    actions: el("div", { class: "actions" }),
  };
}

/** @param {SectionNode} node @param {parts.Section} section @param {Hooks} hooks */
function updateSection(node, section, hooks) {
  const { parts } = node;
  parts.section = section;
  setText(parts.title, section.title);
  setText(parts.line, section.summary);
  show(parts.line, Boolean(section.summary));
  parts.mark.classList.toggle("none", !section.state);
  if (section.state) setMark(parts.mark, section.state);
  const problems = section.problems ?? 0;
  setNote(parts.count, problems ? sayCount(problems, "{n} to fix", "{n} to fix") : "");
  if (node.open) fillSection(parts, hooks);
}

// fillSection draws what an open section holds; a closed one waits.
/** @param {ReturnType<typeof sectionParts>} parts @param {Hooks} hooks */
function fillSection(parts, hooks) {
  const s = parts.section;
  setNote(parts.help, s.help);
  const notes = s.notes ?? [];
  show(parts.notes, notes.length > 0);
  keyed(parts.notes, notes, (n) => `${n.code ?? ""} ${n.path ?? ""} ${n.message}`, (n) => el("li", { class: n.code ? "caution" : "problem" },
    el("span", { text: n.message }), " ", n.source ? el("span", { class: "source", text: say("Source: {source}", { source: n.source }) }) : null));
  keyed(parts.fields, s.fields ?? [], (f) => `${f.kind} ${f.path}`, (f) => makeField(f, hooks), updateField);
  placeSections(parts.sections, s.sections ?? [], parts.depth + 1, hooks);
  const actions = s.actions ?? [];
  show(parts.actions, actions.length > 0);
  keyed(parts.actions, actions, (a) => `${a.do} ${a.path}`, (a) => {
    const button = el("button", { type: "button", class: a.do === "remove" ? "plain" : null, "data-do": a.do, "data-path": a.path });
    button.addEventListener("click", () => hooks.act?.(a));
    return button;
  }, (button, a) => setText(button, a.label));
}

// makeField makes a field of a form.
/** @param {parts.Field} field @param {Hooks} hooks */
export function makeField(field, hooks) {
  const parts = fieldParts(field);
  const { suggest, more, help, measure } = parts;
  listen(parts, hooks);
  suggest.addEventListener("change", () => {
    const value = suggest.value;
    suggest.selectedIndex = 0;
    if (value === "") return;
    hooks.edit(parts.field.path, value);
    hooks.done?.();
  });
  more.addEventListener("click", () => {
    help.hidden = !help.hidden;
    setAttr(more, "aria-expanded", help.hidden ? "false" : "true");
  });
  measure.addEventListener("click", () => hooks.measure?.(parts.field.path));
  const row = el("div", { class: "field-row" }, parts.input, parts.unit, measure, more);
  const node = el("div", { class: `field kind-${field.kind}`, "data-path": field.path }, parts.label, row, help, parts.standard, suggest, parts.problem);
  return Object.assign(node, { parts });
}

/** @param {parts.Field} field */
function fieldParts(field) {
  const id = `field-${++count}`;
  return {
    field, typed: false,
    label: el("label", { for: id }),
    unit: el("span", { class: "unit", id: `${id}-unit` }),
    standard: el("p", { class: "standard", id: `${id}-standard` }),
    help: el("p", { class: "help", id: `${id}-help`, hidden: true }),
    problem: el("p", { class: "field-problem", id: `${id}-problem` }),
    input: makeInput(field.kind, id),
    suggest: el("select", { class: "suggest" }),
    more: el("button", { type: "button", class: "more", "aria-expanded": "false", "aria-controls": `${id}-help`, text: "?" }),
    measure: el("button", { type: "button", class: "measure-open", text: say("Measure") }),
  };
}

/** @param {string} kind @param {string} id */
function makeInput(kind, id) {
  switch (kind) {
    case "choice":
      return el("select", { id });
    case "flag":
      return el("input", { id, type: "checkbox" });
    case "long":
      return el("textarea", { id, rows: "4" });
    default:
      return el("input", { id, type: "text", autocomplete: "off", autocapitalize: "off", spellcheck: "false", inputmode: kind === "number" ? "decimal" : null });
  }
}

/** @param {ReturnType<typeof fieldParts>} parts @param {Hooks} hooks */
function listen(parts, hooks) {
  const { input, field: { kind } } = parts;
  const send = (/** @type {string} */ text) => hooks.edit(parts.field.path, text);
  if (kind === "choice" || kind === "flag") {
    input.addEventListener("change", () => {
      send(isBox(input) ? input.checked ? "true" : "" : input.value);
      hooks.done?.();
    });
    return;
  }
  input.addEventListener("input", () => {
    parts.typed = true;
    send(input.value);
  });
  // On leaving, the field shows what the plan holds.
  input.addEventListener("blur", () => {
    parts.typed = false;
    hooks.done?.();
    if (input.value !== parts.field.text) input.value = parts.field.text;
  });
}

/** @param {HTMLElement} input @returns {input is HTMLInputElement} */
function isBox(input) {
  return input instanceof HTMLInputElement && input.type === "checkbox";
}

/** @param {FieldNode} node @param {parts.Field} field */
export function updateField(node, field) {
  const { parts } = node;
  parts.field = field;
  const { input } = parts;
  input.disabled = readOnly();
  parts.suggest.disabled = readOnly();
  setText(parts.label, field.label);
  setNote(parts.unit, field.unit);
  setAttr(parts.more, "aria-label", say("About: {field}", { field: field.label }));
  show(parts.more, Boolean(field.help));
  show(parts.measure, Boolean(field.measure));
  setAttr(parts.measure, "aria-label", say("Measure: {field}", { field: field.label }));
  setText(parts.help, field.help);
  const { text } = field;
  if (input instanceof HTMLSelectElement) {
    setOptions(input, field.options ?? [], text);
  } else if (isBox(input)) {
    if (input.checked !== (text === "true")) input.checked = text === "true";
  } else {
    if (!parts.typed && input.value !== text) input.value = text;
    setAttr(input, "placeholder", field.default || null);
  }
  const standard = field.default && text === "" ? sayDefault(field) : "";
  setNote(parts.standard, standard);
  const suggest = field.suggest ?? [];
  show(parts.suggest, suggest.length > 0);
  if (suggest.length) {
    setAttr(parts.suggest, "aria-label", say("Published values for: {field}", { field: field.label }));
    setOptions(parts.suggest, [{ value: "", label: say("Use a published value") }, ...suggest], "");
  }
  setNote(parts.problem, field.problem);
  setAttr(input, "aria-invalid", field.problem ? "true" : null);
  const described = [
    field.unit ? parts.unit.id : "", standard ? parts.standard.id : "", field.help ? parts.help.id : "", field.problem ? parts.problem.id : "",
  ].filter(Boolean).join(" ");
  setAttr(input, "aria-describedby", described || null);
}

/** @param {parts.Field} field */
function sayDefault({ default: value = "", unit, founded = "" }) {
  const values = { value: unit ? `${value} ${unit}` : value, founded };
  return founded ? say("Default if empty: {value} ({founded})", values) : say("Default if empty: {value}", values);
}

// readOnly says whether nothing is to be changed.
export function readOnly() {
  return document.documentElement.dataset.readonly === "on";
}

// setOptions changes a list of choices only where it has changed.
/** @param {HTMLSelectElement} select @param {parts.Option[]} options @param {string} value */
export function setOptions(select, options, value) {
  const same = select.options.length === options.length
    && options.every((o, i) => select.options[i].value === o.value && select.options[i].text === (o.label || NO_LABEL));
  if (!same) select.replaceChildren(...options.map((o) => el("option", { value: o.value, text: o.label || NO_LABEL })));
  if (select.value !== value) select.value = value;
}

// placeProblems lists what is missing or wrong, each with a way to its field.
/** @param {HTMLElement} root @param {parts.Note[]} problems @param {(path: string) => void} reveal */
function placeProblems(root, problems, reveal) {
  const { title, list } = once(root, () => {
    const parts = { title: el("h3", { id: "problems-title" }), list: el("ol", {}) };
    root.append(el("div", { class: "problems", role: "group", "aria-labelledby": "problems-title" }, parts.title, parts.list));
    return parts;
  });
  show(root, problems.length > 0);
  setText(title, sayCount(problems.length, "{n} thing to fix", "{n} things to fix"));
  keyed(list, problems, (p) => `${p.path ?? ""} ${p.message}`, ({ path, message }) => el("li", {}, path
    ? el("button", { type: "button", class: "link", text: message, on: { click: () => reveal(path) } })
    : el("span", { text: message })));
}
