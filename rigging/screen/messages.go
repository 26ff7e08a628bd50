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
func reword(rep *plan.Report, u *unitSystem) {
	for i := range rep.Problems {
		p := &rep.Problems[i]
		p.Message = inUnits(u, p.Format, p.Args, p.Message)
	}
	for i := range rep.Why {
		y := &rep.Why[i]
		y.Message = inUnits(u, y.Format, y.Args, y.Message)
	}
	for i := range rep.Cautions {
		c := &rep.Cautions[i]
		c.Message = inUnits(u, c.Format, c.Args, c.Message)
	}
}

// inUnits writes a problem's or a caution's message in the user's units.
func inUnits(u *unitSystem, format string, args []any, plainText string) string {
	if format == "" {
		return plainText
	}
	own := make([]any, len(args))
	for i, a := range args {
		switch v := a.(type) {
		case plan.Amount:
			own[i] = amountText(u, v)
		case plan.Range:
			dim, _ := unitOf(v.Unit)
			// Each end so that what is written is itself accepted.
			own[i] = v.Text(u.field(v.Min, dim, upward), u.field(v.Max, dim, downward)+u.unit(dim))
		default:
			own[i] = a
		}
	}
	return fmt.Sprintf(format, own...)
}

func amountText(u *unitSystem, a plan.Amount) string {
	dim, known := unitOf(a.Unit)
	switch {
	case !known:
		return a.String()
	case a.Round == plan.Up:
		return u.quantity(a.Value, dim, upward)
	case a.Round == plan.Down:
		return u.quantity(a.Value, dim, downward)
	}
	return u.field(a.Value, dim, nearest) + u.unit(dim)
}
