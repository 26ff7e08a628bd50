// Opening what comes from elsewhere: a link, a code, a text, a file. What it
// is is shown first, and the person is asked; until then nothing changes.

import { isBackup, offerBackup, plural } from "./backup.js";
import { button, openDialog, when } from "./dialogs.js";
import { el } from "./dom.js";
import { FILE_BYTES, Refused, cut, nameOf, same } from "./intake.js";
import { makeMark } from "./marks.js";
import { dismiss, notice } from "./messages.js";
import { addPlan, listPlans, openRecord, replaceRecord, workId } from "./plans.js";
import { fromText, planFromCode } from "./share.js";
import { look } from "./state.js";

let asking = Promise.resolve(); // one question at a time

// offerPlan shows a plan and asks whether to open it.
function offerPlan(plan, from) {
  asking = asking.then(() => ask(plan, from)).catch((err) => refuse(from, err));
  return asking;
}

async function ask(plan, from) {
  const view = look(plan);
  const version = view?.problems?.find((p) => p.path === "version");
  if (version) throw new Refused(version.message);
  const records = (await listPlans()).filter((r) => !r.binned);
  const inWork = records.find((r) => r.id === workId());
  const twin = records.find((r) => r.revision > 0 && same(r.plan, plan));
  const alike = typeof plan.name === "string" && plan.name.trim() ? records.filter((r) => r.revision > 0 && nameOf(r.plan) === nameOf(plan)) : [];
  const named = alike.find((r) => r === inWork) ?? alike[0];

  const { body, close, closed } = openDialog("Open this plan?", { closeWord: "Leave it" });
  const row = (name, ...value) => el("div", {}, el("dt", { text: name }), el("dd", {}, ...value));
  const many = view?.problems?.length ?? 0;
  body.append(
    el("p", { class: "quiet", text: from }),
    el("dl", { class: "look" },
      row("Name", nameOf(plan)),
      row("Tree", view?.tree || "Not given"),
      row("Verdict", makeMark(view?.headline.held ? "held" : view?.headline.verdict ?? "unknown"), el("strong", { text: view?.headline.word ?? "Not known" })),
      row("Problems", many ? `${plural(many, "problem")}: ${cut(view.problems[0].message, 200)}` : "None"),
      typeof plan.notes === "string" && plan.notes.trim() ? row("Notes", cut(plan.notes.trim(), 300)) : ""));
  if (twin) {
    body.append(el("p", { text: `This plan is here already, just the same${twin.archived ? ", in the archive" : ""}. Nothing is replaced.` }),
      el("div", { class: "actions" }, button("Open the one here", () => close("twin"), "main")));
  } else {
    const stays = inWork && inWork.revision > 0 ? `“${nameOf(inWork.plan)}”, now in work, stays under Plans.` : "The plan in work has no changes to keep.";
    body.append(el("p", { text: `It is added as a plan of its own and nothing is replaced. ${stays}` }));
    const actions = el("div", { class: "actions" }, button("Open as a new plan", () => close("new"), "main"));
    if (named) {
      body.append(el("p", { text: `${named === inWork ? "The plan in work" : "Another plan here"} has the same name; it was changed ${when(named.changed)}. If this one takes its place, that one goes to the bin.` }));
      actions.append(button(named === inWork ? "Replace the one in work" : "Replace the one here", () => close("replace")));
    }
    body.append(actions);
  }
  const answer = await closed;
  if (!answer) return;
  if (answer === "twin") await openRecord(twin.id);
  else if (answer === "replace") await replaceRecord(named.id, plan);
  else await addPlan(plan);
  scrollTo({ top: 0 });
}

function refuse(from, err) {
  if (!(err instanceof Refused)) console.error(err);
  const why = err instanceof Refused ? err.message : "It cannot be read.";
  notice("file", `${from}: ${why} Nothing was changed.`);
}

// take opens a text of whatever kind; true when there was something to ask.
async function take(text, from, limit) {
  dismiss("file");
  const found = await fromText(text, isBackup, limit);
  if (isBackup(found)) return offerBackup(found, from);
  return offerPlan(found, from);
}

// openFile opens a plan or a file of plans.
export async function openFile(file) {
  const from = cut(String(file.name || "The file"), 80);
  try {
    if (file.size > FILE_BYTES) throw new Refused("This file is too big to be plans.");
    await take(await file.text(), from, FILE_BYTES);
  } catch (err) {
    refuse(from, err);
  }
}

// openText opens a text that was dropped on the page.
export async function openText(text) {
  try {
    await take(text, "The text", FILE_BYTES);
  } catch (err) {
    refuse("The text", err);
  }
}

// showOpening asks for a file or for a link, code or text.
export function showOpening(chooseFile) {
  const { body, close } = openDialog("Open a plan");
  const area = el("textarea", { rows: "5", spellcheck: "false", autocapitalize: "off", autocomplete: "off" });
  const wrong = el("p", { class: "warn", role: "alert", hidden: true });
  body.append(
    el("div", { class: "actions" }, button("Choose a file", () => {
      close();
      chooseFile();
    }, "main")),
    el("label", { class: "dialog-field" }, el("span", { text: "Or paste a link, a code or the text of a plan" }), area), wrong,
    el("div", { class: "actions" }, button("Look at it", async () => {
      try {
        const found = await fromText(area.value, isBackup);
        close();
        if (isBackup(found)) await offerBackup(found, "The text");
        else await offerPlan(found, "From the text you put in");
      } catch (err) {
        if (!(err instanceof Refused)) console.error(err);
        wrong.textContent = err instanceof Refused ? err.message : "It cannot be read.";
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
  if (!location.hash.startsWith("#plan=")) return;
  const code = location.hash.slice("#plan=".length);
  try {
    history.replaceState(history.state, "", location.href.replace(/#.*$/s, ""));
  } catch {
    // an address that cannot be changed: asking again does no harm
  }
  dismiss("file");
  try {
    await offerPlan(await planFromCode(code), "From a link");
  } catch (err) {
    refuse("The link", err);
  }
}
