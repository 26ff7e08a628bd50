package schema

import (
	"fmt"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/text"
	"pullline/wasm/fields"
)

// planTypes names the objects of the plan.
var planTypes = map[string]string{
	"site": "Site", "tree": "Tree", "tree.sections[]": "Section", "tree.defects[]": "WeakPlace", "people[]": "Person", "cut": "Cut", "points[]": "Point", "points[].anchor": "Anchor",
	"points[].anchor.legs[]": "BridleLeg", "lines[]": "Line", "lines[].path[]": "Station", "lines[].tackle": "Tackle", "lines[].tackle.stages[]": "Stage",
	"lines[].tackle.haul_path[]": "HaulStation", "lines[].tackle.reeving": "Reeving", "lines[].tackle.reeving.nodes[]": "ReevingNode", "lines[].tackle.reeving.ropes[]": "ReevingRope",
	"lines[].puller": "Puller", "lines[].rope": "Rope", "gear[]": "Piece", "gear[].reductions[]": "Reduction",
	"fork": "Fork", "brief": "Brief", "brief.signals[]": "Signal", "brief.roles[]": "Role", "after": "After",
	"plus_minus": "PlusMinus", "readings": "Readings",
}

// partTexts say what the parts are that the form has no field for.
var partTexts = map[string]string{
	"site": "What the place does to the tree.", "tree": "The tree to be pulled.", "cut": "The stump, the face and the hinge.",
	"people":        "Who and what is about, placed like a point.",
	"tree.defects":  "Weak places of the stem between the cut and the tie.",
	"tree.sections": "Diameters of the stem by height; they take the place of the form factor.",
	"points":        "Places on the ground the lines lead to.", "points[].anchor": "What holds the point.",
	"points[].anchor.legs":  "The two or three points that share the load.",
	"lines":                 "The lines from the stem to their pullers and anchors.",
	"lines[].path":          "Where the rope runs, from its dead end to its hauling end. Every place between first and last is a block.",
	"lines[].tackle":        "A tackle between the line and its last place: by stages or by its reeving.",
	"lines[].tackle.stages": "Simple tackles in order from the load.", "lines[].tackle.reeving": "An arrangement of any kind.",
	"lines[].puller": "What hauls the line.", "lines[].rope": "The rope of the line, for sag and stretch.",
	"gear": "Every rope, sling, shackle and block with its limit.", "gear[].reductions": "What takes strength away.",
	"fork": "This stem among those of one foot.", "brief": "What is told to the crew before the cut.", "brief.signals": "The signals agreed on.", "brief.roles": "Who does what.",
	"after":      "What was seen and measured at the pull.",
	"plus_minus": "How far off a measured number may be, by the path of the number, in the number's own unit.",
	"readings":   "What was read in the field, by the path of the field measured. Nothing is computed from it.",
}

// Plan is the schema of a plan.
func Plan() *Schema {
	p := planner{fields: plan.Format(), root: &Schema{
		Schema: Draft, Title: "Plan",
		Description: "One pull-line plan, of format version " + fmt.Sprint(plan.Version) + ". Every number is in the unit its name ends in; a bearing is degrees clockwise from the lay. A field left out takes its default, and the report lists it under assumed. What fits this schema may still be wrong as a whole: then the report says so under problems.",
		Defs:        &Members{},
	}}
	p.object(p.root, "", "")
	p.rules()
	return p.root
}

type planner struct {
	fields []plan.FormatField
	root   *Schema
}

// object puts in the fields of the object at a path, of a kind.
func (p *planner) object(s *Schema, path, of string) {
	s.Type = "object"
	s.Properties = &Members{}
	s.AdditionalProperties = false
	for _, f := range p.fields {
		key, inside := childKey(path, f.Path)
		if !inside || f.Of != of {
			continue
		}
		s.Properties.put(key, p.field(f))
		if f.Required {
			s.Required = append(s.Required, key)
		}
	}
}

// childKey is the key of a field that lies straight in the object at a path.
func childKey(object, path string) (string, bool) {
	key := path
	if object != "" {
		rest, ok := strings.CutPrefix(path, object+".")
		if !ok {
			return "", false
		}
		key = rest
	}
	return key, !strings.ContainsAny(key, ".[")
}

// field is the schema of one field; objects become definitions.
func (p *planner) field(f plan.FormatField) *Schema {
	s := &Schema{}
	switch f.Kind {
	case plan.KindObject:
		s = p.definition(f.Path, f.Of)
	case plan.KindList:
		s = &Schema{Type: "array", MaxItems: f.Most, Items: p.item(f)}
	case plan.KindNumber:
		s = number(f.Range)
	case plan.KindChoice:
		s.Enum = words(f.Words)
		s.Type = "string"
	case plan.KindFlag:
		s.Type = "boolean"
	case plan.KindDate:
		s.Type, s.Pattern = "string", `^(19|2[01])[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$`
	default:
		s.Type, s.MaxLength = "string", f.Most
		if f.Required {
			s.Pattern = `\S` // a name that is there
		}
	}
	p.describe(s, f)
	return s
}

// describe adds what the form says of a field, and what is taken without it.
func (p *planner) describe(s *Schema, f plan.FormatField) {
	label, help, ok := fields.Described(f.Path)
	if !ok || f.Kind == plan.KindObject || f.Kind == plan.KindList && partTexts[f.Path] != "" {
		label, help = "", partTexts[f.Path]
	}
	s.Title, s.Description = label, help
	add := func(text string) {
		if s.Description != "" {
			s.Description += " "
		}
		s.Description += text
	}
	if f.Kind == plan.KindDate {
		add("A day that the calendar has.")
	}
	why := new(text.Voice).Say(f.Why)
	switch {
	case why != "" && f.Default != nil && f.Kind != plan.KindList:
		add(fmt.Sprintf("Left out: %v, %s.", f.Default, why))
		s.Default = f.Default
	case why != "":
		add("Left out: " + why + ".")
	case slices.Contains(speciesFigures, f.Path):
		add("Left out: the figure of the species.")
	}
	if f.Source != "" {
		add("Source: " + f.Source + ".")
	} else if f.Basis != "" {
		words := rigging.Basis(f.Basis).Words()
		add("(" + strings.ToUpper(words[:1]) + words[1:] + ".)")
	}
}

// speciesFigures are the fields whose default is the species' own.
var speciesFigures = []string{"tree.form_factor", "tree.green_density_kgm3", "tree.bending_strength_MPa"}

// item is the schema of what is in a list.
func (p *planner) item(list plan.FormatField) *Schema {
	for _, f := range p.fields {
		if f.Path == list.Path+"[]" && f.Of == list.Of {
			return p.field(f)
		}
	}
	return &Schema{Type: "string", MaxLength: p.most()}
}

// most is the length of the longest text read.
func (p *planner) most() int {
	for _, f := range p.fields {
		if f.Path == "notes" {
			return f.Most
		}
	}
	return 0
}

// definition makes the schema of an object and refers to it.
func (p *planner) definition(path, of string) *Schema {
	name := planTypes[path]
	switch {
	case path == "points[].anchor":
		return p.oneOf(name, path, "kind")
	case path == "readings":
		p.root.Defs.put(name, &Schema{Type: "object", MaxProperties: 300, PropertyNames: &Schema{MaxLength: 100, Pattern: `^[A-Za-z0-9.\[\]]*_[A-Za-z0-9_.\[\]]*$`}, AdditionalProperties: p.oneOf("Reading", "readings.*", "method")})
		return ref(name)
	case path == "plus_minus":
		for _, f := range p.fields {
			if f.Path == "plus_minus.*" {
				p.root.Defs.put(name, &Schema{Type: "object", AdditionalProperties: number(f.Range)})
			}
		}
		return ref(name)
	case name == "": // the values of readings
		s := &Schema{}
		p.object(s, path, of)
		return s
	}
	s := &Schema{}
	p.root.Defs.put(name, s)
	p.object(s, path, of)
	return ref(name)
}

// oneOf makes the schema of an object whose fields depend on its kind, which
// the key gives.
func (p *planner) oneOf(name, path, key string) *Schema {
	out := &Schema{}
	p.root.Defs.put(name, out)
	for _, f := range p.fields {
		if f.Path != path+"."+key || f.Of == "" {
			continue
		}
		s := &Schema{}
		p.object(s, path, f.Of)
		kind := s.Properties.Get(key)
		*kind = Schema{Const: f.Of, Title: kind.Title}
		s.Required = append([]string{key}, s.Required...)
		one := name + typeName(f.Of)
		p.root.Defs.put(one, s)
		out.OneOf = append(out.OneOf, ref(one))
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

func number(r plan.Range) *Schema {
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
