// What the browser promises about keeping the page and its plans: storage
// that may be taken away, and installing the page.

import { button } from "./dialogs.js";
import { byId, el, setText, show } from "./dom.js";
import { announce } from "./messages.js";
import { say } from "./say.js";
import { lasting } from "./storage.js";

/** @type {BeforeInstallPromptEvent | null} */
let prompt = null; // the browser's offer to install the page
/** @type {(() => void)[]} */
const listeners = [];

// startInstalling listens for the browser's offer and shows it as a button.
export function startInstalling() {
  const place = byId("install");
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    prompt = event;
    show(place, true);
    for (const listener of listeners) listener();
  });
  addEventListener("appinstalled", () => {
    prompt = null;
    show(place, false);
    announce(say("Installed on this device."));
  });
  place.addEventListener("click", install);
}

async function install() {
  const offer = prompt;
  prompt = null;
  show(byId("install"), false);
  try {
    await offer?.prompt();
  } catch {
    // the browser has taken its offer back
  }
}

// standing gives "kept", "at risk", or "visit" where nothing is kept.
async function standing() {
  if (!await lasting()) return "visit";
  try {
    return await navigator.storage.persisted() ? "kept" : "at risk";
  } catch {
    return "at risk";
  }
}

const WORDS = {
  kept: say("Your plans stay on this device until you delete them. Save a backup too, in case the phone is lost or broken."),
  "at risk": say("The browser may delete your plans if storage runs short or you do not open this page for some weeks. To keep them: install the page, ask the browser to keep them, and save a backup now and then."),
  visit: say("This browser keeps nothing: your plans are gone when you close this page. Save them to a file."),
};

// keepingPart gives the part of a panel that says how safe the plans are, and
// a line for further up that leads to it; more are buttons that belong to it.
/** @param {HTMLElement[]} more */
export function keepingPart(more) {
  const word = el("p", { class: "keeping-word" });
  const ask = button(say("Ask the browser to keep them"), async () => {
    let granted = false;
    try {
      granted = await navigator.storage.persist();
    } catch {
      // the browser does not know the question
    }
    await update();
    if (!granted) setText(word, say("The browser refused. It may agree once the page is installed or used more often. Save a backup to be sure."));
    announce(word.textContent ?? "");
  });
  const installing = button(say("Install this page"), () => {
    show(installing, false);
    install();
  });
  const part = el("section", { class: "keeping", "aria-label": say("Keeping the plans") },
    el("h3", { text: say("On this device") }), word, el("div", { class: "actions" }, ...more, ask, installing));
  const line = button("", () => {
    part.scrollIntoView({ block: "nearest" });
    part.querySelector("button")?.focus({ preventScroll: true });
  }, "link keeping-line", { hidden: true });
  async function update() {
    const now = await standing();
    part.dataset.keeping = now;
    setText(word, WORDS[now]);
    setText(line, now === "visit" ? say("Nothing is kept here: save your plans to a file") : say("The browser may delete your plans: how to keep them"));
    show(line, now !== "kept");
    show(ask, now === "at risk" && Boolean(navigator.storage?.persist));
    show(installing, prompt !== null);
  }
  listeners.push(update);
  update();
  return { part, line };
}
