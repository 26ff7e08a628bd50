// The one table of what an address of this page can say, and the reading and
// writing of such addresses. README documents the same table.

const SWITCH = ["on", "off"];

// The parameters: name, what is accepted (a list, or in words), the default
// ("" where it is not one of the accepted) and what it does.
export const PARAMETERS = [
  { name: "view", allowed: ["job", "bench", "fall", "practice", "model"], standard: "job", words: "What is shown: the job, a bench, the fall, practice, or the model in words" },
  { name: "bench", accepts: "the name of a bench", standard: "", words: "Which bench is shown; without it the first" },
  { name: "values", accepts: "name:value pairs with commas between, each name once", standard: "", words: "The values of the bench, in the units of their names" },
  { name: "plan", accepts: "example, or the code of a plan from “Send this plan”", standard: "", words: "The plan shown; it is kept only once it is changed" },
  { name: "seed", accepts: "a number or a short text", standard: "1", words: "Which practice sheet: the same number gives the same sheet" },
  { name: "grade", allowed: ["1", "2", "3", "4", "5", "mixed"], standard: "1", words: "The grade of the practice sheet" },
  { name: "units", allowed: ["kN", "tf", "us"], standard: "", words: "Units; without it as chosen on this device" },
  { name: "words", allowed: ["nz", "uk", "us"], standard: "", words: "Words of the trade; without it as chosen on this device" },
  { name: "theme", allowed: ["light", "dark", "auto"], standard: "", words: "Light or dark; without it as chosen on this device" },
  { name: "projector", allowed: SWITCH, standard: "off", words: "Large, for a projector" },
  { name: "guess", allowed: SWITCH, standard: "off", words: "Guess first: a bench holds its numbers back until its question is answered" },
  { name: "handles", allowed: SWITCH, standard: "on", words: "Handles to drag in the pictures" },
  { name: "readonly", allowed: SWITCH, standard: "off", words: "Read only: nothing can be changed" },
];

// accepted says what a parameter takes.
export function accepted(parameter) {
  return parameter.allowed ? parameter.allowed.join(", ") : parameter.accepts;
}

// readAddress gives { given, problems }: the parameters of a query string by
// name, those that cannot be used left out, and a sentence for each of these.
export function readAddress(search) {
  const given = {};
  const problems = [];
  for (const [name, text] of new URLSearchParams(search)) {
    const parameter = PARAMETERS.find((p) => p.name === name);
    if (!parameter) {
      problems.push(`The address has “${cut(name)}”, which is none of its parameters: ${PARAMETERS.map((p) => p.name).join(", ")}. It was left out.`);
    } else if (name in given) {
      problems.push(`The address gives “${name}” more than once. The first, “${cut(given[name])}”, is used.`);
    } else if (parameter.allowed ? !parameter.allowed.includes(text) : name === "values" && !readValues(text)) {
      problems.push(wrong(name, text));
    } else {
      given[name] = text;
    }
  }
  return { given, problems };
}

// wrong says what is wrong with a parameter, and what is used in its place.
export function wrong(name, text, takes = accepted(PARAMETERS.find((p) => p.name === name))) {
  const { standard } = PARAMETERS.find((p) => p.name === name);
  return instead(name, text, `Accepted: ${takes}.`, standard || "the default");
}

// instead says what an address gives that cannot be used, why, and what is
// taken in its place.
export function instead(name, text, why, taken) {
  return `The address gives “${cut(text)}” for “${name}”. ${why} Used instead: ${taken}.`;
}

// addressOf gives the query string of what is shown, a text for each
// parameter; those at their default are left out. "" where nothing is left.
export function addressOf(shown) {
  const parts = PARAMETERS.filter((p) => shown[p.name] && shown[p.name] !== p.standard)
    .map((p) => `${p.name}=${encodeURIComponent(shown[p.name]).replaceAll("%3A", ":").replaceAll("%2C", ",")}`);
  return parts.length ? `?${parts.join("&")}` : "";
}

// readValues reads "included_deg:60,tension_kN:20"; null where it is no such
// text. A comma or a percent sign inside a value is written %2C or %25.
export function readValues(text) {
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
export function writeValues(values) {
  return Object.entries(values).map(([key, value]) => `${key}:${value.replace(/[%,]/g, encodeURIComponent)}`).join(",");
}

function cut(text) {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
