package show

import (
	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/words"
)

const (
	notSure words.Text = "Counting what is not known exactly, not sure enough: see “How sure”."
	seldom  words.Text = "As planned: %s"
)

// Worsen makes a headline that of a verdict with what is not known exactly counted in,
// where that is worse than the plan's own.
func (h *Headline) Worsen(d *draft.Plan, sampled string) {
	own := rigging.Unknown
	for _, v := range []rigging.Verdict{rigging.Within, rigging.Near, rigging.Over} {
		if v.String() == h.Verdict {
			own = v
		}
	}
	for _, v := range []rigging.Verdict{rigging.Near, rigging.Over, rigging.Unknown} {
		if v.String() != sampled || own.Worse(v) == own {
			continue
		}
		h.Verdict, h.Word, h.Held = sampled, d.Say(words.Headline[v]), false
		h.Parts = joinParts(inWords(d.Say(notSure)), inWords(d.Say(seldom, h.Sentence)))
		h.Sentence, h.Parts = sentence(h.Parts)
	}
}
