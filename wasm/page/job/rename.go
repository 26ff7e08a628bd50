package job

import (
	"strings"

	"pullline/wasm/draft"
)

// rename gives a point or a line another name everywhere at once.
func (e *editor) rename(path, name, what string) {
	list, _, _ := draft.SplitElem(strings.TrimSuffix(path, ".id"))
	v, there := e.d.At(path)
	old := draft.Written(v)
	switch {
	case name == "":
		if what == "point" {
			e.Refuse(e.d.Say("A point needs a name, so that the rest of the plan can refer to it."))
		} else {
			e.Refuse(e.d.Say("A line needs a name, so that the rest of the plan can refer to it."))
		}
		return
	case there && name == old:
		return
	case what == "point" && (strings.EqualFold(name, "stem") || strings.EqualFold(name, "end")):
		e.Refuse(e.d.Say("“%s” means an end of a line. Give the point another name.", name))
		return
	case strings.ContainsAny(name, "/+"):
		e.Refuse(e.d.Say("A name cannot hold “/” or “+”. Give it another."))
		return
	case e.d.IndexByID(list, name) >= 0:
		if what == "point" {
			e.Refuse(e.d.Say("There is already a point “%s”. Give each point its own name.", name))
		} else {
			e.Refuse(e.d.Say("There is already a line “%s”. Give each line its own name.", name))
		}
		return
	}
	e.Set(path, name)
	if old == "" || e.countID(list, old) != 1 {
		return // nobody can tell which of them the others mean
	}
	for _, ref := range references(e.d, what, old) {
		e.Set(ref, name)
	}
}

func (e *editor) countID(list, id string) int {
	n := 0
	for i := range e.d.List(list) {
		if v, ok := e.d.At(draft.Elem(list, i) + ".id"); ok && v == id {
			n++
		}
	}
	return n
}

// references are the paths that name a point or a line.
func references(d *draft.Plan, what, id string) []string {
	var refs []string
	names := func(path string) {
		if v, ok := d.At(path); ok && v == id {
			refs = append(refs, path)
		}
	}
	for i := range d.List("gear") {
		names(draft.Elem("gear", i) + "." + what)
	}
	if what != "point" {
		return refs
	}
	for i := range d.List("points") {
		legs := draft.Elem("points", i) + ".anchor.legs"
		for k := range d.List(legs) {
			names(draft.Elem(legs, k) + ".point")
		}
	}
	for i := range d.List("lines") {
		tied := draft.Elem("lines", i) + ".tied"
		for k := range d.List(tied) {
			names(draft.Elem(tied, k))
		}
		for _, list := range []string{".path", ".tackle.haul_path"} {
			stations := draft.Elem("lines", i) + list
			for k := range d.List(stations) {
				names(draft.Elem(stations, k) + ".point")
			}
		}
	}
	return refs
}
