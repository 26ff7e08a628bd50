package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// kilonewtons is a load, or whatever else must not be understated.
func kilonewtons(newtons float64) text.Amount {
	return text.Amount{Value: newtons / rigging.KN, Unit: "kN", Round: text.Up}
}

// heldKilonewtons is a capacity, or whatever else must not be overstated.
func heldKilonewtons(newtons float64) text.Amount {
	return text.Amount{Value: newtons / rigging.KN, Unit: "kN", Round: text.Down}
}

// givenKilonewtons is a force that the plan gives.
func givenKilonewtons(newtons float64) text.Amount {
	return text.Amount{Value: newtons / rigging.KN, Unit: "kN"}
}

func metres(v float64, way text.Rounding) text.Amount {
	return text.Amount{Value: v, Unit: "m", Round: way}
}

func centimetres(metres float64, way text.Rounding) text.Amount {
	return text.Amount{Value: metres / rigging.CM, Unit: "cm", Round: way}
}

func degrees(rad float64) text.Amount { return text.Amount{Value: rad / rigging.Deg, Unit: "°"} }
func degreesUp(rad float64) text.Amount {
	return text.Amount{Value: rad / rigging.Deg, Unit: "°", Round: text.Up}
}

// tenth is a turn (rad) to a tenth of a degree.
func tenth(rad float64) text.Amount {
	return text.Amount{Value: math.Round(rad/rigging.Deg*10) / 10, Unit: "°"}
}

// plain is a number without a unit.
func plain(v float64) text.Amount { return text.Amount{Value: v} }

func quote(name string) text.Name { return text.Name(name) }

func round(v float64) float64 { return text.Round(v) }
