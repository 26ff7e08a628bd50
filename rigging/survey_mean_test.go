package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Against the general statistics library: mean, deviation and Student's t.
func TestMeasuredMean(t *testing.T) {
	random := rand.New(rand.NewSource(10))
	for n := 2; n <= 40; n++ {
		readings := make([]float64, n)
		for i := range readings {
			readings[i] = 25 + random.NormFloat64()
		}
		a, err := MeasureMean(readings, 0.001)
		require.NoError(t, err)
		mean, deviation := stat.MeanStdDev(readings, nil)
		assert.InEpsilon(t, mean, a.Mean.Value, 1e-12)
		assert.InEpsilon(t, deviation, a.Deviation, 1e-9)
		assert.Equal(t, n, a.Count)
		factor := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(n - 1)}.Quantile(0.975)
		got := a.Mean.PlusMinus * math.Sqrt(float64(n)) / a.Deviation
		// The printed table rounds to 0.001; beyond 30 it stays at 2.042,
		// 1 % above t(39) = 2.023.
		if n <= 31 {
			assert.InDelta(t, factor, got, 6e-4, "%d", n)
		} else {
			assert.True(t, got >= factor && got <= 1.012*factor, "%d", n)
		}
	}
}

func TestMeasuredMeanFloorAndSuspects(t *testing.T) {
	a, err := MeasureMean([]float64{20, 20, 20, 20}, 0.5)
	require.NoError(t, err)
	assert.Equal(t, Average{Mean: Measured{20, 0.5}, Count: 4}, a)

	// The one read from the wrong twig is flagged and stays in the mean.
	a, err = MeasureMean([]float64{30.1, 29.8, 30.4, 41, 30.0}, 0.1)
	require.NoError(t, err)
	assert.Equal(t, []int{3}, a.Suspects)
	assert.InEpsilon(t, 32.26, a.Mean.Value, 1e-12)
	// Steps of the scale alone flag nothing.
	a, err = MeasureMean([]float64{30, 30, 30, 30, 31}, 1)
	require.NoError(t, err)
	assert.Empty(t, a.Suspects)

	a, err = MeasureMeanBearing([]float64{359 * Deg, 1 * Deg, 3 * Deg}, 1*Deg)
	require.NoError(t, err)
	assert.InEpsilon(t, 1*Deg, a.Mean.Value, 1e-9)
}

func TestMeasuredMeanRejects(t *testing.T) {
	for _, list := range [][]float64{nil, {1}, {1, math.NaN()}, {math.Inf(1), 1}} {
		_, err := MeasureMean(list, 1)
		readingWrong(t, err, "readings")
		_, err = MeasureMeanBearing(list, 1)
		readingWrong(t, err, "readings")
	}
	for _, step := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := MeasureMean([]float64{1, 2}, step)
		readingWrong(t, err, "resolution")
	}
}
