package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// K. E. Byrne, UBC 2005 (abstract): four species; 1,000 kg of stem gives
// 146, 119, 95 and 77 kNm.
func TestTreeAnchorTurning(t *testing.T) {
	for key, kNm := range map[string]float64{"lodgepole_pine": 146, "hybrid_spruce": 119, "western_redcedar": 95, "western_hemlock": 77} {
		e := mustFind(t, FindTreeAnchorTurning, key)
		assert.InDelta(t, kNm, e.Value*1000/KNm, 0.51, key)
		// The same 1,000 kg as an anchor, by hand: a third of that moment, over
		// a sling 1.5 m up.
		a := TreeAnchor{Diameter: 0.4, Height: 20, FormFactor: 0.4, Turning: e.Value, SlingHeight: 1.5, Factor: 3}
		a.Density = 1000 / (0.4 * math.Pi / 4 * 0.4 * 0.4 * 20)
		load, capacity, err := a.Hold(Vec{8 * KN, 6 * KN, 5 * KN})
		require.NoError(t, err)
		assert.InEpsilon(t, 10*KN, load, 1e-12, "the level pull, 6-8-10")
		assert.InDelta(t, kNm/3/1.5, capacity/KN, 0.51/3/1.5, key)
		assert.GreaterOrEqual(t, e.Value, mustFind(t, FindTreeAnchorTurning, "unknown_tree").Value)
	}
}

// A tree that nothing is said of holds no more than any figure would have it:
// the form's low end, a density no higher than the lightest wood of the federal
// table (western redcedar, basic 310 kg/m³ with 40 % of water), a factor of 2
// and more.
func TestTreeAnchorGuideIsLow(t *testing.T) {
	form, density := mustFind(t, FindTreeAnchorGuide, "form_factor").Value, mustFind(t, FindTreeAnchorGuide, "green_density").Value
	for _, s := range SpeciesTable() {
		assert.Less(t, form, s.FormFactor.Value, s.Key)
		assert.Less(t, density, s.Density.Value, s.Key)
	}
	for _, r := range fiaRows {
		wood := GreenDensity(1000*r.wood, r.woodWater/100)
		assert.LessOrEqual(t, density, min(wood, r.overBark), r.key)
	}
	assert.GreaterOrEqual(t, mustFind(t, FindTreeAnchorGuide, "factor").Value, 2.0)
}
