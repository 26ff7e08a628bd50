package show

import (
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

const (
	notSure  words.Text = "Counting what is not known exactly, not sure enough: see “How sure”."
	seldom   words.Text = "As planned: %s"
	toBeSure words.Text = "To be sure hold the {puller} to %s, computed "
	surely   words.Text = "To be sure, with what is not known exactly counted in. Computed: %s."
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

// HoldSurely puts the number to hold the puller to that is safe with what is not known
// exactly counted in (kN) before the one computed, where it is less.
func (h *Headline) HoldSurely(d *draft.Plan, u *units.System, rep *plan.Report, kN float64) {
	if h.Hold == "" || !isSurer(rep, kN) {
		return
	}
	safe := u.Capacity(kN)
	at := slices.IndexFunc(h.AtMostParts, func(p Part) bool { return p.Text == h.Hold })
	if at > 0 {
		h.AtMostParts = slices.Clone(h.AtMostParts)
		h.AtMostParts[at-1].Text = d.Say(toBeSure, safe)
		h.AtMostText, h.AtMostParts = sentence(h.AtMostParts)
	}
	if h.Held {
		h.Word = d.Say(words.OnlyIfHeld, safe)
	}
	h.Hold, h.HoldWorking = safe, ""
}

// HoldSurely does the same among the main numbers.
func HoldSurely(d *draft.Plan, u *units.System, rep *plan.Report, facts []parts.Fact, kN float64) {
	for i := range facts {
		if f := &facts[i]; f.ID == "hold-puller" && isSurer(rep, kN) {
			f.Value, f.Note, f.Working = u.Capacity(kN), d.Say(surely, f.Value), ""
		}
	}
}

func isSurer(rep *plan.Report, kN float64) bool { return kN > 0 && kN < float64(rep.Pull.HoldPullTo) }
