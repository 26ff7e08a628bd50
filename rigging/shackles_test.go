package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestShackles(t *testing.T) {
	// NAVEDTRA 14251 ch. 6: 5/8 in gives 1.17 short tons = 2,344 lb; in
	// metric 1.59 cm gives 1.05 t (the manual's 0.417·D² with 5/8 in rounded
	// up to 1.59 cm: 0.7 % above 1.063 t cut to 1.05).
	assert.InDelta(t, 1.17, ShackleFieldRule(5.0/8*Inch)/ShortTonForce, 0.005)
	assert.InDelta(t, 2344, ShackleFieldRule(5.0/8*Inch)/PoundForce, 0.5)
	assert.InEpsilon(t, 1.05, ShackleFieldRule(1.59*CM)/TonneForce, 0.02)

	// RR-C-271D by Seattle City Light 6966.15: 20,000, 32,500 and 47,500 lb
	// break, 5 : 1.
	for inches, pounds := range map[float64]float64{0.5: 20000, 0.625: 32500, 0.75: 47500} {
		found := false
		for _, s := range Shackles() {
			if math.Abs(s.Body-inches*Inch) < 1e-9 {
				found = true
				assert.InEpsilon(t, pounds*PoundForce, 5*s.WLL, exact)
				assert.Equal(t, Published, s.Source.Basis)
				assert.InEpsilon(t, (inches+0.125)*Inch, s.Pin, exact)
			}
		}
		assert.True(t, found)
	}
	// The field rule is well below the marked limits; sizes and limits rise.
	for i, s := range Shackles() {
		assert.Less(t, ShackleFieldRule(s.Body), s.WLL)
		assert.Greater(t, s.Pin, s.Body)
		if i > 0 {
			assert.Greater(t, s.WLL, Shackles()[i-1].WLL)
		}
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		assert.True(t, math.IsNaN(ShackleFieldRule(bad)))
	}
}

// Bands: WAC 296-155-33905 Fig. 17; shares: ASME B30.26, from memory.
func TestShackleSideLoad(t *testing.T) {
	for degrees, want := range map[float64]float64{0: 1, 5: 1, 5.1: 0.7, 6: 0.7, 45: 0.7, 46: 0.5, 90: 0.5} {
		got, err := ShackleSideLoad(degrees * Deg)
		require.NoError(t, err)
		assert.Equal(t, want, got, "%v°", degrees)
	}
	for _, bad := range []float64{91 * Deg, -1, math.NaN(), math.Inf(1)} {
		got, err := ShackleSideLoad(bad)
		assert.Error(t, err)
		assert.Zero(t, got)
	}
}
