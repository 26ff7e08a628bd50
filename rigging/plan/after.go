package plan

import (
	"math"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// What was seen and measured when the tree was pulled:
//
//	"after": {"date": "2026-05-31", "peak_kN": 18, "peak_deg": 3, "haul_kN": 9, "happened": "text", "photos": ["file name"]}
//
// Peak is the greatest tension of the first pull line where it leaves the
// stem, peak_deg the turn of the tree it was measured at, haul the greatest
// pull at the puller.

type after struct {
	given      bool
	peak, haul float64 // N, NaN where not given
}

// AfterReport sets what was measured against what was computed. A ratio
// above 1 is a pull that took more than computed.
//
//codec:members
type AfterReport struct {
	PeakKN           Num `json:"peak_kN"`            // measured
	ComputedKN       Num `json:"computed_peak_kN"`   // largest pull needed
	PlannedKN        Num `json:"planned_kN"`         // planned tension
	PeakToComputed   Num `json:"peak_to_computed"`   // measured ÷ computed peak
	HaulKN           Num `json:"haul_kN"`            // measured
	PlannedHaulKN    Num `json:"planned_haul_kN"`    // haul at planned tension
	ComputedHaulKN   Num `json:"computed_haul_kN"`   // haul at the largest pull needed
	HaulToComputed   Num `json:"haul_to_computed"`   // measured ÷ computed haul
	MeasuredOverPlan Num `json:"measured_over_plan"` // the greater of measured ÷ planned, tension or haul
}

func (r *reader) after(root *object, m *model) {
	m.after = after{peak: math.NaN(), haul: math.NaN()}
	o := root.child(field.After)
	if o == nil {
		return
	}
	m.after.given = true
	o.date(field.AfterDate)
	m.after.peak = force(o.number(field.AfterPeak))
	o.number(field.AfterTurn)
	m.after.haul = force(o.number(field.AfterHaul))
	o.text(field.Happened)
	for i, name := range r.texts(o, field.Photos) {
		if len(name) > 255 || strings.ContainsAny(name, "/\\\x00") {
			r.problem(CodeType, o.item(field.Photos, i), takes("file"), shorten(name), "photo_name", quote(name))
		}
	}
	o.done()
}

func (e *evaluation) writeAfter(rep *Report) {
	a := &e.m.after
	if !a.given {
		return
	}
	none := None()
	out := &AfterReport{Num(a.peak / rigging.KN), none, none, none, Num(a.haul / rigging.KN), none, none, none, none}
	rep.After = out
	main := e.mainLine()
	if !e.solved || main < 0 {
		return
	}
	ll := &e.loads[main]
	computed := e.pull.Peak * e.m.lines[main].share
	out.ComputedKN, out.PlannedKN = Num(computed/rigging.KN), Num(ll.tension/rigging.KN)
	out.PeakToComputed = ratio(a.peak, computed)
	if ll.known() {
		out.PlannedHaulKN, out.ComputedHaulKN = Num(ll.haul*ll.tension/rigging.KN), Num(ll.haul*computed/rigging.KN)
		out.HaulToComputed = ratio(a.haul, ll.haul*computed)
	}
	out.MeasuredOverPlan = Num(e.overPlan())
}

// ratio is unknown where there was nothing to set against.
func ratio(a, b float64) Num {
	if !(b > 0) {
		return None()
	}
	return Num(a / b)
}

// overPlan is the greater of measured over planned, tension or haul; NaN
// where nothing was measured that can be set against the plan.
func (e *evaluation) overPlan() float64 {
	main := e.mainLine()
	if !e.solved || main < 0 {
		return math.NaN()
	}
	ll, over := &e.loads[main], math.NaN()
	if ll.tension > 0 {
		over = e.m.after.peak / ll.tension
	}
	if haul := e.mainHaul(); haul > 0 {
		if r := e.m.after.haul / haul; !(over >= r) && !math.IsNaN(r) {
			over = r
		}
	}
	return over
}

func (e *evaluation) cautionAfter() {
	if over := e.overPlan(); over > 1+1e-9 {
		e.caution("measured_more", "after", sourcePractice, text.Percent(over))
	}
}
