// The form: sections and fields as the calculator lists them. Nodes are kept
// by path, and the text in a field being typed in is never touched.

import { el, keyed, setAttr, setNote, setText, show } from "./dom.js";
import { makeMark, setMark } from "./marks.js";
import { say, sayCount } from "./say.js";

const NO_LABEL = say("Choose");
const sectionNodes = new WeakMap(); // details → its parts
const fieldNodes = new WeakMap(); // field → its parts
let count = 0;

// makeForm gives a form in a node: update draws the sections of a view,
// reveal opens and focuses a path.
export function makeForm(root, problemsRoot, { edit, act, done, measure, seek }) {
  const hooks = { edit, act, done, measure };
  let form = [];
  const reveal = (path) => {
    const chain = findChain(form, path);
    if (chain.length) seek?.(chain[0].id);
    let parent = root;
    for (const section of chain) {
      const node = childOf(parent, section.id);
      if (!node) break;
      open(node, section, hooks);
      parent = sectionNodes.get(node).sections;
      chain.last = node;
    }
    if (!chain.last) return false;
    const parts = sectionNodes.get(chain.last);
    const field = [...parts.fields.children].find((f) => f.dataset.path === path);
    const target = field ? fieldNodes.get(field).input : parts.summary;
    target.focus({ preventScroll: true });
    (field ?? parts.summary).scrollIntoView({ block: field ? "center" : "start" });
    return true;
  };
  return {
    reveal,
    update(view) {
      form = view.form ?? [];
      placeSections(root, form, 0, hooks);
      placeProblems(problemsRoot, view.problems ?? [], reveal);
    },
  };
}

function childOf(parent, id) {
  return [...parent.children].find((c) => c.dataset.section === id);
}

// findChain gives the sections that lead to a field, or to the deepest
// section that holds a path.
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

function placeSections(parent, sections, depth, hooks) {
  keyed(parent, sections, (s) => s.id, (s, i) => makeSection(s, depth, depth === 0 && i === 0, hooks), (node, s) => updateSection(node, s, hooks));
}

function makeSection(section, depth, opened, hooks) {
  const parts = {
    depth, section,
    mark: makeMark("unknown"),
    title: el("span", { class: "section-title" }),
    line: el("span", { class: "section-line" }),
    count: el("span", { class: "section-count" }),
    help: el("p", { class: "help" }),
    notes: el("ul", { class: "notes" }),
    fields: el("div", { class: "fields" }),
    sections: el("div", { class: "sections" }),
    actions: el("div", { class: "actions" }),
  };
  parts.summary = el("summary", {}, parts.mark, el("span", { class: "section-head" }, parts.title, parts.line), parts.count);
  const node = el("details", { class: `section depth-${depth}`, "data-section": section.id },
    parts.summary, el("div", { class: "section-body" }, parts.help, parts.notes, parts.fields, parts.sections, parts.actions));
  sectionNodes.set(node, parts);
  node.open = opened;
  node.addEventListener("toggle", () => {
    if (node.open) fillSection(parts, hooks);
  });
  return node;
}

function open(node, section, hooks) {
  node.open = true;
  updateSection(node, section, hooks);
}

function updateSection(node, section, hooks) {
  const parts = sectionNodes.get(node);
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
    button.addEventListener("click", () => hooks.act(a));
    return button;
  }, (button, a) => setText(button, a.label));
}

// makeField makes a field of a form; hooks are edit(path, text), done() and
// measure(path).
export function makeField(field, hooks) {
  const id = `field-${++count}`;
  const parts = { field, typed: false };
  parts.label = el("label", { for: id });
  parts.unit = el("span", { class: "unit", id: `${id}-unit` });
  parts.standard = el("p", { class: "standard", id: `${id}-standard` });
  parts.help = el("p", { class: "help", id: `${id}-help`, hidden: true });
  parts.problem = el("p", { class: "field-problem", id: `${id}-problem` });
  parts.input = makeInput(field, id, parts, hooks);
  parts.suggest = el("select", { class: "suggest" });
  parts.suggest.addEventListener("change", () => {
    const value = parts.suggest.value;
    parts.suggest.selectedIndex = 0;
    if (value === "") return;
    hooks.edit(parts.field.path, value);
    hooks.done();
  });
  parts.more = el("button", { type: "button", class: "more", "aria-expanded": "false", "aria-controls": `${id}-help`, text: "?" });
  parts.more.addEventListener("click", () => {
    parts.help.hidden = !parts.help.hidden;
    setAttr(parts.more, "aria-expanded", parts.help.hidden ? "false" : "true");
  });
  parts.measure = el("button", { type: "button", class: "measure-open", text: say("Measure"), on: { click: () => hooks.measure(parts.field.path) } });
  const row = el("div", { class: "field-row" }, parts.input, parts.unit, parts.measure, parts.more);
  const node = el("div", { class: `field kind-${field.kind}`, "data-path": field.path }, parts.label, row, parts.help, parts.standard, parts.suggest, parts.problem);
  fieldNodes.set(node, parts);
  return node;
}

function makeInput(field, id, parts, hooks) {
  const send = (text) => hooks.edit(parts.field.path, text);
  let input;
  switch (field.kind) {
    case "choice":
      input = el("select", { id });
      input.addEventListener("change", () => {
        send(input.value);
        hooks.done();
      });
      return input;
    case "flag":
      input = el("input", { id, type: "checkbox" });
      input.addEventListener("change", () => {
        send(input.checked ? "true" : "");
        hooks.done();
      });
      return input;
    case "long":
      input = el("textarea", { id, rows: "4" });
      break;
    default:
      input = el("input", { id, type: "text", autocomplete: "off", autocapitalize: "off", spellcheck: "false", inputmode: field.kind === "number" ? "decimal" : null });
  }
  input.addEventListener("input", () => {
    parts.typed = true;
    send(input.value);
  });
  // On leaving, the field shows what the plan holds.
  input.addEventListener("blur", () => {
    parts.typed = false;
    hooks.done();
    if (input.value !== parts.field.text) input.value = parts.field.text;
  });
  return input;
}

export function updateField(node, field) {
  const parts = fieldNodes.get(node);
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
  const text = field.text ?? "";
  if (field.kind === "choice") {
    setOptions(input, field.options ?? [], text);
  } else if (field.kind === "flag") {
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

function sayDefault({ default: value, unit, founded }) {
  const values = { value: unit ? `${value} ${unit}` : value, founded };
  return founded ? say("Default if empty: {value} ({founded})", values) : say("Default if empty: {value}", values);
}

// readOnly says whether nothing is to be changed.
export function readOnly() {
  return document.documentElement.dataset.readonly === "on";
}

// setOptions changes a list of choices only where it has changed.
export function setOptions(select, options, value) {
  const same = select.options.length === options.length
    && options.every((o, i) => select.options[i].value === o.value && select.options[i].text === (o.label || NO_LABEL));
  if (!same) select.replaceChildren(...options.map((o) => el("option", { value: o.value, text: o.label || NO_LABEL })));
  if (select.value !== value) select.value = value;
}

// placeProblems lists what is missing or wrong, each with a way to its field.
function placeProblems(root, problems, reveal) {
  if (!root.firstChild) {
    root.append(
      el("div", { class: "problems", role: "group", "aria-labelledby": "problems-title" },
        el("h3", { id: "problems-title" }), el("ol", {})));
  }
  const box = root.firstChild;
  show(root, problems.length > 0);
  setText(box.firstChild, sayCount(problems.length, "{n} thing to fix", "{n} things to fix"));
  keyed(box.lastChild, problems, (p) => `${p.path ?? ""} ${p.message}`, (p) => {
    const item = el("li", {});
    if (p.path) {
      item.append(el("button", { type: "button", class: "link", text: p.message, on: { click: () => reveal(p.path) } }));
    } else {
      item.append(el("span", { text: p.message }));
    }
    return item;
  });
}
