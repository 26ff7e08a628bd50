package bench

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// US Army TM 9-2320-279-10-2, Table 2-7: a truck's winch by layer, pounds.
// The drum is 18.9 rope diameters, fitted to the second layer; the rest
// follows, to the three digits shown.
func TestDrumBenchAgainstTheArmyTable(t *testing.T) {
	for i, pounds := range []float64{20000, 18173, 16663, 15361, 14254} {
		b := askFor(t, map[string]any{"bench": "drum", "settings": map[string]string{"units": "us"}, "set": "first_kN", "text": "20000 lbf",
			"values": map[string]string{"layer": units.Decimal(float64(i+1), 0), "drum_cm": "18.9", "rope_cm": "1"}})
		assert.Equal(t, units.US.Capacity(pounds*rigging.PoundForce/rigging.KN), b.fact("pull"), "layer %d", i+1)
	}
}

// What the pull loses the speed gains: power stays the same.
func TestDrumBenchPower(t *testing.T) {
	s := drumState{first: 50, drum: 0.2, rope: 0.012}
	for n := 1; n <= mostLayers; n++ {
		assert.InEpsilon(t, s.first*s.lever(1), s.at(n)*s.lever(n), 1e-12)
	}
}

func TestDrumBenchThatIsTight(t *testing.T) {
	for drum, tight := range map[string]bool{"16": false, "15.9": true} {
		b := askFor(t, map[string]any{"bench": "drum", "values": map[string]string{"drum_cm": drum, "rope_cm": "1"}})
		assert.Equal(t, tight, slices.ContainsFunc(b.Notes, func(n parts.Note) bool { return n.Code == "tight" }), drum)
	}
}
