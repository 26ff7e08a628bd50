package rigging

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDesignFactors(t *testing.T) {
	for key, want := range map[string]struct {
		factor float64
		basis  Basis
	}{
		"sling":               {5, Published},  // DOE-STD-1090-96, 11.3.1.3
		"hoist_wire_rope":     {5, Published},  // UFGS 14636N, 2.3.2
		"standing_pendant":    {4, Published},  // MIL-HDBK-1038
		"shackle":             {5, Published},  // ASME B30.26-2010, 26-1.2
		"large_shackle":       {4, Published},  // the same
		"natural_fibre_sling": {5, Published},  // 29 CFR 1918 App. II, Table 2
		"winch_line":          {2, Published},  // UK MCA MGN 308, 2.1: a 10 t winch on a 20 t rope
		"textile_sling":       {7, FromMemory}, // EN 1492
		"wire_rope_sling":     {5, FromMemory}, // EN 13414-1
		"chain_sling":         {4, FromMemory}, // EN 818-4
	} {
		e := mustFind(t, FindDesignFactor, key)
		assert.Equal(t, want.factor, e.Value, key)
		assert.Equal(t, want.basis, e.Source.Basis, key)
	}
	winch := mustFind(t, FindDesignFactor, "winch_line")
	assert.InEpsilon(t, 10.0, WorkingLimit(20, winch.Value), exact)
}

// TB 55-1900-232-10, Table 5-4: the stiffer the hold, the larger the factor.
func TestTowingFactors(t *testing.T) {
	printed := map[string]float64{
		"wire_on_tension_control": 3, "wire_on_brake": 5, "wire_on_hook": 7, "wire_pendant_on_brake": 6, "wire_pendant_on_hook": 8,
		"synthetic_on_tension_control": 10, "synthetic_on_brake": 12, "synthetic_on_hook": 12,
		"shackle_wire_on_brake": 5, "shackle_wire_on_hook": 7, "shackle_synthetic": 4,
	}
	table := TowingFactors()
	assert.Len(t, table, len(printed))
	for _, e := range table {
		assert.Equal(t, printed[e.Key], e.Value, e.Key)
	}
}

// Least bends: NAVEDTRA 14251 ch. 6; UFGS 14636N, 2.3.3; textbook Table 18.7;
// DOE-STD-1090-96, 11.3.2.3; AEM Disaster Rescue 3.15. Of a range the gentler.
func TestBends(t *testing.T) {
	for key, want := range map[string]float64{
		"wire_rope_sheave": 20, "hoist_sheave": 18, "equaliser_sheave": 12, "sheave_6x19": 34, "sheave_6x37": 18, "sheave_8x19": 26,
		"thimble": 3, "sharp_bend": 0.70,
	} {
		assert.Equal(t, want, mustFind(t, FindBend, key).Value, key)
	}
	assert.InDelta(t, 6, mustFind(t, FindBend, "fibre_line_sheave").Value, 0.3, "two circumferences, about 6 d")
}
