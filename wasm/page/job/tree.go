package job

import (
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
		ID: "tree", Title: "The tree",
		Fields:  b.Fields("tree", "species", "height_m", "diameter_cm", "lean_deg", "lean_bearing_deg", "cavity_cm"),
		Summary: words.Listed(species, b.Shown("tree.height_m"), b.Shown("tree.diameter_cm"), words.Around("leans ", b.Shown("tree.lean_deg"), words.Around(" toward ", b.Shown("tree.lean_bearing_deg"), ""))),
		Sections: []parts.Section{
			{ID: "tree#crown", Title: "Crown", Fields: b.Fields("tree", "grown", "crown_fraction", "crown_centre_m", "crown_offset_m", "crown_offset_bearing_deg"),
				Help:    "Left empty, an even crown is taken, as heavy as that of a tree grown in the open.",
				Summary: words.Listed(words.Around("share ", b.Shown("tree.crown_fraction"), ""), words.Around("out by ", b.Shown("tree.crown_offset_m"), words.Around(" toward ", b.Shown("tree.crown_offset_bearing_deg"), "")))},
			{ID: "tree#wood", Title: "Wood and shape", Fields: b.Fields("tree", "form_factor", "green_density_kgm3", "bending_strength_MPa"),
				Help:    "Left empty, the species' figures are taken.",
				Summary: words.Listed(b.Shown("tree.green_density_kgm3"), b.Shown("tree.bending_strength_MPa"))},
			b.stemSections(),
			b.defects(),
			{ID: "tree#mass", Title: "Mass, if it is known", Fields: b.Fields("tree", "mass_kg", "mass_centre_m"),
				Help:    b.d.Say("Left empty, mass and mass {centre} are estimated from the sizes above."),
				Summary: words.Listed(b.Shown("tree.mass_kg"), words.Around(b.d.Say("{centre} at "), b.Shown("tree.mass_centre_m"), ""))},
		},
	}
}

// stemSections is the list of diameters by height.
func (b *builder) stemSections() parts.Section {
	n := b.d.Size("tree.sections")
	s := parts.Section{
		ID: "tree.sections", Title: "Stem measured at several heights",
		Help:    b.d.Say("With diameters here the stem's volume and {centre} come from them, not from diameter and form factor. Measure at breast height and at equal steps of up to 5 m; with a thick flare, at the ground too."),
		Actions: []parts.Action{{Do: "add", Path: "tree.sections", Label: "Add a diameter"}},
	}
	if n > 0 {
		s.Summary = words.CountOf(n, "diameter", "diameters")
		s.Actions = append(s.Actions, parts.Action{Do: "remove", Path: "tree.sections", Label: "Remove them all"})
	}
	for i := range n {
		path := draft.Elem("tree.sections", i)
		s.Sections = append(s.Sections, parts.Section{
			ID: path, Title: "Diameter no. " + strconv.Itoa(i+1), Fields: b.Fields(path, "height_m", "diameter_cm"),
			Summary: words.Listed(b.Shown(path+".diameter_cm"), words.Around("at ", b.Shown(path+".height_m"), "")),
			Actions: []parts.Action{{Do: "remove", Path: path, Label: "Remove this diameter"}},
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
		ID: "fork", Title: "One of several stems",
		Help:    "For a forked tree: a plan for each stem. Left empty, the tree has one stem.",
		Fields:  b.Fields("fork", "tree", "stem", "of", "order"),
		Summary: words.Listed(b.Written("fork.tree"), words.Around("stem ", b.Shown("fork.stem"), words.Around(" of ", b.Shown("fork.of"), ""))),
	}
}

func (b *builder) cut() parts.Section {
	return parts.Section{
		ID: "cut", Title: "The cut",
		Help:    b.d.Say("The {scarf} faces the {lay}; the {hinge} is the wood left between it and the {back cut}."),
		Fields:  b.Fields("cut", "stump_m", "face_opening_deg", "hinge_length_cm", "hinge_left_cm", "hinge_right_cm"),
		Summary: words.Listed(words.Around(b.d.Say("{scarf} "), b.Shown("cut.face_opening_deg"), ""), words.Around(b.d.Say("{hinge} "), b.Shown("cut.hinge_length_cm"), words.Around(" by ", b.Shown("cut.hinge_left_cm"), words.Around("/", b.Shown("cut.hinge_right_cm"), "")))),
	}
}

func (b *builder) site() parts.Section {
	return parts.Section{
		ID: "site", Title: "Wind",
		Help:    "Gusts are not modelled; in wind that moves the crown, leave it standing.",
		Fields:  []parts.Field{b.Field("site.wind_mps"), b.Field("tree.crown_area_m2"), b.Field("tree.drag_coefficient")},
		Summary: words.Listed(b.Shown("site.wind_mps")),
	}
}
