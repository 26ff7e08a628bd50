package gear

import (
	"pullline/rigging/jsontext"
	"pullline/wasm/parts"
)

func (v *View) AppendJSON(w *jsontext.Writer) {
	w.Open()
	jsontext.List(w, "changes", v.Changes, parts.AppendChange)
	jsontext.ListIf(w, "plan", v.Plan, parts.AppendChange)
	w.TextIf("focus", v.Focus)
	w.TextIf("message", v.Message)
	if v.List != nil {
		w.Value("list", v.List)
	}
	w.TextIf("file", v.File)
	w.TextIf("rest", v.Rest)
	jsontext.ListIf(w, "notes", v.Notes, parts.AppendNote)
	w.Text("day", v.Day)
	jsontext.List(w, "rows", v.Rows, appendRow)
	jsontext.List(w, "places", v.Places, parts.AppendOption)
	jsontext.ListIf(w, "form", v.Form, parts.AppendSection)
	if v.Sheet != nil {
		w.Key("sheet")
		v.Sheet.AppendJSON(w)
	}
	jsontext.List(w, "problems", v.Problems, parts.AppendNote)
	w.Close()
}

func appendRow(w *jsontext.Writer, r *Row) {
	w.Open()
	w.Text("path", r.Path)
	w.Text("title", r.Title)
	w.Text("kind", r.Kind)
	w.Text("line", r.Line)
	w.Text("state", r.State)
	w.Text("word", r.Word)
	w.Text("sentence", r.Sentence)
	w.Text("find", r.Find)
	w.Int("problems", r.Problems)
	w.Close()
}

func (s *Worksheet) AppendJSON(w *jsontext.Writer) {
	w.Open()
	w.Text("path", s.Path)
	w.Text("title", s.Title)
	jsontext.List(w, "form", s.Form, parts.AppendSection)
	w.Text("outcome", s.Outcome)
	w.Text("word", s.Word)
	w.Text("text", s.Text)
	jsontext.List(w, "reasons", s.Reasons, parts.AppendNote)
	w.Bool("ready", s.Ready)
	w.Close()
}
