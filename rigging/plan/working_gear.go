package plan

import (
	"math"

	"pullline/rigging"
)

// The steps of the gear. The letter of what loads a piece stands for $1.
var (
	// stepCapacity takes its last two only where the piece has a breaking load.
	stepCapacity = step{"", "What a piece may carry, by its working load limit", "C = L·n·Π", "kN", "working load limit, or breaking load over design factor, and what takes from it",
		[]quantity{{"L", "working load limit", "kN", ""}, {"n", "hitch factor", "", ""}, {"Π", "reductions together", "", ""}}}
	stepBroken = step{"", "What a piece may carry, by its breaking load", "C = B/ν·n·Π", "kN", "breaking load over the design factor, and what takes from it",
		[]quantity{{"B", "breaking load", "kN", ""}, {"ν", "design factor", "", ""}, {"n", "hitch factor", "", ""}, {"Π", "reductions together", "", ""}}}
	stepUse      = step{"", "Use of a piece", "u = $1/C", "", "load over what it may carry", []quantity{{"$1", "load as planned", "kN", ""}, {"C", "what it may carry", "kN", ""}}}
	stepGreatest = step{"", "Greatest load of a piece on a line", "Q_g = q·T", "kN", "of all turns until the tree falls by itself: the leg, part of the tackle or resultant that loads it, per unit of the line's tension",
		[]quantity{{"q", "on the piece at that turn, per unit of tension", "", ""}, {"T", "tension of the line", "kN", ""}}}
	stepAtPoint = step{"", "Greatest load of a piece at a point", "Q_g = R", "kN", "all that pulls there, or one line alone over its block", []quantity{{"R", "greatest load there", "kN", ""}}}
	stepPuller  = step{"", "What a puller may haul", "C = min(P_r, P_d)", "kN", "the lesser of its rated pull and of what it is set to",
		[]quantity{{"P_r", "rated pull", "kN", ""}, {"P_d", "set to, or the rated pull where it has no setting", "kN", ""}}}
	stepLimitRated = step{"pull.hold_puller_to_kN", "Number to hold the puller to", "S_max = P", "kN", "its rated pull: nothing else is over its limit sooner", []quantity{{"P", "rated pull", "kN", ""}}}
	stepLimit      = step{"pull.hold_puller_to_kN", "Number to hold the puller to", "S_max = S_m/u_m", "kN", "in proportion: the haul at which the first piece or point comes to its limit if nothing rubs",
		[]quantity{{"S_m", "haul at most", "kN", ""}, {"u_m", "largest use then", "", ""}}}
	stepLimitSought = step{"pull.hold_puller_to_kN", "Number to hold the puller to", "S_max: the largest haul at which nothing is over", "kN", "sought: grip under uplift and hold lines do not grow in proportion",
		[]quantity{{"S_m", "haul at most", "kN", ""}, {"u_m", "largest use then", "", ""}}}
)

func (e *evaluation) workGear(w *workings, rep *Report) {
	for i := range e.m.gear {
		g, row := &e.m.gear[i], &rep.Gear[i]
		at := func(field string) string { return numbered("gear", i, field) }
		w.of = g.id
		factor := 1.0
		for _, f := range g.factors {
			factor *= f
		}
		if g.limit == rigging.WorkingLimit(g.breaking, g.designFactor) {
			w.addFor(at("capacity_kN"), "What "+g.id+" may carry", &stepBroken, row.CapacityKN, g.breaking/rigging.KN, g.designFactor, g.hitch, factor).from(2, at("hitch_factor"))
		} else {
			w.addFor(at("capacity_kN"), "What "+g.id+" may carry", &stepCapacity, row.CapacityKN, g.limit/rigging.KN, g.hitch, factor).from(1, at("hitch_factor"))
		}
		e.workGreatest(w, rep, i)
		load := legRef{letter: "Q_g", path: at("greatest_kN")}
		if row.GreatestDeg == 0 && row.GreatestKN == row.LoadKN {
			load = e.loadOf(g, rep)
		}
		x := w.addFor(at("use"), "Use of "+g.id, &stepUse, row.Use, float64(row.GreatestKN), float64(row.CapacityKN)).lettered(load.letter, "")
		x.from(0, load.path)
		x.from(1, at("capacity_kN"))
	}
	for k := len(e.m.gear); k < len(rep.Gear); k++ {
		row := &rep.Gear[k]
		w.of = row.ID
		for i := range e.m.lines {
			if l := &e.m.lines[i]; row.ID == l.id+"/puller" {
				setting := l.setting
				if math.IsNaN(setting) {
					setting = l.rated
				}
				w.addFor(numbered("gear", k, "capacity_kN"), "What "+row.ID+" may haul", &stepPuller, row.CapacityKN, l.rated/rigging.KN, setting/rigging.KN)
			}
		}
		x := w.addFor(numbered("gear", k, "use"), "Use of "+row.ID, &stepUse, row.Use, float64(row.GreatestKN), float64(row.CapacityKN)).lettered("S", "")
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
		field, name string
		load        Num
		attitudes   []attitude
		tensions    func(a *attitude) []float64
		peaks       []peak
	}{
		{"greatest_kN", "Greatest load of " + g.id, row.GreatestKN, e.turning, e.plannedTensions, e.planned.pieces},
		{"at_most_kN", "Load of " + g.id + " at most", row.AtMostKN, e.atMost, e.tensionsAtMost(e.mostHauls()), e.most.pieces},
	} {
		path := numbered("gear", i, k.field)
		switch {
		case !k.load.Known():
		case g.point >= 0:
			x := w.addFor(path, k.name, &stepAtPoint, k.load, float64(k.load))
			if r := e.row(rep, g.point); r >= 0 && reportedAs(&rep.Points[r], k.field) == k.load {
				x.from(0, numbered("points", r, k.field))
			}
		case g.line >= 0:
			name := k.name + ", at a turn of " + short(math.Round(k.peaks[i].turn/rigging.Deg*10)/10) + "°"
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
	w.of = ""
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
