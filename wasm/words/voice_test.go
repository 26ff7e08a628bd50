package words

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/rigging/plan/text"
	"pullline/wasm/units"
)

// A sentence gives its amounts in the user's units and rounds them the safe
// way there too; what is accepted is accepted as it is written.
func TestSentencesInTheUsersUnits(t *testing.T) {
	voice := Locale{}.Voice(&units.US)
	say := func(s text.Saying) string { return strings.ReplaceAll(voice.Say(s), "\u00a0", " ") }
	// 10 kN = 2248.09 lbf; 2 m = 6.56168 ft; 130 m = 426.509 ft: all by the exact definitions of foot and pound.
	up, down := text.Amount{Value: 10, Unit: "kN", Round: text.Up}, text.Amount{Value: 10, Unit: "kN", Round: text.Down}
	assert.Equal(t, "“R”: 2250 of 2240 lbf (101 %), over its limit.", say(text.Saying{Key: "why.piece_over", Args: []any{text.Name("R"), text.Number(up), down, text.Percent(1.001)}}))
	assert.Equal(t, "Height must be a number from 6.56168 to 426.509 ft.", say(text.Saying{Key: "problem.number",
		Args: []any{text.Field("tree.height_m"), text.Number{Value: 2, Unit: "m", Round: text.Least}, text.Amount{Value: 130, Unit: "m", Round: text.Most}}}))
}

// Every word in braces is one of the trade, so that each region has it.
func TestSentencesUseWordsOfTheTrade(t *testing.T) {
	asked := 0
	for r := range Regions {
		v := text.Voice{Word: func(key string) (string, bool) {
			if strings.HasPrefix(key, " ") { // an object { … } of JSON
				return "", false
			}
			asked++
			word, known := r.tradeWord(key)
			assert.True(t, known, key)
			return word, known
		}}
		for _, key := range text.Keys() {
			v.Say(text.Saying{Key: key})
		}
	}
	assert.NotZero(t, asked)
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
		Locale{}.Tell(&rep, &units.US)
		for _, c := range rep.Cautions {
			assert.NotRegexp(t, `\d[  ]?(kN|m|cm|kg)\b`, c.Message)
		}
		for _, p := range rep.Problems {
			assert.NotRegexp(t, `\d[  ]?(kN|m|cm|kg)\b`, p.Message)
		}
	}
}
