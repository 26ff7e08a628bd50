// What the page says: aloud for those who do not see it, in bars under the
// verdict, and as questions.

import { byId, el, setText } from "./dom.js";

let last = 0;

// say speaks a sentence to screen readers. Of many in a row the last is said.
export function say(text) {
  clearTimeout(last);
  last = setTimeout(() => setText(byId("live"), text), 250);
}

// notice shows a bar; it stays until it is closed or its button is pressed.
// A notice with the same id takes the place of the one before.
export function notice(id, text, button, press) {
  dismiss(id);
  const bar = el("div", { class: "bar", "data-bar": id, role: "status" }, el("p", { text }));
  if (button) bar.append(el("button", { type: "button", text: button, on: { click: () => press() } }));
  bar.append(el("button", { type: "button", class: "plain", text: "Close", on: { click: () => bar.remove() } }));
  byId("bars").append(bar);
}

export function dismiss(id) {
  for (const bar of byId("bars").children) {
    if (bar.dataset.bar === id) bar.remove();
  }
}

// ask puts a question and gives a promise of yes or no.
export function ask(title, text, yes, no = "Keep this plan") {
  return new Promise((answer) => {
    const titleId = "question-title";
    const dialog = el("dialog", { "aria-labelledby": titleId });
    const close = (value) => {
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
