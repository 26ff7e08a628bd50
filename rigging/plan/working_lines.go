package plan

import (
	"math"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// The steps of the lines. Their formulas are written with the letters of
// the legs: $1 and $2 stand for them.
var (
	stepShare = step{"share", "", "$1 = p·T", "kN",
		[]quantity{{"p", "letter.share_of_the_pull", "", ""}, {"T", "letter.planned_tension", "kN", "pull.planned_kN"}}}
	stepHoldTension = step{"hold_tension", "", "$1 = T_e + max(a·T_f, T_p)", "kN",
		[]quantity{{"a", "letter.allowance", "", "allowance"}, {"T_f", "letter.its_largest_until_the_face_closes", "kN", ""}, {"T_p", "letter.with_the_tree_standing_pull_lines", "kN", ""}, {"T_e", "letter.what_it_takes_up_as_it", "kN", ""}}}
	stepStretched = step{"stretched", "", "T_e = E·ΔL/L₀", "kN",
		[]quantity{{"E", "letter.stiffness_of_the_rope", "kN", ""}, {"ΔL", "letter.its_greatest_lengthening_while_the_hinge", "m", ""}, {"L₀", "letter.the_whole_line_tree_standing", "m", ""}}}
	stepNext = step{"next", "", "$2 = $1·(1 + q)/(1 − q), q = (1 − η)/(1 + η)·cos(γ/2)", "kN",
		[]quantity{{"$1", "letter.leg_before_the_block", "kN", ""}, {"η", "letter.efficiency_of_the_sheave", "", ""}, {"γ", "letter.angle_between_the_legs", "°", ""}}}
	stepBefore = step{"before", "", "$1 = $2·(1 − q)/(1 + q), q = (1 − η)/(1 + η)·cos(γ/2)", "kN",
		[]quantity{{"$2", "letter.leg_after_the_block", "kN", ""}, {"η", "letter.efficiency_of_the_sheave", "", ""}, {"γ", "letter.angle_between_the_legs", "°", ""}}}
	stepSlope = step{"slope", "", "ε = atan2(Δz, √(Δx² + Δy²))", "°",
		[]quantity{{"Δz", "letter.upper_end_above_the_lower", "m", ""}, {"Δx", "letter.between_its_ends_along_the_lay", "m", ""}, {"Δy", "letter.across_the_lay", "m", ""}}}
	stepStem   = step{"stem", "", "F = $1·√(qₓ² + q_y² + q_z²)", "kN", []quantity{{"$1", "letter.tension_of_the_line", "kN", ""}, {"qₓ", "letter.toward_the_lay_per_unit_of", "", ""}, {"q_y", "letter.to_the_left", "", ""}, {"q_z", "letter.upward", "", ""}}}
	stepFixed  = step{"fixed", "", "A = η + … + ηⁿ", "", tackleQuantities[:2]}
	stepMoving = step{"moving", "", "A = 1 + η + … + ηⁿ⁻¹", "", tackleQuantities[:2]}
	stepTackle = step{"tackle", "", "A = F/S", "", tackleQuantities[2:]}
	// The first two are those of a simple tackle.
	tackleQuantities = []quantity{{"η", "letter.efficiency_of_a_sheave", "", ""}, {"n", "letter.ideal_advantage", "", ""},
		{"F", "letter.on_the_tackle", "kN", ""}, {"S", "letter.hauling_part_at_the_tackle", "kN", ""}, {"η", "letter.efficiency_of_a_sheave", "", ""}, {"n", "letter.ideal_advantage", "", ""}}
	stepHauled = step{"hauled", "", "$2 = $1/A", "kN",
		[]quantity{{"$1", "letter.last_leg", "kN", ""}, {"A", "letter.actual_advantage", "", ""}}}
	stepHaul       = step{"haul", "", "S = $1", "kN", []quantity{{"$1", "letter.last_leg", "kN", ""}}}
	stepTravel     = step{"travel", "", "ΔL = L₀ − L_c", "m", []quantity{{"L₀", "letter.the_whole_line_tree_standing", "m", ""}, {"L_c", "letter.when_the_tree_falls_by_itself", "m", ""}, {"φ_c", "letter.turn_then", "°", "pull.commit_deg"}}}
	stepRope       = step{"rope", "", "ℓ = n·ΔL", "m", []quantity{{"n", "letter.ideal_advantage", "", ""}, {"ΔL", "letter.line_comes_in", "m", ""}}}
	stepLength     = step{"length", "", "ΔL = L_f − L₀", "m", []quantity{{"L_f", "letter.the_whole_line_when_the_face", "m", ""}, {"L₀", "letter.tree_standing", "m", ""}}}
	stepMostStall  = step{"most_stall", "", "S_m = P_s", "kN", []quantity{{"P_s", "letter.pull_at_which_the_puller_stalls", "kN", ""}}}
	stepMostDevice = step{"most_device", "", "S_m = P_d", "kN", []quantity{{"P_d", "letter.where_the_device_lets_go_or", "kN", ""}}}
	stepMostGrip   = step{"most_grip", "", "S_m = min(P_s, m·g)", "kN", []quantity{{"P_s", "letter.greatest_pull_where_it_is_given", "kN", ""}, {"m", "letter.mass_of_the_machine", "kg", ""}, {"g", "letter.acceleration_of_free_fall", "m/s²", ""}}}
	stepMost       = step{"most", "", "T_m = S_m·n", "kN", []quantity{{"S_m", "letter.haul_at_most", "kN", ""}, {"n", "letter.ideal_advantage", "", ""}}}
	stepHoldAtMost = step{"hold_at_most", "", "T_m = T_e + max(a·T_f, T_q)", "kN", []quantity{{"a", "letter.allowance", "", "allowance"}, {"T_f", "letter.its_largest_until_the_face_closes", "kN", ""}, {"T_q", "letter.with_the_tree_standing_pull_lines_2", "kN", ""}, {"T_e", "letter.what_it_takes_up_as_it", "kN", ""}}}
)

// lettered puts the letters of the legs into a step.
func (x *Working) lettered(first, second string) *Working {
	put := func(text string) string {
		if strings.IndexByte(text, '$') < 0 {
			return text
		}
		return strings.ReplaceAll(strings.ReplaceAll(text, "$1", first), "$2", second)
	}
	x.Formula = put(x.Formula)
	for i := range x.Values {
		x.Values[i].Symbol = put(x.Values[i].Symbol)
	}
	return x
}

// fromBlock says where the efficiency of a block and the angle there come from.
func (e *evaluation) fromBlock(x *Working, rep *Report, s *station) {
	x.from(1, s.path+".efficiency")
	if !s.onStem {
		x.from(2, anglePath(e.row(rep, s.point)))
	}
}

// A legRef is a leg of a line: its letter, its tension (kN) and the path of
// the step that gives it.
type legRef struct {
	letter, path string
	tension      float64
}

// A loading is the rig in one attitude with every line at a tension (N): as
// planned with the tree standing, where every tension has a step of its own, or
// any other.
type loading struct {
	*attitude
	tensions []float64
	steps    bool
}

func (e *evaluation) plannedStanding() loading { return loading{e.standing, e.pull.Tension, true} }

// legRefs are the legs of line i from its dead end on, then those of the
// tackle's hauling part, and which of them stands for the line. The last
// hauling leg is the haul.
func (e *evaluation) legRefs(at loading, i int) (legs []legRef, reference int) {
	l, la, tension := &e.m.lines[i], &at.lines[i], at.tensions[i]/rigging.KN
	st := la.state
	for k, m := range st.Multiple {
		if l.stations[k].onStem {
			reference = k
		}
		legs = append(legs, legRef{LegSymbol(l.hold, false, k, len(st.Multiple)), legPath(i, k), m * tension})
	}
	legs[reference].path = numbered("lines", i, "tension_kN")
	n := len(legs)
	for k, m := range la.hauls {
		legs = append(legs, legRef{LegSymbol(l.hold, true, k, len(la.hauls)), legPath(i, n+k), m * tension})
	}
	if len(la.hauls) > 0 {
		legs[len(legs)-1].path = numbered("lines", i, "haul_kN")
	}
	if !at.steps {
		for k := range legs {
			legs[k].path = ""
		}
	}
	return legs, reference
}

func (e *evaluation) workLines(w *workings, rep *Report) {
	p := e.pull
	planned := make([]float64, len(e.m.lines))
	for i, l := range e.m.lines {
		if !l.hold {
			planned[i] = e.loads[i].tension
		}
	}
	holds := e.m.setup.HoldAt(p, p.Standing, planned)
	for i := range e.m.lines {
		l, ll, st, lr := &e.m.lines[i], &e.loads[i], &p.Standing[i], &rep.Lines[i]
		legs, ref := e.legRefs(e.plannedStanding(), i)
		id := text.Words(l.id)
		at := func(field string) string { return numbered("lines", i, field) }
		line := &legs[ref]
		if l.hold {
			if p.Stretched[i] > 0 {
				w.addFor(at("stretched_kN"), named("name.stretched", id), &stepStretched, lr.StretchedKN, l.stiff/rigging.KN, p.Stretch[i], st.Length).from(0, l.path+".rope.stiffness_kN")
			}
			w.addFor(line.path, named("name.tension", id), &stepHoldTension, lr.TensionKN, e.m.allowance, p.HoldPeak[i]/rigging.KN, holds[i]/rigging.KN, p.Stretched[i]/rigging.KN).lettered(line.letter, "").from(3, at("stretched_kN"))
		} else {
			w.addFor(line.path, named("name.tension", id), &stepShare, lr.TensionKN, l.share, p.Planned/rigging.KN).lettered(line.letter, "")
		}
		last := len(st.Multiple) - 1
		next := func(k int, s *station, angle float64) {
			a, b := &legs[k-1], &legs[k]
			x := w.addFor(b.path, named("name.leg_tension", text.Words(b.letter), id), &stepNext, Num(b.tension), a.tension, s.efficiency, angle/rigging.Deg).lettered(a.letter, b.letter)
			x.from(0, a.path)
			e.fromBlock(x, rep, s)
		}
		for k := ref + 1; k <= last; k++ {
			next(k, &l.stations[k], st.Included(k))
		}
		for k := ref; k > 0; k-- {
			a, b := &legs[k-1], &legs[k]
			x := w.addFor(a.path, named("name.leg_tension", text.Words(a.letter), id), &stepBefore, Num(a.tension), b.tension, l.stations[k].efficiency, st.Included(k)/rigging.Deg).lettered(a.letter, b.letter)
			x.from(0, b.path)
			e.fromBlock(x, rep, &l.stations[k])
		}
		if l.tackle != nil && l.tackle.usable {
			t := l.tackle
			name := named("name.advantage", id)
			switch {
			case len(t.stages) == 1 && t.stages[0].HaulFrom == "fixed":
				w.addFor(at("actual_advantage"), name, &stepFixed, lr.ActualAdvantage, t.efficiency, t.result.Ideal).from(0, t.path+".efficiency")
			case len(t.stages) == 1:
				w.addFor(at("actual_advantage"), name, &stepMoving, lr.ActualAdvantage, t.efficiency, t.result.Ideal).from(0, t.path+".efficiency")
			default:
				x := w.addFor(at("actual_advantage"), name, &stepTackle, lr.ActualAdvantage, legs[last].tension, ll.first*ll.tension/rigging.KN, t.efficiency, t.result.Ideal)
				x.from(0, legs[last].path)
				x.from(2, t.path+".efficiency")
			}
			haul := legRef{"S", at("haul_kN"), 0}
			if len(legs) > last+1 {
				haul = legs[last+1]
			}
			x := w.addFor(haul.path, named("name.hauled", id), &stepHauled, Num(ll.first*ll.tension/rigging.KN), legs[last].tension, t.result.Actual).lettered(legs[last].letter, haul.letter)
			x.from(0, legs[last].path)
			x.from(1, at("actual_advantage"))
			for k := last + 2; k < len(legs); k++ {
				next(k, &t.haul[k-last-2], e.runs[i].angles[k-last-2])
			}
		} else if l.tackle == nil && !l.hold {
			w.addFor(at("haul_kN"), named("name.haul", id), &stepHaul, lr.HaulKN, legs[last].tension).lettered(legs[last].letter, "").from(0, legs[last].path)
		}
		for k := range st.Units {
			low, high := st.Places[k], st.Places[k+1]
			if l.stations[k].onStem == l.stations[k+1].onStem {
				continue
			}
			if low.Z > high.Z {
				low, high = high, low
			}
			way := high.Sub(low)
			w.addFor(slopePath(i, k), named("name.slope", text.Words(legs[k].letter), id), &stepSlope, Num(way.Elevation()/rigging.Deg), way.Z, way.X, way.Y)
		}
		var most rigging.Vec
		for k, s := range l.stations {
			if f := st.Force(k); s.onStem && f.Norm() > most.Norm() {
				most = f
			}
		}
		w.addFor(at("stem_load_kN"), named("name.stem_load", id), &stepStem, lr.StemLoadKN, line.tension, most.X, most.Y, most.Z).lettered(line.letter, "").from(0, line.path)
		if l.hold {
			w.addFor(at("length_change_m"), named("name.lengthening", id), &stepLength, lr.LengthChangeM, st.Length+p.AtClosing[i], st.Length)
			e.workHoldAtMost(w, i, lr)
			continue
		}
		w.addFor(at("haul_m"), named("name.travel", id), &stepTravel, lr.HaulM, st.Length, st.Length-p.Haul[i], p.Commit/rigging.Deg)
		w.addFor(at("rope_to_haul_m"), named("name.rope", id), &stepRope, lr.RopeToHaulM, float64(lr.IdealAdvantage), p.Haul[i]).from(1, at("haul_m"))
		e.workAtMost(w, i, lr)
	}
}

// workAtMost shows what the puller of a pull line can do.
func (e *evaluation) workAtMost(w *workings, i int, lr *LineReport) {
	l := &e.m.lines[i]
	haul, tension := numbered("lines", i, "at_most_haul_kN"), numbered("lines", i, "at_most_kN")
	name := named("name.most_haul", text.Words(l.id))
	machine, driven := e.m.machineOf(l)
	switch {
	case !lr.AtMostHaulKN.Known():
		return
	case l.limitedBy == field.Grip && driven:
		stall := l.stall
		if math.IsNaN(stall) {
			stall = machine.Mass * rigging.G // no limit but its weight
		}
		w.addFor(haul, name, &stepMostGrip, lr.AtMostHaulKN, stall/rigging.KN, machine.Mass, rigging.G)
	case l.limitedBy == field.Device || l.limitedBy == field.Watched:
		w.addFor(haul, name, &stepMostDevice, lr.AtMostHaulKN, l.setting/rigging.KN)
	default:
		w.addFor(haul, name, &stepMostStall, lr.AtMostHaulKN, l.stall/rigging.KN)
	}
	if lr.AtMostKN.Known() {
		w.addFor(tension, named("name.most_tension", text.Words(l.id)), &stepMost, lr.AtMostKN, float64(lr.AtMostHaulKN), float64(lr.IdealAdvantage)).from(0, haul)
	}
}

// workHoldAtMost shows what a hold line carries then.
func (e *evaluation) workHoldAtMost(w *workings, i int, lr *LineReport) {
	if !lr.AtMostKN.Known() {
		return
	}
	p := e.pull
	asked := e.loads[i].mostTension - p.Stretched[i] // as far as it is more than the rest
	w.addFor(numbered("lines", i, "at_most_kN"), named("name.most_tension", text.Words(e.m.lines[i].id)), &stepHoldAtMost, lr.AtMostKN, e.m.allowance, p.HoldPeak[i]/rigging.KN, asked/rigging.KN, p.Stretched[i]/rigging.KN).from(3, numbered("lines", i, "stretched_kN"))
}
