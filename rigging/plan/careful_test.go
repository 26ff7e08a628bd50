package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

// Three sound plans. Trees, places and gear are invented.

// straightPull is the least there can be: a small pine that leans back a little,
// a rope from high in the stem to a forwarder's winch 60 m ahead, whose clutch
// slips at 22 kN.
func straightPull(t testing.TB) document {
	return parse(t, []byte(`{
	  "version": 1, "site": {"wind_mps": 3},
	  "tree": {"species": "radiata_pine", "bending_strength_MPa": 49.4, "height_m": 24, "diameter_cm": 50, "lean_deg": 4, "lean_bearing_deg": 180},
	  "cut": {"stump_m": 0.3, "face_opening_deg": 70, "hinge_length_cm": 40, "hinge_left_cm": 5, "hinge_right_cm": 5},
	  "points": [{"id": "M", "bearing_deg": 0, "distance_m": 60, "anchor": {"kind": "machine", "mass_kg": 14000, "traction": 0.5, "rated_kN": 70}}],
	  "lines": [{"id": "pull", "role": "pull", "path": [{"stem_m": 12}, {"point": "M"}],
	             "puller": {"rated_kN": 30, "limited_by": "device", "setting_kN": 22}, "rope": {"stiffness_kN": 5000}}],
	  "gear": [{"id": "rope", "kind": "wire_rope", "line": "pull", "mbl_kN": 150, "design_factor": 3, "reductions": [{"why": "pressed eye", "factor": 0.9}]},
	           {"id": "stem sling", "kind": "sling", "line": "pull", "place": "stem", "wll_kN": 60, "hitch_factor": 0.8},
	           {"id": "shackle", "kind": "shackle", "line": "pull", "place": "stem", "wll_kN": 60}]
	}`))
}

// roundTheCorner is the same pull led through a block to a winch out of the way.
func roundTheCorner(t testing.TB) document {
	d := straightPull(t).set("points[0].bearing_deg", 70.0)
	d.set("points", append(d.at("points").([]any), fields{"id": "R", "bearing_deg": 0, "distance_m": 45, "anchor": fields{"kind": "rated", "capacity_kN": 70}}))
	d.set("lines[0].path", []any{fields{"stem_m": 12}, fields{"point": "R", "efficiency": 0.95}, fields{"point": "M"}})
	return d.set("gear", append(d.at("gear").([]any), fields{"id": "block", "kind": "block", "point": "R", "wll_kN": 80},
		fields{"id": "block sling", "kind": "sling", "point": "R", "wll_kN": 80}))
}

// heldToTheSide is the straight pull on a tree that leans to the right as
// well, with a rope from the left let out by hand to hold it.
func heldToTheSide(t testing.TB) document {
	d := straightPull(t).set("tree.lean_deg", 5.0).set("tree.lean_bearing_deg", 145.0)
	d.set("points", append(d.at("points").([]any), fields{"id": "H", "bearing_deg": 270, "distance_m": 35, "anchor": fields{"kind": "rated", "capacity_kN": 40}}))
	d.set("lines", append(d.at("lines").([]any), fields{"id": "hold", "role": "hold", "path": []any{fields{"stem_m": 11}, fields{"point": "H"}}, "tended": true}))
	return d.set("gear", append(d.at("gear").([]any), fields{"id": "hold rope", "kind": "fibre_rope", "line": "hold", "mbl_kN": 200, "design_factor": 5, "reductions": []any{fields{"why": "splice", "factor": 0.9}}},
		fields{"id": "hold sling", "kind": "sling", "line": "hold", "place": "stem", "wll_kN": 40}, fields{"id": "hold anchor sling", "kind": "sling", "point": "H", "wll_kN": 40}))
}

// at changes one value; a change with a nil value takes it out.
func at(path string, value any) func(document) {
	return func(d document) {
		if value == nil {
			d.drop(path)
		} else {
			d.set(path, value)
		}
	}
}

// add puts one more entry in a list.
func add(list string, entry fields) func(document) {
	return func(d document) { d.set(list, append(d.at(list).([]any), entry)) }
}

func all(changes ...func(document)) func(document) {
	return func(d document) {
		for _, c := range changes {
			c(d)
		}
	}
}

func asItIs(document) {}

// What a competent person would not let pass. Each is one of the sound plans
// with what is wrong done to it; the reason is why such a person refuses.
func TestPlansACarefulPersonRefuses(t *testing.T) {
	const over, unknown, near = rigging.Over, rigging.Unknown, rigging.Near
	for _, c := range []struct {
		name, reason string
		base         func(testing.TB) document
		change       func(document)
		verdict      rigging.Verdict
		code, path   string
	}{
		{"line off the lay", "it pulls across the lay, not along it: the tree goes where the line goes",
			straightPull, at("points[0].bearing_deg", 35.0), near, "off_lay", "lines"},
		{"line 85° off the lay", "nearly all of the pull is to the side, and the hinge cannot hold it",
			straightPull, at("points[0].bearing_deg", 85.0), over, "side_hold", "cut"},
		{"fast wire hold line", "it would have to grow before the tree goes: it stops the tree or parts",
			heldToTheSide, all(at("lines[1].tended", nil), at("gear[3].kind", "wire_rope"), at("points[1].distance_m", 12.0), at("points[1].bearing_deg", 250.0)), over, "piece_over", "gear[3]"},
		{"winch under the tree", "the tree lands on it",
			straightPull, at("points[0].distance_m", 25.0), over, "puller_where_it_lands", "points[0]"},
		{"winch within reach", "a tree that goes off line reaches it",
			roundTheCorner, at("points[0].distance_m", 22.0), near, "puller_in_reach", "points[0]"},
		{"9:1 to a small tree", "good blocks rub less than assumed: the winch that just does the job then pulls the anchor tree over",
			straightPull, nineToOne, near, "at_most_over", "lines[0].puller"},
		{"one turn of the throttle", "the winch stalls at more than the rope holds",
			straightPull, at("lines[0].puller", fields{"rated_kN": 30.0, "limited_by": "stall", "stall_kN": 160.0}), near, "at_most_over", "lines[0].puller"},
		{"watched, stall too much", "nobody's eye is a limit to be within: if the one watching looks away, the rope goes",
			straightPull, at("lines[0].puller", fields{"rated_kN": 30.0, "limited_by": "watched", "setting_kN": 22.0, "stall_kN": 160.0}), near, "watched", "lines[0].puller"},
		{"watched, stall not known", "what happens if nobody stops it is not known",
			straightPull, at("lines[0].puller", fields{"rated_kN": 30.0, "limited_by": "watched", "setting_kN": 22.0}), near, "watched", "lines[0].puller.stall_kN"},
		{"nothing said to limit the pull", "what the machine can do to the rope is not known",
			straightPull, at("lines[0].puller", fields{"rated_kN": 30.0}), unknown, "missing", "lines[0].puller.limited_by"},
		{"clutch set below the pull", "it slips before the tree goes",
			straightPull, at("lines[0].puller.setting_kN", 4.0), over, "puller_over", "lines[0].puller"},
		{"thick hinge", "the stem splits before it bends",
			straightPull, all(at("cut.hinge_left_cm", 8.0), at("cut.hinge_right_cm", 8.0)), near, "hinge_thick", "cut"},
		{"thin hinge", "it breaks before it has steered",
			straightPull, all(at("cut.hinge_left_cm", 2.0), at("cut.hinge_right_cm", 2.0)), near, "hinge_very_thin", "cut"},
		{"hinge too weak to the side", "the side lean tears it off",
			straightPull, all(at("tree.lean_deg", 4.9), at("tree.lean_bearing_deg", 95.0), at("cut.hinge_length_cm", 16.0)), over, "side_hold", "cut"},
		{"face closes first", "the hinge is gone while the tree still has to be pulled",
			straightPull, all(at("tree.lean_deg", 6.0), at("cut.face_opening_deg", 5.0)), over, "closing", "cut.face_opening_deg"},
		{"hold line to nothing", "nothing makes it fast to its anchor",
			heldToTheSide, at("gear[5]", nil), unknown, "gear", "lines[1].path[1]"},
		{"hold line on another line's block", "a block is no place to make an end fast",
			heldToTheSide, at("gear[5].kind", "block"), unknown, "gear", "lines[1].path[1]"},
		{"tackle without its blocks", "the blocks carry most, and nothing is said of them",
			straightPull, all(nineToOne, at("gear[4]", nil), at("gear[3]", nil)), unknown, "gear", "lines[0].tackle"},
		{"tied, no knot said", "a knot takes up to half of the rope's strength",
			straightPull, all(at("gear[2]", nil), at("gear[1]", nil), at("lines[0].tied", []any{"stem"}), at("gear[0].reductions", nil)), unknown, "gear", "lines[0].tied"},
		{"nothing at the stem", "the rope is held to the tree by nothing",
			straightPull, all(at("gear[2]", nil), at("gear[1]", nil)), unknown, "gear", "lines[0].path[0]"},
		{"machine that slides", "on wet grass, downhill, it does not even stand",
			straightPull, all(at("points[0].anchor.traction", 0.2), at("points[0].anchor.slope_deg", 15.0)), over, "point_over", "points[0]"},
		{"choked sling", "choked it holds four fifths, and that is not enough",
			straightPull, all(at("gear[1].hitch_factor", nil), at("gear[1].wll_kN", 11.0), at("lines[0].puller.setting_kN", 11.5)), near, "at_most_over", "lines[0].puller"},
		{"two winches on one point", "with one line slack the other pulls the point out: the two balance only on paper",
			straightPull, counterpull(2), over, "point_over", "points[0]"},
		{"design factor 1.5", "a rope worked at two thirds of what parts it",
			straightPull, at("gear[0].design_factor", 1.5), near, "design_factor", "gear[0]"},
		{"lean of 25°", "such a tree splits, and no hinge holds it",
			straightPull, all(at("tree.lean_deg", 25.0), at("tree.lean_bearing_deg", 0.0)), near, "lean_great", "tree.lean_deg"},
		{"tie in the top", "the stem breaks there",
			straightPull, at("lines[0].path[0].stem_m", 21.0), near, "tie_in_top", "lines[0].path[0]"},
		{"cavity in the hinge", "half the hinge is air",
			straightPull, at("tree.cavity_cm", 18.0), near, "cavity_large", "tree.cavity_cm"},
		{"slender tree", "35 m on 20 cm: a number is wrong, or the tree is a whip",
			straightPull, all(at("tree.height_m", 35.0), at("tree.diameter_cm", 20.0), at("tree.lean_deg", 0.3), at("site.wind_mps", 0.0), at("lines[0].puller.setting_kN", 1.0), at("cut.hinge_length_cm", 16.0), at("cut.hinge_left_cm", 2.0), at("cut.hinge_right_cm", 2.0)), near, "slenderness", "tree.height_m"},
		{"side lean that nothing holds", "it goes sideways as soon as the hinge gives",
			straightPull, all(at("tree.lean_deg", 7.0), at("tree.lean_bearing_deg", 100.0)), near, "side_lean", "lines"},
		{"hold line on the wrong side", "it draws the tree the way it leans already",
			heldToTheSide, all(at("tree.lean_deg", 8.0), at("tree.lean_bearing_deg", 120.0), at("points[1].bearing_deg", 90.0)), near, "side_lean", "lines"},
		{"no room", "what may be needed is more than what the anchor holds once the blocks run well",
			straightPull, all(nineToOne, at("points[0].anchor", fields{"kind": "rated", "capacity_kN": 9.0})), near, "no_room", "lines[0].puller"},
		{"machine that pulls by driving", "in good grip it pulls its own weight, more than the rope holds",
			straightPull, at("lines[0].puller", fields{"rated_kN": 30.0, "limited_by": "grip"}), near, "at_most_over", "lines[0].puller"},
		{"low sling on a thin tree", "a sling near the ground does not make a tree strong: it is counted as a metre up",
			roundTheCorner, at("points[1].anchor", fields{"kind": "tree", "diameter_cm": 25, "height_m": 15, "sling_height_m": 0.2}), over, "point_over", "points[1]"},
		{"old stump", "a third of what its tree would have held",
			roundTheCorner, at("points[1].anchor", fields{"kind": "stump", "diameter_cm": 28, "height_m": 16, "sling_height_m": 0.3}), over, "point_over", "points[1]"},
		{"log buried too shallow", "it comes out of the ground before anything else gives",
			roundTheCorner, at("points[1].anchor", fields{"kind": "buried_log", "depth_m": 0.95, "length_m": 0.7, "diameter_cm": 25}), over, "point_over", "points[1]"},
		{"retired rope", "it was put aside for a reason",
			straightPull, at("gear[0].retired", true), unknown, "inspection", "gear[0].retired"},
		{"block without an anchor", "it is held by nothing that anybody has looked at",
			roundTheCorner, at("points[1].anchor", nil), unknown, "missing", "points[1].anchor"},
		{"winch without a rating", "nobody knows what it may pull",
			straightPull, at("lines[0].puller.rated_kN", nil), unknown, "missing", "lines[0].puller.rated_kN"},
		{"small shackle", "it opens",
			straightPull, at("gear[2].wll_kN", 4.0), over, "piece_over", "gear[2]"},
		{"not enough tension planned", "less than the tree takes",
			straightPull, at("planned_kN", 3.0), unknown, "planned", "planned_kN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := c.base(t)
			c.change(d)
			rep := d.evaluate(t)
			assert.Equal(t, c.verdict.String(), rep.Verdict.String(), "%s: %v", c.reason, reasonsOf(rep))
			said := false
			for _, y := range rep.Why {
				said = said || y.Code == c.code && y.Path == c.path && y.Message != "" && y.Verdict == c.verdict
			}
			assert.True(t, said, "%s at %s is among the reasons: %v", c.code, c.path, reasonsOf(rep))
		})
	}
}

// reasonsOf lists why a report says what it says.
func reasonsOf(rep Report) (out []string) {
	for _, y := range rep.Why {
		out = append(out, y.Verdict.String()+" "+y.Code+" "+y.Path+": "+y.Message)
	}
	return out
}

// A machine too light to make the pull planned is said to be so beside the rest
// that is wrong with it: it spins before the tree goes.
func TestMachineTooLightToPull(t *testing.T) {
	change := all(at("points[0].anchor", fields{"kind": "machine", "mass_kg": 410, "traction": 1.2, "rated_kN": 70}), at("lines[0].puller", fields{"rated_kN": 30.0, "limited_by": "grip"}))
	d := straightPull(t)
	change(d)
	found := d.evaluate(t)
	require.Less(t, float64(found.Lines[0].AtMostHaulKN), float64(found.Lines[0].HaulKN))
	assert.InDelta(t, 410*rigging.G/1000, float64(found.Lines[0].AtMostHaulKN), 1e-9, "at most its own weight, by this project's rule")
	codes := []string{}
	for _, y := range found.Why {
		codes = append(codes, y.Code)
	}
	assert.Contains(t, codes, "pull_too_weak")
}

// nineToOne hangs a 3:1 on a 3:1 between the line and a rated point, hauled by a
// hand winch on a tree. Its sheaves are worn.
func nineToOne(d document) {
	d.set("points", []any{fields{"id": "A", "bearing_deg": 0, "distance_m": 60, "anchor": fields{"kind": "tree", "diameter_cm": 35, "height_m": 18, "sling_height_m": 1}},
		fields{"id": "W", "bearing_deg": 20, "distance_m": 70, "anchor": fields{"kind": "rated", "capacity_kN": 20}}})
	d.set("lines[0].path[1].point", "A")
	d.set("lines[0].tackle", fields{"stages": []any{fields{"parts": 3, "haul_from": "fixed"}, fields{"parts": 3, "haul_from": "fixed"}}, "efficiency": 0.8, "haul_path": []any{fields{"point": "W"}}})
	d.set("lines[0].puller", fields{"rated_kN": 5.0, "limited_by": "device", "setting_kN": 2.9})
	d.set("gear", append(d.at("gear").([]any), fields{"id": "fixed block", "kind": "block", "point": "A", "wll_kN": 80}, fields{"id": "moving block", "kind": "block", "line": "pull", "wll_kN": 80},
		fields{"id": "winch sling", "kind": "sling", "point": "W", "wll_kN": 20}))
}

// counterpull puts hand winches on one rated point: the first pulls straight, the
// second through a block behind it, so that the point itself is drawn both ways
// and has next to nothing to hold as long as both pull.
func counterpull(capacity float64) func(document) {
	return func(d document) {
		d.set("points[0].anchor", fields{"kind": "rated", "capacity_kN": capacity})
		add("points", fields{"id": "S", "bearing_deg": 0, "distance_m": 90, "anchor": fields{"kind": "rated", "capacity_kN": 60}})(d)
		d.set("lines[0].puller", fields{"rated_kN": 10.0, "limited_by": "device", "setting_kN": 10.0})
		add("lines", fields{"id": "second", "role": "pull", "path": []any{fields{"stem_m": 12}, fields{"point": "S", "efficiency": 0.95}, fields{"point": "M"}},
			"tied": []any{"stem"}, "puller": fields{"rated_kN": 10.0, "limited_by": "device", "setting_kN": 10.0}})(d)
		for _, g := range []fields{{"id": "second rope", "kind": "fibre_rope", "line": "second", "mbl_kN": 200, "design_factor": 5, "reductions": []any{fields{"why": "knot", "factor": 0.5}}},
			{"id": "block", "kind": "block", "point": "S", "wll_kN": 80}, {"id": "winch sling", "kind": "sling", "point": "M", "wll_kN": 40}} {
			add("gear", g)(d)
		}
	}
}

// What a competent person would let pass, with the word for it that the crew may
// go by.
func TestPlansACarefulPersonAccepts(t *testing.T) {
	for name, c := range map[string]struct {
		base   func(testing.TB) document
		change func(document)
	}{
		"the example":                     {demoDocument, asItIs},
		"straight pull":                   {straightPull, asItIs},
		"round the corner":                {roundTheCorner, asItIs},
		"held to the side":                {heldToTheSide, asItIs},
		"limited by its stall":            {straightPull, at("lines[0].puller", fields{"rated_kN": 20.0, "limited_by": "stall", "stall_kN": 26.0})},
		"watched, and its stall holds":    {straightPull, at("lines[0].puller", fields{"rated_kN": 20.0, "limited_by": "watched", "setting_kN": 15.0, "stall_kN": 26.0})},
		"drives, but cannot make more":    {straightPull, all(at("lines[0].puller", fields{"rated_kN": 20.0, "limited_by": "grip", "stall_kN": 26.0}))},
		"tied with a knot that counts":    {straightPull, all(at("gear[2]", nil), at("gear[1]", nil), at("lines[0].tied", []any{"stem"}), at("gear[0].reductions[0]", fields{"why": "bowline", "factor": 0.6}))},
		"stump of a big tree":             {roundTheCorner, at("points[1].anchor", fields{"kind": "stump", "diameter_cm": 80, "height_m": 28, "sling_height_m": 0.4})},
		"deep buried log":                 {roundTheCorner, at("points[1].anchor", fields{"kind": "buried_log", "depth_m": 1.8, "length_m": 2, "diameter_cm": 50})},
		"strong 9:1, slow winch":          {straightPull, all(nineToOne, at("points[0].anchor", fields{"kind": "rated", "capacity_kN": 60}), at("lines[0].puller.setting_kN", 2.9))},
		"elastic hold line far out":       {heldToTheSide, all(at("lines[1].tended", nil), at("lines[1].rope", fields{"stiffness_kN": 300}), at("points[1].distance_m", 60.0))},
		"wind lighter, rope much thicker": {straightPull, all(at("site.wind_mps", 1.0), at("gear[0].mbl_kN", 300.0))},
		"lean toward the lay":             {straightPull, at("tree.lean_bearing_deg", 0.0)},
		"two winches on a strong point":   {straightPull, counterpull(40)},
		"two lines that share":            {straightPull, all(add("lines", fields{"id": "second", "role": "pull", "path": []any{fields{"stem_m": 10}, fields{"point": "M"}}, "tied": []any{"stem"}, "puller": fields{"rated_kN": 20.0, "limited_by": "device", "setting_kN": 6.0}}), add("gear", fields{"id": "second rope", "kind": "fibre_rope", "line": "second", "mbl_kN": 200, "design_factor": 5, "reductions": []any{fields{"why": "knot", "factor": 0.5}}}))},
	} {
		t.Run(name, func(t *testing.T) {
			d := c.base(t)
			c.change(d)
			rep := d.evaluate(t)
			require.Empty(t, rep.Why, "%v", reasonsOf(rep))
			assert.Equal(t, rigging.Within, rep.Verdict)
			assert.Equal(t, rigging.Within.Worse(rep.AtMostVerdict), rep.AtMostVerdict)
			assert.True(t, rep.Pull.HoldPullTo.Known())
			assert.False(t, rep.NoRoom || rep.OnlyIfHeld)
		})
	}
}
