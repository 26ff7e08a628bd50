package bench

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

func mostValues(values map[string]float64) map[string]string {
	out := map[string]string{}
	for key, v := range values {
		out[key] = units.Decimal(v, -1)
	}
	return out
}

// At most, each piece gets what it does without friction: a block 2, 1.73, 1.41
// and 1 times the rope's tension at 0°, 60°, 90° and 120° (Arboriculture
// Australia, Tree Rescue Manual, p. 118), and three parts three times the haul.
// What may be needed is with friction: three parts then make 1 + η + η² = 2.71
// of the haul (the geometric sum of Pipeline Rules of Thumb Handbook, hauled
// from the moving block), and a half-turn takes a tenth (field rule of
// Steelworker volume 2, NAVEDTRA 14251, chapter 6).
func TestAtMostByHand(t *testing.T) {
	for angle, factor := range map[float64]float64{0: 2, 60: 1.73, 90: 1.41, 120: 1} {
		s := solved(t, &pullerAtMost, mostValues(map[string]float64{"parts": 1, "included_deg": angle})).kept.(atMost)
		assert.InDelta(t, factor, s.pieces[mostSling].times, 0.005, angle)
		assert.InDelta(t, 1, s.pieces[mostRope].times, 1e-12)
	}
	s := solved(t, &pullerAtMost, mostValues(map[string]float64{"parts": 3, "included_deg": 180, "tension_kN": 27.1})).kept.(atMost)
	assert.InDelta(t, 3, s.pieces[mostRope].times, 1e-12)
	assert.InDelta(t, 0, s.pieces[mostSling].times, 1e-12, "a straight rope does not load the block")
	assert.InDelta(t, 10, s.haul, 1e-12)
	s = solved(t, &pullerAtMost, mostValues(map[string]float64{"parts": 1, "included_deg": 0, "tension_kN": 9})).kept.(atMost)
	assert.InDelta(t, 10, s.haul, 1e-12)
}

// The rule of UK MCA MGN 308 (M+F), 2.1: a breaking load of twice the
// greatest pull is a factor of 2.00.
func TestAtMostBreakingLoad(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "stall", "values": mostValues(map[string]float64{"parts": 1, "stall_kN": 40, "rated_kN": 30, "mbl_kN": 80})})
	assert.Equal(t, "2.00", b.fact("break"))
}

// Friction only ever takes room: worse sheaves raise the haul that may be
// needed, and never the number to hold the puller to. Nor does a weaker piece
// or a narrower angle.
func TestAtMostProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 1))
	for range 200 {
		values := map[string]float64{"tension_kN": 1 + 20*r.Float64(), "stall_kN": 40, "rated_kN": 5 + 30*r.Float64(), "parts": float64(1 + r.IntN(6)), "efficiency": 0.55 + 0.45*r.Float64(),
			"included_deg": 175 * r.Float64(), "mbl_kN": 50 + 200*r.Float64(), "block_t": 1 + 10*r.Float64(), "sling_t": 1 + 10*r.Float64()}
		b := solved(t, &pullerAtMost, mostValues(values))
		s := b.kept.(atMost)
		hold := s.weakest(true).limit()
		assert.LessOrEqual(t, hold, values["rated_kN"])
		worse := atMostOf(b, values["efficiency"]-0.05)
		assert.Equal(t, hold, worse.weakest(true).limit())
		assert.GreaterOrEqual(t, worse.haul, s.haul)
		assert.Less(t, worse.room(), s.room()+1e-12)
		for i := range s.pieces {
			assert.LessOrEqual(t, s.pieces[i].rubbed, s.pieces[i].times*(1+1e-12), "what reaches a piece with friction is never more than without")
		}
		b.in["included_deg"] = max(values["included_deg"]-5, 0)
		assert.LessOrEqual(t, atMostOf(b, values["efficiency"]).weakest(true).limit(), hold*(1+1e-12), "a narrower angle never allows more")
		b.in["included_deg"] = values["included_deg"]
		for _, key := range []string{"mbl_kN", "block_t", "sling_t", "rated_kN"} {
			b.in[key] *= 0.9
			less := atMostOf(b, values["efficiency"]).weakest(true).limit()
			assert.LessOrEqual(t, less, hold*(1+1e-12), "a weaker piece never allows more")
			assert.GreaterOrEqual(t, less, hold*0.9*(1-1e-12))
			b.in[key] /= 0.9
		}
	}
}

// A stall below the rated pull is no machine's: nothing is said of it.
func TestStallThatCannotBe(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "stall", "values": mostValues(map[string]float64{"stall_kN": 10, "rated_kN": 15}), "box": boxes})
	assert.Equal(t, units.None, b.fact("most"))
	assert.Empty(t, b.fact("worst"))
	for _, s := range b.Picture.Shapes {
		if s.Class == "bar" {
			assert.Equal(t, "unknown", s.State)
		}
	}
}

// A plan with the same line, redirect, tackle, gear and puller, in which the
// tree goes by itself, so that it stands as in the bench: loads of its pieces,
// what its puller makes, the number it is held to and the room there is.
func TestAtMostIsThePlans(t *testing.T) {
	for _, c := range []struct {
		limit            string
		tension, setting float64
		sling            float64
	}{{"stall", 20, 0, 6}, {"device", 20, 10, 6}, {"device", 28, 10, 5}, {"watched", 20, 11, 6}, {"grip", 20, 0, 6}, {"stall", 20, 0, 30}} {
		p, mass := plumbPlan(14, 0, 40, c.tension), 6000.0
		if c.limit == "grip" {
			mass = 1500
		}
		tree := p["tree"].(map[string]any)
		tree["lean_deg"], tree["lean_bearing_deg"], tree["bending_strength_MPa"] = 15, 0, 150 // a stem that bears more than the gear
		p["points"] = []any{
			map[string]any{"id": "R", "bearing_deg": 0, "distance_m": 40, "anchor": map[string]any{"kind": "rated", "capacity_kN": 900}},
			map[string]any{"id": "A", "bearing_deg": 60, "distance_m": 50, "anchor": map[string]any{"kind": "rated", "capacity_kN": 900}},
			map[string]any{"id": "M", "bearing_deg": 40, "distance_m": 45, "anchor": map[string]any{"kind": "machine", "mass_kg": mass, "traction": 1.2, "rated_kN": 900}}}
		p["lines"] = []any{map[string]any{"id": "pull", "path": []any{map[string]any{"stem_m": 14}, map[string]any{"point": "R", "efficiency": 0.85}, map[string]any{"point": "A"}},
			"tackle": map[string]any{"stages": []any{map[string]any{"parts": 3, "haul_from": "moving"}}, "efficiency": 0.85, "haul_path": []any{map[string]any{"point": "M"}}},
			"puller": map[string]any{"rated_kN": 15, "stall_kN": 20, "limited_by": c.limit}, "tied": []any{"stem", "end"}}}
		if c.setting > 0 {
			p["lines"].([]any)[0].(map[string]any)["puller"].(map[string]any)["setting_kN"] = c.setting
		}
		p["gear"] = []any{
			map[string]any{"id": "rope", "kind": "wire_rope", "line": "pull", "mbl_kN": 200, "design_factor": 3, "reductions": []any{map[string]any{"why": "end", "factor": 1}}},
			map[string]any{"id": "block", "kind": "block", "point": "R", "wll_t": 10},
			map[string]any{"id": "travelling block", "kind": "block", "line": "pull", "wll_t": 90},
			map[string]any{"id": "fixed block", "kind": "block", "point": "A", "wll_t": 90},
			map[string]any{"id": "sling", "kind": "sling", "point": "R", "wll_t": c.sling}}
		rep := equalPlan(t, p)
		require.Zero(t, float64(rep.Pull.PeakKN))
		var included float64
		for _, q := range rep.Points {
			if q.ID == "R" {
				included = float64(q.IncludedDeg)
			}
		}
		values := mostValues(map[string]float64{"tension_kN": c.tension, "included_deg": included, "efficiency": 0.85, "sling_t": c.sling, "setting_kN": max(c.setting, 1)})
		values["limited_by"] = c.limit
		s := solved(t, &pullerAtMost, values).kept.(atMost)
		line := rep.Lines[0]
		const digits = 1e-5 // of the report, from which the angle is taken
		assert.InEpsilon(t, float64(line.HaulKN), s.haul, digits, c.limit)
		assert.InEpsilon(t, float64(line.AtMostHaulKN), s.most, digits, c.limit)
		assert.InEpsilon(t, float64(line.AtMostKN), s.most*3, digits, c.limit)
		found := 0
		for _, g := range rep.Gear {
			i, known := map[string]int{"rope": mostRope, "block": mostBlock, "sling": mostSling}[g.ID]
			if !known {
				continue
			}
			found++
			assert.InEpsilon(t, float64(g.LoadKN), s.haul*s.pieces[i].rubbed, digits, g.ID)
			assert.InEpsilon(t, float64(g.AtMostKN), s.most*s.pieces[i].times, digits, g.ID)
			assert.InEpsilon(t, float64(g.CapacityKN), s.pieces[i].holds, digits, g.ID)
			assert.Equal(t, g.AtMostVerdict, rigging.Judge(s.most, s.pieces[i].limit()), g.ID)
		}
		require.Equal(t, 3, found)
		assert.InEpsilon(t, float64(rep.Pull.HoldPullTo), s.weakest(true).limit(), digits, "%v", c)
		b := askFor(t, map[string]any{"bench": "stall", "values": values})
		said := func(code string) bool {
			return slices.ContainsFunc(b.Notes, func(n parts.Note) bool { return n.Code == code })
		}
		why := func(code string) bool {
			return slices.ContainsFunc(rep.Why, func(y plan.Why) bool { return y.Code == code })
		}
		assert.Equal(t, rep.NoRoom, said("no_room"), "%v", c)
		assert.Equal(t, why("watched"), said("watched"), "%v", c)
		assert.Equal(t, why("at_most_over"), said("at_most_over"), "%v", c)
	}
}

// The number to hold the puller to is never rounded up, nor the haul needed
// down, so that what is shown of the room is never more than there is.
func TestAtMostRoundsForTheCrew(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "stall"})
	s := solved(t, &pullerAtMost, nil).kept.(atMost)
	assert.InDelta(t, 6*9.80665/(2*3*math.Sqrt(3)/2), s.weakest(true).limit(), 1e-9)
	assert.Equal(t, "11.3\u00a0kN", b.fact("hold"), "11.32")
	assert.Equal(t, units.KN.Exact().Load(s.haul), b.fact("need"))
	assert.Equal(t, units.KN.Exact().Capacity(s.room()), b.fact("room"))
}

// What is said of a plan past what may be asked, and of what stops it.
func TestAtMostSaysWhatIsWrong(t *testing.T) {
	said := func(values map[string]string) (codes []string) {
		b := askFor(t, map[string]any{"bench": "stall", "values": values})
		for _, n := range b.Notes {
			codes = append(codes, n.Code)
		}
		return codes
	}
	assert.Contains(t, said(nil), "at_most_over")
	assert.NotContains(t, said(nil), "no_room")
	assert.Contains(t, said(map[string]string{"rated_kN": "8"}), "no_room")
	assert.Contains(t, said(map[string]string{"efficiency": "0.6"}), "no_room", "bad sheaves eat the room up")
	assert.Contains(t, said(map[string]string{"limited_by": "watched"}), "watched")
	assert.NotContains(t, said(map[string]string{"limited_by": "device"}), "at_most_over")
	assert.Contains(t, said(map[string]string{"limited_by": "device"}), "device")
	assert.Contains(t, said(map[string]string{"limited_by": "grip", "mass_kg": "800"}), "too_weak")
}
