package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMeasuredSlopeAndDistance(t *testing.T) {
	// 100 % is 45°, 1 in 2 is 26.565° (any table of slopes).
	s, err := MeasureSlopeFromPercent(Measured{1, 0.01})
	require.NoError(t, err)
	assert.InEpsilon(t, 45*Deg, s.Value, exact)
	assert.InEpsilon(t, 0.005, s.PlusMinus, linear) // d atan = 1/(1 + 1²)
	s, err = MeasureSlope(Measured{-1, 0.02}, Measured{2, 0})
	require.NoError(t, err)
	assert.InDelta(t, -26.565, s.Value/Deg, 1e-3)

	// The 3-4-5 triangle: 50 m along a slope of atan(3/4) is 40 m level.
	d, err := MeasureLevelDistance(Measured{50, 0.5}, Measured{math.Atan(0.75), 0.01})
	require.NoError(t, err)
	assert.InEpsilon(t, 40.0, d.Value, exact)
	assert.InEpsilon(t, math.Hypot(0.8*0.5, 50*0.6*0.01), d.PlusMinus, linear)

	// 62.5 paces over 50 m are 0.8 m each; 50 of them up that slope, 32 m.
	p, err := MeasurePace(Measured{50, 0.5}, Measured{62.5, 1})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.8, p.Value, exact)
	assert.InEpsilon(t, 0.8*math.Hypot(0.5/50, 1/62.5), p.PlusMinus, linear)
	d, err = MeasurePacedDistance(Measured{50, 1}, p, Measured{math.Atan(0.75), 0})
	require.NoError(t, err)
	assert.InEpsilon(t, 32.0, d.Value, exact)
	assert.InEpsilon(t, 32*math.Hypot(1.0/50, p.PlusMinus/p.Value), d.PlusMinus, linear)
}

func TestMeasuredDistanceRejects(t *testing.T) {
	m := func(v float64) Measured { return Measured{v, 0} }
	_, err := MeasureSlope(m(1), m(0))
	readingWrong(t, err, "run")
	_, err = MeasureSlopeFromPercent(m(math.NaN()))
	readingWrong(t, err, "percent")
	_, err = MeasurePace(m(50), m(0))
	readingWrong(t, err, "paces")
	_, err = MeasurePace(m(50), Measured{1, 1})
	readingWrong(t, err, "paces")
	_, err = MeasurePacedDistance(m(10), m(0), m(0))
	readingWrong(t, err, "pace")
	_, err = MeasureLevelDistance(m(-1), m(0))
	readingWrong(t, err, "along")
	_, err = MeasureLevelDistance(m(1), m(1.5))
	readingWrong(t, err, "slope")
}
