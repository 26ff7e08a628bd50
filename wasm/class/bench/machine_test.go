package bench

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/wasm/parts"
)

func machineOf(mass, traction, slope, tension, rated float64) map[string]float64 {
	return map[string]float64{"mass_kg": mass, "traction": traction, "slope_deg": slope, "tension_kN": tension, "rated_kN": rated}
}

// Bodies held by friction: OpenStax, College Physics 2e, sec. 5.1, a crate of
// 120 kg at 0.5 holds 588 N; R. K. Bansal, Engineering Mechanics, example
// 8.7, 1000 N at 0.6 slides under 524.06 N along a rope 20° above level
// (digits of an open companion to the book). On a slope, a level pull: R. S.
// Khurmi & J. K. Gupta, Theory of Machines, the power screw of 6 mm pitch and
// 37 mm mean diameter, whose nut under 75 kN at 0.1 takes 11.43 kN up the slope
// of its thread (from memory).
func TestMachineBenchPublished(t *testing.T) {
	s := machineAt(machineOf(120*9.8/rigging.G, 0.5, 0, 1, 1000), 0)
	assert.InDelta(t, 0.588, s.holds, 0.0005, "printed to 1 N")
	s = machineAt(machineOf(1000/rigging.G, 0.6, 0, 0.52406, 1000), 20)
	assert.InDelta(t, s.asked, s.holds, 1e-5, "printed to 0.01 N")
	thread := math.Atan(6 / (math.Pi * 37))
	s = machineAt(machineOf(75000/rigging.G, 0.1, -thread/rigging.Deg, 1, 1000), 0)
	assert.InDelta(t, 11.43, s.grip, 0.005, "printed to 10 N")
}

// A steeper rope, steeper ground, less traction or less mass never hold more;
// nothing holds more than the rated pull or less than nothing.
func TestMachineBenchRunsOneWay(t *testing.T) {
	last := 1e9
	for elevation := -10.0; elevation <= 60; elevation += 5 {
		s := machineAt(machineOf(6000, 0.4, 5, 15, 40), elevation)
		assert.LessOrEqual(t, s.holds, last)
		last = s.holds
		for slope := -20.0; slope < 30; slope += 5 {
			here := machineAt(machineOf(6000, 0.4, slope, 15, 25), elevation)
			assert.LessOrEqual(t, machineAt(machineOf(6000, 0.4, slope+5, 15, 25), elevation).holds, here.holds)
			assert.LessOrEqual(t, machineAt(machineOf(6000, 0.3, slope, 15, 25), elevation).holds, here.holds)
			assert.LessOrEqual(t, here.holds, 25.0)
			assert.GreaterOrEqual(t, here.holds, 0.0)
		}
	}
}

// A machine that slides by itself holds nothing, and is shown so.
func TestMachineBenchThatHoldsNothing(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "machine", "values": map[string]string{"slope_deg": "30", "traction": "0.3"}, "box": boxes})
	assert.Equal(t, "0\u00a0kN", b.fact("holds"))
	assert.Equal(t, "holds nothing", b.fact("use"))
	for _, values := range []map[string]string{
		{"slope_deg": "-30", "traction": "0.3"},                                                 // away from the pull, and before it comes
		{"slope_deg": "-20", "mass_kg": "1000", "tension_kN": "12", "elevation_deg": "60"},      // 10.4 kN up on 9.2 kN of weight
		{"slope_deg": "-30", "traction": "0.6", "mass_kg": "100000", "elevation_deg": "0.0001"}, // 40° would still hold
	} {
		b := askFor(t, map[string]any{"bench": "machine", "values": values, "box": boxes})
		stands := values["traction"] == "0.6"
		assert.Equal(t, stands, b.fact("holds") != "0\u00a0kN", "%v", values)
		assert.Equal(t, !stands, slices.ContainsFunc(b.Notes, func(n parts.Note) bool { return n.Code == "slides" }), "%v", values)
	}
}

// A plan with the same machine under the same rope: its load, and what it
// holds on its slope with the rope's lift taken off.
func TestMachineIsThePlans(t *testing.T) {
	for _, slope := range []float64{-8, 0, 6, 12} {
		p := plumbPlan(14, 0, 30, 24)
		p["tree"].(map[string]any)["lean_deg"], p["tree"].(map[string]any)["lean_bearing_deg"] = 15, 0 // it goes by itself: all loads are standing
		p["points"].([]any)[0].(map[string]any)["anchor"] = map[string]any{"kind": "machine", "mass_kg": 9000, "traction": 0.45, "slope_deg": slope, "rated_kN": 60}
		rep := equalPlan(t, p)
		at := rep.Points[0]
		elevation := math.Atan2(float64(at.UpliftKN), float64(at.HorizontalKN)) / rigging.Deg
		s := machineAt(machineOf(9000, 0.45, slope, 24, 60), elevation)
		assert.InEpsilon(t, float64(at.HorizontalKN), s.asked, 1e-5)
		assert.InEpsilon(t, float64(at.CapacityKN), s.holds, 1e-5, slope)
		assert.InEpsilon(t, float64(at.Use), rigging.Use(s.asked, s.holds), 1e-5, slope)
	}
}
