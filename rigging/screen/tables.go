package screen

import (
	"math"
	"strings"
	"sync"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Published values are offered by name beside the fields they fit. They are
// only offered: nothing takes one but the user. The tables never change, so
// each is written out once.

// An offer is a list of options that is written out when it is first asked
// for, and what says where each comes from, in their order, where benches
// offer them.
type offer struct {
	write   func() []Option
	sources func() []rigging.Source
	once    sync.Once
	list    []Option
}

// tableOffer offers the entries of a table.
func tableOffer(table func() []rigging.Entry, unit string, way units.Direction) offer {
	return offer{
		write: func() []Option { return entries(table(), unit, way) },
		sources: func() []rigging.Source {
			out := make([]rigging.Source, 0, len(table()))
			for _, e := range table() {
				out = append(out, e.Source)
			}
			return out
		},
	}
}

func (o *offer) options() []Option {
	o.once.Do(func() { o.list = o.write() })
	return o.list
}

// writeSpecies writes the species to choose from.
func writeSpecies() []Option {
	table := rigging.SpeciesTable()
	out := make([]Option, 0, len(table)+1)
	out = append(out, Option{"", "not chosen"})
	for _, s := range table {
		label := s.Name
		if s.Botanical != "" {
			label += " (" + s.Botanical + ")"
		}
		out = append(out, Option{s.Key, label})
	}
	return out
}

// entries writes a table as options. A value that has to be cut short goes
// the cautious way.
func entries(table []rigging.Entry, unit string, way units.Direction) []Option {
	out := make([]Option, 0, len(table))
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
		out = append(out, Option{text, label})
	}
	return out
}

// banded are entries whose Low and High are angles, not a range of the value.
func banded(table []rigging.Entry, what string) []Option {
	plainTable := make([]rigging.Entry, len(table))
	for i, e := range table {
		e.Low, e.High, e.Name = 0, 0, what+e.Name
		plainTable[i] = e
	}
	return entries(plainTable, "", units.Down)
}

var (
	speciesOptions = offer{write: writeSpecies}
	sheaveOptions  = tableOffer(rigging.SheaveTable, "", units.Down)
	factorOptions  = tableOffer(rigging.DesignFactors, "", units.Up)
	hitchOptions   = tableOffer(rigging.Hitches, "", units.Down)
	logSoils       = tableOffer(rigging.BuriedLogSoils, "", units.Down)
	picketSoils    = tableOffer(rigging.PicketSoils, "", units.Down)
	terminations   = tableOffer(rigging.Terminations, "", units.Down)
	knots          = tableOffer(rigging.Knots, "", units.Down)
	chokes         = offer{write: func() []Option { return banded(rigging.ChokeBands(), "choked, angle of choke ") }}
	sideLoads      = offer{write: func() []Option { return banded(rigging.ShackleSideLoads(), "load ") }}
	sharpBend      = offer{write: func() []Option {
		if e, ok := rigging.FindBend("sharp_bend"); ok {
			return entries([]rigging.Entry{e}, "", units.Down)
		}
		return nil
	}}
	tractions    = tableOffer(rigging.TractionTable, "", units.Down)
	turnings     = tableOffer(rigging.TreeAnchorTurning, "N·m/kg", units.Down)
	drags        = tableOffer(rigging.DragCoefficients, "", units.Up)
	faceOpenings = offer{write: func() []Option {
		var degrees []rigging.Entry
		for _, e := range rigging.HingeGuide() {
			if strings.HasSuffix(e.Key, "_deg") {
				degrees = append(degrees, e)
			}
		}
		return entries(degrees, "°", units.Nearest)
	}}
	ropeMasses = offer{sources: wireSources, write: func() []Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 { return r.MassPerMetre(d) }, "kg/m", "", units.Up)
	}}
	ropeStiffness = offer{write: func() []Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 { return r.Stiffness(d) / rigging.KN }, "kN", ", used rope", units.Down)
	}}
	// For the rope of any kind: the wire ropes, and what fibre rope is
	// printed with a stiffness.
	allStiffness = offer{
		write: func() []Option {
			out := ropeStiffness.options()
			for _, r := range rigging.FibreRopes() {
				if r.Stiffness > 0 {
					value := units.Decimal(units.Round(r.Stiffness/rigging.KN, 1, units.Down), -1) + " kN"
					out = append(out, Option{value, fibreName(r) + ", new, dry: " + value})
				}
			}
			return out
		},
		sources: func() []rigging.Source {
			out := wireSources()
			for _, r := range rigging.FibreRopes() {
				if r.Stiffness > 0 {
					out = append(out, r.Source)
				}
			}
			return out
		},
	}
	wireBreaking = offer{write: func() []Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 {
			return r.BreakingForce(d, rigging.WireGrade1770) / rigging.KN
		}, "kN", ", grade 1770, new", units.Down)
	}}
	fibreBreaking = offer{write: func() []Option {
		var out []Option
		for _, r := range rigging.FibreRopes() {
			value := units.Decimal(units.Round(r.Breaking/rigging.KN, 0.1, units.Down), -1) + " kN"
			label := fibreName(r) + ": " + value
			if r.Source.Basis != rigging.Published {
				label += " – " + r.Source.Basis.Words()
			}
			out = append(out, Option{value, label})
		}
		return out
	}}
	wireReductions  = offer{write: func() []Option { return joined(terminations.options(), sharpBend.options()) }}
	slingReductions = offer{write: func() []Option { return joined(chokes.options(), sharpBend.options()) }}
	allReductions   = offer{write: func() []Option {
		return joined(terminations.options(), knots.options(), chokes.options(), sideLoads.options(), sharpBend.options())
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
func wireRopes(of func(r rigging.WireRope, diameter float64) float64, unit, state string, way units.Direction) []Option {
	var out []Option
	for _, key := range wireKeys {
		r, ok := rigging.FindWireRope(key)
		if !ok {
			continue
		}
		for _, mm := range wireSizes {
			v := of(r, mm*rigging.MM)
			value := units.Decimal(units.Round(v, units.DigitStep(v, 3), way), -1) + " " + unit
			out = append(out, Option{value, units.Decimal(mm, -1) + " mm, " + r.Name + state + ": " + value})
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

func joined(lists ...[]Option) []Option {
	var out []Option
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

// suggestions are the values offered for the field at a path; spec is the
// field's entry in the catalogue.
func suggestions(d *draft.Plan, path string, spec *planField) []Option {
	switch spec.path {
	case "lines[].path[].efficiency", "lines[].tackle.efficiency", "lines[].tackle.haul_path[].efficiency":
		return sheaveOptions.options()
	case "cut.face_opening_deg":
		return faceOpenings.options()
	case "tree.drag_coefficient":
		return drags.options()
	case "points[].anchor.traction":
		return tractions.options()
	case "points[].anchor.turning_Nm_per_kg":
		return turnings.options()
	case "lines[].rope.mass_kgpm":
		return ropeMasses.options()
	case "lines[].rope.stiffness_kN":
		return ropeStiffness.options()
	case "gear[].mbl_kN":
		owner, _ := lastKey(path)
		switch d.Text(owner + ".kind") {
		case "wire_rope":
			return wireBreaking.options()
		case "fibre_rope":
			return fibreBreaking.options()
		}
	case "gear[].design_factor":
		return factorOptions.options()
	case "gear[].hitch_factor":
		owner, _ := lastKey(path)
		switch d.Text(owner + ".kind") {
		case "shackle", "block", "winch":
			return nil
		}
		return hitchOptions.options()
	case "gear[].reductions[].factor":
		parts := draft.ParsePath(path)
		i, _ := parts[1].(int)
		list, _ := parts[0].(string)
		switch d.Text(draft.Elem(list, i) + ".kind") {
		case "wire_rope":
			return wireReductions.options()
		case "fibre_rope":
			return knots.options()
		case "shackle":
			return sideLoads.options()
		case "sling", "chain":
			return slingReductions.options()
		}
		return allReductions.options()
	case "points[].anchor.soil_factor":
		owner, _ := lastKey(path)
		if d.Text(owner+".kind") == "pickets" {
			return picketSoils.options()
		}
		return logSoils.options()
	}
	return nil
}
