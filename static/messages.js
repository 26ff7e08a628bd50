// What the page says: aloud for those who do not see it, in bars under the
// verdict, and as questions.

import { byId, el, setText } from "./dom.js";
import { say } from "./say.js";

let last = 0;

// announce speaks a sentence to screen readers. Of many in a row the last is said.
/** @param {string} text */
export function announce(text) {
  clearTimeout(last);
  last = setTimeout(() => setText(byId("live"), text), 250);
}

// notice shows a bar; it stays until it is closed or its button is pressed.
// A notice with the same id takes the place of the one before.
/** @param {string} id @param {string} text @param {string} [button] @param {() => void} [press] */
export function notice(id, text, button, press) {
  dismiss(id);
  leavePassing();
  const bar = el("div", { class: "bar", "data-bar": id, role: "status" }, el("p", { text }));
  if (button) bar.append(el("button", { type: "button", text: button, on: { click: () => press?.() } }));
  bar.append(el("button", { type: "button", class: "plain", text: say("Close"), on: { click: () => bar.remove() } }));
  byId("bars").append(bar);
}

const PASSING = 8000; // ms, time to read a line twice
let leavePassing = () => {};

// passing shows a bar that goes by itself, or with the first thing done. It
// waits until no other bar stands and gives way to the next; may() is asked
// just before it shows.
/** @param {string} id @param {string} text @param {() => boolean} may */
export function passing(id, text, may) {
  const bars = byId("bars");
  let shown = false;
  const wait = new MutationObserver(look);
  wait.observe(bars, { childList: true });
  setTimeout(look);

  function look() {
    if (bars.children.length) return;
    setTimeout(() => { // what closed the last bar is not the first thing done under this one
      if (shown || bars.children.length) return;
      if (document.querySelector(".handle.held")) { // nothing moves while a handle is held
        setTimeout(look, PASSING);
        return;
      }
      shown = true;
      wait.disconnect();
      if (!may()) return;
      notice(id, text);
      const leave = leavePassing = () => {
        clearTimeout(timer);
        removeEventListener("click", leave);
        removeEventListener("keydown", leave);
        leavePassing = () => {};
        dismiss(id);
      };
      // A click, not the press that begins it: what moves under the finger
      // would be another thing than was meant.
      addEventListener("click", leave);
      addEventListener("keydown", leave);
      let timer = setTimeout(pass, PASSING);
      function pass() {
        if (document.querySelector(".handle.held")) timer = setTimeout(pass, PASSING);
        else leave();
      }
    });
  }
}

/** @param {string} id */
export function dismiss(id) {
  for (const bar of byId("bars").children) {
    if (bar.getAttribute("data-bar") === id) bar.remove();
  }
}

// ask puts a question and gives a promise of yes or no.
/**
 * @param {string} title
 * @param {string} text
 * @param {string} yes
 * @param {string} [no]
 * @returns {Promise<boolean>}
 */
export function ask(title, text, yes, no = say("Keep this plan")) {
  return new Promise((answer) => {
    const titleId = "question-title";
    const dialog = el("dialog", { "aria-labelledby": titleId });
    const close = (/** @type {boolean} */ value) => {
      dialog.close();
      dialog.remove();
      answer(value);
    };
    dialog.append(
      el("h2", { id: titleId, text: title }),
      el("p", { text }),
      el("div", { class: "actions" },
        el("button", { type: "button", class: "main", text: yes, on: { click: () => close(true) } }),
        el("button", { type: "button", text: no, autofocus: true, on: { click: () => close(false) } })));
    dialog.addEventListener("cancel", (event) => {
      event.preventDefault();
      close(false);
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
