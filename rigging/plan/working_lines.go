package plan

import (
	"math"
	"strings"

	"pullline/rigging"
)

const friction = "sheave friction by the wrap: the pin's grows with the load on it"

// The steps of the lines. Their formulas are written with the letters of
// the legs: $1 and $2 stand for them.
var (
	stepShare = step{"", "Tension of a pull line", "$1 = p·T", "kN", "the line's share of the planned tension",
		[]quantity{{"p", "share of the pull", "", ""}, {"T", "planned tension", "kN", "pull.planned_kN"}}}
	stepHoldTension = step{"", "Tension of a hold line", "$1 = T_e + max(a·T_f, T_p)", "kN", "moment balance about the middle of the bent hinge: no side moment is left on it",
		[]quantity{{"a", "allowance", "", "allowance"}, {"T_f", "its largest until the face closes", "kN", ""}, {"T_p", "with the tree standing, pull lines at planned tension", "kN", ""}, {"T_e", "what it takes up as it has to grow", "kN", ""}}}
	stepStretched = step{"", "What a hold line made fast takes up", "T_e = E·ΔL/L₀", "kN", "Hooke's law; nothing where someone lets it out",
		[]quantity{{"E", "stiffness of the rope", "kN", ""}, {"ΔL", "its greatest lengthening while the hinge bends and the tree needs pulling", "m", ""}, {"L₀", "the whole line, tree standing", "m", ""}}}
	stepNext = step{"", "Tension past a block", "$2 = $1·(1 + q)/(1 − q), q = (1 − η)/(1 + η)·cos(γ/2)", "kN", friction,
		[]quantity{{"$1", "leg before the block", "kN", ""}, {"η", "efficiency of the sheave", "", ""}, {"γ", "angle between the legs", "°", ""}}}
	stepBefore = step{"", "Tension before a block", "$1 = $2·(1 − q)/(1 + q), q = (1 − η)/(1 + η)·cos(γ/2)", "kN", friction,
		[]quantity{{"$2", "leg after the block", "kN", ""}, {"η", "efficiency of the sheave", "", ""}, {"γ", "angle between the legs", "°", ""}}}
	stepSlope = step{"", "Slope of a rope up to the stem", "ε = atan2(Δz, √(Δx² + Δy²))", "°", geometry,
		[]quantity{{"Δz", "upper end above the lower", "m", ""}, {"Δx", "between its ends, along the lay", "m", ""}, {"Δy", "across the lay", "m", ""}}}
	stepStem   = step{"", "Load of a line on the stem", "F = $1·√(qₓ² + q_y² + q_z²)", "kN", "vector sum of the legs there", []quantity{{"$1", "tension of the line", "kN", ""}, {"qₓ", "toward the lay, per unit of tension", "", ""}, {"q_y", "to the left", "", ""}, {"q_z", "upward", "", ""}}}
	stepFixed  = step{"", "Advantage of a simple tackle hauled from its fixed block", "A = η + … + ηⁿ", "", "simple tackle, hauling part from the fixed block", tackleQuantities[:2]}
	stepMoving = step{"", "Advantage of a simple tackle hauled from its moving block", "A = 1 + η + … + ηⁿ⁻¹", "", "simple tackle, hauling part from the moving block", tackleQuantities[:2]}
	stepTackle = step{"", "Advantage of any other tackle", "A = F/S", "", "force balance at every moving block; each sheave of efficiency η takes its part", tackleQuantities[2:]}
	// The first two are those of a simple tackle.
	tackleQuantities = []quantity{{"η", "efficiency of a sheave", "", ""}, {"n", "ideal advantage", "", ""},
		{"F", "on the tackle", "kN", ""}, {"S", "hauling part at the tackle", "kN", ""}, {"η", "efficiency of a sheave", "", ""}, {"n", "ideal advantage", "", ""}}
	stepHauled = step{"", "Hauling part of a tackle", "$2 = $1/A", "kN", "tension of the last leg over the tackle's advantage",
		[]quantity{{"$1", "last leg", "kN", ""}, {"A", "actual advantage", "", ""}}}
	stepHaul       = step{"", "Haul without a tackle", "S = $1", "kN", "the last leg is what is pulled", []quantity{{"$1", "last leg", "kN", ""}}}
	stepTravel     = step{"", "How much a line comes in", "ΔL = L₀ − L_c", "m", geometry, []quantity{{"L₀", "the whole line, tree standing", "m", ""}, {"L_c", "when the tree falls by itself", "m", ""}, {"φ_c", "turn then", "°", "pull.commit_deg"}}}
	stepRope       = step{"", "Rope to haul", "ℓ = n·ΔL", "m", "velocities in the tackle", []quantity{{"n", "ideal advantage", "", ""}, {"ΔL", "line comes in", "m", ""}}}
	stepLength     = step{"", "Lengthening of a hold line", "ΔL = L_f − L₀", "m", geometry, []quantity{{"L_f", "the whole line when the face closes", "m", ""}, {"L₀", "tree standing", "m", ""}}}
	stepMostStall  = step{"", "Haul at most, limited by stall", "S_m = P_s", "kN", thePlan, []quantity{{"P_s", "pull at which the puller stalls", "kN", ""}}}
	stepMostDevice = step{"", "Haul at most, limited by a device or watched", "S_m = P_d", "kN", thePlan, []quantity{{"P_d", "where the device lets go, or the one watching stops", "kN", ""}}}
	stepMostGrip   = step{"", "Haul at most, limited by grip", "S_m = min(P_s, m·g)", "kN", "a machine that pulls by driving makes at most its own weight, from memory; 1000 N are 1 kN", []quantity{{"P_s", "greatest pull, where it is given", "kN", ""}, {"m", "mass of the machine", "kg", ""}, {"g", "acceleration of free fall", "m/s²", ""}}}
	stepMost       = step{"", "Tension of a pull line at most", "T_m = S_m·n", "kN", "as if nothing rubbed: friction is not counted on where it would spare something", []quantity{{"S_m", "haul at most", "kN", ""}, {"n", "ideal advantage", "", ""}}}
	stepHoldAtMost = step{"", "Tension of a hold line at most", "T_m = T_e + max(a·T_f, T_q)", "kN", "moment balance about the hinge, any pull line slack", []quantity{{"a", "allowance", "", "allowance"}, {"T_f", "its largest until the face closes", "kN", ""}, {"T_q", "with the tree standing, pull lines at most, or by its own puller", "kN", ""}, {"T_e", "what it takes up as it has to grow", "kN", ""}}}
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
		w.of = l.id
		of := " of line " + l.id
		at := func(field string) string { return numbered("lines", i, field) }
		line := &legs[ref]
		if l.hold {
			if p.Stretched[i] > 0 {
				w.addFor(at("stretched_kN"), "What line "+l.id+" takes up as it has to grow", &stepStretched, lr.StretchedKN, l.stiff/rigging.KN, p.Stretch[i], st.Length).from(0, l.path+".rope.stiffness_kN")
			}
			w.addFor(line.path, "Tension"+of, &stepHoldTension, lr.TensionKN, e.m.allowance, p.HoldPeak[i]/rigging.KN, holds[i]/rigging.KN, p.Stretched[i]/rigging.KN).lettered(line.letter, "").from(3, at("stretched_kN"))
		} else {
			w.addFor(line.path, "Tension"+of, &stepShare, lr.TensionKN, l.share, p.Planned/rigging.KN).lettered(line.letter, "")
		}
		last := len(st.Multiple) - 1
		next := func(k int, s *station, angle float64) {
			a, b := &legs[k-1], &legs[k]
			x := w.addFor(b.path, "Tension "+b.letter+of, &stepNext, Num(b.tension), a.tension, s.efficiency, angle/rigging.Deg).lettered(a.letter, b.letter)
			x.from(0, a.path)
			e.fromBlock(x, rep, s)
		}
		for k := ref + 1; k <= last; k++ {
			next(k, &l.stations[k], st.Included(k))
		}
		for k := ref; k > 0; k-- {
			a, b := &legs[k-1], &legs[k]
			x := w.addFor(a.path, "Tension "+a.letter+of, &stepBefore, Num(a.tension), b.tension, l.stations[k].efficiency, st.Included(k)/rigging.Deg).lettered(a.letter, b.letter)
			x.from(0, b.path)
			e.fromBlock(x, rep, &l.stations[k])
		}
		if l.tackle != nil && l.tackle.usable {
			t := l.tackle
			name := "Advantage of the tackle of line " + l.id
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
			x := w.addFor(haul.path, "Hauling part"+of, &stepHauled, Num(ll.first*ll.tension/rigging.KN), legs[last].tension, t.result.Actual).lettered(legs[last].letter, haul.letter)
			x.from(0, legs[last].path)
			x.from(1, at("actual_advantage"))
			for k := last + 2; k < len(legs); k++ {
				next(k, &t.haul[k-last-2], e.runs[i].angles[k-last-2])
			}
		} else if l.tackle == nil && !l.hold {
			w.addFor(at("haul_kN"), "Haul at the puller"+of, &stepHaul, lr.HaulKN, legs[last].tension).lettered(legs[last].letter, "").from(0, legs[last].path)
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
			w.addFor(slopePath(i, k), "Slope of "+legs[k].letter+of, &stepSlope, Num(way.Elevation()/rigging.Deg), way.Z, way.X, way.Y)
		}
		var most rigging.Vec
		for k, s := range l.stations {
			if f := st.Force(k); s.onStem && f.Norm() > most.Norm() {
				most = f
			}
		}
		w.addFor(at("stem_load_kN"), "Load of line "+l.id+" on the stem", &stepStem, lr.StemLoadKN, line.tension, most.X, most.Y, most.Z).lettered(line.letter, "").from(0, line.path)
		if l.hold {
			w.addFor(at("length_change_m"), "Lengthening"+of+" (below 0: slack)", &stepLength, lr.LengthChangeM, st.Length+p.AtClosing[i], st.Length)
			e.workHoldAtMost(w, i, lr)
			continue
		}
		w.addFor(at("haul_m"), "How much line "+l.id+" comes in", &stepTravel, lr.HaulM, st.Length, st.Length-p.Haul[i], p.Commit/rigging.Deg)
		w.addFor(at("rope_to_haul_m"), "Rope to haul"+of, &stepRope, lr.RopeToHaulM, float64(lr.IdealAdvantage), p.Haul[i]).from(1, at("haul_m"))
		e.workAtMost(w, i, lr)
	}
}

// workAtMost shows what the puller of a pull line can do.
func (e *evaluation) workAtMost(w *workings, i int, lr *LineReport) {
	l := &e.m.lines[i]
	haul, tension := numbered("lines", i, "at_most_haul_kN"), numbered("lines", i, "at_most_kN")
	name := "Haul at most of line " + l.id
	machine, driven := e.m.machineOf(l)
	switch {
	case !lr.AtMostHaulKN.Known():
		return
	case l.limitedBy == limitGrip && driven:
		stall := l.stall
		if math.IsNaN(stall) {
			stall = machine.Mass * rigging.G // no limit but its weight
		}
		w.addFor(haul, name, &stepMostGrip, lr.AtMostHaulKN, stall/rigging.KN, machine.Mass, rigging.G)
	case l.limitedBy == limitDevice || l.limitedBy == limitWatched:
		w.addFor(haul, name, &stepMostDevice, lr.AtMostHaulKN, l.setting/rigging.KN)
	default:
		w.addFor(haul, name, &stepMostStall, lr.AtMostHaulKN, l.stall/rigging.KN)
	}
	if lr.AtMostKN.Known() {
		w.addFor(tension, "Tension at most of line "+l.id, &stepMost, lr.AtMostKN, float64(lr.AtMostHaulKN), float64(lr.IdealAdvantage)).from(0, haul)
	}
}

// workHoldAtMost shows what a hold line carries then.
func (e *evaluation) workHoldAtMost(w *workings, i int, lr *LineReport) {
	if !lr.AtMostKN.Known() {
		return
	}
	p := e.pull
	asked := e.loads[i].mostTension - p.Stretched[i] // as far as it is more than the rest
	w.addFor(numbered("lines", i, "at_most_kN"), "Tension at most of line "+e.m.lines[i].id, &stepHoldAtMost, lr.AtMostKN, e.m.allowance, p.HoldPeak[i]/rigging.KN, asked/rigging.KN, p.Stretched[i]/rigging.KN).from(3, numbered("lines", i, "stretched_kN"))
}
