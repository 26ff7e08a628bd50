package gear

import (
	"strings"

	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/page/form"
	"pullline/wasm/request"
	"pullline/wasm/words"
)

// pickedKeys are copied from the list into a plan.
var pickedKeys = []string{
	"kind", "wll_kN", "wll_t", "mbl_kN", "design_factor", "hitch_factor", "reductions", "size", "terminations",
	"last_inspection", "next_inspection", "retired", "notes",
}

// pick copies a piece to a place in the plan.
func (w *work) pick() {
	i, ok := w.pieceOf(w.req.Path)
	if !ok || i >= len(w.pieces) || w.req.Path != draft.Elem("pieces", i) {
		w.out.Message = w.d.Say(noPiece)
		return
	}
	if w.plan.Err != nil {
		w.out.Message = w.d.Say("There is no plan to add it to.")
		return
	}
	placed := false
	for _, o := range w.places() {
		placed = placed || o.Value == w.req.Text
	}
	if !placed {
		w.out.Message = w.d.Say("“%s” is not a place in this plan. Choose a line, the {stem} or a point.", w.req.Text)
		return
	}
	p := &w.pieces[i]
	title := w.title(i)
	f := p.On(w.day)
	if f == plan.FitFound {
		w.out.Message = w.d.Say("“%s” was not added to the plan. %s", title, w.sentence(p, f))
		return
	}
	source := w.d.Object(w.req.Path)
	id := p.ID
	if strings.TrimSpace(id) == "" {
		id = title
	}
	piece := map[string]any{"id": w.plan.FreeID("gear", id)}
	for _, key := range pickedKeys {
		if v, given := source[key]; given {
			piece[key] = v
		}
	}
	switch kind, at, _ := strings.Cut(w.req.Text, "/"); kind {
	case "line":
		piece["line"] = at
	case "stem":
		piece["line"], piece["place"] = at, "stem"
	case "point":
		piece["point"] = at
	}
	e := form.NewEditor(w.plan, w.u)
	e.Push("gear", piece)
	w.out.Plan = e.Out.Changes
	w.out.Focus = draft.Elem("gear", w.plan.Size("gear"))
	w.out.Message = w.d.Say("“%s” is in the plan.", words.Capital(id))
	if piece["id"] != id {
		w.out.Message = w.d.Say("The plan already had a piece “%s”; this one is called “%s”. Are there really two?", id, request.Text(piece["id"]))
	}
	if f == plan.FitRetired || f == plan.FitPast || f == plan.FitUnknown {
		w.out.Message = words.Join(w.out.Message, w.d.Say("%s: the plan cannot be judged with it as it is.", w.d.Say(fitnessWords[f])))
	}
}
