package units

import (
	"math"
	"strings"

	"pullline/rigging"
)

// A Dimension is what a number measures together with the unit the plan
// keeps it in (the unit its field name ends in). The unit systems differ in
// the unit it is shown and typed in.
type Dimension int

// The dimensions, each with the ending of its fields in the plan.
const (
	Plain                   Dimension = iota // a factor without unit
	Count                                    // a whole number
	Metres                                   // _m
	Centimetres                              // _cm
	Degrees                                  // _deg
	Kilonewtons                              // _kN
	TonnesForce                              // _t: tonnes-force stamped on a tag; shown as tonnes in every system
	Kilograms                                // _kg
	KilogramsPerCubicMetre                   // _kgm3
	Megapascals                              // _MPa
	SquareMetres                             // _m2
	MetresPerSecond                          // _mps
	KilogramsPerMetre                        // _kgpm
	NewtonMetresPerKilogram                  // _Nm_per_kg
	KilonewtonMetres                         // _kNm
	CubicMetres                              // _m3
	Kilojoules                               // _kJ
	Percents                                 // a share, in percent
	Dimensions                               // how many there are
)

// A Unit is a unit numbers are shown in: value in the file's unit =
// value shown × size.
type Unit struct {
	Name string
	Size float64
	Step float64 // finest step in which a load or capacity is shown
}

// A System is one of the user's choices of units.
type System struct {
	Key   string
	Units [Dimensions]Unit
}

// The systems. Kilonewtons shows each number in the unit it is kept in; the
// others name only what differs.
var (
	KN = System{Key: "kN", Units: [Dimensions]Unit{
		Plain:                   {"", 1, 0.01},
		Count:                   {"", 1, 1},
		Metres:                  {"m", 1, 0.1},
		Centimetres:             {"cm", 1, 0.1},
		Degrees:                 {"°", 1, 0.1},
		Kilonewtons:             {"kN", 1, 0.1},
		TonnesForce:             {"t", 1, 0.01},
		Kilograms:               {"kg", 1, 1},
		KilogramsPerCubicMetre:  {"kg/m³", 1, 1},
		Megapascals:             {"MPa", 1, 0.1},
		SquareMetres:            {"m²", 1, 0.1},
		MetresPerSecond:         {"m/s", 1, 0.1},
		KilogramsPerMetre:       {"kg/m", 1, 0.01},
		NewtonMetresPerKilogram: {"N·m/kg", 1, 0.1},
		KilonewtonMetres:        {"kN·m", 1, 0.1},
		CubicMetres:             {"m³", 1, 0.01},
		Kilojoules:              {"kJ", 1, 0.1},
		Percents:                {"%", 1, 1},
	}}
	TF = System{Key: "tf", Units: [Dimensions]Unit{
		Kilonewtons:      {"tf", rigging.TonneForce / rigging.KN, 0.01},
		KilonewtonMetres: {"tf·m", rigging.TonneForce / rigging.KNm, 0.01},
	}}
	US = System{Key: "us", Units: [Dimensions]Unit{
		Metres:                  {"ft", rigging.Foot, 1},
		Centimetres:             {"in", rigging.Inch / rigging.CM, 0.1},
		Kilonewtons:             {"lbf", rigging.PoundForce / rigging.KN, 10},
		Kilograms:               {"lb", rigging.Pound, 1},
		KilogramsPerCubicMetre:  {"lb/ft³", rigging.Pound / (rigging.Foot * rigging.Foot * rigging.Foot), 0.1},
		Megapascals:             {"psi", rigging.PoundForce / (rigging.Inch * rigging.Inch) / rigging.MPa, 1},
		SquareMetres:            {"ft²", rigging.Foot * rigging.Foot, 1},
		MetresPerSecond:         {"mph", mile / hour, 0.1},
		KilogramsPerMetre:       {"lb/ft", rigging.Pound / rigging.Foot, 0.01},
		NewtonMetresPerKilogram: {"ft·lbf/lb", footPound / rigging.Pound, 0.1},
		KilonewtonMetres:        {"ft·lbf", footPound / rigging.KNm, 10},
		CubicMetres:             {"ft³", rigging.Foot * rigging.Foot * rigging.Foot, 1},
		Kilojoules:              {"ft·lbf", footPound / 1000, 10},
	}}
)

// DimensionOf is the dimension of a unit as the plan names it: "kg/m³". It is Plain
// for none, and for a unit that nothing is kept in.
func DimensionOf(unit string) Dimension {
	for dim := range KN.Units {
		if KN.Units[dim].Name == unit {
			return Dimension(dim)
		}
	}
	return Plain
}

// Systems are those there are to choose from, the usual one first.
var Systems = [...]*System{&KN, &TF, &US}

// Exact is the system with its forces, lengths and the like shown to three
// digits also where they are small, so that a working can be followed with
// the numbers it shows.
func (s *System) Exact() *System {
	out := *s
	for _, dim := range [...]Dimension{Metres, Centimetres, Kilonewtons, Megapascals, Kilograms, KilogramsPerMetre, KilonewtonMetres, Kilojoules} {
		out.Units[dim].Step /= 100
	}
	return &out
}

const (
	mile      = 5280 * rigging.Foot               // m, exact (international mile)
	hour      = 3600.0                            // s
	footPound = rigging.Foot * rigging.PoundForce // N·m
)

// Whatever a system has no unit of its own for is shown as it is kept.
func init() {
	for _, s := range []*System{&TF, &US} {
		for i := range s.Units {
			if s.Units[i].Size == 0 {
				s.Units[i] = KN.Units[i]
			}
		}
	}
}

// Of finds the system of a settings key; anything unknown is kN.
func Of(key string) *System {
	switch key {
	case TF.Key:
		return &TF
	case US.Key:
		return &US
	}
	return &KN
}

// A converted number keeps FileDigits in the plan, and is read back to
// ShownDigits: three fewer, so that it is the very number typed that is read
// back, while 10 ft are still 3.048 m in the file.
const (
	FileDigits  = 15
	ShownDigits = 12
)

// ToFile turns a number typed in the unit u into the file's unit. A number
// typed in the file's own unit is not touched.
func (u Unit) ToFile(shown float64) float64 {
	if u.Size == 1 {
		return shown
	}
	return RoundDigits(shown*u.Size, FileDigits)
}

// Figure writes a quantity of the file's unit in the user's to three digits,
// however small, with its unit: for sums done by hand, not for loads that
// decide anything.
func (s *System) Figure(v float64, dim Dimension) string {
	return Significant(v/s.Units[dim].Size, 3) + s.Suffix(dim)
}

// Field writes a number of the plan for its input box in the user's unit:
// all its digits where it was typed in that unit, else six of them. way
// tells where the seventh goes.
func (s *System) Field(v float64, dim Dimension, way Direction) string {
	u := s.Units[dim]
	if u.Size == 1 {
		return Decimal(v, -1)
	}
	shown := RoundDigits(v/u.Size, ShownDigits)
	if text := Decimal(shown, -1); len(strings.Trim(text, "-0.")) <= 10 &&
		RoundDigits(u.ToFile(shown), FileDigits-1) == RoundDigits(v, FileDigits-1) {
		return text
	}
	return Decimal(Round(shown, DigitStep(shown, 6), way), -1)
}

// Number writes a quantity of the file's unit in the user's, to three
// significant digits but no finer than the unit's step, without its unit.
func (s *System) Number(v float64, dim Dimension, way Direction) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return None
	}
	u := s.Units[dim]
	shown := v / u.Size
	if math.Abs(shown) >= outOfAll {
		return None
	}
	if shown == 0 {
		return "0"
	}
	step := math.Max(u.Step, DigitStep(RoundDigits(shown, ShownDigits), 3))
	shown = Round(shown, step, way)
	decimals := 0
	for p := step; p < 0.999 && decimals < 6; p *= 10 {
		decimals++
	}
	return Grouped(Decimal(shown, decimals))
}

// Quantity writes a number with its unit, "–" if it is not known.
func (s *System) Quantity(v float64, dim Dimension, way Direction) string {
	text := s.Number(v, dim, way)
	if text == None {
		return text
	}
	return text + s.Suffix(dim)
}

// Suffix is a unit ready to follow a number: with a no-break space, but for
// the degree sign.
func (s *System) Suffix(dim Dimension) string {
	switch name := s.Units[dim].Name; name {
	case "", "°":
		return name
	default:
		return "\u00a0" + name
	}
}

// Load writes a force in kN that has to be held: never less than it is.
func (s *System) Load(kN float64) string { return s.Quantity(kN, Kilonewtons, Up) }

// Capacity writes a force in kN that can be relied on: never more than it is.
func (s *System) Capacity(kN float64) string { return s.Quantity(kN, Kilonewtons, Down) }
