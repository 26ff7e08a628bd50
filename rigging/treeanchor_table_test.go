package rigging

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// K. E. Byrne, UBC 2005 (abstract): four species; 1,000 kg of stem gives
// 146, 119, 95 and 77 kNm.
func TestTreeAnchorTurning(t *testing.T) {
	for key, kNm := range map[string]float64{"lodgepole_pine": 146, "hybrid_spruce": 119, "western_redcedar": 95, "western_hemlock": 77} {
		e := mustFind(t, FindTreeAnchorTurning, key)
		assert.InDelta(t, kNm, e.Value*1000/KNm, 0.51, key)
		assert.GreaterOrEqual(t, e.Value, mustFind(t, FindTreeAnchorTurning, "unknown_tree").Value)
	}
}
