package judgement

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/words"
)

func asking(t testing.TB, rest string, changes ...string) []byte {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/demo.json")
	require.NoError(t, err)
	return []byte(`{"plan": ` + strings.NewReplacer(changes...).Replace(string(text)) + `, "settings": {"units": "kN"}` + rest + `}`)
}

func read(t testing.TB, raw []byte, into any) {
	t.Helper()
	require.NoError(t, json.Unmarshal(raw, into), "%s", raw)
	assert.NotContains(t, string(raw), "%!")
	assert.NotContains(t, string(raw), "{puller}")
}

func TestSureInWords(t *testing.T) {
	var s Sure
	read(t, SureJSON(asking(t, `, "draws": 200`, `"setting_kN": 10`, `"setting_kN": 9`)), &s)
	assert.Equal(t, 200, s.Draws)
	assert.True(t, s.Worse)
	assert.Equal(t, "tree.crown_offset_m", s.Path)
	assert.NotEmpty(t, s.Measure)
	assert.Len(t, s.Facts, 3)
	for _, wrong := range []string{`{}`, `{"plan": 3, "draws": 100}`, `[`, `{"plan": {"tree": {}}, "draws": 100}`} {
		var s Sure
		read(t, SureJSON([]byte(wrong)), &s)
		assert.Equal(t, rigging.Unknown.String(), s.Verdict, wrong)
		assert.Zero(t, s.Draws)
		assert.NotEmpty(t, s.Message)
	}
}

// Each change offered, made in the plan, brings it within its limits.
func TestRightInWords(t *testing.T) {
	small := []string{`"wll_t": 5`, `"wll_t": 1.5`}
	var r Right
	read(t, RightJSON(asking(t, `, "pieces": [{"id": "right sling", "kind": "sling", "wll_t": 4}]`, small...)), &r)
	require.NotEmpty(t, r.Items)
	found, toFindFirst := 0, 0
	for _, i := range r.Items {
		assert.Contains(t, i.Before, string(words.Headline[rigging.Over]))
		assert.Contains(t, i.After, string(words.Headline[rigging.Within]))
		if len(i.Changes) == 0 {
			assert.NotEmpty(t, i.Note)
			toFindFirst++
			continue
		}
		found++
		var asked struct{ Plan any }
		require.NoError(t, json.Unmarshal(asking(t, "", small...), &asked))
		for _, c := range i.Changes {
			at := asked.Plan
			for k, step := range c.At {
				last := k == len(c.At)-1
				switch o := at.(type) {
				case []any:
					if last {
						o[int(step.(float64))] = c.Value
					} else {
						at = o[int(step.(float64))]
					}
				case map[string]any:
					if last {
						o[step.(string)] = c.Value
					} else {
						at = o[step.(string)]
					}
				}
			}
		}
		text, err := json.Marshal(asked.Plan)
		require.NoError(t, err)
		assert.Equal(t, rigging.Within, plan.Evaluate(text).Verdict, i.Message)
	}
	assert.Positive(t, found)
	assert.Positive(t, toFindFirst, "a stronger sling that nobody has is not written into the plan")
	read(t, RightJSON(asking(t, `, "sampled": "within"`)), &r)
	assert.Equal(t, string(rightNow), r.Message)
	read(t, RightJSON(asking(t, `, "sampled": "near"`)), &r)
	assert.Equal(t, string(onlyKnown), r.Message)
}

func TestStandInWords(t *testing.T) {
	var s Stand
	read(t, StandJSON(asking(t, `, "box": {"w": 500, "h": 400}`)), &s)
	assert.Len(t, s.Points, 6)
	assert.Nil(t, s.Map)
	for _, coarse := range []string{"true", "false"} {
		read(t, StandJSON(asking(t, `, "point": "M", "box": {"w": 500, "h": 400}, "coarse": `+coarse)), &s)
		require.NotNil(t, s.Map)
		assert.Greater(t, len(s.Cells), 40)
		assert.NotEmpty(t, s.Places)
		free := 0
		for _, c := range s.Cells {
			assert.True(t, c.X >= 0 && c.X <= 500 && c.Y >= 0 && c.Y <= 400)
			if len(c.Changes) > 0 {
				free++
			}
		}
		assert.Greater(t, free, 10)
		assert.Less(t, free, len(s.Cells))
	}
	// What the crew cannot reach is neither shown nor offered.
	read(t, StandJSON(asking(t, `, "point": "M", "box": {"w": 500, "h": 400}, "side": "behind", "reach": 50`)), &s)
	require.NotEmpty(t, s.Cells)
	for _, i := range s.Places {
		bearing, distance := i.Changes[0].Value.(float64), i.Changes[1].Value.(float64)
		assert.True(t, bearing >= 120 && bearing <= 240, "%v", bearing)
		assert.LessOrEqual(t, distance, 50.0)
	}
}
