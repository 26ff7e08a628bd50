package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// US OSHA Logging eTool: a 12 in tree has a hinge of 9.6 by 1.2 in; a tree of
// 100 ft on 24 in has 50 segments, on 12 in 100.
func TestHingeGuide(t *testing.T) {
	h := GuideHinge(12 * Inch)
	assert.InEpsilon(t, 9.6*Inch, h.Length, exact)
	assert.InEpsilon(t, 1.2*Inch, h.Left, exact)
	assert.Equal(t, h.Left, h.Right)
	assert.InEpsilon(t, mustFind(t, FindHingeGuide, "hinge_length").Value, h.Length/(12*Inch), exact)
	assert.InEpsilon(t, mustFind(t, FindHingeGuide, "hinge_thickness").Value, h.Left/(12*Inch), exact)
	assert.InEpsilon(t, 50.0, WedgeSegments(100*Foot, 24*Inch), exact)
	assert.InEpsilon(t, 100.0, WedgeSegments(100*Foot, 12*Inch), exact)
	assert.True(t, math.IsNaN(WedgeSegments(0, 1)))
	assert.True(t, math.IsNaN(GuideHinge(math.NaN()).Length))

	// M = σ·b·t²/6 with these measures and 50 MPa, worked out: 1.8 kNm at
	// 0.3 m, 8.3 at 0.5, 34 at 0.8; growing with the cube of the diameter.
	for diameter, kNm := range map[float64]float64{0.3: 1.8, 0.5: 8.3, 0.8: 34} {
		assert.InEpsilon(t, kNm, GuideHinge(diameter).Moment(HingeElastic, 50*MPa)/KNm, 0.01, "%v m", diameter)
	}
}
