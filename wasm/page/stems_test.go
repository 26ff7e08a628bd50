package page

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

// A light view, which the list of plans asks for, has what the list says.
func TestTheListHearsOfStemsAndPulls(t *testing.T) {
	look := func(raw string) (v View) {
		require.NoError(t, json.Unmarshal(JSON([]byte(`{"plan":`+raw+`,"light":true}`)), &v))
		return v
	}
	v := look(string(drafttest.Demo(t)))
	assert.Nil(t, v.Stem)
	assert.Nil(t, v.After)
	v = look(drafttest.Forked(t, `{"tree": "old macrocarpa", "stem": 2, "of": 3, "order": 1}`))
	assert.Equal(t, "Stem 2 of 3, felled as no. 1.", v.Stem.Words)
	assert.Contains(t, v.Stem.Caution, "union")
	rep := plan.Evaluate(drafttest.Demo(t))
	assert.Contains(t, v.After.Line, "measured "+units.KN.Load(10)+", computed "+units.KN.Load(float64(rep.Pull.PeakKN))+". "+v.After.Words)
	assert.Contains(t, look(drafttest.Forked(t, `{"tree": "x"}`)).Stem.Words, "not known")
}
