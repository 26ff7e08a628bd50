package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTreeHeights(t *testing.T) {
	c := publishedExample(t, "ht-01") // sine method
	// To eye level: the foot's sight at an angle of 0.
	assertPrinted(t, c, "h", HeightBySlant(c.InSI("range"), c.InSI("angle"), 1, 0))

	// DeYoung, Forest Measurements, section 2.3, Example 1: run 50 ft, top
	// +124 %, foot −16 %: 62 ft and 8 ft.
	assert.InEpsilon(t, 62.0, HeightByPercent(50*Foot, 1.24, 0)/Foot, exact)
	assert.InEpsilon(t, 8.0, HeightByPercent(50*Foot, 0, -0.16)/Foot, exact)
	assert.InEpsilon(t, 70.0, HeightByPercent(50*Foot, 1.24, -0.16)/Foot, exact)

	// 100 % is 45°; the two scales and the slant ranges agree.
	assert.InEpsilon(t, HeightByPercent(30, 1, -0.1), HeightByTwoAngles(30, 45*Deg, math.Atan(-0.1)), exact)
	assert.InEpsilon(t, 33.0, HeightBySlant(30*math.Sqrt2, 45*Deg, math.Hypot(30, 3), math.Atan(-0.1)), exact)
	// A foot above the eye takes away.
	assert.InEpsilon(t, 27.0, HeightByTwoAngles(30, 45*Deg, math.Atan(0.1)), exact)

	nan := math.NaN()
	for _, h := range []float64{
		HeightByTwoAngles(0, 0.5, 0), HeightByTwoAngles(-1, 0.5, 0), HeightByTwoAngles(30, math.Pi/2, 0), HeightByTwoAngles(30, 0.1, 0.2),
		HeightByTwoAngles(nan, 0.5, 0), HeightByTwoAngles(30, nan, 0), HeightByTwoAngles(30, 0.5, nan), HeightByTwoAngles(math.Inf(1), 0.5, 0),
		HeightByPercent(30, nan, 0), HeightByPercent(30, 0, 0), HeightBySlant(0, 0.5, 1, 0), HeightBySlant(30, 0.5, 0, 0),
		HeightBySlant(30, 2, 1, 0), HeightBySlant(30, 0.5, nan, 0),
	} {
		assert.True(t, math.IsNaN(h))
	}
}
