package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The machine's motion is all in the rope when it stands: ½·m·v² = ½·T²·ℓ/(EA), the
// stored energy of a line (mechanics).
func TestSnatchStoresTheMotion(t *testing.T) {
	for _, v := range []float64{0.1, 0.5, 1, 2} {
		rise := Snatch(4800, v, 5.5e6, 102)
		assert.InEpsilon(t, 4800*v*v/2, StoredEnergy(rise, 102, 5.5e6), 1e-12)
	}
	assert.True(t, math.IsNaN(Snatch(math.NaN(), 1, 1, 1)) && math.IsNaN(Snatch(1, 1, math.NaN(), 1)) && math.IsNaN(Snatch(1, 1, 1, 0)))
}

// In time steps: a mass at a speed on a spring stands when the spring pulls so hard.
func TestSnatchAgainstTimeSteps(t *testing.T) {
	const mass, k, step = 3000.0, 40e3, 1e-5
	x, v, most := 0.0, 1.0, 0.0
	for v > 0 {
		v -= k * x / mass * step
		x += v * step
		most = math.Max(most, k*x)
	}
	assert.InEpsilon(t, most, Snatch(mass, 1, k*50, 50), 1e-4)
}
