package bench

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

func buriedOf(diameter, length float64) map[string]float64 {
	return map[string]float64{"diameter_cm": diameter / rigging.CM, "length_m": length, "soil_factor": 1, "factor": 2}
}

// US Army TM 5-5420-278-10, work package 0035: Table 9 gives 3,600 lb/ft² at
// 5 ft under a pull of 1 in 2, and a line of 21,400 lb then needs 5.76 ft of a
// log of 1.25 ft, with 1 ft for the slot (worked with its rule).
func TestBuriedLogBenchPublished(t *testing.T) {
	s := buriedAt(buriedOf(1.25*rigging.Foot, 5.76*rigging.Foot), 5*rigging.Foot, math.Atan(0.5)/rigging.Deg)
	assert.InDelta(t, 21400, s.lets*rigging.KN/rigging.PoundForce, 25, "the length is given to 0.01 ft")
	assert.Equal(t, s.lets/2, s.holds)
	assert.InEpsilon(t, 3600, s.pressure*rigging.KN/rigging.PoundForce*rigging.Foot*rigging.Foot, 1e-9)
	b := askFor(t, map[string]any{"bench": "buried_log", "settings": map[string]any{"units": "us"},
		"values": map[string]string{"depth_m": "1.524", "slope_deg": units.Decimal(math.Atan(0.5)/rigging.Deg, -1)}})
	assert.Equal(t, "3600\u00a0lbf/ft²", b.fact("pressure"))
}

// Deeper, flatter, thicker or longer never holds less.
func TestBuriedLogBenchRunsOneWay(t *testing.T) {
	for depth := 0.92; depth < 2.4; depth += 0.1 {
		for slope := 0.0; slope < 45; slope += 5 {
			s := buriedAt(buriedOf(0.4, 1.8), depth, slope)
			assert.LessOrEqual(t, s.holds, buriedAt(buriedOf(0.4, 1.8), depth+0.1, slope).holds+1e-9)
			assert.LessOrEqual(t, s.holds, buriedAt(buriedOf(0.5, 1.8), depth, slope).holds)
			assert.LessOrEqual(t, s.holds, buriedAt(buriedOf(0.4, 1.9), depth, slope).holds)
			assert.GreaterOrEqual(t, s.holds, buriedAt(buriedOf(0.4, 1.8), depth, slope+5).holds-1e-9)
		}
	}
}

// A log too slender for the manual's rule is given no number.
func TestBuriedLogBenchTooSlender(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "buried_log", "values": map[string]string{"length_m": "3", "diameter_cm": "40"}, "box": boxes, "curve_box": boxes})
	assert.Equal(t, "not known", b.fact("holds"))
	assert.Equal(t, "not known", b.fact("lets"))
	said := false
	for _, n := range b.Notes {
		said = said || n.Code == "outside_table"
	}
	assert.True(t, said)
	guessed := askFor(t, map[string]any{"bench": "buried_log", "values": map[string]string{"length_m": "3", "diameter_cm": "40"}, "guess": true, "answer": "100"})
	assert.NotEqual(t, marking.Right, guessed.Guess.State)
}

// Past the end of the table its last entry counts, and that is said.
func TestBuriedLogPastTheTable(t *testing.T) {
	ask := func(values map[string]string) (holds string, said bool) {
		b := askFor(t, map[string]any{"bench": "buried_log", "values": values})
		return b.fact("holds"), slices.ContainsFunc(b.Notes, func(n parts.Note) bool { return n.Code == "end_of_table" })
	}
	last, said := ask(map[string]string{"depth_m": units.Decimal(7*rigging.Foot, -1)})
	assert.False(t, said)
	deeper, said := ask(map[string]string{"depth_m": "2.5"})
	assert.True(t, said)
	assert.Equal(t, last, deeper)
	_, said = ask(map[string]string{"slope_deg": "10"})
	assert.True(t, said)
}

// A plan with the same log, its factor not given.
func TestBuriedLogIsThePlans(t *testing.T) {
	for _, distance := range []float64{20, 40, 70} {
		p := plumbPlan(14, 0, distance, 20)
		p["tree"].(map[string]any)["lean_deg"], p["tree"].(map[string]any)["lean_bearing_deg"] = 15, 0 // it goes by itself: the pull's slope is that of standing
		p["points"].([]any)[0].(map[string]any)["anchor"] = map[string]any{"kind": "buried_log", "depth_m": 1.5, "length_m": 1.8, "diameter_cm": 40}
		rep := equalPlan(t, p)
		at := rep.Points[0]
		s := buriedAt(buriedOf(0.4, 1.8), 1.5, math.Atan2(float64(at.UpliftKN), float64(at.HorizontalKN))/rigging.Deg)
		assert.InEpsilon(t, float64(at.CapacityKN), s.holds, 1e-5, distance)
	}
}
