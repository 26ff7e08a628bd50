package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// sections reads the stem's diameters by height, which stand in for diameter
// and form factor where they are given:
//
//	"sections": [{"height_m": 1.3, "diameter_cm": 85}, {"height_m": 6, "diameter_cm": 70}]
//
// A list that makes no stem keeps the plan from being computed.
func (r *reader) sections(t *object, m *model) {
	if !t.has("sections") {
		return
	}
	before := len(r.problems)
	s := &rigging.StemSections{Height: m.setup.Tree.Height}
	for i, raw := range t.list("sections", maxList) {
		o := r.object(t.item("sections", i), raw, true)
		p := rigging.DiameterAt{
			Height:   o.required("height_m", spanStem0),
			Diameter: o.required("diameter_cm", spanSection) * rigging.CM,
		}
		o.done()
		for k := range s.Points {
			if gap := s.Points[k].Height - p.Height; gap > -rigging.CM && gap < rigging.CM {
				o.problem(CodeRange, "height_m", takes("own_height"), round(p.Height), "two_diameters", metres(p.Height, text.Nearest))
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
		t.problem(CodeRange, "sections", takes("sections"), nil, "sections")
		r.broken = true
	}
}

var (
	spanStem0   = Range{Min: 0, Max: 130, Unit: "m"}
	spanSection = Range{Min: 0.5, Max: 1000, Unit: "cm"}
)

const sectionSource = "Smalian and Newton as named by C. Goulding, NZ J. For. Sci. 9(1):89 (1979); formulas of forest mensuration texts, from memory"

// The steps of a tree measured in sections.
var (
	stepSectionVolume = step{"tree.volume_m3", "Stem volume by sections", "V = Σ ℓ/2·(A₁ + A₂) (Smalian) and Σ ℓ/6·(A₁ + 4·A_m + A₂) (Newton); a cone to the tip", "m³", sectionSource,
		[]quantity{{"n", "diameters measured", "", ""}, {"H", "height", "m", ""}}}
	stepSectionMass = step{"tree.mass_kg", "Mass above the hinge, with crown", "m = ρ·Vₛ + c·ρ·V", "kg", sectionSource,
		[]quantity{{"ρ", "green density with bark", "kg/m³", "tree.green_density_kgm3"}, {"Vₛ", "stem volume above the cut, by sections", "m³", ""}, {"V", "stem volume", "m³", "tree.volume_m3"}, {"c", "crown mass over stem mass", "", "tree.crown_fraction"}}}
	stepSectionCentre = step{"tree.mass_centre_m", "Height of the mass centre along the stem", "z = (m₁·zₛ + m₂·h_c) / (m₁ + m₂)", "m", "moments of the sections about the ground; weighted mean",
		[]quantity{{"m₁", "stem above the cut", "kg", ""}, {"zₛ", "its centre, by sections", "m", ""}, {"m₂", "crown", "kg", ""}, {"h_c", "height of the crown's centre", "m", "tree.crown_centre_m"}}}
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
