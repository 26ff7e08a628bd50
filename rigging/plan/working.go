package plan

import (
	"math"
	"strconv"

	"pullline/rigging"
)

// A quantity is a symbol of a formula, what it stands for and its unit.
type quantity struct{ symbol, name, unit string }

// A step is one line of the working as it reads in every plan: the report
// field it explains, its name, the formula, the result's unit, the source and
// the quantities that go into it, in the order in which add takes them.
type step struct {
	path, name, formula, unit, source string

	quantities []quantity
}

// The steps of the tree.
var (
	stepVolume = step{"tree.volume_m3", "Stem volume", "V = f · π/4 · D² · H", "m³", "form-factor volume, forest mensuration texts, from memory",
		[]quantity{{"f", "form factor", ""}, {"D", "diameter at breast height", "m"}, {"H", "height", "m"}}}
	stepMeasuredMass = step{"tree.mass_kg", "Mass above the hinge", "as measured", "kg", "the plan", nil}
	stepMass         = step{"tree.mass_kg", "Mass above the hinge, with crown", "m = ρ·V·(1 − s/H)^(1/f) + c·ρ·V", "kg", "integral calculus for a stem of form factor f",
		[]quantity{{"ρ", "green density with bark", "kg/m³"}, {"V", "stem volume", "m³"}, {"s", "height of the cut", "m"},
			{"H", "height", "m"}, {"f", "form factor", ""}, {"c", "crown mass over stem mass", ""}}}
	stepWeight = step{"tree.weight_kN", "Weight", "W = m·g", "kN", "standard acceleration of free fall, CGPM 1901",
		[]quantity{{"m", "mass above the hinge", "kg"}, {"g", "acceleration of free fall", "m/s²"}}}
	stepMeasuredCentre = step{"tree.mass_centre_m", "Height of the mass centre", "as measured", "m", "the plan", nil}
	stepCentre         = step{"tree.mass_centre_m", "Height of the mass centre along the stem", "z = (m₁·(s + (H − s)·f/(1 + f)) + m₂·h) / (m₁ + m₂)", "m", "integral calculus; weighted mean",
		[]quantity{{"m₁", "stem above the cut", "kg"}, {"m₂", "crown", "kg"}, {"s", "height of the cut", "m"},
			{"H", "height", "m"}, {"f", "form factor", ""}, {"h", "height of the crown's centre", "m"}}}
	stepForward = step{"tree.forward_moment_kNm", "Moment of the weight toward the lay (below 0: away from it)", "M = W·x", "kN·m", "statics",
		[]quantity{{"W", "weight", "kN"}, {"x", "mass centre ahead of the hinge", "m"}}}
	stepSide = step{"tree.side_moment_kNm", "Moment of the weight to the left (below 0: to the right)", "M = W·y", "kN·m", "statics",
		[]quantity{{"W", "weight", "kN"}, {"y", "mass centre left of the hinge's middle", "m"}}}
	stepWind = step{"tree.wind_moment_kNm", "Moment of the wind against the lay", "M = ½·ρ·C·A·v²·z", "kN·m", "Arboriculture & Urban Forestry 31(3):101 (2005)",
		[]quantity{{"ρ", "density of air", "kg/m³"}, {"C", "drag coefficient", ""}, {"A", "crown area", "m²"},
			{"v", "wind", "m/s"}, {"z", "crown's centre above the hinge", "m"}}}
	stepHinge = step{"tree.hinge_moment_kNm", "Moment the hinge resists while it bends", "M = κ·σ·b·(l² + l·r + r²)/18", "kN·m", "beam theory",
		[]quantity{{"κ", "fully plastic over first yield", ""}, {"σ", "green bending strength", "MPa"},
			{"b", "hinge length", "m"}, {"l", "thickness at the left", "m"}, {"r", "thickness at the right", "m"}}}
)

// The steps of the pull.
var (
	// stepLever takes its quantities once for each attachment.
	stepLever = step{"", "", "k = Σ m·(z·uₓ − x·u_z)", "m", "statics: moment per unit of tension about the hinge",
		[]quantity{{"x", "attachment ahead of the hinge", "m"}, {"z", "attachment above the hinge", "m"},
			{"Σm·uₓ", "rope toward the lay, per unit of tension", ""}, {"Σm·u_z", "rope upward, per unit of tension", ""}}}
	stepStart = step{"pull.start_kN", "Pull needed with the tree standing", "T = max(0, (Mₕ + M_w − M_g − M_s) / k)", "kN", "moment balance about the hinge",
		[]quantity{{"Mₕ", "hinge", "kN·m"}, {"M_w", "wind", "kN·m"}, {"M_g", "weight toward the lay", "kN·m"},
			{"M_s", "hold lines toward the lay", "kN·m"}, {"k", "lever of the pull lines", "m"}, {"Σ", "moment to overcome", "kN·m"}}}
	stepPeak = step{"pull.peak_kN", "Greatest pull needed", "the largest of T over the turn from standing until the tree commits", "kN", "the same balance at every turn",
		[]quantity{{"φ", "turn where it is needed", "°"}, {"φ_c", "turn at which the tree commits", "°"}}}
	stepOwnTension = step{"pull.planned_kN", "Planned tension", "the crew's own", "kN", "the plan",
		[]quantity{{"a·T", "allowance × greatest pull", "kN"}}}
	stepPlanned = step{"pull.planned_kN", "Planned tension", "T = a·T_peak", "kN", "the allowance is the plan's",
		[]quantity{{"a", "allowance", ""}, {"T_peak", "greatest pull needed", "kN"}}}
	stepSideHold = step{"tree.side_hold_use", "Side hold of the hinge, an estimate", "use = |M|·c/I / σ", "", "beam theory, elastic, the hinge as a beam on edge",
		[]quantity{{"M", "side moment left on the hinge", "kN·m"}, {"σ", "green bending strength", "MPa"},
			{"b", "hinge length", "m"}, {"l", "thickness at the left", "m"}, {"r", "thickness at the right", "m"}, {"c_v", "cavity", "m"}}}
)

// The steps of the loads. Their paths and names say which line or piece.
var (
	stepBlock = step{"", "", "R = √(T₁² + T₂² + 2·T₁·T₂·cos γ), T₂ = T₁·(1 + κ·sin(θ/2))/(1 − κ·sin(θ/2))", "kN", "sheave friction by wrap: κ = (1 − η)/(1 + η), θ = 180° − γ",
		[]quantity{{"T₁", "tension toward the tree", "kN"}, {"T₂", "tension toward the puller", "kN"}, {"γ", "angle between the legs", "°"}, {"η", "efficiency of the sheave", ""}}}
	stepTackle = step{"", "", "force balance at every moving block, T_out = T_in/η at every sheave", "", "linear system of the tackle; simple tackles agree with η + … + ηⁿ",
		[]quantity{{"η", "efficiency of a sheave", ""}, {"n", "ideal advantage", ""}}}
	stepHaul = step{"", "", "S = T_end/A · Π r", "kN", "tension of the last leg over the tackle's advantage, times each block of the hauling part",
		[]quantity{{"T_end", "last leg", "kN"}, {"A", "actual advantage", ""}, {"Π r", "blocks of the hauling part", ""}}}
	// stepGear takes its last two only where the piece has a breaking load.
	stepGear = step{"", "", "use = load / (limit · hitch · Π reductions)", "", "working load limit, or breaking load over design factor",
		[]quantity{{"limit", "working load limit", "kN"}, {"hitch", "hitch factor", ""}, {"Π", "reductions together", ""}, {"load", "load", "kN"},
			{"MBL", "breaking load", "kN"}, {"ν", "design factor", ""}}}
	stepPoint = step{"", "", "use = load / capacity, by the kind of anchor", "", "horizontal load for machines and trees, whole load otherwise",
		[]quantity{{"R", "whole load", "kN"}, {"Rₕ", "horizontal part", "kN"}, {"R_v", "uplift", "kN"}, {"capacity", "what it holds", "kN"}}}
)

// working shows how each main number came about, in the order in which they
// are worked out.
func (e *evaluation) working(rep *Report) []Working {
	if e.r.broken || e.pull == nil {
		return nil
	}
	w := &workings{}
	e.workTree(w, rep)
	if e.solved {
		e.workPull(w, rep)
		e.workLoads(w, rep)
	}
	return w.list
}

type workings struct{ list []Working }

// add writes a step with its result and the values of its quantities.
func (w *workings) add(s *step, result Num, values ...float64) {
	w.addFor(s.path, s.name, s, result, values...)
}

// addFor writes a step of one line, piece or point. Written out at each of its
// calls it would make the program larger for nothing.
//
//go:noinline
func (w *workings) addFor(path, name string, s *step, result Num, values ...float64) {
	shown := make([]WorkingValue, len(values))
	for i, v := range values {
		q := &s.quantities[i%len(s.quantities)]
		shown[i] = WorkingValue{Symbol: q.symbol, Name: q.name, Value: Num(v), Unit: q.unit}
	}
	w.list = append(w.list, Working{Path: path, Name: name, Formula: s.formula, Values: shown, Result: result, Unit: s.unit, Source: s.source})
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
	w.add(&stepForward, tr.ForwardMomentKNm, weight, b.Centre.X)
	w.add(&stepSide, tr.SideMomentKNm, weight, b.Centre.Y)
	if s.Wind > 0 {
		w.add(&stepWind, tr.WindMomentKNm, rigging.AirDensity, t.DragCoefficient, t.CrownArea, s.Wind, b.CrownCentre.Z)
	}
	w.add(&stepHinge, tr.HingeMomentKNm, rigging.HingePlastic, t.Strength/rigging.MPa, h.Length, h.Left, h.Right)
}

func (e *evaluation) workPull(w *workings, rep *Report) {
	p, tr := e.pull, &rep.Tree
	for i := range e.m.lines {
		l, st := &e.m.lines[i], &p.Standing[i]
		w.addFor(numbered("lines", i, "turning_share"), "Lever of line "+l.id+" toward the lay", &stepLever, Num(st.Forward), lineLevers(l, st)...)
	}
	holdForward := 0.0
	if len(p.Curve) > 0 {
		for i := range e.m.lines {
			holdForward += p.Curve[0].Hold[i] * p.Standing[i].Forward
		}
	}
	against := p.HingeMoment + p.WindMoment - p.Body.Weight*p.Body.Centre.X
	w.add(&stepStart, rep.Pull.StartKN, p.HingeMoment/rigging.KNm, p.WindMoment/rigging.KNm, float64(tr.ForwardMomentKNm),
		holdForward/rigging.KNm, p.Lever, against/rigging.KNm)
	w.add(&stepPeak, rep.Pull.PeakKN, p.PeakTurn/rigging.Deg, p.Commit/rigging.Deg)
	if e.m.planned > 0 {
		w.add(&stepOwnTension, rep.Pull.PlannedKN, e.m.allowance*p.Peak/rigging.KN)
	} else {
		w.add(&stepPlanned, rep.Pull.PlannedKN, e.m.allowance, p.Peak/rigging.KN)
	}
	t, h := &e.m.setup.Tree, &e.m.setup.Hinge
	w.add(&stepSideHold, tr.SideHoldUse, p.SideMoment/rigging.KNm, t.Strength/rigging.MPa, h.Length, h.Left, h.Right, t.Cavity)
}

// lineLevers are the values of a line's lever: its attachments and the
// direction of the rope there.
func lineLevers(l *line, st *rigging.LineState) []float64 {
	var out []float64
	for k := range l.stations {
		if l.stations[k].onStem {
			f, a := st.Force(k), st.Places[k]
			out = append(out, a.X, a.Z, f.X, f.Z)
		}
	}
	return out
}

func (e *evaluation) workLoads(w *workings, rep *Report) {
	for i := range e.m.lines {
		l, ll, st := &e.m.lines[i], &e.loads[i], &e.pull.Standing[i]
		for k := 1; k < len(l.stations)-1; k++ {
			e.workBlock(w, &l.stations[k], st.Multiple[k-1]*ll.tension, st.Multiple[k]*ll.tension, st.Included(k))
		}
		if l.tackle != nil && l.tackle.usable {
			w.addFor(numbered("lines", i, "actual_advantage"), "Advantage of the tackle of "+l.id, &stepTackle, Num(l.tackle.result.Actual),
				l.tackle.efficiency, l.tackle.result.Ideal)
			for k := range ll.haulAngles {
				e.workBlock(w, &l.tackle.haul[k], ll.haulMult[k]*ll.tension, ll.haulMult[k+1]*ll.tension, ll.haulAngles[k])
			}
		}
		if !l.hold {
			w.addFor(numbered("lines", i, "haul_kN"), "Haul at the puller of "+l.id, &stepHaul, rep.Lines[i].HaulKN,
				ll.end*ll.tension/rigging.KN, ll.end/ll.first, ll.haul/ll.first)
		}
	}
	for i := range e.m.gear {
		g := &e.m.gear[i]
		factor := 1.0
		for _, f := range g.factors {
			factor *= f
		}
		values := []float64{g.limit / rigging.KN, g.hitch, factor, float64(rep.Gear[i].LoadKN)}
		if !math.IsNaN(g.breaking) && !math.IsNaN(g.designFactor) {
			values = append(values, g.breaking/rigging.KN, g.designFactor)
		}
		w.addFor(numbered("gear", i, "use"), "Use of "+g.id, &stepGear, rep.Gear[i].Use, values...)
	}
	for i := range rep.Points {
		pt := &rep.Points[i]
		w.addFor(numbered("points", i, "use"), "Use of "+pt.ID, &stepPoint, pt.Use,
			float64(pt.LoadKN), float64(pt.HorizontalKN), float64(pt.UpliftKN), float64(pt.CapacityKN))
	}
}

func (e *evaluation) workBlock(w *workings, s *station, in, out, included float64) {
	where := "the stem"
	if !s.onStem {
		where = e.m.points[s.point].id
	}
	w.addFor(s.path, "Block at "+where, &stepBlock, Num(rigging.BlockLoad(in, out, included)/rigging.KN),
		in/rigging.KN, out/rigging.KN, included/rigging.Deg, s.efficiency)
}

// numbered is the path of a field of one member of a list of the report.
func numbered(list string, i int, field string) string {
	return list + "[" + strconv.Itoa(i) + "]." + field
}
