package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging/plan"
	saying "pullline/rigging/plan/text"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// What was typed stays in the names of steps, whatever the region's words.
func TestStepsInTheWordsOfTheRegion(t *testing.T) {
	rep := plan.Report{Working: []plan.Working{
		{Path: "gear[0].use", From: "use", Saying: saying.Saying{Key: "name.use", Args: []any{saying.Words("block by the block")}}},
		{Path: "x", From: "tackle", Saying: saying.Saying{Key: "name.advantage", Args: []any{saying.Words("tackle")}}},
	}}
	words.Locale{Region: words.UK}.Tell(&rep, &units.KN)
	steps := Working(words.Locale{}, &units.KN, &rep)
	assert.Equal(t, "Use of block by the block", steps[0].Name)
	assert.Equal(t, "Advantage of the pulley system of line tackle", steps[1].Name)
}
