package sampling

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// Uncut it is the normal distribution of a general library; cut, the part of its
// density between the ends.
func TestQuantiles(t *testing.T) {
	d := Normal{Mean: 4, Deviation: 0.5, Low: math.Inf(-1), High: math.Inf(1)}
	reference := distuv.Normal{Mu: 4, Sigma: 0.5}
	for _, p := range []float64{1e-6, 0.01, 0.05, 0.5, 0.7, 0.95, 0.999} {
		assert.InDelta(t, reference.Quantile(p), d.Quantile(p), 1e-9)
	}
	// 1.645 and 1.960 standard deviations: any table of the normal distribution.
	assert.InDelta(t, 4+0.5*1.645, d.Quantile(0.95), 5e-4)
	assert.InDelta(t, 4+0.5*1.960, d.Quantile(0.975), 5e-4)

	cut := Normal{Mean: 4, Deviation: 0.5, Low: 3.8, High: 5.2}
	whole := quad.Fixed(reference.Prob, 3.8, 5.2, 40, nil, 0)
	for _, p := range []float64{0.01, 0.3, 0.8, 0.99} {
		assert.InDelta(t, p, quad.Fixed(reference.Prob, 3.8, cut.Quantile(p), 40, nil, 0)/whole, 1e-9)
	}
	assert.Equal(t, 3.8, cut.Quantile(0))
	assert.InDelta(t, 5.2, cut.Quantile(1), 1e-12)
}

// Cut at its mean it is the half-normal distribution, whose mean is σ·√(2/π) off.
func TestHalfNormal(t *testing.T) {
	d := Normal{Mean: 1, Deviation: 0.1, Low: math.Inf(-1), High: 1}
	mean := quad.Fixed(d.Quantile, 1e-9, 1, 2000, nil, 0)
	assert.InDelta(t, 1-0.1*math.Sqrt(2/math.Pi), mean, 1e-5)
}

func TestSpread(t *testing.T) {
	var s Spread
	assert.True(t, math.IsNaN(s.Quantile(0.5)))
	assert.Zero(t, s.Above(0))
	for i := range 100 {
		s.Add(float64(100 - i))
	}
	assert.Equal(t, 5.0, s.Quantile(0.05))
	assert.Equal(t, 50.0, s.Quantile(0.5))
	assert.Equal(t, 95.0, s.Quantile(0.95))
	assert.Equal(t, 100.0, s.Quantile(1))
	assert.Equal(t, 0.1, s.Above(90))
	for range 6 {
		s.Add(math.Inf(1))
	}
	assert.Equal(t, 53.0, s.Quantile(0.5))
	assert.Equal(t, math.Inf(1), s.Quantile(0.95))
	assert.Equal(t, 106, s.Len())
}
