package plan

import (
	"math"

	"pullline/rigging"
)

// A peak is the greatest of what was taken in, and at which turn (rad) it
// comes. Once anything taken in is not known, neither is the peak.
type peak struct{ value, turn float64 }

// degrees is the turn, NaN where the peak is not known.
func (p peak) degrees() float64 {
	if math.IsNaN(p.value) {
		return math.NaN()
	}
	return p.turn / rigging.Deg
}

// take says whether the value is the new peak.
func (p *peak) take(value, turn float64) bool {
	if !(value > p.value) && !(math.IsNaN(value) && !math.IsNaN(p.value)) {
		return false
	}
	p.value, p.turn = value, turn
	return true
}

// A tally is the greatest that points, pieces and pullers carry over a number
// of attitudes, in N.
type tally struct {
	points  []pointTally
	pieces  []peak // in the order of the plan's gear
	pullers []peak // in the order of the lines
}

// A pointTally is the greatest at one point.
type pointTally struct {
	load  peak // of all that pulls there, by any of the lines
	block peak // on a single block
	use   peak // of what holds the point

	loadCase casing
	// What pulls at the greatest use; nothing where nothing was asked of the
	// point, and then there is no case.
	pull    rigging.Vec
	useCase casing
	unheld  bool // a shared anchor whose legs cannot hold what pulls there
}

// A casing is the attitude and the lines that make a greatest value: set has a
// bit for each line of the group that pulls, the others are slack.
type casing struct{ attitude, set int }

var noCase = casing{-1, 0}

// A group is a set of points that load each other through shared anchors, each
// junction before its legs, and the lines that pull there.
type group struct{ points, lines []int }

// groupPoints sorts the points into groups.
func (e *evaluation) groupPoints(order []int) {
	n := len(e.m.points)
	root := make([]int, n)
	for i := range root {
		root[i] = i
	}
	var find func(i int) int
	find = func(i int) int {
		if root[i] != i {
			root[i] = find(root[i])
		}
		return root[i]
	}
	for i := range e.m.points {
		if b := e.m.points[i].bridle; b != nil {
			for _, leg := range b.legs {
				if leg >= 0 {
					root[find(leg)] = find(i)
				}
			}
		}
	}
	of := make(map[int]int, n)
	for _, i := range order {
		k, seen := of[find(i)]
		if !seen {
			k = len(e.groups)
			of[find(i)] = k
			e.groups = append(e.groups, group{})
		}
		e.groups[k].points = append(e.groups[k].points, i)
	}
	taken := make(map[[2]int]bool)
	for _, p := range e.standing.parts {
		k := of[find(p.point)]
		if !taken[[2]int{k, p.line}] {
			taken[[2]int{k, p.line}] = true
			e.groups[k].lines = append(e.groups[k].lines, p.line)
		}
	}
}

// tally goes through attitudes with the lines at tensions (N), which may
// differ from one to the next. Where several lines pull in a group, any of
// them may be slack: the greatest load of any choice of lines counts.
func (e *evaluation) tally(attitudes []*attitude, tensions func(a *attitude) []float64) *tally {
	t := &tally{points: make([]pointTally, len(e.m.points)), pieces: make([]peak, len(e.m.gear)), pullers: make([]peak, len(e.m.lines))}
	for i := range t.points {
		t.points[i].loadCase, t.points[i].useCase = noCase, noCase
	}
	pulls := make([]rigging.Vec, len(e.m.points))
	for k, a := range attitudes {
		tension := tensions(a)
		for _, b := range a.blocks {
			t.points[b.point].block.take(b.per*tension[b.line], a.turn)
		}
		for g := range e.groups {
			e.tallyGroup(t, &e.groups[g], k, a, tension, pulls)
		}
		for i := range e.m.gear {
			if g := &e.m.gear[i]; g.line >= 0 {
				t.pieces[i].take(a.lines[g.line].on(g)*tension[g.line], a.turn)
			}
		}
		for i := range a.lines {
			t.pullers[i].take(a.lines[i].haul*tension[i], a.turn)
		}
	}
	for i := range e.m.gear {
		g := &e.m.gear[i]
		switch {
		case g.point >= 0:
			t.pieces[i] = t.points[g.point].load
			if b := t.points[g.point].block; g.kind == "block" {
				t.pieces[i].take(b.value, b.turn)
			}
		case g.line < 0:
			t.pieces[i] = peak{math.NaN(), 0}
		}
	}
	return t
}

func (e *evaluation) tallyGroup(t *tally, g *group, k int, a *attitude, tension []float64, pulls []rigging.Vec) {
	for set := 1; set < 1<<len(g.lines); set++ {
		e.pullsOn(g, set, a, tension, pulls)
		for _, i := range g.points {
			pull, pt := pulls[i], &t.points[i]
			if load := pull.Norm(); pt.load.take(load, a.turn) {
				pt.loadCase = casing{k, set}
			}
			if pull == (rigging.Vec{}) {
				continue
			}
			if e.m.points[i].bridle != nil {
				pt.unheld = !e.shareInto(i, pulls) || pt.unheld
				continue
			}
			use := math.NaN()
			if anchor := e.m.points[i].anchor; anchor != nil {
				if counts, hold, err := anchor.Hold(pull); err == nil {
					use = rigging.Use(counts, hold)
				}
			}
			if pt.use.take(use, a.turn) || pt.useCase == noCase {
				pt.pull, pt.useCase = pull, casing{k, set}
			}
		}
	}
}

// pullsOn adds up what the lines of a set put on the points of their group,
// before any shared anchor parts it.
func (e *evaluation) pullsOn(g *group, set int, a *attitude, tension []float64, pulls []rigging.Vec) {
	for _, i := range g.points {
		pulls[i] = rigging.Vec{}
	}
	for _, p := range a.parts {
		for n, line := range g.lines {
			if line == p.line && set>>n&1 == 1 && e.inGroup(g, p.point) {
				pulls[p.point] = pulls[p.point].Add(p.per.Scale(tension[line]))
			}
		}
	}
}

func (e *evaluation) inGroup(g *group, point int) bool {
	if len(g.points) == 1 {
		return g.points[0] == point
	}
	for _, i := range g.points {
		if i == point {
			return true
		}
	}
	return false
}

// shareInto adds to the pulls on the legs' points what the pull on junction i
// puts there; false where it cannot be held.
func (e *evaluation) shareInto(i int, pulls []rigging.Vec) bool {
	b := &e.bridles[i]
	if !b.usable {
		return false
	}
	shared, err := b.Share(pulls[i])
	if err != nil {
		return false
	}
	for k, leg := range e.m.points[i].bridle.legs {
		pulls[leg] = pulls[leg].Sub(b.units[k].Scale(shared.Tension[k]))
	}
	return true
}
