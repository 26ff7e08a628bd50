package plan

import (
	"math"
	"strconv"
)

// A Rounding says which way a number in a sentence may differ from the
// computed one.
type Rounding int

// Loads are written upward, what can be relied on downward.
const (
	Nearest Rounding = iota
	Up
	Down
)

// An Amount is a number with its unit inside the sentence of a problem or a
// caution, so that the page can write it in the user's unit. String writes
// it in the unit of the plan.
type Amount struct {
	Value float64
	Unit  string // m, cm, kN, °, …, as the plan's field names end
	Round Rounding
}

// A number that is none is written as a dash.
func (a Amount) String() string {
	if math.IsNaN(a.Value) || math.IsInf(a.Value, 0) {
		return "–"
	}
	text := short(a.rounded())
	switch a.Unit {
	case "", "°":
		return text + a.Unit
	}
	return text + " " + a.Unit
}

// rounded keeps four significant digits of a load or capacity.
func (a Amount) rounded() float64 {
	if a.Value == 0 || math.IsNaN(a.Value) || math.IsInf(a.Value, 0) || a.Round == Nearest {
		return round(a.Value)
	}
	scale := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(a.Value))))
	if math.IsInf(scale, 0) || math.IsInf(a.Value*scale, 0) { // smaller or greater than anything a person would write
		return a.Value
	}
	// What is left after a dozen digits is the noise of the computation.
	const slack = 1e-12
	if a.Round == Up {
		return math.Ceil(a.Value*scale*(1-slack)) / scale
	}
	return math.Floor(a.Value*scale*(1+slack)) / scale
}

// A Range is what a number of the plan is accepted from and to.
type Range struct {
	Min, Max float64
	Above    bool // Min itself is not accepted
	Unit     string
	Whole    bool
}

// Kind is what the range asks for in words.
func (s Range) Kind() string {
	if s.Whole {
		return "a whole number"
	}
	return "a number"
}

func (s Range) String() string { return s.Text(short(s.Min), Amount{s.Max, s.Unit, Nearest}.String()) }

// Text writes the range with its ends already written.
func (s Range) Text(min, max string) string {
	if s.Above {
		return s.Kind() + " above " + min + ", up to " + max
	}
	return s.Kind() + " from " + min + " to " + max
}

func (s Range) holds(v float64) bool {
	return v <= s.Max && (v > s.Min || (!s.Above && v == s.Min)) && (!s.Whole || v == math.Trunc(v))
}

// round keeps six significant digits, so that a number reads as a person
// would write it.
func round(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	scale := math.Pow(10, 5-math.Floor(math.Log10(math.Abs(v))))
	if math.IsInf(scale, 0) || math.IsInf(v*scale, 0) { // smaller or greater than anything a person would write
		return v
	}
	return math.Round(v*scale) / scale
}

func short(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
