package offer

import (
	"math"
	"strings"
	"sync"

	"pullline/rigging"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A List is a list of options that is written out when it is first asked
// for, and what says where each comes from, in their order, where benches
// offer them.
type List struct {
	Write   func() []parts.Option
	Sources func() []rigging.Source
	once    sync.Once
	list    []parts.Option
}

// Table offers the entries of a table.
func Table(table func() []rigging.Entry, unit string, way units.Direction) List {
	return List{
		Write: func() []parts.Option { return Entries(table(), unit, way) },
		Sources: func() []rigging.Source {
			out := make([]rigging.Source, 0, len(table()))
			for _, e := range table() {
				out = append(out, e.Source)
			}
			return out
		},
	}
}

// Options are those of the list. The tables never change, so each is written
// out once.
func (o *List) Options() []parts.Option {
	o.once.Do(func() { o.list = o.Write() })
	return o.list
}

// writeSpecies writes the species to choose from.
func writeSpecies() []parts.Option {
	table := rigging.SpeciesTable()
	out := make([]parts.Option, 0, len(table)+1)
	out = append(out, parts.Option{Value: "", Label: "not chosen"})
	for _, s := range table {
		label := s.Name
		if s.Botanical != "" {
			label += " (" + s.Botanical + ")"
		}
		out = append(out, parts.Option{Value: s.Key, Label: label})
	}
	return out
}

// Entries writes a table as options. A value that has to be cut short goes
// the cautious way.
func Entries(table []rigging.Entry, unit string, way units.Direction) []parts.Option {
	out := make([]parts.Option, 0, len(table))
	for _, e := range table {
		value := units.RoundDigits(e.Value, units.ShownDigits)
		if math.Abs(value-units.RoundDigits(value, 3)) > 1e-9 {
			value = units.Round(value, 0.001, way)
		}
		text := units.Decimal(value, -1)
		if unit != "" {
			text += " " + unit
		}
		label := words.Capital(e.Name) + ": " + text
		if e.Low != 0 && e.High != 0 && e.Low != e.High {
			label += " (range " + units.Decimal(units.RoundDigits(e.Low, 3), -1) + " to " + units.Decimal(units.RoundDigits(e.High, 3), -1) + ")"
		}
		if e.Note != "" {
			label += "; " + e.Note
		}
		if e.Source.Basis != rigging.Published {
			label += " – " + e.Source.Basis.Words()
		}
		out = append(out, parts.Option{Value: text, Label: label})
	}
	return out
}

// banded are entries whose Low and High are angles, not a range of the value.
func banded(table []rigging.Entry, what string) []parts.Option {
	plainTable := make([]rigging.Entry, len(table))
	for i, e := range table {
		e.Low, e.High, e.Name = 0, 0, what+e.Name
		plainTable[i] = e
	}
	return Entries(plainTable, "", units.Down)
}

// What is offered.
var (
	Species       = List{Write: writeSpecies}
	Sheaves       = Table(rigging.SheaveTable, "", units.Down)
	DesignFactors = Table(rigging.DesignFactors, "", units.Up)
	Hitches       = Table(rigging.Hitches, "", units.Down)
	LogSoils      = Table(rigging.BuriedLogSoils, "", units.Down)
	PicketSoils   = Table(rigging.PicketSoils, "", units.Down)
	terminations  = Table(rigging.Terminations, "", units.Down)
	Knots         = Table(rigging.Knots, "", units.Down)
	chokes        = List{Write: func() []parts.Option { return banded(rigging.ChokeBands(), "choked, angle of choke ") }}
	SideLoads     = List{Write: func() []parts.Option { return banded(rigging.ShackleSideLoads(), "load ") }}
	sharpBend     = List{Write: func() []parts.Option {
		if e, ok := rigging.FindBend("sharp_bend"); ok {
			return Entries([]rigging.Entry{e}, "", units.Down)
		}
		return nil
	}}
	Tractions    = Table(rigging.TractionTable, "", units.Down)
	Turnings     = Table(rigging.TreeAnchorTurning, "N·m/kg", units.Down)
	Drags        = Table(rigging.DragCoefficients, "", units.Up)
	FaceOpenings = List{Write: func() []parts.Option {
		var degrees []rigging.Entry
		for _, e := range rigging.HingeGuide() {
			if strings.HasSuffix(e.Key, "_deg") {
				degrees = append(degrees, e)
			}
		}
		return Entries(degrees, "°", units.Nearest)
	}}
	RopeMasses = List{Sources: wireSources, Write: func() []parts.Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 { return r.MassPerMetre(d) }, "kg/m", "", units.Up)
	}}
	RopeStiffness = List{Write: func() []parts.Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 { return r.Stiffness(d) / rigging.KN }, "kN", ", used rope", units.Down)
	}}
	// For the rope of any kind: the wire ropes, and what fibre rope is
	// printed with a stiffness.
	AllStiffness = List{
		Write: func() []parts.Option {
			out := RopeStiffness.Options()
			for _, r := range rigging.FibreRopes() {
				if r.Stiffness > 0 {
					value := units.Decimal(units.Round(r.Stiffness/rigging.KN, 1, units.Down), -1) + " kN"
					out = append(out, parts.Option{Value: value, Label: fibreName(r) + ", new, dry: " + value})
				}
			}
			return out
		},
		Sources: func() []rigging.Source {
			out := wireSources()
			for _, r := range rigging.FibreRopes() {
				if r.Stiffness > 0 {
					out = append(out, r.Source)
				}
			}
			return out
		},
	}
	WireBreaking = List{Write: func() []parts.Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 {
			return r.BreakingForce(d, rigging.WireGrade1770) / rigging.KN
		}, "kN", ", grade 1770, new", units.Down)
	}}
	FibreBreaking = List{Write: func() []parts.Option {
		var out []parts.Option
		for _, r := range rigging.FibreRopes() {
			value := units.Decimal(units.Round(r.Breaking/rigging.KN, 0.1, units.Down), -1) + " kN"
			label := fibreName(r) + ": " + value
			if r.Source.Basis != rigging.Published {
				label += " – " + r.Source.Basis.Words()
			}
			out = append(out, parts.Option{Value: value, Label: label})
		}
		return out
	}}
	WireReductions  = List{Write: func() []parts.Option { return joined(terminations.Options(), sharpBend.Options()) }}
	SlingReductions = List{Write: func() []parts.Option { return joined(chokes.Options(), sharpBend.Options()) }}
	AllReductions   = List{Write: func() []parts.Option {
		return joined(terminations.Options(), Knots.Options(), chokes.Options(), SideLoads.Options(), sharpBend.Options())
	}}
)

// fibreName is the kind and size of a fibre rope.
func fibreName(r rigging.FibreRope) string {
	return words.Capital(strings.ReplaceAll(r.Kind, "_", " ")) + ", " + units.Decimal(units.RoundDigits(r.Diameter/rigging.MM, 3), -1) + " mm"
}

// The wire ropes that are offered, and their diameters in mm.
var (
	wireKeys  = [...]string{"6x19_fibre_core", "6x36_steel_core"}
	wireSizes = [...]float64{8, 10, 12, 14, 16, 18, 20, 22}
)

// wireRopes writes a property of two common classes of wire rope by size.
func wireRopes(of func(r rigging.WireRope, diameter float64) float64, unit, state string, way units.Direction) []parts.Option {
	var out []parts.Option
	for _, key := range wireKeys {
		r, ok := rigging.FindWireRope(key)
		if !ok {
			continue
		}
		for _, mm := range wireSizes {
			v := of(r, mm*rigging.MM)
			value := units.Decimal(units.Round(v, units.DigitStep(v, 3), way), -1) + " " + unit
			out = append(out, parts.Option{Value: value, Label: units.Decimal(mm, -1) + " mm, " + r.Name + state + ": " + value})
		}
	}
	return out
}

// wireSources are those of wireRopes.
func wireSources() []rigging.Source {
	var out []rigging.Source
	for _, key := range wireKeys {
		r, ok := rigging.FindWireRope(key)
		for range wireSizes {
			if ok {
				out = append(out, r.Source)
			}
		}
	}
	return out
}

func joined(lists ...[]parts.Option) []parts.Option {
	var out []parts.Option
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}
