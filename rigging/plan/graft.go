package plan

import (
	"maps"
	"slices"

	"pullline/rigging/jsontext"
)

// A graft is where values are put into a tree: itself one step of their paths, with
// the steps that follow. What lies on the way is copied once for each tree, and a
// list not even that where its values are those of the tree before, so that a memo
// knows it again.
type graft struct {
	place
	path  string
	value int // which of the values, −1 where the path goes on only
	under []*graft

	values   []any // in and below it, of the tree before
	of, list []any // that tree's without and with them
}

// add adds a path: what was put there or below it before, it puts away.
func (g *graft) add(path []place, value int) {
	if len(path) == 0 {
		g.value, g.under = value, nil
		return
	}
	at := slices.IndexFunc(g.under, func(u *graft) bool { return u.place == path[0] })
	if at < 0 {
		next := &graft{place: path[0], path: path[0].name, value: -1}
		switch {
		case next.index >= 0:
			next.path = item(g.path, next.index)
		case g.path != "":
			next.path = g.path + "." + next.name
		}
		at, g.under = len(g.under), append(g.under, next)
	}
	g.under[at].add(path[1:], value)
}

// on gives a tree with the values in it; not is the step that cannot be taken.
func (g *graft) on(tree any, values []any) (_ any, not *graft) {
	if g.value >= 0 {
		tree = values[g.value]
	}
	if len(g.under) == 0 {
		return tree, nil
	}
	if g.under[0].index >= 0 {
		return g.onList(tree, values)
	}
	object, ok := tree.(map[string]any)
	if tree != nil && !ok {
		return nil, g.under[0]
	}
	if object = maps.Clone(object); object == nil {
		object = make(map[string]any, len(g.under))
	}
	for _, u := range g.under {
		if u.index >= 0 {
			return nil, u
		}
		if u.value >= 0 && values[u.value] == nil && len(u.under) == 0 {
			delete(object, u.name)
		} else if object[u.name], not = u.on(object[u.name], values); not != nil {
			return nil, not
		}
	}
	return object, nil
}

func (g *graft) onList(tree any, values []any) (_ any, not *graft) {
	of, _ := tree.([]any)
	before := g.values
	g.values = g.gather(values, nil)
	if len(g.list) > 0 && len(of) == len(g.of) && &of[0] == &g.of[0] && slices.EqualFunc(before, g.values, sameValue) {
		return g.list, nil
	}
	list := slices.Clone(of)
	for _, u := range g.under {
		if u.index < 0 || u.index >= len(list) {
			return nil, u
		}
		if list[u.index], not = u.on(list[u.index], values); not != nil {
			return nil, not
		}
	}
	g.of, g.list = of, list
	return list, nil
}

// gather are the values in and below it.
func (g *graft) gather(values, out []any) []any {
	if g.value >= 0 {
		out = append(out, values[g.value])
	}
	for _, u := range g.under {
		out = u.gather(values, out)
	}
	return out
}

// sameValue knows numbers and texts again.
func sameValue(a, b any) bool {
	switch a.(type) {
	case float64, string, jsontext.Number:
		return a == b
	}
	return false
}

// With gives a plan with a value at a path, as Variations set it; ok is false where
// there is no such place. The plan itself stays.
func With(tree any, path string, value any) (_ any, ok bool) {
	at, ok := placesOf(path)
	if !ok {
		return tree, false
	}
	g := &graft{value: -1}
	g.add(at, 0)
	with, not := g.on(tree, []any{value})
	return with, not == nil
}
