package plan

import (
	"math"
	"slices"

	"pullline/rigging"
)

// An attitude is the rig with the tree at one turn: what every line does, for
// each newton of its tension, with its sheaves as the plan has them or, where
// it is free, without any friction.
type attitude struct {
	turn   float64 // rad
	free   bool
	lines  []lineAt
	parts  []part
	blocks []blockAt
}

// A lineAt is one line at one turn, each per newton of its tension. What the
// hauling part or the tackle leaves open is NaN.
type lineAt struct {
	state   *rigging.LineState
	end     float64   // last leg
	first   float64   // haul leaving the tackle
	hauls   []float64 // each hauling leg
	haul    float64   // at the puller
	highest float64   // greatest leg, or part of rope in the tackle
	block   float64   // greatest load on a block that travels in the tackle, not below highest
	stem    float64   // greatest resultant at a place on the stem
}

// A part is what one line puts on one point, per newton of its tension.
type part struct {
	point, line int
	per         rigging.Vec
}

// A blockAt is what one line puts on one block at a point.
type blockAt struct {
	point, line int
	per         float64
}

// A haulRun is where the hauling part of a line's tackle runs, which no turn
// of the tree changes.
type haulRun struct {
	broken  bool // a leg has no length
	units   []rigging.Vec
	lengths []float64
	angles  []float64 // rad, included angle at each block between
	ratios  []float64 // of tension there, hauling side over load side
}

// on is what loads a piece on this line, per newton of the line's tension.
func (l *lineAt) on(g *piece) float64 {
	switch {
	case g.atStem:
		return l.stem
	case g.kind == "block":
		return l.block
	}
	return l.highest
}

// known says whether the haul can be told from the tension.
func (l *lineAt) known() bool { return !math.IsNaN(l.haul) }

// layHaul follows the hauling part of every line's tackle to its puller.
func (e *evaluation) layHaul() {
	e.runs = make([]haulRun, len(e.m.lines))
	for i := range e.m.lines {
		l, run := &e.m.lines[i], &e.runs[i]
		if l.tackle == nil || len(l.tackle.haul) == 0 {
			continue
		}
		at := e.m.points[l.stations[len(l.stations)-1].point].at
		for k, s := range l.tackle.haul {
			leg := e.m.points[s.point].at.Sub(at)
			u, err := leg.Unit()
			if err != nil {
				e.r.problem(CodePlace, s.path, takes("other_place"), nil, "haul_same_place", quote(l.id))
				run.broken = true
				break
			}
			if k > 0 {
				angle := math.Acos(math.Max(-1, math.Min(1, -run.units[k-1].Dot(u))))
				run.angles, run.ratios = append(run.angles, angle), append(run.ratios, rigging.SheaveRatio(l.tackle.haul[k-1].efficiency, angle))
			}
			run.units = append(run.units, u)
			run.lengths = append(run.lengths, leg.Norm())
			at = e.m.points[s.point].at
		}
	}
}

// attitudesAt works the rig out at turns (rad) at which it was solved: at each with
// the friction given, then at each without.
func (e *evaluation) attitudesAt(turns []float64) []attitude {
	m, n := e.m, len(e.m.lines)
	parts, hauls := 0, 0
	for i := range m.lines {
		l := &m.lines[i]
		parts += len(l.stations)
		if l.tackle != nil {
			parts, hauls = parts+len(l.tackle.haul), hauls+len(l.tackle.haul)
		}
	}
	out := make([]attitude, 2*len(turns))
	lines := make([]lineAt, len(out)*n)
	partRoom, blockRoom, haulRoom := make([]part, len(out)*parts), make([]blockAt, len(out)*parts), make([]float64, len(out)*hauls)
	for k := range out {
		a := &out[k]
		a.turn, a.free = turns[k%len(turns)], k >= len(turns)
		a.lines, lines = lines[:n:n], lines[n:]
		a.parts, partRoom = partRoom[:0:parts], partRoom[parts:]
		a.blocks, blockRoom = blockRoom[:0:parts], blockRoom[parts:]
	}
	for i := range m.lines {
		states, without := e.statesAt(i, turns)
		rubbing, free := e.tackleAt(i, false), e.tackleAt(i, true)
		for k := range out {
			a := &out[k]
			la, tackle := &a.lines[i], &rubbing
			if a.free {
				la.state, tackle = &without[k-len(turns)], &free
			} else {
				la.state = &states[k]
			}
			haul := len(e.runs[i].units)
			la.hauls, haulRoom = haulRoom[:0:haul], haulRoom[haul:]
			e.loadLine(a, i, tackle)
			e.loadPoints(a, i)
		}
	}
	return out
}

// statesAt is a line at turns, with friction and without.
func (e *evaluation) statesAt(i int, turns []float64) (states, without []rigging.LineState) {
	course, err := e.m.setup.Lines[i].Lay()
	if err == nil {
		states, err = course.Through(turns)
	}
	if err != nil { // the rig was followed past these turns without error
		states = slices.Repeat(e.pull.Standing[i:i+1], len(turns))
		return states, states
	}
	return states, course.WithoutFriction(turns, states)
}

// A tackleAt is what a line's tackle makes of each newton of the line's last leg.
type tackleAt struct {
	haul             float64 // leaving it; NaN where it cannot be told
	part, travelling float64 // greatest in a part of its rope and on a block that travels; 0 without one
}

func (e *evaluation) tackleAt(i int, free bool) tackleAt {
	t := e.m.lines[i].tackle
	switch {
	case t == nil:
		return tackleAt{haul: 1}
	case !t.usable:
		return tackleAt{haul: math.NaN()}
	}
	solved := t.solved(free)
	out := tackleAt{haul: solved.Actual}
	if e.runs[i].broken {
		out.haul = math.NaN()
	}
	out.part, out.travelling = solved.Greatest()
	return out
}

// loadLine fills in what the rope, blocks and hauling part of a line carry.
func (e *evaluation) loadLine(a *attitude, i int, t *tackleAt) {
	l, la, run := &e.m.lines[i], &a.lines[i], &e.runs[i]
	st := la.state
	la.end, la.highest = st.End(), st.Highest()
	for k := range l.stations {
		if l.stations[k].onStem {
			la.stem = math.Max(la.stem, st.Force(k).Norm())
		}
	}
	la.first = la.end / t.haul
	la.haul = la.first
	for k := range run.units {
		if k > 0 && !a.free {
			la.haul *= run.ratios[k-1]
		}
		la.hauls = append(la.hauls, la.haul)
	}
	la.highest = math.Max(la.highest, la.haul)
	la.block = la.highest
	if l.tackle != nil && l.tackle.usable {
		la.highest = math.Max(la.highest, la.end*t.part)
		la.block = math.Max(la.highest, la.end*t.travelling)
	}
}

// loadPoints fills in what a line puts on the points it runs over.
func (e *evaluation) loadPoints(a *attitude, i int) {
	l, la, run := &e.m.lines[i], &a.lines[i], &e.runs[i]
	st := la.state
	add := func(point int, per rigging.Vec) { a.parts = append(a.parts, part{point, i, per}) }
	block := func(point int, per rigging.Vec) { a.blocks = append(a.blocks, blockAt{point, i, per.Norm()}) }
	last := len(l.stations) - 1
	for k := range l.stations {
		s := &l.stations[k]
		if s.onStem {
			continue
		}
		f := st.Force(k)
		if k == last && l.tackle != nil {
			if len(run.units) > 0 {
				f = f.Add(run.units[0].Scale(la.first))
			} else {
				f = f.Add(st.Units[k-1].Scale(-la.first)) // back along the line, the worst for the anchor
			}
			block(s.point, f)
		}
		add(s.point, f)
		if k > 0 && k < last {
			block(s.point, f)
		}
	}
	for k, tension := range la.hauls {
		point := l.tackle.haul[k].point
		f := run.units[k].Scale(-tension)
		if k+1 < len(run.units) {
			f = f.Add(run.units[k+1].Scale(la.hauls[k+1]))
			block(point, f)
		}
		add(point, f)
	}
}
