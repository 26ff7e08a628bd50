package judgement

import (
	"pullline/rigging"
	"pullline/rigging/judgement/sure"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Sure is how sure a plan is.
type Sure struct {
	Verdict string       `json:"verdict"` // with what is not known exactly counted in
	Worse   bool         `json:"worse"`   // than the plan's own
	Word    string       `json:"word"`
	Facts   []parts.Fact `json:"facts"`
	Rows    []parts.Note `json:"rows"`    // pieces and points that may well be over
	HoldKN  float64      `json:"hold_kN"` // the safe number to hold the puller to, 0 where there is none
	Measure string       `json:"measure"` // what to measure again, "" for nothing
	Path    string       `json:"path"`    // of its field
	Doubts  []parts.Note `json:"doubts"`  // what the rest of the doubt comes from
	Basis   string       `json:"basis"`
	Draws   int          `json:"draws"`
	Message string       `json:"message"` // where there is nothing to say
}

const (
	word         words.Text = "Counting what is not known exactly: %s"
	stem         words.Text = "{stem}"
	needed       words.Text = "Pull needed"
	between      words.Text = "%s to %s"
	nineOfTen    words.Text = "In 9 of 10 draws. Planned: %s."
	tooMuch      words.Text = "Chance that it is more than planned"
	noneOf       words.Text = "None of %s draws"
	holdTo       words.Text = "Safe number to hold the {puller} to"
	holdNote     words.Text = "In 19 of 20 draws nothing is over at this haul."
	holdNoRoom   words.Text = "Less than the haul planned, %s: there may be no room between what is needed and what is too much."
	mayBeOver    words.Text = "%s: over its limit in %s of the draws."
	measureAgain words.Text = "Measure this again: %s. It decides more than all else that can be measured: %s of the doubt about the pull comes from it."
	doubt        words.Text = "%s: %s of the doubt"
	basis        words.Text = "%s draws. When they were last doubled, the upper end of the pull needed moved by %s. The crew’s decisions stay as planned. A ± that the plan does not give is a cautious guess by common practice."
	notDrawn     words.Text = "Nothing to say until the pull can be worked out."
)

// Rows and doubts that are told.
const (
	overFrom   = 0.005
	doubtFrom  = 0.05
	mostDoubts = 4
)

// kept has the draws of the plan asked about last, so that more of them go on from
// there.
var kept sure.Caller

// SureJSON answers a request for how sure a plan is.
//
//codec:call asked Sure
func SureJSON(raw []byte) []byte {
	return answer(raw, func(a *asked, d *draft.Plan, u *units.System) written {
		return tellSure(a, d, u)
	}, func(message string) written {
		return &Sure{Verdict: rigging.Unknown.String(), Worse: true, Facts: []parts.Fact{}, Rows: []parts.Note{}, Doubts: []parts.Note{}, Message: message}
	})
}

func tellSure(req *asked, d *draft.Plan, u *units.System) *Sure {
	a := kept.Answer(req.Plan, req.Size, 1, req.Draws)
	s := &Sure{
		Verdict: a.Verdict.String(), Worse: a.Verdict != a.PlainVerdict, Draws: a.Draws,
		Word:  d.Say(word, d.Say(words.Headline[a.Verdict])),
		Facts: []parts.Fact{}, Rows: []parts.Note{}, Doubts: []parts.Note{},
	}
	if a.Draws == 0 {
		s.Message = d.Say(notDrawn)
		return s
	}
	fact := func(id string, label words.Text, value, note string) {
		s.Facts = append(s.Facts, parts.Fact{ID: id, Label: d.Say(label), Value: value, Note: note})
	}
	fact("need", needed, d.Say(between, u.Capacity(float64(a.NeedKN.P5)), u.Load(float64(a.NeedKN.P95))), d.Say(nineOfTen, u.Load(float64(a.PlannedKN))))
	chance := units.Percent(float64(a.NeedOverPlanned))
	if a.NeedOverPlanned == 0 {
		chance = d.Say(noneOf, units.Grouped(units.Decimal(float64(a.Draws), 0)))
	}
	fact("over_planned", tooMuch, chance, "")
	if a.HoldPullerTo.P5.Known() {
		s.HoldKN = float64(a.HoldPullerTo.P5)
		note := d.Say(holdNote)
		rep := req.Report()
		for i := range rep.Lines {
			if l := &rep.Lines[i]; l.Role != "hold" {
				if l.HaulKN > a.HoldPullerTo.P5 {
					note = d.Say(holdNoRoom, u.Load(float64(l.HaulKN)))
				}
				break
			}
		}
		fact("hold", holdTo, u.Capacity(float64(a.HoldPullerTo.P5)), note)
	}
	for _, r := range a.Rows {
		if r.Over.Known() && r.Over >= overFrom && r.Of != "tree" {
			s.Rows = append(s.Rows, parts.Note{State: state(float64(r.Over)), Message: d.Say(mayBeOver, titleOf(d, r.Of, r.ID), units.Percent(float64(r.Over)))})
		}
	}
	for _, share := range a.Shares {
		switch {
		case share.Path == a.Measure:
			s.Path, s.Measure = share.Path, d.Say(measureAgain, fields.LabelOf(d, share.Path), units.Percent(float64(share.Total)))
		case share.Total >= doubtFrom && len(s.Doubts) < mostDoubts:
			s.Doubts = append(s.Doubts, parts.Note{Path: share.Path, Message: d.Say(doubt, fields.LabelOf(d, share.Path), units.Percent(float64(share.Total)))})
		}
	}
	s.Basis = d.Say(basis, units.Grouped(units.Decimal(float64(a.Draws), 0)), units.Percent(float64(a.Settled)))
	return s
}

// state is the verdict of a chance of being over: over from one draw in twenty.
func state(chance float64) string {
	if chance > 0.05 {
		return rigging.Over.String()
	}
	return rigging.Near.String()
}

// titleOf names a row as the form names its part of the plan.
func titleOf(d *draft.Plan, of, id string) string {
	switch {
	case of == "stem":
		return words.Capital(d.Say(stem))
	case of == "points":
		if i := d.PointIndex(id); i >= 0 {
			return fields.PointTitle(d, i)
		}
	case of == "gear":
		if i := d.GearIndex(id); i >= 0 {
			return fields.GearTitle(d, i)
		}
	}
	return id
}
