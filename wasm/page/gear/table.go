package gear

import (
	"strconv"
	"strings"

	"pullline/rigging/plan"
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
		where := "Row " + strconv.Itoa(p.Row)
		if p.Column != "" {
			where += ", column " + p.Column
		}
		message := where + ": " + say.Say(p.Saying)
		if p.Given != "" && !p.Saying.Names() {
			message += " Given: “" + p.Given + "”."
		}
		w.out.Notes = append(w.out.Notes, parts.Note{Path: p.Column, Message: message})
	}
	if more := len(im.Problems) - len(w.out.Notes); more > 0 {
		w.out.Notes = append(w.out.Notes, parts.Note{Message: "And " + strconv.Itoa(more) + " more of the kind."})
	}
	w.out.Message = taken(len(im.Pieces), im.Same)
	if len(im.Rest) > longestRest {
		w.out.Message += " " + w.out.Notes[0].Message + " What is not taken is too long to be mended here: mend it in its file."
		return
	}
	w.out.Rest = im.Rest
	if len(rows) > 0 {
		w.out.Message += " " + words.CountOf(len(rows), "row is not taken: mend it below and read it again.", "rows are not taken: mend them below and read them again.")
	}
}

// What is shown of a table that is not taken as a whole.
const (
	mostNotes   = 100
	longestRest = 100_000 // bytes, to be mended in a box
)

// taken says how many pieces came in.
func taken(pieces, same int) string {
	message := words.Capital(words.CountOf(pieces, "piece", "pieces")) + " taken into the list."
	if pieces == 0 {
		message = "No piece was taken into the list."
	}
	if same > 0 {
		message += " " + words.CountOf(same, "was there already.", "were there already.")
	}
	return message
}

func (w *work) importList() {
	tree, why := plan.ParseInventory([]byte(w.req.Text))
	if tree == nil {
		w.out.Message = "Nothing was taken. " + w.d.Voice(w.u).Say(why)
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
	if len(w.have())+len(added) > plan.MaxInventoryPieces {
		w.out.Message = "Nothing was taken: the list would have more than " + strconv.Itoa(plan.MaxInventoryPieces) + " pieces."
		return
	}
	w.editing(func(e *form.Editor) {
		for _, p := range added {
			e.Push("pieces", p)
		}
	})
	w.out.Message = taken(len(added), same)
}

func (w *work) exportTable() {
	text, left := plan.InventoryCSV(w.have())
	w.out.File = text
	if len(left) > 0 {
		w.out.Message = "The table leaves out: " + strings.Join(left, ", ") + ". The gear list's own file keeps it."
	}
}

func (w *work) have() []any { return w.d.List("pieces") }
