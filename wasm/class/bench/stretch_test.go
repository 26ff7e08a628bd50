package bench

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/units"
	"pullline/wasm/words"
)

// OpenStax, University Physics, 12.3: 65.0 kg on 35.0 m of nylon rope of
// 0.800 cm and 1.35 GPa stretches it by 32.9 cm.
func TestStretchBenchPublished(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "stretch", "values": map[string]string{
		"tension_kN": units.Decimal(65*9.8/1000, 6), "length_m": "35", "stiffness_kN": units.Decimal(1.35e9*math.Pi/4*0.008*0.008/1000, 6)}})
	require.True(t, b.Fresh)
	assert.Equal(t, "32.9\u00a0cm", b.fact("stretch"))
	// OpenStax, College Physics: a rope of 14 kN/m stops 90.0 kg after 2.00 m
	// and stretches by 0.502 m: what the fall had, 1.76 kJ, is in the rope.
	b = askFor(t, map[string]any{"bench": "stretch", "values": map[string]string{"tension_kN": "7.028", "length_m": "10", "stiffness_kN": "140"}})
	assert.Equal(t, "50.2\u00a0cm", b.fact("stretch"))
	assert.Equal(t, "1.77\u00a0kJ", b.fact("energy")) // rounded up
	assert.Equal(t, "1.80\u00a0m", b.fact("lift"))    // 100 kg instead of 90
}

// The stiffness of nylon rope is offered as printed: UFC 4-159-03, Table 6-8,
// 529 kN at an inch.
func TestStretchBenchOffersPublishedRopes(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "stretch"})
	var values []string
	for _, f := range b.Fields {
		if f.Path == "stiffness_kN" {
			for _, o := range f.Suggest {
				values = append(values, o.Value)
			}
		}
	}
	assert.Contains(t, values, "529 kN")
	assert.Greater(t, len(values), 16)
}

// A plan with a hold line made fast at both ends: what it takes up as it has to
// grow, from its lengthening.
func TestStretchIsThePlans(t *testing.T) {
	p := plumbPlan(14, 0, 40, 0)
	delete(p, "planned_kN")
	p["tree"].(map[string]any)["lean_deg"], p["tree"].(map[string]any)["lean_bearing_deg"] = 4, 180
	p["points"] = append(p["points"].([]any), map[string]any{"id": "H", "bearing_deg": 120, "distance_m": 30, "anchor": map[string]any{"kind": "rated", "capacity_kN": 90}})
	p["lines"] = append(p["lines"].([]any), map[string]any{"id": "hold", "role": "hold", "path": []any{map[string]any{"stem_m": 12}, map[string]any{"point": "H"}}, "rope": map[string]any{"stiffness_kN": 3000}})
	rep := equalPlan(t, p)
	hold := rep.Lines[1]
	require.Positive(t, float64(hold.GrowsM))
	s := solved(t, &stretch, map[string]string{"known": "grows", "grows_m": units.Decimal(float64(hold.GrowsM), -1), "length_m": units.Decimal(float64(hold.Legs[0].LengthM), -1), "stiffness_kN": "3000"}).kept.(stretchState)
	assert.InEpsilon(t, float64(hold.StretchedKN), s.tension, 1e-5)
	assert.InEpsilon(t, float64(hold.GrowsM), s.stretch, 1e-12)
}

// Twice the tension stores four times as much.
func TestStretchBenchSquare(t *testing.T) {
	stored := func(kN string) float64 {
		b := &work{u: &units.KN, spec: &stretch, in: map[string]float64{}, text: map[string]string{}, out: broken(words.Locale{}, "")}
		b.resolve(map[string]string{"tension_kN": kN})
		stretch.solve(b)
		return b.kept.(stretchState).energy
	}
	assert.InEpsilon(t, 4*stored("20"), stored("40"), 1e-12)
}

// Nylon, the softest rope, has parted by half its length: NAVEDTRA 12018, p.
// 7-13. What nothing stretches to has no number.
func TestStretchBenchOfAPartedRope(t *testing.T) {
	for kN, whole := range map[string]bool{"25": true, "25.1": false, "500": false} {
		b := askFor(t, map[string]any{"bench": "stretch", "box": boxes, "curve_box": boxes, "guess": true,
			"values": map[string]string{"tension_kN": kN, "stiffness_kN": "50"}})
		assert.Equal(t, whole, b.Lacks == "", kN)
		assert.Equal(t, whole, b.Guess != nil, kN)
		require.NotNil(t, b.Picture, kN)
		if !whole {
			assert.Empty(t, b.Facts, kN)
			assert.NotContains(t, b.Picture.Desc, "kJ", kN)
		}
	}
}
