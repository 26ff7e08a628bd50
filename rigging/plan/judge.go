package plan

import (
	"math"
	"slices"

	"pullline/rigging"
)

// reason adds what keeps the plan from being better than a verdict.
func (e *evaluation) reason(v rigging.Verdict, code, path, format string, args ...any) {
	if v == rigging.Within {
		return
	}
	e.reasons = append(e.reasons, Why{Code: code, Path: path, Message: e.r.sentence(format, args), Verdict: v, Format: format, Args: args})
}

// Reasons that come from the puller alone: with it held, there are none.
const (
	whyAtMostOver = "at_most_over"
	// WhyWatched is the code of the reason that only a person watching stops a
	// puller whose stall would put something over its limit, or is not known.
	WhyWatched = "watched"
)

// verdict is the one place where a plan is judged: the worst of every piece,
// point and puller as planned, of the hinge, of where the puller stands, and of
// what is out of the ordinary; what the puller can do at most can only worsen it.
// Anything missing or impossible makes it unknown at best.
func (e *evaluation) verdict(rep *Report) {
	e.judgeRows(rep)
	if e.solved {
		e.judgeHinge(rep)
		e.judgePlaces()
		e.judgeAtMost(rep)
	}
	e.reasons = append(e.reasons, e.r.whyProblems()...)
	if len(e.pieces) == 0 || !e.solved { // nothing was judged
		rep.AtMostVerdict = rep.AtMostVerdict.Worse(rigging.Unknown)
		if len(e.r.problems) == 0 {
			e.reason(rigging.Unknown, "nothing_judged", "", "there is nothing here to judge yet")
		}
	}
	if len(e.r.problems) > 0 {
		rep.AtMostVerdict = rep.AtMostVerdict.Worse(rigging.Unknown)
	}
	rep.Verdict, rep.OnlyIfHeld = rigging.Within, len(e.reasons) > 0 && !math.IsNaN(e.holdTo)
	for _, y := range e.reasons {
		rep.Verdict = rep.Verdict.Worse(y.Verdict)
		rep.OnlyIfHeld = rep.OnlyIfHeld && (y.Code == whyAtMostOver || y.Code == WhyWatched)
	}
	rep.NoRoom = e.noRoom
	rep.Why = append(rep.Why, e.reasons...)
	slices.SortStableFunc(rep.Why, func(a, b Why) int {
		switch {
		case a.Verdict == b.Verdict:
			return 0
		case a.Verdict.Worse(b.Verdict) == a.Verdict:
			return -1
		}
		return 1
	})
}

// whyProblems are the problems as reasons.
func (r *reader) whyProblems() []Why {
	out := make([]Why, 0, len(r.problems))
	for _, p := range r.problems {
		out = append(out, Why{Code: string(p.Code), Path: p.Path, Message: p.Message, Verdict: rigging.Unknown, Format: p.Format, Args: p.Args})
	}
	return out
}

// judgeRows takes in the pieces, pullers and points as planned, and notes which
// is worked hardest.
func (e *evaluation) judgeRows(rep *Report) {
	rep.AtMostVerdict = rigging.Within
	worst := func(id string, use float64, governing *string, of *float64) {
		if use > *of || use == *of && (*governing == "" || id < *governing) {
			*governing, *of = id, use
		}
	}
	use, mostUse := -1.0, -1.0
	atMost := func(id string, v rigging.Verdict, used float64) {
		worst(id, used, &rep.AtMostGoverning, &mostUse)
		rep.AtMostVerdict = rep.AtMostVerdict.Worse(v)
		if v == rigging.Unknown && e.mostUnknown == "" {
			e.mostUnknown = id
		}
	}
	row := func(what, id, path string, v rigging.Verdict, load, capacity, used float64) {
		worst(id, used, &rep.Governing, &use)
		switch {
		case v == rigging.Over:
			e.reason(v, what+"_over", path, "%s is over its limit: %s on what holds %s (%s %%)", quote(id), kilonewtons(load), heldKilonewtons(capacity), percentUp(used))
		case v == rigging.Near:
			e.reason(v, what+"_near", path, "%s is near its limit: %s on what holds %s (%s %%)", quote(id), kilonewtons(load), heldKilonewtons(capacity), percentUp(used))
		case v == rigging.Unknown && len(e.r.problems) == 0:
			e.reason(v, what+"_unknown", path, "%s cannot be judged", quote(id))
		}
	}
	for i, g := range rep.Gear {
		what, path := "piece", ""
		if e.isPuller(i) {
			what, path = "puller", e.pullerPath(g.ID)
		} else {
			path = e.m.gear[i].path
			atMost(g.ID, g.AtMostVerdict, float64(g.AtMostUse))
		}
		row(what, g.ID, path, g.Verdict, float64(g.GreatestKN)*rigging.KN, float64(g.CapacityKN)*rigging.KN, float64(g.Use))
	}
	for i := range e.held {
		h := &e.held[i]
		if !h.used {
			continue
		}
		p := &e.m.points[i]
		atMost(p.id, h.mostVerdict, h.mostUse)
		row("point", p.id, p.path, h.verdict, h.counts, h.capacity, h.use)
	}
	rep.GoverningUse, rep.AtMostUse = None(), None()
	if use >= 0 {
		rep.GoverningUse = Num(use)
	}
	if mostUse >= 0 {
		rep.AtMostUse = Num(mostUse)
	}
}

// isPuller tells the pullers' rows, which follow the pieces of gear.
func (e *evaluation) isPuller(row int) bool { return row >= len(e.m.gear) }

func (e *evaluation) pullerPath(id string) string {
	for _, l := range e.m.lines {
		if l.id+"/puller" == id {
			return l.path + ".puller"
		}
	}
	return ""
}

// sideHold is the use of the hinge's side hold.
func (e *evaluation) sideHold(w rigging.SideWork) float64 {
	return w.Stress / e.m.strengthLow
}

// closingUse is the turn at which the tree falls by itself over that at which
// the face closes and the hinge breaks.
func (e *evaluation) closingUse() float64 { return e.pull.Commit / e.m.setup.FaceOpening }

// judgeUse is the verdict on a use, which is infinite where something is loaded
// that holds nothing.
func judgeUse(use float64) rigging.Verdict {
	if math.IsInf(use, 1) {
		return rigging.Over
	}
	return rigging.Judge(use, 1)
}

// judgeHinge takes in what the hinge holds to the side, and that it bends
// until the tree falls by itself.
func (e *evaluation) judgeHinge(rep *Report) {
	side, closing := e.sideHold(e.pull.Side), e.closingUse()
	switch v := judgeUse(side); v {
	case rigging.Over, rigging.Near:
		e.reason(v, "side_hold", "cut", "the hinge is asked to hold %s %% of what its wood is relied on to hold to the side", percentUp(side))
	case rigging.Unknown:
		e.reason(v, "side_hold", "cut", "what the hinge holds to the side is not known")
	}
	switch v := judgeUse(closing); v {
	case rigging.Over:
		e.reason(v, "closing", "cut.face_opening_deg", "the face closes and the hinge breaks at %s, before the tree falls by itself at %s", degrees(e.m.setup.FaceOpening), degreesUp(e.pull.Commit))
	case rigging.Near:
		e.reason(v, "closing", "cut.face_opening_deg", "the face closes at %s, soon after the tree falls by itself at %s", degrees(e.m.setup.FaceOpening), degreesUp(e.pull.Commit))
	}
}

// The sector in which the tree lands: our own rule, from the two tree lengths
// of 29 CFR 1910.266(h)(1).
const (
	LandingReach = 1.1 // times the height
	LandingAngle = 45 * rigging.Deg
)

// judgePlaces takes in where the pullers stand.
func (e *evaluation) judgePlaces() {
	reach := LandingReach * e.m.setup.Tree.Height
	for i := range e.m.lines {
		l := &e.m.lines[i]
		at := l.pullerPoint()
		if l.hold && !l.puller || at < 0 || e.m.points[at].distance >= reach {
			continue
		}
		p := &e.m.points[at]
		if math.Cos(p.bearing) >= math.Cos(LandingAngle)-1e-12 {
			e.reason(rigging.Over, "puller_where_it_lands", p.path, "the tree lands where the puller of line %s stands: %s is %s from the stump and within 45° of the lay, and the tree reaches %s", quote(l.id), quote(p.id),
				Amount{p.distance, "m", Down}, Amount{reach, "m", Up})
		} else {
			e.reason(rigging.Near, "puller_in_reach", p.path, "the puller of line %s stands at %s, %s from the stump: a tree that goes astray reaches %s", quote(l.id), quote(p.id),
				Amount{p.distance, "m", Down}, Amount{reach, "m", Up})
		}
	}
}

// judgeAtMost takes in what the pullers can do. That only worsens a verdict.
func (e *evaluation) judgeAtMost(rep *Report) {
	main := e.mainLine()
	path := e.m.lines[main].path + ".puller"
	if rep.AtMostVerdict == rigging.Over {
		e.reason(rigging.Near, whyAtMostOver, path, "if the pullers pull all they can, %s is at %s %% of its limit", quote(rep.AtMostGoverning), percentUp(float64(rep.AtMostUse)))
	}
	if e.mostUnknown != "" && len(e.r.problems) == 0 {
		e.reason(rigging.Unknown, "at_most_unknown", path, "if the pullers pull all they can, it is not known what %s carries or whether it holds", quote(e.mostUnknown))
	}
	if e.noRoom {
		e.reason(rigging.Near, "no_room", path, "there is no room: the haul planned is %s, and the puller of line %s may be held to no more than %s", kilonewtons(e.mainHaul()), quote(e.m.lines[main].id), heldKilonewtons(e.holdTo))
	}
	e.judgeWatched()
	for i, l := range e.m.lines {
		ll := &e.loads[i]
		if haul := ll.haul * ll.tension; !l.hold && ll.mostHaul < haul {
			e.reason(rigging.Near, "pull_too_weak", l.path+".puller", "the puller of line %s makes at most %s, and the haul planned is %s", quote(l.id), heldKilonewtons(ll.mostHaul), kilonewtons(haul))
		}
	}
}

// judgeWatched takes in pullers that only a watching person stops: where their
// stall would put something over its limit, or is not known.
func (e *evaluation) judgeWatched() {
	hauls := e.mostHauls()
	watched := -1
	for i, l := range e.m.lines {
		if l.limitedBy == limitWatched {
			watched, hauls[i] = i, l.stall
		}
	}
	if watched < 0 {
		return
	}
	l, use := &e.m.lines[watched], e.worstUse(e.tally(e.atMost, e.tensionsAtMost(hauls)))
	switch {
	case math.IsNaN(use):
		e.reason(rigging.Near, WhyWatched, l.path+".puller.stall_kN", "only a person watching stops the puller of line %s, and what it puts on the gear if nobody does is not known", quote(l.id))
	case use > 1:
		e.reason(rigging.Near, WhyWatched, l.path+".puller", "only a person watching stops the puller of line %s: if nobody does, the worst piece or point comes to %s %% of its limit", quote(l.id), percentUp(use))
	}
}
