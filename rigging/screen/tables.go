package screen

import (
	"math"
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
	wireReductions  = sync.OnceValue(func() []Option { return joined(terminations(), sharpBend()) })
	slingReductions = sync.OnceValue(func() []Option { return joined(chokes(), sharpBend()) })
	allReductions   = sync.OnceValue(func() []Option { return joined(terminations(), knots(), chokes(), sideLoads(), sharpBend()) })
)

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
