// Panels over the page. The browser keeps the focus inside and gives it back
// where it came from; Escape closes.

import { el } from "./dom.js";
import { say, sayMoment } from "./say.js";

let last = 0;

/**
 * Shows a panel with a title: close(value) ends it, and closed is a promise of
 * the value.
 *
 * @param {string} title
 */
export function openDialog(title, { wide = false, closeWord = say("Close") } = {}) {
  const titleId = `dialog-${++last}`;
  const body = el("div", { class: "dialog-body" });
  /** @type {(value?: string | true) => void} */
  let close = () => {};
  const closed = new Promise((/** @type {(value?: string | true) => void} */ done) => {
    close = (value) => {
      if (!dialog.isConnected) return;
      dialog.close();
      dialog.remove();
      done(value);
    };
  });
  const dialog = el("dialog", { class: wide ? "panel wide" : "panel", "aria-labelledby": titleId },
    el("div", { class: "dialog-head" },
      el("h2", { id: titleId, text: title, tabindex: "-1", autofocus: true }),
      el("button", { type: "button", class: "dialog-close", text: closeWord, on: { click: () => close() } })),
    body);
  dialog.addEventListener("cancel", (event) => {
    event.preventDefault();
    close();
  });
  // A frame as tall as its page has no middle that is in sight: there the
  // panel stands by what opened it.
  dialog.style.setProperty("--from", `${document.activeElement?.getBoundingClientRect().top ?? 0}px`);
  document.body.append(dialog);
  dialog.showModal();
  return { dialog, body, close, closed };
}

// askLine asks for one line of text and gives a promise of it, or null.
/** @param {string} title @param {string} label @param {string} value @param {string} yes */
export function askLine(title, label, value, yes) {
  const { body, close, closed } = openDialog(title, { closeWord: say("Leave it") });
  const box = el("input", { type: "text", autocomplete: "off", maxlength: "200" });
  box.value = value;
  const done = () => close(box.value.trim());
  box.addEventListener("keydown", (event) => {
    if (event.key === "Enter") done();
  });
  body.append(el("label", { class: "dialog-field" }, el("span", { text: label }), box),
    el("div", { class: "actions" }, button(yes, done, "main")));
  box.focus();
  box.select();
  return closed.then((given) => (typeof given === "string" ? given : null));
}

/**
 * @param {string} text
 * @param {(event: MouseEvent) => void} press
 * @param {string} kind
 * @param {import("./dom.js").Props} props
 * @param {Node[]} children
 */
export function button(text, press, kind = "", props = {}, ...children) {
  return el("button", { type: "button", class: kind || null, text, on: { click: press }, ...props }, ...children);
}

// when writes a moment of a record, which may have none.
/** @param {number} ms */
export function when(ms) {
  return Number.isFinite(ms) && ms > 0 ? sayMoment(ms) : say("date not known");
}
