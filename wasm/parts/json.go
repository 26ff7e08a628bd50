package parts

import "pullline/rigging/jsontext"

// AppendFact writes one fact.
func AppendFact(w *jsontext.Writer, f *Fact) {
	w.Open()
	w.Text("id", f.ID)
	w.Text("label", f.Label)
	w.Text("value", f.Value)
	w.TextIf("note", f.Note)
	w.TextIf("working", f.Working)
	w.Close()
}

// AppendSection writes a section with all below it.
func AppendSection(w *jsontext.Writer, s *Section) {
	w.Open()
	w.Text("id", s.ID)
	w.Text("title", s.Title)
	w.TextIf("help", s.Help)
	jsontext.ListIf(w, "fields", s.Fields, AppendField)
	jsontext.ListIf(w, "sections", s.Sections, AppendSection)
	jsontext.ListIf(w, "actions", s.Actions, AppendAction)
	jsontext.ListIf(w, "notes", s.Notes, AppendNote)
	w.TextIf("summary", s.Summary)
	w.TextIf("state", s.State)
	w.NumIf("problems", float64(s.Problems))
	w.Close()
}

// AppendField writes one field.
func AppendField(w *jsontext.Writer, f *Field) {
	w.Open()
	w.Text("path", f.Path)
	w.Text("label", f.Label)
	w.TextIf("unit", f.Unit)
	w.Text("kind", f.Kind)
	w.Text("text", f.Text)
	w.TextIf("default", f.Default)
	w.TextIf("founded", f.Founded)
	w.TextIf("help", f.Help)
	jsontext.ListIf(w, "options", f.Options, AppendOption)
	jsontext.ListIf(w, "suggest", f.Suggest, AppendOption)
	w.NumIf("options_of", float64(f.OptionsOf))
	w.NumIf("suggest_of", float64(f.SuggestOf))
	w.NumIf("help_of", float64(f.HelpOf))
	w.BoolIf("measure", f.Measure)
	w.TextIf("problem", f.Problem)
	w.Close()
}

// AppendOption writes one option.
func AppendOption(w *jsontext.Writer, o *Option) {
	w.Open()
	w.Text("value", o.Value)
	w.Text("label", o.Label)
	w.Close()
}

// AppendOptions writes a list of options.
func AppendOptions(w *jsontext.Writer, list *[]Option) {
	w.OpenList()
	for i := range *list {
		AppendOption(w, &(*list)[i])
	}
	w.CloseList()
}

// AppendAction writes one action.
func AppendAction(w *jsontext.Writer, a *Action) {
	w.Open()
	w.Text("do", a.Do)
	w.Text("path", a.Path)
	w.Text("label", a.Label)
	w.Close()
}

// AppendNote writes one note.
func AppendNote(w *jsontext.Writer, n *Note) {
	w.Open()
	w.TextIf("code", n.Code)
	w.TextIf("path", n.Path)
	w.Text("message", n.Message)
	w.TextIf("state", n.State)
	w.TextIf("source", n.Source)
	w.Close()
}

// AppendStep writes one step of a working.
func AppendStep(w *jsontext.Writer, s *Step) {
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

// AppendAssumed writes one default taken.
func AppendAssumed(w *jsontext.Writer, a *Assumed) {
	w.Open()
	w.Text("path", a.Path)
	w.Text("label", a.Label)
	w.Text("value", a.Value)
	w.Text("why", a.Why)
	w.TextIf("source", a.Source)
	w.TextIf("working", a.Working)
	w.Close()
}

func appendPart(w *jsontext.Writer, part *any) { w.Any(*part) }

// AppendJSON writes the changes.
func (c *Changes) AppendJSON(w *jsontext.Writer) {
	w.Open()
	jsontext.List(w, "changes", c.Changes, AppendChange)
	w.TextIf("focus", c.Focus)
	w.TextIf("message", c.Message)
	w.Close()
}

// AppendChange writes one change.
func AppendChange(w *jsontext.Writer, c *Change) {
	w.Open()
	w.Text("op", c.Op)
	jsontext.List(w, "at", c.At, appendPart)
	if c.Value != nil {
		w.Value("value", c.Value)
	}
	w.Close()
}
