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
	stepUse       = step{"", "Use of a piece", "u = $1/C", "", "load over what it may carry", []quantity{{"$1", "load as planned", "kN", ""}, {"C", "what it may carry", "kN", ""}}}
	stepGearStall = step{"", "Load of a piece on a line if the puller stalls", "Q_s = $1·T_s/$2", "kN", "in proportion to the line", []quantity{{"$1", "load as planned", "kN", ""}, {"T_s", "line if the puller stalls", "kN", ""}, {"$2", "line as planned", "kN", ""}}}
	stepSameStall = step{"", "Load of a piece at a point if the puller stalls", "Q_s = R_s", "kN", "the whole of what pulls at the point", []quantity{{"R_s", "load there if the puller stalls", "kN", ""}}}
	stepLimit     = step{"pull.hold_puller_to_kN", "Haul to hold the puller to", "S_max = S/u", "kN", "in proportion: the haul at which the hardest worked piece or point is used up",
		[]quantity{{"S", "haul as planned", "kN", ""}, {"u", "largest use", "", ""}}}
	stepLimitSought = step{"pull.hold_puller_to_kN", "Haul to hold the puller to", "S_max ≤ S/u", "kN", "sought: the largest haul with nothing used beyond its limit; grip under uplift and hold lines do not grow in proportion",
		[]quantity{{"S", "haul as planned", "kN", ""}, {"u", "largest use", "", ""}}}
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
		load := e.loadOf(g, rep)
		x := w.addFor(at("use"), "Use of "+g.id, &stepUse, row.Use, float64(row.LoadKN), float64(row.CapacityKN)).lettered(load.letter, "")
		x.from(0, load.path)
		x.from(1, at("capacity_kN"))
		switch name := "Load of " + g.id + " if the puller stalls"; {
		case !row.StallLoadKN.Known():
		case g.line >= 0:
			ll := &e.loads[g.line]
			legs, line := e.legRefs(g.line)
			x := w.addFor(at("stall_load_kN"), name, &stepGearStall, row.StallLoadKN, float64(row.LoadKN), ll.stall/rigging.KN, ll.tension/rigging.KN).lettered(load.letter, legs[line].letter)
			x.from(0, load.path)
			x.from(1, numbered("lines", g.line, "stall_kN"))
			x.from(2, numbered("lines", g.line, "tension_kN"))
		case g.point >= 0:
			x := w.addFor(at("stall_load_kN"), name, &stepSameStall, row.StallLoadKN, float64(row.StallLoadKN))
			if r := e.row(rep, g.point); r >= 0 && rep.Points[r].StallLoadKN == row.StallLoadKN {
				x.from(0, numbered("points", r, "stall_load_kN"))
			}
		}
	}
	for k := len(e.m.gear); k < len(rep.Gear); k++ {
		row := &rep.Gear[k]
		w.of = row.ID
		x := w.addFor(numbered("gear", k, "use"), "Use of "+row.ID, &stepUse, row.Use, float64(row.LoadKN), float64(row.CapacityKN)).lettered("S", "")
		for i := range e.m.lines {
			if row.ID == e.m.lines[i].id+"/puller" {
				x.from(0, numbered("lines", i, "haul_kN"))
			}
		}
	}
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
		legs, most := e.legRefs(g.line)
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

// workLimit shows the haul at which the first piece or point is used up.
func (e *evaluation) workLimit(w *workings, rep *Report) {
	main := e.mainLine()
	if !rep.Pull.HoldPullTo.Known() || main < 0 {
		return
	}
	haul, use, path := float64(rep.Lines[main].HaulKN), 0.0, ""
	most := func(list string, i int, u Num) {
		if float64(u) > use {
			use, path = float64(u), numbered(list, i, "use")
		}
	}
	for i := range rep.Gear {
		most("gear", i, rep.Gear[i].Use)
	}
	for i := range rep.Points {
		most("points", i, rep.Points[i].Use)
	}
	w.of = ""
	s := &stepLimit
	if math.Abs(haul/use-float64(rep.Pull.HoldPullTo)) > 1e-6*haul {
		s = &stepLimitSought
	}
	x := w.add(s, rep.Pull.HoldPullTo, haul, use)
	x.from(0, numbered("lines", main, "haul_kN"))
	x.from(1, path)
}
