package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMeasuredOffsets(t *testing.T) {
	// A right angle of sides 3 and 4.
	p, err := MeasureOffset(Measured{3, 0}, Measured{4, 0})
	require.NoError(t, err)
	assert.InEpsilon(t, 5.0, p.Distance.Value, exact)
	assert.InEpsilon(t, math.Atan2(4, 3), p.Bearing.Value, exact)
	p, err = MeasureOffset(Measured{0, 0.1}, Measured{0.05, 0.1})
	require.NoError(t, err)
	assert.Equal(t, math.Pi, p.Bearing.PlusMinus, "within its own ±: any bearing")
	_, err = MeasureOffset(Measured{31, 0}, Measured{0, 0})
	readingWrong(t, err, "ahead")
}

// What two views of a known offset show gives it back.
func TestMeasuredOffsetOfTwoViews(t *testing.T) {
	random := rand.New(rand.NewSource(8))
	for range 100 {
		offset, bearing := 0.5+3*random.Float64(), 2*math.Pi*random.Float64()
		facingA := 2 * math.Pi * random.Float64()
		facingB := facingA + (40+100*random.Float64())*Deg
		if facingB > 2*math.Pi {
			facingB -= 2 * math.Pi
		}
		p, err := MeasureOffsetTwoViews(Measured{offset * math.Sin(bearing-facingA), 0}, Measured{facingA, 0}, Measured{offset * math.Sin(bearing-facingB), 0}, Measured{facingB, 0})
		require.NoError(t, err)
		assert.InDelta(t, offset, p.Distance.Value, 1e-9)
		assert.InDelta(t, 0, math.Sin((p.Bearing.Value-bearing)/2), 1e-9)
	}
	_, err := MeasureOffsetTwoViews(Measured{1, 0}, Measured{0, 0}, Measured{1, 0}, Measured{20 * Deg, 0})
	readingWrong(t, err, "facing_b")
}

func TestMeasuredAlongStemRiseAndSlope(t *testing.T) {
	// cos 60° is a half, tan 45° is one.
	m, err := MeasureAlongStem(Measured{10, 0.5}, Measured{60 * Deg, 0})
	require.NoError(t, err)
	assert.InEpsilon(t, 20.0, m.Value, exact)
	assert.InEpsilon(t, 1.0, m.PlusMinus, exact)
	_, err = MeasureAlongStem(Measured{10, 0}, Measured{70 * Deg, 0})
	readingWrong(t, err, "lean")

	m, err = MeasureRise(Measured{20, 0}, Measured{-45 * Deg, 0})
	require.NoError(t, err)
	assert.InEpsilon(t, -20.0, m.Value, exact)
	_, err = MeasureRise(Measured{20, 0}, Measured{80 * Deg, 0})
	readingWrong(t, err, "slope")

	m, err = MeasureSlopeByAngle(Measured{12 * Deg, 0.01})
	require.NoError(t, err)
	assert.Equal(t, Measured{12 * Deg, 0.01}, m)
	_, err = MeasureSlopeByAngle(Measured{math.NaN(), 0})
	readingWrong(t, err, "slope")
}
