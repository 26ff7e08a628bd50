package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"pullline/rigging"
)

// size is a unit of the working in SI.
func size(unit string) float64 {
	switch unit {
	case "kN", "kN·m", "kPa":
		return 1000
	case "MPa":
		return 1e6
	case "°":
		return math.Pi / 180
	}
	return 1
}

// A formula reads a formula as it is printed and works it out. It knows no
// more of the model than a reader with a pocket calculator.
type formula struct {
	text   []rune
	at     int
	values map[string][]float64 // SI; several where a symbol stands for several
	group  int                  // which of them counts, inside a sum
}

func (f *formula) skip() {
	for f.at < len(f.text) && f.text[f.at] == ' ' {
		f.at++
	}
}

func (f *formula) take(s string) bool {
	f.skip()
	r := []rune(s)
	if f.at+len(r) > len(f.text) || string(f.text[f.at:f.at+len(r)]) != s {
		return false
	}
	f.at += len(r)
	return true
}

func (f *formula) sum() float64 {
	v := f.product()
	for {
		switch {
		case f.take("+"):
			v += f.product()
		case f.take("−"):
			v -= f.product()
		default:
			return v
		}
	}
}

func (f *formula) product() float64 {
	v := f.power()
	for {
		switch {
		case f.take("·"):
			v *= f.power()
		case f.take("/"):
			v /= f.power()
		default:
			return v
		}
	}
}

func (f *formula) power() float64 {
	v := f.factor()
	switch {
	case f.take("²"):
		return v * v
	case f.take("³"):
		return v * v * v
	case f.take("^("):
		return math.Pow(v, f.inner(")"))
	}
	return v
}

func (f *formula) inner(end string) float64 {
	v := f.sum()
	if !f.take(end) {
		panic("no " + end + " in " + string(f.text) + " at " + string(f.text[f.at:]))
	}
	return v
}

func (f *formula) factor() float64 {
	switch {
	case f.take("−"):
		return -f.power()
	case f.take("("):
		return f.inner(")")
	case f.take("|"):
		return math.Abs(f.inner("|"))
	case f.take("√("):
		return math.Sqrt(f.inner(")"))
	case f.take("½"):
		return 0.5
	case f.take("π"):
		return math.Pi
	case f.take("sin "), f.take("sin"):
		return math.Sin(f.factor())
	case f.take("cos "), f.take("cos"):
		return math.Cos(f.factor())
	case f.take("tan("):
		return math.Tan(f.inner(")"))
	case f.take("arctan "):
		return math.Atan(f.factor())
	case f.take("atan2("):
		y := f.inner(",")
		return math.Atan2(y, f.inner(")"))
	case f.take("acos("):
		return math.Acos(f.inner(")"))
	case f.take("max("):
		a := f.inner(",")
		return math.Max(a, f.inner(")"))
	case f.take("min("):
		a := f.inner(",")
		return math.Min(a, f.inner(")"))
	case f.take("Σ"):
		start, total := f.at, 0.0
		n := 0
		for _, v := range f.values {
			n = max(n, len(v))
		}
		for f.group = range n {
			f.at = start
			total += f.product()
		}
		f.group = 0
		return total
	}
	f.skip()
	from := f.at
	for f.at < len(f.text) && unicode.IsDigit(f.text[f.at]) && f.text[f.at] < 0x80 {
		f.at++
	}
	if f.at > from {
		v, _ := strconv.ParseFloat(string(f.text[from:f.at]), 64)
		return v
	}
	name := f.symbol()
	v, ok := f.values[name]
	if !ok {
		panic(fmt.Sprintf("%q is not explained in %s", name, string(f.text)))
	}
	return v[min(f.group, len(v)-1)]
}

// symbol reads a letter with its marks and index.
func (f *formula) symbol() string {
	f.skip()
	from := f.at
	for f.at < len(f.text) {
		c := f.text[f.at]
		if !unicode.IsLetter(c) && c != '_' && !strings.ContainsRune("₀₁₂₃₄₅₆₇₈₉\u0304", c) {
			break
		}
		f.at++
	}
	return string(f.text[from:f.at])
}

// evaluate works a printed formula out from the values beside it, in SI.
func evaluate(text string, values []WorkingValue) float64 {
	f := formula{values: map[string][]float64{}}
	for _, v := range values {
		f.values[v.Symbol] = append(f.values[v.Symbol], float64(v.Value)*size(v.Unit))
	}
	parts := strings.Split(text, ", ")
	if strings.Contains(text, "max(") || strings.Contains(text, "min(") || strings.Contains(text, "atan2(") {
		parts = []string{text}
	}
	var v float64
	for i := len(parts) - 1; i >= 0; i-- {
		left, right, ok := strings.Cut(parts[i], " = ")
		if !ok {
			panic("no result in " + parts[i])
		}
		f.text, f.at = []rune(right), 0
		v = f.sum()
		if f.skip(); f.at < len(f.text) {
			panic("not read: " + string(f.text[f.at:]))
		}
		f.values[left] = []float64{v}
	}
	return v
}

// inWords are the formulas that no pocket calculator works out as they stand.
func inWords(w *Working) (float64, bool) {
	value := func(symbol string) float64 {
		for _, v := range w.Values {
			if v.Symbol == symbol {
				return float64(v.Value) * size(v.Unit)
			}
		}
		panic(symbol + " is not explained in " + w.Formula)
	}
	sum := func(from int) (total float64) {
		for k := from; k < from+int(value("n")); k++ {
			total += math.Pow(value("η"), float64(k))
		}
		return total
	}
	switch {
	case w.Formula == "as measured":
		return float64(w.Result) * size(w.Unit), true
	case w.Formula == stepFixed.formula:
		return sum(1), true
	case w.Formula == stepMoving.formula:
		return sum(0), true
	case w.Formula == stepJunction.formula:
		most := 0.0
		for _, v := range w.Values {
			most = math.Max(most, float64(v.Value))
		}
		return most, true
	case w.Formula == stepCommit.formula:
		return value("φ_c"), value("M_g")+value("M_s")-value("Mₕ")-value("M_w") > -1 // N·m: the turn is found to 1e-9 rad
	case w.Formula == stepLegs.formula:
		return float64(w.Result) * size(w.Unit), math.Abs(evaluate("R = Σ B·cos α", w.Values)-value("R")) < 1e-6*value("R")
	case w.Formula == stepSectionVolume.formula:
		return float64(w.Result) * size(w.Unit), true // a sum over what was measured, tested where it is made
	case w.Formula == stepLimitSought.formula: // where it stands, proportion misses; that it holds is tested where it is sought
		return float64(w.Result) * size(w.Unit), math.Abs(float64(w.Result)*rigging.KN-value("S_m")/value("u_m")) > 1e-9*float64(w.Result)*rigging.KN
	}
	return math.NaN(), false
}
