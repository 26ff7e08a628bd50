package job

import (
	"cmp"
	"strconv"

	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func (b *builder) tree() parts.Section {
	species := b.d.Text("tree.species")
	if species != "" {
		species = parts.Label(offer.Species.In(b.d.Locale), species)
	}
	return parts.Section{
		ID: "tree", Title: b.d.Say("Tree"),
		Fields:  b.Fields("tree", "species", "height_m", "diameter_cm", "lean_deg", "lean_bearing_deg", "cavity_cm"),
		Summary: words.Listed(species, b.Shown("tree.height_m"), b.Shown("tree.diameter_cm"), cmp.Or(b.d.Given("leans %s toward %s", b.Shown("tree.lean_deg"), b.Shown("tree.lean_bearing_deg")), b.d.Given("leans %s", b.Shown("tree.lean_deg")))),
		Sections: []parts.Section{
			{ID: "tree#crown", Title: b.d.Say("Crown"), Fields: b.Fields("tree", "grown", "crown_fraction", "crown_centre_m", "crown_offset_m", "crown_offset_bearing_deg"),
				Help: b.d.Say("If empty, an even crown is taken, as heavy as that of an open-grown tree."),
				Summary: words.Listed(b.d.Given("share %s", b.Shown("tree.crown_fraction")),
					cmp.Or(b.d.Given("offset %s toward %s", b.Shown("tree.crown_offset_m"), b.Shown("tree.crown_offset_bearing_deg")), b.d.Given("offset %s", b.Shown("tree.crown_offset_m"))))},
			{ID: "tree#wood", Title: b.d.Say("Wood and stem form"), Fields: b.Fields("tree", "form_factor", "green_density_kgm3", "bending_strength_MPa"),
				Help:    b.d.Say("If empty, the figures of the species are taken."),
				Summary: words.Listed(b.Shown("tree.green_density_kgm3"), b.Shown("tree.bending_strength_MPa"))},
			b.stemSections(),
			b.defects(),
			{ID: "tree#mass", Title: b.d.Say("Mass, if known"), Fields: b.Fields("tree", "mass_kg", "mass_centre_m"),
				Help:    b.d.Say("If empty, mass and {centre} of mass are estimated from the measurements above."),
				Summary: words.Listed(b.Shown("tree.mass_kg"), b.d.Given("{centre} at %s", b.Shown("tree.mass_centre_m")))},
		},
	}
}

// stemSections is the list of diameters by height.
func (b *builder) stemSections() parts.Section {
	n := b.d.Size("tree.sections")
	s := parts.Section{
		ID: "tree.sections", Title: b.d.Say("Stem diameters at several heights"),
		Help:    b.d.Say("Diameters given here set the volume and {centre} of the stem in place of diameter and form factor. Measure at breast height and at equal steps of up to 5 m; with a thick flare, at the ground too."),
		Actions: []parts.Action{{Do: "add", Path: "tree.sections", Label: b.d.Say("Add a diameter")}},
	}
	if n > 0 {
		s.Summary = b.d.HowMany(n, "1 diameter", "%s diameters")
		s.Actions = append(s.Actions, parts.Action{Do: "remove", Path: "tree.sections", Label: b.d.Say("Remove all")})
	}
	for i := range n {
		path := draft.Elem("tree.sections", i)
		s.Sections = append(s.Sections, parts.Section{
			ID: path, Title: b.d.Say("Diameter %s", strconv.Itoa(i+1)), Fields: b.Fields(path, "height_m", "diameter_cm"),
			Summary: words.Listed(b.Shown(path+".diameter_cm"), b.d.Given("at %s", b.Shown(path+".height_m"))),
			Actions: []parts.Action{{Do: "remove", Path: path, Label: b.d.Say("Remove this diameter")}},
		})
	}
	return s
}

// defects is the list of weak places of the stem.
func (b *builder) defects() parts.Section {
	const list = "tree.defects"
	n := b.d.Size(list)
	s := parts.Section{
		ID: list, Title: b.d.Say("Weak places of the {stem}"),
		Help:    b.d.Say("A cavity, an old wound or a fork between the cut and the tie: the {stem} bears less there. Look for them before the line goes up."),
		Actions: []parts.Action{{Do: "add", Path: list, Label: b.d.Say("Add a weak place")}},
	}
	if n > 0 {
		s.Summary = b.d.Count(n, "1 weak place", "%s weak places")
		s.Actions = append(s.Actions, parts.Action{Do: "remove", Path: list, Label: b.d.Say("Remove them all")})
	}
	for i := range n {
		path := draft.Elem(list, i)
		kind := parts.LabelOf(b.d.Locale, fields.DefectKinds, b.d.Text(path+".kind"))
		s.Sections = append(s.Sections, parts.Section{
			ID: path, Title: b.d.Say("Weak place no. %s", strconv.Itoa(i+1)), Fields: b.Fields(path, "kind", "height_m", "cavity_cm"),
			Summary: words.Listed(kind, b.Shown(path+".height_m"), b.Shown(path+".cavity_cm")),
			Actions: []parts.Action{{Do: "remove", Path: path, Label: b.d.Say("Remove this weak place")}},
		})
	}
	return s
}

// fork is the form's section of a stem among several.
func (b *builder) fork() parts.Section {
	return parts.Section{
		ID: "fork", Title: b.d.Say("One of several stems"),
		Help:    b.d.Say("For a forked tree: one plan per stem. If empty, the tree has one stem."),
		Fields:  b.Fields("fork", "tree", "stem", "of", "order"),
		Summary: words.Listed(b.Written("fork.tree"), cmp.Or(b.d.Given("stem %s of %s", b.Shown("fork.stem"), b.Shown("fork.of")), b.d.Given("stem %s", b.Shown("fork.stem")))),
	}
}

func (b *builder) cut() parts.Section {
	return parts.Section{
		ID: "cut", Title: b.d.Say("Cut"),
		Help:   b.d.Say("The {scarf} faces the {lay}; the {hinge} is the wood left between it and the {back cut}."),
		Fields: b.Fields("cut", "stump_m", "face_opening_deg", "hinge_length_cm", "hinge_left_cm", "hinge_right_cm"),
		Summary: words.Listed(b.d.Given("{scarf} %s", b.Shown("cut.face_opening_deg")),
			cmp.Or(b.d.Given("{hinge} %s by %s/%s", b.Shown("cut.hinge_length_cm"), b.Shown("cut.hinge_left_cm"), b.Shown("cut.hinge_right_cm")),
				b.d.Given("{hinge} %s by %s", b.Shown("cut.hinge_length_cm"), b.Shown("cut.hinge_left_cm")), b.d.Given("{hinge} %s", b.Shown("cut.hinge_length_cm")))),
	}
}

func (b *builder) site() parts.Section {
	return parts.Section{
		ID: "site", Title: b.d.Say("Wind"),
		Help:    b.d.Say("Gusts are not modelled. In wind that moves the crown, leave the tree standing."),
		Fields:  []parts.Field{b.Field("site.wind_mps"), b.Field("tree.crown_area_m2"), b.Field("tree.drag_coefficient")},
		Summary: words.Listed(b.Shown("site.wind_mps")),
	}
}
