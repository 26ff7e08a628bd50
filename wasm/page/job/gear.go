package job

import (
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func (b *builder) gearList() parts.Section {
	n := b.d.Size("gear")
	s := parts.Section{
		ID: "gear", Title: "Gear",
		Help:    "Every piece between the tree and the anchors, with the limit from its own tag. What is not in this list is not judged.",
		Actions: []parts.Action{{Do: "add", Path: "gear", Label: "Add a piece"}, {Do: "pick-gear", Path: "gear", Label: "Pick from the gear list"}},
		Summary: words.CountOf(n, "piece", "pieces"),
	}
	for i := range n {
		s.Sections = append(s.Sections, b.piece(i))
	}
	return s
}

func (b *builder) piece(i int) parts.Section {
	path := draft.Elem("gear", i)
	state, use := stated(b.pieces[b.d.Text(path+".id")])
	place := b.d.GearPlace(path)
	s := parts.Section{
		ID: path, Title: fields.GearTitle(b.d, i), State: state,
		Fields: append(b.Fields(path, "id", "kind"),
			parts.Field{
				Path: path + ".@place", Label: "Where it sits", Kind: fields.Choice, Text: place, Options: parts.WithValue(b.d.Locale, b.places, place),
				Help:    b.d.Say("On a line it carries that line's highest tension; at the {stem} what the line puts on it there; at a point what the point carries."),
				Problem: b.Problem(path+".line", path+".point", path+".place"),
			}),
		Actions: []parts.Action{{Do: "remove", Path: path, Label: "Remove this piece"}},
	}
	s.Fields = append(s.Fields, b.Limit(path)...)
	s.Fields = append(s.Fields, b.Fields(path, "hitch_factor", "size", "terminations", "notes")...)
	s.Summary = words.Listed(b.d.GearPlaceWords(path), b.LimitWords(path), use)
	s.Sections = []parts.Section{b.Reductions(path), b.Inspection(path, "last_inspection", "next_inspection", "retired", "cleared")}
	return s
}
