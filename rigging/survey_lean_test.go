package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMeasuredLean(t *testing.T) {
	// 1 m in 20 m toward the right: atan 0.05 = 2.8624°, and its ± by the
	// derivative cos²/height.
	l, err := MeasureLean(Measured{1, 0.1}, Measured{20, 0}, Measured{90 * Deg, 2 * Deg})
	require.NoError(t, err)
	assert.InDelta(t, 2.8624, l.Lean.Value/Deg, 1e-4)
	assert.InEpsilon(t, 0.1/20*math.Pow(math.Cos(l.Lean.Value), 2), l.Lean.PlusMinus, linear)
	assert.InEpsilon(t, 90*Deg, l.Bearing.Value, exact)
	assert.InEpsilon(t, 2*Deg, l.Bearing.PlusMinus, 1e-9)
	// An offset the other way leans the other way.
	back, err := MeasureLean(Measured{-1, 0.1}, Measured{20, 0}, Measured{90 * Deg, 2 * Deg})
	require.NoError(t, err)
	assert.InEpsilon(t, 270*Deg, back.Bearing.Value, exact)
	assert.InEpsilon(t, l.Lean.Value, back.Lean.Value, exact)

	// 3-4-5: 0.6 ahead, 0.8 right is 1.0 at atan2(4, 3).
	l, err = MeasureLeanTwoOffsets(Measured{0.6, 0.02}, Measured{0.8, 0.02}, Measured{10, 0})
	require.NoError(t, err)
	assert.InEpsilon(t, math.Atan(0.1), l.Lean.Value, exact)
	assert.InEpsilon(t, math.Atan2(4, 3), l.Bearing.Value, exact)
	assert.InEpsilon(t, 0.02, l.Bearing.PlusMinus, linear) // 0.02 m across 1.0 m

	// A stem that is plumb within the ± leans anywhere.
	l, err = MeasureLeanTwoOffsets(Measured{0.05, 0.1}, Measured{0, 0.1}, Measured{10, 0})
	require.NoError(t, err)
	assert.Equal(t, math.Pi, l.Bearing.PlusMinus)
	l, err = MeasureLeanTwoOffsets(Measured{}, Measured{}, Measured{10, 0})
	require.NoError(t, err)
	assert.Equal(t, MeasuredLean{Bearing: Measured{0, math.Pi}}, l)
}

// Two views give back any lean: the stem's axis (Tree.Axis) seen from afar by
// two people, each reading its tilt against the plumb line.
func TestMeasuredLeanOfTwoViews(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	seen := func(axis Vec, facing float64) Measured {
		right := AtBearing(facing+math.Pi/2, 1, 0)
		return Measured{math.Atan2(axis.Dot(right), axis.Z), 0.5 * Deg}
	}
	for range 300 {
		tree := Tree{Lean: 25 * Deg * random.Float64(), LeanBearing: 2 * math.Pi * random.Float64()}
		a := 2 * math.Pi * (random.Float64() - 0.5)
		b := a + 90*Deg + 100*Deg*(random.Float64()-0.5)
		l, err := MeasureLeanTwoViews(seen(tree.Axis(), a), Measured{a, 0}, seen(tree.Axis(), b), Measured{math.Remainder(b, 2*math.Pi), 0})
		require.NoError(t, err)
		assert.InDelta(t, tree.Lean, l.Lean.Value, 1e-9)
		if tree.Lean > 1*Deg {
			assert.InDelta(t, 0, math.Remainder(tree.LeanBearing-l.Bearing.Value, 2*math.Pi), 1e-7)
		}
		assert.Greater(t, l.Lean.PlusMinus, 0.0)
	}
	// A quarter turn apart: tan² adds up. Facing the lay, and facing left.
	l, err := MeasureLeanTwoViews(Measured{4 * Deg, 0}, Measured{}, Measured{3 * Deg, 0}, Measured{270 * Deg, 0})
	require.NoError(t, err)
	assert.InEpsilon(t, math.Atan(math.Hypot(math.Tan(4*Deg), math.Tan(3*Deg))), l.Lean.Value, exact)
	assert.InEpsilon(t, math.Atan2(math.Tan(4*Deg), math.Tan(3*Deg)), l.Bearing.Value, 1e-9)
}

func TestMeasuredLeanOfNoTree(t *testing.T) {
	m := func(v float64) Measured { return Measured{v, 0} }
	_, err := MeasureLean(m(1), m(0), m(0))
	readingWrong(t, err, "height")
	_, err = MeasureLean(m(math.NaN()), m(10), m(0))
	readingWrong(t, err, "offset")
	_, err = MeasureLeanTwoOffsets(m(1), m(math.Inf(1)), m(10))
	readingWrong(t, err, "right")
	for _, b := range []float64{0, 20 * Deg, math.Pi, 190 * Deg} {
		_, err = MeasureLeanTwoViews(m(0.1), m(0), m(0.1), m(b))
		readingWrong(t, err, "facing_b")
	}
	_, err = MeasureLean(m(1), Measured{0.5, 0.5}, m(0))
	readingWrong(t, err, "height")
}
