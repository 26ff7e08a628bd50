package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

func TestFactsOfNothingAreDashes(t *testing.T) {
	rep := plan.Evaluate([]byte(`{}`))
	for _, f := range Facts(drafttest.Parse([]byte(`{}`)), &units.KN, &rep) {
		assert.Equal(t, units.None, f.Value, f.ID)
	}
}

func TestDriftInWords(t *testing.T) {
	rep := sound()
	value := func(id string) string {
		for _, f := range Facts(drafttest.Parse([]byte(`{}`)), &units.KN, &rep) {
			if f.ID == id {
				return f.Value
			}
		}
		return ""
	}
	assert.Equal(t, "2.4° to the right", value("drift"))
	rep.Pull.DriftDeg = 2.31
	assert.Equal(t, "2.4° to the left", value("drift"))
	rep.Pull.DriftDeg = 0
	assert.Equal(t, "straight along the lay", value("drift"))
}
