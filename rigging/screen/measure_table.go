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
	results map[string]string
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
	leanResults     = map[string]string{"lean": "lean_deg", "lean_bearing": "lean_bearing_deg"}
	offsetMethods   = []string{"offset_plumb", "photo"}
	offsetResults   = map[string]string{"offset": "crown_offset_m", "offset_bearing": "crown_offset_bearing_deg"}
	placeMethods    = []string{"place_traverse", "place_distances", "place_bearings"}
	placeResults    = map[string]string{"distance": "distance_m", "bearing": "bearing_deg", "left_distance": "distance_m", "left_bearing": "bearing_deg", "right_distance": "distance_m", "right_bearing": "bearing_deg"}
	diameterMethods = []string{"diameter_girth"}
)

var measurables = []measurable{
	{path: "tree.height_m", methods: heightMethods, results: map[string]string{"height": "height_m"}, along: true},
	{path: "tree.diameter_cm", methods: diameterMethods, results: map[string]string{"diameter": "diameter_cm"}},
	{path: "tree.lean_deg", methods: leanMethods, results: leanResults},
	{path: "tree.lean_bearing_deg", methods: append([]string{"bearing"}, leanMethods...), results: withBearing(leanResults, "lean_bearing_deg")},
	{path: "tree.crown_centre_m", methods: reachMethods, results: map[string]string{"height": "crown_centre_m"}, along: true, place: "the crown's centre"},
	{path: "tree.crown_offset_m", methods: offsetMethods, results: offsetResults},
	{path: "tree.crown_offset_bearing_deg", methods: append([]string{"bearing"}, offsetMethods...), results: withBearing(offsetResults, "crown_offset_bearing_deg")},
	{path: "tree.sections[].height_m", methods: reachMethods[:2], results: map[string]string{"height": "height_m"}, along: true, place: "the place measured"},
	{path: "tree.sections[].diameter_cm", methods: diameterMethods, results: map[string]string{"diameter": "diameter_cm"}},
	{path: "points[].bearing_deg", methods: append([]string{"bearing"}, placeMethods...), results: placeResults},
	{path: "points[].distance_m", methods: append([]string{"level_distance", "paced_distance"}, placeMethods...), results: placeResults},
	{path: "points[].rise_m", methods: []string{"rise_angle"}, results: map[string]string{"rise": "rise_m"}},
	{path: "points[].anchor.slope_deg", methods: []string{"slope_angle", "slope_rise", "slope_percent"}, results: map[string]string{"slope": "slope_deg"}},
	{path: "points[].anchor.diameter_cm", methods: diameterMethods, results: map[string]string{"diameter": "diameter_cm"}},
	{path: "points[].anchor.height_m", methods: heightMethods[:4], results: map[string]string{"height": "height_m"}},
	{path: "lines[].path[].stem_m", methods: reachMethods, results: map[string]string{"height": "stem_m"}, along: true, place: "the place of the rope"},
}

func withBearing(results map[string]string, field string) map[string]string {
	out := map[string]string{"bearing": field}
	for key, to := range results {
		out[key] = to
	}
	return out
}

// measurableByPath finds how a field can be measured by its path without
// indexes.
var measurableByPath = func() map[string]*measurable {
	m := make(map[string]*measurable, len(measurables))
	for i := range measurables {
		m[measurables[i].path] = &measurables[i]
	}
	return m
}()

// measurableAt finds how a field can be measured, nil where it cannot.
func measurableAt(path string) *measurable { return measurableByPath[pattern(path)] }

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

var measureFormulas = map[string]measureFormula{
	"height_angles":    {"H = D · (tan α − tan β)", []string{"D", "α", "β"}},
	"height_slant":     {"H = R₁ · sin α − R₂ · sin β", []string{"R₁", "α", "R₂", "β"}},
	"height_stick":     {"H = D · L · cos δ / (e + L · sin δ)", []string{"D", "L", "e", "δ"}},
	"height_arm_stick": {"H = D · cos δ / (1 + sin δ)", []string{"D", "e", "δ"}},
	"diameter_girth":   {"d = g / π", []string{"g"}},
	"lean_offset":      {"lean = arctan(a / h)", []string{"a", "h", "β"}},
	"lean_offsets":     {"tan lean = √(a² + r²) / h, toward arctan(r / a)", []string{"a", "r", "h"}},
	"lean_views":       {"tan λ = tan lean · sin(bearing − φ) in each view", []string{"λ₁", "φ₁", "λ₂", "φ₂"}},
	"offset_plumb":     {"o = √(a² + r²), toward arctan(r / a)", []string{"a", "r"}},
	"slope_angle":      {"as read", []string{"s"}},
	"slope_rise":       {"s = arctan(z / x)", []string{"z", "x"}},
	"slope_percent":    {"s = arctan(p)", []string{"p"}},
	"rise_angle":       {"z = D · tan α", []string{"D", "α"}},
	"paced_distance":   {"D = n · p · cos s", []string{"n", "p", "s"}},
	"level_distance":   {"D = L · cos s", []string{"L", "s"}},
	"bearing":          {"bearing = C − C₀", []string{"C", "C₀"}},
	"place_distances":  {"where the circles of a and b about the two known points cross", []string{"β₁", "d₁", "β₂", "d₂", "a", "b"}},
	"place_bearings":   {"where the sights along a and b from the two known points cross", []string{"β₁", "d₁", "β₂", "d₂", "a", "b"}},
	"place_traverse":   {"place = known point + leg L along β", []string{"β₀", "d₀", "β", "L"}},
	"photo":            {"pinhole camera: at a distance D a place shows f · (across, up) from the middle of the picture; f from the pole", nil},
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
