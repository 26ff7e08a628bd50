// Package drafttest has plans to test with and makes changes to them as the
// page does.
package drafttest

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext"
	"pullline/rigging/jsontext/jsontest"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
)

// Apply makes changes to a plan the way the page does: set puts a value,
// making objects on the way; delete removes a key or an element; insert
// appends to a list, making it if need be.
func Apply(t *testing.T, raw []byte, c parts.Changes) []byte {
	t.Helper()
	// Through JSON, as the page gets them.
	text := jsontext.Encode(&c)
	jsontest.SameAsTags(t, c, c.AppendJSON)
	var got struct {
		Changes []struct {
			Op    string          `json:"op"`
			At    []any           `json:"at"`
			Value json.RawMessage `json:"value"`
		} `json:"changes"`
	}
	require.NoError(t, json.Unmarshal(text, &got))
	root := Parse(raw).Tree
	for _, change := range got.Changes {
		require.NotEmpty(t, change.At)
		var value any
		if change.Op != "delete" {
			require.NotEmpty(t, change.Value, "a value that the page can see: %s", text)
			d := parseAny(t, change.Value)
			value = d
		}
		root = changed(t, root, change.At, change.Op, value)
	}
	out, err := json.Marshal(root)
	require.NoError(t, err)
	return out
}

func parseAny(t *testing.T, raw []byte) any {
	d := Parse([]byte(`{"v":` + string(raw) + `}`))
	require.NoError(t, d.Err)
	v, _ := d.At("v")
	return v
}

// changed returns v with one change made below it.
func changed(t *testing.T, v any, at []any, op string, value any) any {
	t.Helper()
	if len(at) == 0 {
		switch op {
		case "set":
			return value
		case "insert":
			l, ok := v.([]any)
			require.True(t, ok || v == nil, "insert into what is no list")
			return append(l, value)
		}
		require.Fail(t, "no such op", op)
	}
	last := len(at) == 1
	switch key := at[0].(type) {
	case string:
		m, ok := v.(map[string]any)
		if !ok {
			require.Nil(t, v, "an object is needed at %v", at)
			m = map[string]any{}
		}
		if last && op == "delete" {
			_, there := m[key]
			require.True(t, there, "delete what is there: %v", at)
			delete(m, key)
			return m
		}
		m[key] = changed(t, m[key], at[1:], op, value)
		return m
	case float64:
		l, ok := v.([]any)
		require.True(t, ok, "a list is needed at %v", at)
		i := int(key)
		require.Less(t, i, len(l), "an element that is there: %v", at)
		if last && op == "delete" {
			return append(l[:i:i], l[i+1:]...)
		}
		l[i] = changed(t, l[i], at[1:], op, value)
		return l
	}
	require.Fail(t, "a path of keys and indexes")
	return nil
}

// Full is a plan with every field of the format in it. Its numbers are
// invented and need not make sense together.
const Full = `{
  "version": 1, "name": "everything", "notes": "invented",
  "site": {"wind_mps": 2},
  "tree": {"species": "radiata_pine", "height_m": 28, "diameter_cm": 85, "form_factor": 0.42, "green_density_kgm3": 900, "bending_strength_MPa": 40,
    "grown": "forest", "crown_fraction": 0.2, "crown_centre_m": 18.2, "crown_offset_m": 0, "crown_offset_bearing_deg": 0, "crown_area_m2": 60, "drag_coefficient": 0.5,
    "lean_deg": 4, "lean_bearing_deg": 180, "cavity_cm": 0, "mass_kg": 7200, "mass_centre_m": 9.9,
    "defects": [{"kind": "fork", "height_m": 16, "cavity_cm": 5}, {"height_m": 7, "cavity_cm": 10}],
    "sections": [{"height_m": 1.3, "diameter_cm": 85}, {"height_m": 6.5, "diameter_cm": 66}]},
  "cut": {"stump_m": 0.4, "face_opening_deg": 60, "hinge_length_cm": 68, "hinge_left_cm": 8.5, "hinge_right_cm": 8.5},
  "people": [{"id": "class", "kind": "students", "bearing_deg": 200, "distance_m": 80, "needed": true}, {"id": "signals", "kind": "signaller", "bearing_deg": 140, "distance_m": 20, "needed": true}],
  "points": [
    {"id": "A", "bearing_deg": 0, "distance_m": 45, "rise_m": 0, "anchor": {"kind": "rated", "capacity_kN": 60}},
    {"id": "B", "bearing_deg": 10, "distance_m": 45, "rise_m": 0, "anchor": {"kind": "machine", "mass_kg": 9000, "traction": 0.5, "slope_deg": 0, "rated_kN": 40}},
    {"id": "C", "bearing_deg": 20, "distance_m": 45, "rise_m": 0, "anchor": {"kind": "tree", "diameter_cm": 40, "height_m": 20, "form_factor": 0.4, "green_density_kgm3": 900, "turning_Nm_per_kg": 100, "sling_height_m": 0.5, "factor": 3}},
    {"id": "D", "bearing_deg": 30, "distance_m": 45, "rise_m": 0, "anchor": {"kind": "buried_log", "depth_m": 1.5, "length_m": 2, "diameter_cm": 40, "slot_m": 0.3, "soil_factor": 1}},
    {"id": "E", "bearing_deg": 40, "distance_m": 45, "rise_m": 0, "anchor": {"kind": "pickets", "rows": [3, 2, 1], "soil_factor": 1}},
    {"id": "F", "bearing_deg": 50, "distance_m": 45, "rise_m": 0, "anchor": {"kind": "bridle", "legs": [{"point": "A"}, {"point": "B"}], "self_adjusting": true}}
  ],
  "lines": [
    {"id": "pull", "role": "pull", "share": 1, "path": [{"stem_m": 14}, {"point": "A", "efficiency": 0.95}, {"point": "F"}],
     "tackle": {"stages": [{"parts": 3, "haul_from": "fixed"}], "efficiency": 0.9, "haul_path": [{"point": "B", "efficiency": 0.95}, {"point": "C"}]},
     "puller": {"rated_kN": 30, "limited_by": "watched", "stall_kN": 60, "setting_kN": 40}, "tended": true, "tied": ["stem"], "rope": {"mass_kgpm": 1.0, "stiffness_kN": 12000}},
    {"id": "hold", "role": "hold", "path": [{"stem_m": 12}, {"point": "D"}], "tackle": {"reeving": {"nodes": [], "ropes": []}, "efficiency": 0.9}}
  ],
  "gear": [
    {"id": "rope", "kind": "wire_rope", "line": "pull", "wll_t": 3.2, "hitch_factor": 1, "reductions": [{"why": "splice", "factor": 0.9}]},
    {"id": "strop", "kind": "sling", "line": "pull", "place": "stem", "wll_kN": 40},
    {"id": "block", "kind": "block", "point": "A", "mbl_kN": 200, "design_factor": 5, "notes": "x",
      "size": "16 mm", "terminations": "hook", "last_inspection": "2026-01-02", "next_inspection": "2027-01-02", "retired": true, "cleared": "invented"}
  ],
  "pull_date": "2026-05-01", "allowance": 1.5, "planned_kN": 25,
  "fork": {"tree": "old one", "stem": 1, "of": 2, "order": 1},
  "brief": {"sequence": ["light tension", "cut"], "signals": [{"sign": "arm up", "means": "stop", "by": "anyone"}], "stop_haul_kN": 20, "stop_rope_m": 5, "roles": [{"role": "saw", "name": "invented"}], "notes": "x"},
  "after": {"date": "2026-05-01", "peak_kN": 12, "peak_deg": 3, "haul_kN": 5, "happened": "x", "photos": ["a.jpg", "b.jpg"]},
  "plus_minus": {"tree.height_m": 1.5, "tree.lean_deg": 1, "points[1].distance_m": 2, "lines[0].path[0].stem_m": 0.5},
  "readings": {"tree.height_m": {"method": "height_angles", "values": {"distance_m": 30, "top_deg": 40}}}
}`

// Leaning is an invented plan to draw: a tree leaning back and to the right,
// pulled through a redirect by a hauled tackle, held to the left.
const Leaning = `{"version":1,"name":"Invented for the drawings",
"tree":{"height_m":28,"diameter_cm":85,"crown_centre_m":18.2,"crown_area_m2":60,"crown_offset_m":1,"crown_offset_bearing_deg":150,"lean_deg":4,"lean_bearing_deg":160},
"cut":{"stump_m":0.4,"face_opening_deg":60},
"points":[{"id":"R","bearing_deg":20,"distance_m":40},{"id":"A","bearing_deg":75,"distance_m":48},
{"id":"M","bearing_deg":80,"distance_m":60},{"id":"H","bearing_deg":285,"distance_m":30}],
"lines":[{"id":"pull","role":"pull","path":[{"stem_m":14},{"point":"R"},{"point":"A"}],
"tackle":{"stages":[{"parts":3,"haul_from":"fixed"}],"haul_path":[{"point":"M"}]},"puller":{"rated_kN":30,"stall_kN":60}},
{"id":"hold","role":"hold","path":[{"stem_m":12},{"point":"H"}]}]}`

// Demo is the invented example plan.
func Demo(t testing.TB) []byte {
	_, here, _, _ := runtime.Caller(0)
	raw, err := os.ReadFile(filepath.Join(filepath.Dir(here), "../../../testdata/demo.json"))
	require.NoError(t, err)
	return raw
}

// Walk visits every leaf of a plan by path.
func Walk(path string, v any, visit func(path string, v any)) {
	switch x := v.(type) {
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(x)) {
			Walk(draft.Sub(path, key), x[key], visit)
		}
	case []any:
		for i, item := range x {
			Walk(draft.Elem(path, i), item, visit)
		}
	default:
		visit(path, v)
	}
}

// Parse makes a plan of a plan's text.
func Parse(raw []byte) *draft.Plan {
	v, err := jsontext.Parse(raw)
	d := draft.Of(v)
	if err != nil {
		d.Err = err
	}
	return d
}

// Fields are those of a form by their paths.
func Fields(form []parts.Section) map[string]parts.Field {
	out := map[string]parts.Field{}
	for i := range form {
		for _, f := range form[i].Fields {
			out[f.Path] = f
		}
		maps.Copy(out, Fields(form[i].Sections))
	}
	return out
}

// Forked is the demonstration plan as one of several stems, with what was
// measured in its pull.
func Forked(t testing.TB, fork string) string {
	t.Helper()
	raw := string(Demo(t))
	raw = strings.Replace(raw, `"plus_minus": {`, `"readings": {"tree.lean_bearing_deg": {"values": {}}}, "plus_minus": {"points[0].bearing_deg": 1, "tree.lean_bearing_deg": 2, `, 1)
	return strings.Replace(raw, "{", `{"fork": `+fork+`, "after": {"peak_kN": 10},`, 1)
}
