package bench

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/wasm/units"
)

// Arboriculture Australia, Tree Rescue Manual, p. 118: 2, 1.73, 1.41 and 1
// times one leg at 0, 60, 90 and 120° between two legs.
func TestSlingsBenchBasket(t *testing.T) {
	for angle, factor := range map[string]string{"0": "2.00", "60": "1.73", "90": "1.41", "120": "1.00"} {
		b := askFor(t, map[string]any{"bench": "slings", "values": map[string]string{"hitch": "basket", "included_deg": angle}})
		assert.Equal(t, factor, b.fact("factor"), angle)
	}
}

// 29 CFR 1918 App. II, Table 2: a choked sling of natural fibre rope carries
// half of what it does in a straight pull (5/8 in: 450 of 900 lb), but at 1/2
// in only 250 of 550 lb: 0.45 is taken for all. The
// reductions by angle of choke are those of ASME B30.9, from memory: none
// above 120°, 87, 74, 62 and 49 percent of the choker rating below.
func TestSlingsBenchChoked(t *testing.T) {
	for angle, factor := range map[string]string{"135": "0.45", "120": "0.39", "75": "0.33", "45": "0.27", "10": "0.22"} {
		b := askFor(t, map[string]any{"bench": "slings", "values": map[string]string{"hitch": "choked_natural_fibre", "choke_deg": angle}})
		assert.Equal(t, factor, b.fact("factor"), angle)
	}
	pounds := units.Decimal(550*0.45359237/1000, -1)
	b := askFor(t, map[string]any{"bench": "slings", "settings": map[string]any{"units": "us"},
		"values": map[string]string{"hitch": "choked_natural_fibre", "choke_deg": "135", "wll_t": pounds}})
	assert.Equal(t, "247\u00a0lbf", b.fact("holds"), "no more than the 250 lb printed")
}

// A sharper choke and a wider basket never hold more, and nothing holds more
// than two straight legs.
func TestSlingsBenchRunsOneWay(t *testing.T) {
	for _, hitch := range []string{"choked_textile", "choked_wire_rope", "choked_natural_fibre", "basket"} {
		last := 0.0
		for i := range 171 {
			angle := float64(170 - i)
			s := slingAt(hitch, 2, 170-angle, angle)
			assert.GreaterOrEqual(t, s.holds, last-1e-12, "%s %v°", hitch, angle)
			assert.LessOrEqual(t, s.holds, 2*s.straight)
			last = s.holds
		}
	}
}

// Only the angle of the hitch is asked for.
func TestSlingsBenchAsksForWhatCounts(t *testing.T) {
	for hitch, want := range map[string][2]bool{"straight": {false, false}, "basket": {false, true}, "choked_textile": {true, false}} {
		b := askFor(t, map[string]any{"bench": "slings", "values": map[string]string{"hitch": hitch, "choke_deg": "rubbish", "included_deg": "50"}})
		assert.Equal(t, want, [2]bool{b.has("choke_deg"), b.has("included_deg")}, hitch)
		assert.Equal(t, hitch != "choked_textile", b.Fresh, hitch)
		assert.Equal(t, "50", b.Values["included_deg"], hitch)
	}
}
