package survey

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/jsontext/jsontest"
	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

type object = map[string]any

// measuring calls as the page does.
func measuredBy(t testing.TB, planText string, ask object) View {
	t.Helper()
	ask["plan"] = json.RawMessage(planText)
	raw, err := json.Marshal(ask)
	require.NoError(t, err)
	var m View
	require.NoError(t, json.Unmarshal(JSON(raw), &m))
	return m
}

// used applies what a View changes to a plan.
func used(t *testing.T, planText string, m View) string {
	t.Helper()
	require.NotEmpty(t, m.Changes, m.Message)
	return string(drafttest.Apply(t, []byte(planText), parts.Changes{Changes: m.Changes}))
}

func reading(t testing.TB, m View, key string) Reading {
	t.Helper()
	for _, r := range m.Readings {
		if r.Key == key {
			return r
		}
	}
	require.Fail(t, "no reading "+key)
	return Reading{}
}

const bare = `{"version": 1, "tree": {"height_m": 20, "diameter_cm": 50, "lean_deg": 0}}`

// DeYoung, Forest Measurements, section 2.3, Example 1: 50 ft off, +124 % and
// −16 %, 62 ft and 8 ft, together 70 ft.
func TestMeasureHeightByTwoAngles(t *testing.T) {
	ask := object{"field": "tree.height_m", "method": "height_angles", "settings": object{"units": "us"}, "box": object{"w": 320, "h": 220},
		"texts": object{"distance": "50", "top": fmt.Sprint(math.Atan(1.24)/rigging.Deg) + "°", "foot": fmt.Sprint(math.Atan(-0.16) / rigging.Deg)}, "plus_minus": object{}}
	m := measuredBy(t, bare, ask)
	require.Empty(t, m.Message)
	require.Len(t, m.Results, 1)
	assert.Equal(t, "70.0\u00a0ft", m.Results[0].Text)
	assert.Equal(t, "all", m.Results[0].Use)
	assert.NotEmpty(t, m.Results[0].UseLabel)
	assert.Contains(t, m.Results[0].PlusMinus, "±")
	assert.Equal(t, "H = D · (tan α − tan β)", m.Formula)
	assert.Len(t, m.Working, 4)
	require.NotNil(t, m.Picture)
	assert.Contains(t, m.Picture.Desc, "level with the base")
	assert.Empty(t, m.Changes, "nothing is used unasked")

	ask["use"] = "all"
	after := used(t, bare, measuredBy(t, bare, ask))
	var p struct {
		Tree struct {
			HeightM float64 `json:"height_m"`
		}
		PlusMinus map[string]float64 `json:"plus_minus"`
		Readings  map[string]struct {
			Method string
			Values map[string]float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(after), &p))
	assert.InDelta(t, 70*0.3048, p.Tree.HeightM, 0.05*0.3048)
	assert.GreaterOrEqual(t, p.Tree.HeightM, 69.99*0.3048, "never rounded down")
	assert.Greater(t, p.PlusMinus["tree.height_m"], 0.0)
	kept := p.Readings["tree.height_m"]
	assert.Equal(t, "height_angles", kept.Method)
	assert.InDelta(t, 15.24, kept.Values["distance_m"], 1e-9)
	assert.InDelta(t, math.Atan(1.24)/rigging.Deg, kept.Values["top_deg"], 1e-9)
	rep := plan.Evaluate([]byte(after))
	for _, problem := range rep.Problems {
		assert.False(t, strings.HasPrefix(problem.Path, "readings") || strings.HasPrefix(problem.Path, "plus_minus"), problem.Message)
	}

	// Opened again, in other units, the readings are there.
	again := measuredBy(t, after, object{"field": "tree.height_m"})
	assert.Equal(t, "15.24", reading(t, again, "distance").Text)
	assert.Equal(t, "-9.09027", reading(t, again, "foot").Text[:8])
	assert.Equal(t, "These readings are kept in the plan.", measuredBy(t, after, object{"field": "tree.height_m", "settings": object{"units": "us"}}).Kept)
	byHand := drafttest.Apply(t, []byte(after), parts.Changes{Changes: []parts.Change{{Op: "set", At: []any{"tree", "height_m"}, Value: 33}}})
	assert.Contains(t, measuredBy(t, string(byHand), object{"field": "tree.height_m", "settings": object{"units": "us"}}).Kept, "another value")
}

// The sine method, example ht-01 of testdata/published: 105 ft at 47° are
// 76.8 ft above the eye (Native Tree Society, Height Measurement Basics); the
// foot is level with the eye.
func TestMeasureHeightByRange(t *testing.T) {
	m := measuredBy(t, bare, object{"field": "tree.height_m", "method": "height_slant", "settings": object{"units": "us"},
		"texts": object{"range_top": "105", "top": "47", "range_foot": "100 ft", "foot": "0"}})
	require.Len(t, m.Results, 1, m.Message)
	assert.Equal(t, "76.8\u00a0ft", m.Results[0].Text)
}

// A leaning stem is longer than it is high.
func TestMeasureAlongALeaningStem(t *testing.T) {
	leaning := strings.Replace(bare, `"lean_deg": 0`, `"lean_deg": 20`, 1)
	texts := object{"distance": "20 m", "top": "45", "foot": "0"}
	m := measuredBy(t, leaning, object{"field": "tree.height_m", "method": "height_angles", "texts": texts})
	assert.Equal(t, "21.3\u00a0m", m.Results[0].Text) // 20/cos 20° = 21.284, rounded up
	assert.Contains(t, strings.Join(m.Working, " "), "cos 20°")
	m = measuredBy(t, leaning, object{"field": "points[0].anchor.height_m", "method": "height_angles", "texts": texts})
	assert.Equal(t, "20.0\u00a0m", m.Results[0].Text, "the anchor's lean is not the tree's")
}

// A wrong reading is named where it stands, keeps its text, and gives no
// result.
func TestMeasureWrongReadings(t *testing.T) {
	good := object{"distance": "30", "top": "40", "foot": "-3"}
	for name, c := range map[string]struct {
		texts, pm object
		at, says  string
	}{
		"text":            {object{"distance": "far"}, nil, "distance", "not a number"},
		"two ways":        {object{"distance": "1,200"}, nil, "distance", "not a number"},
		"too steep":       {object{"top": "89.5"}, nil, "top", "accepted: −89° to 89°"},
		"nought":          {object{"distance": "0"}, nil, "distance", "0.5"},
		"other dimension": {object{"top": "40 m"}, nil, "top", "not a number"},
		"top below foot":  {object{"top": "-10"}, nil, "top", "above the angle to the foot"},
		"± text":          {object{}, object{"foot": "much"}, "foot", "uncertainty"},
		"± below nought":  {object{}, object{"foot": "-1"}, "foot", "uncertainty"},
		"± far too wide":  {object{}, object{"top": "80"}, "top", "accepted"},
	} {
		texts := object{}
		for k, v := range good {
			texts[k] = v
		}
		for k, v := range c.texts {
			texts[k] = v
		}
		m := measuredBy(t, bare, object{"field": "tree.height_m", "method": "height_angles", "texts": texts, "plus_minus": c.pm, "use": "all"})
		assert.Empty(t, m.Results, name)
		assert.Empty(t, m.Changes, name)
		r := reading(t, m, c.at)
		assert.Contains(t, r.Problem, c.says, name)
		assert.Equal(t, texts[c.at], r.Text, name)
	}
	m := measuredBy(t, bare, object{"field": "tree.height_m", "method": "height_angles", "texts": object{"distance": "30"}})
	assert.Equal(t, "Still to read: the angle to the top; the angle to the foot.", m.Message)
	m = measuredBy(t, bare, object{"field": "tree.height_m", "method": "height_angles", "texts": good, "plus_minus": object{"distance": "± 0.1"}})
	assert.Equal(t, "0.1", reading(t, measuredBy(t, used(t, bare, measuredBy(t, bare, object{"field": "tree.height_m", "method": "height_angles", "texts": good, "plus_minus": object{"distance": "± 0.1"}, "use": "all"})),
		object{"field": "tree.height_m"}), "distance").PlusMinus, "a ± of one's own is kept")
	require.Len(t, m.Results, 1)
}

// Every field that the catalogue says can be measured can be, every way is known,
// takes what the page can give, and has its formula and picture; and where it
// is used the plan takes all of it.
func TestMeasurablesAreWhole(t *testing.T) {
	plausible := map[string]string{"distance": "30", "top": "40", "foot": "-3", "arm": "65", "stick": "60", "eye_to_stick": "70", "range_top": "40", "range_foot": "31",
		"girth": "190", "offset": "1", "height": "15", "bearing": "30", "ahead": "1", "right": "-0.5", "lean_a": "4", "facing_a": "0", "lean_b": "-3", "facing_b": "270",
		"along": "35", "paces": "40", "pace": "0.8", "slope": "8", "rise": "0.6", "run": "2", "percent": "30 %", "compass": "100", "lay": "80",
		"a_point": "stem", "b_point": "point/1", "from_point": "point/1", "from_a": "40", "from_b": "41", "leg_bearing": "90", "leg_distance": "15"}
	measurable := map[string]bool{}
	drafttest.Walk("", drafttest.Parse([]byte(drafttest.Full)).Tree, func(path string, _ any) {
		spec, ok := fields.At(path)
		if !ok || !spec.Measured || strings.HasPrefix(path, "plus_minus") {
			return
		}
		fit := measurableAt(path)
		require.NotNil(t, fit, path)
		measurable[fit.path] = true
		m := measuredBy(t, drafttest.Full, object{"field": path})
		assert.NotEmpty(t, m.Title)
		assert.Len(t, m.Methods, len(fit.methods), path)
		for _, method := range fit.methods {
			h, ok := rigging.FindSurveyHelper(method)
			require.True(t, ok, method)
			f, _ := keyed.Find(formulas, method)
			assert.NotEmpty(t, f.text, method)
			if h.Takes == rigging.TakesReadings {
				assert.Len(t, f.symbols, len(h.Readings), method)
			}
			for _, size := range []float64{300, 700} {
				d := picture(method, draw.Box{W: size, H: size * 0.6}, nil, words.Locale{})
				require.NotNil(t, d, method)
				assert.NotEmpty(t, d.Desc)
				for _, s := range d.Shapes {
					assert.False(t, s.Kind == "path" && s.D == "", method)
				}
			}
			if h.Takes != rigging.TakesReadings {
				continue
			}
			for _, u := range []string{"kN", "us"} {
				texts := object{}
				for k, v := range plausible {
					texts[k] = v
				}
				if strings.HasPrefix(path, "points[1]") {
					texts["b_point"], texts["from_point"] = "point/2", "point/2"
				}
				if u == "us" {
					texts["from_a"], texts["from_b"], texts["paces"] = "130", "135", "40"
					texts["arm"], texts["stick"], texts["eye_to_stick"] = "25", "24", "26"
				}
				if method == "place_bearings" {
					texts["from_b"], texts["from_a"] = "110", "40"
				}
				m := measuredBy(t, drafttest.Full, object{"field": path, "method": method, "texts": texts, "settings": object{"units": u}})
				require.NotEmpty(t, m.Results, "%s by %s: %s %v", path, method, m.Message, m.Readings)
				use := m.Results[0].Use
				require.NotEmpty(t, use, "%s by %s", path, method)
				after := used(t, drafttest.Full, measuredBy(t, drafttest.Full, object{"field": path, "method": method, "texts": texts, "settings": object{"units": u}, "use": use}))
				rep := plan.Evaluate([]byte(after))
				for _, problem := range rep.Problems {
					assert.False(t, strings.HasPrefix(problem.Path, "readings") || strings.HasPrefix(problem.Path, "plus_minus"), "%s by %s: %s: %s", path, method, problem.Path, problem.Message)
				}
				again := measuredBy(t, after, object{"field": path, "settings": object{"units": u}})
				assert.Equal(t, method, again.Method, path)
				assert.Equal(t, m.Results[0].Text, again.Results[0].Text, "%s by %s", path, method)
			}
		}
	})
	for _, fit := range measurables {
		assert.True(t, measurable[fit.path], "%s is not marked as measured in the catalogue", fit.path)
	}
}

// Paces are counted by one's own pace, which a known distance gives.
func TestMeasureByOwnPace(t *testing.T) {
	texts := object{"paces": "40", "known_distance": "50 m", "known_paces": "62.5"}
	ask := object{"field": "points[0].distance_m", "method": "paced_distance", "texts": texts}
	withPoint := strings.Replace(bare, `"version": 1`, `"version": 1, "points": [{"id": "A"}]`, 1)
	m := measuredBy(t, withPoint, ask)
	require.Len(t, m.Results, 1, m.Message)
	assert.Equal(t, "32.0\u00a0m", m.Results[0].Text) // 40 × 50/62.5
	assert.Equal(t, "0.8", reading(t, m, "pace").Default)
	ask["use"] = "all"
	after := used(t, withPoint, measuredBy(t, withPoint, ask))
	again := measuredBy(t, after, object{"field": "points[0].distance_m"})
	assert.Equal(t, "0.8", reading(t, again, "pace").Text)
	assert.Equal(t, m.Results[0].Text, again.Results[0].Text)
	delete(ask, "use")
	texts["pace"] = "0.7"
	assert.Equal(t, "28.0\u00a0m", measuredBy(t, withPoint, ask).Results[0].Text, "what is typed counts")
	texts["pace"], texts["known_paces"] = "", ""
	assert.Contains(t, measuredBy(t, withPoint, ask).Message, "the length of one pace")
}

// The phone's sights take the place of the text, with their spread.
func TestMeasureBySights(t *testing.T) {
	m := measuredBy(t, bare, object{"field": "tree.height_m", "method": "height_angles", "texts": object{"distance": "30", "foot": "-3"},
		"sights": object{"top": object{"hold": "camera", "taken": [][]float64{{129, 0}, {130, 1}, {131, -1}}}}})
	r := reading(t, m, "top")
	assert.Equal(t, "40", r.Text)
	assert.Equal(t, "2.5", r.PlusMinus) // 4.303·1°/√3
	assert.Contains(t, r.Sighted, "3 sights")
	require.Len(t, m.Results, 1)
	m = measuredBy(t, bare, object{"field": "tree.height_m", "method": "height_angles", "sights": object{"top": object{"hold": "nose", "taken": [][]float64{{1, 2}}}}, "texts": object{}})
	assert.NotEmpty(t, reading(t, m, "top").Problem)
	m = measuredBy(t, bare, object{"live": object{"hold": "edge", "taken": [][]float64{{12.34, 0}}}})
	assert.Equal(t, "12.3°", m.Live)
	assert.Equal(t, []parts.Option{{Value: "beside", Label: "long edge held beside the stem"}}, reading(t, measuredBy(t, bare, object{"field": "tree.lean_deg", "method": "lean_views"}), "lean_a").Phone)
}

// A picture of a plumb tree of 20 m with a plumb pole of 4 m, both 30 m from a
// level camera of 2000 px at 1.5 m: by the projection f·Z/X from the middle.
func TestMeasurePhoto(t *testing.T) {
	mark := func(x, z float64) []float64 { return []float64{1500 + 2000*x/30, 2000 - 2000*(z-1.5)/30} }
	marks := object{"pole_bottom": mark(2, 0), "pole_top": mark(2, 4), "butt": mark(0, 0), "top": mark(0, 20), "stem_low": mark(0, 2), "stem_high": mark(0, 15)}
	ask := object{"field": "tree.height_m", "method": "photo", "texts": object{"pole_length": "4", "distance": "30"},
		"photos": []object{{"w": 3000, "h": 4000, "marks": marks}}}
	m := measuredBy(t, bare, ask)
	require.NotEmpty(t, m.Results, m.Message)
	assert.Equal(t, "20.0\u00a0m", m.Results[0].Text)
	assert.Contains(t, strings.Join(m.Working, " "), "px")
	assert.NotEmpty(t, m.Watch, "what the ± leaves out")
	for _, k := range m.Photo.Marks {
		assert.Equal(t, k.Needed, k.Placed, k.Key)
	}
	marks["attachment"], marks["crown_centre"] = mark(0, 12), mark(-1.5, 13)
	texts := ask["texts"].(object)
	texts["facing"] = "90"
	withLine := strings.Replace(bare, `"version": 1`, `"version": 1, "lines": [{"id": "pull", "path": [{"stem_m": 9}, {"point": "A"}]}]`, 1)
	m = measuredBy(t, withLine, ask)
	uses := map[string]string{}
	for _, r := range m.Results {
		if _, there := uses[r.Use]; !there {
			uses[r.Use] = r.Text
		}
	}
	assert.Equal(t, "12.0\u00a0m", uses["attachment"])
	assert.Equal(t, "1.5\u00a0m", uses["crown_offset"])
	for use, path := range map[string]string{"height": "tree.height_m", "attachment": "lines[0].path[0].stem_m", "crown_offset": "tree.crown_offset_m", "crown_height": "tree.crown_centre_m"} {
		ask["use"] = use
		after := used(t, withLine, measuredBy(t, withLine, ask))
		for _, problem := range plan.Evaluate([]byte(after)).Problems {
			assert.False(t, strings.HasPrefix(problem.Path, "readings"), problem.Message)
		}
		again := measuredBy(t, after, object{"field": path, "method": "photo", "photos": []object{{"w": 0}, {"w": 0}}})
		assert.Equal(t, []float64{3000, 4000}, again.Photo.Stored)
		assert.NotEmpty(t, again.Results, path)
		if use == "crown_offset" { // to the left of a camera facing 90°: ahead
			v, _ := drafttest.Parse([]byte(after)).Number("tree.crown_offset_bearing_deg")
			assert.InDelta(t, 0, v, 0.11)
		}
	}
	delete(ask, "use")

	// A second picture a quarter turn on gives the drafttest.Full lean.
	lean := func(x float64) object {
		return object{"pole_bottom": mark(2, 0), "pole_top": mark(2, 4), "butt": mark(0, 0), "top": mark(20*x, 20), "stem_low": mark(0, 0.01), "stem_high": mark(15*x, 15)}
	}
	tan := func(deg float64) float64 { return math.Tan(deg * rigging.Deg) }
	texts["facing_2"], texts["distance_2"] = "180", "30"
	ask["photos"] = []object{{"w": 3000, "h": 4000, "marks": lean(tan(3))}, {"w": 3000, "h": 4000, "marks": lean(tan(-4))}}
	ask["field"] = "tree.lean_deg"
	ask["use"] = "lean"
	after := used(t, bare, measuredBy(t, bare, ask))
	d := drafttest.Parse([]byte(after))
	got, _ := d.Number("tree.lean_deg")
	assert.InDelta(t, math.Atan(math.Hypot(tan(3), tan(4)))/rigging.Deg, got, 0.1) // marks rounded in no way; shown to a tenth
	bearing, _ := d.Number("tree.lean_bearing_deg")
	// Right of a camera facing 90° is 180°, left of one facing 180° is 90°.
	assert.InDelta(t, math.Atan2(tan(4), -tan(3))/rigging.Deg, bearing, 0.6)
	again := measuredBy(t, after, object{"field": "tree.lean_bearing_deg"})
	assert.Equal(t, "lean_views", again.Method)
	assert.NotEmpty(t, again.Results)

	m = measuredBy(t, bare, object{"field": "tree.height_m", "method": "photo", "texts": object{}})
	assert.Contains(t, m.Message, "picture")
	m = measuredBy(t, bare, object{"field": "tree.height_m", "method": "photo", "texts": object{"pole_length": "4", "distance": "30"}, "photos": []object{{"w": 3000, "h": 4000, "marks": object{"top": mark(0, 20)}}}})
	assert.Contains(t, m.Message, "Still to mark: foot of the pole")
}

// Whatever it is object, the call answers.
func TestMeasureTakesRubbish(t *testing.T) {
	for _, raw := range []string{``, `x`, `{}`, `[]`, `null`, `{"field": 3}`, `{"plan": 3, "field": "tree.height_m"}`,
		`{"plan": {}, "field": "tree.species"}`, `{"plan": {}, "field": "tree.height_m", "method": "teapot", "texts": [], "photos": 3, "sights": {"top": 3}, "live": {}}`,
		`{"plan": {"readings": {"tree.height_m": {"method": "photo", "values": {"top_x_px": "x"}}}}, "field": "tree.height_m", "use": "all"}`,
		`{"plan": {"readings": 7}, "field": "points[3].distance_m", "method": "place_traverse", "texts": {"from_point": "point/77"}}`,
		`{"plan": {"points": [3]}, "field": "points[0].distance_m", "method": "place_distances", "box": {"w": 1, "h": 1}}`} {
		var m View
		require.NoError(t, json.Unmarshal(JSON([]byte(raw)), &m), raw)
		assert.NotContains(t, m.Message, "fault", raw)
		assert.Empty(t, m.Results, raw)
		assert.Empty(t, m.Changes, raw)
	}
}

func TestMeasureIsWrittenAsItsTagsSay(t *testing.T) {
	r := rand.New(rand.NewPCG(43, 1))
	for range 30 {
		var m View
		jsontest.Fill(&m, r, r.Float64(), "text", 7, true, jsontext.Number("1.5"))
		jsontest.SameAsTags(t, m, m.AppendJSON)
	}
	jsontest.SameAsTags(t, View{}, (&View{}).AppendJSON)
}
