package survey

import (
	"strings"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A measurable is a field of the plan that can be measured and the ways to do
// it, the handiest first.
type measurable struct {
	path    string // with the indexes left out
	methods []string
	// results tells which of a way's results goes into which field, by the
	// field's name beside this one. A result not named here is only shown.
	results []keyed.Row[string]
	// along: lengths along the stem, of which the ways to measure heights give
	// the plumb one.
	along bool
	// place: what is sighted in place of the top, in words.
	place words.Text
}

var (
	heightMethods   = []string{"height_angles", "height_arm_stick", "height_stick", "height_slant", "photo"}
	reachMethods    = []string{"height_angles", "height_slant", "photo"}
	leanMethods     = []string{"lean_offset", "lean_offsets", "lean_views", "photo"}
	leanResults     = []keyed.Row[string]{{Key: "lean", Value: "lean_deg"}, {Key: "lean_bearing", Value: "lean_bearing_deg"}}
	offsetMethods   = []string{"offset_plumb", "photo"}
	offsetResults   = []keyed.Row[string]{{Key: "offset", Value: "crown_offset_m"}, {Key: "offset_bearing", Value: "crown_offset_bearing_deg"}}
	placeResults    = []keyed.Row[string]{{Key: "distance", Value: "distance_m"}, {Key: "bearing", Value: "bearing_deg"}, {Key: "left_distance", Value: "distance_m"}, {Key: "left_bearing", Value: "bearing_deg"}, {Key: "right_distance", Value: "distance_m"}, {Key: "right_bearing", Value: "bearing_deg"}}
	diameterMethods = []string{"diameter_girth"}
)

var measurables = []measurable{
	{path: "tree.height_m", methods: heightMethods, results: []keyed.Row[string]{{Key: "height", Value: "height_m"}}, along: true},
	{path: "tree.diameter_cm", methods: diameterMethods, results: []keyed.Row[string]{{Key: "diameter", Value: "diameter_cm"}}},
	{path: "tree.lean_deg", methods: leanMethods, results: leanResults},
	{path: "tree.lean_bearing_deg", methods: []string{"bearing", "lean_offset", "lean_offsets", "lean_views", "photo"}, results: []keyed.Row[string]{{Key: "bearing", Value: "lean_bearing_deg"}, {Key: "lean", Value: "lean_deg"}, {Key: "lean_bearing", Value: "lean_bearing_deg"}}},
	{path: "tree.crown_centre_m", methods: reachMethods, results: []keyed.Row[string]{{Key: "height", Value: "crown_centre_m"}}, along: true, place: "the crown's centre"},
	{path: "tree.crown_offset_m", methods: offsetMethods, results: offsetResults},
	{path: "tree.crown_offset_bearing_deg", methods: []string{"bearing", "offset_plumb", "photo"}, results: []keyed.Row[string]{{Key: "bearing", Value: "crown_offset_bearing_deg"}, {Key: "offset", Value: "crown_offset_m"}, {Key: "offset_bearing", Value: "crown_offset_bearing_deg"}}},
	{path: "tree.defects[].height_m", methods: []string{"height_angles", "height_slant"}, results: []keyed.Row[string]{{Key: "height", Value: "height_m"}}, along: true, place: "the weak place"},
	{path: "tree.sections[].height_m", methods: []string{"height_angles", "height_slant"}, results: []keyed.Row[string]{{Key: "height", Value: "height_m"}}, along: true, place: "the place measured"},
	{path: "tree.sections[].diameter_cm", methods: diameterMethods, results: []keyed.Row[string]{{Key: "diameter", Value: "diameter_cm"}}},
	{path: "points[].bearing_deg", methods: []string{"bearing", "place_traverse", "place_distances", "place_bearings"}, results: placeResults},
	{path: "points[].distance_m", methods: []string{"level_distance", "paced_distance", "place_traverse", "place_distances", "place_bearings"}, results: placeResults},
	{path: "points[].rise_m", methods: []string{"rise_angle"}, results: []keyed.Row[string]{{Key: "rise", Value: "rise_m"}}},
	{path: "points[].anchor.slope_deg", methods: []string{"slope_angle", "slope_rise", "slope_percent"}, results: []keyed.Row[string]{{Key: "slope", Value: "slope_deg"}}},
	{path: "points[].anchor.diameter_cm", methods: diameterMethods, results: []keyed.Row[string]{{Key: "diameter", Value: "diameter_cm"}}},
	{path: "points[].anchor.height_m", methods: []string{"height_angles", "height_arm_stick", "height_stick", "height_slant"}, results: []keyed.Row[string]{{Key: "height", Value: "height_m"}}},
	{path: "lines[].path[].stem_m", methods: reachMethods, results: []keyed.Row[string]{{Key: "height", Value: "stem_m"}}, along: true, place: "the place of the rope"},
}

// measurableOf finds how a field can be measured by its path without indexes,
// nil where it cannot.
func measurableOf(path string) *measurable {
	for i := range measurables {
		if measurables[i].path == path {
			return &measurables[i]
		}
	}
	return nil
}

// measurableAt finds how a field can be measured, nil where it cannot.
func measurableAt(path string) *measurable { return measurableOf(draft.Pattern(path)) }

func (m *measurable) takes(method string) bool {
	for _, key := range m.methods {
		if key == method {
			return true
		}
	}
	return false
}

// A formula is how the working writes a method down, with the symbols
// of its readings in their order.
type formula struct {
	text    words.Text
	symbols []string
}

var formulas = []keyed.Row[formula]{
	{Key: "height_angles", Value: formula{"H = D · (tan α − tan β)", []string{"D", "α", "β"}}},
	{Key: "height_slant", Value: formula{"H = R₁ · sin α − R₂ · sin β", []string{"R₁", "α", "R₂", "β"}}},
	{Key: "height_stick", Value: formula{"H = D · L · cos δ / (e + L · sin δ)", []string{"D", "L", "e", "δ"}}},
	{Key: "height_arm_stick", Value: formula{"H = D · cos δ / (1 + sin δ)", []string{"D", "e", "δ"}}},
	{Key: "diameter_girth", Value: formula{"d = g / π", []string{"g"}}},
	{Key: "lean_offset", Value: formula{"lean = arctan(a / h)", []string{"a", "h", "β"}}},
	{Key: "lean_offsets", Value: formula{"tan lean = √(a² + r²) / h, toward arctan(r / a)", []string{"a", "r", "h"}}},
	{Key: "lean_views", Value: formula{"tan λ = tan lean · sin(bearing − φ) in each view", []string{"λ₁", "φ₁", "λ₂", "φ₂"}}},
	{Key: "offset_plumb", Value: formula{"o = √(a² + r²), toward arctan(r / a)", []string{"a", "r"}}},
	{Key: "slope_angle", Value: formula{"as read", []string{"s"}}},
	{Key: "slope_rise", Value: formula{"s = arctan(z / x)", []string{"z", "x"}}},
	{Key: "slope_percent", Value: formula{"s = arctan(p)", []string{"p"}}},
	{Key: "rise_angle", Value: formula{"z = D · tan α", []string{"D", "α"}}},
	{Key: "paced_distance", Value: formula{"D = n · p · cos s", []string{"n", "p", "s"}}},
	{Key: "level_distance", Value: formula{"D = L · cos s", []string{"L", "s"}}},
	{Key: "bearing", Value: formula{"bearing = C − C₀", []string{"C", "C₀"}}},
	{Key: "place_distances", Value: formula{"where the circles of a and b about the two known points cross", []string{"β₁", "d₁", "β₂", "d₂", "a", "b"}}},
	{Key: "place_bearings", Value: formula{"where the sights along a and b from the two known points cross", []string{"β₁", "d₁", "β₂", "d₂", "a", "b"}}},
	{Key: "place_traverse", Value: formula{"place = known point + leg L along β", []string{"β₀", "d₀", "β", "L"}}},
	{Key: "photo", Value: formula{"pinhole camera: at a distance D a place shows f · (across, up) from the middle of the picture; f from the pole", nil}},
}

const plusMinusFormula words.Text = "± = √ of the sum of squares of the changes in the result when each reading alone is off by its ±"

// sightedPlace is what the readings of a height call the place sighted.
const sightedPlace = "the top"

// readingName is what a reading is called, for the field it is taken for.
func (m *measurable) readingName(r rigging.SurveyReading) string {
	if m.place == "" {
		return r.Name
	}
	return strings.Replace(r.Name, sightedPlace, string(m.place), 1)
}

// readingDim is the dimension in which a reading is typed, and the size of the
// unit in which that dimension is kept, in SI.
func readingDim(r rigging.SurveyReading) (dim units.Dimension, size float64) {
	switch r.Unit {
	case "m":
		switch r.Key {
		case "girth", "stick", "eye_to_stick", "arm":
			return units.Centimetres, rigging.CM
		}
		return units.Metres, 1
	case "rad":
		return units.Degrees, rigging.Deg
	}
	return units.Plain, 1
}

// phoneSights are the ways in which a phone takes a reading, none where it
// cannot.
func phoneSights(r rigging.SurveyReading) []parts.Choice {
	switch {
	case r.Unit != "rad":
		return nil
	case r.Accuracy == "clinometer", r.Accuracy == "camera_tilt":
		return []parts.Choice{
			{Value: string(rigging.SightAlongEdge), Label: "along its long edge, top end away from you"},
			{Value: string(rigging.SightByCamera), Label: "through its camera, the phone upright"},
		}
	case r.Accuracy == "lean":
		return []parts.Choice{{Value: string(rigging.SightBeside), Label: "long edge held beside the {stem}"}}
	}
	return nil
}
