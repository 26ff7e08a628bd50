// The page's memory between visits, on this device only. Where the browser
// denies it nothing is kept, and nothing fails.

const PLAN = "pullline.plan";
const SETTINGS = "pullline.settings";

function read(key) {
  try {
    return JSON.parse(globalThis.localStorage.getItem(key));
  } catch {
    return null;
  }
}

function write(key, value) {
  try {
    globalThis.localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

// loadPlan gives what savePlan kept: { plan, origin }, or null.
export function loadPlan() {
  const kept = read(PLAN);
  const good = kept && typeof kept === "object" && kept.plan && typeof kept.plan === "object" && !Array.isArray(kept.plan);
  return good ? { plan: kept.plan, origin: kept.origin === "example" ? "example" : "own" } : null;
}

export function savePlan(plan, origin) {
  return write(PLAN, { plan, origin });
}

export function loadSettings() {
  const kept = read(SETTINGS);
  return kept && typeof kept === "object" ? kept : {};
}

export function saveSettings(settings) {
  return write(SETTINGS, settings);
}
