package screen

import "pullline/rigging/jsontext"

// The answers are written field by field under the names of their struct
// tags.

func (v *View) AppendJSON(w *jsontext.Writer) {
	w.Open()
	v.Headline.AppendJSON(w, "headline")
	jsontext.List(w, "facts", v.Facts, appendFact)
	jsontext.List(w, "form", v.Form, appendSection)
	jsontext.ListIf(w, "lists", v.Lists, appendOptions)
	w.TextsIf("helps", v.Helps)
	jsontext.List(w, "pieces", v.Pieces, appendPiece)
	v.Side.AppendJSON(w, "side")
	v.Plan.AppendJSON(w, "plan")
	v.Curve.AppendJSON(w, "curve")
	jsontext.List(w, "problems", v.Problems, appendNote)
	jsontext.List(w, "cautions", v.Cautions, appendNote)
	jsontext.List(w, "standing", v.Standing, appendNote)
	jsontext.List(w, "assumed", v.Assumed, appendAssumedLine)
	jsontext.List(w, "working", v.Working, appendStep)
	jsontext.List(w, "taken", v.Taken, appendStep)
	jsontext.List(w, "steps", v.Steps, appendJobStep)
	v.Brief.AppendJSON(w, "brief")
	v.After.AppendJSON(w, "after")
	v.Stem.AppendJSON(w, "stem")
	w.Text("name", v.Name)
	jsontext.List(w, "units", v.Units, appendOption)
	w.Text("units_now", v.UnitsNow)
	jsontext.List(w, "words", v.Words, appendOption)
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
	jsontext.List(w, "why", h.Why, appendNote)
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

func appendFact(w *jsontext.Writer, f *Fact) {
	w.Open()
	w.Text("id", f.ID)
	w.Text("label", f.Label)
	w.Text("value", f.Value)
	w.TextIf("note", f.Note)
	w.TextIf("working", f.Working)
	w.Close()
}

func appendSection(w *jsontext.Writer, s *Section) {
	w.Open()
	w.Text("id", s.ID)
	w.Text("title", s.Title)
	w.TextIf("help", s.Help)
	jsontext.ListIf(w, "fields", s.Fields, appendField)
	jsontext.ListIf(w, "sections", s.Sections, appendSection)
	jsontext.ListIf(w, "actions", s.Actions, appendAction)
	jsontext.ListIf(w, "notes", s.Notes, appendNote)
	w.TextIf("summary", s.Summary)
	w.TextIf("state", s.State)
	w.NumIf("problems", float64(s.Problems))
	w.Close()
}

func appendField(w *jsontext.Writer, f *Field) {
	w.Open()
	w.Text("path", f.Path)
	w.Text("label", f.Label)
	w.TextIf("unit", f.Unit)
	w.Text("kind", f.Kind)
	w.Text("text", f.Text)
	w.TextIf("default", f.Default)
	w.TextIf("founded", f.Founded)
	w.TextIf("help", f.Help)
	jsontext.ListIf(w, "options", f.Options, appendOption)
	jsontext.ListIf(w, "suggest", f.Suggest, appendOption)
	w.NumIf("options_of", float64(f.OptionsOf))
	w.NumIf("suggest_of", float64(f.SuggestOf))
	w.NumIf("help_of", float64(f.HelpOf))
	w.BoolIf("measure", f.Measure)
	w.TextIf("problem", f.Problem)
	w.Close()
}

func appendOption(w *jsontext.Writer, o *Option) {
	w.Open()
	w.Text("value", o.Value)
	w.Text("label", o.Label)
	w.Close()
}

func appendOptions(w *jsontext.Writer, list *[]Option) {
	w.OpenList()
	for i := range *list {
		appendOption(w, &(*list)[i])
	}
	w.CloseList()
}

func appendAction(w *jsontext.Writer, a *Action) {
	w.Open()
	w.Text("do", a.Do)
	w.Text("path", a.Path)
	w.Text("label", a.Label)
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

func appendNote(w *jsontext.Writer, n *Note) {
	w.Open()
	w.TextIf("code", n.Code)
	w.TextIf("path", n.Path)
	w.Text("message", n.Message)
	w.TextIf("short", n.Short)
	w.TextIf("state", n.State)
	w.TextIf("source", n.Source)
	w.Close()
}

func appendAssumedLine(w *jsontext.Writer, a *AssumedLine) {
	w.Open()
	w.Text("path", a.Path)
	w.Text("label", a.Label)
	w.Text("value", a.Value)
	w.Text("why", a.Why)
	w.TextIf("source", a.Source)
	w.TextIf("working", a.Working)
	w.Close()
}

func appendStep(w *jsontext.Writer, s *Step) {
	w.Open()
	w.Text("path", s.Path)
	w.Text("name", s.Name)
	w.Text("formula", s.Formula)
	w.Texts("values", s.Values)
	w.TextsIf("from", s.From)
	w.Text("result", s.Result)
	w.Text("source", s.Source)
	w.Close()
}

func appendPart(w *jsontext.Writer, part *any) { w.Any(*part) }

func (c *Changes) AppendJSON(w *jsontext.Writer) {
	w.Open()
	jsontext.List(w, "changes", c.Changes, appendChange)
	w.TextIf("focus", c.Focus)
	w.TextIf("message", c.Message)
	w.Close()
}

func appendChange(w *jsontext.Writer, c *Change) {
	w.Open()
	w.Text("op", c.Op)
	jsontext.List(w, "at", c.At, appendPart)
	if c.Value != nil {
		w.Value("value", c.Value)
	}
	w.Close()
}
