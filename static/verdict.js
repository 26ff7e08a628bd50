// The verdict, in sight at all times.

import { byId, setAttr, setText, show } from "./dom.js";
import { known, makeMark, setMark } from "./marks.js";
import { placeParts } from "./working.js";

const bar = byId("verdict");
const mark = makeMark("unknown");
const stallMark = makeMark("unknown");
const stallText = document.createElement("span");
byId("verdict-mark").append(mark);
byId("verdict-stall").append(stallMark, stallText);
let said = "";

// Where there is little room long sentences are cut; a tap shows them whole.
bar.addEventListener("click", () => bar.classList.toggle("whole"));

// What is scrolled to stops below the bar.
new ResizeObserver(() => {
  document.documentElement.style.setProperty("--verdict-height", `${bar.offsetHeight}px`);
}).observe(bar);

// showVerdict draws a headline and says its word aloud when it changes.
export function showVerdict(headline, announce) {
  const verdict = known(headline.verdict);
  setAttr(bar, "data-verdict", verdict);
  setMark(mark, verdict);
  setText(byId("verdict-word"), headline.word);
  placeParts(byId("verdict-sentence"), headline.parts ?? [{ text: headline.sentence }]);
  show(byId("verdict-stall"), Boolean(headline.stall_text));
  setAttr(byId("verdict-stall"), "data-state", known(headline.stall));
  setMark(stallMark, headline.stall);
  placeParts(stallText, headline.stall_parts ?? [{ text: headline.stall_text }]);
  const words = `${headline.word}. ${headline.sentence}`;
  if (said && headline.word !== said) announce(words);
  said = headline.word;
}
