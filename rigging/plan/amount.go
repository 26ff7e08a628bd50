package plan

import (
	"math"
	"strconv"

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

// A Range is what a number of the plan is accepted from and to.
type Range struct {
	Min, Max float64
	Above    bool // Min itself is not accepted
	Unit     string
	Whole    bool
}

func (s Range) holds(v float64) bool {
	return v <= s.Max && (v > s.Min || (!s.Above && v == s.Min)) && (!s.Whole || v == math.Trunc(v))
}

// key is that of a sentence about the range.
func (s Range) key(about string) string {
	switch {
	case s.Whole:
		return about + ".whole"
	case s.Above:
		return about + ".above"
	}
	return about
}

// least and most are its ends, as a sentence has them: from 2 to 130 m.
func (s Range) least() text.Number { return text.Number{Value: s.Min, Unit: s.Unit, Round: text.Least} }
func (s Range) most() text.Amount  { return text.Amount{Value: s.Max, Unit: s.Unit, Round: text.Most} }

// takes says what the range accepts.
func (s Range) takes() text.Saying { return takes(s.key("number"), s.least(), s.most()) }

func round(v float64) float64 { return text.Round(v) }

func short(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
