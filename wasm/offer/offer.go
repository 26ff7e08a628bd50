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
// for in a language, and what says where each comes from, in their order,
// where benches offer them.
type List struct {
	Write   func(l words.Locale) []parts.Option
	Sources func() []rigging.Source
	written sync.Map // by locale
}

// Table offers the entries of a table.
func Table(table func() []rigging.Entry, unit string, way units.Direction) List {
	return List{
		Write: func(l words.Locale) []parts.Option { return Entries(l, table(), unit, way) },
		Sources: func() []rigging.Source {
			out := make([]rigging.Source, 0, len(table()))
			for _, e := range table() {
				out = append(out, e.Source)
			}
			return out
		},
	}
}

// In is the list as it is said. The tables never change, so each is written
// out once.
func (o *List) In(l words.Locale) []parts.Option {
	list, known := o.written.Load(l)
	if !known {
		list, _ = o.written.LoadOrStore(l, o.Write(l))
	}
	return list.([]parts.Option)
}

// writeSpecies writes the species to choose from.
func writeSpecies(l words.Locale) []parts.Option {
	table := rigging.SpeciesTable()
	out := make([]parts.Option, 0, len(table)+1)
	out = append(out, parts.Option{Value: "", Label: l.Say("not chosen")})
	for _, s := range table {
		label := l.Say(words.Text(s.Name))
		if s.Botanical != "" {
			label = l.Say("%s (%s)", label, s.Botanical)
		}
		out = append(out, parts.Option{Value: s.Key, Label: label})
	}
	return out
}

// Entries writes a table as options. A value that has to be cut short goes
// the cautious way.
func Entries(l words.Locale, table []rigging.Entry, unit string, way units.Direction) []parts.Option {
	out := make([]parts.Option, 0, len(table))
	for i := range table {
		out = append(out, entry(l, &table[i], l.Say(words.Text(table[i].Name)), unit, way))
	}
	return out
}

// entry writes one under a name that was said.
func entry(l words.Locale, e *rigging.Entry, name, unit string, way units.Direction) parts.Option {
	value := units.RoundDigits(e.Value, units.ShownDigits)
	if math.Abs(value-units.RoundDigits(value, 3)) > 1e-9 {
		value = units.Round(value, 0.001, way)
	}
	text := units.Decimal(value, -1)
	if unit != "" {
		text += " " + unit
	}
	label := l.Say("%s: %s", words.Capital(name), text)
	if e.Low != 0 && e.High != 0 && e.Low != e.High {
		label = l.Say("%s (range %s to %s)", label, units.Decimal(units.RoundDigits(e.Low, 3), -1), units.Decimal(units.RoundDigits(e.High, 3), -1))
	}
	if e.Note != "" {
		label = l.Say("%s; %s", label, l.Say(words.Text(e.Note)))
	}
	return parts.Option{Value: text, Label: based(l, label, e.Source.Basis)}
}

// based says of a figure how well it is founded, where that is not by the
// publication named.
func based(l words.Locale, label string, basis rigging.Basis) string {
	if basis == rigging.Published {
		return label
	}
	return l.Say("%s – %s", label, l.Say(words.Text(basis.Words())))
}

// banded are entries whose Low and High are angles, not a range of the value.
func banded(l words.Locale, table []rigging.Entry, what words.Text) []parts.Option {
	out := make([]parts.Option, 0, len(table))
	for _, e := range table {
		e.Low, e.High = 0, 0
		out = append(out, entry(l, &e, l.Say(what, l.Say(words.Text(e.Name))), "", units.Down))
	}
	return out
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
	chokes        = List{Write: func(l words.Locale) []parts.Option {
		return banded(l, rigging.ChokeBands(), "choked, angle of choke %s")
	}}
	SideLoads = List{Write: func(l words.Locale) []parts.Option { return banded(l, rigging.ShackleSideLoads(), "load %s") }}
	sharpBend = List{Write: func(l words.Locale) []parts.Option {
		if e, ok := rigging.FindBend("sharp_bend"); ok {
			return Entries(l, []rigging.Entry{e}, "", units.Down)
		}
		return nil
	}}
	Tractions    = Table(rigging.TractionTable, "", units.Down)
	Turnings     = Table(rigging.TreeAnchorTurning, "N·m/kg", units.Down)
	Drags        = Table(rigging.DragCoefficients, "", units.Up)
	FaceOpenings = List{Write: func(l words.Locale) []parts.Option {
		var degrees []rigging.Entry
		for _, e := range rigging.HingeGuide() {
			if strings.HasSuffix(e.Key, "_deg") {
				degrees = append(degrees, e)
			}
		}
		return Entries(l, degrees, "°", units.Nearest)
	}}
	RopeMasses = List{Sources: wireSources, Write: func(l words.Locale) []parts.Option {
		return wireRopes(l, func(r rigging.WireRope, d float64) float64 { return r.MassPerMetre(d) }, "kg/m", "%s mm, %s: %s", units.Up)
	}}
	RopeStiffness = List{Write: func(l words.Locale) []parts.Option {
		return wireRopes(l, func(r rigging.WireRope, d float64) float64 { return r.Stiffness(d) / rigging.KN }, "kN", "%s mm, %s, used rope: %s", units.Down)
	}}
	// For the rope of any kind: the wire ropes, and what fibre rope is
	// printed with a stiffness.
	AllStiffness = List{
		Write: func(l words.Locale) []parts.Option {
			out := RopeStiffness.In(l)
			for _, r := range rigging.FibreRopes() {
				if r.Stiffness > 0 {
					value := units.Decimal(units.Round(r.Stiffness/rigging.KN, 1, units.Down), -1) + " kN"
					out = append(out, parts.Option{Value: value, Label: l.Say("%s, new, dry: %s", fibreName(l, r), value)})
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
	WireBreaking = List{Write: func(l words.Locale) []parts.Option {
		return wireRopes(l, func(r rigging.WireRope, d float64) float64 {
			return r.BreakingForce(d, rigging.WireGrade1770) / rigging.KN
		}, "kN", "%s mm, %s, grade 1770, new: %s", units.Down)
	}}
	FibreBreaking = List{Write: func(l words.Locale) []parts.Option {
		var out []parts.Option
		for _, r := range rigging.FibreRopes() {
			value := units.Decimal(units.Round(r.Breaking/rigging.KN, 0.1, units.Down), -1) + " kN"
			out = append(out, parts.Option{Value: value, Label: based(l, l.Say("%s: %s", fibreName(l, r), value), r.Source.Basis)})
		}
		return out
	}}
	WireReductions  = List{Write: func(l words.Locale) []parts.Option { return joined(terminations.In(l), sharpBend.In(l)) }}
	SlingReductions = List{Write: func(l words.Locale) []parts.Option { return joined(chokes.In(l), sharpBend.In(l)) }}
	AllReductions   = List{Write: func(l words.Locale) []parts.Option {
		return joined(terminations.In(l), Knots.In(l), chokes.In(l), SideLoads.In(l), sharpBend.In(l))
	}}
)

// fibreName is the kind and size of a fibre rope.
func fibreName(l words.Locale, r rigging.FibreRope) string {
	kind := words.Text(words.Capital(strings.ReplaceAll(r.Kind, "_", " ")))
	return l.Say("%s, %s mm", l.Say(kind), units.Decimal(units.RoundDigits(r.Diameter/rigging.MM, 3), -1))
}

// The wire ropes that are offered, and their diameters in mm.
var (
	wireKeys  = [...]string{"6x19_fibre_core", "6x36_steel_core"}
	wireSizes = [...]float64{8, 10, 12, 14, 16, 18, 20, 22}
)

// wireRopes writes a property of two common classes of wire rope by size.
func wireRopes(l words.Locale, of func(r rigging.WireRope, diameter float64) float64, unit string, label words.Text, way units.Direction) []parts.Option {
	var out []parts.Option
	for _, key := range wireKeys {
		r, ok := rigging.FindWireRope(key)
		if !ok {
			continue
		}
		for _, mm := range wireSizes {
			v := of(r, mm*rigging.MM)
			value := units.Decimal(units.Round(v, units.DigitStep(v, 3), way), -1) + " " + unit
			out = append(out, parts.Option{Value: value, Label: l.Say(label, units.Decimal(mm, -1), l.Say(words.Text(r.Name)), value)})
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
