package words

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/units"
)

// A sentence gives its amounts in the user's units and rounds them the safe
// way there too.
func TestSentencesInTheUsersUnits(t *testing.T) {
	format := "carries %s, holds %s, at %s; give %s"
	args := []any{plan.Amount{Value: 10, Unit: "kN", Round: plan.Up}, plan.Amount{Value: 10, Unit: "kN", Round: plan.Down},
		plan.Amount{Value: 3.048, Unit: "m"}, plan.Range{Min: 2, Max: 130, Unit: "m"}}
	// 10 kN = 2248.09 lbf; 2 m = 6.56168 ft; 130 m = 426.509 ft: all by the exact definitions of foot and pound.
	text := inUnits(&units.US, format, args, "")
	text = strings.ReplaceAll(text, "\u00a0", " ")
	assert.Equal(t, "carries 2250 lbf, holds 2240 lbf, at 10 ft; give a number from 6.56168 to 426.509 ft", text)
}

// No sentence of the example plan, or of one with wrong values, names a
// metric unit to a user of feet and pounds.
func TestNoMetricLeftOver(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/demo.json")
	require.NoError(t, err)
	for _, change := range []string{"", `"height_m": 29|"height_m": 500`, `"stall_kN": 15|"stall_kN": 5`, `"stem_m": 14|"stem_m": 60`, `"lean_deg": 4|"lean_deg": -4`} {
		text := string(raw)
		if from, to, ok := strings.Cut(change, "|"); ok {
			text = strings.Replace(text, from, to, 1)
		}
		rep := plan.Evaluate([]byte(text))
		Reword(&rep, &units.US)
		for _, c := range rep.Cautions {
			assert.NotRegexp(t, `\d[  ]?(kN|m|cm|kg)\b`, c.Message)
		}
		for _, p := range rep.Problems {
			assert.NotRegexp(t, `\d[  ]?(kN|m|cm|kg)\b`, p.Message)
		}
	}
}
