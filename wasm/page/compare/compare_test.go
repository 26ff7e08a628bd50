package compare

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

func ask(t *testing.T, before, now string) View {
	var v View
	require.NoError(t, json.Unmarshal(JSON([]byte(`{"plan": `+now+`, "before": `+before+`}`)), &v))
	return v
}

// What is shown of either setting is what a plain evaluation says of it.
func TestBothSidesAsEvaluated(t *testing.T) {
	before := string(drafttest.Demo(t))
	now := strings.Replace(before, `"lean_deg": 4`, `"lean_deg": 9`, 1)
	require.NotEqual(t, before, now)
	v := ask(t, before, now)
	require.Len(t, v.Fields, 1)
	assert.Equal(t, "4°", v.Fields[0].Before)
	assert.Equal(t, "9°", v.Fields[0].Now)
	a, b := plan.Evaluate([]byte(before)), plan.Evaluate([]byte(now))
	assert.Equal(t, a.Verdict.String(), v.Before.Verdict)
	assert.Equal(t, b.Verdict.String(), v.Now.Verdict)
	found := false
	for _, r := range v.Results {
		assert.NotEqual(t, r.Before, r.Now, r.Label)
		found = found || r.Before == units.KN.Load(float64(a.Pull.PlannedKN)) && r.Now == units.KN.Load(float64(b.Pull.PlannedKN))
	}
	assert.True(t, found, "the planned tension is among what differs")
}

func TestNothingDiffers(t *testing.T) {
	v := ask(t, string(drafttest.Demo(t)), string(drafttest.Demo(t)))
	assert.Empty(t, v.Fields)
	assert.Empty(t, v.Results)
	assert.NotEmpty(t, v.Message)
}

// A point taken out is one change, not one of every point behind it.
func TestEntriesGoByName(t *testing.T) {
	before := `{"points": [{"id": "A", "distance_m": 10}, {"id": "B", "distance_m": 20}, {"id": "C", "distance_m": 30}]}`
	now := `{"points": [{"id": "A", "distance_m": 10}, {"id": "C", "distance_m": 31}]}`
	v := ask(t, before, now)
	require.Len(t, v.Fields, 2)
	assert.Contains(t, v.Fields[0].Label, "Point C")
	assert.Equal(t, "31\u00a0m", v.Fields[0].Now)
	assert.Equal(t, "Point B", v.Fields[1].Label)
	assert.Equal(t, "not there", v.Fields[1].Now)
}

// A plan that cannot be read never comes out well beside another.
func TestBrokenSides(t *testing.T) {
	for _, broken := range []string{`{}`, `1`, `null`, `{"tree": 1, "points": {}}`} {
		v := ask(t, broken, string(drafttest.Demo(t)))
		assert.Equal(t, "unknown", v.Before.Verdict, broken)
		v = ask(t, string(drafttest.Demo(t)), broken)
		assert.Equal(t, "unknown", v.Now.Verdict, broken)
	}
}

func FuzzJSON(f *testing.F) {
	f.Add([]byte(`{"plan": {"points": [1]}, "before": {"points": [{"id": "A"}, {"id": "A"}]}}`))
	f.Fuzz(func(t *testing.T, raw []byte) { assert.True(t, json.Valid(JSON(raw))) })
}
