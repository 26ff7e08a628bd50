package job

import (
	"strconv"
	"strings"

	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/words"
)

// removePart takes away a part of the plan. What else names it is left as it
// is, and said: the report then names the problem.
func (e *editor) removePart(path string) {
	if _, there := e.d.At(path); !there {
		e.Refuse(e.d.Say("That part of the plan is no longer there."))
		return
	}
	if spec, isField := fields.Catalogue[draft.Pattern(path)]; isField && !spec.Hidden {
		e.Refuse(e.d.Say("“%s” is a field, not a part: clear it instead.", path))
		return
	}
	list, i, isElem := draft.SplitElem(path)
	e.Remove(path)
	e.Out.Focus = list
	if !isElem {
		e.Out.Focus, _ = draft.LastKey(path)
		return
	}
	e.shift(list, func(k int) int {
		switch {
		case k == i:
			return -1
		case k > i:
			return k - 1
		}
		return k
	})
	what := map[string]string{"points": "point", "lines": "line"}[list]
	id := e.d.Text(path + ".id")
	if what == "" || id == "" || e.countID(list, id) > 1 {
		return
	}
	var still []string
	for _, ref := range references(e.d, what, id) {
		if !draft.Within(ref, path) {
			owner, _ := draft.LastKey(ref)
			still = append(still, e.nameOf(owner))
		}
	}
	if len(still) > 0 {
		gone := words.Text("Point %s is removed, but still named by: %s.")
		if what == "line" {
			gone = "Line %s is removed, but still named by: %s."
		}
		e.Out.Message = e.d.Say(gone, id, strings.Join(still, "; "))
	}
}

// nameOf says which part of the plan a path is, for a message.
func (e *editor) nameOf(path string) string {
	owner := fields.OwnerOf(e.d, path)
	_, i, ok := draft.SplitElem(path)
	no := strconv.Itoa(i + 1)
	switch p := draft.Pattern(path); {
	case !ok:
		return owner
	case strings.HasSuffix(p, ".path[]"), strings.HasSuffix(p, ".haul_path[]"):
		return e.d.Say("%s, station %s", owner, no)
	case strings.HasSuffix(p, ".legs[]"):
		return e.d.Say("%s, leg %s", owner, no)
	}
	return owner
}

// swap changes the places of an element and the one before or after it.
func (e *editor) swap(path string, by int) {
	list, i, ok := draft.SplitElem(path)
	items := e.d.List(list)
	j := i + by
	if !ok || i >= len(items) || j < 0 || j >= len(items) {
		e.Refuse(e.d.Say("It cannot be moved further."))
		return
	}
	e.Set(path, items[j])
	e.Set(draft.Elem(list, j), items[i])
	e.shift(list, func(k int) int {
		switch k {
		case i:
			return j
		case j:
			return i
		}
		return k
	})
	e.Out.Focus = draft.Elem(list, j)
}

// shift lets every give or take, and the readings kept, follow the element
// they belong to when a list's elements move; those whose element goes (−1) go
// with it.
func (e *editor) shift(list string, to func(int) int) {
	e.shiftKeys("plus_minus", list, to)
	e.shiftKeys("readings", list, to)
}

func (e *editor) shiftKeys(table, list string, to func(int) int) {
	given := e.d.Object(table)
	moved := map[string]any{}
	changed := false
	for key, v := range given {
		rest, ok := strings.CutPrefix(key, list+"[")
		digits, tail, closed := strings.Cut(rest, "]")
		i, err := strconv.Atoi(digits)
		if !ok || !closed || err != nil {
			moved[key] = v
			continue
		}
		j := to(i)
		changed = changed || j != i
		if j >= 0 {
			moved[draft.Elem(list, j)+tail] = v
		}
	}
	if changed {
		e.Set(table, moved)
	}
}
