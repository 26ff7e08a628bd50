package screen

import (
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// An editor gathers the changes that one step of editing makes.
type editor struct {
	d   *draft.Plan
	u   *units.System
	out parts.Changes
}

func (e *editor) set(path string, value any) {
	if at := draft.ParsePath(path); at != nil {
		e.out.Changes = append(e.out.Changes, parts.Change{Op: "set", At: at, Value: value})
	}
}

func (e *editor) remove(path string) {
	if _, there := e.d.At(path); there {
		e.out.Changes = append(e.out.Changes, parts.Change{Op: "delete", At: draft.ParsePath(path)})
	}
}

// push appends to a list. Where something that is no list stands, the list
// takes its place.
func (e *editor) push(list string, value any) {
	if v, there := e.d.At(list); there {
		if _, ok := v.([]any); !ok {
			e.set(list, []any{value})
			return
		}
	}
	e.out.Changes = append(e.out.Changes, parts.Change{Op: "insert", At: draft.ParsePath(list), Value: value})
}

// refuse takes back every change and says why.
func (e *editor) refuse(message string) {
	e.out.Changes = nil
	e.out.Message = message
}

// edit turns the text typed into one field into changes of the plan. A text
// that cannot be read is kept in the plan as it was typed: nothing typed is
// lost, and the report names the problem.
func edit(d *draft.Plan, u *units.System, path, text string) parts.Changes {
	e := &editor{d: d, u: u, out: parts.Changes{Focus: path}}
	if draft.ParsePath(path) == nil {
		e.refuse("There is no field " + path + " in the plan.")
		return e.out
	}
	text = strings.TrimSpace(text)
	switch owner, key := draft.LastKey(path); {
	case key == "@at":
		e.station(owner, text)
	case key == "@place":
		e.place(owner, text)
	case key == "@tied":
		e.tie(owner, text)
	case key == "@basis":
		e.basis(owner, text)
	case key == "@ready":
		e.ready(owner, text)
	case draft.Pattern(path) == "points[].id":
		e.rename(path, text, "point")
	case draft.Pattern(path) == "lines[].id":
		e.rename(path, text, "line")
	case draft.Pattern(path) == "points[].anchor.kind":
		e.anchorKind(owner, text)
	default:
		e.value(path, text)
	}
	return e.out
}

// value sets or deletes an ordinary field.
func (e *editor) value(path, text string) {
	spec, ok := fields.At(path)
	if !ok {
		e.refuse("There is no field " + path + " in the plan.")
		return
	}
	if text == "" {
		if spec.Keep && !strings.HasPrefix(path, draft.PlusMinus) {
			e.set(path, "")
		} else {
			e.remove(path)
		}
		return
	}
	e.set(path, e.typed(spec, text))
}

// typed is what a text stands for in the plan.
func (e *editor) typed(spec *fields.Spec, text string) any {
	switch spec.Kind {
	case fields.Number:
		if v, ok := e.u.Parse(text, spec.Dim); ok {
			return draft.FileNumber(v)
		}
	case fields.Flag:
		if b, err := strconv.ParseBool(text); err == nil {
			return b
		}
	case fields.Date:
		return dateText(text)
	case fields.Lines:
		return splitLines(text)
	case fields.Rows:
		if rows, ok := units.ParseRows(text); ok {
			return rows
		}
	}
	return text
}

// dateText writes a day that begins with its year as the plan does:
// "2026/3/31" and "2026 3 31" too. Any other text stays as it is; of days
// that begin otherwise nobody can tell the month.
func dateText(text string) string {
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" -/.−–", r) })
	if len(parts) != 3 || len(parts[0]) != 4 {
		return text
	}
	for i, p := range parts[1:] {
		if len(p) == 1 {
			parts[i+1] = "0" + p
		}
	}
	iso := parts[0] + "-" + parts[1] + "-" + parts[2]
	if _, ok := plan.ParseDate(iso); !ok {
		return text
	}
	return iso
}

// station puts a station on the stem or at a point.
func (e *editor) station(path, at string) {
	switch kind, id, _ := strings.Cut(at, "/"); {
	case at == "":
		e.remove(path + ".point")
		e.remove(path + ".stem_m")
	case at == "stem":
		e.remove(path + ".point")
		if _, there := e.d.At(path + ".stem_m"); !there {
			e.set(path+".stem_m", "") // still to be typed: the report names it
		}
	case kind == "point":
		e.remove(path + ".stem_m")
		e.set(path+".point", id)
	default:
		e.refuse("“" + at + "” is not a place for a station. Choose the stem or one of the points.")
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
		e.refuse("A rope is tied at the ends of its line. Choose where this end is first.")
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
		e.remove(line + ".tied")
		return
	}
	e.set(line+".tied", names)
}

// place puts a piece of gear on a line, at the stem or at a point.
func (e *editor) place(path, at string) {
	kind, id, _ := strings.Cut(at, "/")
	if strings.Contains(at, " + ") {
		kind = "both"
	}
	switch kind {
	case "":
		e.remove(path + ".line")
		e.remove(path + ".place")
		e.remove(path + ".point")
	case "line":
		e.remove(path + ".place")
		e.remove(path + ".point")
		e.set(path+".line", id)
	case "stem":
		e.remove(path + ".point")
		e.set(path+".line", id)
		e.set(path+".place", "stem")
	case "point":
		e.remove(path + ".line")
		e.remove(path + ".place")
		e.set(path+".point", id)
	default:
		e.refuse("“" + at + "” is not a place for a piece. Choose a line, the stem or a point.")
	}
}

// basis changes which field holds a piece's limit. Between force and tonnes
// the number is converted: it means the same load. A breaking load is another
// thing than a working load limit, so there the number has to be typed anew.
func (e *editor) basis(path, key string) {
	known := false
	for _, k := range limitKeys {
		known = known || k == key
	}
	if !known {
		e.refuse("“" + key + "” is not a way to give a limit.")
		return
	}
	old := limitKey(e.d, path)
	if old == key {
		return
	}
	var value any = ""
	if n, ok := e.d.Number(path + "." + old); ok && old != "" && old != "mbl_kN" && key != "mbl_kN" {
		const tonneKN = rigging.TonneForce / rigging.KN
		if key == "wll_kN" {
			n *= tonneKN
		} else {
			n /= tonneKN
		}
		value = draft.FileNumber(units.RoundDigits(n, units.FileDigits))
	}
	for _, k := range limitKeys {
		if k != key {
			e.remove(path + "." + k)
		}
	}
	e.set(path+"."+key, value)
	if key != "mbl_kN" {
		e.remove(path + ".design_factor")
	}
	e.out.Focus = path + "." + key
}

// anchorKind changes what a point hangs on. Fields that the new kind also
// has are kept; the others mean nothing to it and go.
func (e *editor) anchorKind(path, kind string) {
	if kind == "" {
		e.remove(path)
		return
	}
	keep := map[string]any{"kind": kind}
	if kind == "bridle" {
		keep["legs"] = []any{}
	}
	old := e.d.Object(path)
	keys, _ := keyed.Find(anchorFields, kind)
	for _, key := range append([]string{"legs"}, keys...) {
		if v, ok := old[key]; ok && (key != "legs" || kind == "bridle") {
			keep[key] = v
		}
	}
	// A buried log's diameter is not the anchor tree's, nor is a machine's
	// rated pull a plate's: only bare facts of the ground carry over.
	if was, _ := old["kind"].(string); was != kind {
		delete(keep, "diameter_cm")
	}
	e.set(path, keep)
}

// rename gives a point or a line another name everywhere at once.
func (e *editor) rename(path, name, what string) {
	list, _, _ := draft.SplitElem(strings.TrimSuffix(path, ".id"))
	v, there := e.d.At(path)
	old := draft.Written(v)
	switch {
	case name == "":
		e.refuse("A " + what + " needs a name, so that the rest of the plan can say which one is meant.")
		return
	case there && name == old:
		return
	case what == "point" && (strings.EqualFold(name, "stem") || strings.EqualFold(name, "end")):
		e.refuse("“" + name + "” means an end of a line. Give the point another name.")
		return
	case strings.ContainsAny(name, "/+"):
		e.refuse("A name cannot hold “/” or “+”. Give it another.")
		return
	case e.d.IndexByID(list, name) >= 0:
		e.refuse("There is already a " + what + " “" + name + "”. Give each its own name.")
		return
	}
	e.set(path, name)
	if old == "" || e.countID(list, old) != 1 {
		return // nobody can tell which of them the others mean
	}
	for _, ref := range references(e.d, what, old) {
		e.set(ref, name)
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
