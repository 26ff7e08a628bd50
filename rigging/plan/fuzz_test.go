package plan

import (
	"strings"
	"testing"
)

// FuzzEvaluate gives any bytes to the one call the page makes. Whatever
// comes in, one sound report comes out: JSON without numbers that are not
// finite, never reassuring beside a problem.
func FuzzEvaluate(f *testing.F) {
	whole := string(demo(f))
	// The demonstration plan: every part of the format that it uses.
	f.Add([]byte(whole))
	// No plan at all.
	f.Add([]byte(``))
	f.Add([]byte(`null`))
	f.Add([]byte(`{}`))
	// A text cut off in the middle.
	f.Add([]byte(whole[:len(whole)/2]))
	// A number too big for any machine.
	f.Add([]byte(`{"tree":{"height_m":1e999,"diameter_cm":60,"lean_deg":3,"lean_bearing_deg":180}}`))
	// The least that can be solved: a tree, a point, a line.
	f.Add([]byte(`{"tree":{"height_m":20,"diameter_cm":40,"lean_deg":3,"lean_bearing_deg":180},"points":[{"id":"A","bearing_deg":0,"distance_m":30}],"lines":[{"id":"p","path":[{"stem_m":10},{"point":"A"}]}]}`))
	// Lengths at the ends of what is accepted.
	f.Add([]byte(`{"tree":{"height_m":2,"diameter_cm":5,"lean_deg":60,"lean_bearing_deg":-360,"mass_kg":1000000},"cut":{"face_opening_deg":120},"points":[{"id":"A","bearing_deg":360,"distance_m":1e-300,"rise_m":300}],"lines":[{"id":"p","path":[{"stem_m":1},{"point":"A"}]}]}`))
	// A line doubled through a block on the stem.
	f.Add([]byte(strings.Replace(whole, `"path": [{"stem_m": 12}, {"point": "H"}]`, `"path": [{"point": "M"}, {"stem_m": 12}, {"point": "H"}]`, 1)))
	// Anchors of every kind on one point.
	for _, anchor := range []string{`{"kind":"pickets","rows":[3,2,1]}`, `{"kind":"buried_log","depth_m":2,"length_m":2,"diameter_cm":50}`, `{"kind":"machine","mass_kg":5000,"traction":0.5,"rated_kN":30}`, `{"kind":"bridle","legs":[{"point":"R"},{"point":"A"},{"point":"M"}]}`} {
		f.Add([]byte(strings.Replace(whole, `{"kind": "rated", "capacity_kN": 60}`, anchor, 1)))
	}
	// A tackle by its reeving, which gives names of nodes.
	f.Add([]byte(strings.Replace(whole, `"stages": [{"parts": 3, "haul_from": "fixed"}]`, `"reeving":{"nodes":[{"id":"f","kind":"anchor","at":10},{"id":"l","kind":"load","at":0},{"id":"h","kind":"haul","at":8}],"ropes":[{"path":["f","l","f","h"]}]}`, 1)))
	// The same with its rope's path misspelt, so that there is no advantage.
	f.Add([]byte(strings.Replace(whole, `"stages": [{"parts": 3, "haul_from": "fixed"}]`, `"reeving":{"nodes":[{"id":"f","kind":"anchor","at":10},{"id":"l","kind":"load","at":0},{"id":"h","kind":"haul","at":8}],"ropes":[{"way":["f","l","f","h"]}]}`, 1)))
	// Pullers with each limit, ends tied, a hold line made fast.
	for _, puller := range []string{`"limited_by":"stall","stall_kN":60`, `"limited_by":"grip"`, `"limited_by":"watched","setting_kN":9`, `"limited_by":"device"`} {
		f.Add([]byte(strings.NewReplacer(`"limited_by": "device", "setting_kN": 7.5`, puller, `"tended": true`, `"tied": ["stem", "H", "end"], "puller": {}`).Replace(whole)))
	}
	// Names that are not text, lists that are not lists, nesting.
	f.Add([]byte(`{"points":[[],{"id":[]},{"id":{}}],"lines":{},"gear":[{"reductions":[[]]}],"plus_minus":{"":{}}}`))
	f.Add([]byte(strings.Repeat(`{"tree":[`, 400)))
	// Names with quotes, controls and half a character.
	f.Add([]byte("{\"points\":[{\"id\":\"\\u0000\\\"\\ud800\xff\"}]}"))

	f.Fuzz(func(t *testing.T, raw []byte) {
		out := WorkingJSON(raw)
		if message := sound(string(raw), out); message != "" {
			t.Fatalf("%s\nreport: %.2000s", message, out)
		}
	})
}
