package plan

import (
	"math"

	"pullline/rigging"
)

var gearKinds = []string{"wire_rope", "fibre_rope", "sling", "shackle", "block", "chain", "winch", "other"}

// gear reads the pieces. A limit missing or not accepted leaves the capacity
// NaN, so that the piece is unknown.
func (r *reader) gear(root *object, m *model) {
	seen := map[string]bool{}
	for _, l := range m.lines {
		seen[l.id+"/puller"] = true // stands in the report beside the pieces
	}
	for i, raw := range root.list("gear", maxGear) {
		path := item("gear", i)
		o := r.object(path, raw, false)
		g := piece{path: path, id: o.identifier("id"), line: -1, point: -1, breaking: math.NaN(), designFactor: math.NaN()}
		if seen[g.id] && g.id != "" {
			o.problem(CodeTwice, "id", takes("other_name"), shorten(g.id), "two_pieces", quote(g.id))
		}
		seen[g.id] = true
		r.gearPlace(o, m, &g)
		r.pieceFields(o, &g)
		g.inspection.cleared = o.text("cleared")
		if g.rope() && !o.has("reductions") {
			r.assume(o.at("reductions"), nil, "no_reduction", "", "")
		}
		o.done()
		g.capacity = rigging.Capacity(g.limit, g.hitch, g.factors...)
		if len(r.problemsAt(path)) > 0 {
			g.capacity = math.NaN() // half-read limits judge nothing
		}
		r.fit(m, &g)
		m.gear = append(m.gear, g)
	}
}

// rope says whether a piece is a rope that runs along its line.
func (g *piece) rope() bool {
	return g.line >= 0 && !g.atStem && (g.kind == "wire_rope" || g.kind == "fibre_rope")
}

// pieceFields reads what a piece is, wherever it sits.
func (r *reader) pieceFields(o *object, g *piece) {
	g.kind = o.choice("kind", gearKinds...)
	if g.kind == "" && !o.has("kind") {
		o.problem(CodeMissing, "kind", oneOf(gearKinds...), nil, "piece_kind_missing", quote(g.id), joined(gearKinds))
	}
	r.gearLimit(o, g)
	hitch := Range{Min: 0, Max: 2, Above: true}
	if g.kind == "sling" && g.atStem {
		choked, _ := rigging.FindHitch("choked_textile")
		g.hitch = o.optional("hitch_factor", hitch, choked.Value, "choked", choked.Source.Text, string(choked.Source.Basis))
	} else {
		g.hitch = o.optional("hitch_factor", hitch, 1, "straight", "", "")
	}
	for k, raw := range o.list("reductions", maxList) {
		ro := r.object(o.item("reductions", k), raw, false)
		ro.text("why")
		g.factors = append(g.factors, ro.required("factor", spanFactor))
		ro.done()
	}
	o.text("notes")
	g.inspection = r.inspection(o)
}

func (r *reader) gearPlace(o *object, m *model, g *piece) {
	hasLine, hasPoint := o.has("line"), o.has("point")
	place := o.choice("place", "stem")
	switch {
	case hasLine && hasPoint:
		o.problem(CodeEither, "point", takes("line_or_point"), nil, "piece_place_both", quote(g.id))
	case hasPoint:
		g.point = o.pointNamed(m, "point")
		if place != "" {
			o.problem(CodeEither, "place", takes("only_with_line"), place, "piece_place_point", quote(g.id))
		}
	case hasLine:
		id := o.text("line")
		for i, l := range m.lines {
			if l.id == id && id != "" {
				g.line = i
				break
			}
		}
		if g.line < 0 {
			o.problem(CodeNoSuch, "line", takes("line"), shorten(id), "no_line", quote(id))
		}
		g.atStem = place == "stem"
	default:
		o.problem(CodeMissing, "line", takes("line_or_point"), nil, "piece_place_missing", quote(g.id))
	}
}

func (r *reader) gearLimit(o *object, g *piece) {
	g.limit = math.NaN()
	wll, okKN := o.number("wll_kN", spanForce)
	tonnes, okT := o.number("wll_t", Range{Min: 0, Max: 1000, Above: true, Unit: "t"})
	mbl, okM := o.number("mbl_kN", spanForce)
	factor, okF := o.number("design_factor", Range{Min: 1, Max: 20})
	given := 0
	for _, key := range []string{"wll_kN", "wll_t", "mbl_kN"} {
		if o.has(key) {
			given++
		}
	}
	if okM {
		g.breaking = mbl * rigging.KN
	}
	if okF {
		g.designFactor = factor
	}
	switch {
	case o.has("wll_kN") && o.has("wll_t"):
		o.problem(CodeTwice, "wll_t", takes("one_limit"), nil, "limit_twice", quote(g.id))
	case given == 0:
		o.problem(CodeMissing, "wll_kN", takes("limit"), nil, "piece_limit_missing", quote(g.id))
	case okKN:
		g.limit = wll * rigging.KN
	case okT:
		g.limit = tonnes * rigging.TonneForce
	case okM && okF:
	case okM && !o.has("design_factor"):
		o.problem(CodeMissing, "design_factor", Range{Min: 1, Max: 20}.takes(), nil, "factor_missing", quote(g.id))
	}
	// Where a piece gives both kinds of limit, the smaller holds.
	if okM && okF {
		if byBreaking := rigging.WorkingLimit(g.breaking, factor); !(g.limit <= byBreaking) {
			g.limit = byBreaking
		}
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
			case "wire_rope", "chain":
				over = rigging.WireStiffness
			case "fibre_rope":
				over = rigging.FibreStiffness
			}
			if ea := over * breaking; !(l.stiff >= ea) && !math.IsNaN(ea) {
				l.stiff = ea
			}
		}
		if !math.IsNaN(l.stiff) {
			r.assume(l.path+".rope.stiffness_kN", round(l.stiff/rigging.KN), "stiffness", "", basisMemory)
		}
	}
}
