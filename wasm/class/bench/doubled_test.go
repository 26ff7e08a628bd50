package bench

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
)

// Arboriculture Australia, Tree Rescue Manual, p. 118: without friction the
// legs of a rope over a pulley load it with 2, 1.73, 1.41 and 1 times the
// rope's load at 0, 60, 90 and 120°.
func TestDoubledBenchFactors(t *testing.T) {
	for angle, factor := range map[string]string{"0": "2.00", "60": "1.73", "90": "1.41", "120": "1.00"} {
		b := askFor(t, map[string]any{"bench": "doubled", "values": map[string]string{"included_deg": angle, "efficiency": "1"}})
		assert.Equal(t, factor, b.fact("gain"), angle)
		// So it is at most, however its sheave rubs.
		printed, err := strconv.ParseFloat(factor, 64)
		require.NoError(t, err)
		s := solved(t, &doubled, map[string]string{"included_deg": angle, "efficiency": "0.8", "tension_kN": "1"}).kept.(doubledState)
		assert.InDelta(t, printed, s.most, 0.005, angle)
	}
}

// A plan with the same line: what the block's sling on the stem and the dead
// end's anchor carry as planned, and at most.
func TestDoubledIsThePlans(t *testing.T) {
	p := plumbPlan(14, 20, 40, 20)
	p["tree"].(map[string]any)["lean_deg"], p["tree"].(map[string]any)["lean_bearing_deg"] = 15, 0 // it goes by itself: all loads are standing
	p["points"] = append(p["points"].([]any), map[string]any{"id": "D", "bearing_deg": -30, "distance_m": 45, "anchor": map[string]any{"kind": "rated", "capacity_kN": 90}})
	p["lines"] = []any{map[string]any{"id": "pull", "path": []any{map[string]any{"point": "D"}, map[string]any{"stem_m": 14, "efficiency": 0.85}, map[string]any{"point": "A"}},
		"puller": map[string]any{"rated_kN": 30, "limited_by": "device", "setting_kN": 20}}}
	p["gear"] = []any{map[string]any{"id": "sling", "kind": "sling", "line": "pull", "place": "stem", "wll_kN": 90}}
	rep := equalPlan(t, p)
	legs := rep.Lines[0].Legs
	along := func(l plan.LegReport) (v rigging.Vec) {
		return rigging.Vec{X: float64(l.ToXYZ[0] - l.FromXYZ[0]), Y: float64(l.ToXYZ[1] - l.FromXYZ[1]), Z: float64(l.ToXYZ[2] - l.FromXYZ[2])}
	}
	dead, hauled := along(legs[0]).Scale(-1), along(legs[1])
	s := doubledAt(20, math.Acos(dead.Dot(hauled)/dead.Norm()/hauled.Norm()), 0.85)
	const digits = 1e-5 // of the report
	assert.InEpsilon(t, float64(rep.Lines[0].StemLoadKN), s.load, digits)
	assert.InEpsilon(t, float64(rep.Gear[0].AtMostKN), s.most, digits)
	assert.InEpsilon(t, float64(legs[0].TensionKN), s.dead, digits)
	for _, at := range rep.Points {
		if at.ID == "D" {
			assert.InEpsilon(t, float64(at.AtMostKN), s.haul, digits)
		}
	}
}

// R. C. Hibbeler & A. Gupta, Statics and Dynamics, example 2.1: 100 N and
// 150 N with 65° between them come to 213 N (digits of an open companion to
// the book). The sheave that makes 100 of 150 at that angle is a poor one.
func TestDoubledBenchUnequalLegs(t *testing.T) {
	lo, hi := 0.1, 1.0 // η by halving: the ratio falls with it
	for range 60 {
		if mid := (lo + hi) / 2; rigging.SheaveRatio(mid, 65*rigging.Deg) > 1.5 {
			lo = mid
		} else {
			hi = mid
		}
	}
	s := doubledAt(150, 65*rigging.Deg, hi)
	assert.InDelta(t, 100, s.dead, 1e-9)
	assert.InDelta(t, 213, s.load, 0.5, "printed to 1 N")
}

// A wider angle never makes the line pull more, friction never helps, and two
// legs never pull more than twice the tension hauled with.
func TestDoubledBenchRunsOneWay(t *testing.T) {
	for _, efficiency := range []float64{0.5, 0.8, 0.9, 1} {
		last := 2.0
		for angle := 0.0; angle <= 150; angle++ {
			s := doubledAt(1, angle*rigging.Deg, efficiency)
			assert.LessOrEqual(t, s.load, last+1e-12, "%v°", angle)
			assert.LessOrEqual(t, s.dead, 1.0)
			if angle <= 90 {
				assert.LessOrEqual(t, s.load, doubledAt(1, angle*rigging.Deg, 1).load+1e-12, "%v°", angle)
			}
			last = s.load
		}
	}
}
