package plan

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
)

// refused holds a report to what a wrong plan must give: no reassuring
// verdict, a problem at the path, saying what would be accepted.
func refused(t *testing.T, name string, rep Report, path string, given bool) {
	t.Helper()
	for _, v := range []rigging.Verdict{rep.Verdict, rep.AtMostVerdict} {
		assert.NotEqual(t, rigging.Within, v, name)
		assert.NotEqual(t, rigging.Near, v, name)
	}
	paths := []string{}
	for _, p := range rep.Problems {
		paths = append(paths, p.Path)
		if p.Path == path {
			assert.NotEmpty(t, p.Message, name)
			assert.NotEmpty(t, p.Accepted, name)
			if given {
				assert.NotNil(t, p.Given, "%s: what was given", name)
			}
			return
		}
	}
	assert.Fail(t, "no problem at "+path, "%s: %v", name, paths)
}

// fields are those of a JSON object.
type fields = map[string]any

// Numbers of the plan, each of which is put wrong in every way there is.
var numberPaths = []string{
	"site.wind_mps",
	"tree.height_m", "tree.diameter_cm", "tree.lean_deg", "tree.lean_bearing_deg", "tree.crown_offset_m", "tree.crown_offset_bearing_deg",
	"tree.form_factor", "tree.green_density_kgm3", "tree.bending_strength_MPa", "tree.crown_fraction", "tree.crown_centre_m", "tree.crown_area_m2", "tree.drag_coefficient", "tree.cavity_cm", "tree.mass_kg", "tree.mass_centre_m",
	"cut.stump_m", "cut.face_opening_deg", "cut.hinge_length_cm", "cut.hinge_left_cm", "cut.hinge_right_cm",
	"points[0].bearing_deg", "points[0].distance_m", "points[0].rise_m", "points[0].anchor.capacity_kN",
	"points[2].anchor.diameter_cm", "points[2].anchor.height_m", "points[2].anchor.sling_height_m", "points[2].anchor.factor", "points[2].anchor.form_factor", "points[2].anchor.turning_Nm_per_kg",
	"points[4].anchor.mass_kg", "points[4].anchor.traction", "points[4].anchor.slope_deg", "points[4].anchor.rated_kN",
	"lines[0].share", "lines[1].share", "lines[0].path[0].stem_m", "lines[0].path[1].efficiency", "lines[0].tackle.stages[0].parts", "lines[0].tackle.efficiency", "lines[0].puller.rated_kN", "lines[0].puller.stall_kN", "lines[0].rope.mass_kgpm", "lines[0].rope.stiffness_kN",
	"gear[0].mbl_kN", "gear[0].design_factor", "gear[0].reductions[0].factor", "gear[1].wll_t", "gear[1].hitch_factor",
	"allowance", "planned_kN", "plus_minus.tree.height_m",
}

// put sets a number; a key of plus_minus has dots in it, which steps cannot
// walk.
func put(t *testing.T, path string, value any) []byte {
	t.Helper()
	d := demoDocument(t)
	if key, ok := strings.CutPrefix(path, "plus_minus."); ok {
		d["plus_minus"].(map[string]any)[key] = value
		return d.raw(t)
	}
	return d.set(path, value).raw(t)
}

func TestWrongNumbers(t *testing.T) {
	t.Parallel()
	for _, path := range numberPaths {
		for name, value := range map[string]any{
			"text": "12", "empty text": "", "true": true, "null": nil, "list": []any{12}, "object": fields{"m": 12},
			"too big": json.Number("1e999"), "too small to be": json.Number("-1e999"), "huge": 1e300, "far below": -1e9,
		} {
			rep := evaluated(t, put(t, path, value))
			refused(t, path+" "+name, rep, path, true)
		}
		// The same number written otherwise is no problem.
		raw := put(t, path, json.Number("87654321.25"))
		refused(t, path+" out of range", evaluated(t, raw), path, true)
	}
}

func TestMissingNumbers(t *testing.T) {
	for _, path := range []string{
		"tree", "tree.height_m", "tree.diameter_cm", "tree.lean_deg", "tree.lean_bearing_deg", "tree.crown_offset_bearing_deg",
		"points[0].bearing_deg", "points[0].distance_m", "points[0].id", "points[0].anchor.capacity_kN", "points[0].anchor.kind",
		"points[2].anchor.diameter_cm", "points[2].anchor.height_m", "points[2].anchor.sling_height_m",
		"points[4].anchor.mass_kg", "points[4].anchor.traction", "points[4].anchor.rated_kN", "points[1].anchor.legs",
		"lines[0].id", "lines[0].path", "lines[0].tackle.stages", "lines[0].tackle.stages[0].parts", "lines[0].puller.rated_kN",
		"gear[0].id", "gear[0].kind", "gear[0].design_factor", "gear[0].reductions[0].factor", "lines",
	} {
		rep := demoDocument(t).drop(path).evaluate(t)
		refused(t, "without "+path, rep, path, false)
	}
	rep := demoDocument(t).drop("lines[0].puller").evaluate(t)
	refused(t, "without a puller", rep, "lines[0].puller.rated_kN", false)
	rep = demoDocument(t).drop("gear[1].wll_t").evaluate(t)
	refused(t, "without a limit", rep, "gear[1].wll_kN", false)
	rep = demoDocument(t).drop("gear[1].line").evaluate(t)
	refused(t, "piece that sits nowhere", rep, "gear[1].line", false)
	rep = demoDocument(t).drop("points[1].anchor.legs[0].point").evaluate(t)
	refused(t, "leg to nowhere", rep, "points[1].anchor.legs[0].point", false)
	rep = demoDocument(t).drop("lines[0].path[1].point").evaluate(t)
	refused(t, "empty station", rep, "lines[0].path[1].point", false)
	rep = demoDocument(t).set("lines[1].puller", fields{"stall_kN": 20.0}).evaluate(t)
	refused(t, "a hold line's puller without its rated pull", rep, "lines[1].puller.rated_kN", false)
}

// Whole parts put wrong, and parts that do not fit together.
func TestWrongParts(t *testing.T) {
	list := func(v ...any) []any { return v }
	leg := func(p string) fields { return fields{"point": p} }
	many := func(n int, of func(i int) any) []any {
		out := make([]any, n)
		for i := range out {
			out[i] = of(i)
		}
		return out
	}
	for name, c := range map[string]struct {
		at    string
		value any
		path  string
	}{
		"version a text":     {"version", "1", "version"},
		"version null":       {"version", nil, "version"},
		"version negative":   {"version", -1.0, "version"},
		"version a fraction": {"version", 1.5, "version"},
		"later version":      {"version", 2.0, "version"},
		"much later version": {"version", 999999.0, "version"},

		"name a number":      {"name", 5.0, "name"},
		"name too long":      {"name", strings.Repeat("x", field.Name.Row().Most+1), "name"},
		"notes a list":       {"notes", list(), "notes"},
		"tree a list":        {"tree", list(), "tree"},
		"tree null":          {"tree", nil, "tree"},
		"site a text":        {"site", "windy", "site"},
		"cut a number":       {"cut", 5.0, "cut"},
		"points an object":   {"points", fields{}, "points"},
		"point a text":       {"points[0]", "R", "points[0]"},
		"lines null":         {"lines", nil, "lines"},
		"line a list":        {"lines[0]", list(), "lines[0]"},
		"gear a text":        {"gear", "rope", "gear"},
		"piece null":         {"gear[0]", nil, "gear[0]"},
		"plus_minus a list":  {"plus_minus", list(), "plus_minus"},
		"plus_minus nested":  {"plus_minus", fields{"tree": fields{"height_m": 1}}, "plus_minus.tree"},
		"anchor null":        {"points[0].anchor", nil, "points[0].anchor"},
		"anchor a number":    {"points[0].anchor", 60.0, "points[0].anchor"},
		"no such anchor":     {"points[0].anchor.kind", "skyhook", "points[0].anchor.kind"},
		"anchor kind null":   {"points[0].anchor.kind", nil, "points[0].anchor.kind"},
		"species not known":  {"tree.species", "triffid", "tree.species"},
		"species a number":   {"tree.species", 7.0, "tree.species"},
		"role not known":     {"lines[0].role", "push", "lines[0].role"},
		"role null":          {"lines[0].role", nil, "lines[0].role"},
		"kind not known":     {"gear[0].kind", "string", "gear[0].kind"},
		"place not known":    {"gear[1].place", "crown", "gear[1].place"},
		"id a number":        {"points[0].id", 5.0, "points[0].id"},
		"id empty":           {"points[0].id", "", "points[0].id"},
		"id blank":           {"gear[0].id", "  ", "gear[0].id"},
		"id of a line blank": {"lines[0].id", "\t", "lines[0].id"},

		"two points of one name": {"points[3].id", "T1", "points[3].id"},
		"two lines of one name":  {"lines[1].id", "pull", "lines[1].id"},
		"two pieces of one name": {"gear[1].id", "pull rope", "gear[1].id"},
		"station at no point":    {"lines[0].path[1].point", "Q", "lines[0].path[1].point"},
		"station point a number": {"lines[0].path[1].point", 3.0, "lines[0].path[1].point"},
		"haul to no point":       {"lines[0].tackle.haul_path[0].point", "Q", "lines[0].tackle.haul_path[0].point"},
		"haul over the stem":     {"lines[0].tackle.haul_path[0]", fields{"stem_m": 5}, "lines[0].tackle.haul_path[0]"},
		"gear on no line":        {"gear[0].line", "Q", "gear[0].line"},
		"gear at no point":       {"gear[3].point", "Q", "gear[3].point"},
		"gear in two places":     {"gear[3].line", "pull", "gear[3].point"},
		"gear at a point's stem": {"gear[3].place", "stem", "gear[3].place"},
		"leg to no point":        {"points[1].anchor.legs[0].point", "Q", "points[1].anchor.legs[0].point"},
		"one leg":                {"points[1].anchor.legs", list(leg("T1")), "points[1].anchor.legs"},
		"four legs":              {"points[1].anchor.legs", list(leg("T1"), leg("T2"), leg("M"), leg("R")), "points[1].anchor.legs"},
		"a bridle of itself":     {"points[1].anchor.legs[0].point", "A", "points[1].anchor.legs"},
		"self_adjusting a text":  {"points[1].anchor.self_adjusting", "yes", "points[1].anchor.self_adjusting"},
		"legs that must push":    {"points[1].anchor.legs", list(leg("R"), leg("M")), "points[1].anchor.legs"},

		"path a text":             {"lines[0].path", "stem to A", "lines[0].path"},
		"path of one station":     {"lines[0].path", list(fields{"stem_m": 14}), "lines[0].path"},
		"empty path":              {"lines[0].path", list(), "lines[0].path"},
		"path ends on the stem":   {"lines[1].path", list(fields{"point": "H"}, fields{"stem_m": 12}), "lines[1].path[1]"},
		"path never on the stem":  {"lines[1].path", list(fields{"point": "H"}, fields{"point": "R"}), "lines[1].path"},
		"station stem and point":  {"lines[0].path[0].point", "R", "lines[0].path[0].stem_m"},
		"station above the top":   {"lines[0].path[0].stem_m", 60.0, "lines[0].path[0].stem_m"},
		"station below the cut":   {"lines[0].path[0].stem_m", 0.3, "lines[0].path[0].stem_m"},
		"two stations in one":     {"lines[0].path[1].point", "A", "lines[0].path[2]"},
		"points in one place":     {"points[0]", fields{"id": "R", "bearing_deg": 62, "distance_m": 58, "rise_m": 0.6, "anchor": fields{"kind": "rated", "capacity_kN": 60}}, "lines[0].path[2]"},
		"haul nowhere":            {"lines[0].tackle.haul_path[0].point", "A", "lines[0].tackle.haul_path[0]"},
		"pulls the wrong way":     {"points[0].bearing_deg", 180.0, "lines"},
		"only a hold line":        {"lines[0].role", "hold", "lines"},
		"stall below rated":       {"lines[0].puller.stall_kN", 5.0, "lines[0].puller.stall_kN"},
		"planned below the pull":  {"planned_kN", 5.0, "planned_kN"},
		"allowance below one":     {"allowance", 0.99, "allowance"},
		"both limits in kN and t": {"gear[1].wll_kN", 40.0, "gear[1].wll_t"},
		"stages and reeving":      {"lines[0].tackle.reeving", fields{}, "lines[0].tackle.reeving"},
		"no stage":                {"lines[0].tackle.stages", list(), "lines[0].tackle.stages"},
		"half a part":             {"lines[0].tackle.stages[0].parts", 2.5, "lines[0].tackle.stages[0].parts"},
		"haul from nowhere":       {"lines[0].tackle.stages[0].haul_from", "above", "lines[0].tackle.stages[0].haul_from"},
		"tackle a number":         {"lines[0].tackle", 3.0, "lines[0].tackle"},
		"puller a number":         {"lines[0].puller", 30.0, "lines[0].puller"},
		"rope a text":             {"lines[0].rope", "long", "lines[0].rope"},
		"reductions an object":    {"gear[0].reductions", fields{}, "gear[0].reductions"},
		"reduction above one":     {"gear[0].reductions[0].factor", 1.2, "gear[0].reductions[0].factor"},
		"reduction of all":        {"gear[0].reductions[0].factor", 0.0, "gear[0].reductions[0].factor"},
		"rows of pickets":         {"points[0].anchor", fields{"kind": "pickets", "rows": list("1", 1)}, "points[0].anchor.rows[0]"},
		"no rows of pickets":      {"points[0].anchor", fields{"kind": "pickets"}, "points[0].anchor.rows"},
		"pickets by the dozen":    {"points[0].anchor", fields{"kind": "pickets", "rows": list(12)}, "points[0].anchor.rows[0]"},
		"log not deep":            {"points[0].anchor", fields{"kind": "buried_log", "depth_m": 0.1, "length_m": 2, "diameter_cm": 40}, "points[0].anchor.depth_m"},
		"crown above the top":     {"tree.crown_centre_m", 60.0, "tree.crown_centre_m"},
		"mass centre in the cut":  {"tree.mass_centre_m", 0.2, "tree.mass_centre_m"},
		"hinge wider than stem":   {"cut.hinge_length_cm", 200.0, "cut.hinge_length_cm"},
		"hinge thicker than stem": {"cut.hinge_left_cm", 90.0, "cut.hinge_left_cm"},
		"hinge all cavity":        {"tree.cavity_cm", 62.0, "tree.cavity_cm"},

		"unknown field":          {"colour", "red", "colour"},
		"misspelt height":        {"tree.hieght_m", 30.0, "tree.hieght_m"},
		"unknown in a point":     {"points[0].distance_ft", 30.0, "points[0].distance_ft"},
		"unknown in an anchor":   {"points[0].anchor.wll_t", 30.0, "points[0].anchor.wll_t"},
		"unknown in a station":   {"lines[0].path[0].stem_cm", 30.0, "lines[0].path[0].stem_cm"},
		"unknown in a piece":     {"gear[0].mbl_t", 30.0, "gear[0].mbl_t"},
		"unknown in a puller":    {"lines[0].puller.stall_t", 30.0, "lines[0].puller.stall_t"},
		"unknown in a reduction": {"gear[0].reductions[0].value", 0.5, "gear[0].reductions[0].value"},

		"points beyond number":   {"points", many(field.Points.Row().Most+1, func(i int) any { return fields{"id": fmt.Sprint("p", i), "bearing_deg": 0, "distance_m": 40 + i} }), "points"},
		"lines beyond number":    {"lines", many(field.Lines.Row().Most+1, func(i int) any { return fields{"id": fmt.Sprint("l", i)} }), "lines"},
		"stations beyond number": {"lines[0].path", many(field.Stations.Row().Most+1, func(i int) any { return fields{"point": "R"} }), "lines[0].path"},
		"gear beyond number":     {"gear", many(field.Gear.Row().Most+1, func(i int) any { return fields{"id": fmt.Sprint("g", i)} }), "gear"},
		"stages beyond number":   {"lines[0].tackle.stages", many(field.Stages.Row().Most+1, func(i int) any { return fields{"parts": 2} }), "lines[0].tackle.stages"},
		"a great many stages":    {"lines[0].tackle.stages", many(field.Stages.Row().Most, func(i int) any { return fields{"parts": 12} }), "lines[0].tackle.stages"},
	} {
		rep := demoDocument(t).set(c.at, c.value).evaluate(t)
		given := false // some problems are of what is missing
		for _, p := range rep.Problems {
			given = given || p.Path == c.path && p.Given != nil
		}
		refused(t, name, rep, c.path, given)
	}
}

func TestNotAPlan(t *testing.T) {
	for name, text := range map[string]string{
		"nothing":          "",
		"blank":            " \n",
		"null":             "null",
		"a number":         "5",
		"a text":           `"plan"`,
		"a list":           "[]",
		"cut off":          `{"tree": {"height_m": 28`,
		"trailing text":    string(demo(t)) + "x",
		"two plans":        "{}{}",
		"not JSON":         `{tree: 1}`,
		"NaN":              `{"allowance": NaN}`,
		"infinity":         `{"allowance": Infinity}`,
		"hexadecimal":      `{"allowance": 0x10}`,
		"leading zero":     `{"allowance": 01}`,
		"a comment":        `{} // plan`,
		"too long":         `{"notes":"` + strings.Repeat("x", MaxBytes) + `"}`,
		"deep":             strings.Repeat("[", 100000),
		"deep and closed":  `{"tree":` + strings.Repeat("[", 60000) + strings.Repeat("]", 60000) + `}`,
		"deep objects":     strings.Repeat(`{"a":`, 30000) + "1" + strings.Repeat("}", 30000),
		"broken UTF-8":     "\xff\xfe{}",
		"byte order mark":  "\ufeff" + string(demo(t)),
		"a zero byte":      "{}\x00",
		"lone closing":     "}",
		"single quotes":    `{'tree': 1}`,
		"comma at the end": `{"allowance": 2,}`,
	} {
		refused(t, name, evaluated(t, []byte(text)), "", false)
	}
	// A plan with nothing in it names what is missing.
	rep := evaluated(t, []byte(`{}`))
	refused(t, "empty plan", rep, "tree", false)
	assert.Equal(t, rigging.Unknown, rep.Verdict)
	// Nested as deep as it goes within a field nobody knows: named, not read.
	deep := strings.Replace(string(demo(t)), `"version": 1`, `"version": 1, "x": `+strings.Repeat("[", jsontext.MaxDepth-1)+strings.Repeat("]", jsontext.MaxDepth-1), 1)
	refused(t, "deep unknown", evaluated(t, []byte(deep)), "x", false)
	// A hostile name neither ends up whole in a message nor breaks it.
	long := strings.Repeat("ä", 5000) + "%s%n<script>"
	rep = demoDocument(t).set("gear[0].line", long).set(strings.Repeat("k", 5000), 1).evaluate(t)
	for _, p := range rep.Problems {
		assert.Less(t, len(p.Message)+len(p.Path), 1000)
		assert.NotContains(t, p.Message, "%!")
	}
}

func TestCutAboveHalfTheTree(t *testing.T) {
	rep := demoDocument(t).set("tree.height_m", 18.0).set("cut.stump_m", 9.5).evaluate(t)
	refused(t, "cut", rep, "cut.stump_m", true)
}

// A shared anchor that leads round in a circle through another.
func TestCircularBridles(t *testing.T) {
	legs := func(names ...string) fields {
		var l []any
		for _, n := range names {
			l = append(l, fields{"point": n})
		}
		return fields{"kind": "bridle", "legs": l, "self_adjusting": true}
	}
	rep := demoDocument(t).set("points[2].anchor", legs("T2", "M")).set("points[3].anchor", legs("T1", "M")).evaluate(t)
	assert.NotEmpty(t, rep.Problems)
	refused(t, "circle", rep, "points[1].anchor.legs", false)
}

func TestVersions(t *testing.T) {
	want := demoDocument(t).evaluate(t)
	for _, d := range []document{demoDocument(t).drop("version"), demoDocument(t).set("version", 0.0)} {
		rep := d.evaluate(t)
		assert.Equal(t, rigging.Within, rep.Verdict)
		assert.Empty(t, rep.Problems)
		assertSame(t, loads(want), loads(rep))
		assert.Equal(t, Version, rep.Version)
	}
	rep := demoDocument(t).set("version", 2.0).evaluate(t)
	refused(t, "later", rep, "version", true)
	assert.Contains(t, rep.Problems[0].Message, "Update")
}

// A complete plan is within; each link taken away makes it unknown, and the
// report names the link.
func TestMissingLinks(t *testing.T) {
	for name, c := range map[string]struct {
		drop string
		path string
	}{
		"rope of the pull line": {"gear[0]", "lines[0]"},
		"rope of the hold line": {"gear[7]", "lines[1]"},
		"block at the redirect": {"gear[3]", "lines[0].path[1]"},
		"anchor of the block":   {"points[0].anchor", "points[0].anchor"},
		"anchor of a leg":       {"points[2].anchor", "points[2].anchor"},
		"anchor of the machine": {"points[4].anchor", "points[4].anchor"},
		"anchor of the hold":    {"points[5].anchor", "points[5].anchor"},
		"anchor of the tackle":  {"points[1].anchor", "points[1].anchor"},
		"puller":                {"lines[0].puller", "lines[0].puller.rated_kN"},
		"rated pull":            {"lines[0].puller.rated_kN", "lines[0].puller.rated_kN"},
	} {
		rep := demoDocument(t).drop(c.drop).evaluate(t)
		assert.Equal(t, rigging.Unknown, rep.Verdict, name)
		refused(t, name, rep, c.path, false)
	}
	// A block on the stem, and one in the hauling part of a tackle.
	d := demoDocument(t).set("lines[1].path", []any{fields{"point": "T2"}, fields{"stem_m": 12}, fields{"point": "H"}})
	refused(t, "block on the stem", d.evaluate(t), "lines[1].path[1]", false)
	d = demoDocument(t).set("lines[0].tackle.haul_path", []any{fields{"point": "H"}, fields{"point": "M"}})
	refused(t, "block in the hauling part", d.evaluate(t), "lines[0].tackle.haul_path[0]", false)
	// With the block among the gear the same plans are judged.
	gear := d.at("gear").([]any)
	d.set("gear", append(gear, fields{"id": "b", "kind": "block", "point": "H", "wll_t": 10}))
	assert.Empty(t, d.evaluate(t).Problems)
}

// Over outranks unknown, unknown outranks near, near outranks within.
func TestRanks(t *testing.T) {
	over := func(d document) document { return d.set("points[0].anchor.capacity_kN", 10.0) }
	near := func(d document) document {
		rep := d.evaluate(t)
		for _, p := range rep.Points {
			if p.ID == "R" {
				return d.set("points[0].anchor.capacity_kN", float64(p.LoadKN)/0.9)
			}
		}
		return d
	}
	unknown := func(d document) document { return d.drop("points[5].anchor") }
	d := func() document { return demoDocument(t) }
	assert.Equal(t, rigging.Within, d().evaluate(t).Verdict)
	assert.Equal(t, rigging.Near, near(d()).evaluate(t).Verdict)
	assert.Equal(t, "R", near(d()).evaluate(t).Governing)
	assert.Equal(t, rigging.Unknown, unknown(near(d())).evaluate(t).Verdict)
	assert.Equal(t, rigging.Over, over(d()).evaluate(t).Verdict)
	assert.Equal(t, rigging.Over, unknown(over(d())).evaluate(t).Verdict)
	// On the limits themselves.
	rep := d().evaluate(t)
	load := float64(rep.Points[0].LoadKN)
	require.Equal(t, "R", rep.Points[0].ID)
	for _, c := range []struct {
		use  float64
		want rigging.Verdict
	}{{0.79, rigging.Within}, {0.81, rigging.Near}, {0.999, rigging.Near}, {1.001, rigging.Over}} {
		assert.Equal(t, c.want, d().set("points[0].anchor.capacity_kN", load/c.use).evaluate(t).Points[0].Verdict, "%v", c.use)
	}
}

// Where a piece gives a working load limit and a breaking load with its
// factor, the smaller limit counts.
func TestSmallerLimitCounts(t *testing.T) {
	for _, c := range []struct{ mbl, factor, want float64 }{{190, 5, 38}, {500, 5, 40}} {
		rep := demoDocument(t).set("gear[3]", fields{"id": "redirect block", "kind": "block", "point": "R", "wll_kN": 40, "mbl_kN": c.mbl, "design_factor": c.factor}).evaluate(t)
		assert.InDelta(t, c.want, float64(rep.Gear[3].CapacityKN), 1e-9)
		assert.Empty(t, rep.Problems)
	}
}

// A block is judged by its own load even where another line pulls its
// anchor the other way.
func TestBlockCarriesItsOwnLoad(t *testing.T) {
	d := demoDocument(t)
	alone := d.evaluate(t)
	// A second pull line that ends at R draws the anchor another way.
	d.set("lines", append(d.at("lines").([]any), fields{"id": "second", "role": "pull", "share": 2.0, "path": []any{fields{"stem_m": 13}, fields{"point": "R"}}, "tied": []any{"stem"}, "puller": fields{"rated_kN": 60, "limited_by": "device", "setting_kN": 60}}))
	d.set("gear", append(d.at("gear").([]any), fields{"id": "second rope", "kind": "wire_rope", "line": "second", "wll_t": 8, "reductions": []any{fields{"why": "choker", "factor": 0.8}}}))
	both := d.evaluate(t)
	assert.Empty(t, both.Problems)
	for i, g := range both.Gear {
		if g.ID != "redirect block" {
			continue
		}
		scale := float64(both.Lines[0].TensionKN / alone.Lines[0].TensionKN)
		assert.GreaterOrEqual(t, float64(g.LoadKN), float64(alone.Gear[i].LoadKN)*scale*(1-1e-9))
	}
	// A tackle's fixed block carries what its point does, less where the
	// hauling part leads on, away from the tree; its moving block, on the
	// line, carries the line all the same.
	d = demoDocument(t).set("points[4].bearing_deg", 75.0).set("points[4].distance_m", 100.0)
	rep := d.evaluate(t)
	last := float64(rep.Lines[0].Legs[1].TensionKN)
	for _, g := range rep.Gear {
		switch g.ID {
		case "tackle fixed block":
			assert.InDelta(t, float64(rep.Points[1].LoadKN), float64(g.LoadKN), 1e-9)
			assert.Less(t, float64(g.LoadKN), last)
		case "tackle moving block":
			assert.InDelta(t, last, float64(g.LoadKN), 1e-9)
		}
	}
}

// A lean whose bearing cannot matter needs none, and what is left out is
// listed with what was taken instead.
func TestAssumed(t *testing.T) {
	rep := demoDocument(t).drop("site").drop("cut").drop("allowance").drop("lines[0].path[1].efficiency").evaluate(t)
	listed := map[string]bool{}
	for _, a := range rep.Assumed {
		listed[a.Path] = true
		assert.NotEmpty(t, a.Why, a.Path)
		assert.NotNil(t, a.Value, a.Path)
	}
	for _, path := range []string{"site.wind_mps", "cut.stump_m", "cut.face_opening_deg", "cut.hinge_length_cm", "cut.hinge_left_cm", "cut.hinge_right_cm", "allowance", "lines[0].path[1].efficiency", "tree.form_factor", "tree.green_density_kgm3", "tree.bending_strength_MPa", "tree.crown_fraction", "tree.crown_centre_m"} {
		assert.True(t, listed[path], path)
	}
	rep = demoDocument(t).set("tree.lean_deg", 0.0).drop("tree.lean_bearing_deg").evaluate(t)
	assert.Empty(t, rep.Problems)
}

// A tree that goes by itself: the line only steers, which is said, and
// nothing is divided by the pull that is not there.
func TestLineThatOnlySteers(t *testing.T) {
	rep := demoDocument(t).set("tree.lean_deg", 15.0).set("tree.lean_bearing_deg", 0.0).set("tree.crown_offset_m", 0.0).evaluate(t)
	assert.Zero(t, float64(rep.Pull.PeakKN))
	assert.Empty(t, rep.Problems)
	said := false
	for _, c := range rep.Cautions {
		said = said || c.Code == "steers_only"
	}
	assert.True(t, said)
	assert.False(t, math.IsInf(float64(rep.Pull.HoldPullTo), 0))
}

// A tackle that cannot be computed leaves the haul, and all it loads, not
// known; it is never taken as no tackle at all.
func TestTackleThatCannotBeComputed(t *testing.T) {
	reeving := fields{
		"nodes": []any{fields{"id": "f", "kind": "anchor", "at": 10}, fields{"id": "l", "kind": "load", "at": 0}, fields{"id": "h", "kind": "haul", "at": 8}},
		"ropes": []any{fields{"way": []any{"f", "l", "f", "h"}}},
	}
	d := demoDocument(t).drop("lines[0].tackle.stages").set("lines[0].tackle.reeving", reeving)
	rep := d.evaluate(t)
	refused(t, "reeving", rep, "lines[0].tackle.reeving.ropes[0].way", false)
	assert.False(t, rep.Lines[0].HaulKN.Known())
	assert.False(t, rep.Lines[0].ActualAdvantage.Known())
	assert.Nil(t, rep.Lines[0].Tackle)
	for _, g := range rep.Gear {
		switch g.ID {
		case "pull rope", "tackle fixed block", "tackle moving block", "pull/puller":
			assert.Equal(t, rigging.Unknown, g.Verdict, g.ID)
			assert.False(t, g.LoadKN.Known(), g.ID)
		}
	}
	for _, p := range rep.Points {
		switch p.ID {
		case "A", "T1", "T2", "M":
			assert.Equal(t, rigging.Unknown, p.Verdict, p.ID)
			assert.False(t, p.LoadKN.Known(), p.ID)
		}
	}
	// Sentences leave out a load that is not known.
	d.set("points[4].anchor", fields{"kind": "buried_log", "depth_m": 2, "length_m": 2, "diameter_cm": 50})
	refused(t, "without an anchor", d.drop("points[2].anchor").evaluate(t), "points[2].anchor", false)
	refused(t, "without an anchor", d.drop("points[1].anchor").evaluate(t), "points[1].anchor", false)
}

// A hauling part that stops half-way judges nothing it leads to.
func TestHaulingPartInOnePlace(t *testing.T) {
	d := demoDocument(t).set("lines[0].tackle.haul_path", []any{fields{"point": "M"}, fields{"point": "M"}})
	d.set("gear", append(d.at("gear").([]any), fields{"id": "b", "kind": "block", "point": "M", "wll_t": 10}))
	rep := d.evaluate(t)
	refused(t, "hauling part", rep, "lines[0].tackle.haul_path[1]", false)
	for _, p := range rep.Points {
		if p.ID == "A" || p.ID == "M" || p.ID == "T1" {
			assert.Equal(t, rigging.Unknown, p.Verdict, p.ID)
		}
	}
}

// A hauling part that leaves a single block harder than the line enters it
// is what loads the rope.
func TestRopeCarriesItsHardestLeg(t *testing.T) {
	rep := demoDocument(t).set("lines[0].tackle.stages", []any{fields{"parts": 1, "haul_from": "fixed"}}).evaluate(t)
	require.Empty(t, rep.Problems)
	legs := rep.Lines[0].Legs
	assert.Greater(t, rep.Lines[0].HaulKN, legs[1].TensionKN)
	assert.Equal(t, "pull rope", rep.Gear[0].ID)
	assert.InDelta(t, float64(rep.Lines[0].HaulKN), float64(rep.Gear[0].LoadKN), 1e-9)
}

// A shared anchor that holds what is planned but would have to push at most
// leaves its legs at most not known, and the plan with them: here the line that
// holds the junction against its legs is pulled away by one with a stronger
// puller.
func TestSharedAnchorThatCannotHoldAtMost(t *testing.T) {
	m := &model{points: []point{
		{id: "J", bridle: &bridle{legs: []int{1, 2}, selfAdjusting: true}},
		{id: "L1", at: rigging.Vec{X: 5, Y: 2}, kind: field.Rated, anchor: rigging.RatedAnchor{Capacity: 1e5}},
		{id: "L2", at: rigging.Vec{X: 5, Y: -2}, kind: field.Rated, anchor: rigging.RatedAnchor{Capacity: 1e5}},
	}, lines: []line{{}}}
	at := func(x float64) []attitude {
		return []attitude{{lines: []lineAt{{haul: 1}}, parts: []part{{0, 0, rigging.Vec{X: x}}}}}
	}
	e := &evaluation{r: &reader{}, m: m, held: make([]held, 3), loads: []lineLoad{{tension: 1000, mostHaul: 1000}}, runs: make([]haulRun, 1), pull: &rigging.Pull{Tension: []float64{1000}}}
	e.turning, e.atMost = at(-1), append(at(-1), at(1)...)
	e.standing = &e.turning[0]
	e.hold()
	for i := range e.held {
		assert.Equal(t, rigging.Within, e.held[i].verdict)
	}
	assert.Equal(t, rigging.Unknown, e.held[0].mostVerdict)
}

// A part of rope, or a block that travels, can carry more than any leg of the
// line. Source: statics of the pulley, any mechanics textbook: a block turned
// through half a circle is held by T_in + T_out, and T_out = T_in/η (DIN
// 15020-1, from memory).
func TestGearInATackleThatCarriesMoreThanAnyLeg(t *testing.T) {
	const eta = 0.9
	const rounding = 1e-9 // of the last digits written
	named := func(r Report, id string) GearReport {
		for _, g := range r.Gear {
			if g.ID == id {
				return g
			}
		}
		t.Fatalf("no piece %s", id)
		return GearReport{}
	}
	// A block tied to the anchor by a strop, the haul led back toward the
	// load: the strop and the block carry T + T/η.
	turned := demoDocument(t).set("lines[0].tackle", fields{"efficiency": eta, "haul_path": []any{fields{"point": "M"}}, "reeving": fields{
		"nodes": []any{fields{"id": "A", "kind": "anchor", "at": 0}, fields{"id": "B", "kind": "moving", "at": 5},
			fields{"id": "L", "kind": "load", "at": 10}, fields{"id": "H", "kind": "haul", "at": 15}},
		"ropes": []any{fields{"path": []any{"A", "B"}}, fields{"path": []any{"L", "B", "H"}}}}}).set("lines[0].tied", []any{"A"}).evaluate(t)
	// One part over a fixed block, then three parts: the rope between the two
	// carries T/η, the hauling part T/η/(η + η² + η³).
	compound := demoDocument(t).set("lines[0].tackle.stages", []any{fields{"parts": 1, "haul_from": "fixed"}, fields{"parts": 3, "haul_from": "fixed"}}).evaluate(t)
	for _, c := range []struct {
		r        Report
		of       float64
		advances float64
		free     float64 // at most on the rope, over the haul: nothing rubs
	}{{turned, 1 + 1/eta, 1 / (1 / eta), 2}, {compound, 1 / eta, eta * (eta + eta*eta + eta*eta*eta), 3}} {
		require.Empty(t, c.r.Problems)
		last := float64(c.r.Lines[0].Legs[1].TensionKN)
		require.InEpsilon(t, c.advances, float64(c.r.Lines[0].ActualAdvantage), rounding)
		for _, id := range []string{"pull rope", "tackle moving block"} {
			require.InEpsilon(t, c.of*last, float64(named(c.r, id).LoadKN), rounding, id)
		}
		require.InEpsilon(t, c.free*float64(c.r.Lines[0].AtMostHaulKN), float64(named(c.r, "pull rope").AtMostKN), rounding)
	}
}

// What no place has is refused, however small the number that says it, and
// the message names the number. Source: geometry; the model has nothing to say
// of a point inside the stem or of a hinge that is not there.
func TestWhatNoPlaceHas(t *testing.T) {
	for _, c := range []struct {
		path    string
		value   any
		problem string
	}{
		{"points[5].distance_m", 0.1, "points[5].distance_m"}, // a hold line straight down the stem would hold nothing and carry nothing
		{"points[0].distance_m", 1e-320, "points[0].distance_m"},
		{"cut.hinge_left_cm", 1e-320, "cut.hinge_left_cm"},
		{"cut.hinge_length_cm", 0.5, "cut.hinge_length_cm"},
		{"points[2].anchor.sling_height_m", 25.5, "points[2].anchor.sling_height_m"},
		{"points[0].anchor", fields{"kind": "pickets", "rows": []any{}}, "points[0].anchor.rows"},
		{"points[1].anchor.legs[1].point", "T1", "points[1].anchor.legs[1].point"},
		{"gear[0].id", "pull/puller", "gear[0].id"},
	} {
		refused(t, c.path, demoDocument(t).set(c.path, c.value).evaluate(t), c.problem, false)
	}
	rep := demoDocument(t).set("points[5].distance_m", 0.4).evaluate(t)
	assert.Empty(t, rep.Problems, "outside the stem, whose radius is 0.39 m")
}

// A hold line that pulls against the pull line's end relieves what holds both
// only while it is tight: the report says what the point carries without it.
// Source: the vector sum of forces, any mechanics textbook: alone, the end of
// a line loads its point with the tension of its last leg.
func TestPullsThatCancelAtAPoint(t *testing.T) {
	d := demoDocument(t).set("points[0].bearing_deg", 300).set("points[0].distance_m", 80)
	d.set("lines[0].path[2].point", "H").drop("lines[0].tackle")
	rep := d.evaluate(t)
	var held PointReport
	for _, p := range rep.Points {
		if p.ID == "H" {
			held = p
		}
	}
	alone := math.Max(float64(rep.Lines[0].Legs[1].TensionKN), float64(rep.Lines[1].Legs[0].TensionKN))
	require.Less(t, float64(held.LoadKN), 0.99*alone)
	require.Contains(t, codes(rep), "pulls_cancel")
	for _, c := range rep.Cautions {
		if c.Code == "pulls_cancel" {
			assert.Equal(t, "points[5]", c.Path)
			assert.Contains(t, c.Message, kilonewtons(1000*alone).String())
		}
	}
	assert.NotContains(t, codes(evaluated(t, demo(t))), "pulls_cancel")
}

// A machine that would slide down its own slope holds nothing, and the report
// says so even where nothing pulls on it. Source: statics of a body on a slope,
// which slides where the slope is steeper than the angle of friction.
func TestMachineThatDoesNotStand(t *testing.T) {
	d := demoDocument(t).set("tree.lean_deg", 20).set("tree.lean_bearing_deg", 0).set("points[4].anchor.traction", 0.2)
	for slope, stands := range map[float64]bool{-11: true, 11: true, -12: false, 12: false} { // arctan 0.2 is 11.3°
		rep := d.set("points[4].anchor.slope_deg", slope).evaluate(t)
		require.Zero(t, rep.Pull.PlannedKN)
		if stands {
			assert.Empty(t, rep.Problems, slope)
		} else {
			refused(t, "sliding", rep, "points[4].anchor", false)
		}
	}
}

// Felling hinge: 80 % of the diameter long and 10 % thick. Source: US OSHA
// Logging eTool, felling hinge (good practice, not a legal standard). The
// example's stem is 78 cm thick: 62.4 cm, held to the centimetre.
func TestSmallHingesAreToldOf(t *testing.T) {
	codes := func(key string, value float64) (out []string) {
		for _, c := range demoDocument(t).set("cut."+key, value).evaluate(t).Cautions {
			out = append(out, c.Code)
		}
		return out
	}
	require.Contains(t, codes("hinge_length_cm", 61), "hinge_short")
	require.NotContains(t, codes("hinge_length_cm", 62), "hinge_short")
	require.Contains(t, codes("hinge_left_cm", 7.7), "hinge_thin")
	require.NotContains(t, codes("hinge_left_cm", 7.8), "hinge_thin")
}

// What a hold line of no known rope takes up as it grows is not known, and is
// said to be so.
func TestFastHoldLineOfNoKnownRope(t *testing.T) {
	d := heldToTheSide(t).drop("lines[1].tended").drop("gear[3]")
	rep := d.evaluate(t)
	refused(t, "no rope", rep, "lines[1]", false)
	assert.Contains(t, codes(rep), "hold_stretches")
	assert.False(t, rep.Lines[1].TensionKN.Known())
	assert.False(t, rep.Pull.HoldPullTo.Known())
}

// Every choice of the lines on a point is gone through; with more lines than that
// can be done for in no time, the plan is not judged.
func TestManyLinesOnOnePoint(t *testing.T) {
	together := func(n int) Report {
		d := straightPull(t)
		d.set("points[0].anchor", fields{"kind": "rated", "capacity_kN": 500})
		var lines, gear []any
		for i := range n {
			id := fmt.Sprint("line ", i)
			lines = append(lines, fields{"id": id, "path": []any{fields{"stem_m": 8 + 0.5*float64(i)}, fields{"point": "M"}}, "tied": []any{"stem", "end"}, "puller": fields{"rated_kN": 4, "limited_by": "stall", "stall_kN": 4}})
			gear = append(gear, fields{"id": fmt.Sprint("rope ", i), "kind": "wire_rope", "line": id, "wll_t": 5, "reductions": []any{fields{"why": "knot", "factor": 0.5}}})
		}
		return d.set("lines", lines).set("gear", gear).evaluate(t)
	}
	rep := together(mostTogether)
	assert.Equal(t, rigging.Within, rep.Verdict, "%v", reasonsOf(rep))
	rep = together(mostTogether + 1)
	refused(t, "too many", rep, "points[0]", true)
	assert.False(t, rep.Points[0].GreatestKN.Known())
	assert.False(t, rep.Pull.HoldPullTo.Known())
}
