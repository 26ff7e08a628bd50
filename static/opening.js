// Opening what comes from elsewhere: a link, a code, a text, a file. What it
// is is shown first, and the person is asked; until then nothing changes.

import { isBackup, offerBackup } from "./backup.js";
import { button, openDialog, when } from "./dialogs.js";
import { el } from "./dom.js";
import { FILE_BYTES, Refused, cut, nameOf, reason, same } from "./intake.js";
import { makeMark } from "./marks.js";
import { dismiss, notice } from "./messages.js";
import { addPlan, listPlans, openRecord, replaceRecord, workId } from "./plans.js";
import { say, sayCount } from "./say.js";
import { fromText, planFromCode } from "./share.js";
import { look } from "./state.js";
import { keepParts, keptParts } from "./storage.js";

/** @typedef {import("./intake.js").Plan} Plan */

let asking = Promise.resolve(); // one question at a time

// offerPlan shows a plan and asks whether to open it.
/** @param {Plan} plan @param {string} from */
function offerPlan(plan, from) {
  asking = asking.then(() => ask(plan, from)).catch((err) => refuse(from, err));
  return asking;
}

/** @param {Plan} plan @param {string} from */
async function ask(plan, from) {
  const view = look(plan);
  const version = view?.problems?.find((p) => p.path === "version");
  if (version) throw new Refused(version.message);
  const records = (await listPlans()).filter((r) => !r.binned);
  const inWork = records.find((r) => r.id === workId());
  const twin = records.find((r) => r.revision > 0 && same(r.plan, plan));
  const alike = typeof plan.name === "string" && plan.name.trim() ? records.filter((r) => r.revision > 0 && nameOf(r.plan) === nameOf(plan)) : [];
  const named = alike.find((r) => r === inWork) ?? alike[0];

  const { body, close, closed } = openDialog(say("Open this plan?"), { closeWord: say("Leave it") });
  const row = (/** @type {string} */ name, /** @type {(Node | string)[]} */ ...value) => el("div", {}, el("dt", { text: name }), el("dd", {}, ...value));
  const problems = view?.problems ?? [];
  body.append(
    el("p", { class: "quiet", text: from }),
    el("dl", { class: "look" },
      row(say("Name"), nameOf(plan)),
      row(say("Tree"), view?.tree || say("Not given")),
      row(say("Verdict"), makeMark(view?.headline.held ? "held" : view?.headline.verdict ?? "unknown"), el("strong", { text: view?.headline.word ?? say("Not known") })),
      row(say("Problems"), problems.length ? sayCount(problems.length, "{n} problem: {first}", "{n} problems, the first: {first}", { first: cut(problems[0].message, 200) }) : say("None")),
      typeof plan.notes === "string" && plan.notes.trim() ? row(say("Notes"), cut(plan.notes.trim(), 300)) : ""));
  if (twin) {
    body.append(el("p", { text: twin.archived ? say("You already have this exact plan, in the archive.") : say("You already have this exact plan.") }),
      el("div", { class: "actions" }, button(say("Open yours"), () => close("twin"), "main")));
  } else {
    body.append(el("p", { text: inWork && inWork.revision > 0
      ? say("It is added as a new plan. “{name}”, your current plan, stays under Plans.", { name: nameOf(inWork.plan) })
      : say("It is added as a new plan. Your current plan has no changes to keep.") }));
    const actions = el("div", { class: "actions" }, button(say("Open as a new plan"), () => close("new"), "main"));
    if (named) {
      body.append(el("p", { text: named === inWork
        ? say("Your current plan has the same name. It was changed {when}. If you replace it, it goes to the bin.", { when: when(named.changed) })
        : say("Another of your plans has the same name. It was changed {when}. If you replace it, it goes to the bin.", { when: when(named.changed) }) }));
      actions.append(button(named === inWork ? say("Replace my current plan") : say("Replace my plan of that name"), () => close("replace")));
    }
    body.append(actions);
  }
  const answer = await closed;
  if (!answer) return;
  if (twin) await openRecord(twin.id);
  else if (answer === "replace" && named) await replaceRecord(named.id, plan);
  else await addPlan(plan);
  scrollTo({ top: 0 });
}

/** @param {string} from @param {unknown} err */
function refuse(from, err) {
  notice("file", say("{from}: {why} Nothing was changed.", { from, why: reason(err) }));
}

// take opens a text of whatever kind; true when there was something to ask.
/** @param {string} text @param {string} from @param {number} limit */
async function take(text, from, limit) {
  dismiss("file");
  const found = await fromText(text, isBackup, limit);
  if (isBackup(found)) return offerBackup(found, from);
  return offerPlan(found, from);
}

// openFile opens a plan or a file of plans.
/** @param {File} file */
export async function openFile(file) {
  const from = cut(String(file.name || say("The file")), 80);
  try {
    if (file.size > FILE_BYTES) throw new Refused(say("This file is too big to hold plans."));
    await take(await file.text(), from, FILE_BYTES);
  } catch (err) {
    refuse(from, err);
  }
}

// openText opens a text that was dropped on the page.
/** @param {string} text */
export async function openText(text) {
  try {
    await take(text, say("The text"), FILE_BYTES);
  } catch (err) {
    refuse(say("The text"), err);
  }
}

// showOpening asks for a file or for a link, code or text.
/** @param {() => void} chooseFile */
export function showOpening(chooseFile) {
  const { body, close } = openDialog(say("Open a plan"));
  const area = el("textarea", { rows: "5", spellcheck: "false", autocapitalize: "off", autocomplete: "off" });
  const wrong = el("p", { class: "warn", role: "alert", hidden: true });
  body.append(
    el("div", { class: "actions" }, button(say("Choose a file"), () => {
      close();
      chooseFile();
    }, "main")),
    el("label", { class: "dialog-field" }, el("span", { text: say("Or paste a link, a code or the text of a plan") }), area), wrong,
    el("div", { class: "actions" }, button(say("Check it"), async () => {
      try {
        const found = await fromText(area.value, isBackup);
        close();
        if (isBackup(found)) await offerBackup(found, say("The text"));
        else await offerPlan(found, say("From the text you pasted"));
      } catch (err) {
        wrong.textContent = reason(err);
        wrong.hidden = false;
      }
    }, "", { "data-do": "look" })));
}

// watchLinks opens the plan in the page's own address, now and later.
export function watchLinks() {
  addEventListener("hashchange", fromAddress);
  fromAddress();
}

async function fromAddress() {
  const [, what, given] = /^#(plan|part)=(.*)$/s.exec(location.hash) ?? [];
  if (!what) return;
  try {
    history.replaceState(history.state, "", location.href.replace(/#.*$/s, ""));
  } catch {
    // an address that cannot be changed: asking again does no harm
  }
  dismiss("file");
  try {
    const code = what === "plan" ? given : joined(given);
    if (code || what === "plan") await offerPlan(await planFromCode(code), what === "plan" ? say("From a link") : say("From QR codes"));
  } catch (err) {
    refuse(what === "plan" ? say("The link") : say("The QR code"), err);
  }
}

// joined takes one of several QR codes, "number.how many.head.part", and gives
// the code of the plan once all are in; "" before that.
/** @param {string} part */
function joined(part) {
  const [, number, many, head, digits] = /^(\d{1,3})\.(\d{1,3})\.(2[nm][0-9a-f]{8})\.(\d{1,3000})$/.exec(part) ?? [];
  if (!head || Number(number) < 1 || Number(number) > Number(many)) throw new Refused(say("It is damaged or incomplete. Scan it again."));
  const before = keptParts();
  const parts = before?.head === head && before.many === many ? before : { head, many, got: {} };
  parts.got[number] = digits;
  const left = Array.from({ length: Number(many) }, (_, i) => String(i + 1)).filter((n) => !parts.got[n]);
  if (!left.length) {
    keepParts(null);
    return head + Object.keys(parts.got).sort((a, b) => Number(a) - Number(b)).map((n) => parts.got[n]).join("");
  }
  if (!keepParts(parts)) throw new Refused(say("Nothing can be kept in this browser, so a plan in several QR codes cannot be put together here. Ask for it as a file."));
  notice("file", left.length === 1
    ? say("Code {number} of {many} is in. Scan code {next} to open the plan.", { number, many, next: left[0] })
    : say("Code {number} of {many} is in. Scan code {next} next.", { number, many, next: left[0] }));
  return "";
}
