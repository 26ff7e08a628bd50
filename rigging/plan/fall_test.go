package plan

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
)

func TestFallOfAPlan(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/demo.json")
	require.NoError(t, err)
	tree, err := jsontext.Parse(raw)
	require.NoError(t, err)
	rep, m, err := Fall(tree, len(raw), rigging.BriskHaul)
	require.NoError(t, err)
	// The report is the one there is without the fall.
	whole := Evaluate(raw)
	whole.Working = []Working{}
	want, err := json.Marshal(whole)
	require.NoError(t, err)
	got, err := json.Marshal(rep)
	require.NoError(t, err)
	assert.JSONEq(t, string(want), string(got))
	assert.InDelta(t, float64(rep.Pull.CommitDeg), m.Commit/rigging.Deg, 1e-9)
	need, shorter := m.Lines(0)
	assert.InDelta(t, float64(rep.Pull.StartKN), need/rigging.KN, 1e-9)
	assert.Len(t, shorter, len(rep.Lines))
	_, shorter = m.Lines(m.Commit)
	assert.InDelta(t, float64(rep.Pull.HaulM), shorter[0], 1e-9)
	assert.InDelta(t, 29-0.4, m.Top.Norm(), 1e-9)
	// It falls faster than a rod that nothing holds back from the same turn,
	// but not at once.
	assert.Greater(t, m.Soonest, 1.0)
	assert.Less(t, m.Soonest, 10.0)
}

func TestNoFallOfWhatCannotBeWorkedOut(t *testing.T) {
	for _, raw := range []string{`{}`, `3`, `{"tree":{"height_m":-4}}`, `[1]`} {
		tree, err := jsontext.Parse([]byte(raw))
		require.NoError(t, err)
		rep, m, err := Fall(tree, len(raw), rigging.BriskHaul)
		assert.ErrorIs(t, err, ErrNotSolved, raw)
		assert.Nil(t, m)
		assert.NotEmpty(t, rep.Problems)
		assert.Equal(t, rigging.Unknown, rep.Verdict)
	}
	_, m, err := Fall(map[string]any{}, MaxBytes+1, math.NaN())
	assert.ErrorIs(t, err, ErrNotSolved)
	assert.Nil(t, m)
}
