package rigging

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Can. J. For. Res. 34(3) (2004), at 20 m/s. On 20 m² at 1.226 kg/m³:
// 0.22 gives 1.08 kN, 0.47 gives 2.30 kN.
func TestDragCoefficients(t *testing.T) {
	for key, want := range map[string][2]float64{"western_redcedar": {0.22, 1.08}, "western_hemlock": {0.47, 2.30}, "lodgepole_pine": {0.47, 2.30}} {
		cd := mustFind(t, FindDragCoefficient, key).Value
		assert.Equal(t, want[0], cd, key)
		tree := Tree{DragCoefficient: cd, CrownArea: 20}
		assert.InDelta(t, want[1]*KN, tree.WindForce(20), 0.006*KN, key) // 1.225 kg/m³ here
	}
	for _, e := range DragCoefficients() {
		assert.LessOrEqual(t, e.Value, mustFind(t, FindDragCoefficient, "unknown_crown").Value, e.Key)
	}
}
