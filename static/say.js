// What the page says by itself, in the user's language. Each sentence stands,
// whole and in English, where it is said; that English is its key in the table
// of another language. What the calculator says, it says in the language itself.

import { keptLanguage } from "./storage.js";

/**
 * Of a language: the locale of its numbers, dates and plurals, and what it has
 * for an English text. For one that counts that may be a text for each category
 * of Intl.PluralRules.
 *
 * @typedef {{locale: string, table: Record<string, string | Record<string, string>>}} Language
 */

/** @type {Record<string, Language>} */
const LANGUAGES = {
  en: { locale: "en-GB", table: {} },
  // Made up, for tests, as the calculator has it: every text is marked and a
  // third longer.
  "x-long": { locale: "en-GB", table: new Proxy({}, { get: (_, english) => longer(String(english)) }) },
};

/** The language of the page, by its key. It is settled before anything is shown. */
export const language = [keptLanguage(), ...navigator.languages].find((wanted) => Object.hasOwn(LANGUAGES, wanted)) ?? "en";

const { locale, table } = LANGUAGES[language];
const plurals = new Intl.PluralRules(locale);

/**
 * Says a sentence. What stands in braces is taken from the values.
 *
 * @param {string} english
 * @param {Record<string, string | number>} [values]
 */
export function say(english, values) {
  const found = table[english] ?? english;
  return fill(typeof found === "string" ? found : found.other, values);
}

/**
 * Says a sentence that counts: in English one of two, of which the second is
 * the key in a table. {n} is the count.
 *
 * @param {number} n
 * @param {string} one
 * @param {string} other
 * @param {Record<string, string | number>} [values]
 */
export function sayCount(n, one, other, values) {
  const found = table[other] ?? { one, other };
  return fill(typeof found === "string" ? found : found[plurals.select(n)] ?? found.other, { n: sayNumber(n), ...values });
}

/**
 * Writes a whole number.
 *
 * @param {number} n
 */
export function sayNumber(n) {
  return n.toLocaleString(locale);
}

/**
 * Writes a moment with the name of the month: no order to guess at.
 *
 * @param {number} ms since the epoch
 */
export function sayMoment(ms) {
  return new Date(ms).toLocaleString(locale, { dateStyle: "medium", timeStyle: "short" });
}

/**
 * Writes a day, with the name of the month.
 *
 * @param {Date} day
 */
export function sayDay(day) {
  return day.toLocaleDateString(locale, { dateStyle: "long" });
}

/** @param {string} text @param {Record<string, string | number>} [values] */
function fill(text, values = {}) {
  return text.replace(/\{(\w+)\}/g, (whole, name) => (Object.hasOwn(values, name) ? String(values[name]) : whole));
}

/** @param {string} english */
function longer(english) {
  return `⟦${english}${" öäü".repeat(Math.ceil(english.length / 12))}⟧`;
}

// sayPage says the texts that stand in the page itself.
function sayPage() {
  document.documentElement.lang = language;
  const texts = document.createTreeWalker(document.documentElement, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const node = /** @type {Text} */ (texts.currentNode);
    if (!node.parentElement?.closest("script, style, noscript")) node.data = said(node.data);
  }
  for (const name of ["aria-label", "title", "placeholder", "alt"]) {
    for (const node of document.querySelectorAll(`[${name}]`)) node.setAttribute(name, said(node.getAttribute(name) ?? ""));
  }
}

/** @param {string} text */
function said(text) {
  return text.replace(/\S(?:.*\S)?/s, (words) => (/\p{L}/u.test(words) ? say(words.replace(/\s+/g, " ")) : words));
}

if (language !== "en") sayPage();
