// The verdict, in sight at all times.

import { byId, setAttr, setText, show } from "./dom.js";
import { known, makeMark, setMark } from "./marks.js";
import { placeParts } from "./working.js";

const bar = byId("verdict");
const mark = makeMark("unknown");
const mostMark = makeMark("unknown");
const mostText = document.createElement("span");
byId("verdict-mark").append(mark);
byId("verdict-most").append(mostMark, mostText);
let said = "";

// Where there is little room long sentences are cut; a tap shows them whole.
bar.addEventListener("click", () => bar.classList.toggle("whole"));

// What is scrolled to stops below the bar.
new ResizeObserver(() => {
  document.documentElement.style.setProperty("--verdict-height", `${bar.offsetHeight}px`);
}).observe(bar);

// showVerdict draws a headline and says its word aloud when it changes.
/** @param {show.Headline} headline @param {(words: string) => void} announce */
export function showVerdict(headline, announce) {
  const verdict = known(headline.verdict);
  setAttr(bar, "data-verdict", verdict);
  setAttr(bar, "data-held", headline.held ? "yes" : null);
  setMark(mark, headline.held ? "held" : verdict);
  setText(byId("verdict-word"), headline.word);
  placeParts(byId("verdict-sentence"), headline.parts ?? [{ text: headline.sentence }]);
  show(byId("verdict-most"), Boolean(headline.at_most_text));
  setAttr(byId("verdict-most"), "data-state", known(headline.at_most));
  setMark(mostMark, headline.at_most);
  placeParts(mostText, headline.at_most_parts ?? [{ text: headline.at_most_text }]);
  const words = `${headline.word}. ${headline.sentence}`;
  if (said && headline.word !== said) announce(words);
  said = headline.word;
}
