package job

import (
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

// people is the list of who and what is about.
func (b *builder) people() parts.Section {
	n := b.d.Size("people")
	s := parts.Section{
		ID: "people", Title: b.d.Say("People and things about"),
		Help:    b.d.Say("Place everybody where they stand during the full pull, and all that could be hit: each is judged by where the tree lands, by two tree lengths and by what flies when a rope or {block} lets go."),
		Actions: []parts.Action{{Do: "add", Path: "people", Label: b.d.Say("Add a person or thing")}},
	}
	if n > 0 {
		s.Summary = b.d.Count(n, "1 person or thing", "%s people or things")
	}
	for i := range n {
		s.Sections = append(s.Sections, b.person(i))
	}
	return s
}

func (b *builder) person(i int) parts.Section {
	path := draft.Elem("people", i)
	s := parts.Section{
		ID: path, Title: fields.PersonTitle(b.d, i), Fields: b.Fields(path, "id", "kind", "bearing_deg", "distance_m", "needed"),
		Actions: []parts.Action{{Do: "remove", Path: path, Label: b.d.Say("Remove from the plan")}},
		Summary: words.Listed(parts.LabelOf(b.d.Locale, fields.PeopleKinds, b.d.Text(path+".kind")), b.Shown(path+".distance_m"), b.d.Given("at %s", b.Shown(path+".bearing_deg"))),
	}
	if i < len(b.rep.People) {
		p := &b.rep.People[i]
		s.State, s.Help = p.Verdict.String(), p.Message
		if p.Clear != nil && p.MoveM > 0 {
			s.Help = words.Join(p.Message, fields.ClearPlace(b.d, b.u, p))
		}
	}
	return s
}
