// The one table of what an address of this page can say, and the reading and
// writing of such addresses. README documents the same table.

import { say } from "./say.js";

const SWITCH = ["on", "off"];

/**
 * What an address says, a text for each parameter by its name.
 *
 * @typedef {{ [name: string]: string }} Given
 */

/**
 * The parameters: name, what is accepted (a list, or in words), the default
 * ("" where it is not one of the accepted) and what it does.
 *
 * @typedef {{ name: string, allowed?: string[], accepts?: string, standard: string, words: string }} Parameter
 * @type {Parameter[]}
 */
export const PARAMETERS = [
  { name: "view", allowed: ["job", "bench", "fall", "practice", "model"], standard: "job", words: say("View: the job, a bench, the fall, practice, or the model in words") },
  { name: "bench", accepts: say("the name of a bench"), standard: "", words: say("Bench; the first if left out") },
  { name: "values", accepts: say("name:value pairs separated by commas, each name once"), standard: "", words: say("Values of the bench, in the units their names end in") },
  { name: "plan", accepts: say("example, or the code of a plan from “Send this plan”"), standard: "", words: say("Plan to show; kept only once it is changed") },
  { name: "seed", accepts: say("a number or short text"), standard: "1", words: say("Practice sheet: the same number gives the same sheet") },
  { name: "grade", allowed: ["1", "2", "3", "4", "5", "mixed"], standard: "1", words: say("Grade of the practice sheet") },
  { name: "units", allowed: ["kN", "tf", "us"], standard: "", words: say("Units; as set on this device if left out") },
  { name: "words", allowed: ["nz", "uk", "us"], standard: "", words: say("Trade terms; as set on this device if left out") },
  { name: "theme", allowed: ["light", "dark", "auto"], standard: "", words: say("Light or dark; as set on this device if left out") },
  { name: "projector", allowed: SWITCH, standard: "off", words: say("Projector mode: everything large") },
  { name: "guess", allowed: SWITCH, standard: "off", words: say("Guess first: a bench hides its numbers until its question is answered") },
  { name: "handles", allowed: SWITCH, standard: "on", words: say("Handles to drag in the drawings") },
  { name: "readonly", allowed: SWITCH, standard: "off", words: say("Read only: nothing can be changed") },
];

// accepted says what a parameter takes.
/** @param {Parameter | undefined} parameter */
export function accepted(parameter) {
  return parameter?.allowed?.join(", ") ?? parameter?.accepts ?? "";
}

// readAddress gives { given, problems }: the parameters of a query string by
// name, those that cannot be used left out, and a sentence for each of these.
/** @param {string} search */
export function readAddress(search) {
  /** @type {Given} */
  const given = {};
  const problems = [];
  for (const [name, text] of new URLSearchParams(search)) {
    const parameter = PARAMETERS.find((p) => p.name === name);
    if (!parameter) {
      problems.push(say("“{name}” in the address was ignored: it must be one of {names}.", { name: cut(name), names: PARAMETERS.map((p) => p.name).join(", ") }));
    } else if (name in given) {
      problems.push(say("The address gives “{name}” more than once. The first, “{first}”, is used.", { name, first: cut(given[name]) }));
    } else if (parameter.allowed ? !parameter.allowed.includes(text) : name === "values" && !readValues(text)) {
      problems.push(wrong(name, text));
    } else {
      given[name] = text;
    }
  }
  return { given, problems };
}

// wrong says what is wrong with a parameter, and what is used in its place.
/** @param {string} name @param {string} text */
export function wrong(name, text) {
  const parameter = PARAMETERS.find((p) => p.name === name);
  const standard = parameter?.standard ?? "";
  const values = { name, text: cut(text), takes: accepted(parameter), standard };
  return standard
    ? say("“{name}” in the address cannot be “{text}”. Accepted: {takes}. Used instead: {standard}.", values)
    : say("“{name}” in the address cannot be “{text}”. Accepted: {takes}. The default is used instead.", values);
}

// addressOf gives the query string of what is shown, a text for each
// parameter; those at their default are left out. "" where nothing is left.
/** @param {Given} shown */
export function addressOf(shown) {
  const parts = PARAMETERS.filter((p) => shown[p.name] && shown[p.name] !== p.standard)
    .map((p) => `${p.name}=${encodeURIComponent(shown[p.name]).replace(/%(3A|2C|3B)/g, decodeURIComponent)}`);
  return parts.length ? `?${parts.join("&")}` : "";
}

// readValues reads "included_deg:60,tension_kN:20"; null where it is no such
// text. A comma or a percent sign inside a value is written %2C or %25.
/** @param {string} text */
export function readValues(text) {
  /** @type {Given} */
  const values = Object.create(null); // whatever the names are
  for (const pair of text ? text.split(",") : []) {
    const [, key, value] = /^(\w+):(.*)$/s.exec(pair) ?? [];
    if (key === undefined || key in values) return null;
    try {
      values[key] = decodeURIComponent(value);
    } catch {
      return null;
    }
  }
  return values;
}

// writeValues writes values as readValues reads them.
/** @param {Given} values */
export function writeValues(values) {
  return Object.entries(values).map(([key, value]) => `${key}:${value.replace(/[%,]/g, encodeURIComponent)}`).join(",");
}

// cut shortens a text of an address for a message.
/** @param {string} text */
export function cut(text) {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
