package page

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/draft/drafttest"
	"pullline/wasm/words"
)

// texts visits every text of a JSON value.
func texts(v any, visit func(key, text string)) {
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch x := v.(type) {
		case map[string]any:
			for k, w := range x {
				if k == "suggest" {
					continue // the tables' own names
				}
				walk(k, w)
			}
		case []any:
			for _, w := range x {
				walk(key, w)
			}
		case string:
			visit(key, x)
		}
	}
	walk("", v)
}

// wordyPlans bring up as many texts as can be.
func wordyPlans(t testing.TB) []string {
	return []string{string(drafttest.Demo(t)), drafttest.Full, `{}`, `{"tree": {}, "points": [{}], "lines": [{}], "gear": [{}]}`,
		`{"points": [{"id": "A", "anchor": {"kind": "buried_log"}}, {"id": "B", "anchor": {"kind": "pickets"}}, {"id": "C", "anchor": {"kind": "tree"}}], "lines": [{"role": "hold", "tackle": {}}]}`}
}

// No brace is left over in a view, whatever the region, and no word of
// another region's.
func TestViewsAreToldInTheWordsOfTheRegion(t *testing.T) {
	t.Parallel()
	alien := map[string][]string{"nz": {"gob", "face cut", "fiber", "center", "sawyer"}, "uk": {"scarf", "face cut", "fiber", "center", "strop", "sawyer"}, "us": {"scarf", "gob", "strop", "digger", "fibre", "centre"}}
	for _, raw := range wordyPlans(t) {
		var plan any
		require.NoError(t, json.Unmarshal([]byte(raw), &plan))
		for r := range words.Regions {
			key := r.Key()
			request, err := json.Marshal(map[string]any{"plan": plan, "settings": map[string]any{"words": key},
				"boxes": map[string]any{"side": map[string]any{"w": 800, "h": 500}, "plan": map[string]any{"w": 800, "h": 500}, "curve": map[string]any{"w": 800, "h": 300}}})
			require.NoError(t, err)
			var view map[string]any
			require.NoError(t, json.Unmarshal(JSON(request), &view))
			assert.Equal(t, key, view["words_now"])
			assert.Equal(t, r.Units().Key, view["units_now"])
			delete(view, "assumed") // keeps sources' titles as they are
			delete(view, "working")
			texts(view, func(at, text string) {
				if at == "source" || at == "path" || at == "id" || at == "value" || at == "d" || at == "do" || at == "class" || at == "code" {
					return
				}
				assert.NotContains(t, text, "{", at)
				assert.NotContains(t, text, "}", at)
				if raw != drafttest.Full && raw != string(drafttest.Demo(t)) { // those name pieces in words of their own
					for _, word := range alien[key] {
						assert.NotRegexp(t, `(?i)\b`+word+`s?\b`, text, "%s in %s", word, key)
					}
				}
			})
		}
	}
}
