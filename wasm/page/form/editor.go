package form

import (
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// An Editor gathers the changes that one step of editing makes to a plan or to
// a gear list.
type Editor struct {
	d   *draft.Plan
	u   *units.System
	Out parts.Changes
}

// NewEditor begins a step of editing.
func NewEditor(d *draft.Plan, u *units.System) *Editor { return &Editor{d: d, u: u} }

// Type turns the text typed into a field into changes. A text that cannot be
// read is kept as it was typed: nothing typed is lost, and the report names the
// problem.
func (e *Editor) Type(path, text string) {
	e.Out.Focus = path
	if draft.ParsePath(path) == nil {
		e.Refuse(e.d.Say("There is no field %s in the plan.", path))
		return
	}
	text = strings.TrimSpace(text)
	if owner, key := draft.LastKey(path); key == "@basis" {
		e.basis(owner, text)
		return
	}
	e.value(path, text)
}

// Set puts a value at a path.
func (e *Editor) Set(path string, value any) {
	if at := draft.ParsePath(path); at != nil {
		e.Out.Changes = append(e.Out.Changes, parts.Change{Op: "set", At: at, Value: value})
	}
}

// Remove takes away what stands at a path, if anything does.
func (e *Editor) Remove(path string) {
	if _, there := e.d.At(path); there {
		e.Out.Changes = append(e.Out.Changes, parts.Change{Op: "delete", At: draft.ParsePath(path)})
	}
}

// Push appends to a list. Where something that is no list stands, the list
// takes its place.
func (e *Editor) Push(list string, value any) {
	if v, there := e.d.At(list); there {
		if _, ok := v.([]any); !ok {
			e.Set(list, []any{value})
			return
		}
	}
	e.Out.Changes = append(e.Out.Changes, parts.Change{Op: "insert", At: draft.ParsePath(list), Value: value})
}

// Refuse takes back every change and says why.
func (e *Editor) Refuse(message string) {
	e.Out.Changes = nil
	e.Out.Message = message
}

// value sets or deletes an ordinary field.
func (e *Editor) value(path, text string) {
	spec, ok := fields.At(path)
	if !ok {
		e.Refuse(e.d.Say("There is no field %s in the plan.", path))
		return
	}
	if text == "" {
		if spec.Keep && !strings.HasPrefix(path, draft.PlusMinus) {
			e.Set(path, "")
		} else {
			e.Remove(path)
		}
		return
	}
	e.Set(path, e.typed(spec, text))
}

// typed is what a text stands for in the plan.
func (e *Editor) typed(spec *fields.Spec, text string) any {
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
		return DateText(text)
	case fields.Lines:
		return splitLines(text)
	case fields.Rows:
		if rows, ok := units.ParseRows(text); ok {
			return rows
		}
	}
	return text
}

// DateText writes a day that begins with its year as the plan does:
// "2026/3/31" and "2026 3 31" too. Any other text stays as it is; of days
// that begin otherwise nobody can tell the month.
func DateText(text string) string {
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

// basis changes which field holds a piece's limit. Between force and tonnes
// the number is converted: it means the same load. A breaking load is another
// thing than a working load limit, so there the number has to be typed anew.
func (e *Editor) basis(path, key string) {
	known := false
	for _, k := range limitKeys {
		known = known || k == key
	}
	if !known {
		e.Refuse(e.d.Say("“%s” is not a way to give a limit.", key))
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
			e.Remove(path + "." + k)
		}
	}
	e.Set(path+"."+key, value)
	if key != "mbl_kN" {
		e.Remove(path + ".design_factor")
	}
	e.Out.Focus = path + "." + key
}
