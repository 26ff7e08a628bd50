package screen

import (
	"math"
	"strconv"
	"strings"

	"pullline/rigging"
)

// A dimension is what a number measures together with the unit the plan
// keeps it in (the unit its field name ends in). The unit systems differ in
// the unit it is shown and typed in.
type dimension int

const (
	plain      dimension = iota // a factor without unit
	count                       // a whole number
	metres                      // _m
	centis                      // _cm
	degrees                     // _deg
	kilonewt                    // _kN
	tonneSWL                    // _t: tonnes-force stamped on a tag; shown as tonnes in every system
	kilograms                   // _kg
	perVolume                   // _kgm3
	megapasc                    // _MPa
	areaM2                      // _m2
	speed                       // _mps
	perLength                   // _kgpm
	turning                     // _Nm_per_kg
	moment                      // _kNm
	volume                      // _m3
	energy                      // _kJ
	percents                    // a share, in percent
	dimensions                  // how many there are
)

// A shownUnit is a unit numbers are shown in: value in the file's unit =
// value shown × size.
type shownUnit struct {
	name string
	size float64
	step float64 // finest step in which a load or capacity is shown
}

// A unitSystem is one of the user's choices of units.
type unitSystem struct {
	key   string
	label string
	units [dimensions]shownUnit
}

// The systems. Kilonewtons shows each number in the unit it is kept in; the
// others name only what differs.
var (
	systemKN = unitSystem{key: "kN", label: "Metric, kilonewtons (kN)", units: [dimensions]shownUnit{
		plain:     {"", 1, 0.01},
		count:     {"", 1, 1},
		metres:    {"m", 1, 0.1},
		centis:    {"cm", 1, 0.1},
		degrees:   {"°", 1, 0.1},
		kilonewt:  {"kN", 1, 0.1},
		tonneSWL:  {"t", 1, 0.01},
		kilograms: {"kg", 1, 1},
		perVolume: {"kg/m³", 1, 1},
		megapasc:  {"MPa", 1, 0.1},
		areaM2:    {"m²", 1, 0.1},
		speed:     {"m/s", 1, 0.1},
		perLength: {"kg/m", 1, 0.01},
		turning:   {"N·m/kg", 1, 0.1},
		moment:    {"kN·m", 1, 0.1},
		volume:    {"m³", 1, 0.01},
		energy:    {"kJ", 1, 0.1},
		percents:  {"%", 1, 1},
	}}
	systemTF = unitSystem{key: "tf", label: "Metric, tonnes-force (tf)", units: [dimensions]shownUnit{
		kilonewt: {"tf", rigging.TonneForce / rigging.KN, 0.01},
		moment:   {"tf·m", rigging.TonneForce / rigging.KNm, 0.01},
	}}
	systemUS = unitSystem{key: "us", label: "Feet, inches, pounds-force (lbf)", units: [dimensions]shownUnit{
		metres:    {"ft", rigging.Foot, 1},
		centis:    {"in", rigging.Inch / rigging.CM, 0.1},
		kilonewt:  {"lbf", rigging.PoundForce / rigging.KN, 10},
		kilograms: {"lb", rigging.Pound, 1},
		perVolume: {"lb/ft³", rigging.Pound / (rigging.Foot * rigging.Foot * rigging.Foot), 0.1},
		megapasc:  {"psi", rigging.PoundForce / (rigging.Inch * rigging.Inch) / rigging.MPa, 1},
		areaM2:    {"ft²", rigging.Foot * rigging.Foot, 1},
		speed:     {"mph", mile / hour, 0.1},
		perLength: {"lb/ft", rigging.Pound / rigging.Foot, 0.01},
		turning:   {"ft·lbf/lb", footPound / rigging.Pound, 0.1},
		moment:    {"ft·lbf", footPound / rigging.KNm, 10},
		volume:    {"ft³", rigging.Foot * rigging.Foot * rigging.Foot, 1},
		energy:    {"ft·lbf", footPound / 1000, 10},
	}}
)

// exact is the system with its forces, lengths and the like shown to three
// digits also where they are small, so that a working can be followed with
// the numbers it shows.
func (s *unitSystem) exact() *unitSystem {
	out := *s
	for _, dim := range [...]dimension{metres, centis, kilonewt, megapasc, kilograms, perLength, moment, energy} {
		out.units[dim].step /= 100
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
	for _, s := range []*unitSystem{&systemTF, &systemUS} {
		for i := range s.units {
			if s.units[i].size == 0 {
				s.units[i] = systemKN.units[i]
			}
		}
	}
}

// units finds the system of a settings key; anything unknown is kN.
func units(key string) *unitSystem {
	switch key {
	case systemTF.key:
		return &systemTF
	case systemUS.key:
		return &systemUS
	}
	return &systemKN
}

// unitOptions are the systems to choose from.
func unitOptions() []Option {
	return []Option{{systemKN.key, systemKN.label}, {systemTF.key, systemTF.label}, {systemUS.key, systemUS.label}}
}

// none is shown for a number nobody knows: never a nought.
const none = "–"

// outOfAll is where no quantity of a pull can lie, in any unit; its digits would
// only fill the screen.
const outOfAll = 1e15

// A converted number keeps fileDigits in the plan, and is read back to
// shownDigits: three fewer, so that it is the very number typed that is read
// back, while 10 ft are still 3.048 m in the file.
const (
	fileDigits  = 15
	shownDigits = 12
)

// toFile turns a number typed in the unit u into the file's unit. A number
// typed in the file's own unit is not touched.
func (u shownUnit) toFile(shown float64) float64 {
	if u.size == 1 {
		return shown
	}
	return roundDigits(shown*u.size, fileDigits)
}

// figure writes a quantity of the file's unit in the user's to three digits,
// however small, with its unit: for sums done by hand, not for loads that
// decide anything.
func (s *unitSystem) figure(v float64, dim dimension) string {
	return significant(v/s.units[dim].size, 3) + s.unit(dim)
}

// roundDigits rounds to n significant digits.
func roundDigits(v float64, n int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', n-1, 64), 64)
	if err != nil {
		return v
	}
	return r
}

// A direction says which way a shown number may differ from the computed one.
type direction int

const (
	nearest  direction = iota
	upward             // away from nought: loads, tensions, uses, what must be paid for
	downward           // toward less: capacities and margins
)

// field writes a number of the plan for its input box in the user's unit:
// all its digits where it was typed in that unit, else six of them. way
// tells where the seventh goes.
func (s *unitSystem) field(v float64, dim dimension, way direction) string {
	u := s.units[dim]
	if u.size == 1 {
		return decimal(v, -1)
	}
	shown := roundDigits(v/u.size, shownDigits)
	if text := decimal(shown, -1); len(strings.Trim(text, "-0.")) <= 10 &&
		roundDigits(u.toFile(shown), fileDigits-1) == roundDigits(v, fileDigits-1) {
		return text
	}
	return decimal(roundWay(shown, digitStep(shown, 6), way), -1)
}

// digitStep is the value of one in the nth significant digit of v.
func digitStep(v float64, n int) float64 {
	if v == 0 {
		return 1
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-float64(n-1))
}

// slack is the relative difference below which a shown number counts as the
// computed one: the noise of a few dozen operations in double precision. It
// keeps 25.000000000000004 from being shown as 25.1.
const slack = 1e-12

// roundWay rounds v to a multiple of step in a direction; where the multiple
// or the step is beyond what a double can hold, v stays as it is.
func roundWay(v, step float64, way direction) float64 {
	if rounded := multiple(v, step, way); !math.IsNaN(rounded) && !math.IsInf(rounded, 0) {
		return rounded
	}
	return v
}

func multiple(v, step float64, way direction) float64 {
	n := v / step
	switch way {
	case upward:
		n = math.Copysign(math.Ceil(math.Abs(n)*(1-slack)), n)
	case downward:
		n = math.Floor(n + math.Abs(n)*slack)
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

// decimal writes a number without exponent with the given decimals (-1: as
// many as it has).
func decimal(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return none
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// grouped puts a thin no-break space between thousands of numbers of five
// digits and more.
func grouped(text string) string {
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

// number writes a quantity of the file's unit in the user's, to three
// significant digits but no finer than the unit's step, without its unit.
func (s *unitSystem) number(v float64, dim dimension, way direction) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return none
	}
	u := s.units[dim]
	shown := v / u.size
	if math.Abs(shown) >= outOfAll {
		return none
	}
	if shown == 0 {
		return "0"
	}
	step := math.Max(u.step, digitStep(roundDigits(shown, shownDigits), 3))
	shown = roundWay(shown, step, way)
	decimals := 0
	for p := step; p < 0.999 && decimals < 6; p *= 10 {
		decimals++
	}
	return grouped(decimal(shown, decimals))
}

// quantity writes a number with its unit, "–" if it is not known.
func (s *unitSystem) quantity(v float64, dim dimension, way direction) string {
	text := s.number(v, dim, way)
	if text == none {
		return text
	}
	return text + s.unit(dim)
}

// unit is a unit ready to follow a number: with a no-break space, but for
// the degree sign.
func (s *unitSystem) unit(dim dimension) string {
	switch name := s.units[dim].name; name {
	case "", "°":
		return name
	default:
		return "\u00a0" + name
	}
}

// load writes a force in kN that has to be held: never less than it is.
func (s *unitSystem) load(kN float64) string { return s.quantity(kN, kilonewt, upward) }

// holds writes a force in kN that can be relied on: never more than it is.
func (s *unitSystem) holds(kN float64) string { return s.quantity(kN, kilonewt, downward) }

// percent writes a share as whole percent, rounded up.
func percent(share float64) string {
	switch {
	case math.IsNaN(share):
		return none
	case math.Abs(share) >= outOfAll:
		return "holds nothing"
	}
	return grouped(decimal(roundWay(share*100, 1, upward), 0)) + "\u00a0%"
}

// significant writes a number to n significant digits, nearest, without
// trailing noughts after the point: for workings, not for loads.
func significant(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return none
	}
	return grouped(decimal(roundDigits(v, n), -1))
}
