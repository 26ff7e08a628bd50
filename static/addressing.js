// The panel with the address of what is shown, and all that an address can say.

import { PARAMETERS, accepted, addressOf } from "./address.js";
import { button, openDialog } from "./dialogs.js";
import { el, setNote } from "./dom.js";
import { shown } from "./place.js";
import { say } from "./say.js";
import { area, copy } from "./sending.js";
import { planCode } from "./share.js";
import { state } from "./state.js";

// addressNow gives the whole address of what is shown; in a frame made of
// text, which has no address, the part that says what is shown. A plan of
// one's own goes along in the fragment, which no server is told.
/** @param {ReturnType<typeof shown>} now */
async function addressNow(now) {
  const query = addressOf(now);
  const code = ofPlan(now) && !now.plan ? `#plan=${await planCode(state.plan)}` : "";
  return (/^(https?|file):$/.test(location.protocol) ? location.href.replace(/[?#].*$/s, "") : "") + query + code;
}

/** @param {{ view: string }} now */
function ofPlan({ view }) {
  return view === "job" || view === "fall";
}

// showAddress opens the panel.
export async function showAddress() {
  const now = shown();
  if (ofPlan(now) && state.origin === "example") now.plan = "example";
  const address = await addressNow(now);
  const { body } = openDialog(say("Address of this view"));
  const word = el("p", { class: "sent-word", role: "status", hidden: true });
  const box = area(address, 3, say("Address"));
  box.id = "view-address";
  body.append(
    el("p", { text: say("Anyone who opens this address sees the same view. Defaults are left out.") }), box,
    address.includes("#") ? el("p", { class: "quiet", text: say("The plan is in the part after the #, which is not sent to the website. Anyone who opens the address is asked before the plan opens.") }) : "",
    el("div", { class: "actions" }, button(say("Copy address"), () => copy(box, (text) => setNote(word, text)), "main", { "data-do": "copy-address" })), word,
    el("h3", { text: say("Parameters of the address") }),
    el("dl", { class: "parameters" }, ...PARAMETERS.map((p) => el("div", { "data-parameter": p.name },
      el("dt", {}, el("code", { text: p.name })),
      el("dd", {}, el("strong", {}, now[p.name] || p.standard ? el("code", { text: now[p.name] || p.standard }) : say("default"))),
      el("dd", { text: p.words }),
      el("dd", { class: "quiet", text: say("Accepted: {takes}", { takes: accepted(p) }) })))));
}
