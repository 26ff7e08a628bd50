package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestClipCounts(t *testing.T) {
	for _, c := range []struct {
		inches                 float64
		rule, regulation, used int
		spacing                float64 // in, printed
	}{
		// Rule: NAVEDTRA 14026 ch. 1, 3D + 1 rounded up. Regulation and spacing:
		// 29 CFR 1918 App. II, Table 1.
		{1.0 / 2, 3, 3, 3, 3},
		{5.0 / 8, 3, 3, 3, 3.75},
		{3.0 / 4, 4, 4, 4, 4.5},
		{7.0 / 8, 4, 4, 4, 5.25},
		{1, 4, 5, 5, 6}, // the regulation asks for one more than the rule
	} {
		rule, err := ClipsByRule(c.inches * Inch)
		require.NoError(t, err)
		regulation, err := ClipsByRegulation(c.inches * Inch)
		require.NoError(t, err)
		used, err := ClipCount(c.inches * Inch)
		require.NoError(t, err)
		assert.Equal(t, []int{c.rule, c.regulation, c.used}, []int{rule, regulation, used}, "%v in", c.inches)
		assert.InEpsilon(t, c.spacing*Inch, ClipSpacing(c.inches*Inch), exact)
	}
	thin, err := ClipCount(6 * MM)
	require.NoError(t, err)
	assert.Equal(t, 3, thin)
	thick, err := ClipCount(1.1 * Inch)
	require.NoError(t, err)
	assert.Equal(t, 5, thick, "above the regulation's table not below its last")
	thicker, err := ClipCount(1.5 * Inch)
	require.NoError(t, err)
	assert.Equal(t, 6, thicker)
	for _, bad := range []float64{0, -1, 12, math.NaN(), math.Inf(1)} {
		_, err := ClipCount(bad)
		assert.Error(t, err)
		_, err = ClipsByRegulation(bad)
		assert.Error(t, err)
	}
}
