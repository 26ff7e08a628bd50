package job

import (
	"strconv"
	"strings"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

// A Stem says which stem of a shared tree a plan is for.
type Stem struct {
	Tree    string `json:"tree"`    // the name the stems share
	Words   string `json:"words"`   // which stem, and its turn
	Caution string `json:"caution"` // one line for all plans of the tree
}

const stemsCaution words.Text = "Each plan stands alone: the union of the stems may fail, and loads change once one stem is off."

// SharedStem is nil for a plan that names no shared tree.
func SharedStem(d *draft.Plan) *Stem {
	tree := strings.TrimSpace(d.Text("fork.tree"))
	if tree == "" {
		return nil
	}
	s := &Stem{Tree: tree, Words: d.Say("Stem not known."), Caution: d.Say(stemsCaution)}
	stem, of, order := stemNumber(d, field.ForkStem), stemNumber(d, field.ForkOf), stemNumber(d, field.ForkOrder)
	if stem == 0 {
		return s
	}
	which, turn := d.Say("Stem %s", strconv.Itoa(stem)), d.Say("felling order not known")
	if of > 0 {
		which = d.Say("Stem %s of %s", strconv.Itoa(stem), strconv.Itoa(of))
	}
	if order > 0 {
		turn = d.Say("felled as no. %s", strconv.Itoa(order))
	}
	s.Words = d.Say("%s, %s.", which, turn)
	return s
}

// stemNumber reads a number of stems, 0 where there is none that the plan accepts.
func stemNumber(d *draft.Plan, f field.Field) int {
	v, ok := d.Number(f.Path())
	if !ok || !f.Row().Range.Holds(v) {
		return 0
	}
	return int(v)
}

// nextStem turns a copy of a plan into that of the next stem of its tree.
// Taken are the numbers of the stems that have a plan, apart from blanks.
// What was measured from the lay goes, as does what was chosen or seen for the
// one stem: the copy cannot be judged before it is given anew.
func (e *editor) nextStem(taken string) {
	d := e.d
	stem, of := stemNumber(d, field.ForkStem), stemNumber(d, field.ForkOf)
	switch {
	case strings.TrimSpace(d.Text("fork.tree")) == "":
		e.Refuse(e.d.Say("This plan names no shared tree. Name it under “One of several stems” first."))
		return
	case stem == 0 || of == 0:
		e.Refuse(e.d.Say("First give the number of this stem and how many there are, under “One of several stems”."))
		return
	}
	has := map[int]bool{stem: true}
	for _, text := range strings.Fields(taken) {
		if n, err := strconv.Atoi(text); err == nil {
			has[n] = true
		}
	}
	next := 0
	for i := 1; i < of && next == 0; i++ {
		if n := (stem-1+i)%of + 1; !has[n] {
			next = n
		}
	}
	if next == 0 {
		e.Refuse(e.d.Say("All %s stems have a plan. If there are more, change the number of stems first.", strconv.Itoa(of)))
		return
	}
	e.Set("fork.stem", jsontext.Number(strconv.Itoa(next)))
	e.Remove("fork.order")
	e.Set("name", stemName(d, next))
	e.forget("tree.lean_bearing_deg")
	e.forget("tree.crown_offset_bearing_deg")
	for i := range d.List("points") {
		e.forget(draft.Elem("points", i) + ".bearing_deg")
	}
	e.Remove("after")
	e.Out.Focus = "tree.lean_bearing_deg"
	e.Out.Message = e.d.Say("Stem %s now has its own plan, copied from stem %s. Bearings are from the {lay}, and this stem has its own: those of the {lean}, the {crown} and the points are empty, and so is the felling order. All else is copied from the other stem: measure tree, {hinge} and anchors again.", strconv.Itoa(next), strconv.Itoa(stem))
}

// forget takes away a field with its give or take and its readings.
func (e *editor) forget(path string) {
	e.Remove(path)
	e.Remove(draft.PlusMinus + path)
	if _, kept := e.d.Object("readings")[path]; kept {
		e.dropReadings(path)
	}
}

// dropReadings takes away the readings kept of a field.
func (e *editor) dropReadings(path string) {
	e.Out.Changes = append(e.Out.Changes, parts.Change{Op: "delete", At: []any{"readings", path}})
}

// stemName puts the stem's number into the plan's name, in place of the one
// before.
func stemName(d *draft.Plan, stem int) string {
	const mark = ", stem "
	name := strings.TrimSpace(d.Text("name"))
	if i := strings.LastIndex(name, mark); i >= 0 {
		if _, err := strconv.Atoi(name[i+len(mark):]); err == nil {
			name = name[:i]
		}
	}
	if name == "" {
		name = strings.TrimSpace(d.Text("fork.tree"))
	}
	return name + mark + strconv.Itoa(stem)
}
