package screen

import (
	"pullline/rigging/jsontext"
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
	jsontext.List(w, "pieces", v.Pieces, appendPiece)
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

func (h *Headline) AppendJSON(w *jsontext.Writer, key string) {
	w.Key(key)
	w.Open()
	w.Text("verdict", h.Verdict)
	w.Text("word", h.Word)
	w.Text("sentence", h.Sentence)
	w.Text("governing", h.Governing)
	w.Text("use", h.Use)
	w.Text("at_most", h.AtMost)
	w.Text("at_most_text", h.AtMostText)
	w.BoolIf("held", h.Held)
	w.TextIf("hold", h.Hold)
	w.TextIf("hold_label", h.HoldLabel)
	w.TextIf("hold_working", h.HoldWorking)
	jsontext.List(w, "why", h.Why, parts.AppendNote)
	jsontext.ListIf(w, "parts", h.Parts, appendSentencePart)
	jsontext.ListIf(w, "at_most_parts", h.AtMostParts, appendSentencePart)
	w.Close()
}

func appendSentencePart(w *jsontext.Writer, p *Part) {
	w.Open()
	w.Text("text", p.Text)
	w.TextIf("working", p.Working)
	w.Close()
}

func appendPiece(w *jsontext.Writer, p *Piece) {
	w.Open()
	w.Text("id", p.ID)
	w.Text("title", p.Title)
	w.Text("where", p.Where)
	w.Text("verdict", p.Verdict)
	w.Text("word", p.Word)
	w.Text("load", p.Load)
	w.Text("capacity", p.Capacity)
	w.Text("use", p.Use)
	w.Num("use_share", p.UseShare)
	w.Text("at_most_load", p.AtMostLoad)
	w.Text("at_most_use", p.AtMostUse)
	w.Text("at_most_verdict", p.AtMostVerdict)
	w.Text("at_most_word", p.AtMostWord)
	w.Text("path", p.Path)
	w.TextIf("estimate", p.Estimate)
	w.TextIf("load_working", p.LoadWorking)
	w.TextIf("capacity_working", p.CapacityWorking)
	w.TextIf("use_working", p.UseWorking)
	w.TextIf("at_most_working", p.AtMostWorking)
	w.Close()
}
