package screen

import (
	"math"
	"strings"
	"sync"

	"pullline/rigging"
)

// Published values are offered by name beside the fields they fit. They are
// only offered: nothing takes one but the user. The tables never change, so
// each is written out once.

// speciesOptions are the species to choose from.
var speciesOptions = sync.OnceValue(func() []Option {
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
})

// entries writes a table as options. A value that has to be cut short goes
// the cautious way.
func entries(table []rigging.Entry, unit string, way direction) []Option {
	out := make([]Option, 0, len(table))
	for _, e := range table {
		value := roundDigits(e.Value, shownDigits)
		if math.Abs(value-roundDigits(value, 3)) > 1e-9 {
			value = roundWay(value, 0.001, way)
		}
		text := decimal(value, -1)
		if unit != "" {
			text += " " + unit
		}
		label := capital(e.Name) + ": " + text
		if e.Low != 0 && e.High != 0 && e.Low != e.High {
			label += " (range " + decimal(roundDigits(e.Low, 3), -1) + " to " + decimal(roundDigits(e.High, 3), -1) + ")"
		}
		if e.Note != "" {
			label += "; " + e.Note
		}
		if e.Source.Basis != rigging.Published {
			label += " – " + string(e.Source.Basis)
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
	return entries(plainTable, "", downward)
}

var (
	sheaveOptions = sync.OnceValue(func() []Option { return entries(rigging.SheaveTable(), "", downward) })
	factorOptions = sync.OnceValue(func() []Option { return entries(rigging.DesignFactors(), "", upward) })
	hitchOptions  = sync.OnceValue(func() []Option { return entries(rigging.Hitches(), "", downward) })
	logSoils      = sync.OnceValue(func() []Option { return entries(rigging.BuriedLogSoils(), "", downward) })
	picketSoils   = sync.OnceValue(func() []Option { return entries(rigging.PicketSoils(), "", downward) })
	terminations  = sync.OnceValue(func() []Option { return entries(rigging.Terminations(), "", downward) })
	knots         = sync.OnceValue(func() []Option { return entries(rigging.Knots(), "", downward) })
	chokes        = sync.OnceValue(func() []Option { return banded(rigging.ChokeBands(), "choked, angle of choke ") })
	sideLoads     = sync.OnceValue(func() []Option { return banded(rigging.ShackleSideLoads(), "load ") })
	sharpBend     = sync.OnceValue(func() []Option {
		if e, ok := rigging.FindBend("sharp_bend"); ok {
			return entries([]rigging.Entry{e}, "", downward)
		}
		return nil
	})
	tractions    = sync.OnceValue(func() []Option { return entries(rigging.TractionTable(), "", downward) })
	turnings     = sync.OnceValue(func() []Option { return entries(rigging.TreeAnchorTurning(), "N·m/kg", downward) })
	drags        = sync.OnceValue(func() []Option { return entries(rigging.DragCoefficients(), "", upward) })
	faceOpenings = sync.OnceValue(func() []Option {
		var degrees []rigging.Entry
		for _, e := range rigging.HingeGuide() {
			if strings.HasSuffix(e.Key, "_deg") {
				degrees = append(degrees, e)
			}
		}
		return entries(degrees, "°", nearest)
	})
	ropeMasses = sync.OnceValue(func() []Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 { return r.MassPerMetre(d) }, "kg/m", "", upward)
	})
	ropeStiffness = sync.OnceValue(func() []Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 { return r.Stiffness(d) / rigging.KN }, "kN", ", used rope", downward)
	})
	wireBreaking = sync.OnceValue(func() []Option {
		return wireRopes(func(r rigging.WireRope, d float64) float64 {
			return r.BreakingForce(d, rigging.WireGrade1770) / rigging.KN
		}, "kN", ", grade 1770, new", downward)
	})
	fibreBreaking = sync.OnceValue(func() []Option {
		var out []Option
		for _, r := range rigging.FibreRopes() {
			value := decimal(roundWay(r.Breaking/rigging.KN, 0.1, downward), -1) + " kN"
			label := capital(strings.ReplaceAll(r.Kind, "_", " ")) + ", " + decimal(roundDigits(r.Diameter/rigging.MM, 3), -1) + " mm: " + value
			if r.Source.Basis != rigging.Published {
				label += " – " + string(r.Source.Basis)
			}
			out = append(out, Option{value, label})
		}
		return out
	})
	wireReductions  = sync.OnceValue(func() []Option { return joined(terminations(), sharpBend()) })
	slingReductions = sync.OnceValue(func() []Option { return joined(chokes(), sharpBend()) })
	allReductions   = sync.OnceValue(func() []Option { return joined(terminations(), knots(), chokes(), sideLoads(), sharpBend()) })
)

// wireRopes writes a property of two common classes of wire rope by size.
func wireRopes(of func(r rigging.WireRope, diameter float64) float64, unit, state string, way direction) []Option {
	var out []Option
	for _, key := range []string{"6x19_fibre_core", "6x36_steel_core"} {
		r, ok := rigging.FindWireRope(key)
		if !ok {
			continue
		}
		for _, mm := range []float64{8, 10, 12, 14, 16, 18, 20, 22} {
			v := of(r, mm*rigging.MM)
			value := decimal(roundWay(v, digitStep(v, 3), way), -1) + " " + unit
			out = append(out, Option{value, decimal(mm, -1) + " mm, " + r.Name + state + ": " + value})
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
func suggestions(d *document, path string, spec *planField) []Option {
	switch spec.path {
	case "lines[].path[].efficiency", "lines[].tackle.efficiency", "lines[].tackle.haul_path[].efficiency":
		return sheaveOptions()
	case "cut.face_opening_deg":
		return faceOpenings()
	case "tree.drag_coefficient":
		return drags()
	case "points[].anchor.traction":
		return tractions()
	case "points[].anchor.turning_Nm_per_kg":
		return turnings()
	case "lines[].rope.mass_kgpm":
		return ropeMasses()
	case "lines[].rope.stiffness_kN":
		return ropeStiffness()
	case "gear[].mbl_kN":
		owner, _ := lastKey(path)
		switch d.text(owner + ".kind") {
		case "wire_rope":
			return wireBreaking()
		case "fibre_rope":
			return fibreBreaking()
		}
	case "gear[].design_factor":
		return factorOptions()
	case "gear[].hitch_factor":
		owner, _ := lastKey(path)
		switch d.text(owner + ".kind") {
		case "shackle", "block", "winch":
			return nil
		}
		return hitchOptions()
	case "gear[].reductions[].factor":
		parts := parsePath(path)
		i, _ := parts[1].(int)
		switch d.text(elem("gear", i) + ".kind") {
		case "wire_rope":
			return wireReductions()
		case "fibre_rope":
			return knots()
		case "shackle":
			return sideLoads()
		case "sling", "chain":
			return slingReductions()
		}
		return allReductions()
	case "points[].anchor.soil_factor":
		owner, _ := lastKey(path)
		if d.text(owner+".kind") == "pickets" {
			return picketSoils()
		}
		return logSoils()
	}
	return nil
}
