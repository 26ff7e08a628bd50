package show

import (
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// An After sets what was measured in the pull against what was computed.
type After struct {
	State string       `json:"state"` // unknown, less, as, more, over: over is more than was planned
	Words string       `json:"words"` // one sentence
	Line  string       `json:"line"`  // the same with the loads before it, for a list of plans
	Facts []parts.Fact `json:"facts"`
}

// about is how near a measured pull is to the computed one to be called the
// same: within a tenth, about what a load cell and the reading of it allow
// (common practice, no source).
const about = 0.1

// Afterwards compares, where the plan says how the pull went.
func Afterwards(d *draft.Plan, u *units.System, rep *plan.Report) *After {
	r := rep.After
	if r == nil {
		return nil
	}
	a := &After{State: "unknown", Facts: []parts.Fact{}}
	ratio := r.PeakToComputed
	if r.PeakKN.Known() {
		a.Facts = append(a.Facts,
			parts.Fact{ID: "after-peak", Label: d.Say("Greatest tension measured"), Value: u.Load(float64(r.PeakKN)), Note: d.Say("Largest pull computed: %s; planned: %s.", u.Load(float64(r.ComputedKN)), u.Load(float64(r.PlannedKN)))},
			parts.Fact{ID: "after-ratio", Label: d.Say("Measured ÷ computed"), Value: units.Percent(float64(r.PeakToComputed))})
	}
	if r.HaulKN.Known() {
		a.Facts = append(a.Facts,
			parts.Fact{ID: "after-haul", Label: d.Say("Greatest haul measured at the {puller}"), Value: u.Load(float64(r.HaulKN)), Note: d.Say("Computed at the largest pull: %s; planned: %s.", u.Load(float64(r.ComputedHaulKN)), u.Load(float64(r.PlannedHaulKN)))},
			parts.Fact{ID: "after-haul-ratio", Label: d.Say("Measured ÷ computed haul"), Value: units.Percent(float64(r.HaulToComputed))})
		if !ratio.Known() {
			ratio = r.HaulToComputed
		}
	}
	of := units.Percent(float64(ratio))
	switch {
	case r.MeasuredOverPlan.Known() && float64(r.MeasuredOverPlan) > 1+1e-9:
		a.State = "over"
		a.Words = d.Say("More than planned: %s of the plan. Inspect every piece and find out why before the next pull.", units.Percent(float64(r.MeasuredOverPlan)))
	case !ratio.Known():
		a.Words = d.Say("Nothing was measured that can be compared with the plan.")
	case float64(ratio) > 1+about:
		a.State = "more"
		a.Words = d.Say("%s of the computed pull: within what was planned, but the estimate was low. Check mass, {lean} and {hinge}.", of)
	case float64(ratio) < 1-about:
		a.State = "less"
		a.Words = d.Say("%s of the computed pull. One pull proves nothing for the next tree.", of)
	default:
		a.State = "as"
		a.Words = d.Say("%s of the computed pull: about as computed.", of)
	}
	a.Line = a.Words
	if r.PeakKN.Known() {
		a.Line = d.Say("Pulled: peak measured %s, computed %s. %s", u.Load(float64(r.PeakKN)), u.Load(float64(r.ComputedKN)), a.Words)
	} else if r.HaulKN.Known() {
		a.Line = d.Say("Pulled: haul measured %s, computed %s. %s", u.Load(float64(r.HaulKN)), u.Load(float64(r.ComputedHaulKN)), a.Words)
	}
	return a
}
