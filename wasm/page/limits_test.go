package page

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/draft/drafttest"
)

// What is too long, too wide or too many is refused with a sentence, and what
// is shown of it stays small: nothing that is shown grows with a hostile text.
func TestHostileSizes(t *testing.T) {
	whole, long := string(drafttest.Demo(t)), strings.Repeat("x", 240_000)
	box := map[string]any{"w": 700, "h": 400}
	for name, text := range map[string]string{
		"name":           strings.Replace(whole, `"name": "`, `"name": "`+long, 1),
		"id of a point":  strings.ReplaceAll(whole, `"R"`, `"`+long[:50_000]+`"`),
		"id of gear":     strings.ReplaceAll(whole, `"pull rope"`, `"`+long+`"`),
		"number":         strings.Replace(whole, `"height_m": 29`, `"height_m": 0.`+strings.Repeat("1", 200_000), 1),
		"unknown fields": "{" + strings.Repeat(`"a":1,"b":2,`, 9_000) + `"c":3}`,
		"points":         `{"version":1,"points":[` + strings.Repeat("{},", 60_000) + `{}]}`,
		"gear":           `{"version":1,"gear":[` + strings.Repeat("{},", 60_000) + `{}]}`,
		"a million":      `{"version":1,"points":[` + strings.Repeat("0,", 1_000_000) + `0]}`,
		"megabytes":      `{"version":1,"notes":"` + strings.Repeat(long, 20) + `"}`,
	} {
		req, err := json.Marshal(map[string]any{"plan": json.RawMessage(text), "boxes": map[string]any{"side": box, "plan": box, "curve": box}})
		require.NoError(t, err)
		out := JSON(req)
		v := viewed(t, req)
		assert.Equal(t, "unknown", v.Headline.Verdict, name)
		assert.NotEmpty(t, v.Problems, name)
		assert.LessOrEqual(t, len(v.Problems), 450, name) // those of the report, and of the lists' entries
		assert.LessOrEqual(t, len([]rune(v.Name)), longestName+1, name)
		assert.Less(t, len(out), 4_000_000, name)
	}
}
