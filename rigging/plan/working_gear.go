package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// The steps of the gear. The letter of what loads a piece stands for $1.
var (
	// stepCapacity takes its last two only where the piece has a breaking load.
	stepCapacity = step{"capacity", "", "C = L·n·Π", "kN",
		[]quantity{{"L", "letter.working_load_limit", "kN", ""}, {"n", "letter.hitch_factor", "", ""}, {"Π", "letter.reductions_together", "", ""}}}
	stepBroken = step{"broken", "", "C = B/ν·n·Π", "kN",
		[]quantity{{"B", "letter.breaking_load", "kN", ""}, {"ν", "letter.design_factor", "", ""}, {"n", "letter.hitch_factor", "", ""}, {"Π", "letter.reductions_together", "", ""}}}
	stepUse      = step{"use", "", "u = $1/C", "", []quantity{{"$1", "letter.load_as_planned", "kN", ""}, {"C", "letter.what_it_may_carry", "kN", ""}}}
	stepGreatest = step{"greatest", "", "Q_g = q·T", "kN",
		[]quantity{{"q", "letter.on_the_piece_at_that_turn", "", ""}, {"T", "letter.tension_of_the_line", "kN", ""}}}
	stepAtPoint = step{"at_point", "", "Q_g = R", "kN", []quantity{{"R", "letter.greatest_load_there", "kN", ""}}}
	stepPuller  = step{"puller", "", "C = min(P_r, P_d)", "kN",
		[]quantity{{"P_r", "letter.rated_pull", "kN", ""}, {"P_d", "letter.set_to_or_the_rated_pull", "kN", ""}}}
	stepLimitRated = step{"limit_rated", "pull.hold_puller_to_kN", "S_max = P", "kN", []quantity{{"P", "letter.rated_pull", "kN", ""}}}
	stepLimit      = step{"limit", "pull.hold_puller_to_kN", "S_max = S_m/u_m", "kN",
		[]quantity{{"S_m", "letter.haul_at_most", "kN", ""}, {"u_m", "letter.largest_use_then", "", ""}}}
	stepLimitSought = step{"limit_sought", "pull.hold_puller_to_kN", "S_max: the largest haul at which nothing is over", "kN",
		[]quantity{{"S_m", "letter.haul_at_most", "kN", ""}, {"u_m", "letter.largest_use_then", "", ""}}}
)

func (e *evaluation) workGear(w *workings, rep *Report) {
	for i := range e.m.gear {
		g, row := &e.m.gear[i], &rep.Gear[i]
		at := func(field string) string { return numbered("gear", i, field) }
		id := text.Words(g.id)
		factor := 1.0
		for _, f := range g.factors {
			factor *= f
		}
		if g.limit == rigging.WorkingLimit(g.breaking, g.designFactor) {
			w.addFor(at("capacity_kN"), named("name.may_carry", id), &stepBroken, row.CapacityKN, g.breaking/rigging.KN, g.designFactor, g.hitch, factor).from(2, at("hitch_factor"))
		} else {
			w.addFor(at("capacity_kN"), named("name.may_carry", id), &stepCapacity, row.CapacityKN, g.limit/rigging.KN, g.hitch, factor).from(1, at("hitch_factor"))
		}
		e.workGreatest(w, rep, i)
		load := legRef{letter: "Q_g", path: at("greatest_kN")}
		if row.GreatestDeg == 0 && row.GreatestKN == row.LoadKN {
			load = e.loadOf(g, rep)
		}
		x := w.addFor(at("use"), named("name.use", id), &stepUse, row.Use, float64(row.GreatestKN), float64(row.CapacityKN)).lettered(load.letter, "")
		x.from(0, load.path)
		x.from(1, at("capacity_kN"))
	}
	for k := len(e.m.gear); k < len(rep.Gear); k++ {
		row := &rep.Gear[k]
		id := text.Words(row.ID)
		for i := range e.m.lines {
			if l := &e.m.lines[i]; row.ID == l.id+"/puller" {
				setting := l.setting
				if math.IsNaN(setting) {
					setting = l.rated
				}
				w.addFor(numbered("gear", k, "capacity_kN"), named("name.may_haul", id), &stepPuller, row.CapacityKN, l.rated/rigging.KN, setting/rigging.KN)
			}
		}
		x := w.addFor(numbered("gear", k, "use"), named("name.use", id), &stepUse, row.Use, float64(row.GreatestKN), float64(row.CapacityKN)).lettered("S", "")
		x.from(1, numbered("gear", k, "capacity_kN"))
		for i := range e.m.lines {
			if row.ID == e.m.lines[i].id+"/puller" && row.GreatestKN == rep.Lines[i].HaulKN {
				x.from(0, numbered("lines", i, "haul_kN"))
			}
		}
	}
}

// workGreatest shows the greatest load of a piece, as planned and at most.
func (e *evaluation) workGreatest(w *workings, rep *Report, i int) {
	g, row := &e.m.gear[i], &rep.Gear[i]
	for _, k := range []struct {
		field, key string
		load       Num
		attitudes  []attitude
		tensions   func(a *attitude) []float64
		peaks      []peak
	}{
		{"greatest_kN", "name.greatest", row.GreatestKN, e.turning, e.plannedTensions, e.planned.pieces},
		{"at_most_kN", "name.most_load", row.AtMostKN, e.atMost, e.tensionsAtMost(e.mostHauls()), e.most.pieces},
	} {
		path := numbered("gear", i, k.field)
		switch {
		case !k.load.Known():
		case g.point >= 0:
			x := w.addFor(path, named(k.key, text.Words(g.id)), &stepAtPoint, k.load, float64(k.load))
			if r := e.row(rep, g.point); r >= 0 && reportedAs(&rep.Points[r], k.field) == k.load {
				x.from(0, numbered("points", r, k.field))
			}
		case g.line >= 0:
			name := named(k.key+".turn", text.Words(g.id), tenth(k.peaks[i].turn))
			for n := range k.attitudes {
				a := &k.attitudes[n]
				per, tension := a.lines[g.line].on(g), k.tensions(a)[g.line]
				if per*tension != k.peaks[i].value {
					continue
				}
				x := w.addFor(path, name, &stepGreatest, k.load, per, tension/rigging.KN)
				if k.field == "greatest_kN" {
					x.from(1, numbered("lines", g.line, "tension_kN"))
				}
				break
			}
		}
	}
}

func reportedAs(p *PointReport, field string) Num {
	if field == "at_most_kN" {
		return p.AtMostKN
	}
	return p.GreatestKN
}

// loadOf is what loads a piece: the leg, the stem's or the point's load.
func (e *evaluation) loadOf(g *piece, rep *Report) legRef {
	switch {
	case g.point >= 0:
		r := e.row(rep, g.point)
		if r < 0 || g.kind == "block" && e.held[g.point].block > e.held[g.point].pull.Norm() {
			return legRef{letter: "R"} // pulls of several lines cancel, but not in the block of each
		}
		return legRef{letter: "R", path: numbered("points", r, "load_kN")}
	case g.line >= 0 && g.atStem:
		return legRef{letter: "F", path: numbered("lines", g.line, "stem_load_kN")}
	case g.line >= 0:
		legs, most := e.legRefs(e.plannedStanding(), g.line)
		for k := range legs {
			if legs[k].tension > legs[most].tension {
				most = k
			}
		}
		if ll := &e.loads[g.line]; !(ll.on(g)*ll.tension/rigging.KN > legs[most].tension*(1+1e-9)) {
			return legs[most]
		}
		// A part of the tackle carries more than any leg.
	}
	return legRef{letter: "Q"}
}

// workLimit shows the number to hold the puller to.
func (e *evaluation) workLimit(w *workings, rep *Report) {
	main := e.mainLine()
	if !rep.Pull.HoldPullTo.Known() || main < 0 {
		return
	}
	limit, rated := float64(rep.Pull.HoldPullTo), e.m.lines[main].rated/rigging.KN
	if limit == rated {
		w.add(&stepLimitRated, rep.Pull.HoldPullTo, rated)
		return
	}
	haul, use := float64(rep.Lines[main].AtMostHaulKN), float64(rep.AtMostUse)
	s := &stepLimit
	if !(math.Abs(haul/use-limit) <= 1e-9*limit) {
		s = &stepLimitSought
	}
	x := w.add(s, rep.Pull.HoldPullTo, haul, use)
	x.from(0, numbered("lines", main, "at_most_haul_kN"))
}
