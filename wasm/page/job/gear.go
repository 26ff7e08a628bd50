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
		ID: "gear", Title: b.d.Say("Gear"),
		Help:    b.d.Say("Every piece between the tree and the anchors, with the limit from its own tag. Pieces not listed are not judged."),
		Actions: []parts.Action{{Do: "add", Path: "gear", Label: b.d.Say("Add a piece")}, {Do: "pick-gear", Path: "gear", Label: b.d.Say("Pick from the gear list")}},
		Summary: b.d.HowMany(n, "1 piece", "%s pieces"),
	}
	for i := range n {
		s.Sections = append(s.Sections, b.piece(i))
	}
	return s
}

func (b *builder) piece(i int) parts.Section {
	path := draft.Elem("gear", i)
	state, use := b.stated(b.pieces[b.d.Text(path+".id")])
	place := b.d.GearPlace(path)
	s := parts.Section{
		ID: path, Title: fields.GearTitle(b.d, i), State: state,
		Fields: append(b.Fields(path, "id", "kind"),
			parts.Field{
				Path: path + ".@place", Label: b.d.Say("Where it is rigged"), Kind: fields.Choice, Text: place, Options: parts.WithValue(b.d.Locale, b.places, place),
				Help:    b.d.Say("On a line it carries the highest tension of the line; at the {stem}, the load of the line there; at a point, the load of the point."),
				Problem: b.Problem(path+".line", path+".point", path+".place"),
			}),
		Actions: []parts.Action{{Do: "remove", Path: path, Label: b.d.Say("Remove this piece")}},
	}
	s.Fields = append(s.Fields, b.Limit(path)...)
	s.Fields = append(s.Fields, b.Fields(path, "hitch_factor", "size", "terminations", "notes")...)
	s.Summary = words.Listed(b.d.GearPlaceWords(path), b.LimitWords(path), use)
	s.Sections = []parts.Section{b.Reductions(path), b.Inspection(path, "last_inspection", "next_inspection", "retired", "cleared")}
	return s
}
