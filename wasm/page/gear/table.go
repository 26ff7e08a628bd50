package gear

import (
	"strconv"
	"strings"

	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func (w *work) importTable() {
	im, say := plan.ImportCSV(w.req.Text, w.have()), w.d.Voice(w.u)
	w.editing(func(e *form.Editor) {
		for _, p := range im.Pieces {
			e.Push("pieces", p)
		}
	})
	rows := map[int]bool{}
	for _, p := range im.Problems {
		rows[p.Row] = true
		if len(w.out.Notes) == mostNotes {
			continue
		}
		message := w.d.Say("Row %s: %s", strconv.Itoa(p.Row), say.Say(p.Saying))
		if p.Column != "" {
			message = w.d.Say("Row %s, column %s: %s", strconv.Itoa(p.Row), p.Column, say.Say(p.Saying))
		}
		if p.Given != "" && !p.Saying.Names() {
			message = words.Join(message, w.d.Say("Given: “%s”.", p.Given))
		}
		w.out.Notes = append(w.out.Notes, parts.Note{Path: p.Column, Message: message})
	}
	if more := len(im.Problems) - len(w.out.Notes); more > 0 {
		w.out.Notes = append(w.out.Notes, parts.Note{Message: w.d.Count(more, "And 1 more like these.", "And %s more like these.")})
	}
	w.out.Message = w.taken(len(im.Pieces), im.Same)
	if len(im.Rest) > longestRest {
		w.out.Message = words.Join(w.out.Message, words.Join(w.out.Notes[0].Message, w.d.Say("The rows not taken are too long to fix here: fix them in the file.")))
		return
	}
	w.out.Rest = im.Rest
	if len(rows) > 0 {
		w.out.Message = words.Join(w.out.Message, w.d.Count(len(rows), "1 row is not taken: fix it below and read it again.", "%s rows are not taken: fix them below and read them again."))
	}
}

// What is shown of a table that is not taken as a whole.
const (
	mostNotes   = 100
	longestRest = 100_000 // bytes, to be mended in a box
)

// taken says how many pieces came in.
func (w *work) taken(pieces, same int) string {
	message := w.d.Say("No pieces added.")
	if pieces > 0 {
		message = w.d.Count(pieces, "1 piece added.", "%s pieces added.")
	}
	if same > 0 {
		message = words.Join(message, w.d.Count(same, "1 was already in the list.", "%s were already in the list."))
	}
	return message
}

func (w *work) importList() {
	tree, why := plan.ParseInventory([]byte(w.req.Text))
	if tree == nil {
		w.out.Message = w.d.Say("Nothing was added. %s", w.d.Voice(w.u).Say(why))
		return
	}
	known := map[string]bool{}
	for _, p := range w.have() {
		known[draft.JSON(p)] = true
	}
	pieces, _ := tree["pieces"].([]any)
	same, added := 0, []any{}
	for _, p := range pieces {
		text := draft.JSON(p)
		if known[text] {
			same++
			continue
		}
		known[text] = true
		added = append(added, p)
	}
	if len(w.have())+len(added) > field.Pieces.Row().Most {
		w.out.Message = w.d.Say("Nothing was added: the list would have more than %s pieces.", strconv.Itoa(field.Pieces.Row().Most))
		return
	}
	w.editing(func(e *form.Editor) {
		for _, p := range added {
			e.Push("pieces", p)
		}
	})
	w.out.Message = w.taken(len(added), same)
}

func (w *work) exportTable() {
	text, left := plan.InventoryCSV(w.have())
	w.out.File = text
	if len(left) > 0 {
		w.out.Message = w.d.Say("The table leaves out: %s. The gear list's own file keeps it.", strings.Join(left, ", "))
	}
}

func (w *work) have() []any { return w.d.List("pieces") }
