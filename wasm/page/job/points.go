package job

import (
	"strconv"

	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func (b *builder) pointList() parts.Section {
	n := b.d.Size("points")
	s := parts.Section{
		ID: "points", Title: b.d.Say("Points on the ground"),
		Help:    b.d.Say("Every place a rope goes to apart from the tree: anchors, redirects, the machine."),
		Actions: []parts.Action{{Do: "add", Path: "points", Label: b.d.Say("Add a point")}},
		Summary: b.d.HowMany(n, "1 point", "%s points"),
	}
	for i := range n {
		s.Sections = append(s.Sections, b.point(i))
	}
	return s
}

func (b *builder) point(i int) parts.Section {
	path := draft.Elem("points", i)
	id := b.d.Text(path + ".id")
	state, use := b.stated(b.points[id])
	s := parts.Section{
		ID: path, Title: fields.PointTitle(b.d, i), State: state,
		Fields: b.Fields(path, "id", "bearing_deg", "distance_m", "rise_m"),
		Actions: []parts.Action{
			{Do: "add-block", Path: path, Label: b.d.Say("Add a {block} here")}, {Do: "add-sling", Path: path, Label: b.d.Say("Add a {strop} here")},
			{Do: "add-shackle", Path: path, Label: b.d.Say("Add a {shackle} here")}, {Do: "remove", Path: path, Label: b.d.Say("Remove this point")},
		},
	}
	anchor := b.anchor(path + ".anchor")
	s.Summary = words.Listed(b.Shown(path+".distance_m"), b.d.Given("at %s", b.Shown(path+".bearing_deg")), anchor.Summary, use)
	s.Sections = []parts.Section{anchor}
	return s
}

// anchor is the section of what holds a point: the fields of its kind.
func (b *builder) anchor(path string) parts.Section {
	word := b.d.Text(path + ".kind")
	s := parts.Section{ID: path, Title: b.d.Say("Anchor"), Fields: []parts.Field{b.Field(path + ".kind")}, Help: b.d.Say(words.AnchorEstimate)}
	if b.d.Has(path + ".kind") {
		s.Summary = parts.LabelOf(b.d.Locale, fields.AnchorKinds, word)
	} else {
		s.Summary = b.d.Say("no anchor")
		s.Help = ""
	}
	kind := field.AnchorNamed(word)
	for _, f := range kind.Row().Fields {
		if f == field.BridleLegs {
			b.legs(&s, path+"."+f.Key())
		} else {
			s.Fields = append(s.Fields, b.Field(path+"."+f.Key()))
		}
	}
	if kind == field.Rated {
		s.Summary = words.Listed(s.Summary, b.Shown(path+"."+field.RatedCapacity.Key()))
	}
	return s
}

// legs asks for those of a shared anchor.
func (b *builder) legs(s *parts.Section, path string) {
	n := b.d.Size(path)
	for i := range n {
		leg := draft.Elem(path, i)
		s.Sections = append(s.Sections, parts.Section{
			ID: leg, Title: b.d.Say("Leg %s", strconv.Itoa(i+1)), Fields: b.Fields(leg, "point"),
			Summary: b.d.Given("to point %s", b.Written(leg+".point")),
			Actions: []parts.Action{{Do: "remove", Path: leg, Label: b.d.Say("Remove this leg")}},
		})
	}
	if n < field.BridleLegs.Row().Most {
		s.Actions = append(s.Actions, parts.Action{Do: "add", Path: path, Label: b.d.Say("Add a leg")})
	}
}
