package bench

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/wasm/units"
)

// A rectangle b wide and t thick has the section modulus b·t²/6 flat and
// t·b²/6 on edge, and resists 1.5 times as much fully plastic as at first
// yield (beam theory, any text on the strength of materials). The measures are
// those of the US OSHA Logging eTool: 80 and 10 % of the diameter. Relied on to
// the side is the mean strength less 1.65 times its scatter of 16 % (ASTM
// D2555).
func TestHingeOfTheGuide(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "hinge", "values": map[string]string{
		"left_cm": "5", "right_cm": "5", "diameter_cm": "50", "strength_MPa": "50"}})
	// 50 N/mm² × 400 mm × 50² mm² ÷ 4 = 12.5 kN·m; on edge 50 × 50 × 400² ÷ 6 =
	// 66.67 kN·m at the mean strength.
	assert.Equal(t, "12.5\u00a0kN·m", b.fact("bending"))
	assert.Equal(t, "1.00", b.fact("times"))
	assert.InDelta(t, 1-1.65*0.16, rigging.HingeReliedOn, 0.005)
	assert.Equal(t, "49.3\u00a0kN·m", b.fact("right")) // 0.74 × 66.67 = 49.33, rounded down
	assert.Equal(t, b.fact("right"), b.fact("left"))
	b = askFor(t, map[string]any{"bench": "hinge", "values": map[string]string{
		"left_cm": "10", "right_cm": "10", "diameter_cm": "50", "strength_MPa": "50"}})
	assert.Equal(t, "4.00", b.fact("times"), "twice as thick, four times as hard to bend")
	assert.Equal(t, "98.6\u00a0kN·m", b.fact("right"), "and holds twice as much to the side")
}

func TestHingeProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	for range 200 {
		values := map[string]string{"diameter_cm": "60", "strength_MPa": "45",
			"left_cm": units.Decimal(1+20*r.Float64(), -1), "right_cm": units.Decimal(1+20*r.Float64(), -1), "cavity_cm": units.Decimal(60*r.Float64(), -1)}
		b := solved(t, &hinge, values)
		s := b.kept.(hingeState)
		assert.GreaterOrEqual(t, s.bending, s.first)
		for _, thicker := range []hingeState{hingeOf(b, s.Left*1.1, s.Right), hingeOf(b, s.Left, s.Right*1.1)} {
			assert.Greater(t, thicker.bending, s.bending)
			assert.GreaterOrEqual(t, min(thicker.toLeft, thicker.toRight), min(s.toLeft, s.toRight)*(1-1e-9))
		}
		b.in["cavity_cm"] *= 1.05
		hollow := hingeOf(b, s.Left, s.Right)
		assert.LessOrEqual(t, hollow.toLeft, s.toLeft)
		assert.Equal(t, s.bending, hollow.bending, "what the line has to supply is not taken lower")
		turned := hingeOf(b, s.Right, s.Left)
		assert.InDelta(t, hollow.toLeft, turned.toRight, 1e-9*(1+hollow.toLeft))
	}
	b := askFor(t, map[string]any{"bench": "hinge", "values": map[string]string{"cavity_cm": "40"}})
	assert.Equal(t, "0\u00a0kN·m", b.fact("right"), "a cavity as wide as the hinge is long leaves no side hold")
}

// A plan with the same hinge: the moment that bends it, and the share of the
// side hold that is used.
func TestHingeIsThePlans(t *testing.T) {
	p := plumbPlan(14, 25, 24, 60)
	p["tree"].(map[string]any)["cavity_cm"], p["tree"].(map[string]any)["bending_strength_MPa"] = 12, 40
	p["cut"] = map[string]any{"stump_m": 0, "hinge_left_cm": 9, "hinge_right_cm": 6}
	rep := equalPlan(t, p)
	s := solved(t, &hinge, map[string]string{"left_cm": "9", "right_cm": "6", "cavity_cm": "12", "diameter_cm": "50", "strength_MPa": "40"}).kept.(hingeState)
	assert.InEpsilon(t, float64(rep.Tree.HingeMomentKNm), s.bending, 1e-6) // to the report's digits
	side := float64(rep.Tree.HingeSideMomentKNm)
	assert.Less(t, side, 0.0, "the anchor stands to the right")
	assert.InEpsilon(t, float64(rep.Tree.SideHoldUse), math.Abs(side)/s.toRight, 1e-6)
	assert.Equal(t, rigging.GuideHinge(0.5), s.usual)
}

// A hinge that reaches out of the stem behind, where the chord is shorter than
// the hinge, is none.
func TestHingeOutsideTheStem(t *testing.T) {
	for thick, inside := range map[string]bool{"18": true, "18.1": false, "25": false} {
		b := askFor(t, map[string]any{"bench": "hinge", "box": boxes, "curve_box": boxes, "guess": true,
			"values": map[string]string{"left_cm": thick, "diameter_cm": "30"}})
		assert.Equal(t, inside, b.Lacks == "", thick)
		assert.Equal(t, inside, b.Guess != nil, thick)
		if thick == "18" {
			b := askFor(t, map[string]any{"bench": "hinge", "values": map[string]string{"diameter_cm": "30", "cavity_cm": "30"}})
			assert.Contains(t, b.Lacks, "cavity")
			assert.Empty(t, b.Facts)
		}
		if !inside {
			assert.Empty(t, b.Facts, thick)
			assert.NotContains(t, b.Picture.Desc, "kN", thick)
		}
	}
}

// The section on edge as the working prints it, from its own numbers, comes to
// the side hold it gives: a trapezium about its centroid (any table of
// sections).
func TestHingeWorkingOfTheSideHold(t *testing.T) {
	s := solved(t, &hinge, map[string]string{"left_cm": "9", "right_cm": "6", "cavity_cm": "12", "diameter_cm": "50", "strength_MPa": "40"}).kept.(hingeState)
	left, right, b := 0.09, 0.06, 0.4
	second := b * b * b * (left*left + 4*left*right + right*right) / (36 * (left + right)) * (b - 0.12) / b
	assert.InEpsilon(t, 0.74*40e3*second/(b*(left+2*right)/(3*(left+right))), s.toRight, 1e-12)
	assert.InEpsilon(t, 0.74*40e3*second/(b*(2*left+right)/(3*(left+right))), s.toLeft, 1e-12)
}
