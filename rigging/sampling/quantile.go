package sampling

import (
	"math"
	"slices"
)

// A Spread is what came out of many draws.
type Spread struct {
	values []float64
	sorted bool
}

// Add takes one more in. +Inf is more than any number.
func (s *Spread) Add(v float64) {
	s.values = append(s.values, v)
	s.sorted = false
}

// Len is how many there are.
func (s *Spread) Len() int { return len(s.values) }

// Quantile is the smallest value that a part p (above 0, up to 1) of them do not
// exceed, NaN where there is none: one of the values themselves, so that one of many
// that is infinite leaves the rest as they are.
func (s *Spread) Quantile(p float64) float64 {
	if len(s.values) == 0 {
		return math.NaN()
	}
	if !s.sorted {
		slices.Sort(s.values)
		s.sorted = true
	}
	at := int(math.Ceil(p*float64(len(s.values))-1e-9)) - 1
	return s.values[max(0, min(at, len(s.values)-1))]
}

// Above is the part of them (0 to 1) that is more than a limit.
func (s *Spread) Above(limit float64) float64 {
	n := 0
	for _, v := range s.values {
		if v > limit {
			n++
		}
	}
	return float64(n) / float64(max(1, len(s.values)))
}
