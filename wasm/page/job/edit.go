package job

import (
	"slices"
	"strconv"
	"strings"

	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// An editor gathers the changes to the plan of a job.
type editor struct {
	*form.Editor
	d *draft.Plan
	u *units.System
}

func begin(d *draft.Plan, u *units.System) *editor { return &editor{form.NewEditor(d, u), d, u} }

// edit turns the text typed into one field into changes of the plan. A text
// that cannot be read is kept in the plan as it was typed: nothing typed is
// lost, and the report names the problem.
func edit(d *draft.Plan, u *units.System, path, text string) parts.Changes {
	e := begin(d, u)
	e.Out.Focus = path
	if draft.ParsePath(path) == nil {
		e.Refuse(d.Say("There is no field %s in the plan.", path))
		return e.Out
	}
	text = strings.TrimSpace(text)
	switch owner, key := draft.LastKey(path); {
	case key == "@at":
		e.station(owner, text)
	case key == "@place":
		e.place(owner, text)
	case key == "@tied":
		e.tie(owner, text)
	case key == "@ready":
		e.ready(owner, text)
	case draft.Pattern(path) == "points[].id":
		e.rename(path, text, "point")
	case draft.Pattern(path) == "lines[].id":
		e.rename(path, text, "line")
	case draft.Pattern(path) == "points[].anchor.kind":
		e.anchorKind(owner, text)
	default:
		e.Type(path, text)
	}
	return e.Out
}

// station puts a station on the stem or at a point.
func (e *editor) station(path, at string) {
	switch kind, id, _ := strings.Cut(at, "/"); {
	case at == "":
		e.Remove(path + ".point")
		e.Remove(path + ".stem_m")
	case at == "stem":
		e.Remove(path + ".point")
		if _, there := e.d.At(path + ".stem_m"); !there {
			e.Set(path+".stem_m", "") // still to be typed: the report names it
		}
	case kind == "point":
		e.Remove(path + ".stem_m")
		e.Set(path+".point", id)
	default:
		e.Refuse(e.d.Say("“%s” is not a place for a station. Choose the stem or one of the points.", at))
	}
}

// tie says whether the rope is made fast at an end of its line itself.
func (e *editor) tie(station, text string) {
	path, i, ok := draft.SplitElem(station)
	line := strings.TrimSuffix(path, ".path")
	name := ""
	if ok {
		name = tieName(e.d, line, i)
	}
	if name == "" {
		e.Refuse(e.d.Say("A rope is tied at the ends of its line. Choose where this end is first."))
		return
	}
	names, point := []any{}, strings.TrimPrefix(e.d.Station(station), "point/")
	for _, v := range e.d.List(line + ".tied") {
		if v != name && v != point {
			names = append(names, v)
		}
	}
	if tied, _ := strconv.ParseBool(text); tied {
		names = append(names, name)
	}
	if len(names) == 0 {
		e.Remove(line + ".tied")
		return
	}
	e.Set(line+".tied", names)
}

// place puts a piece of gear on a line, at the stem or at a point.
func (e *editor) place(path, at string) {
	kind, id, _ := strings.Cut(at, "/")
	if strings.Contains(at, " + ") {
		kind = "both"
	}
	switch kind {
	case "":
		e.Remove(path + ".line")
		e.Remove(path + ".place")
		e.Remove(path + ".point")
	case "line":
		e.Remove(path + ".place")
		e.Remove(path + ".point")
		e.Set(path+".line", id)
	case "stem":
		e.Remove(path + ".point")
		e.Set(path+".line", id)
		e.Set(path+".place", "stem")
	case "point":
		e.Remove(path + ".line")
		e.Remove(path + ".place")
		e.Set(path+".point", id)
	default:
		e.Refuse(e.d.Say("“%s” is not a place for a piece. Choose a line, the stem or a point.", at))
	}
}

// anchorKind changes what a point hangs on. A field is kept where the new kind has
// the very same one: a machine's rated pull is no plate's capacity, nor the factor on
// a tree that on the ground. The others mean nothing to it and go, and so does the
// diameter, which is another thing's. Fields of no kind yet are kept.
func (e *editor) anchorKind(path, word string) {
	if word == "" {
		e.Remove(path)
		return
	}
	old := e.d.Object(path)
	was, _ := old["kind"].(string)
	had := field.AnchorNamed(was).Row().Fields
	keep := map[string]any{"kind": word}
	for _, f := range field.AnchorNamed(word).Row().Fields {
		if f == field.BridleLegs {
			keep[f.Key()] = []any{}
		}
		if v, ok := old[f.Key()]; ok && (had == nil || slices.Contains(had, f)) && (f != field.AnchorDiameter || word == was) {
			keep[f.Key()] = v
		}
	}
	e.Set(path, keep)
}
