package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// sections reads the stem's diameters by height, which stand in for diameter
// and form factor where they are given:
//
//	"sections": [{"height_m": 1.3, "diameter_cm": 85}, {"height_m": 6, "diameter_cm": 70}]
//
// A list that makes no stem keeps the plan from being computed.
func (r *reader) sections(t *object, m *model) {
	if !t.has(field.Sections) {
		return
	}
	before := len(r.problems)
	s := &rigging.StemSections{Height: m.setup.Tree.Height}
	for i, raw := range t.list(field.Sections) {
		o := t.entry(field.Sections, i, raw)
		p := rigging.DiameterAt{
			Height:   o.number(field.SectionHeight),
			Diameter: o.number(field.SectionDiameter) * rigging.CM,
		}
		o.done()
		for k := range s.Points {
			if gap := s.Points[k].Height - p.Height; gap > -rigging.CM && gap < rigging.CM {
				o.problem(CodeRange, field.SectionHeight, takes("own_height"), round(p.Height), "two_diameters", metres(p.Height, text.Nearest))
				break
			}
		}
		s.Points = append(s.Points, p)
	}
	m.setup.Tree.Sections = s
	if len(r.problems) > before || math.IsNaN(s.Height) { // the height has its own problem
		r.broken = true
		return
	}
	if _, _, err := s.Volume(0); err != nil {
		t.problem(CodeRange, field.Sections, takes("sections"), nil, "sections")
		r.broken = true
	}
}

// The steps of a tree measured in sections.
var (
	stepSectionVolume = step{"section_volume", "tree.volume_m3", "V = Σ ℓ/2·(A₁ + A₂) (Smalian) and Σ ℓ/6·(A₁ + 4·A_m + A₂) (Newton); a cone to the tip", "m³",
		[]quantity{{"n", "letter.diameters_measured", "", ""}, {"H", "letter.height", "m", ""}}}
	stepSectionMass = step{"section_mass", "tree.mass_kg", "m = ρ·Vₛ + c·ρ·V", "kg",
		[]quantity{{"ρ", "letter.green_density_with_bark", "kg/m³", "tree.green_density_kgm3"}, {"Vₛ", "letter.stem_volume_above_the_cut_by", "m³", ""}, {"V", "letter.stem_volume", "m³", "tree.volume_m3"}, {"c", "letter.crown_mass_over_stem_mass", "", "tree.crown_fraction"}}}
	stepSectionCentre = step{"section_centre", "tree.mass_centre_m", "z = (m₁·zₛ + m₂·h_c) / (m₁ + m₂)", "m",
		[]quantity{{"m₁", "letter.stem_above_the_cut", "kg", ""}, {"zₛ", "letter.its_centre_by_sections", "m", ""}, {"m₂", "letter.crown", "kg", ""}, {"h_c", "letter.height_of_the_crown_centre", "m", "tree.crown_centre_m"}}}
)

// sectionWork is the mass (kg), volume (m³) and centre (m) of the stem above
// the cut by its sections; NaN where there are none.
func (e *evaluation) sectionWork() (mass, volume, centre float64) {
	t := &e.m.setup.Tree
	if t.Sections == nil {
		return math.NaN(), math.NaN(), math.NaN()
	}
	volume, centre, err := t.Sections.Volume(e.m.setup.Stump)
	if err != nil {
		return math.NaN(), math.NaN(), math.NaN()
	}
	return volume * t.Density, volume, centre
}
