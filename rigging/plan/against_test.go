package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

// anyPlan is one of the sound plans with some things changed, most of them for
// the worse: numbers, anchors, pullers, pieces.
func anyPlan(t testing.TB, r *rand.Rand) document {
	bases := []func(testing.TB) document{demoDocument, straightPull, roundTheCorner, heldToTheSide}
	d := parse(t, bases[r.IntN(len(bases))](t).raw(t))
	vary := func(path string, by float64) { d.set(path, d.at(path).(float64)*(1+by*(2*r.Float64()-1))) }
	one := func(in int) bool { return r.IntN(in) == 0 }
	list := func(key string) []any { return d.at(key).([]any) }
	for _, path := range []string{"tree.height_m", "tree.diameter_cm", "cut.hinge_left_cm", "cut.hinge_right_cm", "cut.hinge_length_cm", "tree.lean_deg", "lines[0].path[0].stem_m", "points[0].distance_m"} {
		if one(2) {
			vary(path, 0.15)
		}
	}
	for i := range list("points") {
		if one(4) {
			vary(fmt.Sprintf("points[%d].distance_m", i), 0.1)
			d.set(fmt.Sprintf("points[%d].bearing_deg", i), d.at(fmt.Sprintf("points[%d].bearing_deg", i)).(float64)+20*r.Float64()-10)
		}
	}
	for i := range list("gear") {
		for _, limit := range []string{"wll_t", "wll_kN", "mbl_kN"} {
			path := fmt.Sprintf("gear[%d].%s", i, limit)
			if d.at(path) != nil && one(6) {
				d.set(path, d.at(path).(float64)*(0.1+r.Float64()))
			}
		}
	}
	change := func(in int, path string, value any) {
		if one(in) {
			d.set(path, value)
		}
	}
	change(5, "cut.face_opening_deg", 3+30*r.Float64())
	change(8, "tree.lean_bearing_deg", 360*r.Float64())
	change(12, "tree.lean_deg", 26*r.Float64())
	change(8, "tree.cavity_cm", 40*r.Float64())
	change(6, "allowance", 1+2*r.Float64())
	change(6, "site.wind_mps", 12*r.Float64())
	change(12, "gear[0].design_factor", 1.2+2*r.Float64())
	change(12, "points[0].bearing_deg", 60*r.Float64())
	change(12, "points[0].distance_m", 15+20*r.Float64())
	change(12, "lines[0].path[0].stem_m", 0.9*d.at("tree.height_m").(float64))
	change(12, "gear[0].retired", true)
	change(10, "lines[0].tied", []any{"stem"})
	anchors := []any{
		fields{"kind": "rated", "capacity_kN": 5 + 60*r.Float64()},
		fields{"kind": "tree", "diameter_cm": 20 + 60*r.Float64(), "height_m": 12 + 18*r.Float64(), "sling_height_m": 0.3 + 2*r.Float64()},
		fields{"kind": "stump", "diameter_cm": 20 + 60*r.Float64(), "height_m": 12 + 18*r.Float64(), "sling_height_m": 0.3, "factor": 2 + 3*r.Float64()},
		fields{"kind": "machine", "mass_kg": 1000 + 15000*r.Float64(), "traction": 0.2 + 0.6*r.Float64(), "slope_deg": 30*r.Float64() - 15, "rated_kN": 10 + 60*r.Float64()},
	}
	for i := range list("points") {
		path := fmt.Sprintf("points[%d].anchor", i)
		if kind := d.at(path + ".kind"); kind == "bridle" {
			change(2, path+".self_adjusting", false)
		} else {
			change(5, path, anchors[r.IntN(len(anchors))])
		}
	}
	stall := 10 + 30*r.Float64()
	pullers := []any{
		fields{"rated_kN": 10.0, "limited_by": "stall", "stall_kN": stall},
		fields{"rated_kN": 10.0, "limited_by": "watched", "setting_kN": 9.0, "stall_kN": stall},
		fields{"rated_kN": 10.0, "limited_by": "watched", "setting_kN": 9.0},
		fields{"rated_kN": 4 + 20*r.Float64(), "limited_by": "device", "setting_kN": 2 + 20*r.Float64()},
		fields{"rated_kN": 10.0, "limited_by": "grip", "stall_kN": stall},
		fields{"rated_kN": 10.0, "setting_kN": 5.0},
	}
	change(2, "lines[0].puller", pullers[r.IntN(len(pullers))])
	if len(list("lines")) > 1 && one(3) {
		d.set("lines[1].tended", false).set("lines[1].rope", fields{"stiffness_kN": 2000 * r.Float64()})
		change(3, "lines[1].rope", fields{})
		change(4, "lines[1].puller", fields{"rated_kN": 10.0, "limited_by": "device", "setting_kN": 10 * r.Float64()})
	}
	if d.at("lines[0].tackle") != nil {
		change(3, "lines[0].tackle.stages[0].parts", float64(1+r.IntN(5)))
		change(3, "lines[0].tackle.stages[0].haul_from", "moving")
		change(3, "lines[0].tackle.efficiency", 0.7+0.3*r.Float64())
		if one(5) {
			d.drop("lines[0].tackle.haul_path")
		}
	}
	if one(6) { // a second pull line to one of the points there
		last := list("points")[0].(map[string]any)["id"]
		add("lines", fields{"id": "second", "role": "pull", "share": 0.5 + r.Float64(), "path": []any{fields{"stem_m": 9.0}, fields{"point": last}}, "tied": []any{"stem", "end"},
			"puller": fields{"rated_kN": 12.0, "limited_by": "device", "setting_kN": 6 + 5*r.Float64()}})(d)
		add("gear", fields{"id": "second rope", "kind": "fibre_rope", "line": "second", "mbl_kN": 250.0, "design_factor": 5.0, "reductions": []any{fields{"why": "knot", "factor": 0.5}}})(d)
	}
	if one(6) {
		d.drop(fmt.Sprintf("gear[%d]", r.IntN(len(list("gear")))))
	}
	if one(15) {
		d.drop("lines[0].puller.rated_kN")
	}
	if one(15) {
		d.drop("points[0].anchor")
	}
	return parse(t, d.raw(t))
}

// referred gives plans with a reference: the example, the sound ones, and n drawn.
func referred(t *testing.T, seed uint64, n int, check func(name string, f *reference)) {
	for i, base := range []func(testing.TB) document{demoDocument, straightPull, roundTheCorner, heldToTheSide} {
		check(fmt.Sprint("sound plan ", i), refer(t, base(t)))
	}
	r := rand.New(rand.NewPCG(8, seed))
	for i := range n {
		d := anyPlan(t, r)
		if !d.evaluate(t).Pull.PlannedKN.Known() {
			continue // nothing pulls the tree over
		}
		check(fmt.Sprintf("plan %d: %s", i, d.raw(t)), refer(t, d))
	}
}

// close2 says whether two numbers are the same but for rounding.
func close2(a, b float64) bool {
	return math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= 1e-6*(1e-3+math.Abs(a)) // kN; the turns of the peaks are those of whole degrees
}

// Loads at their greatest and at most, uses and hold lines against plain vectors.
func TestAgainstPlainStatics(t *testing.T) {
	t.Parallel()
	referred(t, 1, 150, func(name string, f *reference) {
		planned, most := f.planned(), f.most(f.mostHauls())
		for _, uses := range []map[string]float64{planned.uses, most.uses} {
			for id := range uses {
				if anchor, _ := f.point(id)["anchor"].(map[string]any); anchor["kind"] == "bridle" && math.IsNaN(uses[id]) {
					return // legs that would have to push, so that nothing at them is known
				}
			}
		}
		for _, g := range f.rep.Gear {
			if g.Kind == "puller" {
				continue
			}
			require.True(t, close2(planned.gear[g.ID], float64(g.GreatestKN)), "%s: %v, %v: %s", g.ID, planned.gear[g.ID], g.GreatestKN, name)
			require.True(t, close2(most.gear[g.ID], float64(g.AtMostKN)), "%s at most: %v, %v: %s", g.ID, most.gear[g.ID], g.AtMostKN, name)
			require.False(t, float64(g.GreatestKN) < float64(g.LoadKN)*(1-1e-12), g.ID)
		}
		for _, p := range f.rep.Points {
			require.True(t, close2(planned.points[p.ID], float64(p.GreatestKN)), "%s: %v, %v: %s", p.ID, planned.points[p.ID], p.GreatestKN, name)
			require.True(t, close2(most.points[p.ID], float64(p.AtMostKN)), "%s at most: %v, %v: %s", p.ID, most.points[p.ID], p.AtMostKN, name)
			require.False(t, float64(p.GreatestKN) < float64(p.LoadKN)*(1-1e-12), p.ID)
			for _, c := range []struct {
				want float64
				got  Num
			}{{planned.uses[p.ID], p.Use}, {most.uses[p.ID], p.AtMostUse}} {
				if f.point(p.ID)["anchor"] != nil && !math.IsInf(c.want, 1) && planned.points[p.ID] > 0 {
					require.True(t, close2(c.want, float64(c.got)), "use of %s: %v, %v: %s", p.ID, c.want, c.got, name)
				}
			}
		}
		for _, c := range []struct {
			want float64
			got  Num
		}{{planned.stem, f.rep.Stem.Use}, {most.stem, f.rep.Stem.AtMostUse}} {
			require.True(t, math.IsNaN(c.want) && !c.got.Known() || math.Abs(c.want-float64(c.got)) < 2e-4*c.want, "stem: %v, %v: %s", c.want, c.got, name)
		}
		// Hold lines: what the tree asks with the allowance, and what growing adds.
		tensions := make([]float64, len(f.lines))
		for i, l := range f.lines {
			if !l.hold {
				tensions[i] = l.planned
			}
		}
		for i, asked := range f.asked(tensions, false) {
			if l := f.lines[i]; l.hold {
				want := math.Max(number(f.d, "allowance", 1.5)*l.peak, asked) + l.stretched
				require.True(t, close2(want, l.planned), "hold line: %v, %v: %s", want, l.planned, name)
				require.True(t, close2(l.stretched, float64(f.rep.Lines[i].StretchedKN)), "stretched: %v, %v", l.stretched, f.rep.Lines[i].StretchedKN)
			}
		}
	})
}

// The verdict against the rules, worked out a second time.
func TestVerdictAgainstTheRules(t *testing.T) {
	t.Parallel()
	words := map[int]rigging.Verdict{isWithin: rigging.Within, isNear: rigging.Near, isUnknown: rigging.Unknown, isOver: rigging.Over}
	found := map[rigging.Verdict]int{}
	referred(t, 2, 300, func(name string, f *reference) {
		want := words[f.verdict()]
		found[want]++
		require.Equal(t, want.String(), f.rep.Verdict.String(), "%v: %s", reasonsOf(f.rep), name)
	})
	for _, v := range words {
		assert.Greater(t, found[v], 15, "%v", found)
	}
	t.Log(found)
}
