package plan

import (
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// A quantity is a symbol of a formula, the key of what it stands for, its unit and the
// path of the step it comes from, or of the plan's field where that may be
// left to a default, if it is always the same.
type quantity struct{ symbol, key, unit, from string }

// A step is one line of the working as it reads in every plan: the key of its
// name and source, the report field it explains, the formula, the result's unit
// and the quantities that go into it, in the order in which add takes them. The
// drawings use the same letters.
type step struct {
	key, path, formula, unit string

	quantities []quantity
}

// The steps of the tree.
var (
	stepVolume = step{"volume", "tree.volume_m3", "V = f · π/4 · D² · H", "m³",
		[]quantity{{"f", "letter.form_factor", "", "tree.form_factor"}, {"D", "letter.diameter_at_breast_height", "m", ""}, {"H", "letter.height", "m", ""}}}
	stepMeasuredMass = step{"measured_mass", "tree.mass_kg", "as measured", "kg", nil}
	stepMass         = step{"mass", "tree.mass_kg", "m = ρ·V·(1 − s/H)^(1/f) + c·ρ·V", "kg",
		[]quantity{{"ρ", "letter.green_density_with_bark", "kg/m³", "tree.green_density_kgm3"}, {"V", "letter.stem_volume", "m³", "tree.volume_m3"}, {"s", "letter.height_of_the_cut", "m", "cut.stump_m"},
			{"H", "letter.height", "m", ""}, {"f", "letter.form_factor", "", "tree.form_factor"}, {"c", "letter.crown_mass_over_stem_mass", "", "tree.crown_fraction"}}}
	stepWeight = step{"weight", "tree.weight_kN", "W = m·g", "kN",
		[]quantity{{"m", "letter.mass_above_the_hinge", "kg", "tree.mass_kg"}, {"g", "letter.acceleration_of_free_fall", "m/s²", ""}}}
	stepMeasuredCentre = step{"measured_centre", "tree.mass_centre_m", "as measured", "m", nil}
	stepCentre         = step{"centre", "tree.mass_centre_m", "z = (m₁·(s + (H − s)·f/(1 + f)) + m₂·h_c) / (m₁ + m₂)", "m",
		[]quantity{{"m₁", "letter.stem_above_the_cut", "kg", ""}, {"m₂", "letter.crown", "kg", ""}, {"s", "letter.height_of_the_cut", "m", "cut.stump_m"},
			{"H", "letter.height", "m", ""}, {"f", "letter.form_factor", "", "tree.form_factor"}, {"h_c", "letter.height_of_the_crown_centre", "m", "tree.crown_centre_m"}}}
	centreQuantities = []quantity{{"z", "letter.height_of_the_mass_centre_along", "m", "tree.mass_centre_m"}, {"s", "letter.height_of_the_cut", "m", "cut.stump_m"},
		{"λ", "letter.lean", "°", ""}, {"β", "letter.bearing_of_the_lean", "°", ""}, {"e", "letter.crown_offset_by_its_share_of", "m", ""}, {"β_e", "letter.bearing_of_the_offset", "°", ""}}
	stepAhead   = step{"ahead", "tree.forward_m", "x = (z − s)·sin λ·cos β + e·cos β_e", "m", centreQuantities}
	stepLeft    = step{"left", "tree.left_m", "y = −(z − s)·sin λ·sin β − e·sin β_e", "m", centreQuantities}
	stepForward = step{"forward", "tree.forward_moment_kNm", "M_g = W·x", "kN·m",
		[]quantity{{"W", "letter.weight", "kN", "tree.weight_kN"}, {"x", "letter.mass_centre_ahead_of_the_hinge", "m", "tree.forward_m"}}}
	stepSide = step{"side", "tree.side_moment_kNm", "M_y = W·y", "kN·m",
		[]quantity{{"W", "letter.weight", "kN", "tree.weight_kN"}, {"y", "letter.mass_centre_left_of_the_hinge", "m", "tree.left_m"}}}
	stepWind = step{"wind", "tree.wind_moment_kNm", "M_w = ½·ρₐ·C_d·A·v²·z_c", "kN·m",
		[]quantity{{"ρₐ", "letter.density_of_air", "kg/m³", ""}, {"C_d", "letter.drag_coefficient", "", "tree.drag_coefficient"}, {"A", "letter.crown_area", "m²", "tree.crown_area_m2"},
			{"v", "letter.wind", "m/s", ""}, {"z_c", "letter.crown_centre_above_the_hinge", "m", ""}}}
	stepHinge = step{"hinge", "tree.hinge_moment_kNm", "Mₕ = κ·σ·b·(l² + l·r + r²)/18", "kN·m",
		[]quantity{{"κ", "letter.fully_plastic_over_first_yield", "", ""}, {"σ", "letter.green_bending_strength", "MPa", "tree.bending_strength_MPa"},
			{"b", "letter.hinge_length", "m", "cut.hinge_length_cm"}, {"l", "letter.thickness_at_the_left", "m", "cut.hinge_left_cm"}, {"r", "letter.thickness_at_the_right", "m", "cut.hinge_right_cm"}}}
)

// working shows how each main number came about, in the order in which they
// are worked out.
func (e *evaluation) working(rep *Report) []Working {
	if e.r.broken || e.pull == nil {
		return nil
	}
	w := &workings{list: make([]Working, 0, 128)}
	e.workTree(w, rep)
	if e.solved {
		e.workPull(w, rep)
		e.workStem(w, rep)
		e.workLines(w, rep)
		e.workPoints(w, rep)
		e.workGear(w, rep)
		e.workLimit(w, rep)
	}
	w.link(e.r.assumed)
	return w.list
}

// workings are the steps so far.
type workings struct{ list []Working }

// named is the name of a step of one line, piece or point.
func named(key string, args ...any) text.Saying { return text.Saying{Key: key, Args: args} }

// add writes a step with its result and the values of its quantities.
func (w *workings) add(s *step, result Num, values ...float64) *Working {
	return w.addFor(s.path, text.Saying{Key: "step." + s.key}, s, result, values...)
}

// addFor writes a step of one line, piece or point. Where there are more
// values than quantities these are taken anew. What it gives can be used until
// the next step. Written out at each of its calls it would make the program
// larger for nothing.
//
//go:noinline
func (w *workings) addFor(path string, name text.Saying, s *step, result Num, values ...float64) *Working {
	shown := make([]WorkingValue, len(values))
	for i, v := range values {
		q := &s.quantities[i%len(s.quantities)]
		shown[i] = WorkingValue{Symbol: q.symbol, Saying: text.Saying{Key: q.key}, Value: Num(v), Unit: q.unit, From: q.from}
	}
	w.list = append(w.list, Working{Path: path, Formula: s.formula, Values: shown, Result: result, Unit: s.unit, Saying: name, From: s.key})
	return &w.list[len(w.list)-1]
}

// from says which step value i comes from.
func (x *Working) from(i int, path string) { x.Values[i].From = path }

// link keeps only the origins that there is a step or an assumed value for.
func (w *workings) link(assumed []Assumed) {
	paths := make(map[string]bool, len(w.list)+len(assumed))
	for i := range assumed {
		paths[assumed[i].Path] = true
	}
	for i := range w.list {
		paths[w.list[i].Path] = true
	}
	for i := range w.list {
		for k := range w.list[i].Values {
			if v := &w.list[i].Values[k]; !paths[v.From] {
				v.From = ""
			}
		}
	}
}

func (e *evaluation) workTree(w *workings, rep *Report) {
	s := &e.m.setup
	t, b, h, tr := &s.Tree, &e.pull.Body, &s.Hinge, &rep.Tree
	weight := b.Weight / rigging.KN
	sections, above, centre := e.sectionWork()
	if t.Sections != nil {
		w.add(&stepSectionVolume, tr.VolumeM3, float64(len(t.Sections.Points)), t.Height)
	} else {
		w.add(&stepVolume, tr.VolumeM3, t.FormFactor, t.Diameter, t.Height)
	}
	switch {
	case t.Mass > 0:
		w.add(&stepMeasuredMass, tr.MassKg)
	case t.Sections != nil:
		w.add(&stepSectionMass, tr.MassKg, t.Density, above, e.m.volume, t.CrownShare)
	default:
		w.add(&stepMass, tr.MassKg, t.Density, e.m.volume, s.Stump, t.Height, t.FormFactor, t.CrownShare)
	}
	w.add(&stepWeight, tr.WeightKN, b.Mass, rigging.G)
	switch {
	case t.MassCentre > 0:
		w.add(&stepMeasuredCentre, tr.MassCentreM)
	case t.Sections != nil:
		w.add(&stepSectionCentre, tr.MassCentreM, sections, centre, b.CrownMass, t.CrownCentre)
	default:
		stem := b.StemMass * math.Pow(1-s.Stump/t.Height, 1/t.FormFactor)
		w.add(&stepCentre, tr.MassCentreM, stem, b.CrownMass, s.Stump, t.Height, t.FormFactor, t.CrownCentre)
	}
	offset := b.Centre.Sub(t.Axis().Scale(b.CentreHeight - s.Stump)).Horizontal()
	place := []float64{b.CentreHeight, s.Stump, t.Lean / rigging.Deg, t.LeanBearing / rigging.Deg, offset, t.CrownOffsetBearing / rigging.Deg}
	w.add(&stepAhead, tr.ForwardM, place...)
	w.add(&stepLeft, tr.LeftM, place...)
	w.add(&stepForward, tr.ForwardMomentKNm, weight, b.Centre.X)
	w.add(&stepSide, tr.SideMomentKNm, weight, b.Centre.Y)
	if s.Wind > 0 {
		w.add(&stepWind, tr.WindMomentKNm, rigging.AirDensity, t.DragCoefficient, t.CrownArea, s.Wind, b.CrownCentre.Z)
	}
	w.add(&stepHinge, tr.HingeMomentKNm, rigging.HingePlastic, t.Strength/rigging.MPa, h.Length, h.Left, h.Right)
}

// numbered is the path of a field of one member of a list of the report.
func numbered(list string, i int, field string) string {
	return list + "[" + strconv.Itoa(i) + "]." + field
}

// legPath is the path of the tension of a leg of line i.
func legPath(i, leg int) string {
	return numbered("lines", i, "legs["+strconv.Itoa(leg)+"].tension_kN")
}

// slopePath is the path of the slope of a leg of line i up to the stem.
func slopePath(i, leg int) string {
	return numbered("lines", i, "legs["+strconv.Itoa(leg)+"].slope_deg")
}

// LegSymbol is the letter of the tension of a line's leg, in the working and
// on the drawings: T₁, T₂ … of a pull line from its dead end on, S₁, S₂ … of
// the hauling part of a tackle, Tₕ of a hold line. leg counts from 0 within
// its kind, of so many.
func LegSymbol(hold, hauling bool, leg, of int) string {
	number := ""
	for _, c := range strconv.Itoa(leg + 1) {
		number += string('₀' + c - '0')
	}
	switch {
	case hauling && of == 1:
		return "S"
	case hauling:
		return "S" + number
	case hold && of == 1:
		return "Tₕ"
	case hold:
		return "Tₕ" + number
	}
	return "T" + number
}
