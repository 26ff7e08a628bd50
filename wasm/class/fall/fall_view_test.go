package fall_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/class/fall"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/page"
	"pullline/wasm/parts"
)

// fallAt asks for the fall of a plan at a turn, degrees.
func fallAt(t testing.TB, plan string, turn float64) *fall.View {
	t.Helper()
	raw, err := json.Marshal(map[string]any{"plan": json.RawMessage(plan), "turn_deg": turn, "settings": map[string]any{"units": "kN", "words": "nz"},
		"box": map[string]any{"w": 700, "h": 420}, "curve_box": map[string]any{"w": 700, "h": 420}, "course_box": map[string]any{"w": 700, "h": 420}})
	require.NoError(t, err)
	var out fall.View
	require.NoError(t, json.Unmarshal(fall.JSON(raw), &out))
	return &out
}

// jobOf is the view of the same plan's job.
func jobOf(t testing.TB, plan string) (v page.View) {
	t.Helper()
	raw, err := json.Marshal(map[string]any{"plan": json.RawMessage(plan), "settings": map[string]any{"units": "kN", "words": "nz"}})
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(page.JSON(raw), &v))
	return v
}

// factOf is the value of a fact.
func factOf(t testing.TB, list []parts.Fact, id string) string {
	t.Helper()
	for _, f := range list {
		if f.ID == id {
			return f.Value
		}
	}
	require.Fail(t, "no fact "+id)
	return ""
}

// A pull worked out in the report stands in the fall as there.
func TestFallAgreesWithTheReport(t *testing.T) {
	plan := string(drafttest.Demo(t))
	v := jobOf(t, plan)
	stand := fallAt(t, plan, 0)
	assert.Equal(t, factOf(t, v.Facts, "start"), factOf(t, stand.Facts, "need"))
	commit := fallAt(t, plan, stand.Events[1].Deg)
	assert.Equal(t, factOf(t, v.Facts, "travel:pull"), factOf(t, commit.Facts, "haul:pull"))
	assert.Equal(t, "none", factOf(t, commit.Facts, "need"))
	closed := fallAt(t, plan, stand.Events[2].Deg)
	assert.Equal(t, factOf(t, v.Facts, "hold-length:hold"), factOf(t, closed.Facts, "hold:hold"))
}

// The labels of the fall's pictures open steps of the turn or of the plan.
func TestFallLabelsOpenWhatThereIs(t *testing.T) {
	v := jobOf(t, string(drafttest.Demo(t)))
	f := fallAt(t, string(drafttest.Demo(t)), 5)
	there := map[string]bool{}
	for _, list := range [][]parts.Step{v.Working, v.Taken, f.Working} {
		for _, s := range list {
			there[s.Path] = true
		}
	}
	found := map[string]bool{}
	for _, d := range []*draw.Drawing{f.Picture, f.Curve, f.Course} {
		for _, s := range d.Shapes {
			if s.Working != "" {
				assert.True(t, there[s.Working], "%s of %s", s.Working, s.Text)
				found[s.Working] = true
			}
		}
	}
	for _, path := range []string{"reach", "pull.planned_kN", "pull.commit_deg"} {
		assert.True(t, found[path], path)
	}
}
