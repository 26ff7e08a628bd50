package experience

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// Against a general-purpose library: never narrower than it, nor by more than the
// table's steps wider.
func TestStudent(t *testing.T) {
	for freedom := 1; freedom < 500; freedom++ {
		want := distuv.StudentsT{Nu: float64(freedom), Sigma: 1}.Quantile(0.975)
		got := student(freedom)
		assert.GreaterOrEqual(t, got, want-6e-4, freedom)
		assert.LessOrEqual(t, got, want*1.021+6e-4, freedom)
	}
}

// By hand: ratios 0.9, 1 and 1.2 have logarithms −0.10536, 0 and 0.18232, mean
// 0.02565, standard deviation 0.14550; 4.303·0.14550·√(4/3) = 0.72292.
func TestThreePulls(t *testing.T) {
	r, ok := Of([]float64{0.9, 1, 1.2})
	require.True(t, ok)
	assert.InDelta(t, 1.02598, r.Mean, 1e-4)
	assert.InDelta(t, math.Exp(0.02565-0.72292), r.Low, 1e-3)
	assert.InDelta(t, math.Exp(0.02565+0.72292), r.High, 1e-3)
}

// The band holds the next of a normal sample 19 times in 20.
func TestBandHoldsTheNext(t *testing.T) {
	held, all := 0, 20000
	normal := distuv.Normal{Mu: 0.1, Sigma: 0.2}
	for range all {
		var ratios []float64
		for range 6 {
			ratios = append(ratios, math.Exp(normal.Rand()))
		}
		r, _ := Of(ratios)
		if next := math.Exp(normal.Rand()); r.Low <= next && next <= r.High {
			held++
		}
	}
	assert.InDelta(t, 0.95, float64(held)/float64(all), 0.01)
}

func TestWhatIsNoRatio(t *testing.T) {
	r, ok := Of([]float64{0.9, 1, math.NaN(), 0, -1, math.Inf(1)})
	assert.False(t, ok)
	assert.Equal(t, 2, r.N)
	_, ok = Of(nil)
	assert.False(t, ok)
	same, ok := Of([]float64{1.1, 1.1, 1.1})
	assert.True(t, ok)
	assert.InDelta(t, same.Low, same.High, 1e-12)
}
