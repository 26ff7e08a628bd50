package job

import (
	"strconv"

	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// act does one of the form's actions. What it adds is a skeleton: it never
// fills in a strength, a size or a place that nobody measured, so nothing
// added can make a plan look better than it is.
func act(d *draft.Plan, u *units.System, do, path string) parts.Changes {
	e := begin(d, u)
	if do == "start" {
		e.start()
		return e.Out
	}
	if draft.ParsePath(path) == nil {
		e.Refuse(d.Say("There is no part “%s” in the plan.", path))
		return e.Out
	}
	switch do {
	case "add":
		e.add(path)
	case "add-pull":
		e.addLine("pull")
	case "add-hold":
		e.addLine("hold")
	case "add-tackle":
		e.Set(path, map[string]any{
			"stages":    []any{map[string]any{"haul_from": "fixed"}},
			"haul_path": []any{map[string]any{"point": ""}},
		})
		e.Out.Focus = draft.Elem(path+".stages", 0) + ".parts"
	case "stages":
		e.Remove(path + ".reeving")
		e.Set(path+".stages", []any{map[string]any{"haul_from": "fixed"}})
		e.Out.Focus = draft.Elem(path+".stages", 0) + ".parts"
	case "add-rope":
		e.addGear(d.Say("rope %s", d.Text(path+".id")), map[string]any{"line": d.Text(path + ".id")}, path)
	case "add-stem":
		e.addGear(d.Say("{strop} %s", d.Text(path+".id")), map[string]any{"kind": "sling", "line": d.Text(path + ".id"), "place": "stem"}, path)
	case "add-block":
		e.addGear(d.Say("{block} %s", d.Text(path+".id")), map[string]any{"kind": "block", "point": d.Text(path + ".id")}, path)
	case "add-sling":
		e.addGear(d.Say("{strop} %s", d.Text(path+".id")), map[string]any{"kind": "sling", "point": d.Text(path + ".id")}, path)
	case "add-shackle":
		e.addGear(d.Say("{shackle} %s", d.Text(path+".id")), map[string]any{"kind": "shackle", "point": d.Text(path + ".id")}, path)
	case "pick-gear":
		e.Refuse(d.Say("The gear list is opened by the page, not by the plan."))
	case "remove":
		e.removePart(path)
	case "up":
		e.swap(path, -1)
	case "down":
		e.swap(path, +1)
	default:
		e.Refuse(d.Say("There is no action “%s”.", do))
	}
	return e.Out
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
		item["id"] = e.d.FreeID("gear", e.d.Say("piece %s", strconv.Itoa(n+1)))
		focus += ".kind"
	case "lines[].path":
		// Before the last, which stays the hauling end.
		item["point"] = ""
		if n >= 2 {
			stations := e.d.List(list)
			longer := append(append(append([]any{}, stations[:n-1]...), item), stations[n-1])
			e.Set(list, longer)
			e.shift(list, func(i int) int {
				if i == n-1 {
					return n
				}
				return i
			})
			e.Out.Focus = draft.Elem(list, n-1) + ".@at"
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
	case "people":
		item["id"] = e.d.FreeID("people", e.d.Say("person %s", strconv.Itoa(n+1)))
		focus += ".kind"
	case "tree.defects":
		item["kind"] = "cavity"
		focus += ".height_m"
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
		e.Refuse(e.d.Say("Nothing can be added to “%s”.", list))
		return
	}
	e.Push(list, item)
	e.Out.Focus = focus
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
		e.Push("points", map[string]any{"id": target})
	}
	n := e.d.Size("lines")
	e.Push("lines", map[string]any{
		"id":   e.d.FreeID("lines", role),
		"role": role,
		"path": []any{map[string]any{"stem_m": ""}, map[string]any{"point": target}},
	})
	e.Out.Focus = draft.Elem(draft.Elem("lines", n)+".path", 0) + ".stem_m"
}

// addGear adds a piece without a limit.
func (e *editor) addGear(id string, piece map[string]any, from string) {
	if e.d.Text(from+".id") == "" {
		e.Refuse(e.d.Say("Name it first, so that the piece can say where it is rigged."))
		return
	}
	piece["id"] = e.d.FreeID("gear", id)
	n := e.d.Size("gear")
	e.Push("gear", piece)
	e.Out.Focus = draft.Elem("gear", n)
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

// start lays out a new plan: a tree with everything to be measured, and one
// pull line from the stem to a point. Nothing in it is a number, so nothing
// in it can reassure; what is missing is named until it is given.
func (e *editor) start() {
	e.Set("version", draft.FileNumber(1))
	e.Set("tree", map[string]any{})
	e.Set("points", []any{map[string]any{"id": "A"}})
	e.Set("lines", []any{map[string]any{
		"id": "pull", "role": "pull",
		"path":   []any{map[string]any{"stem_m": ""}, map[string]any{"point": "A"}},
		"puller": map[string]any{},
	}})
	e.Set("gear", []any{})
	e.Out.Focus = "tree.height_m"
}
