// Plans as files: choose, drop, save.

import { byId } from "./dom.js";

export function planText(plan) {
  return `${JSON.stringify(plan, null, 2)}\n`;
}

export function asFile(plan) {
  const name = String(plan.name || "plan").normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60).toLowerCase() || "plan";
  return new File([planText(plan)], `${name}.json`, { type: "application/json" });
}

// savePlanFile hands the plan to the browser's downloads.
export function savePlanFile(plan) {
  save(asFile(plan));
}

export function saveText(name, text, type = "application/json") {
  save(new File([text], name, { type }));
}

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
export function takeFiles(open, openText) {
  let then = open;
  const chooser = byId("plan-file");
  chooser.addEventListener("change", () => {
    const file = chooser.files[0];
    chooser.value = "";
    if (file) then(file);
  });
  const takes = (event) => {
    const types = event.dataTransfer?.types ?? [];
    return types.includes("Files") || types.includes("text/plain") && !event.target.closest?.("input, textarea");
  };
  document.addEventListener("dragover", (event) => {
    if (!takes(event)) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = "copy";
  });
  document.addEventListener("drop", (event) => {
    if (!takes(event)) return;
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file) open(file);
    else openText(event.dataTransfer.getData("text/plain"));
  });
  return (purpose = open) => {
    then = purpose;
    chooser.click();
  };
}
