package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// A held point is what pulls at a point and how it stands against what holds
// it. pull and block are standing, at planned tension; the rest is at the
// greatest over the turns.
type held struct {
	used     bool
	pull     rigging.Vec // N on the anchor
	block    float64     // N, greatest load on a single block here
	included float64     // rad, NaN without a block

	greatest peak        // N, whole load
	worst    rigging.Vec // N, the pull that makes the greatest use
	counts   float64     // N, the part of it that matters for the kind
	capacity float64     // N, NaN where unknown
	use      float64
	verdict  rigging.Verdict

	most        peak // N, whole load at most
	mostUse     float64
	mostVerdict rigging.Verdict
}

// A bridleAt is a shared anchor with its legs laid out.
type bridleAt struct {
	rigging.Bridle
	units  []rigging.Vec
	usable bool           // every leg names a point and has a length
	shared rigging.Shared // room for one
}

// layBridles lays out the shared anchors.
func (e *evaluation) layBridles() {
	e.bridles = make([]bridleAt, len(e.m.points))
	for i := range e.m.points {
		p, b := &e.m.points[i], &e.bridles[i]
		if p.bridle == nil {
			continue
		}
		b.SelfAdjusting, b.usable = p.bridle.selfAdjusting, true
		for _, leg := range p.bridle.legs {
			if leg < 0 { // reported where it was read
				b.usable = false
				break
			}
			way := e.m.points[leg].at.Sub(p.at)
			unit, err := way.Unit()
			b.usable = b.usable && err == nil
			b.Legs, b.units = append(b.Legs, way), append(b.units, unit)
		}
	}
}

// hold judges every point, as planned and at most.
func (e *evaluation) hold() {
	e.layBridles()
	order, circular := e.bridleOrder()
	e.stand(order, circular)
	e.groupPoints(order)
	for i := range circular {
		if circular[i] {
			e.bridles[i].usable = false
		}
	}
	e.planned = e.tally(e.turning, e.plannedTensions)
	e.most = e.tally(e.atMost, e.tensionsAtMost(e.mostHauls()))
	for _, i := range order {
		if e.m.points[i].bridle == nil {
			e.judge(i)
		}
	}
	// Junctions last, inner ones first: each is as strong as its worst leg.
	for k := len(order) - 1; k >= 0; k-- {
		if i := order[k]; e.m.points[i].bridle != nil {
			e.judgeJunction(i, circular[i])
		}
	}
}

// stand adds up what pulls at every point with the tree standing, legs of
// shared anchors after the junctions that load them.
func (e *evaluation) stand(order []int, circular []bool) {
	for i := range e.held {
		e.held[i].included = math.NaN()
	}
	for _, p := range e.standing.parts {
		h := &e.held[p.point]
		h.used = true
		h.pull = h.pull.Add(p.per.Scale(e.loads[p.line].tension))
	}
	for _, b := range e.standing.blocks {
		h := &e.held[b.point]
		h.block = math.Max(h.block, b.per*e.loads[b.line].tension)
	}
	include := func(point int, angle float64) {
		h := &e.held[point]
		if !(h.included <= angle) {
			h.included = angle
		}
	}
	for i := range e.m.lines {
		l, la := &e.m.lines[i], &e.standing.lines[i]
		for k := 1; k < len(l.stations)-1; k++ {
			if s := l.stations[k]; !s.onStem {
				include(s.point, la.state.Included(k))
			}
		}
		for k, angle := range e.runs[i].angles {
			include(l.tackle.haul[k].point, angle)
		}
	}
	for _, i := range order {
		if e.m.points[i].bridle != nil && e.held[i].used && !circular[i] {
			e.share(i)
		}
	}
}

// bridleOrder lists the points so that a junction comes before its legs, and
// marks junctions that load themselves in a circle.
func (e *evaluation) bridleOrder() (order []int, circular []bool) {
	n := len(e.m.points)
	circular = make([]bool, n)
	state := make([]int, n) // 0 not seen, 1 being followed, 2 done
	var visit func(i int) bool
	visit = func(i int) bool {
		if state[i] == 1 {
			return false
		}
		if state[i] == 2 {
			return !circular[i]
		}
		state[i] = 1
		if b := e.m.points[i].bridle; b != nil {
			for _, leg := range b.legs {
				if leg >= 0 && !visit(leg) {
					circular[i] = true
				}
			}
		}
		state[i] = 2
		order = append(order, i)
		return !circular[i]
	}
	for i := range n {
		visit(i)
	}
	for a, b := 0, len(order)-1; a < b; a, b = a+1, b-1 {
		order[a], order[b] = order[b], order[a]
	}
	return order, circular
}

// share parts the standing pull on a shared anchor among its legs.
func (e *evaluation) share(i int) {
	p, h, b := &e.m.points[i], &e.held[i], &e.bridles[i]
	path := p.path + ".anchor"
	for _, leg := range p.bridle.legs {
		if leg < 0 {
			return
		}
	}
	shared, err := b.Share(h.pull)
	if err != nil {
		e.unheldProblem(i, legsFault(err))
		return
	}
	for k, leg := range p.bridle.legs {
		l := &e.held[leg]
		l.used = true
		l.pull = l.pull.Sub(b.units[k].Scale(shared.Tension[k]))
		if shared.Slack[k] {
			e.caution("bridle_slack", path, sourceEquilibrium, quote(p.id), quote(e.m.points[leg].id))
		}
	}
	if shared.Off > 5*rigging.Deg {
		e.caution("bridle_moves", path, sourceEquilibrium, quote(p.id), degreesUp(shared.Off))
	}
}

func (e *evaluation) unheldProblem(i int, wrong string) {
	p := &e.m.points[i]
	path := p.path + ".anchor.legs"
	if len(e.r.problemsAt(path)) == 0 {
		e.r.problem(CodeAnchor, path, takes("legs_against"), nil, wrong, quote(p.id))
	}
}

func (e *evaluation) judge(i int) {
	p, h := &e.m.points[i], &e.held[i]
	none := math.NaN()
	h.counts, h.capacity, h.use, h.mostUse = none, none, none, none
	h.greatest, h.most = e.planned.points[i].load, e.most.points[i].load
	if !h.used {
		return
	}
	if p.anchor == nil {
		if p.kind == field.NoAnchor {
			if math.IsNaN(h.greatest.value) {
				e.r.problem(CodeMissing, p.path+".anchor", takes("holder"), nil, "unheld.unknown", quote(p.id))
			} else {
				e.r.problem(CodeMissing, p.path+".anchor", takes("holder"), nil, "unheld", quote(p.id), kilonewtons(h.greatest.value))
			}
		}
		return
	}
	if math.IsNaN(h.greatest.value) {
		return // what keeps it from being known is a problem already
	}
	h.worst = e.planned.points[i].pull
	counts, capacity, err := p.anchor.Hold(h.worst)
	if err != nil {
		if len(e.r.problemsAt(p.path+".anchor")) > 0 {
			return // the value it cannot be computed from is named already
		}
		wrong, args := anchorFault(err, p.id)
		e.r.problem(CodeAnchor, p.path+".anchor", takes("table_anchor"), nil, wrong, args...)
		return
	}
	h.counts, h.capacity = counts, capacity
	if counts == 0 && capacity == 0 { // nothing on nothing is not judged; only a machine comes to that
		e.r.problem(CodeAnchor, p.path+".anchor", takes("held_slope"), nil, "machine_slides", quote(p.id))
	}
	h.use, h.verdict = rigging.Use(counts, capacity), rigging.Judge(counts, capacity)
	m := &e.most.points[i]
	h.mostUse = m.use.value
	switch {
	case math.IsNaN(m.load.value):
		h.mostUse = none
	case m.useCase == noCase: // nothing pulls here at most either
		h.mostUse = h.use
	}
	h.mostVerdict = judgeUse(h.mostUse)
}

func (e *evaluation) judgeJunction(i int, circular bool) {
	p, h := &e.m.points[i], &e.held[i]
	none := math.NaN()
	h.counts, h.capacity, h.use, h.mostUse = none, none, none, none
	h.greatest, h.most = e.planned.points[i].load, e.most.points[i].load
	if !h.used {
		return
	}
	if circular {
		e.r.problem(CodeAnchor, p.path+".anchor.legs", takes("legs_away"), nil, "legs_circular", quote(p.id))
		return
	}
	if e.planned.points[i].unheld {
		e.unheldProblem(i, "legs_turning")
	}
	if len(p.bridle.legs) < 2 {
		return
	}
	h.counts = h.greatest.value
	h.verdict, h.mostVerdict = rigging.Within, rigging.Within
	worst, mostWorst := 0.0, 0.0
	for _, leg := range p.bridle.legs {
		if leg < 0 || !e.held[leg].used {
			h.verdict, h.mostVerdict = h.verdict.Worse(rigging.Unknown), h.mostVerdict.Worse(rigging.Unknown)
			worst, mostWorst = none, none
			continue
		}
		l := &e.held[leg]
		h.verdict, h.mostVerdict = h.verdict.Worse(l.verdict), h.mostVerdict.Worse(l.mostVerdict)
		// math.Max keeps a NaN, so one leg that is not known leaves the use unknown.
		worst, mostWorst = math.Max(worst, l.use), math.Max(mostWorst, l.mostUse)
	}
	if e.planned.points[i].unheld {
		h.verdict, worst = h.verdict.Worse(rigging.Unknown), none
	}
	if e.most.points[i].unheld {
		h.mostVerdict, mostWorst = h.mostVerdict.Worse(rigging.Unknown), none
	}
	h.use, h.mostUse = worst, mostWorst
	if worst > 0 { // nothing where a leg holds nothing
		h.capacity = h.counts / worst
	}
}
