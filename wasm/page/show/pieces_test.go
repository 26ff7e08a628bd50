package show

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

func TestPiecesWorstFirst(t *testing.T) {
	rep := plan.Report{Stem: plan.StemReport{StressMPa: 8.5, StrengthMPa: 10, Use: 0.85, AtMostUse: 0.85, Verdict: rigging.Near}}
	add := func(id string, v rigging.Verdict, use float64) {
		rep.Gear = append(rep.Gear, plan.GearReport{ID: id, LoadKN: plan.Num(use * 10), CapacityKN: 10, Use: plan.Num(use), Verdict: v})
	}
	add("w", rigging.Within, 0.2)
	add("w2", rigging.Within, 0.7)
	add("n", rigging.Near, 0.9)
	add("u", rigging.Unknown, math.NaN())
	add("o", rigging.Over, 1.2)
	add("o2", rigging.Over, 1.5)
	add("same", rigging.Within, 0.2)
	var order []string
	for _, p := range Pieces(drafttest.Parse([]byte(`{}`)), &units.KN, &rep) {
		order = append(order, p.ID)
		assert.LessOrEqual(t, p.UseShare, 1.0)
		assert.GreaterOrEqual(t, p.UseShare, 0.0)
	}
	assert.Equal(t, []string{"o2", "o", "u", "n", "stem", "w2", "w", "same"}, order)
}

// Rated 14 kN and set to 9 kN: the limit in its row is not what it is judged by
// at most, so the share says so.
func TestPullerAtMostSaysOfWhat(t *testing.T) {
	for limit, want := range map[float64]string{9: "65\u00a0% of its rating", 14: "65\u00a0%"} {
		rep := plan.Report{Gear: []plan.GearReport{{ID: "pull/puller", Kind: "puller", GreatestKN: 7, CapacityKN: plan.Num(limit), AtMostKN: 9, AtMostUse: 9.0 / 14}}}
		p := Pieces(drafttest.Parse([]byte(`{}`)), &units.KN, &rep)
		assert.Equal(t, want, p[0].AtMostUse, limit)
	}
}
