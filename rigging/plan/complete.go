package plan

import (
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// A fitted tells which kinds of piece sit where.
type fitted struct {
	rope, movingBlock []bool // on each line
	stemBlock, atStem []bool
	block, fast       []bool // at each point; fast are pieces other than blocks, such as make an end fast
	reduced           []bool // the line's rope gives a knot or termination
}

func (m *model) fitted() fitted {
	lines, points := len(m.lines), len(m.points)
	f := fitted{make([]bool, lines), make([]bool, lines), make([]bool, lines), make([]bool, lines), make([]bool, points), make([]bool, points), make([]bool, lines)}
	for _, g := range m.gear {
		block, rope := g.kind == "block", g.rope()
		switch {
		case g.point >= 0:
			f.fast[g.point] = f.fast[g.point] || !block
			f.block[g.point] = f.block[g.point] || block
		case g.line >= 0 && g.atStem:
			f.atStem[g.line] = true
			f.stemBlock[g.line] = f.stemBlock[g.line] || block
		case g.line >= 0:
			f.rope[g.line] = f.rope[g.line] || rope
			f.movingBlock[g.line] = f.movingBlock[g.line] || block
			f.reduced[g.line] = f.reduced[g.line] || rope && len(g.factors) > 0
		}
	}
	return f
}

// missingLinks names what the chain from tree to anchor lacks.
func (e *evaluation) missingLinks() {
	m := e.m
	f := m.fitted()
	for i := range m.lines {
		l := &m.lines[i]
		if !f.rope[i] {
			e.r.problem(CodeGear, l.path, takes("rope"), nil, "no_rope", quote(l.id))
		}
		e.missingBlocks(i, &f)
		e.missingEnds(i, &f)
		if len(l.tied) > 0 && f.rope[i] && !f.reduced[i] {
			e.r.problem(CodeGear, l.path+".tied", takes("reduction"), nil, "no_reduction", quote(l.id))
		}
		if (!l.hold || l.puller) && math.IsNaN(l.rated) && len(e.r.problemsAt(l.path+".puller.rated_kN")) == 0 {
			e.r.problem(CodeMissing, l.path+".puller.rated_kN", accepted(field.PullerRated.Row().Range), nil, "rated_missing", quote(l.id))
		}
		if (!l.hold || l.puller) && l.limitedBy == "" && len(e.r.problemsAt(l.path+".puller.limited_by")) == 0 {
			e.r.problem(CodeMissing, l.path+".puller.limited_by", oneOf(field.LimitedBy.Row().Words...), nil, "limit_missing", quote(l.id))
		}
	}
}

// missingBlocks names each block of a line that no piece stands for.
func (e *evaluation) missingBlocks(i int, f *fitted) {
	l := &e.m.lines[i]
	blocks := func(stations []station, from int) {
		for k := from; k < len(stations)-1; k++ {
			s := stations[k]
			switch {
			case s.onStem && !f.stemBlock[i]:
				f.stemBlock[i] = true // name it once
				e.r.problem(CodeGear, s.path, takes("stem_block"), nil, "no_stem_block", quote(l.id))
			case !s.onStem && s.point >= 0 && !f.block[s.point]:
				f.block[s.point] = true
				e.r.problem(CodeGear, s.path, takes("point_block"), nil, "no_point_block", quote(l.id), quote(e.m.points[s.point].id))
			}
		}
	}
	blocks(l.stations, 1)
	t := l.tackle
	if t == nil {
		return
	}
	blocks(t.haul, 0)
	if !t.usable || len(l.stations) == 0 {
		return
	}
	last := l.stations[len(l.stations)-1].point
	if last < 0 {
		return
	}
	fixed, moving := t.blocks()
	if fixed && !f.block[last] {
		f.block[last] = true
		e.r.problem(CodeGear, t.path, takes("fixed_block"), nil, "no_fixed_block", quote(l.id), quote(e.m.points[last].id))
	}
	if moving && !f.movingBlock[i] {
		e.r.problem(CodeGear, t.path, takes("travelling_block"), nil, "no_travelling_block", quote(l.id))
	}
}

// blocks says whether sheaves turn at the tackle's anchor and at places that
// travel.
func (t *tackle) blocks() (fixed, moving bool) {
	for _, n := range t.result.NodeLoads {
		fixed = fixed || n.Sheaves > 0 && n.Kind == rigging.AnchorNode
		moving = moving || n.Sheaves > 0 && n.Kind != rigging.AnchorNode
	}
	return fixed, moving
}

// missingEnds names each end of a line that nothing makes fast: no piece there
// but blocks, and the rope not said to be tied. The rope on a machine's own winch needs
// neither.
func (e *evaluation) missingEnds(i int, f *fitted) {
	l := &e.m.lines[i]
	if len(l.stations) == 0 {
		return
	}
	if first := l.stations[0]; first.onStem && !f.atStem[i] && !slices.Contains(l.tied, field.AtStem) {
		e.r.problem(CodeGear, first.path, takes("stem_piece"), nil, "not_fast_to_stem", quote(l.id))
	} else if !first.onStem {
		e.missingEnd(l, first, f, false)
	}
	end := l.stations[len(l.stations)-1]
	switch pulled := !l.hold || l.puller; {
	case l.tackle != nil:
		if fixed, _ := l.tackle.blocks(); l.tackle.usable && !fixed {
			e.missingEnd(l, end, f, true)
		}
		if n := len(l.tackle.haul); n > 0 && pulled && !e.pulledByMachine(l) {
			e.missingEnd(l, l.tackle.haul[n-1], f, true)
		}
	case !pulled || !e.pulledByMachine(l):
		e.missingEnd(l, end, f, true)
	}
}

func (e *evaluation) pulledByMachine(l *line) bool {
	i := l.pullerPoint()
	return i >= 0 && e.m.points[i].kind == field.Machine
}

func (e *evaluation) missingEnd(l *line, s station, f *fitted, last bool) {
	if s.point < 0 || f.fast[s.point] {
		return
	}
	id := e.m.points[s.point].id
	if slices.Contains(l.tied, id) || last && slices.Contains(l.tied, field.LastEnd) {
		return
	}
	f.fast[s.point] = true // name it once
	e.r.problem(CodeGear, s.path, takes("point_piece"), nil, "not_fast", quote(l.id), quote(id))
}
