package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestForkWarnsOfTheUnionAndOfTheOrder(t *testing.T) {
	before := Evaluate(demo(t))
	stem := func(stem, of, order int) Report {
		return withPart(t, "fork", map[string]any{"tree": "old macrocarpa", "stem": stem, "of": of, "order": order})
	}
	first, last := stem(2, 3, 1), stem(1, 3, 3)
	assert.Empty(t, first.Problems)
	assert.Equal(t, before.Verdict, first.Verdict)
	assert.Equal(t, before.Pull, first.Pull, "nothing is computed from it")
	assert.Contains(t, codes(first), "fork_union")
	assert.Contains(t, codes(first), "fork_standing")
	assert.NotContains(t, codes(first), "fork_changed")
	assert.Contains(t, codes(last), "fork_union")
	assert.Contains(t, codes(last), "fork_changed")
	assert.NotContains(t, codes(last), "fork_standing")
	assert.NotContains(t, codes(before), "fork_union")
}

func TestForkRefusesWhatItCannotRead(t *testing.T) {
	for path, fork := range map[string]map[string]any{
		"fork.tree":  {"stem": 1, "of": 2, "order": 1},
		"fork.stem":  {"tree": "x", "stem": 3, "of": 2, "order": 1},
		"fork.order": {"tree": "x", "stem": 1, "of": 2, "order": 1.5},
		"fork.of":    {"tree": "x", "stem": 1, "of": 1, "order": 1},
		"fork.more":  {"tree": "x", "stem": 1, "of": 2, "order": 1, "more": true},
	} {
		rep := withPart(t, "fork", fork)
		assert.Equal(t, []string{path}, problemPaths(&rep))
		assert.Equal(t, "unknown", rep.Verdict.String())
		assert.Contains(t, codes(rep), "fork_union", "the warning does not wait for the numbers")
	}
}
