// The panel with the code that puts the view shown into a course website.

import { PARAMETERS, addressOf } from "./address.js";
import { button, openDialog } from "./dialogs.js";
import { byId, el, setNote } from "./dom.js";
import { shown } from "./place.js";
import { say } from "./say.js";
import { area, copy } from "./sending.js";
import { planCode } from "./share.js";
import { state } from "./state.js";

const STEP = 50; // px: a height is rounded up to this, for a line or two more

// showSnippet opens the panel.
export async function showSnippet() {
  const parameters = await present();
  const web = /^https?:$/.test(location.protocol);
  const folder = web ? new URL(".", location.href).href : "";
  const title = titleNow();
  const element = `<script src="${folder}embed.js" async></script>\n<pull-line-view${attributes({ title, ...parameters })}></pull-line-view>`;
  const frame = `<iframe${attributes({
    src: `${folder}pullline.html${addressOf(parameters)}`, title, sandbox: "allow-scripts", loading: "lazy", referrerpolicy: "no-referrer",
    width: "100%", height: `${heightNow()}`, style: "border: 0", // the size as attributes: many websites take away styles
  })}></iframe>`;

  const { body } = openDialog(say("This view on a course website"), { wide: true });
  const word = el("p", { class: "sent-word", role: "status", hidden: true });
  const said = (/** @type {string} */ text) => setNote(word, text);
  /** @type {(heading: string, text: string, code: string, id: string) => HTMLElement} */
  const part = (heading, text, code, id) => {
    const box = area(code, Math.min(9, 2 + Math.ceil(code.length / (innerWidth < 700 ? 28 : 90))), heading);
    box.id = id;
    return el("section", { class: "send-part" }, el("h3", { text: heading }), el("p", { text }), box,
      el("div", { class: "actions" }, button(say("Copy"), () => copy(box, said), "main", { "data-do": `copy-${id}` })));
  };
  body.append(
    el("p", { text: say("The view as it is now: values, units, trade terms, and the question if “Guess first” is on. Copy one of the two into your page.") }), word,
    part(say("The element"), say("It grows to the height of the view and reports the answers to the page. Put the script on a page once, however many views it has."), element, "snippet-element"),
    part(say("A plain frame"), say("For websites that allow a frame but no script. Its height is the view’s height here: change it if the view is cut off."), frame, "snippet-frame"));
  if (!web) {
    body.append(el("p", { class: "warn", text: say("This page was opened from a file. Put embed.js and pullline.html beside your course page, or give their full address.") }));
  } else if (/^(localhost|127\.|\[::1\])/.test(location.hostname)) {
    body.append(el("p", { class: "warn", text: say("This page is served from this device, so the code works only here. Copy it from the page’s own website.") }));
  }
}

// present gives the parameters of the view by name, those at their default
// left out.
async function present() {
  const now = shown();
  if (now.view === "job" || now.view === "fall") now.plan = state.origin === "example" ? "example" : await planCode(state.plan);
  return Object.fromEntries(PARAMETERS.filter((p) => now[p.name] && now[p.name] !== p.standard).map((p) => [p.name, now[p.name]]));
}

/** @param {import("./address.js").Given} all */
function attributes(all) {
  return Object.entries(all).map(([name, value]) => ` ${name}="${value.replaceAll("&", "&amp;").replaceAll('"', "&quot;")}"`).join("");
}

function sectionNow() {
  const { view } = shown();
  return byId(view === "job" ? "main" : `view-${view}`);
}

function titleNow() {
  const { view } = shown();
  return (view === "job" ? "" : sectionNow().querySelector("h2")?.textContent?.trim()) || say("Pull-line calculator");
}

function heightNow() {
  return Math.ceil(sectionNow().offsetHeight / STEP) * STEP;
}
