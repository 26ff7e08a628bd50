package screen

import (
	"strings"

	"pullline/rigging"
)

// A measurable is a field of the plan that can be measured and the ways to do
// it, the handiest first.
type measurable struct {
	path    string // with the indexes left out
	methods []string
	// results tells which of a way's results goes into which field, by the
	// field's name beside this one. A result not named here is only shown.
	results []keyed[string]
	// along: lengths along the stem, of which the ways to measure heights give
	// the plumb one.
	along bool
	// place: what is sighted in place of the top, in words.
	place string
}

var (
	heightMethods   = []string{"height_angles", "height_arm_stick", "height_stick", "height_slant", "photo"}
	reachMethods    = []string{"height_angles", "height_slant", "photo"}
	leanMethods     = []string{"lean_offset", "lean_offsets", "lean_views", "photo"}
	leanResults     = []keyed[string]{{"lean", "lean_deg"}, {"lean_bearing", "lean_bearing_deg"}}
	offsetMethods   = []string{"offset_plumb", "photo"}
	offsetResults   = []keyed[string]{{"offset", "crown_offset_m"}, {"offset_bearing", "crown_offset_bearing_deg"}}
	placeResults    = []keyed[string]{{"distance", "distance_m"}, {"bearing", "bearing_deg"}, {"left_distance", "distance_m"}, {"left_bearing", "bearing_deg"}, {"right_distance", "distance_m"}, {"right_bearing", "bearing_deg"}}
	diameterMethods = []string{"diameter_girth"}
)

var measurables = []measurable{
	{path: "tree.height_m", methods: heightMethods, results: []keyed[string]{{"height", "height_m"}}, along: true},
	{path: "tree.diameter_cm", methods: diameterMethods, results: []keyed[string]{{"diameter", "diameter_cm"}}},
	{path: "tree.lean_deg", methods: leanMethods, results: leanResults},
	{path: "tree.lean_bearing_deg", methods: []string{"bearing", "lean_offset", "lean_offsets", "lean_views", "photo"}, results: []keyed[string]{{"bearing", "lean_bearing_deg"}, {"lean", "lean_deg"}, {"lean_bearing", "lean_bearing_deg"}}},
	{path: "tree.crown_centre_m", methods: reachMethods, results: []keyed[string]{{"height", "crown_centre_m"}}, along: true, place: "the crown's centre"},
	{path: "tree.crown_offset_m", methods: offsetMethods, results: offsetResults},
	{path: "tree.crown_offset_bearing_deg", methods: []string{"bearing", "offset_plumb", "photo"}, results: []keyed[string]{{"bearing", "crown_offset_bearing_deg"}, {"offset", "crown_offset_m"}, {"offset_bearing", "crown_offset_bearing_deg"}}},
	{path: "tree.sections[].height_m", methods: []string{"height_angles", "height_slant"}, results: []keyed[string]{{"height", "height_m"}}, along: true, place: "the place measured"},
	{path: "tree.sections[].diameter_cm", methods: diameterMethods, results: []keyed[string]{{"diameter", "diameter_cm"}}},
	{path: "points[].bearing_deg", methods: []string{"bearing", "place_traverse", "place_distances", "place_bearings"}, results: placeResults},
	{path: "points[].distance_m", methods: []string{"level_distance", "paced_distance", "place_traverse", "place_distances", "place_bearings"}, results: placeResults},
	{path: "points[].rise_m", methods: []string{"rise_angle"}, results: []keyed[string]{{"rise", "rise_m"}}},
	{path: "points[].anchor.slope_deg", methods: []string{"slope_angle", "slope_rise", "slope_percent"}, results: []keyed[string]{{"slope", "slope_deg"}}},
	{path: "points[].anchor.diameter_cm", methods: diameterMethods, results: []keyed[string]{{"diameter", "diameter_cm"}}},
	{path: "points[].anchor.height_m", methods: []string{"height_angles", "height_arm_stick", "height_stick", "height_slant"}, results: []keyed[string]{{"height", "height_m"}}},
	{path: "lines[].path[].stem_m", methods: reachMethods, results: []keyed[string]{{"height", "stem_m"}}, along: true, place: "the place of the rope"},
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
func measurableAt(path string) *measurable { return measurableOf(pattern(path)) }

func (m *measurable) takes(method string) bool {
	for _, key := range m.methods {
		if key == method {
			return true
		}
	}
	return false
}

// A measureFormula is how the working writes a method down, with the symbols
// of its readings in their order.
type measureFormula struct {
	formula string
	symbols []string
}

var measureFormulas = []keyed[measureFormula]{
	{"height_angles", measureFormula{"H = D · (tan α − tan β)", []string{"D", "α", "β"}}},
	{"height_slant", measureFormula{"H = R₁ · sin α − R₂ · sin β", []string{"R₁", "α", "R₂", "β"}}},
	{"height_stick", measureFormula{"H = D · L · cos δ / (e + L · sin δ)", []string{"D", "L", "e", "δ"}}},
	{"height_arm_stick", measureFormula{"H = D · cos δ / (1 + sin δ)", []string{"D", "e", "δ"}}},
	{"diameter_girth", measureFormula{"d = g / π", []string{"g"}}},
	{"lean_offset", measureFormula{"lean = arctan(a / h)", []string{"a", "h", "β"}}},
	{"lean_offsets", measureFormula{"tan lean = √(a² + r²) / h, toward arctan(r / a)", []string{"a", "r", "h"}}},
	{"lean_views", measureFormula{"tan λ = tan lean · sin(bearing − φ) in each view", []string{"λ₁", "φ₁", "λ₂", "φ₂"}}},
	{"offset_plumb", measureFormula{"o = √(a² + r²), toward arctan(r / a)", []string{"a", "r"}}},
	{"slope_angle", measureFormula{"as read", []string{"s"}}},
	{"slope_rise", measureFormula{"s = arctan(z / x)", []string{"z", "x"}}},
	{"slope_percent", measureFormula{"s = arctan(p)", []string{"p"}}},
	{"rise_angle", measureFormula{"z = D · tan α", []string{"D", "α"}}},
	{"paced_distance", measureFormula{"D = n · p · cos s", []string{"n", "p", "s"}}},
	{"level_distance", measureFormula{"D = L · cos s", []string{"L", "s"}}},
	{"bearing", measureFormula{"bearing = C − C₀", []string{"C", "C₀"}}},
	{"place_distances", measureFormula{"where the circles of a and b about the two known points cross", []string{"β₁", "d₁", "β₂", "d₂", "a", "b"}}},
	{"place_bearings", measureFormula{"where the sights along a and b from the two known points cross", []string{"β₁", "d₁", "β₂", "d₂", "a", "b"}}},
	{"place_traverse", measureFormula{"place = known point + leg L along β", []string{"β₀", "d₀", "β", "L"}}},
	{"photo", measureFormula{"pinhole camera: at a distance D a place shows f · (across, up) from the middle of the picture; f from the pole", nil}},
}

const plusMinusFormula = "± = √ of the sum of squares: the result's change when each reading alone is off by its own ±"

// readingName is what a reading is called, for the field it is taken for.
func (m *measurable) readingName(r rigging.SurveyReading) string {
	if m.place == "" {
		return r.Name
	}
	return strings.Replace(r.Name, "the top", m.place, 1)
}

// readingDim is the dimension in which a reading is typed, and the size of the
// unit in which that dimension is kept, in SI.
func readingDim(r rigging.SurveyReading) (dim dimension, size float64) {
	switch r.Unit {
	case "m":
		switch r.Key {
		case "girth", "stick", "eye_to_stick", "arm":
			return centis, rigging.CM
		}
		return metres, 1
	case "rad":
		return degrees, rigging.Deg
	}
	return plain, 1
}

// phoneSights are the ways in which a phone takes a reading, none where it
// cannot.
func phoneSights(r rigging.SurveyReading) []Option {
	switch {
	case r.Unit != "rad":
		return nil
	case r.Accuracy == "clinometer", r.Accuracy == "camera_tilt":
		return []Option{
			{string(rigging.SightAlongEdge), "along its long edge, the top end away from you"},
			{string(rigging.SightByCamera), "through its camera, the phone upright"},
		}
	case r.Accuracy == "lean":
		return []Option{{string(rigging.SightBeside), "its long edge held beside the stem"}}
	}
	return nil
}
