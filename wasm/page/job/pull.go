package job

import (
	"maps"
	"slices"

	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func (b *builder) pull() parts.Section {
	return parts.Section{
		ID: "pull", Title: b.d.Say("Planned pull"),
		Fields:  b.Fields("", "pull_date", "allowance", "planned_kN"),
		Summary: words.Listed(b.Shown("pull_date"), b.d.Given("allowance %s", b.Shown("allowance")), b.d.Given("planned tension %s", b.Shown("planned_kN"))),
	}
}

// measured are the fields whose measurement uncertainty is asked for.
var measured = []string{
	"tree.height_m", "tree.diameter_cm", "tree.lean_deg", "tree.lean_bearing_deg", "tree.form_factor", "tree.green_density_kgm3",
	"tree.bending_strength_MPa", "tree.crown_fraction", "tree.crown_centre_m", "tree.crown_offset_m", "tree.mass_kg", "tree.mass_centre_m",
	"cut.hinge_left_cm", "cut.hinge_right_cm", "site.wind_mps",
}

func (b *builder) giveOrTake() parts.Section {
	s := parts.Section{
		ID: "plus_minus", Title: b.d.Say("Measurement uncertainty (±)"),
		Help: b.d.Say("How far a measurement may be out either way, in 19 cases out of 20."),
	}
	listed := make(map[string]bool, len(measured))
	add := func(target string) {
		f := b.Field(draft.PlusMinus + target)
		f.Label = b.d.Say("± %s", fields.LabelOf(b.d, target))
		f.Help, f.Suggest, f.Options = "", nil, nil
		if f.Kind != fields.Number {
			f.Kind, f.Unit = fields.Text, ""
		}
		s.Fields = append(s.Fields, f)
		listed[target] = true
	}
	for _, target := range measured {
		if b.d.Has(target) || b.d.Has(draft.PlusMinus+target) {
			add(target)
		}
	}
	for i := range b.d.List("points") {
		add(draft.Elem("points", i) + ".distance_m")
	}
	for i := range b.d.List("lines") {
		for j := range b.d.List(draft.Elem("lines", i) + ".path") {
			if st := draft.Elem(draft.Elem("lines", i)+".path", j); b.d.Station(st) == "stem" {
				add(st + ".stem_m")
			}
		}
	}
	given := b.d.Object("plus_minus")
	for _, target := range slices.Sorted(maps.Keys(given)) {
		if !listed[target] {
			add(target)
		}
	}
	s.Summary = b.d.HowMany(len(given), "1 measurement", "%s measurements")
	return s
}
