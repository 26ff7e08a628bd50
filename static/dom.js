// Small helpers for building and updating the page. All text goes in as
// text, never as markup.

const LONGEST = 20000; // characters of a text that is shown; a longer one is cut
const SVG = "http://www.w3.org/2000/svg";

// el makes an element. Props: class, text, on (events), or any attribute; a
// value of false, null or undefined leaves the attribute out.
export function el(tag, props = {}, ...children) {
  return fill(document.createElement(tag), props, children);
}

export function svg(tag, props = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

function fill(node, props, children) {
  for (const [name, value] of Object.entries(props)) {
    if (name === "on") {
      for (const [event, listener] of Object.entries(value)) node.addEventListener(event, listener);
    } else if (name === "text") {
      setText(node, value);
    } else {
      setAttr(node, name, value);
    }
  }
  node.append(...children.filter((c) => c !== null && c !== undefined));
  return node;
}

export function setAttr(node, name, value) {
  if (value === false || value === null || value === undefined) {
    if (node.hasAttribute(name)) node.removeAttribute(name);
    return;
  }
  const text = value === true ? "" : String(value);
  if (node.getAttribute(name) !== text) node.setAttribute(name, text);
}

export function setText(node, text) {
  const whole = text ?? "";
  const wanted = whole.length > LONGEST ? `${whole.slice(0, LONGEST)}…` : whole;
  if (node.textContent !== wanted) node.textContent = wanted;
}

// setSymbols writes a formula: what follows a low line stands below.
export function setSymbols(node, text) {
  if (node.symbols === text) return;
  node.symbols = text;
  node.replaceChildren(...(text ?? "").split(/(_[a-z]+)/i).map((part, i) => (i % 2 ? el("sub", { text: part.slice(1) }) : part)));
}

// setNote writes a text into a node that is hidden while there is none.
export function setNote(node, text) {
  setText(node, text);
  show(node, Boolean(text));
}

export function show(node, visible) {
  if (node.hidden === visible) node.hidden = !visible;
}

export function byId(id) {
  return document.getElementById(id);
}

// keyed makes a parent's children follow a list: children are reused by key,
// so focus, caret and open state stay.
const kept = new WeakMap();

export function keyed(parent, items, key, make, update) {
  let nodes = kept.get(parent);
  if (!nodes) kept.set(parent, nodes = new Map());
  const seen = new Set();
  const keys = items.map((item, i) => {
    let k = key(item, i);
    while (seen.has(k)) k += "'";
    seen.add(k);
    return k;
  });
  for (const [k, node] of nodes) {
    if (!seen.has(k)) {
      node.remove();
      nodes.delete(k);
    }
  }
  let place = parent.firstChild;
  items.forEach((item, i) => {
    let node = nodes.get(keys[i]);
    if (!node) nodes.set(keys[i], node = make(item, i));
    if (node === place) place = place.nextSibling;
    else parent.insertBefore(node, place);
    update?.(node, item, i);
  });
}
