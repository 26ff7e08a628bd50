// Texts from elsewhere: links, files, what was pasted or dropped. Nothing in
// them is trusted. What is too big, too deep or not JSON is refused with a
// sentence before anything else is done with it.

import { say, sayNumber } from "./say.js";

/**
 * A plan as it was typed or came from elsewhere: an object, and nothing more is
 * certain of it until the calculator has read it.
 *
 * @typedef {{ [key: string]: unknown }} Plan
 */

export const PLAN_BYTES = 262144; // the calculator reads no longer plan
export const FILE_BYTES = 20e6; // a file of many plans
const DEPTH = 64; // lists and objects in one another; a plan needs a handful
const VALUES = 20000; // in one plan
const NO_NAMES = new Set(["__proto__", "constructor", "prototype"]);

// A Refused error has a sentence for the person.
export class Refused extends Error {}

// reason is what the person is told of an error.
/** @param {unknown} err */
export function reason(err) {
  if (err instanceof Refused) return err.message;
  console.error(err);
  return say("The browser could not read or store it.");
}

// parse gives the object in a JSON text of at most so many characters.
/** @param {string} text */
export function parse(text, limit = PLAN_BYTES) {
  if (text.length > limit) throw new Refused(say("This is too long: {n} characters. The most that can be read is {most}.", { n: sayNumber(text.length), most: sayNumber(limit) }));
  if (tooDeep(text)) throw new Refused(say("This is not a plan: it is nested too deep."));
  let value;
  try {
    value = JSON.parse(text);
  } catch {
    throw new Refused(say("This is not a plan: it is not JSON, or part of it is missing."));
  }
  if (!isObject(value)) throw new Refused(say("This is JSON, but not a plan."));
  return value;
}

// checkPlan refuses an object that no plan can be.
/** @param {unknown} plan */
export function checkPlan(plan) {
  if (!isObject(plan)) throw new Refused(say("This is not a plan."));
  let values = 0;
  const waiting = [{ holder: /** @type {object} */ (plan), depth: 0 }];
  for (const { holder, depth } of waiting) {
    if (depth > DEPTH) throw new Refused(say("This is not a plan: it is nested too deep."));
    for (const [key, value] of Object.entries(holder)) {
      if (NO_NAMES.has(key)) throw new Refused(say("This is not a plan: it holds a name that no plan has."));
      if (++values > VALUES) throw new Refused(say("This is not a plan: it holds too many values."));
      if (value !== null && typeof value === "object") waiting.push({ holder: value, depth: depth + 1 });
    }
  }
  if (JSON.stringify(plan).length > PLAN_BYTES) throw new Refused(say("This plan is too long. The most that can be read is {most} characters.", { most: sayNumber(PLAN_BYTES) }));
  return plan;
}

// tooDeep counts brackets outside of texts, before anything is parsed.
/** @param {string} text */
function tooDeep(text) {
  let depth = 0;
  let inText = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (inText) {
      if (c === "\\") i++;
      else if (c === '"') inText = false;
    } else if (c === '"') {
      inText = true;
    } else if (c === "{" || c === "[") {
      if (++depth > DEPTH + 8) return true; // a file of plans wraps them
    } else if (c === "}" || c === "]") {
      depth--;
    }
  }
  return false;
}

/** @param {unknown} value @returns {value is { [key: string]: unknown }} */
export function isObject(value) {
  return value !== null && typeof value === "object" && !Array.isArray(value);
}

// same says whether two JSON values are the same, whatever the order of keys.
/** @param {unknown} a @param {unknown} b @returns {boolean} */
export function same(a, b) {
  if (a === b) return true;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((item, i) => same(item, b[i]));
  if (!isObject(a) || !isObject(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && same(a[key], b[key]));
}

// nameOf is the name of a plan as shown.
/** @param {Plan | null | undefined} plan */
export function nameOf(plan) {
  const name = typeof plan?.name === "string" ? plan.name.trim() : "";
  return name ? cut(name, 120) : say("Unnamed plan");
}

// copyName names a copy of a plan.
/** @param {Plan} plan */
export function copyName(plan) {
  return say("{name} (copy)", { name: nameOf(plan) });
}

/** @param {string} text @param {number} most */
export function cut(text, most) {
  return text.length > most ? `${text.slice(0, most - 1)}…` : text;
}
