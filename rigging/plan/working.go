package plan

import (
	"fmt"
	"math"

	"pullline/rigging"
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

func (w *workings) add(path, name, formula string, result Num, unit, source string, values ...WorkingValue) {
	w.list = append(w.list, Working{Path: path, Name: name, Formula: formula, Values: values, Result: result, Unit: unit, Source: source})
}

func val(symbol, name string, value float64, unit string) WorkingValue {
	return WorkingValue{Symbol: symbol, Name: name, Value: Num(value), Unit: unit}
}

func (e *evaluation) workTree(w *workings, rep *Report) {
	s := &e.m.setup
	t, b, tr := &s.Tree, &e.pull.Body, &rep.Tree
	w.add("tree.volume_m3", "Stem volume", "V = f · π/4 · D² · H", tr.VolumeM3, "m³", "form-factor volume, forest mensuration texts, from memory",
		val("f", "form factor", t.FormFactor, ""), val("D", "diameter at breast height", t.Diameter, "m"), val("H", "height", t.Height, "m"))
	if t.Mass > 0 {
		w.add("tree.mass_kg", "Mass above the hinge", "as measured", tr.MassKg, "kg", "the plan")
	} else {
		w.add("tree.mass_kg", "Mass above the hinge, with crown", "m = ρ·V·(1 − s/H)^(1/f) + c·ρ·V", tr.MassKg, "kg", "integral calculus for a stem of form factor f",
			val("ρ", "green density with bark", t.Density, "kg/m³"), val("V", "stem volume", e.m.volume, "m³"), val("s", "height of the cut", s.Stump, "m"),
			val("H", "height", t.Height, "m"), val("f", "form factor", t.FormFactor, ""), val("c", "crown mass over stem mass", t.CrownShare, ""))
	}
	w.add("tree.weight_kN", "Weight", "W = m·g", tr.WeightKN, "kN", "standard acceleration of free fall, CGPM 1901",
		val("m", "mass above the hinge", b.Mass, "kg"), val("g", "acceleration of free fall", rigging.G, "m/s²"))
	if t.MassCentre > 0 {
		w.add("tree.mass_centre_m", "Height of the mass centre", "as measured", tr.MassCentreM, "m", "the plan")
	} else {
		stem := b.StemMass * math.Pow(1-s.Stump/t.Height, 1/t.FormFactor)
		w.add("tree.mass_centre_m", "Height of the mass centre along the stem", "z = (m₁·(s + (H − s)·f/(1 + f)) + m₂·h) / (m₁ + m₂)", tr.MassCentreM, "m", "integral calculus; weighted mean",
			val("m₁", "stem above the cut", stem, "kg"), val("m₂", "crown", b.CrownMass, "kg"), val("s", "height of the cut", s.Stump, "m"),
			val("H", "height", t.Height, "m"), val("f", "form factor", t.FormFactor, ""), val("h", "height of the crown's centre", t.CrownCentre, "m"))
	}
	w.add("tree.forward_moment_kNm", "Moment of the weight toward the lay (below 0: away from it)", "M = W·x", tr.ForwardMomentKNm, "kN·m", "statics",
		val("W", "weight", b.Weight/rigging.KN, "kN"), val("x", "mass centre ahead of the hinge", b.Centre.X, "m"))
	w.add("tree.side_moment_kNm", "Moment of the weight to the left (below 0: to the right)", "M = W·y", tr.SideMomentKNm, "kN·m", "statics",
		val("W", "weight", b.Weight/rigging.KN, "kN"), val("y", "mass centre left of the hinge's middle", b.Centre.Y, "m"))
	if s.Wind > 0 {
		w.add("tree.wind_moment_kNm", "Moment of the wind against the lay", "M = ½·ρ·C·A·v²·z", tr.WindMomentKNm, "kN·m", "Arboriculture & Urban Forestry 31(3):101 (2005)",
			val("ρ", "density of air", rigging.AirDensity, "kg/m³"), val("C", "drag coefficient", t.DragCoefficient, ""), val("A", "crown area", t.CrownArea, "m²"),
			val("v", "wind", s.Wind, "m/s"), val("z", "crown's centre above the hinge", b.CrownCentre.Z, "m"))
	}
	h := &s.Hinge
	w.add("tree.hinge_moment_kNm", "Moment the hinge resists while it bends", "M = κ·σ·b·(l² + l·r + r²)/18", tr.HingeMomentKNm, "kN·m", "beam theory",
		val("κ", "fully plastic over first yield", rigging.HingePlastic, ""), val("σ", "green bending strength", t.Strength/rigging.MPa, "MPa"),
		val("b", "hinge length", h.Length, "m"), val("l", "thickness at the left", h.Left, "m"), val("r", "thickness at the right", h.Right, "m"))
}

func (e *evaluation) workPull(w *workings, rep *Report) {
	p, tr := e.pull, &rep.Tree
	for i, l := range e.m.lines {
		st := &p.Standing[i]
		w.add(fmt.Sprintf("lines[%d].turning_share", i), "Lever of line "+l.id+" toward the lay", "k = Σ m·(z·uₓ − x·u_z)", Num(st.Forward), "m", "statics: moment per unit of tension about the hinge",
			lineLevers(&l, st)...)
	}
	holdForward := 0.0
	if len(p.Curve) > 0 {
		for i := range e.m.lines {
			holdForward += p.Curve[0].Hold[i] * p.Standing[i].Forward
		}
	}
	against := p.HingeMoment + p.WindMoment - p.Body.Weight*p.Body.Centre.X
	w.add("pull.start_kN", "Pull needed with the tree standing", "T = max(0, (Mₕ + M_w − M_g − M_s) / k)", rep.Pull.StartKN, "kN", "moment balance about the hinge",
		val("Mₕ", "hinge", p.HingeMoment/rigging.KNm, "kN·m"), val("M_w", "wind", p.WindMoment/rigging.KNm, "kN·m"), val("M_g", "weight toward the lay", float64(tr.ForwardMomentKNm), "kN·m"),
		val("M_s", "hold lines toward the lay", holdForward/rigging.KNm, "kN·m"), val("k", "lever of the pull lines", p.Lever, "m"), val("Σ", "moment to overcome", against/rigging.KNm, "kN·m"))
	w.add("pull.peak_kN", "Greatest pull needed", "the largest of T over the turn from standing until the tree commits", rep.Pull.PeakKN, "kN", "the same balance at every turn",
		val("φ", "turn where it is needed", p.PeakTurn/rigging.Deg, "°"), val("φ_c", "turn at which the tree commits", p.Commit/rigging.Deg, "°"))
	if e.m.planned > 0 {
		w.add("pull.planned_kN", "Planned tension", "the crew's own", rep.Pull.PlannedKN, "kN", "the plan",
			val("a·T", "allowance × greatest pull", e.m.allowance*p.Peak/rigging.KN, "kN"))
	} else {
		w.add("pull.planned_kN", "Planned tension", "T = a·T_peak", rep.Pull.PlannedKN, "kN", "the allowance is the plan's",
			val("a", "allowance", e.m.allowance, ""), val("T_peak", "greatest pull needed", p.Peak/rigging.KN, "kN"))
	}
	h := &e.m.setup.Hinge
	w.add("tree.side_hold_use", "Side hold of the hinge, an estimate", "use = |M|·c/I / σ", tr.SideHoldUse, "", "beam theory, elastic, the hinge as a beam on edge",
		val("M", "side moment left on the hinge", p.SideMoment/rigging.KNm, "kN·m"), val("σ", "green bending strength", e.m.setup.Tree.Strength/rigging.MPa, "MPa"),
		val("b", "hinge length", h.Length, "m"), val("l", "thickness at the left", h.Left, "m"), val("r", "thickness at the right", h.Right, "m"), val("c_v", "cavity", e.m.setup.Tree.Cavity, "m"))
}

// lineLevers are the values of a line's lever: its attachments and the
// direction of the rope there.
func lineLevers(l *line, st *rigging.LineState) []WorkingValue {
	var out []WorkingValue
	for k, s := range l.stations {
		if !s.onStem {
			continue
		}
		f := st.Force(k)
		a := st.Places[k]
		out = append(out, val("x", "attachment ahead of the hinge", a.X, "m"), val("z", "attachment above the hinge", a.Z, "m"),
			val("Σm·uₓ", "rope toward the lay, per unit of tension", f.X, ""), val("Σm·u_z", "rope upward, per unit of tension", f.Z, ""))
	}
	return out
}

const sourceWrap = "sheave friction by wrap: κ = (1 − η)/(1 + η), θ = 180° − γ"

func (e *evaluation) workLoads(w *workings, rep *Report) {
	for i := range e.m.lines {
		l, ll, st := &e.m.lines[i], &e.loads[i], &e.pull.Standing[i]
		for k := 1; k < len(l.stations)-1; k++ {
			e.workBlock(w, l.stations[k], st.Multiple[k-1]*ll.tension, st.Multiple[k]*ll.tension, st.Included(k))
		}
		if l.tackle != nil {
			w.add(fmt.Sprintf("lines[%d].actual_advantage", i), "Advantage of the tackle of "+l.id, "force balance at every moving block, T_out = T_in/η at every sheave", Num(l.tackle.result.Actual), "",
				"linear system of the tackle; simple tackles agree with η + … + ηⁿ", val("η", "efficiency of a sheave", l.tackle.efficiency, ""), val("n", "ideal advantage", l.tackle.result.Ideal, ""))
			for k := range ll.haulAngles {
				e.workBlock(w, l.tackle.haul[k], ll.haulMult[k]*ll.tension, ll.haulMult[k+1]*ll.tension, ll.haulAngles[k])
			}
		}
		if !l.hold {
			w.add(fmt.Sprintf("lines[%d].haul_kN", i), "Haul at the puller of "+l.id, "S = T_end/A · Π r", rep.Lines[i].HaulKN, "kN", "tension of the last leg over the tackle's advantage, times each block of the hauling part",
				val("T_end", "last leg", ll.end*ll.tension/rigging.KN, "kN"), val("A", "actual advantage", ll.end/ll.first, ""), val("Π r", "blocks of the hauling part", ll.haul/ll.first, ""))
		}
	}
	for i := range e.m.gear {
		g := &e.m.gear[i]
		factor := 1.0
		for _, f := range g.factors {
			factor *= f
		}
		values := []WorkingValue{val("limit", "working load limit", g.limit/rigging.KN, "kN"), val("hitch", "hitch factor", g.hitch, ""), val("Π", "reductions together", factor, ""), val("load", "load", float64(rep.Gear[i].LoadKN), "kN")}
		if !math.IsNaN(g.breaking) && !math.IsNaN(g.designFactor) {
			values = append(values, val("MBL", "breaking load", g.breaking/rigging.KN, "kN"), val("ν", "design factor", g.designFactor, ""))
		}
		w.add(fmt.Sprintf("gear[%d].use", i), "Use of "+g.id, "use = load / (limit · hitch · Π reductions)", rep.Gear[i].Use, "", "working load limit, or breaking load over design factor", values...)
	}
	for i := range rep.Points {
		pt := &rep.Points[i]
		w.add(fmt.Sprintf("points[%d].use", i), "Use of "+pt.ID, "use = load / capacity, by the kind of anchor", pt.Use, "", "horizontal load for machines and trees, whole load otherwise",
			val("R", "whole load", float64(pt.LoadKN), "kN"), val("Rₕ", "horizontal part", float64(pt.HorizontalKN), "kN"), val("R_v", "uplift", float64(pt.UpliftKN), "kN"), val("capacity", "what it holds", float64(pt.CapacityKN), "kN"))
	}
}

func (e *evaluation) workBlock(w *workings, s station, in, out, included float64) {
	where := "the stem"
	if !s.onStem {
		where = e.m.points[s.point].id
	}
	w.add(s.path, "Block at "+where, "R = √(T₁² + T₂² + 2·T₁·T₂·cos γ), T₂ = T₁·(1 + κ·sin(θ/2))/(1 − κ·sin(θ/2))", Num(rigging.BlockLoad(in, out, included)/rigging.KN), "kN", sourceWrap,
		val("T₁", "tension toward the tree", in/rigging.KN, "kN"), val("T₂", "tension toward the puller", out/rigging.KN, "kN"), val("γ", "angle between the legs", included/rigging.Deg, "°"), val("η", "efficiency of the sheave", s.efficiency, ""))
}
