package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// gear reads the pieces. A limit missing or not accepted leaves the capacity
// NaN, so that the piece is unknown.
func (r *reader) gear(root *object, m *model) {
	seen := map[string]bool{}
	for _, l := range m.lines {
		seen[l.id+"/puller"] = true // stands in the report beside the pieces
	}
	for i, raw := range root.list(field.Gear) {
		o := root.entry(field.Gear, i, raw)
		g := piece{path: o.path, id: o.name(field.PieceID), line: -1, point: -1, breaking: math.NaN(), designFactor: math.NaN()}
		if seen[g.id] && g.id != "" {
			o.problem(CodeTwice, field.PieceID, takes("other_name"), shorten(g.id), "two_pieces", quote(g.id))
		}
		seen[g.id] = true
		r.gearPlace(o, m, &g)
		r.pieceFields(o, &g)
		g.inspection.cleared = o.text(field.Cleared)
		if g.rope() && !o.has(field.Reductions) {
			r.assumeField(o.at(field.Reductions), field.Reductions, nil)
		}
		o.done()
		g.capacity = rigging.Capacity(g.limit, g.hitch, g.factors...)
		if len(r.problemsAt(o.path)) > 0 {
			g.capacity = math.NaN() // half-read limits judge nothing
		}
		r.fit(m, &g)
		m.gear = append(m.gear, g)
	}
}

// rope says whether a piece is a rope that runs along its line.
func (g *piece) rope() bool {
	return g.line >= 0 && !g.atStem && (g.kind == field.WireRope || g.kind == field.FibreRope)
}

// pieceFields reads what a piece is, wherever it sits.
func (r *reader) pieceFields(o *object, g *piece) {
	g.kind = o.choice(field.PieceKind)
	if kinds := field.PieceKind.Row().Words; !o.has(field.PieceKind) {
		o.problem(CodeMissing, field.PieceKind, oneOf(kinds...), nil, "piece_kind_missing", quote(g.id), joined(kinds))
	}
	r.gearLimit(o, g)
	if g.kind == field.Sling && g.atStem {
		choked := &field.Choked
		g.hitch = o.optional(field.HitchFactor, choked.Number(), choked.Why, choked.Source)
	} else {
		g.hitch = o.number(field.HitchFactor)
	}
	for k, raw := range o.list(field.Reductions) {
		ro := o.entry(field.Reductions, k, raw)
		ro.text(field.ReductionWhy)
		g.factors = append(g.factors, ro.number(field.ReductionFactor))
		ro.done()
	}
	o.text(field.PieceNotes)
	g.inspection = r.inspection(o)
}

func (r *reader) gearPlace(o *object, m *model, g *piece) {
	hasLine, hasPoint := o.has(field.PieceLine), o.has(field.PiecePoint)
	place := o.choice(field.PiecePlace)
	switch {
	case hasLine && hasPoint:
		o.problem(CodeEither, field.PiecePoint, takes("line_or_point"), nil, "piece_place_both", quote(g.id))
	case hasPoint:
		g.point = o.pointNamed(m, field.PiecePoint)
		if place != "" {
			o.problem(CodeEither, field.PiecePlace, takes("only_with_line"), place, "piece_place_point", quote(g.id))
		}
	case hasLine:
		id := o.text(field.PieceLine)
		for i, l := range m.lines {
			if l.id == id && id != "" {
				g.line = i
				break
			}
		}
		if g.line < 0 {
			o.problem(CodeNoSuch, field.PieceLine, takes("line"), shorten(id), "no_line", quote(id))
		}
		g.atStem = place == field.AtStem
	default:
		o.problem(CodeMissing, field.PieceLine, takes("line_or_point"), nil, "piece_place_missing", quote(g.id))
	}
}

func (r *reader) gearLimit(o *object, g *piece) {
	g.limit = math.NaN()
	wll, tonnes := o.number(field.PieceWLL), o.number(field.PieceTonnes)
	g.breaking = force(o.number(field.PieceBreaking))
	g.designFactor = o.number(field.DesignFactor)
	given := 0
	for _, f := range field.Limits {
		if o.has(f) {
			given++
		}
	}
	switch {
	case o.has(field.PieceWLL) && o.has(field.PieceTonnes):
		o.problem(CodeTwice, field.PieceTonnes, takes("one_limit"), nil, "limit_twice", quote(g.id))
	case given == 0:
		o.problem(CodeMissing, field.PieceWLL, takes("limit"), nil, "piece_limit_missing", quote(g.id))
	case !math.IsNaN(wll):
		g.limit = wll * rigging.KN
	case !math.IsNaN(tonnes):
		g.limit = tonnes * rigging.TonneForce
	case !math.IsNaN(g.breaking) && !o.has(field.DesignFactor):
		o.problem(CodeMissing, field.DesignFactor, accepted(field.DesignFactor.Row().Range), nil, "factor_missing", quote(g.id))
	}
	// Where a piece gives both kinds of limit, the smaller holds.
	if byBreaking := rigging.WorkingLimit(g.breaking, g.designFactor); byBreaking > 0 && !(g.limit <= byBreaking) {
		g.limit = byBreaking
	}
}

// problemsAt lists the problems of a path and of what lies under it.
func (r *reader) problemsAt(path string) []Problem {
	var out []Problem
	for _, p := range r.problems {
		if p.Path == path || len(p.Path) > len(path) && p.Path[:len(path)] == path && (p.Path[len(path)] == '.' || p.Path[len(path)] == '[') {
			out = append(out, p)
		}
	}
	return out
}

// stiffness fills in that of a hold line which stretches as the tree turns and
// gives none: high on purpose, since a stiffer line loads up more.
func (r *reader) stiffness(m *model) {
	for i := range m.lines {
		l := &m.lines[i]
		if !l.hold || l.tended || !math.IsNaN(l.stiff) || len(r.problemsAt(l.path+".rope")) > 0 {
			continue
		}
		for _, g := range m.gear {
			if g.line != i || g.atStem {
				continue
			}
			breaking := g.breaking
			if math.IsNaN(breaking) {
				breaking = rigging.BreakingOverLimit * g.limit
			}
			over := math.NaN()
			switch g.kind {
			case field.WireRope, field.Chain:
				over = rigging.WireStiffness
			case field.FibreRope:
				over = rigging.FibreStiffness
			}
			if ea := over * breaking; !(l.stiff >= ea) && !math.IsNaN(ea) {
				l.stiff = ea
			}
		}
		if !math.IsNaN(l.stiff) {
			r.assume(l.path+".rope."+field.RopeStiffness.Key(), round(l.stiff/rigging.KN), "stiffness", rigging.Source{Basis: rigging.FromMemory})
		}
	}
}
