package build

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan/field"
)

// The dictionary of links has the words of the plan format, each once. Those of
// kept readings are many and rarely sent: a few are in it.
func TestDictionaryHasTheFormat(t *testing.T) {
	_, scripts := modules(t)
	list := regexp.MustCompile("(?s)WORDS = `(.*?)`").FindStringSubmatch(string(scripts["dictionary.js"]))
	require.NotNil(t, list)
	words := strings.Fields(list[1])
	sorted := slices.Clone(words)
	slices.Sort(sorted)
	assert.Len(t, slices.Compact(sorted), len(words), "each once: a word has one place for ever")
	for _, f := range field.All() {
		if strings.HasPrefix(f.Path(), "readings") {
			continue
		}
		if key := f.Key(); key != "*" {
			assert.Contains(t, words, key+":", f.Path())
		}
		for _, word := range f.Row().Words {
			assert.Contains(t, words, word, f.Path())
		}
	}
}
