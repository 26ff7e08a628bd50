// The crew's measured pulls against what was computed, and what is offered for
// the plan in work.

import { button, openDialog } from "./dialogs.js";
import { el } from "./dom.js";
import { announce } from "./messages.js";
import { say } from "./say.js";
import { askPulls, takeChanges } from "./state.js";
import { placeFacts } from "./tables.js";

// showPulls compares the pulls of all plans given; done is called once an offer
// was taken.
/** @param {import("./intake.js").Plan[]} plans @param {() => void} done */
export function showPulls(plans, done) {
  const view = askPulls(plans);
  if (!view?.rows) return; // the calculator has ended, and the page says so
  const { body, close } = openDialog(say("Measured against computed"));
  const facts = el("dl", { class: "facts" });
  placeFacts(facts, view.facts, true);
  body.append(...view.words.map((text) => el("p", { text })), facts);
  for (const offer of view.offers) {
    body.append(el("section", { class: "send-part" }, el("p", { text: offer.words }),
      el("div", { class: "actions" }, button(offer.label, () => {
        takeChanges(offer.changes);
        close();
        announce(say("The plan was changed."));
        done();
      }, "main"))));
  }
  if (!view.rows.length) return;
  const head = [say("Plan"), say("Measured"), say("Computed"), say("Ratio")];
  body.append(el("table", { class: "pulls" },
    el("thead", {}, el("tr", {}, ...head.map((text) => el("th", { scope: "col", text })))),
    el("tbody", {}, ...view.rows.map((r) => el("tr", {}, el("th", { scope: "row", text: r.name }), ...[r.measured, r.computed, r.ratio].map((text) => el("td", { text })))))));
}
