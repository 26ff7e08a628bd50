// Plans as files: open, save, send, drop.

import { byId } from "./dom.js";
import { notice } from "./messages.js";

const BIGGEST = 5e6; // bytes; a plan is a few thousand

// readPlan gives the plan in a file, or null after saying what is wrong.
export async function readPlan(file) {
  if (file.size > BIGGEST) return refuse(file.name, "this file is too big to be a plan.");
  try {
    return parsePlan(file.name, await file.text());
  } catch {
    return refuse(file.name, "this file cannot be read.");
  }
}

// parsePlan gives the plan in a text, or null after saying what is wrong.
export function parsePlan(name, text) {
  let plan;
  try {
    plan = JSON.parse(text);
  } catch {
    return refuse(name, "this is not a plan. A plan is a JSON file, as saved by this page.");
  }
  if (plan === null || typeof plan !== "object" || Array.isArray(plan)) {
    return refuse(name, "this is not a plan, although it is JSON.");
  }
  return plan;
}

function refuse(name, why) {
  notice("file", `${name}: ${why} Nothing was changed.`);
  return null;
}

export function planText(plan) {
  return `${JSON.stringify(plan, null, 2)}\n`;
}

function asFile(plan) {
  const name = String(plan.name || "plan").normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60).toLowerCase() || "plan";
  return new File([planText(plan)], `${name}.json`, { type: "application/json" });
}

// savePlanFile hands the plan to the browser's downloads.
export function savePlanFile(plan) {
  const file = asFile(plan);
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}

export function canSend() {
  try {
    return Boolean(navigator.canShare?.({ files: [asFile({})] }));
  } catch {
    return false;
  }
}

export async function sendPlan(plan) {
  try {
    await navigator.share({ files: [asFile(plan)], title: plan.name || "Plan" });
  } catch (err) {
    if (err.name !== "AbortError") notice("file", "The plan could not be sent from here. Save it to a file instead.");
  }
}

// takeFiles calls open with every file chosen or dropped on the page.
export function takeFiles(open) {
  const chooser = byId("plan-file");
  chooser.addEventListener("change", () => {
    const file = chooser.files[0];
    chooser.value = "";
    if (file) open(file);
  });
  const hasFiles = (event) => event.dataTransfer?.types.includes("Files");
  document.addEventListener("dragover", (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = "copy";
  });
  document.addEventListener("drop", (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file) open(file);
  });
  return () => chooser.click();
}
