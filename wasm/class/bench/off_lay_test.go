package bench

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging/plan"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// The parts of a pull at 30° off: half to the side, √3/2 toward the lay (any
// table of trigonometric functions). A line 12 m up to 16 m away is 20 m long
// and has a lever of 9.6 m.
func TestOffLayAtThirtyDegrees(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "off_lay", "values": map[string]string{
		"off_deg": "30", "attach_m": "12", "distance_m": "16", "tension_kN": "10", "back_kNm": "0"}})
	assert.Equal(t, "48.0\u00a0kN·m", b.fact("side"))
	assert.Equal(t, "83.1\u00a0kN·m", b.fact("forward"))
	assert.Equal(t, "30.0°", b.fact("drift"))
	assert.Equal(t, "14\u00a0%", b.fact("lost")) // 1 − 0.8660, rounded up
}

func TestOffLayProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 1))
	for range 200 {
		h, d, T, back := 2+20*r.Float64(), 4+20*r.Float64(), 50*r.Float64()+1, 200*r.Float64()
		off := 0.1 + 0.9*r.Float64()
		s := offLayOf(h, off, d, T, back)
		assert.InEpsilon(t, s.pull, math.Hypot(s.side, s.forward+back), 1e-12)
		assert.Greater(t, offLayOf(h, off*1.02, d, T, back).side, s.side, "farther off is more to the side")
		assert.Less(t, offLayOf(h, off*1.02, d, T, back).forward, s.forward)
		assert.GreaterOrEqual(t, s.drift, off-1e-12, "a back lean never brings the tree nearer to the lay")
		assert.Greater(t, offLayOf(h, off, d, T, back+10).drift, s.drift)
		assert.InDelta(t, off, offLayOf(h, off, d, T, 0).drift, 1e-12)
	}
	on := offLayOf(14, 0, 20, 20, 0)
	assert.Zero(t, on.side)
	assert.Zero(t, on.drift)
}

// A plan of the same tree and line: its side moment, its drift, and what its
// weight turns back are the bench's.
func TestOffLayIsThePlans(t *testing.T) {
	p := plumbPlan(14, 20, 24, 60)
	tree := p["tree"].(map[string]any)
	// A crown that hangs back; the stem stands plumb, as the bench's does.
	tree["mass_kg"], tree["crown_offset_m"], tree["crown_offset_bearing_deg"] = 3000, 2, 180
	rep := equalPlan(t, p)
	s := offLayOf(14, 20*math.Pi/180, 24, 60, -float64(rep.Tree.ForwardMomentKNm))
	assert.InDelta(t, float64(rep.Pull.DriftDeg), -s.drift*180/math.Pi, 1e-6) // to the report's digits
	assert.InEpsilon(t, -float64(rep.Tree.HingeSideMomentKNm), s.side, 1e-6)
}

// What is out of the ordinary is that for a plan too.
func TestOffLayOutOfTheOrdinary(t *testing.T) {
	for _, off := range []float64{29, 30, 31, 60} {
		b := askFor(t, map[string]any{"bench": "off_lay", "values": map[string]string{"off_deg": units.Decimal(off, -1)}})
		rep := equalPlan(t, plumbPlan(14, off, 22, 20))
		assert.Equal(t, slices.ContainsFunc(rep.Why, func(y plan.Why) bool { return y.Code == "off_lay" }),
			slices.ContainsFunc(b.Notes, func(n parts.Note) bool { return n.Code == "far" }), "%v°", off)
	}
}

// A pull along the lay that a back lean outweighs leaves the tree going
// straight back.
func TestOffLayStraightBack(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "off_lay", "values": map[string]string{"off_deg": "0", "tension_kN": "1", "back_kNm": "500"}})
	assert.Equal(t, "180°", b.fact("drift"))
	assert.Equal(t, "0\u00a0kN·m", b.fact("side"))
}
