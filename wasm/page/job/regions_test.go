package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Switching words changes no plan: what an edit or an action does is the
// same in every region, but for the names it thinks up.
func TestWordsChangeNoPlan(t *testing.T) {
	for r := range words.Regions {
		d := drafttest.Parse([]byte(drafttest.Full))
		before := text(t, d)
		d.Region = r
		edit(d, &units.KN, "tree.height_m", "30")
		assert.Equal(t, before, text(t, d))
		c := edit(d, &units.KN, "lines[0].path[0].@at", "point/A")
		assert.NotContains(t, strings.ToLower(draft.JSON(c.Changes[len(c.Changes)-1].Value)), "{")
	}
}
