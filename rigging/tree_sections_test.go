package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A cone and a paraboloid measured in sections are the trees of form factor
// 1/3 and 1/2 on the diameter at the ground, by the closed forms: V·(1 − s/H)³
// with its centre a quarter up from s, and V·(1 − s/H)² with a third.
func TestTreeInSectionsIsTheFormFactorsTree(t *testing.T) {
	const height, butt, stump = 27.0, 0.8, 0.6
	for _, c := range []struct {
		name       string
		factor     float64
		diameterAt func(h float64) float64
		tolerance  float64 // of the pair left over at the top, by Smalian
	}{
		{"cone", 1.0 / 3, func(h float64) float64 { return butt * (1 - h/height) }, 1e-6},
		{"paraboloid", 1.0 / 2, func(h float64) float64 { return butt * math.Sqrt(1-h/height) }, 0.01},
	} {
		sections := &StemSections{Height: height}
		for h := 0.0; h < height-0.05; h += 0.25 {
			sections.Points = append(sections.Points, DiameterAt{h, c.diameterAt(h)})
		}
		plain := Tree{Height: height, Diameter: butt, FormFactor: c.factor, Density: 900, CrownShare: 0.2, CrownCentre: 18, Lean: 3 * Deg, LeanBearing: 2, CrownOffset: 1}
		measured := plain
		measured.Sections, measured.Diameter, measured.FormFactor = sections, math.NaN(), math.NaN() // neither counts
		closed := 900 * c.factor * math.Pi / 4 * butt * butt * height * math.Pow(1-stump/height, 1/c.factor)
		want, got := plain.Body(stump), measured.Body(stump)
		assert.InEpsilon(t, closed+want.CrownMass, got.Mass, c.tolerance, c.name)
		assert.InEpsilon(t, want.StemMass, got.StemMass, c.tolerance, c.name)
		assert.InEpsilon(t, 0.2*got.StemMass, got.CrownMass, 1e-12, c.name)
		assert.InEpsilon(t, want.CentreHeight, got.CentreHeight, c.tolerance, c.name)
		assert.InDelta(t, 0, want.Centre.Sub(got.Centre).Norm(), c.tolerance*want.CentreHeight, c.name)

		measured.Mass, measured.MassCentre = 5000, 9
		got = measured.Body(stump)
		assert.Equal(t, 5000.0, got.Mass, "a measured mass still replaces")
		assert.Equal(t, 9.0, got.CentreHeight)
	}
	none := Tree{Height: 20, Sections: &StemSections{Height: 20}}.Body(0.4)
	assert.True(t, math.IsNaN(none.Mass), "no section, no mass")
}
