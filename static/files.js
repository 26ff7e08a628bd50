// Plans as files: choose, drop, save.

import { byId, within } from "./dom.js";

/** @param {object} plan */
export function planText(plan) {
  return `${JSON.stringify(plan, null, 2)}\n`;
}

/** @param {import("./intake.js").Plan} plan */
export function asFile(plan) {
  const name = String(plan.name || "plan").normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60).toLowerCase() || "plan";
  return new File([planText(plan)], `${name}.json`, { type: "application/json" });
}

// savePlanFile hands the plan to the browser's downloads.
/** @param {import("./intake.js").Plan} plan */
export function savePlanFile(plan) {
  save(asFile(plan));
}

/** @param {string} name @param {string} text */
export function saveText(name, text, type = "application/json") {
  save(new File([text], name, { type }));
}

/** @param {File} file */
function save(file) {
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}

// fileToSend gives the plan as a file that this device can send, or null.
// Many send no JSON files; a text file they do.
/** @param {import("./intake.js").Plan} plan */
export function fileToSend(plan) {
  const json = asFile(plan);
  const text = new File([json], json.name.replace(/json$/, "txt"), { type: "text/plain" });
  try {
    return [json, text].find((file) => navigator.canShare?.({ files: [file] })) ?? null;
  } catch {
    return null;
  }
}

// takeFiles calls open with every file chosen or dropped on the page, and
// openText with a text or link dropped. It gives a function that lets the
// person choose a file, for another purpose too.
/** @param {(file: File) => void} open @param {(text: string) => void} openText */
export function takeFiles(open, openText) {
  let then = open;
  const chooser = byId("plan-file", HTMLInputElement);
  chooser.addEventListener("change", () => {
    const file = chooser.files?.[0];
    chooser.value = "";
    if (file) then(file);
  });
  // taken gives what is dragged over the page, where the page takes it.
  const taken = (/** @type {DragEvent} */ event) => {
    const types = event.dataTransfer?.types ?? [];
    return types.includes("Files") || types.includes("text/plain") && !within(event, "input, textarea") ? event.dataTransfer : null;
  };
  document.addEventListener("dragover", (event) => {
    const data = taken(event);
    if (!data) return;
    event.preventDefault();
    data.dropEffect = "copy";
  });
  document.addEventListener("drop", (event) => {
    const data = taken(event);
    if (!data) return;
    event.preventDefault();
    const file = data.files[0];
    if (file) open(file);
    else openText(data.getData("text/plain"));
  });
  return (purpose = open) => {
    then = purpose;
    chooser.click();
  };
}
