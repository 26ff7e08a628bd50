package words

import (
	"fmt"

	"pullline/rigging/plan"
	"pullline/wasm/keyed"
	"pullline/wasm/units"
)

var unitNames = []keyed.Row[units.Dimension]{
	{Key: "m", Value: units.Metres}, {Key: "cm", Value: units.Centimetres}, {Key: "°", Value: units.Degrees}, {Key: "kN", Value: units.Kilonewtons}, {Key: "t", Value: units.TonnesForce}, {Key: "kg", Value: units.Kilograms},
	{Key: "kg/m³", Value: units.KilogramsPerCubicMetre}, {Key: "MPa", Value: units.Megapascals}, {Key: "m²", Value: units.SquareMetres}, {Key: "m/s", Value: units.MetresPerSecond}, {Key: "kg/m", Value: units.KilogramsPerMetre}, {Key: "N·m/kg", Value: units.NewtonMetresPerKilogram},
}

// unitOf is the dimension of a unit as the plan's sentences name it.
func unitOf(name string) (units.Dimension, bool) { return keyed.Find(unitNames, name) }

// Reword writes the report's problems, reasons and cautions in the user's units.
func Reword(rep *plan.Report, u *units.System) {
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
func inUnits(u *units.System, format string, args []any, plainText string) string {
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
			own[i] = v.Text(u.Field(v.Min, dim, units.Up), u.Field(v.Max, dim, units.Down)+u.Suffix(dim))
		default:
			own[i] = a
		}
	}
	return fmt.Sprintf(format, own...)
}

func amountText(u *units.System, a plan.Amount) string {
	dim, known := unitOf(a.Unit)
	switch {
	case !known:
		return a.String()
	case a.Round == plan.Up:
		return u.Quantity(a.Value, dim, units.Up)
	case a.Round == plan.Down:
		return u.Quantity(a.Value, dim, units.Down)
	}
	return u.Field(a.Value, dim, units.Nearest) + u.Suffix(dim)
}
