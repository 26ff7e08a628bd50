package show

import (
	"math"
	"strings"

	"pullline/rigging/plan"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Working writes the workings out. Their numbers stand in kilonewtons, metres and
// kilograms, in which the formulas hold; the results in the user's units as
// well.
func Working(l words.Locale, u *units.System, rep *plan.Report) []parts.Step {
	out := make([]parts.Step, 0, len(rep.Working))
	for i := range rep.Working {
		w := &rep.Working[i]
		s := parts.Step{Path: w.Path, Name: w.Name, Formula: w.Formula, Source: w.Source, Result: worked(l, u, w)}
		s.Values = make([]string, 0, len(w.Values))
		for k, v := range w.Values {
			line := v.Symbol + " = " + valueUnit(float64(v.Value), v.Unit, v.From) // as the step it comes from
			if v.Name != "" {
				line = l.Say("%s (%s)", line, v.Name)
			}
			s.Values = append(s.Values, line)
			if v.From != "" {
				if s.From == nil {
					s.From = make([]string, len(w.Values))
				}
				s.From[k] = v.From
			}
		}
		out = append(out, s)
	}
	return out
}

// Taken are the assumed numbers as steps: why they are taken, and whose
// figure it is.
func Taken(l words.Locale, assumed []parts.Assumed) []parts.Step {
	out := make([]parts.Step, 0, len(assumed))
	for i := range assumed {
		if a := &assumed[i]; a.Working != "" {
			out = append(out, parts.Step{Path: a.Path, Name: a.Label, Formula: l.Say("assumed: %s", a.Why), Values: []string{}, Result: a.Value, Source: a.Source})
		}
	}
	return out
}

// worked writes what a step comes to, and beside it as the page shows it
// where that is in another unit.
func worked(l words.Locale, u *units.System, w *plan.Working) string {
	v := float64(w.Result)
	text := valueUnit(v, w.Unit, w.Path)
	dim, way := units.Plain, units.WayOf(w.Path)
	switch w.Unit {
	case "kN":
		dim = units.Kilonewtons
	case "kN·m":
		dim = units.KilonewtonMetres
	case "m":
		dim = units.Metres
	case "kg":
		dim = units.Kilograms
	case "m³":
		dim = units.CubicMetres
	case "":
		if strings.HasSuffix(w.Path, "use") && draw.Finite(v) {
			text = l.Say("%s (%s)", text, l.Use(v))
		}
	}
	if u.Units[dim].Size != 1 && text != units.None {
		text = l.Say("%s (%s)", text, u.Quantity(v, dim, way))
	}
	return text
}

// valueUnit writes a number of a working with its unit, to four digits.
func valueUnit(v float64, unit, path string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return units.None
	}
	text := units.Grouped(units.Decimal(units.RoundDigits(units.Round(v, units.DigitStep(v, 4), units.WayOf(path)), units.ShownDigits), -1))
	switch unit {
	case "", "°":
		return text + unit
	}
	return text + "\u00a0" + unit
}
