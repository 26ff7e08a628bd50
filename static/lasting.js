// What the browser promises about keeping the page and its plans: storage
// that may be taken away, and installing the page.

import { button } from "./dialogs.js";
import { byId, el, setText, show } from "./dom.js";
import { say } from "./messages.js";
import { lasting } from "./storage.js";

let prompt = null; // the browser's offer to install the page
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
    say("Installed on this device.");
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
  kept: "The plans stay on this device until you delete them. A backup still guards against a lost or broken phone.",
  "at risk": "The browser may delete these plans, when room runs short or when the page has not been opened for some weeks. To keep them: install the page, ask the browser, and save a backup now and then.",
  visit: "This browser keeps nothing here: the plans are gone when this page is closed. Save them to a file.",
};

// keepingPart gives the part of a panel that says how safe the plans are, and
// a line for further up that leads to it; more are buttons that belong to it.
export function keepingPart(more) {
  const word = el("p", { class: "keeping-word" });
  const ask = button("Ask the browser to keep them", async () => {
    let granted = false;
    try {
      granted = await navigator.storage.persist();
    } catch {
      // the browser does not know the question
    }
    await update();
    if (!granted) setText(word, "The browser did not agree. It may once the page is installed or used more often. A backup is the sure way.");
    say(word.textContent);
  });
  const installing = button("Install this page", () => {
    show(installing, false);
    install();
  });
  const part = el("section", { class: "keeping", "aria-label": "Keeping the plans" },
    el("h3", { text: "On this device" }), word, el("div", { class: "actions" }, ...more, ask, installing));
  const line = button("", () => {
    part.scrollIntoView({ block: "nearest" });
    part.querySelector("button").focus({ preventScroll: true });
  }, "link keeping-line", { hidden: true });
  async function update() {
    const now = await standing();
    part.dataset.keeping = now;
    setText(word, WORDS[now]);
    setText(line, now === "visit" ? "Nothing is kept here: save the plans to a file" : "The browser may delete these plans: how to keep them");
    show(line, now !== "kept");
    show(ask, now === "at risk" && Boolean(navigator.storage?.persist));
    show(installing, prompt !== null);
  }
  listeners.push(update);
  update();
  return { part, line };
}
