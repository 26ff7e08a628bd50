package plan

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// spots lists every place in a document where a value stands, as the parent
// and the setter of it.
func spots(v any, visit func(set func(any), value any)) {
	switch v := v.(type) {
	case map[string]any:
		for _, k := range slices.Sorted(maps.Keys(v)) {
			w := v[k]
			visit(func(x any) { v[k] = x }, w)
			spots(w, visit)
		}
	case []any:
		for i, w := range v {
			visit(func(x any) { v[i] = x }, w)
			spots(w, visit)
		}
	}
}

var anchors = []fields{
	{"kind": "pickets", "rows": []any{3, 2, 1}},
	{"kind": "pickets", "rows": []any{9, 9, 9, 9}},
	{"kind": "buried_log", "depth_m": 2, "length_m": 2, "diameter_cm": 50},
	{"kind": "buried_log", "depth_m": 6, "length_m": 0.3, "diameter_cm": 5, "slot_m": 3},
	{"kind": "machine", "mass_kg": 50, "traction": 0.02, "rated_kN": 10000, "slope_deg": 45},
	{"kind": "tree", "diameter_cm": 5, "height_m": 2, "sling_height_m": 30},
	{"kind": "bridle", "legs": []any{fields{"point": "R"}, fields{"point": "A"}, fields{"point": "M"}}},
	{"kind": "bridle", "legs": []any{fields{"point": "T1"}, fields{"point": "T1"}}},
	{"kind": "rated", "capacity_kN": 1e-300},
}

// Plans with up to six values put wrong, extreme or somebody else's place:
// the report is sound whatever they are. Unlike the bytes of FuzzEvaluate
// these are plans that are read to the end.
func TestHostileValues(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(12, 1))
	values := []func() any{
		func() any { return nil }, func() any { return "" }, func() any { return "A" }, func() any { return "pull" }, func() any { return true },
		func() any { return []any{} }, func() any { return fields{} }, func() any { return 0.0 }, func() any { return -1.0 }, func() any { return 1e-300 }, func() any { return 1e-9 },
		func() any { return 1e300 }, func() any { return json.Number("1e999") }, func() any { return 100 * r.Float64() }, func() any { return r.Float64() }, func() any { return 1000.0 }, func() any { return 90.0 },
		func() any { return anchors[r.IntN(len(anchors))] }, func() any { return []any{fields{"point": "A"}, fields{"stem_m": 14}, fields{"point": "R"}} },
	}
	verdicts := map[rigging.Verdict]int{}
	for range 700 {
		d := randomPlan(t, r)
		for range 1 + r.IntN(6) {
			n := 0
			spots(map[string]any(d), func(func(any), any) { n++ })
			chosen, k := r.IntN(n), 0
			var change func(any)
			spots(map[string]any(d), func(set func(any), _ any) {
				if k == chosen {
					change = set
				}
				k++
			})
			change(values[r.IntN(len(values))]())
		}
		raw, err := json.Marshal(d)
		if err != nil {
			continue
		}
		verdicts[evaluated(t, raw).Verdict]++
	}
	assert.Greater(t, verdicts[rigging.Unknown], 300)
}

// Numbers anywhere within what is accepted never break the report either:
// every load is there, or the report says why not.
func TestExtremeValuesInRange(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(12, 2))
	ends := map[string][2]float64{
		"tree.height_m": {2, 130}, "tree.diameter_cm": {5, 1000}, "tree.lean_deg": {0, 60}, "tree.lean_bearing_deg": {-360, 360}, "tree.crown_offset_m": {0, 30}, "tree.mass_kg": {10, 1e6}, "tree.green_density_kgm3": {200, 1500},
		"tree.bending_strength_MPa": {5, 200}, "tree.form_factor": {0.2, 1}, "tree.crown_fraction": {0, 3}, "site.wind_mps": {0, 40}, "cut.face_opening_deg": {5, 120}, "cut.stump_m": {0, 10}, "cut.hinge_left_cm": {0.5, 200}, "cut.hinge_right_cm": {0.5, 200},
		"points[0].bearing_deg": {-360, 360}, "points[0].distance_m": {1e-9, 1000}, "points[0].rise_m": {-300, 300}, "points[5].distance_m": {1e-9, 1000}, "points[5].rise_m": {-300, 300}, "points[1].rise_m": {-300, 300},
		"lines[0].path[0].stem_m": {0, 130}, "lines[0].path[1].efficiency": {0.3, 1}, "allowance": {1, 10}, "planned_kN": {1e-9, 10000}, "lines[0].share": {1e-9, 100}, "lines[0].puller.rated_kN": {1e-9, 10000},
	}
	solved := 0
	for range 600 {
		d := demoDocument(t)
		for _, path := range slices.Sorted(maps.Keys(ends)) {
			span := ends[path]
			if r.IntN(6) > 0 {
				continue
			}
			v := span[0] + (span[1]-span[0])*r.Float64()
			switch r.IntN(4) {
			case 0:
				v = span[0]
			case 1:
				v = span[1]
			}
			d.set(path, v)
		}
		rep := d.evaluate(t)
		if len(rep.Problems) > 0 {
			continue
		}
		solved++
		for name, v := range map[string]Num{"peak": rep.Pull.PeakKN, "planned": rep.Pull.PlannedKN, "haul": rep.Pull.HaulM, "commit": rep.Pull.CommitDeg, "weight": rep.Tree.WeightKN, "side hold": rep.Tree.SideHoldUse, "governing use": rep.GoverningUse} {
			// An anchor that holds nothing at all is over by no finite use.
			assert.True(t, v.Known() || name == "governing use" && rep.Verdict == rigging.Over, "%s %s", name, rep.Governing)
		}
		for _, g := range rep.Gear {
			assert.True(t, g.Use.Known(), g.ID)
		}
		if rep.Verdict == rigging.Unknown { // legs of a shared anchor that do not lie against the pull
			assert.Equal(t, "at_most_unknown", rep.Why[0].Code)
		}
	}
	assert.Greater(t, solved, 50)
}

// The largest plan that is read takes no longer than a blink.
func TestLargestPlan(t *testing.T) {
	d := demoDocument(t)
	var points, lines, gear []any
	for i := range field.Points.Row().Most {
		points = append(points, fields{"id": fmt.Sprint("p", i), "bearing_deg": i % 40, "distance_m": 30 + i, "anchor": fields{"kind": "bridle", "legs": []any{fields{"point": fmt.Sprint("p", (i+1)%field.Points.Row().Most)}, fields{"point": fmt.Sprint("p", (i+2)%field.Points.Row().Most)}}}})
	}
	for i := range field.Lines.Row().Most {
		path := []any{fields{"stem_m": 10}}
		for k := range field.Stations.Row().Most - 1 {
			path = append(path, fields{"point": fmt.Sprint("p", (i*7+k)%field.Points.Row().Most)})
		}
		lines = append(lines, fields{"id": fmt.Sprint("l", i), "path": path, "tackle": fields{"stages": []any{fields{"parts": 12}, fields{"parts": 12}}}, "puller": fields{"rated_kN": 10}})
	}
	for i := range field.Gear.Row().Most {
		gear = append(gear, fields{"id": fmt.Sprint("g", i), "kind": "block", "point": fmt.Sprint("p", i%field.Points.Row().Most), "wll_t": 5})
	}
	d.set("points", points).set("lines", lines).set("gear", gear)
	raw := d.raw(t)
	before := time.Now()
	evaluated(t, raw)
	// A loaded machine takes a hundredth of this; what it guards against is
	// work that grows without bound.
	assert.Less(t, time.Since(before), 5*time.Second)
}
