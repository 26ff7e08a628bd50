package screen

import (
	"fmt"

	"pullline/rigging/plan"
)

var unitNames = []keyed[dimension]{
	{"m", metres}, {"cm", centis}, {"°", degrees}, {"kN", kilonewt}, {"t", tonneSWL}, {"kg", kilograms},
	{"kg/m³", perVolume}, {"MPa", megapasc}, {"m²", areaM2}, {"m/s", speed}, {"kg/m", perLength}, {"N·m/kg", turning},
}

// unitOf is the dimension of a unit as the plan's sentences name it.
func unitOf(name string) (dimension, bool) { return under(unitNames, name) }

// reword writes the report's problems, reasons and cautions in the user's units.
func (s *unitSystem) reword(rep *plan.Report) {
	for i := range rep.Problems {
		p := &rep.Problems[i]
		p.Message = s.sentence(p.Format, p.Args, p.Message)
	}
	for i := range rep.Why {
		y := &rep.Why[i]
		y.Message = s.sentence(y.Format, y.Args, y.Message)
	}
	for i := range rep.Cautions {
		c := &rep.Cautions[i]
		c.Message = s.sentence(c.Format, c.Args, c.Message)
	}
}

// sentence writes a problem's or a caution's message in the user's units.
func (s *unitSystem) sentence(format string, args []any, plainText string) string {
	if format == "" {
		return plainText
	}
	own := make([]any, len(args))
	for i, a := range args {
		switch v := a.(type) {
		case plan.Amount:
			own[i] = s.amount(v)
		case plan.Range:
			dim, _ := unitOf(v.Unit)
			own[i] = v.Text(s.bound(v.Min, dim, upward), s.bound(v.Max, dim, downward)+s.unit(dim))
		default:
			own[i] = a
		}
	}
	return fmt.Sprintf(format, own...)
}

func (s *unitSystem) amount(a plan.Amount) string {
	dim, known := unitOf(a.Unit)
	switch {
	case !known:
		return a.String()
	case a.Round == plan.Up:
		return s.quantity(a.Value, dim, upward)
	case a.Round == plan.Down:
		return s.quantity(a.Value, dim, downward)
	}
	return s.field(a.Value, dim, nearest) + s.unit(dim)
}

// bound writes an end of a range so that what is written is itself accepted.
func (s *unitSystem) bound(v float64, dim dimension, way direction) string {
	return s.field(v, dim, way)
}
