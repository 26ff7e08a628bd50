package bench

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/wasm/units"
)

func leanValues(lean, offset, diameter, attach, distance float64) map[string]string {
	return map[string]string{"lean_deg": units.Decimal(lean, -1), "crown_offset_m": units.Decimal(offset, -1), "diameter_cm": units.Decimal(diameter, -1),
		"attach_m": units.Decimal(attach, -1), "distance_m": units.Decimal(distance, -1)}
}

// The moment of a leaning weight is m·g·z·sin λ, and the line's lever that of
// any moment about a point (statics): here from the bench's own mass and
// centre, with the hinge's moment of beam theory, σ·b·t²/4 for b = 0.8·D and
// t = 0.1·D.
func TestLeanByHand(t *testing.T) {
	s := solved(t, &lean, leanValues(10, 0, 50, 12, 20)).kept.(leanState)
	species, _ := rigging.FindSpecies("unknown_conifer")
	crown, err := rigging.CrownShare(true, false, 0.5)
	require.NoError(t, err)
	body := rigging.Tree{Height: 25, Diameter: 0.5, FormFactor: species.FormFactor.Value, Density: species.Density.Value,
		CrownShare: crown.Value, CrownCentre: 16.25}.Body(0)
	weight := body.Mass * 9.80665 / 1000
	assert.InEpsilon(t, weight, s.weight, 1e-12)
	assert.InEpsilon(t, body.CentreHeight*math.Sin(10*rigging.Deg), s.behind, 1e-12)
	hinge := species.Strength.Value * 0.4 * 0.05 * 0.05 / 4 / 1000
	assert.InEpsilon(t, hinge, s.hinge, 1e-12)
	// The line from (−12·sin 10°, 12·cos 10°) to (20, 0): its distance from
	// the origin is |x₁y₂ − x₂y₁|/length.
	x, z := -12*math.Sin(10*rigging.Deg), 12*math.Cos(10*rigging.Deg)
	lever := 20 * z / math.Hypot(20-x, z)
	assert.InEpsilon(t, lever, s.lever, 1e-12)
	assert.InEpsilon(t, (weight*s.behind+hinge)/lever, s.start, 1e-12)
}

func TestLeanProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 1))
	start := func(lean, offset, diameter, attach, distance float64) float64 {
		T, err := leanSetup(lean, offset, diameter, attach, distance).Start()
		require.NoError(t, err)
		return T
	}
	for range 200 {
		lean, offset, d, h, out := -10+29*r.Float64(), -4+7*r.Float64(), 20+70*r.Float64(), 4+18*r.Float64(), 10+20*r.Float64()
		T := start(lean, offset, d, h, out)
		assert.GreaterOrEqual(t, start(lean+1, offset, d, h, out), T, "more back lean never needs less pull")
		assert.GreaterOrEqual(t, start(lean, offset+0.5, d, h, out), T, "nor does a crown farther back")
		assert.GreaterOrEqual(t, start(lean, offset, d+2, h, out), T-1e-9*T, "nor a thicker tree") // all grow but none where it is 0
		assert.LessOrEqual(t, start(lean, offset, d, h+0.5, out), T*(1+1e-12), "nor a higher line more")
	}
}

// A plan of the same tree: start, greatest pull and commit of its report.
func TestLeanIsThePlans(t *testing.T) {
	for _, c := range []struct{ lean, offset float64 }{{6, 2}, {0, 0}, {12, -1}, {-1, 0.5}} {
		p := plumbPlan(14, 0, 26, 60)
		tree := p["tree"].(map[string]any)
		tree["lean_deg"], tree["lean_bearing_deg"] = math.Abs(c.lean), 180.0
		if c.lean < 0 {
			tree["lean_bearing_deg"] = 0.0
		}
		tree["crown_offset_m"], tree["crown_offset_bearing_deg"] = math.Abs(c.offset), 180.0
		if c.offset < 0 {
			tree["crown_offset_bearing_deg"] = 0.0
		}
		rep := equalPlan(t, p)
		values := leanValues(c.lean, c.offset, 50, 14, 26)
		s := solved(t, &lean, values).kept.(leanState)
		assert.InEpsilon(t, float64(rep.Pull.StartKN), s.start, 1e-6) // to the report's digits
		assert.InDelta(t, -float64(rep.Tree.ForwardM), s.behind, 1e-5)
		b := askFor(t, map[string]any{"bench": "lean", "values": values})
		assert.Equal(t, units.KN.Exact().Load(float64(rep.Pull.PeakKN)), b.fact("peak"))
		assert.Equal(t, units.KN.Quantity(float64(rep.Pull.CommitDeg), units.Degrees, units.Nearest)+" of turn", b.fact("commit"))
	}
}

func TestLeanThatOnlySteers(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "lean", "values": leanValues(-8, -1, 50, 14, 26)})
	assert.Equal(t, "0\u00a0kN", b.fact("start"))
	codes := ""
	for _, n := range b.Notes {
		codes += n.Code + " "
	}
	assert.Contains(t, codes, "steers_only")
	// Asked first, the answer stands in no note.
	hidden := askFor(t, map[string]any{"bench": "lean", "values": leanValues(-8, -1, 50, 14, 26), "guess": true})
	assert.True(t, hidden.Hidden)
	for _, n := range hidden.Notes {
		assert.NotEqual(t, "steers_only", n.Code)
	}
}
