package field

import (
	"math"

	"pullline/rigging/plan/text"
)

// A Range is what a number is accepted from and to. Ranges are wide on purpose:
// beyond one lies what no tree, rope or machine has, not what is unusual.
type Range struct {
	Min, Max float64
	Unit     string
	Above    bool // Min itself is not accepted
	Whole    bool // only whole numbers
}

// Holds says whether a number is accepted.
func (s Range) Holds(v float64) bool {
	return v <= s.Max && (v > s.Min || (!s.Above && v == s.Min)) && (!s.Whole || v == math.Trunc(v))
}

// Within is the same range with other ends.
func (s Range) Within(min, max float64) Range {
	s.Min, s.Max = min, max
	return s
}

// Sentence is the key of a sentence about the range: that of the ends as they
// are, "….above" or "….whole".
func (s Range) Sentence(about string) string {
	switch {
	case s.Whole:
		return about + ".whole"
	case s.Above:
		return about + ".above"
	}
	return about
}

// Least and Most are its ends, as a sentence has them: from 2 to 130 m.
func (s Range) Least() text.Number { return text.Number{Value: s.Min, Unit: s.Unit, Round: text.Least} }
func (s Range) Most() text.Amount  { return text.Amount{Value: s.Max, Unit: s.Unit, Round: text.Most} }
