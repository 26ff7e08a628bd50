package job

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
)

// The rig of a plan that is within never makes another plan within: the places
// have to be given first. Its pieces are all there.
func TestRigTakenOverHasToBePlaced(t *testing.T) {
	demo := drafttest.Demo(t)
	require.Equal(t, rigging.Within, plan.Evaluate(demo).Verdict)
	request, err := json.Marshal(map[string]any{
		"plan": map[string]any{"version": 1, "tree": map[string]any{"species": "radiata_pine", "height_m": 29, "diameter_cm": 78, "lean_deg": 4, "lean_bearing_deg": 155}},
		"from": json.RawMessage(demo), "do": "rig",
	})
	require.NoError(t, err)
	var answer struct {
		Changes []struct {
			At    []any
			Value []any
		}
		Message string
	}
	require.NoError(t, json.Unmarshal(ActJSON(request), &answer))
	require.Len(t, answer.Changes, 3)
	assert.Contains(t, answer.Message, "give them anew")
	now := map[string]any{"version": 1, "tree": map[string]any{"species": "radiata_pine", "height_m": 29, "diameter_cm": 78, "lean_deg": 4, "lean_bearing_deg": 155}}
	for _, c := range answer.Changes {
		now[c.At[0].(string)] = c.Value
	}
	raw, err := json.Marshal(now)
	require.NoError(t, err)
	rep := plan.Evaluate(raw)
	assert.Equal(t, rigging.Unknown, rep.Verdict)
	missing := map[string]bool{}
	for _, p := range rep.Problems {
		missing[p.Path] = true
	}
	assert.True(t, missing["points[0].bearing_deg"])
	assert.True(t, missing["points[0].distance_m"])
	assert.True(t, missing["lines[0].path[0].stem_m"])
	var before, after struct{ Gear []any }
	require.NoError(t, json.Unmarshal(demo, &before))
	require.NoError(t, json.Unmarshal(raw, &after))
	assert.Equal(t, before.Gear, after.Gear)

	// What was measured of the rig before goes with it.
	var goes struct {
		Changes []struct {
			Op string
			At []any
		}
	}
	require.NoError(t, json.Unmarshal(ActJSON([]byte(`{"plan": {"points": [{"id": "A"}], "plus_minus": {"points[0].distance_m": 1, "tree.lean_deg": 1},
		"readings": {"points[0].distance_m": {}, "tree.height_m": {}}}, "from": `+string(demo)+`, "do": "rig"}`)), &goes))
	var gone []any
	for _, c := range goes.Changes {
		if c.Op == "delete" {
			gone = append(gone, c.At)
		}
	}
	assert.ElementsMatch(t, []any{[]any{"plus_minus", "points[0].distance_m"}, []any{"readings", "points[0].distance_m"}}, gone)

	require.NoError(t, json.Unmarshal(ActJSON([]byte(`{"plan": {}, "from": {}, "do": "rig"}`)), &answer))
	assert.Contains(t, answer.Message, "no lines")
}
