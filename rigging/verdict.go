package rigging

import "math"

// A Verdict says how a load stands against what carries it. Its zero value
// is Unknown: a verdict nobody worked out never reassures.
type Verdict int

// The verdicts in the order in which one outranks another when a plan takes
// its worst: over outranks unknown, unknown outranks near.
const (
	Unknown Verdict = iota // something needed is missing or not finite
	Within                 // use up to NearFrom
	Near                   // use above NearFrom, up to 1
	Over                   // use above 1
)

// NearFrom is the use (load ÷ capacity) above which a piece is no longer
// within but near its limit.
const NearFrom = 0.8

// String gives the word the report uses.
func (v Verdict) String() string {
	switch v {
	case Within:
		return "within"
	case Near:
		return "near"
	case Over:
		return "over"
	}
	return "unknown"
}

// MarshalText writes the report's word.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// UnmarshalText reads the report's word; any other text is Unknown.
func (v *Verdict) UnmarshalText(text []byte) error {
	*v = Unknown
	for _, w := range []Verdict{Within, Near, Over} {
		if w.String() == string(text) {
			*v = w
		}
	}
	return nil
}

func (v Verdict) rank() int {
	switch v {
	case Within:
		return 0
	case Near:
		return 1
	case Over:
		return 3
	}
	return 2
}

// Worse returns the worse of two verdicts.
func (v Verdict) Worse(w Verdict) Verdict {
	if w.rank() > v.rank() {
		return w
	}
	return v
}

// Use is load ÷ capacity, and NaN where either is not finite or negative.
// A load on something that holds nothing has an infinite use.
func Use(load, capacity float64) float64 {
	if !(load >= 0) || math.IsInf(load, 0) || math.IsNaN(capacity) || math.IsInf(capacity, 0) {
		return math.NaN()
	}
	if capacity <= 0 {
		if load == 0 {
			return math.NaN()
		}
		return math.Inf(1)
	}
	return load / capacity
}

// Judge gives the verdict on a load against a capacity, both in the same
// unit. Anything missing (NaN), negative or not finite is Unknown; a load on
// a capacity of nothing is Over.
func Judge(load, capacity float64) Verdict {
	use := Use(load, capacity)
	switch {
	case math.IsNaN(use):
		return Unknown
	case use > 1:
		return Over
	case use > NearFrom:
		return Near
	}
	return Within
}
