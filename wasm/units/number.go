package units

import (
	"math"
	"strconv"
	"strings"
)

// None is shown for a number nobody knows: never a nought.
const None = "–"

// outOfAll is where no quantity of a pull can lie, in any unit; its digits would
// only fill the screen.
const outOfAll = 1e15

// RoundDigits rounds to n significant digits.
func RoundDigits(v float64, n int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', n-1, 64), 64)
	if err != nil {
		return v
	}
	return r
}

// A Direction says which way a shown number may differ from the computed one.
type Direction int

// The directions a number is rounded in.
const (
	Nearest Direction = iota
	Up                // away from nought: loads, tensions, uses, what must be paid for
	Down              // toward less: capacities and margins
)

// DigitStep is the value of one in the nth significant digit of v.
func DigitStep(v float64, n int) float64 {
	if v == 0 {
		return 1
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-float64(n-1))
}

// Noise is the relative difference below which a shown number counts as the
// computed one: the noise of a few dozen operations in double precision. It
// keeps 25.000000000000004 from being shown as 25.1.
const Noise = 1e-12

// Round rounds v to a multiple of step in a direction; where the multiple
// or the step is beyond what a double can hold, v stays as it is.
func Round(v, step float64, way Direction) float64 {
	if rounded := multiple(v, step, way); !math.IsNaN(rounded) && !math.IsInf(rounded, 0) {
		return rounded
	}
	return v
}

func multiple(v, step float64, way Direction) float64 {
	n := v / step
	switch way {
	case Up:
		n = math.Copysign(math.Ceil(math.Abs(n)*(1-Noise)), n)
	case Down:
		n = math.Floor(n + math.Abs(n)*Noise)
	default:
		n = math.Round(n)
	}
	if step < 1 {
		// 1/step is a whole power of ten, which n/(1/step) divides exactly
		// rounded; n*0.1 would not be.
		return n / math.Round(1/step)
	}
	return n * math.Round(step)
}

// Decimal writes a number without exponent with the given decimals (-1: as
// many as it has).
func Decimal(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return None
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// Grouped puts a thin no-break space between thousands of numbers of five
// digits and more.
func Grouped(text string) string {
	sign := ""
	if strings.HasPrefix(text, "-") {
		sign, text = "−", text[1:]
	}
	whole, frac, dot := strings.Cut(text, ".")
	if len(whole) > 4 {
		var b strings.Builder
		for i, c := range whole {
			if i > 0 && (len(whole)-i)%3 == 0 {
				b.WriteString("\u202f")
			}
			b.WriteRune(c)
		}
		whole = b.String()
	}
	if dot {
		whole += "." + frac
	}
	return sign + whole
}

// Percent writes a share as whole percent, rounded up; what is past counting as
// infinite.
func Percent(share float64) string {
	switch {
	case math.IsNaN(share):
		return None
	case math.Abs(share) >= outOfAll:
		return "∞\u00a0%"
	}
	return Grouped(Decimal(Round(share*100, 1, Up), 0)) + "\u00a0%"
}

// Significant writes a number to n significant digits, nearest, without
// trailing noughts after the point: for workings, not for loads.
func Significant(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return None
	}
	return Grouped(Decimal(RoundDigits(v, n), -1))
}

// Snap brings a number to the nearest multiple of a step.
func Snap(v, step float64) float64 {
	// Dividing by the whole number of steps in one unit gives the decimal
	// that would be typed, not 12.600000000000001.
	if n := math.Round(1 / step); step < 1 && n > 0 {
		return math.Round(v*n)/n + 0
	}
	return math.Round(v/step)*step + 0
}
