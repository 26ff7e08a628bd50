package compare

import (
	"maps"
	"slices"

	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// What a field says that is no number.
const (
	given words.Text = "there"
	yes   words.Text = "yes"
	no    words.Text = "no"
)

// changed lists the fields in which two plans differ.
func changed(before, now *draft.Plan, u *units.System) []Row {
	out := []Row{}
	var walk func(a, b any, path string)
	walk = func(a, b any, path string) {
		switch x := a.(type) {
		case map[string]any:
			if y, ok := b.(map[string]any); ok {
				keys := maps.Clone(x)
				maps.Copy(keys, y)
				for _, key := range slices.Sorted(maps.Keys(keys)) {
					at := draft.Sub(path, key)
					if path == "plus_minus" {
						at = draft.PlusMinus + key
					}
					walk(x[key], y[key], at)
				}
				return
			}
		case []any:
			if y, ok := b.([]any); ok {
				for _, p := range paired(x, y) {
					walk(p.before, p.now, draft.Elem(path, p.index))
				}
				return
			}
		}
		if draft.JSON(a) != draft.JSON(b) {
			of := now
			if b == nil {
				of = before
			}
			out = append(out, Row{label(of, path), value(before, u, path, a), value(now, u, path, b)})
		}
	}
	walk(before.Tree, now.Tree, "")
	return out
}

// A pair is an entry of a list before and now, nil where it is not there, and its
// index where it is, now before then.
type pair struct {
	before, now any
	index       int
}

// paired sets the entries of two lists against each other: those with an id by
// that, the others in their order.
func paired(before, now []any) []pair {
	var out []pair
	at := map[string]int{}
	for i, v := range now {
		if id := draft.Written(draft.Member(v, "id")); id != "" {
			at[id] = i
		}
		out = append(out, pair{nil, v, i})
	}
	for i, v := range before {
		id := draft.Written(draft.Member(v, "id"))
		k, ok := at[id]
		if id == "" {
			k, ok = i, i < len(now)
		}
		if ok && out[k].before == nil {
			out[k].before = v
		} else {
			out = append(out, pair{v, nil, i})
		}
	}
	return out
}

// label names a field, or the part of the plan that a path leads to.
func label(d *draft.Plan, path string) string {
	if _, ok := fields.At(path); !ok {
		if owner := fields.OwnerOf(d, path); owner != "" {
			return owner
		}
	}
	return fields.LabelOf(d, path)
}

// value is what a field says, in the user's units.
func value(d *draft.Plan, u *units.System, path string, v any) string {
	if v == nil {
		return d.Say(missing)
	}
	spec, ok := fields.At(path)
	switch x := v.(type) {
	case map[string]any, []any:
		return d.Say(given)
	case bool:
		if x {
			return d.Say(yes)
		}
		return d.Say(no)
	default:
		n, number := draft.Number(v)
		switch {
		case ok && number && spec.Kind == fields.Number:
			return u.Field(n, spec.Dim, spec.Way) + u.Suffix(spec.Dim)
		case ok && len(spec.Options) > 0:
			return parts.LabelOf(d.Locale, spec.Options, draft.Written(v))
		}
		return draft.Written(v)
	}
}
