package rigging

import (
	"encoding/json"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// publishedCase is one worked example of a book, a manual or a standard:
// what goes in, what is printed, and where. The digits are the book's own
// when Origin is "book" or "manual"; "companion" means those of an open
// companion to that book.
type publishedCase struct {
	ID         string                   `json:"id"`
	Topic      string                   `json:"topic"`
	Inputs     map[string]publishedGive `json:"inputs"`
	Answers    map[string]printedAnswer `json:"answers"`
	Source     string                   `json:"source"`
	Origin     string                   `json:"answer_origin"`
	FromMemory bool                     `json:"from_memory"`
	Note       string                   `json:"note"`

	t *testing.T
}

// publishedGive is a given quantity: a number, a list of numbers, or words.
type publishedGive struct {
	Value json.RawMessage `json:"value"`
	Unit  string          `json:"unit"`
}

// printedAnswer is an answer as printed.
type printedAnswer struct {
	Value   float64 `json:"value"`
	Unit    string  `json:"unit"`
	Printed string  `json:"printed"`
}

var publishedExamples = sync.OnceValues(func() (map[string]publishedCase, error) {
	text, err := os.ReadFile("../testdata/published/examples.json")
	if err != nil {
		return nil, err
	}
	var list []publishedCase
	if err := json.Unmarshal(text, &list); err != nil {
		return nil, err
	}
	cases := make(map[string]publishedCase, len(list))
	for _, c := range list {
		cases[c.ID] = c
	}
	return cases, nil
})

// publishedExample is the worked example of that id; a missing one fails the test.
func publishedExample(t *testing.T, id string) publishedCase {
	t.Helper()
	cases, err := publishedExamples()
	require.NoError(t, err)
	c, ok := cases[id]
	require.True(t, ok, "no published example %q", id)
	c.t = t
	return c
}

// In is a given number, in the unit it is printed in.
func (c publishedCase) In(name string) float64 {
	c.t.Helper()
	var v float64
	c.read(name, &v)
	return v
}

// InSI is a given number in SI.
func (c publishedCase) InSI(name string) float64 {
	c.t.Helper()
	return c.In(name) * publishedUnit(c.t, c.Inputs[name].Unit)
}

// InList is a given list of numbers, in the unit it is printed in.
func (c publishedCase) InList(name string) []float64 {
	c.t.Helper()
	var v []float64
	c.read(name, &v)
	return v
}

// InListSI is a given list of numbers in SI.
func (c publishedCase) InListSI(name string) []float64 {
	c.t.Helper()
	list := c.InList(name)
	for i := range list {
		list[i] *= publishedUnit(c.t, c.Inputs[name].Unit)
	}
	return list
}

// InVec is a given triple as a vector in SI.
func (c publishedCase) InVec(name string) Vec {
	c.t.Helper()
	list := c.InListSI(name)
	require.Len(c.t, list, 3, "%s: %s", c.ID, name)
	return Vec{list[0], list[1], list[2]}
}

func (c publishedCase) read(name string, into any) {
	c.t.Helper()
	given, ok := c.Inputs[name]
	require.True(c.t, ok, "%s has no input %q", c.ID, name)
	require.NoError(c.t, json.Unmarshal(given.Value, into), "%s: %s", c.ID, name)
}

// Answer is a printed answer.
func (c publishedCase) Answer(name string) printedAnswer {
	c.t.Helper()
	a, ok := c.Answers[name]
	require.True(c.t, ok, "%s has no answer %q", c.ID, name)
	return a
}

// AnswerSI is a printed answer's value in SI.
func (c publishedCase) AnswerSI(name string) float64 {
	c.t.Helper()
	a := c.Answer(name)
	return a.Value * publishedUnit(c.t, a.Unit)
}

// assertPrinted checks a value in SI (or, for an answer in a unit that has
// no SI measure here, in that unit) against the printed digits: it must
// round to them, that is, lie within half a unit of their last place.
func assertPrinted(t *testing.T, c publishedCase, name string, got float64) {
	t.Helper()
	a := c.Answer(name)
	unit := publishedUnit(t, a.Unit)
	// The slack of 1e-9 lets a value stand that lies on the half itself.
	assert.InDelta(t, a.Value, got/unit, lastPlace(a)/2+1e-9*math.Abs(a.Value),
		"%s: %s, printed %s %s, %s", c.ID, name, a.Printed, a.Unit, c.Source)
}

// assertPrintedWithin is assertPrinted for an answer whose printed digits are
// known to be off: rel is the relative difference allowed, why says what the
// book did.
func assertPrintedWithin(t *testing.T, c publishedCase, name string, got, rel float64, why string) {
	t.Helper()
	require.NotEmpty(t, why)
	a := c.Answer(name)
	assert.InEpsilon(t, a.Value, got/publishedUnit(t, a.Unit), rel,
		"%s: %s, printed %s %s (%s), %s", c.ID, name, a.Printed, a.Unit, why, c.Source)
}

// lastPlace is the worth of the last printed digit: 0.1 for "97.5", 1 for
// "3,930", 1e7 for "1.8x10^8". Words and fractions count as exact to 1e-6.
func lastPlace(a printedAnswer) float64 {
	mantissa, power, scientific := strings.Cut(strings.ReplaceAll(a.Printed, ",", ""), "x10^")
	if _, err := strconv.ParseFloat(mantissa, 64); err != nil {
		return 2e-6 * math.Abs(a.Value)
	}
	exponent := 0
	if scientific {
		exponent, _ = strconv.Atoi(power)
	}
	if _, decimals, ok := strings.Cut(mantissa, "."); ok {
		exponent -= len(decimals)
	}
	return math.Pow(10, float64(exponent))
}

// publishedUnit is the worth in SI of a printed unit; pounds, tons and
// kilogram-force are forces only where the name says so, so "lb" and "ton"
// stay as they are (their examples are proportions). A unit without a worth
// here counts as 1.
func publishedUnit(t *testing.T, unit string) float64 {
	t.Helper()
	switch unit {
	case "deg":
		return Deg
	case "m", "N", "kg", "Pa", "N m", "J", "N/m", "kg/m", "m/s", "m/s^2", "m^3", "kg m^2":
		return 1
	case "cm":
		return CM
	case "mm":
		return MM
	case "cm^2":
		return CM * CM
	case "in":
		return Inch
	case "ft":
		return Foot
	case "ft^2":
		return Foot * Foot
	case "ft^3":
		return Foot * Foot * Foot
	case "kN":
		return KN
	case "kN m":
		return KNm
	case "kW":
		return 1000
	case "g":
		return 1e-3
	case "kgf":
		return G
	case "kgf/m":
		return G
	case "%":
		return 0.01
	default:
		return 1
	}
}

// Sources name works: what a reader can look up wherever the work is kept.
var aPlaceNotAWork = regexp.MustCompile(`(?i)\brepo\b|@[0-9a-f]{6}|\bfs-id|\.(com|org|net|edu|html?|ipynb|ptx|sce|md)\b|notebook|stored|\bscan\b|\bonline\b`)

func TestPublishedExamplesAreComplete(t *testing.T) {
	cases, err := publishedExamples()
	require.NoError(t, err)
	require.NotEmpty(t, cases)
	for id, c := range cases {
		assert.NotEmpty(t, c.Source, id)
		assert.NotRegexp(t, aPlaceNotAWork, c.Source+c.Note, id)
		assert.NotEmpty(t, c.Topic, id)
		assert.NotEmpty(t, c.Inputs, id)
		assert.NotEmpty(t, c.Answers, id)
		for name, a := range c.Answers {
			assert.NotEmpty(t, a.Printed, "%s: %s", id, name)
			mantissa, _, scientific := strings.Cut(strings.ReplaceAll(a.Printed, ",", ""), "x10^")
			if v, err := strconv.ParseFloat(mantissa, 64); err == nil && !scientific {
				assert.InDelta(t, v, a.Value, lastPlace(a)/2, "%s: %s", id, name)
			}
		}
	}
}
