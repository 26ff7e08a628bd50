package fields

import (
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// PeopleKinds are who and what may be about.
var PeopleKinds = []parts.Choice{
	{Value: field.SawOperator, Label: "{saw operator}"}, {Value: "signaller", Label: "signaller"}, {Value: "machine_operator", Label: "machine operator"},
	{Value: "students", Label: "students or onlookers"}, {Value: "road", Label: "road or path"}, {Value: "building", Label: "building"},
	{Value: field.PowerLine, Label: "{power lines}"}, {Value: "tree", Label: "other tree"},
}

// PersonTitle names one of the people and things of a plan.
func PersonTitle(d *draft.Plan, i int) string { return named(d, "people", i, "%s", "No. %s") }

// ClearPlace says where the nearest clear place is; "" where there is none to name, or
// it is where they are.
func ClearPlace(d *draft.Plan, u *units.System, p *plan.PersonReport) string {
	if p.Clear == nil || !(p.MoveM > 0) {
		return ""
	}
	metres := func(v plan.Num) string { return u.Quantity(float64(v), units.Metres, units.Up) }
	return d.Say("Nearest clear place: %s away, at a bearing of %s, %s from the stump.", metres(p.MoveM),
		u.Quantity(float64(p.Clear.BearingDeg), units.Degrees, units.Nearest), metres(p.Clear.DistanceM))
}
