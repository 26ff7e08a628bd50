package sampling

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// In each dimension of base b, any b^k points from a multiple of b^k on lie one in each
// b^k-th of the unit: what makes a van der Corput sequence, and no permutation of
// digits may spoil (H. Niederreiter, Random Number Generation and Quasi-Monte Carlo
// Methods, 1992, from memory).
func TestOnePointInEachPart(t *testing.T) {
	s := NewSequence(12, 7)
	point := make([]float64, 12)
	for i, base := range primes(12) {
		for n := base; n <= 4000; n *= base {
			seen := make([]bool, n)
			for k := range n {
				s.At(3*n+k, point)
				assert.True(t, point[i] > 0 && point[i] < 1)
				part := int(point[i] * float64(n))
				assert.False(t, seen[part], "base %d: two of %d points in part %d", base, n, part)
				seen[part] = true
			}
		}
	}
}

// In the first two dimensions together, 2^j·3^k points lie one in each of the 2^j by 3^k
// boxes (J. H. Halton 1960, from memory).
func TestOnePointInEachBox(t *testing.T) {
	s := NewSequence(2, 3)
	point := make([]float64, 2)
	const across, up = 16, 27
	var seen [across][up]int
	for n := range across * up {
		s.At(n, point)
		seen[int(point[0]*across)][int(point[1]*up)]++
	}
	for i := range seen {
		for k := range seen[i] {
			assert.Equal(t, 1, seen[i][k])
		}
	}
}

func TestPrimes(t *testing.T) {
	assert.Equal(t, []int{2, 3, 5, 7, 11, 13, 17, 19, 23, 29}, primes(10))
	assert.Equal(t, 541, primes(100)[99]) // any table of primes
}

// A seed settles all; another gives other points. Averaged over seeds every point is
// in the middle, so that nothing is biased.
func TestSeeds(t *testing.T) {
	a, b := make([]float64, 5), make([]float64, 5)
	NewSequence(5, 1).At(77, a)
	NewSequence(5, 1).At(77, b)
	assert.Equal(t, a, b)
	NewSequence(5, 2).At(77, b)
	assert.NotEqual(t, a, b)
	means := make([]float64, 5)
	const seeds = 400
	for seed := range uint64(seeds) {
		NewSequence(5, seed).At(2, a)
		for i, v := range a {
			means[i] += v / seeds
		}
	}
	for _, m := range means {
		assert.InDelta(t, 0.5, m, 4*math.Sqrt(1.0/12/seeds)) // four standard errors
	}
}

// The mean of a smooth function of eight inputs comes closer than by as many random
// draws: Π (1 + (x−½)/(2j)) has mean 1 (integral calculus).
func TestEvenerThanRandom(t *testing.T) {
	f := func(x []float64) float64 {
		p := 1.0
		for j, v := range x {
			p *= 1 + (v-0.5)/(2*float64(j+1))
		}
		return p
	}
	const n, dimensions, seeds = 1000, 8, 20
	off := func(draw func(seed uint64, k int, point []float64)) (rms float64) {
		point := make([]float64, dimensions)
		for seed := range uint64(seeds) {
			mean := 0.0
			for k := range n {
				draw(seed, k, point)
				mean += f(point) / n
			}
			rms += (mean - 1) * (mean - 1) / seeds
		}
		return math.Sqrt(rms)
	}
	var s *Sequence
	even := off(func(seed uint64, k int, point []float64) {
		if k == 0 {
			s = NewSequence(dimensions, seed)
		}
		s.At(k, point)
	})
	r := rand.New(rand.NewPCG(5, 6))
	random := off(func(_ uint64, _ int, point []float64) {
		for i := range point {
			point[i] = r.Float64()
		}
	})
	assert.Less(t, even, random/5)
}
