package form_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/page/form"
	"pullline/wasm/page/job"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// Every field gets back the lists it had, and no list is sent twice.
func TestListsAreSharedWithoutLoss(t *testing.T) {
	raw := []byte(drafttest.Full)
	d, rep := drafttest.Parse(raw), plan.Evaluate(raw)
	before, sections := drafttest.Fields(job.Form(d, &units.KN, &rep)), job.Form(d, &units.KN, &rep)
	lists, helps := form.Share(sections)
	require.NotEmpty(t, lists)
	used, helped := make([]int, len(lists)), map[string]int{}
	restore := func(list []parts.Option, number int) []parts.Option {
		if number == 0 {
			return list
		}
		assert.Empty(t, list)
		used[number-1]++
		return lists[number-1]
	}
	for path, f := range drafttest.Fields(sections) {
		f.Options, f.OptionsOf = restore(f.Options, f.OptionsOf), 0
		f.Suggest, f.SuggestOf = restore(f.Suggest, f.SuggestOf), 0
		if f.HelpOf > 0 {
			assert.Empty(t, f.Help)
			f.Help, f.HelpOf = helps[f.HelpOf-1], 0
			helped[f.Help]++
		}
		assert.Equal(t, before[path], f, path)
	}
	require.Len(t, helped, len(helps), "each help once")
	for _, help := range helps {
		assert.Greater(t, helped[help], 1, help)
	}
	for i, n := range used {
		assert.Greater(t, n, 1, "list %d", i+1)
		for k := range i {
			assert.NotEqual(t, lists[i], lists[k])
		}
	}
}
