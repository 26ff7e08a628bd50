package gear

import (
	"strconv"
	"strings"

	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

const noPiece words.Text = "There is no such piece in the gear list."

// The words of the states.
var fitnessWords = [...]words.Text{
	plan.FitUnknown: "Not known", plan.FitRetired: "Retired", plan.FitFound: "To be judged", plan.FitPast: "Inspection overdue",
	plan.FitDue: "Inspection due", plan.FitUndated: "No inspection date", plan.FitInDate: "In date",
}

func (w *work) sentence(p *plan.InventoryPiece, f plan.Fitness) string {
	next, looked := p.Next.String(), p.Looked.String()
	switch f {
	case plan.FitRetired:
		return w.d.Say("Do not use.")
	case plan.FitFound:
		return w.d.Say("Failed its inspection sheet of %s: do not use until a competent person has judged it.", looked)
	case plan.FitPast:
		return w.d.Say("Inspection was due by %s.", next)
	case plan.FitDue:
		return w.d.Say("Inspect by %s, in %s days or fewer.", next, strconv.Itoa(plan.DueDays))
	case plan.FitUndated:
		return w.d.Say("No inspection date given.")
	case plan.FitInDate:
		return w.d.Say("Inspect by %s.", next)
	}
	if !p.Sound {
		return w.d.Say("An entry has to be fixed.")
	}
	if p.Last.Known() && w.day.Known() && w.day.Before(p.Last) {
		return w.d.Say("Its last inspection, %s, is after that day.", p.Last.String())
	}
	return w.d.Say("The day is not known.")
}

// view lists the pieces, with the form of the one asked for.
func (w *work) view() {
	b := w.builder()
	w.out.Day = w.said
	w.out.Places = w.places()
	perPiece := make([]int, len(w.pieces))
	for _, p := range w.wrong {
		if i, ok := w.pieceOf(p.Path); ok && i < len(perPiece) {
			perPiece[i]++
			continue
		}
		w.out.Problems = append(w.out.Problems, parts.Note{Path: p.Path, Message: p.Message})
	}
	for i := range w.pieces {
		p := &w.pieces[i]
		path := draft.Elem("pieces", i)
		f := p.On(w.day)
		row := Row{
			Path: path, Title: w.title(i), Kind: words.Capital(parts.LabelOf(w.d.Locale, fields.GearKinds, w.d.Text(path+".kind"))),
			Line:  words.Listed(b.LimitWords(path), b.Written(path+".size"), b.Written(path+".terminations")),
			State: f.Word(), Word: w.d.Say(fitnessWords[f]), Sentence: w.sentence(p, f), Problems: perPiece[i],
		}
		row.Find = strings.ToLower(strings.ReplaceAll(strings.Join([]string{row.Title, row.Kind, row.Line, row.Word, b.Written(path + ".notes")}, " "), "\u00a0", " "))
		w.out.Rows = append(w.out.Rows, row)
	}
	if i, ok := w.pieceOf(w.req.Path); ok && i < len(w.pieces) {
		w.out.Form = w.form(b, i)
	}
}

func (w *work) builder() *form.Builder { return form.NewBuilder(w.d, w.u, nil, w.wrong) }

// form asks for one piece.
func (w *work) form(b *form.Builder, i int) []parts.Section {
	path := draft.Elem("pieces", i)
	s := parts.Section{ID: path, Title: w.title(i), Fields: b.Fields(path, "id", "kind")}
	s.Fields = append(s.Fields, b.Limit(path)...)
	s.Fields = append(s.Fields, b.Fields(path, "hitch_factor", "size", "terminations", "notes")...)
	s.Sections = []parts.Section{b.Inspection(path, "last_inspection", "next_inspection", "retired"), b.Reductions(path)}
	sections := []parts.Section{s}
	for _, p := range w.wrong {
		if draft.Within(p.Path, path) {
			form.Place(sections, parts.Note{Path: p.Path, Message: p.Message}, true)
		}
	}
	return sections
}

// places are where in the plan a piece can be put.
func (w *work) places() []parts.Option {
	if w.plan.Err != nil {
		return []parts.Option{}
	}
	return fields.GearPlaces(w.plan)[1:]
}

func (w *work) edit() {
	i, ok := w.pieceOf(w.req.Path)
	if !ok || i >= len(w.pieces) {
		w.out.Message = w.d.Say(noPiece)
		return
	}
	w.editing(func(e *form.Editor) { e.Type(w.req.Path, w.req.Text) })
}

func (w *work) act() {
	i, isPiece := w.pieceOf(w.req.Path)
	path := w.req.Path
	if isPiece && i >= len(w.pieces) {
		w.out.Message = w.d.Say("That piece is no longer there.")
		return
	}
	w.editing(func(e *form.Editor) {
		switch pattern := draft.Pattern(path); {
		case w.req.Act == "add" && path == "pieces":
			if len(w.pieces) >= field.Pieces.Row().Most {
				e.Refuse(w.d.Say("The list is full: %s pieces.", strconv.Itoa(field.Pieces.Row().Most)))
				return
			}
			n := w.d.Size("pieces")
			e.Push("pieces", map[string]any{"id": w.d.FreeID("pieces", w.d.Say("piece %s", strconv.Itoa(n+1)))})
			e.Out.Focus = draft.Elem("pieces", n)
		case w.req.Act == "add" && pattern == "pieces[].reductions":
			e.Out.Focus = draft.Elem(path, w.d.Size(path)) + ".why"
			e.Push(path, map[string]any{})
		case w.req.Act == "remove" && (pattern == "pieces[]" || pattern == "pieces[].reductions[]"):
			e.Remove(path)
		case w.req.Act == "retire" && pattern == "pieces[]":
			e.Set(path+".retired", true)
		case w.req.Act == "unretire" && pattern == "pieces[]":
			e.Remove(path + ".retired")
		default:
			e.Refuse(w.d.Say("There is no action “%s” there.", w.req.Act))
		}
	})
}
