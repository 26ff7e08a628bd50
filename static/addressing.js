// The panel with the address of what is shown, and all that an address can say.

import { PARAMETERS, accepted, addressOf } from "./address.js";
import { button, openDialog } from "./dialogs.js";
import { el, setNote } from "./dom.js";
import { shown } from "./place.js";
import { area, copy } from "./sending.js";

// addressNow is the whole address of what is shown; in a frame made of text,
// which has no address, the part that says what is shown.
export function addressNow() {
  const query = addressOf(shown());
  return /^(https?|file):$/.test(location.protocol) ? location.href.replace(/[?#].*$/s, "") + query : query;
}

// showAddress opens the panel and gives its body, for more to be put in.
export function showAddress() {
  const now = shown();
  const { body } = openDialog("Address of this view");
  const word = el("p", { class: "sent-word", role: "status", hidden: true });
  const box = area(addressNow(), 3, "The address");
  box.id = "view-address";
  body.append(
    el("p", { text: "Whoever opens this address sees the same view. What stands at its default is left out." }), box,
    el("div", { class: "actions" }, button("Copy the address", () => copy(box, (text) => setNote(word, text)), "main", { "data-do": "copy-address" })), word,
    el("h3", { text: "What an address can say" }),
    el("dl", { class: "parameters" }, ...PARAMETERS.map((p) => el("div", { "data-parameter": p.name },
      el("dt", {}, el("code", { text: p.name })),
      el("dd", {}, el("strong", { text: now[p.name] || p.standard || "the default" })),
      el("dd", { text: `${p.words}.` }),
      el("dd", { class: "quiet", text: `Accepted: ${accepted(p)}.` })))));
  return body;
}
