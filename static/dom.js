// Small helpers for building and updating the page. All text goes in as
// text, never as markup.

const LONGEST = 20000; // characters of a text that is shown; a longer one is cut
const SVG = "http://www.w3.org/2000/svg";

/**
 * What an element is made with: class, text, on (listeners), or any attribute;
 * a value of false, null or undefined leaves the attribute out.
 *
 * @typedef {string | number | boolean | null | undefined} Value
 * @typedef {{ [E in keyof HTMLElementEventMap]?: (event: HTMLElementEventMap[E]) => void }} Listeners
 * @typedef {{ [name: string]: Value | Listeners, text?: string | null, on?: Listeners }} Props
 * @typedef {Node | string | null | undefined} Child
 */

/**
 * Makes an element.
 *
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Props} [props]
 * @param {Child[]} children
 */
export function el(tag, props = {}, ...children) {
  return fill(document.createElement(tag), props, children);
}

/**
 * Makes an element of a picture.
 *
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag
 * @param {Props} [props]
 * @param {Child[]} children
 */
export function svg(tag, props = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

/** @template {Element} N @param {N} node @param {Props} props @param {Child[]} children */
function fill(node, { on = {}, text, ...attributes }, children) {
  for (const [event, listener] of Object.entries(on)) node.addEventListener(event, /** @type {EventListener} */ (listener));
  for (const [name, value] of Object.entries(attributes)) setAttr(node, name, /** @type {Value} */ (value));
  setText(node, text);
  node.append(...children.flatMap((c) => c ?? []));
  return node;
}

/** @param {Element} node @param {string} name @param {Value} value */
export function setAttr(node, name, value) {
  if (value === false || value === null || value === undefined) {
    if (node.hasAttribute(name)) node.removeAttribute(name);
    return;
  }
  const text = value === true ? "" : String(value);
  if (node.getAttribute(name) !== text) node.setAttribute(name, text);
}

/** @param {Node} node @param {string | null} [text] */
export function setText(node, text) {
  const whole = text ?? "";
  const wanted = whole.length > LONGEST ? `${whole.slice(0, LONGEST)}…` : whole;
  if (node.textContent !== wanted) node.textContent = wanted;
}

/** @type {WeakMap<Element, string>} */
const formulas = new WeakMap(); // as written last

// setSymbols writes a formula: what follows a low line stands below.
/** @param {Element} node @param {string} text */
export function setSymbols(node, text) {
  if (formulas.get(node) === text) return;
  formulas.set(node, text);
  node.replaceChildren(...text.split(/(_[a-z]+)/i).map((part, i) => (i % 2 ? el("sub", { text: part.slice(1) }) : part)));
}

// setNote writes a text into a node that is hidden while there is none.
/** @param {HTMLElement} node @param {string | null} [text] */
export function setNote(node, text) {
  setText(node, text);
  show(node, Boolean(text));
}

/** @param {HTMLElement} node @param {boolean} visible */
export function show(node, visible) {
  if (node.hidden === visible) node.hidden = !visible;
}

// byId gives an element of the page, of a kind where that matters.
/**
 * @template {HTMLElement} [T=HTMLElement]
 * @param {string} id
 * @param {new () => T} [kind]
 */
export function byId(id, kind = /** @type {new () => T} */ (HTMLElement)) {
  const node = document.getElementById(id);
  if (!(node instanceof kind)) throw new Error(`The page has no ${kind.name} “${id}”`);
  return node;
}

// within gives the element at or above an event's target that a selector is
// for, or null.
/** @param {Event} event @param {string} selector */
export function within(event, selector) {
  return event.target instanceof Element ? /** @type {(Element & HTMLOrSVGElement) | null} */ (event.target.closest(selector)) : null;
}

/** @type {WeakMap<Element, unknown>} */
const made = new WeakMap();

/**
 * Gives what make() made for a node when it was first asked for it.
 *
 * @template T
 * @param {Element} node
 * @param {() => T} make
 */
export function once(node, make) {
  if (!made.has(node)) made.set(node, make());
  return /** @type {T} */ (made.get(node));
}

/** @type {WeakMap<Element, Map<string, ChildNode>>} */
const kept = new WeakMap();

/**
 * Makes a parent's children follow a list: children are reused by key, so
 * focus, caret and open state stay.
 *
 * @template T
 * @template {ChildNode} N
 * @param {Element} parent
 * @param {T[]} items
 * @param {(item: T, i: number) => string} key
 * @param {(item: T, i: number) => N} make
 * @param {(node: N, item: T, i: number) => void} [update]
 */
export function keyed(parent, items, key, make, update) {
  let nodes = /** @type {Map<string, N> | undefined} */ (kept.get(parent));
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
  for (const [i, item] of items.entries()) {
    let node = nodes.get(keys[i]);
    if (!node) nodes.set(keys[i], node = make(item, i));
    if (node === place) place = node.nextSibling;
    else parent.insertBefore(node, place);
    update?.(node, item, i);
  }
}
