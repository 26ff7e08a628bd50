package plan

import (
	"math"
	"math/bits"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/field"
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
type group struct {
	points, lines []int
	parts         [][]groupPart // of each line
}

// A groupPart is what a line puts on a point of its group: part is its index in
// every attitude, place that of the point in the group.
type groupPart struct{ part, place int }

// mostTogether bounds the lines that load one point, directly or through shared
// anchors: every choice of them is gone through, 2 to their number.
const mostTogether = 8

// groupPoints sorts the points into groups. One with too many lines is a problem,
// and what its points carry is not known.
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
	for part, p := range e.standing.parts { // in the order of the lines
		g := &e.groups[of[find(p.point)]]
		if last := len(g.lines) - 1; last < 0 || g.lines[last] != p.line {
			g.lines, g.parts = append(g.lines, p.line), append(g.parts, nil)
		}
		last := len(g.lines) - 1
		g.parts[last] = append(g.parts[last], groupPart{part, slices.Index(g.points, p.point)})
	}
	for i := range e.groups {
		if g := &e.groups[i]; len(g.lines) > mostTogether {
			p := &e.m.points[g.points[0]]
			e.r.problem(CodeTooLong, p.path, takes("lines", mostTogether), len(g.lines), "too_many_lines", len(g.lines), quote(p.id), mostTogether)
		}
	}
}

// tally goes through attitudes with the lines at tensions (N), which may
// differ from one to the next. Where several lines pull in a group, any of
// them may be slack: the greatest load of any choice of lines counts.
func (e *evaluation) tally(attitudes []attitude, tensions func(a *attitude) []float64) *tally {
	t := &tally{points: make([]pointTally, len(e.m.points)), pieces: make([]peak, len(e.m.gear)), pullers: make([]peak, len(e.m.lines))}
	for i := range t.points {
		t.points[i].loadCase, t.points[i].useCase = noCase, noCase
	}
	most := 0
	for i := range e.groups {
		if g := &e.groups[i]; len(g.lines) <= mostTogether {
			most = max(most, len(g.points)<<len(g.lines))
			continue
		}
		for _, p := range e.groups[i].points {
			t.points[p].load.value, t.points[p].use.value = math.NaN(), math.NaN()
		}
	}
	pulls, sums := make([]rigging.Vec, len(e.m.points)), make([]rigging.Vec, most)
	for k := range attitudes {
		a := &attitudes[k]
		tension := tensions(a)
		for _, b := range a.blocks {
			t.points[b.point].block.take(b.per*tension[b.line], a.turn)
		}
		for g := range e.groups {
			if len(e.groups[g].lines) <= mostTogether {
				e.tallyGroup(t, &e.groups[g], k, a, tension, pulls, sums)
			}
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
			if b := t.points[g.point].block; g.kind == field.Block {
				t.pieces[i].take(b.value, b.turn)
			}
		case g.line < 0:
			t.pieces[i] = peak{math.NaN(), 0}
		}
	}
	return t
}

// tallyGroup goes through every choice of the group's lines. What each puts on the
// points, before a shared anchor parts it, is that of the choice without its last
// line and what that line adds.
func (e *evaluation) tallyGroup(t *tally, g *group, k int, a *attitude, tension []float64, pulls, sums []rigging.Vec) {
	n := len(g.points)
	clear(sums[:n])
	for set := 1; set < 1<<len(g.lines); set++ {
		last := bits.Len(uint(set)) - 1
		row := sums[set*n : set*n+n]
		copy(row, sums[(set^1<<last)*n:])
		for _, p := range g.parts[last] {
			row[p.place] = row[p.place].Add(a.parts[p.part].per.Scale(tension[g.lines[last]]))
		}
		for place, i := range g.points {
			pulls[i] = row[place]
		}
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

// shareInto adds to the pulls on the legs' points what the pull on junction i
// puts there; false where it cannot be held.
func (e *evaluation) shareInto(i int, pulls []rigging.Vec) bool {
	b := &e.bridles[i]
	if !b.usable {
		return false
	}
	if err := b.ShareInto(&b.shared, pulls[i]); err != nil {
		return false
	}
	for k, leg := range e.m.points[i].bridle.legs {
		pulls[leg] = pulls[leg].Sub(b.units[k].Scale(b.shared.Tension[k]))
	}
	return true
}
