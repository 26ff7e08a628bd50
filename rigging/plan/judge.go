package plan

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// reason adds what keeps the plan from being better than a verdict.
// The key is that of its sentence, with its code before the first dot.
func (e *evaluation) reason(v rigging.Verdict, key, path string, args ...any) {
	e.because(v, key, path, text.Saying{Key: "why." + key, Args: args})
}

func (e *evaluation) because(v rigging.Verdict, key, path string, said text.Saying) {
	if v != rigging.Within {
		e.reasons = append(e.reasons, Why{Code: codeOf(key), Path: path, Verdict: v, Saying: said})
	}
}

// codeOf is the code of a sentence's key, which all its variants share.
func codeOf(key string) string {
	code, _, _ := strings.Cut(key, ".")
	return code
}

// Reasons that come from the puller alone: with it held, there are none.
const (
	whyAtMostOver = "at_most_over"
	// WhyWatched is the code of the reason that only a person watching stops a
	// puller whose stall would put something over its limit, or is not known.
	WhyWatched = "watched"
)

// WhyItLands is the code of the reason that a puller stands where the tree lands.
const WhyItLands = "puller_where_it_lands"

// verdict is the one place where a plan is judged: the worst of every piece,
// point and puller as planned, of the hinge, of where the puller stands, and of
// what is out of the ordinary; what the puller can do at most can only worsen it.
// Anything missing or impossible makes it unknown at best.
func (e *evaluation) verdict(rep *Report) {
	e.judgeRows(rep)
	if e.solved {
		e.judgeStem(rep)
		e.judgeHinge(rep)
		e.judgePlaces()
		e.judgeAtMost(rep)
	}
	e.judgePeople()
	e.reasons = append(e.reasons, e.r.whyProblems()...)
	if len(e.pieces) == 0 || !e.solved { // nothing was judged
		rep.AtMostVerdict = rep.AtMostVerdict.Worse(rigging.Unknown)
		if len(e.r.problems) == 0 {
			e.reason(rigging.Unknown, "nothing_judged", "")
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
		out = append(out, Why{Code: string(p.Code), Path: p.Path, Verdict: rigging.Unknown, Saying: p.Saying})
	}
	return out
}

// judgeRows takes in the pieces, pullers, points and the stem as planned, and notes
// which is worked hardest.
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
		switch {
		case v == rigging.Over:
			e.reason(v, what+"_over", path, quote(id), text.Number(kilonewtons(load)), heldKilonewtons(capacity), text.Percent(used))
		case v == rigging.Near:
			e.reason(v, what+"_near", path, quote(id), text.Number(kilonewtons(load)), heldKilonewtons(capacity), text.Percent(used))
		case v == rigging.Unknown && len(e.r.problems) == 0:
			e.reason(v, what+"_unknown", path, quote(id))
		}
	}
	for i, g := range rep.Gear {
		what, named, path := "piece", g.ID, ""
		if l := e.pullerOf(i); l != nil {
			what, named, path = "puller", l.id, l.path+".puller"
		} else {
			path = e.m.gear[i].path
			atMost(g.ID, g.AtMostVerdict, float64(g.AtMostUse))
		}
		worst(g.ID, float64(g.Use), &rep.Governing, &use)
		row(what, named, path, g.Verdict, float64(g.GreatestKN)*rigging.KN, float64(g.CapacityKN)*rigging.KN, float64(g.Use))
	}
	for i := range e.held {
		h := &e.held[i]
		if !h.used {
			continue
		}
		p := &e.m.points[i]
		atMost(p.id, h.mostVerdict, h.mostUse)
		worst(p.id, h.use, &rep.Governing, &use)
		row("point", p.id, p.path, h.verdict, h.counts, h.capacity, h.use)
	}
	if e.solved {
		atMost(StemRow, rep.Stem.AtMostVerdict, float64(rep.Stem.AtMostUse))
		worst(StemRow, float64(rep.Stem.Use), &rep.Governing, &use)
	}
	rep.GoverningUse, rep.AtMostUse = None(), None()
	if use >= 0 {
		rep.GoverningUse = Num(use)
	}
	if mostUse >= 0 {
		rep.AtMostUse = Num(mostUse)
	}
}

// pullerOf is the line whose puller a row of gear is, nil for a piece: the
// pullers' rows follow the pieces of gear.
func (e *evaluation) pullerOf(row int) *line {
	row -= len(e.m.gear)
	for i := range e.m.lines {
		if l := &e.m.lines[i]; l.puller || !l.hold {
			if row == 0 {
				return l
			}
			row--
		}
	}
	return nil
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
		e.reason(v, "side_hold", "cut", text.Percent(side))
	case rigging.Unknown:
		e.reason(v, "side_hold.unknown", "cut")
	}
	switch v := judgeUse(closing); v {
	case rigging.Over:
		e.reason(v, "closing.over", "cut.face_opening_deg", degrees(e.m.setup.FaceOpening), degreesUp(e.pull.Commit))
	case rigging.Near:
		e.reason(v, "closing.near", "cut.face_opening_deg", degrees(e.m.setup.FaceOpening), degreesUp(e.pull.Commit))
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
			e.reason(rigging.Over, WhyItLands, p.path, quote(l.id), quote(p.id), metres(p.distance, text.Down), metres(reach, text.Up))
		} else {
			e.reason(rigging.Near, "puller_in_reach", p.path, quote(l.id), quote(p.id), metres(p.distance, text.Down), metres(reach, text.Up))
		}
	}
}

// judgeAtMost takes in what the pullers can do. That only worsens a verdict.
func (e *evaluation) judgeAtMost(rep *Report) {
	main := e.mainLine()
	path := e.m.lines[main].path + ".puller"
	if rep.AtMostVerdict == rigging.Over {
		e.reason(rigging.Near, whyAtMostOver, path, quote(rep.AtMostGoverning), text.Percent(rep.AtMostUse))
	}
	if e.mostUnknown != "" && len(e.r.problems) == 0 {
		e.reason(rigging.Unknown, "at_most_unknown", path, quote(e.mostUnknown))
	}
	if e.noRoom {
		e.reason(rigging.Near, "no_room", path, kilonewtons(e.mainHaul()), quote(e.m.lines[main].id), heldKilonewtons(e.holdTo))
	}
	e.judgeWatched()
	for i, l := range e.m.lines {
		ll := &e.loads[i]
		if haul := ll.haul * ll.tension; !l.hold && ll.mostHaul < haul {
			e.reason(rigging.Near, "pull_too_weak", l.path+".puller", quote(l.id), heldKilonewtons(ll.mostHaul), kilonewtons(haul))
		}
	}
}

// judgeWatched takes in pullers that only a watching person stops: where their
// stall would put something over its limit, or is not known.
func (e *evaluation) judgeWatched() {
	hauls := e.mostHauls()
	watched := -1
	for i, l := range e.m.lines {
		if l.limitedBy == field.Watched {
			watched, hauls[i] = i, l.stall
		}
	}
	if watched < 0 {
		return
	}
	l, use := &e.m.lines[watched], e.worstUse(e.tally(e.atMost, e.tensionsAtMost(hauls)))
	use = math.Max(use, e.stemUse(e.bent(e.atMost, e.tensionsAtMost(hauls)))) // math.Max keeps a NaN
	switch {
	case math.IsNaN(use):
		e.reason(rigging.Near, WhyWatched+".unknown", l.path+".puller.stall_kN", quote(l.id))
	case use > 1:
		e.reason(rigging.Near, WhyWatched, l.path+".puller", quote(l.id), text.Percent(use))
	}
}
