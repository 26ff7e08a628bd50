package page

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/draft/drafttest"
)

// With a safe number known, nothing on the page or the sheet says to stop at a
// greater one, but for where it is named as the one computed.
func TestOneNumberToStopAt(t *testing.T) {
	told := func(more string) (v View, text string) {
		out := JSON([]byte(`{"plan": ` + string(drafttest.Demo(t)) + `, "settings": {"units": "kN"}` + more + `}`))
		require.NoError(t, json.Unmarshal(out, &v))
		brief, err := json.Marshal(v.Brief)
		require.NoError(t, err)
		return v, string(brief)
	}
	plain, brief := told("")
	require.NotEmpty(t, plain.Headline.Hold)
	require.Contains(t, brief, plain.Headline.Hold)
	safe, brief := told(`, "sampled": "within", "safe_hold_kN": 9.9`)
	assert.Equal(t, "9.9\u00a0kN", safe.Headline.Hold)
	assert.Contains(t, brief, safe.Headline.Hold)
	assert.NotContains(t, brief, plain.Headline.Hold)
	for _, f := range safe.Facts {
		if f.ID == "hold-puller" {
			assert.Equal(t, safe.Headline.Hold, f.Value)
			assert.True(t, strings.Contains(f.Note, plain.Headline.Hold))
		}
	}
	_, brief = told(`, "sampled": "within", "safe_hold_kN": 99`)
	assert.Contains(t, brief, plain.Headline.Hold, "never more than computed")
	none, brief := told(`, "sampled": "near", "safe_hold_kN": 0`)
	assert.Empty(t, none.Headline.Hold, "no number is safe")
	assert.NotContains(t, brief, plain.Headline.Hold)
}
