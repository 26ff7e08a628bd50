package job

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/page/brief"
	"pullline/wasm/units"
)

func TestSuggestionsAreTakenIntoThePlan(t *testing.T) {
	raw := drafttest.Demo(t)
	d := drafttest.Parse(raw)
	rep := plan.Evaluate(raw)
	for _, path := range []string{"brief.sequence", "brief.signals", "brief.roles"} {
		raw = drafttest.Apply(t, raw, suggest(d, &units.KN, &rep, path))
	}
	after := plan.Evaluate(raw)
	assert.Empty(t, after.Problems)
	assert.Equal(t, rep.Verdict, after.Verdict)
	assert.False(t, brief.Of(drafttest.Parse(raw), &units.KN, &after).Sequence[0].Suggested)
	assert.NotEmpty(t, suggest(d, &units.KN, &rep, "tree").Message)
}
