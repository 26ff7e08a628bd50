package rigging

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSurveyHelpersAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, h := range SurveyHelpers() {
		assert.Regexp(t, `^[a-z0-9_]+$`, h.Key)
		assert.False(t, seen[h.Key], h.Key)
		seen[h.Key] = true
		for _, text := range []string{h.Name, h.HowTo, h.Watch, h.Source.Text, string(h.Source.Basis)} {
			assert.NotEmpty(t, text, h.Key)
		}
		assert.Equal(t, h.Takes == TakesReadings, h.work != nil, h.Key)
		require.NotEmpty(t, h.Readings, h.Key)
		keys := map[string]bool{}
		for _, r := range h.Readings {
			assert.Regexp(t, `^[a-z0-9_]+$`, r.Key)
			assert.False(t, keys[r.Key], "%s: %s", h.Key, r.Key)
			keys[r.Key] = true
			assert.NotEmpty(t, r.Name)
			assert.Contains(t, []string{"m", "rad", ""}, r.Unit)
			assert.Less(t, r.Least, r.Most)
			_, ok := FindAccuracy(r.Accuracy)
			assert.True(t, ok, "%s: %s: %s", h.Key, r.Key, r.Accuracy)
		}
		_, err := json.Marshal(h)
		assert.NoError(t, err)
	}
	_, ok := FindSurveyHelper("teapot")
	assert.False(t, ok)
	SurveyHelpers()[0].Readings[0].Key = "spoiled"
	assert.Equal(t, "distance", SurveyHelpers()[0].Readings[0].Key)
}

// Every helper works on plausible readings with their usual ±, gives finite
// results, names a missing reading, and refuses one that is not a number.
func TestSurveyHelpersWork(t *testing.T) {
	plausible := map[string]map[string]float64{
		"height_angles":    {"distance": 30, "top": 40 * Deg, "foot": -5 * Deg},
		"height_slant":     {"range_top": 40, "top": 40 * Deg, "range_foot": 31, "foot": -5 * Deg},
		"height_stick":     {"distance": 30, "stick": 0.5, "eye_to_stick": 0.6},
		"height_arm_stick": {"distance": 25, "arm": 0.65},
		"diameter_girth":   {"girth": 1.9},
		"lean_offset":      {"offset": 1, "height": 15, "bearing": 1},
		"lean_offsets":     {"ahead": 1, "right": -0.5, "height": 15},
		"lean_views":       {"lean_a": 4 * Deg, "facing_a": 0, "lean_b": -3 * Deg, "facing_b": 270 * Deg},
		"offset_plumb":     {"ahead": 1.5, "right": -0.8},
		"slope_angle":      {"slope": 12 * Deg},
		"rise_angle":       {"distance": 40, "slope": -6 * Deg},
		"slope_rise":       {"rise": 0.6, "run": 2},
		"slope_percent":    {"percent": 0.3},
		"pace":             {"distance": 50, "paces": 62},
		"paced_distance":   {"paces": 40, "pace": 0.8, "slope": 10 * Deg},
		"level_distance":   {"along": 35},
		"bearing":          {"compass": 1, "lay": 3},
		"place_distances":  {"a_bearing": 0, "a_distance": 0, "b_bearing": 0, "b_distance": 20, "from_a": 15, "from_b": 18},
		"place_bearings":   {"a_bearing": 0, "a_distance": 0, "b_bearing": 0, "b_distance": 20, "from_a": 50 * Deg, "from_b": 110 * Deg},
		"place_traverse":   {"from_bearing": 0, "from_distance": 20, "leg_bearing": 90 * Deg, "leg_distance": 15},
	}
	for _, h := range SurveyHelpers() {
		if h.Takes != TakesReadings {
			_, err := h.Work(nil)
			readingWrong(t, err, h.Key)
			continue
		}
		values, ok := plausible[h.Key]
		require.True(t, ok, h.Key)
		given := map[string]Measured{}
		for _, r := range h.Readings {
			if v, ok := values[r.Key]; ok {
				given[r.Key] = r.Read(v)
			} else {
				require.True(t, r.Optional, "%s: %s", h.Key, r.Key)
			}
		}
		results, err := h.Work(given)
		require.NoError(t, err, h.Key)
		require.NotEmpty(t, results, h.Key)
		for _, r := range results {
			assert.NotEmpty(t, r.Name)
			assert.False(t, math.IsNaN(r.Value) || math.IsInf(r.Value, 0), h.Key)
			assert.True(t, r.PlusMinus > 0 || r.Key == "crossing", "%s: %s", h.Key, r.Key)
		}
		for _, r := range h.Readings {
			whole, had := given[r.Key]
			if had && !r.Optional {
				delete(given, r.Key)
				_, err = h.Work(given)
				readingWrong(t, err, r.Key)
			}
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				given[r.Key] = Measured{bad, 0}
				_, err = h.Work(given)
				readingWrong(t, err, r.Key)
			}
			if given[r.Key] = whole; !had {
				delete(given, r.Key)
			}
		}
	}
	h, _ := FindSurveyHelper("height_angles")
	_, err := h.Work(nil)
	assert.EqualError(t, err, "the level distance to the stem is missing; accepted: 0.5 to 500 m")
}
