package screen

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

func stallValues(values map[string]float64) map[string]string {
	out := map[string]string{}
	for key, v := range values {
		out[key] = decimal(v, -1)
	}
	return out
}

// Without a tackle and with the legs folded back on themselves the block and
// its sling carry the line's tension T and the T·η that comes back: a half-turn
// loses a tenth (field rule of Steelworker volume 2, NAVEDTRA 14251, chapter
// 6). Three parts make 1 + η + η² = 2.71 (Pipeline Rules of Thumb Handbook's
// geometric sum, hauled from the moving block).
func TestStallByHand(t *testing.T) {
	b := solved(t, &benchStall, stallValues(map[string]float64{"parts": 1, "included_deg": 0, "sling_t": 2, "block_t": 50, "mbl_kN": 300, "design_factor": 3, "rated_kN": 100, "stall_kN": 150}))
	s := b.kept.(stallState)
	assert.InDelta(t, 1, s.pieces[stallRope].times, 1e-12)
	assert.InDelta(t, 1.9, s.pieces[stallSling].times, 1e-12)
	assert.InEpsilon(t, 2*9.80665/1.9, s.weakest(true).limit(), 1e-12)
	b = solved(t, &benchStall, stallValues(map[string]float64{"parts": 3, "included_deg": 180}))
	s = b.kept.(stallState)
	assert.InDelta(t, 2.71, s.pieces[stallRope].times, 1e-12)
	assert.InDelta(t, 0, s.pieces[stallSling].times, 1e-7, "a straight rope does not load the block")
}

// The rule of UK MCA MGN 308 (M+F), 2.1: a breaking load of twice the
// greatest pull is a factor of 2.00.
func TestStallBreakingLoad(t *testing.T) {
	b := askBench(t, map[string]any{"bench": "stall", "values": stallValues(map[string]float64{"parts": 1, "stall_kN": 40, "rated_kN": 30, "mbl_kN": 80})})
	assert.Equal(t, "2.00", b.fact("break"))
}

func TestStallProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 1))
	for range 200 {
		values := map[string]float64{"haul_kN": 1 + 20*r.Float64(), "stall_kN": 40, "rated_kN": 5 + 30*r.Float64(), "parts": float64(1 + r.IntN(6)),
			"included_deg": 175 * r.Float64(), "mbl_kN": 50 + 200*r.Float64(), "block_t": 1 + 10*r.Float64(), "sling_t": 1 + 10*r.Float64()}
		b := solved(t, &benchStall, stallValues(values))
		s := b.kept.(stallState)
		hold := s.weakest(true).limit()
		assert.LessOrEqual(t, hold, values["rated_kN"])
		assert.LessOrEqual(t, stallOf(b, max(values["included_deg"]-5, 0)).weakest(true).limit(), hold*(1+1e-12), "a narrower angle never allows more")
		for _, key := range []string{"mbl_kN", "block_t", "sling_t", "rated_kN"} {
			b.in[key] *= 0.9
			less := stallOf(b, values["included_deg"]).weakest(true).limit()
			assert.LessOrEqual(t, less, hold*(1+1e-12), "a weaker piece never allows more")
			assert.GreaterOrEqual(t, less, hold*0.9*(1-1e-12))
			b.in[key] /= 0.9
		}
	}
}

// A stall below the rated pull is no machine's: nothing is said of it.
func TestStallThatCannotBe(t *testing.T) {
	b := askBench(t, map[string]any{"bench": "stall", "values": stallValues(map[string]float64{"stall_kN": 10, "rated_kN": 15}), "box": benchBoxes})
	assert.Equal(t, none, b.fact("stall"))
	for _, s := range b.Picture.Shapes {
		if s.Class == "bar" {
			assert.Equal(t, "unknown", s.State)
		}
	}
}

// A plan with the same line, redirect, tackle and gear: loads of its pieces
// and the number its puller is held to.
func TestStallIsThePlans(t *testing.T) {
	p := plumbPlan(14, 0, 40, 20)
	p["points"] = []any{
		map[string]any{"id": "R", "bearing_deg": 0, "distance_m": 40, "anchor": map[string]any{"kind": "rated", "capacity_kN": 900}},
		map[string]any{"id": "A", "bearing_deg": 60, "distance_m": 50, "anchor": map[string]any{"kind": "rated", "capacity_kN": 900}},
		map[string]any{"id": "M", "bearing_deg": 40, "distance_m": 45, "anchor": map[string]any{"kind": "rated", "capacity_kN": 900}}}
	p["lines"] = []any{map[string]any{"id": "pull", "path": []any{map[string]any{"stem_m": 14}, map[string]any{"point": "R", "efficiency": 0.9}, map[string]any{"point": "A"}},
		"tackle": map[string]any{"stages": []any{map[string]any{"parts": 3, "haul_from": "moving"}}, "efficiency": 0.9, "haul_path": []any{map[string]any{"point": "M"}}},
		"puller": map[string]any{"rated_kN": 15, "stall_kN": 20}}}
	p["gear"] = []any{
		map[string]any{"id": "rope", "kind": "wire_rope", "line": "pull", "mbl_kN": 200, "design_factor": 3},
		map[string]any{"id": "block", "kind": "block", "point": "R", "wll_t": 10},
		map[string]any{"id": "sling", "kind": "sling", "point": "R", "wll_t": 6}}
	rep := equalPlan(t, p)
	var included float64
	for _, q := range rep.Points {
		if q.ID == "R" {
			included = float64(q.IncludedDeg)
		}
	}
	haul := float64(rep.Lines[0].HaulKN)
	require.Positive(t, haul)
	b := solved(t, &benchStall, stallValues(map[string]float64{"haul_kN": haul, "included_deg": included}))
	s := b.kept.(stallState)
	found := 0
	for _, g := range rep.Gear {
		i, known := map[string]int{"rope": stallRope, "block": stallBlock, "sling": stallSling}[g.ID]
		if !known {
			continue
		}
		found++
		// To the digits of the report, from which haul and angle are taken.
		assert.InEpsilon(t, float64(g.LoadKN), haul*s.pieces[i].times, 1e-5, g.ID)
		assert.InEpsilon(t, float64(g.AtMostKN), 20*s.pieces[i].times, 1e-5, g.ID)
		assert.InEpsilon(t, float64(g.CapacityKN), s.pieces[i].holds, 1e-5, g.ID)
		assert.Equal(t, g.AtMostVerdict, rigging.Judge(20, s.pieces[i].limit()), g.ID)
	}
	require.Equal(t, 3, found)
	require.False(t, math.IsNaN(float64(rep.Pull.HoldPullTo)))
	assert.InEpsilon(t, float64(rep.Pull.HoldPullTo), s.weakest(true).limit(), 1e-5)
}

// A plan past the puller's own rating is never said to be within every limit.
func TestStallBenchCountsTheRating(t *testing.T) {
	said := func(rated string) (codes []string) {
		b := askBench(t, map[string]any{"bench": "stall", "values": map[string]string{"rated_kN": rated, "haul_kN": "10", "stall_kN": "20"}})
		for _, n := range b.Notes {
			codes = append(codes, n.Code)
		}
		return codes
	}
	assert.Contains(t, said("15"), "stall_over")
	assert.NotContains(t, said("8"), "stall_over")
	assert.Contains(t, said("8"), "planned_over")
}

func TestStallBenchPlannedPastTheStall(t *testing.T) {
	for haul, past := range map[string]bool{"20": false, "21": true} {
		b := askBench(t, map[string]any{"bench": "stall", "values": map[string]string{"haul_kN": haul, "stall_kN": "20"}})
		assert.Equal(t, past, slices.ContainsFunc(b.Notes, func(n Note) bool { return n.Code == "beyond_stall" }), haul)
	}
}
