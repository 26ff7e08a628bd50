package screen

import (
	"strconv"
	"strings"

	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// act does one of the form's actions. What it adds is a skeleton: it never
// fills in a strength, a size or a place that nobody measured, so nothing
// added can make a plan look better than it is.
func act(d *draft.Plan, u *units.System, do, path string) parts.Changes {
	e := &editor{d: d, u: u}
	if do == "start" {
		e.start()
		return e.out
	}
	if draft.ParsePath(path) == nil {
		e.refuse("There is no part “" + path + "” in the plan.")
		return e.out
	}
	switch do {
	case "add":
		e.add(path)
	case "add-pull":
		e.addLine("pull")
	case "add-hold":
		e.addLine("hold")
	case "add-tackle":
		e.set(path, map[string]any{
			"stages":    []any{map[string]any{"haul_from": "fixed"}},
			"haul_path": []any{map[string]any{"point": ""}},
		})
		e.out.Focus = draft.Elem(path+".stages", 0) + ".parts"
	case "stages":
		e.remove(path + ".reeving")
		e.set(path+".stages", []any{map[string]any{"haul_from": "fixed"}})
		e.out.Focus = draft.Elem(path+".stages", 0) + ".parts"
	case "add-rope":
		e.addGear("rope "+d.Text(path+".id"), map[string]any{"line": d.Text(path + ".id")}, path)
	case "add-stem":
		e.addGear(e.d.Say("{strop} ")+d.Text(path+".id"), map[string]any{"kind": "sling", "line": d.Text(path + ".id"), "place": "stem"}, path)
	case "add-block":
		e.addGear(e.d.Say("{block} ")+d.Text(path+".id"), map[string]any{"kind": "block", "point": d.Text(path + ".id")}, path)
	case "add-sling":
		e.addGear(e.d.Say("{strop} ")+d.Text(path+".id"), map[string]any{"kind": "sling", "point": d.Text(path + ".id")}, path)
	case "add-shackle":
		e.addGear(e.d.Say("{shackle} ")+d.Text(path+".id"), map[string]any{"kind": "shackle", "point": d.Text(path + ".id")}, path)
	case "pick-gear":
		e.refuse("The gear list is opened by the page, not by the plan.")
	case "remove":
		e.removePart(path)
	case "up":
		e.swap(path, -1)
	case "down":
		e.swap(path, +1)
	default:
		e.refuse("There is no action “" + do + "”.")
	}
	return e.out
}

// add appends to one of the plan's lists.
func (e *editor) add(list string) {
	n := e.d.Size(list)
	item := map[string]any{}
	focus := draft.Elem(list, n)
	switch draft.Pattern(list) {
	case "points":
		item["id"] = nextPointID(e.d)
		focus += ".bearing_deg"
	case "gear":
		item["id"] = e.d.FreeID("gear", "piece "+strconv.Itoa(n+1))
		focus += ".kind"
	case "lines[].path":
		// Before the last, which stays the hauling end.
		item["point"] = ""
		if n >= 2 {
			stations := e.d.List(list)
			longer := append(append(append([]any{}, stations[:n-1]...), item), stations[n-1])
			e.set(list, longer)
			e.shift(list, func(i int) int {
				if i == n-1 {
					return n
				}
				return i
			})
			e.out.Focus = draft.Elem(list, n-1) + ".@at"
			return
		}
		focus += ".@at"
	case "lines[].tackle.haul_path":
		item["point"] = ""
		focus += ".point"
	case "lines[].tackle.stages":
		item["haul_from"] = "fixed"
		focus += ".parts"
	case "lines[].tackle.reeving.nodes":
		item["kind"] = "moving"
		focus += ".id"
	case "lines[].tackle.reeving.ropes":
		focus += ".path"
	case "gear[].reductions":
		focus += ".why"
	case "tree.sections":
		focus += ".height_m"
	case "points[].anchor.legs":
		item["point"] = ""
		focus += ".point"
	case "brief.signals":
		focus += ".sign"
	case "brief.roles":
		focus += ".role"
	default:
		e.refuse("Nothing can be added to “" + list + "”.")
		return
	}
	e.push(list, item)
	e.out.Focus = focus
}

// addLine adds a line from the stem, at a height still to be typed, to a
// point that no line goes to yet; it makes one if there is none.
func (e *editor) addLine(role string) {
	target := ""
	for i := range e.d.List("points") {
		if id := e.d.Text(draft.Elem("points", i) + ".id"); id != "" && len(references(e.d, "point", id)) == 0 {
			target = id
			break
		}
	}
	if target == "" {
		target = nextPointID(e.d)
		e.push("points", map[string]any{"id": target})
	}
	n := e.d.Size("lines")
	e.push("lines", map[string]any{
		"id":   e.d.FreeID("lines", role),
		"role": role,
		"path": []any{map[string]any{"stem_m": ""}, map[string]any{"point": target}},
	})
	e.out.Focus = draft.Elem(draft.Elem("lines", n)+".path", 0) + ".stem_m"
}

// addGear adds a piece without a limit.
func (e *editor) addGear(id string, piece map[string]any, from string) {
	if e.d.Text(from+".id") == "" {
		e.refuse("Give it a name first, so that the piece can say where it sits.")
		return
	}
	piece["id"] = e.d.FreeID("gear", id)
	n := e.d.Size("gear")
	e.push("gear", piece)
	e.out.Focus = draft.Elem("gear", n)
}

// nextPointID is the next free letter, A to Z, then P27 and on.
func nextPointID(d *draft.Plan) string {
	for c := byte('A'); c <= 'Z'; c++ {
		if d.PointIndex(string(c)) < 0 {
			return string(c)
		}
	}
	for i := 27; ; i++ {
		if id := "P" + strconv.Itoa(i); d.PointIndex(id) < 0 {
			return id
		}
	}
}

// removePart takes away a part of the plan. What else names it is left as it
// is, and said: the report then names the problem.
func (e *editor) removePart(path string) {
	if _, there := e.d.At(path); !there {
		e.refuse("That part of the plan is no longer there.")
		return
	}
	if spec, isField := fields.Catalogue[draft.Pattern(path)]; isField && !spec.Hidden {
		e.refuse("“" + path + "” is a field, not a part: empty it instead.")
		return
	}
	list, i, isElem := draft.SplitElem(path)
	e.remove(path)
	e.out.Focus = list
	if !isElem {
		e.out.Focus, _ = draft.LastKey(path)
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
		e.out.Message = words.Capital(what) + " " + id + " is gone, but is still named by: " + strings.Join(still, "; ") + "."
	}
}

// nameOf says which part of the plan a path is, for a message.
func (e *editor) nameOf(path string) string {
	owner := fields.OwnerOf(e.d, path)
	_, i, ok := draft.SplitElem(path)
	no := " " + strconv.Itoa(i+1)
	switch p := draft.Pattern(path); {
	case !ok:
		return owner
	case strings.HasSuffix(p, ".path[]"), strings.HasSuffix(p, ".haul_path[]"):
		return owner + ", station" + no
	case strings.HasSuffix(p, ".legs[]"):
		return owner + ", leg" + no
	}
	return owner
}

// swap changes the places of an element and the one before or after it.
func (e *editor) swap(path string, by int) {
	list, i, ok := draft.SplitElem(path)
	items := e.d.List(list)
	j := i + by
	if !ok || i >= len(items) || j < 0 || j >= len(items) {
		e.refuse("It cannot be moved any further.")
		return
	}
	e.set(path, items[j])
	e.set(draft.Elem(list, j), items[i])
	e.shift(list, func(k int) int {
		switch k {
		case i:
			return j
		case j:
			return i
		}
		return k
	})
	e.out.Focus = draft.Elem(list, j)
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
		e.set(table, moved)
	}
}
