package job

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/parts"
)

func askNextStem(t *testing.T, raw, taken string) (string, parts.Changes) {
	t.Helper()
	text, err := json.Marshal(taken)
	require.NoError(t, err)
	var c parts.Changes
	require.NoError(t, json.Unmarshal(ActJSON([]byte(`{"plan":`+raw+`,"do":"next-stem","text":`+string(text)+`}`)), &c))
	for i := range c.Changes {
		for k, part := range c.Changes[i].At {
			if n, ok := part.(float64); ok {
				c.Changes[i].At[k] = int(n)
			}
		}
	}
	return string(drafttest.Apply(t, []byte(raw), c)), c
}

// Every bearing is taken from the lay, and another stem has another lay: the
// copy has none of them left, and is not judged.
func TestTheNextStemForgetsItsLay(t *testing.T) {
	raw := drafttest.Forked(t, `{"tree": "old macrocarpa", "stem": 2, "of": 3, "order": 1}`)
	made, c := askNextStem(t, raw, "")
	d := drafttest.Parse([]byte(made))
	assert.Equal(t, 3, stemNumber(d, field.ForkStem))
	assert.Equal(t, "old macrocarpa", d.Text("fork.tree"))
	assert.False(t, d.Has("fork.order"))
	assert.False(t, d.Has("after"), "nobody has pulled this one")
	assert.NotContains(t, made, "bearing_deg", "with give or take and readings")
	assert.True(t, d.Has("plus_minus.tree.height_m"))
	for _, kept := range []string{"tree.height_m", "tree.lean_deg", "tree.crown_offset_m", "points[0].distance_m", "gear[0].mbl_kN"} {
		assert.True(t, d.Has(kept), kept)
	}
	assert.True(t, strings.HasSuffix(d.Text("name"), ", stem 3"))
	assert.Contains(t, c.Message, "Bearings")
	assert.Equal(t, "tree.lean_bearing_deg", c.Focus)
	rep := plan.Evaluate([]byte(made))
	assert.Equal(t, rigging.Unknown, rep.Verdict)
	missing := map[string]bool{}
	for _, p := range rep.Problems {
		missing[p.Path] = true
	}
	for _, path := range []string{"tree.lean_bearing_deg", "tree.crown_offset_bearing_deg", "points[0].bearing_deg", "points[5].bearing_deg", "fork.order"} {
		assert.True(t, missing[path], path)
	}

	again, _ := askNextStem(t, made, "2")
	assert.Equal(t, 1, stemNumber(drafttest.Parse([]byte(again)), field.ForkStem), "the one that has no plan yet")
	assert.Equal(t, 1, strings.Count(drafttest.Parse([]byte(again)).Text("name"), ", stem"))
	_, c = askNextStem(t, made, "2 1")
	assert.Empty(t, c.Changes)
	assert.Contains(t, c.Message, "3 stems")
	for _, fork := range []string{`{}`, `7`, `{"tree": "x"}`, `{"tree": "x", "stem": 1.5, "of": 3}`, `{"tree": " ", "stem": 1, "of": 3}`, `{"tree": "x", "stem": 1, "of": "1e9"}`} {
		_, c = askNextStem(t, drafttest.Forked(t, fork), "x -1 99999999999999999999")
		assert.Empty(t, c.Changes, fork)
		assert.NotEmpty(t, c.Message, fork)
	}
}
