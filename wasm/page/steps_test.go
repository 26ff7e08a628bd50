package page

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/page/job"
	"pullline/wasm/parts"
	"pullline/wasm/request"
)

func viewOfPlan(t testing.TB, raw string) *View {
	t.Helper()
	v, err := jsontext.Parse([]byte(raw))
	require.NoError(t, err)
	return view(&asked{Common: request.Common{Plan: v, Size: len(raw)}})
}

func stepOfView(t testing.TB, v *View, key string) JobStep {
	t.Helper()
	for _, s := range v.Steps {
		if s.Key == key {
			return s
		}
	}
	t.Fatalf("no step %s", key)
	return JobStep{}
}

// changedBy is a plan with the changes that a call answers.
func changedBy(t *testing.T, call func([]byte) []byte, plan string, ask map[string]any) string {
	t.Helper()
	ask["plan"], ask["settings"] = json.RawMessage(plan), request.Settings{Units: "kN"}
	req, err := json.Marshal(ask)
	require.NoError(t, err)
	var c parts.Changes
	require.NoError(t, json.Unmarshal(call(req), &c))
	require.NotEmpty(t, c.Changes, c.Message)
	return string(drafttest.Apply(t, []byte(plan), c))
}

// started is a new plan as the page lays it out.
func started(t *testing.T) string {
	return changedBy(t, job.ActJSON, `{}`, map[string]any{"do": "start"})
}

// A new plan holds no number at all and is judged by nothing.
func TestANewPlanReassuresNobody(t *testing.T) {
	raw := started(t)
	v := viewOfPlan(t, raw)
	assert.Equal(t, "unknown", v.Headline.Verdict)
	drafttest.Walk("", drafttest.Parse([]byte(raw)).Tree, func(path string, value any) {
		if path != "version" {
			_, number := draft.Number(value)
			assert.False(t, number, path)
		}
	})
	for _, s := range v.Steps {
		assert.False(t, s.Done, s.Key)
		assert.NotEmpty(t, s.State, s.Key)
	}
	assert.Equal(t, "tree.height_m", stepOfView(t, v, "tree").Path)
	assert.Equal(t, "gear", stepOfView(t, v, "gear").Path)
	assert.Equal(t, "tree.height_m", stepOfView(t, v, "check").Path, "the first thing missing")
}

// From a new plan, with its gear from a prepared list, it takes no more than
// ten numbers to a verdict; following each step's path finds them all.
func TestTenNumbersToAVerdict(t *testing.T) {
	raw := started(t)
	values := map[string]string{
		"tree.height_m": "25", "tree.diameter_cm": "50", "tree.lean_deg": "2", "tree.lean_bearing_deg": "180",
		"lines[0].path[0].stem_m": "12", "points[0].bearing_deg": "0", "points[0].distance_m": "60",
		"lines[0].puller.rated_kN": "30", "lines[0].puller.setting_kN": "28", "points[0].anchor.capacity_kN": "60",
	}
	type_ := func(path, text string) {
		raw = changedBy(t, job.EditJSON, raw, map[string]any{"path": path, "text": text})
	}
	numbers := 0
	for range 30 {
		v := viewOfPlan(t, raw)
		if v.Headline.Verdict != "unknown" {
			break
		}
		path := stepOfView(t, v, "check").Path
		switch path {
		case "":
			t.Fatal(v.Headline.Sentence)
		case "points[0].anchor":
			type_("points[0].anchor.kind", "rated")
		case "lines[0].puller.limited_by":
			type_(path, "device")
		case "gear":
			// From the prepared list: no number is typed.
			raw = strings.Replace(raw, `"gear":[]`, `"gear":[{"id":"winch rope","kind":"wire_rope","line":"pull","wll_kN":50},{"id":"stem strop","kind":"sling","line":"pull","place":"stem","wll_t":6},{"id":"winch strop","kind":"sling","point":"A","wll_t":6}]`, 1)
		default:
			require.Contains(t, values, path, "asked for")
			type_(path, values[path])
			numbers++
		}
	}
	v := viewOfPlan(t, raw)
	assert.NotEqual(t, "unknown", v.Headline.Verdict, v.Headline.Sentence)
	assert.LessOrEqual(t, numbers, 10)
	assert.Equal(t, len(values), numbers)
	for _, key := range []string{"tree", "line", "gear", "check"} {
		assert.True(t, stepOfView(t, v, key).Done, key)
	}
	assert.False(t, stepOfView(t, v, "brief").Done)
}

func TestStepsNameWhatIsMissing(t *testing.T) {
	v := viewOfPlan(t, string(drafttest.Demo(t)))
	for _, key := range []string{"tree", "line", "gear"} {
		assert.True(t, stepOfView(t, v, key).Done, key)
	}
	seen := map[string]bool{}
	for _, s := range v.Steps {
		for _, id := range s.Sections {
			assert.False(t, seen[id], id)
			seen[id] = true
		}
	}
	for _, s := range v.Form {
		assert.True(t, seen[s.ID], "%s is in a step", s.ID)
	}
	// A line without its rope is put right at the gear.
	v = viewOfPlan(t, strings.Replace(string(drafttest.Demo(t)), `"wire_rope"`, `"other"`, 1))
	s := stepOfView(t, v, "gear")
	assert.False(t, s.Done)
	assert.Equal(t, "gear", s.Path)
	assert.True(t, stepOfView(t, v, "line").Done)
	assert.False(t, stepOfView(t, v, "check").Done)
	// Over the limit is no step done.
	v = viewOfPlan(t, strings.Replace(string(drafttest.Demo(t)), `"design_factor": 3`, `"design_factor": 20`, 1))
	require.Equal(t, "over", v.Headline.Verdict)
	assert.False(t, stepOfView(t, v, "check").Done)
	assert.False(t, stepOfView(t, v, "brief").Done)
	// What cannot be read has no steps, and nothing that is done.
	v = viewOfPlan(t, `3`)
	for _, s := range v.Steps {
		assert.False(t, s.Key != "brief" && s.Done && s.Key == "check", s.Key)
	}
}
