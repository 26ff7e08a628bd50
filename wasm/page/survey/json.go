package survey

import (
	"pullline/rigging/jsontext"
	"pullline/wasm/parts"
)

func (m *View) AppendJSON(w *jsontext.Writer) {
	w.Open()
	w.Text("field", m.Field)
	w.Text("title", m.Title)
	jsontext.List(w, "methods", m.Methods, parts.AppendOption)
	w.Text("method", m.Method)
	w.TextIf("how_to", m.HowTo)
	w.TextIf("watch", m.Watch)
	w.TextIf("source", m.Source)
	m.Picture.Append(w, "picture")
	jsontext.List(w, "readings", m.Readings, appendReading)
	jsontext.List(w, "results", m.Results, appendResult)
	w.TextIf("message", m.Message)
	w.TextIf("formula", m.Formula)
	w.TextsIf("working", m.Working)
	w.TextIf("kept", m.Kept)
	w.TextIf("live", m.Live)
	if m.Photo != nil {
		w.Key("photo")
		w.Open()
		jsontext.List(w, "marks", m.Photo.Marks, appendMark)
		w.NumsIf("stored", m.Photo.Stored)
		w.Close()
	}
	jsontext.ListIf(w, "changes", m.Changes, parts.AppendChange)
	w.TextIf("focus", m.Focus)
	w.Close()
}

func appendReading(w *jsontext.Writer, r *Reading) {
	w.Open()
	w.Text("key", r.Key)
	w.Text("label", r.Label)
	w.Text("kind", r.Kind)
	w.TextIf("unit", r.Unit)
	w.Text("text", r.Text)
	w.TextIf("default", r.Default)
	w.TextIf("plus_minus", r.PlusMinus)
	w.TextIf("usual", r.Usual)
	jsontext.ListIf(w, "options", r.Options, parts.AppendOption)
	jsontext.ListIf(w, "phone", r.Phone, parts.AppendOption)
	w.TextIf("sighted", r.Sighted)
	if r.Signed {
		w.Bool("signed", true)
	}
	w.TextIf("problem", r.Problem)
	w.Close()
}

func appendResult(w *jsontext.Writer, r *Result) {
	w.Open()
	w.Text("label", r.Label)
	w.Text("text", r.Text)
	w.Text("plus_minus", r.PlusMinus)
	w.TextIf("use", r.Use)
	w.TextIf("use_label", r.UseLabel)
	w.TextIf("note", r.Note)
	w.Close()
}

func appendMark(w *jsontext.Writer, m *Mark) {
	w.Open()
	w.Text("key", m.Key)
	w.Text("label", m.Label)
	w.Num("x", m.X)
	w.Num("y", m.Y)
	w.Bool("placed", m.Placed)
	w.Bool("needed", m.Needed)
	w.Close()
}
