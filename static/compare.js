// What if: the plan as it was held, or another plan, beside the plan in work.

import { button, openDialog } from "./dialogs.js";
import { el } from "./dom.js";
import { makeMark } from "./marks.js";
import { announce, dismiss, notice } from "./messages.js";
import { workId } from "./plans.js";
import { say } from "./say.js";
import { askCompare, goBackTo, state } from "./state.js";

/** @typedef {import("./intake.js").Plan} Plan */

/** @type {Plan | null} */
let held = null; // the setting held, while the page is open
let heldOf = ""; // the plan it is of

// showWhatIf offers to hold the plan, or compares it with what was held.
export function showWhatIf() {
  const before = held;
  if (before && heldOf === workId()) {
    showCompared(before, say("Held"), () => [
      button(say("Go back to what was held"), () => goBackTo(before), "edits", { "data-do": "go-back" }),
      button(say("Hold the present setting instead"), hold),
      button(say("Stop comparing"), drop),
    ]);
    return;
  }
  const { body, close } = openDialog(say("What if?"));
  body.append(
    el("p", { text: say("Hold the plan as it is, change one thing, such as the anchor’s place, the tie’s height or the lean, and see both side by side.") }),
    el("p", { class: "quiet", text: say("It is held while this page stays open. To keep both, duplicate the plan under Plans.") }),
    el("div", { class: "actions" }, button(say("Hold this setting"), () => {
      hold();
      close();
    }, "main", { "data-do": "hold" })));
}

function hold() {
  held = state.plan;
  heldOf = workId();
  notice("held", say("Held. Now change the plan."), say("Compare"), showWhatIf);
  announce(say("Held. Now change the plan."));
}

function drop() {
  held = null;
  dismiss("held");
}

// showCompared shows a plan, which has a name, beside the plan in work. The actions
// close it.
/** @param {Plan} before @param {string} name @param {() => HTMLElement[]} [actions] */
export function showCompared(before, name, actions = () => []) {
  const view = askCompare(before);
  if (!view?.before) return; // the calculator has ended, and the page says so
  const { body, close } = openDialog(say("Side by side"), { wide: true });
  const side = (/** @type {compare.Side} */ { verdict, held: only, word }) => el("span", { class: "side" }, makeMark(only ? "held" : verdict), el("strong", { text: word }));
  const row = (/** @type {compare.Row} */ { label, before: then, now }) => el("tr", {}, el("th", { scope: "row", text: label }), el("td", { text: then }), el("td", { text: now }));
  const head = (/** @type {string} */ text) => el("tr", {}, el("th", { scope: "colgroup", colspan: "3", class: "part", text }));
  body.append(el("table", { class: "compared" },
    el("thead", {}, el("tr", {}, el("td"), el("th", { scope: "col", text: name }), el("th", { scope: "col", text: say("Now") }))),
    el("tbody", {}, el("tr", { class: "verdicts" }, el("th", { scope: "row", text: say("Verdict") }), el("td", {}, side(view.before)), el("td", {}, side(view.now)))),
    view.fields.length ? el("tbody", {}, head(say("Changed")), ...view.fields.map(row)) : null,
    view.results.length ? el("tbody", {}, head(say("What comes of it")), ...view.results.map(row)) : null));
  for (const text of [view.message, view.same, view.basis]) if (text) body.append(el("p", { class: "quiet", text }));
  const buttons = actions();
  for (const b of buttons) b.addEventListener("click", () => close());
  if (buttons.length) body.append(el("div", { class: "actions" }, ...buttons));
}
