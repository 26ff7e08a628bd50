package show

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// sound is a report in which everything is known and within.
func sound() plan.Report {
	return plan.Report{
		Verdict: rigging.Within, Governing: "rope", GoverningUse: 0.5, AtMostVerdict: rigging.Near, AtMostGoverning: "rope",
		Pull:   plan.PullReport{StartKN: 8, PeakKN: 10, PlannedKN: 15, CommitDeg: 5, HoldPullTo: 30, DriftDeg: -2.31},
		Lines:  []plan.LineReport{{ID: "pull", Role: "pull", TensionKN: 15, HaulKN: 15.01}},
		Gear:   []plan.GearReport{{ID: "rope", Kind: "wire_rope", LoadKN: 15.01, GreatestKN: 15.01, AtMostKN: 27, CapacityKN: 30.09, Use: 0.5, Verdict: rigging.Within, AtMostVerdict: rigging.Near}},
		Stem:   plan.StemReport{HeightM: 0.4, StressMPa: 5, StrengthMPa: 25, Use: 0.2, AtMostUse: 0.3, Verdict: rigging.Within, AtMostVerdict: rigging.Within},
		Points: []plan.PointReport{{ID: "A", LoadKN: 15, HorizontalKN: 14.5, GreatestKN: 15, CountsKN: 15, AtMostKN: 20, CapacityKN: 60, Use: 0.25, Verdict: rigging.Within, AtMostVerdict: rigging.Within}},
	}
}

func headlineOf(rep plan.Report) Headline {
	d := drafttest.Parse([]byte(`{}`))
	return Head(d, &units.KN, &rep, Pieces(d, &units.KN, &rep))
}

func TestHeadlineOfASoundReport(t *testing.T) {
	h := headlineOf(sound())
	assert.Equal(t, "within", h.Verdict)
	assert.Equal(t, "Within limits as computed", h.Word)
	assert.Contains(t, h.Sentence, "15.1\u00a0kN of 30.0\u00a0kN (50\u00a0%)")
	assert.Equal(t, "near", h.AtMost)
}

// What somebody has to stop in time is not within limits.
func TestHeadlineOfAWatchedPuller(t *testing.T) {
	rep := sound()
	rep.Verdict, rep.OnlyIfHeld, rep.AtMostVerdict = rigging.Near, true, rigging.Within
	rep.Why = []plan.Why{{Code: plan.WhyWatched, Path: "lines[0].puller", Message: "only a person watching stops it", Verdict: rigging.Near}}
	h := headlineOf(rep)
	assert.Equal(t, "near", h.AtMost)
	assert.Contains(t, h.AtMostText, "if stopped in time")
	assert.NotContains(t, h.AtMostText, "within")
	rep.AtMostVerdict = rigging.Over
	assert.Equal(t, "over", headlineOf(rep).AtMost)
	rep.AtMostVerdict = rigging.Unknown
	assert.Equal(t, "unknown", headlineOf(rep).AtMost)
}

// Whatever is missing, the page's headline does not reassure, even where a
// report should claim so.
func TestHeadlineNeverReassuresOverAnythingMissing(t *testing.T) {
	nan := plan.None()
	for name, spoil := range map[string]func(*plan.Report){
		"a problem": func(r *plan.Report) {
			r.Problems = []plan.Problem{{Path: "tree.height_m", Message: "the height is missing"}}
		},
		"no gear":              func(r *plan.Report) { r.Gear = nil },
		"unknown use":          func(r *plan.Report) { r.GoverningUse = nan },
		"infinite use":         func(r *plan.Report) { r.GoverningUse = plan.Num(math.Inf(1)) },
		"unknown tension":      func(r *plan.Report) { r.Pull.PlannedKN = nan },
		"negative tension":     func(r *plan.Report) { r.Pull.PlannedKN = -1 },
		"unknown verdict":      func(r *plan.Report) { r.Verdict = rigging.Unknown },
		"unknown piece":        func(r *plan.Report) { r.Gear[0].Verdict = rigging.Unknown },
		"piece without load":   func(r *plan.Report) { r.Gear[0].LoadKN = nan },
		"piece without limit":  func(r *plan.Report) { r.Gear[0].CapacityKN = nan },
		"unknown point":        func(r *plan.Report) { r.Points[0].Verdict = rigging.Unknown },
		"point without a load": func(r *plan.Report) { r.Points[0].LoadKN = nan },
		"piece over":           func(r *plan.Report) { r.Gear[0].Verdict = rigging.Over },
		"use over 1":           func(r *plan.Report) { r.GoverningUse = 1.01 },
	} {
		for _, verdict := range []rigging.Verdict{rigging.Within, rigging.Near} {
			rep := sound()
			rep.Verdict = verdict
			spoil(&rep)
			h := headlineOf(rep)
			assert.Contains(t, []string{"unknown", "over"}, h.Verdict, name)
			assert.NotEqual(t, words.Headline[rigging.Within], h.Word, name)
			assert.NotEmpty(t, h.Sentence, name)
		}
	}
	assert.Equal(t, "unknown", headlineOf(plan.Report{}).Verdict)
	assert.NotContains(t, []string{"within", "near"}, headlineOf(plan.Report{}).AtMost)
}
