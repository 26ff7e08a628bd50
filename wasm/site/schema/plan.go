package schema

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
	"pullline/wasm/fields"
)

// planTypes names the objects of the plan.
var planTypes = map[field.Field]string{
	field.Site: "Site", field.Tree: "Tree", field.Sections: "Section", field.Defects: "WeakPlace", field.People: "Person", field.Cut: "Cut", field.Points: "Point", field.PointAnchor: "Anchor",
	field.BridleLegs: "BridleLeg", field.Lines: "Line", field.Stations: "Station", field.Tackle: "Tackle", field.Stages: "Stage",
	field.HaulPath: "HaulStation", field.Reeving: "Reeving", field.Nodes: "ReevingNode", field.Ropes: "ReevingRope",
	field.Puller: "Puller", field.Rope: "Rope", field.Gear: "Piece", field.Reductions: "Reduction",
	field.Fork: "Fork", field.Brief: "Brief", field.Signals: "Signal", field.Roles: "Role", field.After: "After",
	field.PlusMinus: "PlusMinus", field.Readings: "Readings",
}

// Plan is the schema of a plan.
func Plan() *Schema {
	p := planner{root: &Schema{
		Schema: Draft, Title: "Plan",
		Description: "One pull-line plan, of format version " + fmt.Sprint(plan.Version) + ". Every number is in the unit its name ends in; a bearing is degrees clockwise from the lay. A field left out takes its default, and the report lists it under assumed. What fits this schema may still be wrong as a whole: then the report says so under problems.",
		Defs:        &Members{},
	}}
	p.object(p.root, field.Plan.Children()...)
	p.rules()
	return p.root
}

type planner struct{ root *Schema }

// object puts the fields of an object in.
func (p *planner) object(s *Schema, of ...field.Field) {
	s.Type = "object"
	s.Properties = &Members{}
	s.AdditionalProperties = false
	for _, f := range of {
		s.Properties.put(f.Key(), p.field(f))
		if f.Row().Required {
			s.Required = append(s.Required, f.Key())
		}
	}
}

// field is the schema of one field; objects become definitions.
func (p *planner) field(f field.Field) *Schema {
	s, row := &Schema{}, f.Row()
	list := func(items *Schema) *Schema { return &Schema{Type: "array", MaxItems: row.Most, Items: items} }
	switch row.Kind {
	case field.Object:
		s = p.definition(f)
	case field.Objects:
		s = list(p.definition(f))
	case field.Texts:
		s = list(&Schema{Type: "string", MaxLength: field.Notes.Row().Most})
	case field.Numbers:
		s = list(number(row.Range))
	case field.Number:
		s = number(row.Range)
	case field.Choice:
		s.Enum = words(row.Words)
		s.Type = "string"
	case field.Flag:
		s.Type = "boolean"
	case field.Date:
		s.Type, s.Pattern = "string", `^(19|2[01])[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$`
	default:
		s.Type, s.MaxLength = "string", row.Most
		if row.Required {
			s.Pattern = `\S` // a name that is there
		}
	}
	p.describe(s, f)
	return s
}

// describe adds what the form says of a field, and what is taken without it.
func (p *planner) describe(s *Schema, f field.Field) {
	row := f.Row()
	s.Title, s.Description = fields.Described(f)
	add := func(text string) {
		if s.Description != "" {
			s.Description += " "
		}
		s.Description += text
	}
	if row.Kind == field.Date {
		add("A day that the calendar has.")
	}
	usual := &row.Default
	why := new(text.Voice).Say(usual.Saying())
	switch {
	case usual.Value != nil:
		add(fmt.Sprintf("Left out: %v, %s.", usual.Value, why))
		s.Default = usual.Value
	case why != "":
		add("Left out: " + why + ".")
	case slices.Contains(speciesFigures, f):
		add("Left out: the figure of the species.")
	}
	if usual.Source.Text != "" {
		add("Source: " + usual.Source.Text + ".")
	} else if basis := usual.Source.Basis; basis != "" {
		words := basis.Words()
		add("(" + strings.ToUpper(words[:1]) + words[1:] + ".)")
	}
}

// speciesFigures are the fields whose default is the species' own.
var speciesFigures = []field.Field{field.FormFactor, field.GreenDensity, field.BendingStrength}

// definition makes the schema of an object, or of those in a list, and refers to
// it.
func (p *planner) definition(f field.Field) *Schema {
	name := planTypes[f]
	s := &Schema{}
	p.root.Defs.put(name, s)
	switch f {
	case field.PointAnchor:
		for _, kind := range field.AnchorKinds() {
			p.either(s, name, field.AnchorKind, kind.Row().Word, kind.Row().Fields...)
		}
	case field.Readings:
		s.Type = "object"
		s.MaxProperties = f.Row().Most
		s.PropertyNames = &Schema{MaxLength: 100, Pattern: `^[A-Za-z0-9.\[\]]*_[A-Za-z0-9_.\[\]]*$`}
		s.AdditionalProperties = p.reading()
	case field.PlusMinus:
		*s = Schema{Type: "object", AdditionalProperties: number(field.AnyPlusMinus.Row().Range)}
	default:
		p.object(s, f.Children()...)
	}
	return ref(name)
}

// either adds to an object, whose fields depend on its kind, those of one kind.
func (p *planner) either(of *Schema, name string, kind field.Field, word string, fields ...field.Field) *Schema {
	s := &Schema{}
	p.object(s, append([]field.Field{kind}, fields...)...)
	k := s.Properties.Get(kind.Key())
	*k = Schema{Const: word, Title: k.Title}
	if !slices.Contains(s.Required, kind.Key()) {
		s.Required = append([]string{kind.Key()}, s.Required...)
	}
	name += typeName(word)
	p.root.Defs.put(name, s)
	of.OneOf = append(of.OneOf, ref(name))
	return s
}

// reading is the schema of what is kept of one measurement, by its method.
func (p *planner) reading() *Schema {
	const name = "Reading"
	out := &Schema{}
	p.root.Defs.put(name, out)
	for _, h := range rigging.SurveyHelpers() {
		ranges, ok := plan.ReadingRanges(h.Key)
		if !ok {
			continue
		}
		s := p.either(out, name, field.ReadingMethod, h.Key)
		values, spread := &Schema{Type: "object", Properties: &Members{}, AdditionalProperties: false}, &Schema{Type: "object", Properties: &Members{}, AdditionalProperties: false}
		for _, key := range slices.Sorted(maps.Keys(ranges)) {
			values.Properties.put(key, number(ranges[key]))
			pm := field.AnyReadingPlusMinus.Row().Range
			pm.Unit = ranges[key].Unit
			spread.Properties.put(key, number(pm))
		}
		s.Properties.put(field.ReadingValues.Key(), values)
		s.Properties.put(field.ReadingPlusMinus.Key(), spread)
	}
	return ref(name)
}

// typeName writes buried_log as BuriedLog.
func typeName(key string) string {
	var out strings.Builder
	for _, part := range strings.Split(key, "_") {
		out.WriteString(strings.ToUpper(part[:1]) + part[1:])
	}
	return out.String()
}

func number(r field.Range) *Schema {
	s := &Schema{Type: "number", Unit: r.Unit, Maximum: &r.Max}
	if r.Whole {
		s.Type = "integer"
	}
	if r.Above {
		s.ExclusiveMinimum = &r.Min
	} else {
		s.Minimum = &r.Min
	}
	return s
}

func words(list []string) []any {
	out := make([]any, len(list))
	for i, w := range list {
		out[i] = w
	}
	return out
}

// rules adds what the reader asks of several fields together.
func (p *planner) rules() {
	need := func(keys ...string) *Schema { return &Schema{Required: keys} }
	def := p.root.Defs.Get

	version := p.root.Properties.Get("version")
	latest := float64(plan.Version)
	version.Maximum = &latest

	tree := def("Tree")
	species := make([]any, 0, 40)
	for _, s := range rigging.SpeciesTable() {
		species = append(species, s.Key)
	}
	known := &Schema{Properties: &Members{}}
	known.Properties.put("species", &Schema{Enum: append(species, "")})
	own := need("green_density_kgm3", "bending_strength_MPa", "crown_fraction")
	own.AnyOf = []*Schema{need("form_factor"), need("sections")}
	// A species that is not in the table, where all of its figures are given.
	tree.AnyOf = []*Schema{known, own}
	nought := 0.0
	above := func(key, then string) *Schema {
		given := &Schema{Properties: &Members{}, Required: []string{key}}
		given.Properties.put(key, &Schema{ExclusiveMinimum: &nought})
		return &Schema{If: given, Then: need(then)}
	}
	tree.AllOf = []*Schema{above("lean_deg", "lean_bearing_deg"), above("crown_offset_m", "crown_offset_bearing_deg")}
	tree.Properties.Get("sections").MinItems = 1

	def("Station").OneOf = []*Schema{need("stem_m"), need("point")}
	def("Line").Properties.Get("path").MinItems = 2
	def("HaulStation").Required = []string{"point"}
	tackle := def("Tackle")
	tackle.OneOf = []*Schema{need("stages"), need("reeving")}
	tackle.Properties.Get("stages").MinItems = 1

	for _, name := range []string{"Station", "HaulStation", "Piece"} {
		def(name).Properties.Get("point").MinLength = 1
	}
	def("Piece").Properties.Get("line").MinLength = 1

	weak := def("WeakPlace") // a fork need not be hollow
	weak.Required = slices.DeleteFunc(weak.Required, func(key string) bool { return key == "cavity_cm" })
	fork := &Schema{Properties: &Members{}, Required: []string{"kind"}}
	fork.Properties.put("kind", &Schema{Enum: []any{string(rigging.ForkDefect)}})
	weak.AnyOf = []*Schema{fork, need("cavity_cm")}

	legs := def("AnchorBridle").Properties.Get("legs")
	legs.MinItems = 2

	piece := def("Piece")
	piece.DependentRequired = map[string][]string{"place": {"line"}}
	twice := need("wll_kN", "wll_t")
	piece.AllOf = []*Schema{
		{OneOf: []*Schema{need("line"), need("point")}},
		{AnyOf: []*Schema{need("wll_kN"), need("wll_t"), need("mbl_kN", "design_factor")}},
		{Not: twice},
	}
}
