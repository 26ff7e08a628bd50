package places

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
)

type fields = map[string]any

func demo(t testing.TB) (d fields) {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/demo.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &d))
	return d
}

func treeOf(t testing.TB, v any) (tree any, size int) {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	tree, err = jsontext.Parse(text)
	require.NoError(t, err)
	return tree, len(text)
}

func point(d fields, i int) fields { return d["points"].([]any)[i].(fields) }

var wide = Grid{Bearings: steps([]float64{-175, 180, 5}), Distances: steps([]float64{6, 160, 7})}

// Every place is what the plan itself evaluates to with the point there: the winch of
// the example, its redirect, the anchor of its tackle, and a place of a hold line.
func TestCellsAreEvaluations(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 9))
	ruled := map[string]int{}
	for _, i := range []int{0, 1, 4, 5} {
		d := demo(t)
		tree, size := treeOf(t, d)
		a := On(tree, size, point(d, i)["id"].(string), wide)
		require.Len(t, a.Cells, len(wide.Bearings)*len(wide.Distances))
		for _, c := range a.Cells {
			ruled[c.RuledOut]++
			if c.RuledOut == "" {
				assert.Contains(t, []rigging.Verdict{rigging.Within, rigging.Near}, c.Verdict)
			}
			if c.Verdict == rigging.Over || c.Verdict == rigging.Unknown {
				assert.NotEmpty(t, c.RuledOut)
			}
		}
		for range 40 {
			c := a.Cells[r.IntN(len(a.Cells))]
			point(d, i)["bearing_deg"], point(d, i)["distance_m"] = float64(c.BearingDeg), float64(c.DistanceM)
			text, _ := json.Marshal(d)
			rep := plan.Evaluate(text)
			require.Equal(t, rep.Verdict, c.Verdict)
			require.Equal(t, rep.GoverningUse.Known(), c.Use.Known())
			if c.Use.Known() {
				require.Equal(t, rep.GoverningUse, c.Use)
			}
			if len(rep.Why) > 0 {
				require.Equal(t, rep.Why[0].Code, c.Why)
			} else {
				require.Empty(t, c.Why)
			}
		}
		if a.Best != nil {
			for _, c := range a.Cells {
				if c.RuledOut == "" {
					assert.True(t, a.Best.Verdict == rigging.Within && c.Verdict == rigging.Near || a.Best.Verdict == c.Verdict && a.Best.Use <= c.Use)
				}
			}
		}
	}
	for _, reason := range []string{"", Over, Lands, CannotPull, InBight} {
		assert.NotZero(t, ruled[reason], "%q of %v", reason, ruled)
	}
}

// A machine that pulls down a slope slides before it is at its rating, and one that a
// steep line lifts is said to lift.
func TestSlidesAndLifts(t *testing.T) {
	t.Parallel()
	d := demo(t)
	d["lines"] = []any{fields{"id": "pull", "path": []any{fields{"stem_m": 14}, fields{"point": "M"}}, "tied": []any{"end"},
		"puller": fields{"rated_kN": 40, "limited_by": "device", "setting_kN": 30}}}
	d["gear"] = []any{}
	ruled := func(anchor fields, rise float64) map[string]int {
		point(d, 4)["anchor"], point(d, 4)["rise_m"] = anchor, rise
		tree, size := treeOf(t, d)
		out := map[string]int{}
		for _, c := range On(tree, size, "M", Grid{Bearings: []float64{0}, Distances: steps([]float64{35, 120, 5})}).Cells {
			out[c.RuledOut]++
		}
		return out
	}
	assert.NotZero(t, ruled(fields{"kind": "machine", "mass_kg": 1500, "traction": 0.3, "slope_deg": 8, "rated_kN": 40}, 0)[Slides])
	assert.NotZero(t, ruled(fields{"kind": "machine", "mass_kg": 300, "traction": 0.6, "slope_deg": 0, "rated_kN": 40}, -20)[Lifts])
}

// Without what a verdict needs there is no place to recommend.
func TestNothingToRecommend(t *testing.T) {
	t.Parallel()
	for name, spoil := range map[string]func(d fields){
		"no height":       func(d fields) { delete(d["tree"].(fields), "height_m") },
		"no anchor":       func(d fields) { delete(point(d, 4), "anchor") },
		"rating unknown":  func(d fields) { delete(d["lines"].([]any)[0].(fields)["puller"].(fields), "rated_kN") },
		"unknown field":   func(d fields) { d["tree"].(fields)["heigth_m"] = 20 },
		"lean impossible": func(d fields) { d["tree"].(fields)["lean_deg"] = math.MaxFloat64 },
	} {
		d := demo(t)
		spoil(d)
		tree, size := treeOf(t, d)
		a := On(tree, size, "M", Grid{Bearings: steps([]float64{-90, 90, 30}), Distances: steps([]float64{20, 100, 20})})
		require.NotEmpty(t, a.Cells)
		assert.Nil(t, a.Best, name)
		for _, c := range a.Cells {
			assert.NotEmpty(t, c.RuledOut, name)
			assert.Contains(t, []rigging.Verdict{rigging.Unknown, rigging.Over}, c.Verdict, name)
		}
	}
}

func TestRequests(t *testing.T) {
	t.Parallel()
	text, err := json.Marshal(demo(t))
	require.NoError(t, err)
	ask := func(rest string) (a Answer) {
		require.NoError(t, json.Unmarshal(JSON([]byte(`{"plan": `+string(text)+rest+`}`)), &a))
		return a
	}
	a := ask(`, "point": "M", "bearings_deg": [0, 90, 45], "distances_m": [40, 60, 10]`)
	assert.Len(t, a.Cells, 9)
	assert.Empty(t, a.Problems)
	for _, rest := range []string{``, `, "point": "M"`, `, "point": "X", "bearings_deg": [0, 90, 45], "distances_m": [40, 60, 10]`,
		`, "point": "M", "bearings_deg": [0, 90], "distances_m": [40, 60, 10]`, `, "point": "M", "bearings_deg": [0, 90, 0], "distances_m": [40, 60, 10]`,
		`, "point": "M", "bearings_deg": [0, 360, 0.1], "distances_m": [1, 1000, 0.1]`, `, "point": "M", "bearings_deg": [90, 0, 1], "distances_m": [40, 60, 10]`,
		`, "point": 3, "bearings_deg": [0, 90, 45], "distances_m": [40, 60, "a"]`} {
		a := ask(rest)
		assert.NotEmpty(t, a.Problems, rest)
		assert.Empty(t, a.Cells, rest)
		assert.Nil(t, a.Best)
	}
}

// BenchmarkMap works out 3,600 places for the winch, the anchor and the redirect of the
// example.
func BenchmarkMap(b *testing.B) {
	tree, size := treeOf(b, demo(b))
	grid := Grid{Bearings: steps([]float64{-177, 180, 3}), Distances: steps([]float64{10, 155, 5})}
	for _, point := range []string{"M", "A", "R"} {
		b.Run(point, func(b *testing.B) {
			for b.Loop() {
				if len(On(tree, size, point, grid).Cells) != 3600 {
					b.Fatal("not 3,600 places")
				}
			}
		})
	}
}
