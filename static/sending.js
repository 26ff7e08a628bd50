// Sending the plan in work: as a file, as a link, as text. All of it works
// without a signal; the link holds the whole plan itself.

import { button, openDialog } from "./dialogs.js";
import { el, setText, show, svg } from "./dom.js";
import { fileToSend, planText, savePlanFile } from "./files.js";
import { nameOf } from "./intake.js";
import { announce } from "./messages.js";
import { say, sayCount } from "./say.js";
import { linkFor, pageAddress, planCode } from "./share.js";
import { ask } from "./state.js";

// One text message takes 160 characters of the basic alphabet (3GPP TS
// 23.038 and 23.040); a longer one goes in parts, which phones limit.
const TEXT_MESSAGE = 160;

/** @typedef {(text: string) => void} Said is told what came of it */

// showSending shows the ways to send a plan.
/** @param {import("./intake.js").Plan} plan */
export async function showSending(plan) {
  const code = await planCode(plan);
  const link = linkFor(code);
  const file = fileToSend(plan);
  const { body } = openDialog(say("Send this plan"));
  const word = el("p", { class: "sent-word", role: "status" });
  /** @type {Said} */
  const said = (text) => {
    setText(word, text);
    show(word, Boolean(text));
  };
  said("");

  body.append(
    el("p", { class: "quiet", text: say("“{name}”. Anyone who opens it sees what it is and is asked first.", { name: nameOf(plan) }) }), word,
    part(say("As a file"), say("Opens in this page on any device."),
      file ? button(say("Send the file"), () => share({ files: [file], title: nameOf(plan) }, said), "main", { "data-do": "send-file" }) : null,
      button(say("Save the file"), () => savePlanFile(plan), file ? "" : "main", { "data-do": "save-file" })));
  if (link) body.append(linkPart(link, plan, said));
  if (/^https?:/.test(link)) body.append(codesPart(plan));
  const text = area(planText(plan), 6, say("The plan as text"));
  const short = area(code, 3, say("The plan as a code"));
  body.append(
    el("details", { class: "send-more" }, el("summary", { text: say("As text to copy") }),
      el("p", { text: say("The code is shorter; the text can be read. Paste either under “Open a plan”.") }),
      el("h4", { text: sayCount(code.length, "Code, {n} character", "Code, {n} characters") }), short, el("div", { class: "actions" }, button(say("Copy the code"), () => copy(short, said), "", { "data-do": "copy-code" })),
      el("h4", { text: sayCount(text.value.length, "Text, {n} character", "Text, {n} characters") }), text, el("div", { class: "actions" }, button(say("Copy the text"), () => copy(text, said), "", { "data-do": "copy-text" }))));
}

/** @param {string} link @param {import("./intake.js").Plan} plan @param {Said} said */
function linkPart(link, plan, said) {
  const box = area(link, 3, say("Link"));
  box.id = "plan-link";
  const words = [sayCount(link.length, "The link holds the whole plan: {n} character.", "The link holds the whole plan: {n} characters.")];
  if (link.length > TEXT_MESSAGE) words.push(say("That is too long for a text message and may arrive cut off. Use email or a messaging app, or send the file."));
  if (location.protocol === "file:") words.push(say("This page is a file on this device, so the link works only where the same file is in the same place. To send the plan elsewhere, use the file or the code."));
  else if (/^(localhost|127\.|\[::1\])/.test(location.hostname)) words.push(say("This page is served from this device, so the link works only here."));
  return part(say("As a link"), words.join(" "), box,
    button(say("Copy the link"), () => copy(box, said), "", { "data-do": "copy-link" }),
    "share" in navigator && location.protocol !== "file:" ? button(say("Send the link"), () => share({ url: link, title: nameOf(plan) }, said), "", { "data-do": "send-link" }) : null);
}

// codesPart offers the link as a QR code to be read by another phone's camera.
/** @param {import("./intake.js").Plan} plan */
function codesPart(plan) {
  return part(say("As a QR code"), say("The other phone’s camera reads it. It needs no signal if that phone has this page stored."),
    button(say("Show the QR code"), () => showCodes(plan), "", { "data-do": "show-qr" }));
}

/** @param {import("./intake.js").Plan} plan */
async function showCodes(plan) {
  const code = await planCode(plan, { digits: true });
  const codes = ask("handover", { address: pageAddress(), code })?.codes ?? [];
  const { body } = openDialog(say("Point the other phone’s camera here"));
  body.classList.add("qr");
  if (codes.length) turn(body, codes, 0);
  else body.append(el("p", { text: say("This plan cannot be put into QR codes. Send it as a file.") }));
}

// turn shows one of several codes, and the ways to the others.
/** @param {HTMLElement} place @param {handover.Code[]} codes @param {number} at */
function turn(place, codes, at) {
  const { side, path } = codes[at];
  const words = say("QR code {n} of {all}", { n: at + 1, all: codes.length });
  place.replaceChildren(svg("svg", { viewBox: `0 0 ${side} ${side}`, role: "img", "aria-label": words }, svg("path", { d: path })));
  if (codes.length === 1) return;
  const to = (/** @type {string} */ text, /** @type {number} */ n) => button(text, () => {
    turn(place, codes, n);
    /** @type {HTMLElement | null} */ (place.querySelector(`button[data-do=${n < at ? "qr-before" : "qr-next"}]:enabled`))?.focus();
  }, "", { disabled: n < 0 || n === codes.length, "data-do": n < at ? "qr-before" : "qr-next" });
  place.append(el("p", { role: "status", text: say("{code}. That phone keeps each one it reads and opens the plan after the last.", { code: words }) }),
    el("div", { class: "actions" }, to(say("Previous code"), at - 1), to(say("Next code"), at + 1)));
}

/** @param {string} title @param {string} text @param {(HTMLElement | null)[]} rest */
function part(title, text, ...rest) {
  const buttons = rest.filter((node) => node?.localName === "button");
  return el("section", { class: "send-part" }, el("h3", { text: title }), el("p", { text }),
    ...rest.filter((node) => node?.localName !== "button"), el("div", { class: "actions" }, ...buttons));
}

// area makes a box of text to copy.
/** @param {string} text @param {number} rows @param {string} label */
export function area(text, rows, label) {
  const box = el("textarea", { rows: String(rows), readonly: true, spellcheck: "false", "aria-label": label });
  box.value = text;
  return box;
}

/** @param {ShareData} what @param {Said} said */
async function share(what, said) {
  try {
    await navigator.share(what);
  } catch (err) {
    if (!(err instanceof DOMException && err.name === "AbortError")) said(say("Could not send from here. Save the file and send that."));
  }
}

// copy copies the text of a box and says what came of it.
/** @param {HTMLTextAreaElement} box @param {Said} said */
export async function copy(box, said) {
  let done = false;
  try {
    await navigator.clipboard.writeText(box.value);
    done = true;
  } catch { // no clipboard here: the old way, and else by hand
    box.focus();
    box.select();
    done = document.execCommand?.("copy") ?? false;
  }
  const words = done ? say("Copied.") : say("Selected: copy it with your device’s copy command.");
  said(words);
  announce(words);
}
