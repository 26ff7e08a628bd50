package bench

import (
	"maps"
	"slices"

	"pullline/rigging/jsontext"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/request"
)

// A asked is what the page sends to have a bench shown.
type asked struct {
	Bench    string            // its id; "" for the first
	Settings request.Settings  //
	Values   map[string]string // as the answer before gave them, changed where an address says so
	Box      draw.Box          // of the picture
	CurveBox draw.Box
	Set      string // the key of a value, and what was typed for it
	Text     string
	Do       string // an action
	request.Pointing
	// Guess holds the numbers back until there is an Answer, or until Shown
	// asks for them without one.
	Guess  bool
	Answer string
	Shown  bool
}

// parse reads a request. What is of a wrong type counts as left out.
func parse(raw []byte) (*asked, error) {
	req := asked{Values: map[string]string{}}
	err := request.Members(raw, new(any), new(int), &req.Settings, func(key string, v any) {
		switch key {
		case "bench":
			req.Bench = request.Text(v)
		case "values":
			if values := request.Texts(v); values != nil {
				req.Values = values
			}
		case "box":
			req.Box = request.Box(v)
		case "curve_box":
			req.CurveBox = request.Box(v)
		case "set":
			req.Set = request.Text(v)
		case "text":
			req.Text = request.Text(v)
		case "do":
			req.Do = request.Text(v)
		case "guess":
			req.Guess = v == true
		case "answer":
			req.Answer = request.Text(v)
		case "shown":
			req.Shown = v == true
		default:
			req.Take(key, v)
		}
	})
	return &req, err
}

// AppendJSON writes the bench.
func (b *View) AppendJSON(w *jsontext.Writer) {
	w.Open()
	w.Text("id", b.ID)
	w.Text("title", b.Title)
	w.Text("idea", b.Idea)
	jsontext.List(w, "benches", b.Benches, parts.AppendOption)
	jsontext.List(w, "themes", b.Themes, parts.AppendOption)
	appendTexts(w, "values", b.Values)
	appendTexts(w, "changed", b.Changed)
	jsontext.List(w, "fields", b.Fields, parts.AppendField)
	jsontext.ListIf(w, "actions", b.Actions, parts.AppendAction)
	b.Picture.AppendJSON(w, "picture")
	b.Curve.AppendJSON(w, "curve")
	jsontext.List(w, "facts", b.Facts, parts.AppendFact)
	jsontext.ListIf(w, "parts", b.Parts, parts.AppendFact)
	w.NumIf("height", b.Height)
	jsontext.List(w, "working", b.Working, parts.AppendStep)
	if g := b.Guess; g != nil {
		w.Key("guess")
		w.Open()
		w.Text("question", g.Question)
		w.TextIf("unit", g.Unit)
		w.Text("text", g.Text)
		w.Text("state", g.State)
		w.Text("message", g.Message)
		w.Close()
	}
	jsontext.List(w, "notes", b.Notes, parts.AppendNote)
	jsontext.List(w, "units", b.Units, parts.AppendOption)
	w.Text("units_now", b.UnitsNow)
	jsontext.List(w, "words", b.Words, parts.AppendOption)
	w.Text("words_now", b.WordsNow)
	w.Bool("hidden", b.Hidden)
	w.Bool("fresh", b.Fresh)
	w.TextIf("lacks", b.Lacks)
	w.TextIf("message", b.Message)
	w.Close()
}

func appendTexts(w *jsontext.Writer, name string, texts map[string]string) {
	w.Key(name)
	w.Open()
	for _, key := range slices.Sorted(maps.Keys(texts)) {
		w.Text(key, texts[key])
	}
	w.Close()
}
