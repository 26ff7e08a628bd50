package plan

import (
	"math"
	"strconv"

	"pullline/rigging"
)

// A quantity is a symbol of a formula, what it stands for, its unit and the
// path of the step it comes from, or of the plan's field where that may be
// left to a default, if it is always the same.
type quantity struct{ symbol, name, unit, from string }

// A step is one line of the working as it reads in every plan: the report
// field it explains, its name, the formula, the result's unit, the source and
// the quantities that go into it, in the order in which add takes them. The
// drawings use the same letters.
type step struct {
	path, name, formula, unit, source string

	quantities []quantity
}

const (
	geometry = "geometry"
	statics  = "statics"
	calculus = "integral calculus for a stem of form factor f"
	balance  = "moment balance about the hinge"
	thePlan  = "the plan"
)

// The steps of the tree.
var (
	stepVolume = step{"tree.volume_m3", "Stem volume", "V = f · π/4 · D² · H", "m³", "form-factor volume, forest mensuration texts, from memory",
		[]quantity{{"f", "form factor", "", "tree.form_factor"}, {"D", "diameter at breast height", "m", ""}, {"H", "height", "m", ""}}}
	stepMeasuredMass = step{"tree.mass_kg", "Mass above the hinge", "as measured", "kg", thePlan, nil}
	stepMass         = step{"tree.mass_kg", "Mass above the hinge, with crown", "m = ρ·V·(1 − s/H)^(1/f) + c·ρ·V", "kg", calculus,
		[]quantity{{"ρ", "green density with bark", "kg/m³", "tree.green_density_kgm3"}, {"V", "stem volume", "m³", "tree.volume_m3"}, {"s", "height of the cut", "m", "cut.stump_m"},
			{"H", "height", "m", ""}, {"f", "form factor", "", "tree.form_factor"}, {"c", "crown mass over stem mass", "", "tree.crown_fraction"}}}
	stepWeight = step{"tree.weight_kN", "Weight", "W = m·g", "kN", "standard acceleration of free fall, CGPM 1901; 1000 N are 1 kN",
		[]quantity{{"m", "mass above the hinge", "kg", "tree.mass_kg"}, {"g", "acceleration of free fall", "m/s²", ""}}}
	stepMeasuredCentre = step{"tree.mass_centre_m", "Height of the mass centre", "as measured", "m", thePlan, nil}
	stepCentre         = step{"tree.mass_centre_m", "Height of the mass centre along the stem", "z = (m₁·(s + (H − s)·f/(1 + f)) + m₂·h_c) / (m₁ + m₂)", "m", "integral calculus; weighted mean",
		[]quantity{{"m₁", "stem above the cut", "kg", ""}, {"m₂", "crown", "kg", ""}, {"s", "height of the cut", "m", "cut.stump_m"},
			{"H", "height", "m", ""}, {"f", "form factor", "", "tree.form_factor"}, {"h_c", "height of the crown's centre", "m", "tree.crown_centre_m"}}}
	centreQuantities = []quantity{{"z", "height of the mass centre along the stem", "m", "tree.mass_centre_m"}, {"s", "height of the cut", "m", "cut.stump_m"},
		{"λ", "lean", "°", ""}, {"β", "bearing of the lean", "°", ""}, {"e", "crown's offset, by its share of the mass", "m", ""}, {"β_e", "bearing of the offset", "°", ""}}
	stepAhead   = step{"tree.forward_m", "Mass centre ahead of the hinge (below 0: behind)", "x = (z − s)·sin λ·cos β + e·cos β_e", "m", geometry, centreQuantities}
	stepLeft    = step{"tree.left_m", "Mass centre left of the hinge's middle (below 0: right)", "y = −(z − s)·sin λ·sin β − e·sin β_e", "m", geometry, centreQuantities}
	stepForward = step{"tree.forward_moment_kNm", "Moment of the weight toward the lay (below 0: away from it)", "M_g = W·x", "kN·m", statics,
		[]quantity{{"W", "weight", "kN", "tree.weight_kN"}, {"x", "mass centre ahead of the hinge", "m", "tree.forward_m"}}}
	stepSide = step{"tree.side_moment_kNm", "Moment of the weight to the left (below 0: to the right)", "M_y = W·y", "kN·m", statics,
		[]quantity{{"W", "weight", "kN", "tree.weight_kN"}, {"y", "mass centre left of the hinge's middle", "m", "tree.left_m"}}}
	stepWind = step{"tree.wind_moment_kNm", "Moment of the wind against the lay", "M_w = ½·ρₐ·C_d·A·v²·z_c", "kN·m", "Arboriculture & Urban Forestry 31(3):101 (2005); 1000 N·m are 1 kN·m",
		[]quantity{{"ρₐ", "density of air", "kg/m³", ""}, {"C_d", "drag coefficient", "", "tree.drag_coefficient"}, {"A", "crown area", "m²", "tree.crown_area_m2"},
			{"v", "wind", "m/s", ""}, {"z_c", "crown's centre above the hinge", "m", ""}}}
	stepHinge = step{"tree.hinge_moment_kNm", "Moment the hinge resists while it bends", "Mₕ = κ·σ·b·(l² + l·r + r²)/18", "kN·m", "beam theory; 1 MPa is 1000 kN/m²",
		[]quantity{{"κ", "fully plastic over first yield", "", ""}, {"σ", "green bending strength", "MPa", "tree.bending_strength_MPa"},
			{"b", "hinge length", "m", "cut.hinge_length_cm"}, {"l", "thickness at the left", "m", "cut.hinge_left_cm"}, {"r", "thickness at the right", "m", "cut.hinge_right_cm"}}}
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
		e.workLines(w, rep)
		e.workPoints(w, rep)
		e.workGear(w, rep)
		e.workLimit(w, rep)
	}
	w.link(e.r.assumed)
	return w.list
}

// workings are the steps so far; of is the name of the line, piece or point
// that they are of.
type workings struct {
	list []Working
	of   string
}

// add writes a step with its result and the values of its quantities.
func (w *workings) add(s *step, result Num, values ...float64) *Working {
	return w.addFor(s.path, s.name, s, result, values...)
}

// addFor writes a step of one line, piece or point. Where there are more
// values than quantities these are taken anew. What it gives can be used until
// the next step. Written out at each of its calls it would make the program
// larger for nothing.
//
//go:noinline
func (w *workings) addFor(path, name string, s *step, result Num, values ...float64) *Working {
	shown := make([]WorkingValue, len(values))
	for i, v := range values {
		q := &s.quantities[i%len(s.quantities)]
		shown[i] = WorkingValue{Symbol: q.symbol, Name: q.name, Value: Num(v), Unit: q.unit, From: q.from}
	}
	w.list = append(w.list, Working{Path: path, Name: name, Formula: s.formula, Values: shown, Result: result, Unit: s.unit, Source: s.source, Of: w.of})
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
