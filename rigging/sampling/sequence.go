package sampling

import "math/rand/v2"

// A Sequence is a Halton sequence with its digits permuted at random: its first n
// points fill the unit cube more evenly than n random ones, in every dimension alone
// and in the first ones together. Each point by itself is uniform over the seeds.
//
// Source: A. B. Owen, A randomized Halton algorithm in R (2017), from memory: a
// permutation of its own for every digit of every dimension, the endless zeros of
// the digits after the last included.
type Sequence struct{ dimensions []digits }

// digits are one dimension: of the digits of n in a prime base, the value of each.
type digits struct {
	base   int
	values [][]float64 // of each digit at each place, permuted
	zeros  []float64   // what the places from here on add where their digits are zero
}

// finest is how far the digits are followed; what lies below it is one random number.
const finest = 1.0 / (1 << 40)

// NewSequence has a dimension for each of the first primes.
func NewSequence(dimensions int, seed uint64) *Sequence {
	s := &Sequence{make([]digits, dimensions)}
	for i, base := range primes(dimensions) {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		d := digits{base: base}
		step := 1.0
		for step > finest {
			step /= float64(base)
			values := make([]float64, base)
			for digit, to := range r.Perm(base) {
				values[digit] = float64(to) * step
			}
			d.values = append(d.values, values)
		}
		d.zeros = make([]float64, len(d.values)+1)
		d.zeros[len(d.values)] = step * (0.25 + 0.5*r.Float64()) // never at an end
		for k := len(d.values) - 1; k >= 0; k-- {
			d.zeros[k] = d.values[k][0] + d.zeros[k+1]
		}
		s.dimensions[i] = d
	}
	return s
}

// Dimensions is how many numbers a point has.
func (s *Sequence) Dimensions() int { return len(s.dimensions) }

// At gives point n, from 0, one number for each dimension: above 0 and below 1.
func (s *Sequence) At(n int, point []float64) {
	for i := range s.dimensions {
		d := &s.dimensions[i]
		sum, k := 0.0, 0
		for rest := n; rest > 0 && k < len(d.values); k++ {
			sum += d.values[k][rest%d.base]
			rest /= d.base
		}
		point[i] = sum + d.zeros[k]
	}
}

// primes are the first n.
func primes(n int) []int {
	out := make([]int, 0, n)
	for p := 2; len(out) < n; p++ {
		prime := true
		for _, q := range out {
			if q*q > p {
				break
			}
			if p%q == 0 {
				prime = false
				break
			}
		}
		if prime {
			out = append(out, p)
		}
	}
	return out
}
