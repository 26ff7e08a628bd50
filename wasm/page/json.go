package page

import (
	"pullline/rigging/jsontext"
	"pullline/wasm/page/show"
	"pullline/wasm/parts"
)

// The answers are written field by field under the names of their struct
// tags.

func (v *View) AppendJSON(w *jsontext.Writer) {
	w.Open()
	v.Headline.AppendJSON(w, "headline")
	jsontext.List(w, "facts", v.Facts, parts.AppendFact)
	jsontext.List(w, "form", v.Form, parts.AppendSection)
	jsontext.ListIf(w, "lists", v.Lists, parts.AppendOptions)
	w.TextsIf("helps", v.Helps)
	jsontext.List(w, "pieces", v.Pieces, show.AppendPiece)
	v.Side.Append(w, "side")
	v.Plan.Append(w, "plan")
	v.Curve.Append(w, "curve")
	jsontext.List(w, "problems", v.Problems, parts.AppendNote)
	jsontext.List(w, "cautions", v.Cautions, parts.AppendNote)
	jsontext.List(w, "standing", v.Standing, parts.AppendNote)
	jsontext.List(w, "assumed", v.Assumed, parts.AppendAssumed)
	jsontext.List(w, "working", v.Working, parts.AppendStep)
	jsontext.List(w, "taken", v.Taken, parts.AppendStep)
	jsontext.List(w, "steps", v.Steps, appendJobStep)
	v.Brief.AppendJSON(w, "brief")
	v.After.AppendJSON(w, "after")
	v.Stem.AppendJSON(w, "stem")
	w.Text("name", v.Name)
	jsontext.List(w, "units", v.Units, parts.AppendOption)
	w.Text("units_now", v.UnitsNow)
	jsontext.List(w, "words", v.Words, parts.AppendOption)
	w.Text("words_now", v.WordsNow)
	w.Bool("fresh", v.Fresh)
	if v.Report != nil {
		w.Key("report")
		v.Report.AppendJSON(w)
	}
	w.Close()
}
