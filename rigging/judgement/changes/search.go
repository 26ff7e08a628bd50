package changes

import (
	"cmp"
	"slices"

	"pullline/rigging"
	"pullline/rigging/judgement/places"
	"pullline/rigging/plan"
)

// mostPairs is how many pairs are offered where no single change serves, and
// pairSteps how many steps of each are tried.
const (
	mostPairs = 6
	pairSteps = 6
)

// Of finds the changes to a plan that package jsontext has read from a text of so many
// bytes.
func Of(tree any, size int, o Options) Answer {
	rep := plan.EvaluateTo(tree, size, plan.ToReport)
	a := Answer{Verdict: rep.Verdict, Use: rep.GoverningUse, Changes: []Change{}, Problems: rep.Problems}
	for _, p := range rep.Problems {
		if p.Code != plan.CodeCannotPull && p.Code != plan.CodePlanned {
			a.None = NoneIncomplete
			return a
		}
	}
	if rep.Verdict == rigging.Within {
		a.None = NoneWithin
		return a
	}
	s := search{tree: tree, size: size, before: &rep, bight: places.PullerInBight(tree)}
	ways := waysOf(tree, &rep, o)
	for i := range ways {
		if c, ok := s.first(ways[i : i+1]); ok {
			a.Changes = append(a.Changes, c)
		}
	}
	if len(a.Changes) == 0 {
		a.Changes = s.pairs(ways)
	}
	slices.SortStableFunc(a.Changes, func(x, y Change) int { return cmp.Compare(x.Effort, y.Effort) })
	if len(a.Changes) == 0 {
		a.None = NoneServes
	}
	return a
}

type search struct {
	tree   any
	size   int
	before *plan.Report
	bight  bool // a puller stands in a bight as it is
}

func (s *search) pairs(ways []way) []Change {
	out := []Change{}
	for i := range ways {
		for k := i + 1; k < len(ways); k++ {
			if ways[i].sets(&ways[k]) {
				continue
			}
			if c, ok := s.first([]way{ways[i].coarser(pairSteps), ways[k].coarser(pairSteps)}); ok {
				out = append(out, c)
			}
		}
	}
	slices.SortStableFunc(out, func(x, y Change) int { return cmp.Compare(x.Effort, y.Effort) })
	return out[:min(len(out), mostPairs)]
}

// first is the smallest step of one way, or of two ways together, that brings the plan
// within its limits.
func (s *search) first(ways []way) (Change, bool) {
	v := plan.Variations{Want: []string{"verdict"}}
	for _, w := range ways {
		v.Paths = append(v.Paths, w.paths...)
	}
	var at [][]int // steps of each
	for i := range ways[0].steps {
		if len(ways) == 1 {
			at = append(at, []int{i})
			continue
		}
		for k := range ways[1].steps {
			at = append(at, []int{i, k})
		}
	}
	slices.SortStableFunc(at, func(a, b []int) int { return cmp.Compare(sum(a), sum(b)) })
	for _, steps := range at {
		var values []any
		for i, k := range steps {
			values = append(values, ways[i].steps[k]...)
		}
		v.Values = append(v.Values, values)
	}
	for i, row := range plan.Vary(s.tree, s.size, &v).Rows {
		if row[0] != rigging.Within.String() {
			continue
		}
		if c, ok := s.change(ways, at[i], v.Paths, v.Values[i]); ok {
			return c, true
		}
	}
	return Change{}, false
}

func sum(a []int) (n int) {
	for _, v := range a {
		n += v
	}
	return n
}

// change is that of steps; ok is false where it breaks another rule or worsens a row.
func (s *search) change(ways []way, steps []int, paths []string, values []any) (c Change, ok bool) {
	tree := s.tree
	for i, path := range paths {
		c.Set = append(c.Set, Set{path, plan.ValueAt(s.tree, path), values[i]})
		if tree, ok = plan.With(tree, path, values[i]); !ok {
			return c, false
		}
	}
	rep := plan.EvaluateTo(tree, s.size, plan.ToReport)
	if rep.Verdict != rigging.Within || worsens(s.before, &rep) || !s.bight && places.PullerInBight(tree) {
		return c, false
	}
	c.Verdict, c.Use = rep.Verdict, rep.GoverningUse
	for i := range ways {
		w := &ways[i]
		c.Effort += w.effort
		c.ToFind = c.ToFind || w.toFind
		if i > 0 {
			c.Code += "+"
		}
		c.Code += w.code
		c.Said = append(c.Said, w.says(w.steps[steps[i]])...)
	}
	return c, true
}

// worsens says whether a row is judged worse than before.
func worsens(before, after *plan.Report) bool {
	was := map[string]rigging.Verdict{}
	for _, g := range before.Gear {
		was["gear "+g.ID] = g.Verdict
	}
	for _, p := range before.Points {
		was["point "+p.ID] = p.Verdict
	}
	worse := func(id string, v rigging.Verdict) bool {
		old, known := was[id]
		return known && v != old && v.Worse(old) == v
	}
	return slices.ContainsFunc(after.Gear, func(g plan.GearReport) bool { return worse("gear "+g.ID, g.Verdict) }) ||
		slices.ContainsFunc(after.Points, func(p plan.PointReport) bool { return worse("point "+p.ID, p.Verdict) })
}
