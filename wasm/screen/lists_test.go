package screen

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/draft/drafttest"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// Every field gets back the lists it had, and no list is sent twice.
func TestListsAreSharedWithoutLoss(t *testing.T) {
	v := View{Form: formOf(t, drafttest.Full, &units.KN)}
	before := fieldsByPath(formOf(t, drafttest.Full, &units.KN))
	v.shareLists()
	require.NotEmpty(t, v.Lists)
	used, helped := make([]int, len(v.Lists)), map[string]int{}
	restore := func(list []parts.Option, number int) []parts.Option {
		if number == 0 {
			return list
		}
		assert.Empty(t, list)
		used[number-1]++
		return v.Lists[number-1]
	}
	for path, f := range fieldsByPath(v.Form) {
		f.Options, f.OptionsOf = restore(f.Options, f.OptionsOf), 0
		f.Suggest, f.SuggestOf = restore(f.Suggest, f.SuggestOf), 0
		if f.HelpOf > 0 {
			assert.Empty(t, f.Help)
			f.Help, f.HelpOf = v.Helps[f.HelpOf-1], 0
			helped[f.Help]++
		}
		assert.Equal(t, before[path], f, path)
	}
	require.Len(t, helped, len(v.Helps), "each help once")
	for _, help := range v.Helps {
		assert.Greater(t, helped[help], 1, help)
	}
	for i, n := range used {
		assert.Greater(t, n, 1, "list %d", i+1)
		for k := range i {
			assert.NotEqual(t, v.Lists[i], v.Lists[k])
		}
	}
}
