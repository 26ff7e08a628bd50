package fall

import (
	"math"

	"pullline/rigging/jsontext"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/scene"
)

// A asked is what the page sends to have the fall of a plan shown at one
// turn: one of Turn, Time and a place of the handle in the picture.
type asked struct {
	Plan      any // as package jsontext reads it; not to be changed
	size      int // bytes of the plan's text
	Settings  request.Settings
	Box       draw.Box // of the picture
	CurveBox  draw.Box // of the pull over the turn
	CourseBox draw.Box // of the turn over time
	Turn      float64
	Time      float64 // s, NaN where not asked for
	X, Y      float64 // NaN where not asked for
	Step      int     // presses of an arrow key on from Turn, with Shift Fine ones
	Fine      bool
	Speed     string // at which the line comes in, as typed; "" for the usual
	// Light asks for pictures and numbers of this turn only.
	Light bool
}

// parse reads a request. What is of a wrong type counts as left out.
func parse(raw []byte) (*asked, error) {
	nan := math.NaN()
	req := asked{Time: nan, X: nan, Y: nan}
	err := request.Members(raw, &req.Plan, &req.size, &req.Settings, func(key string, v any) {
		number := func(to *float64) {
			if f, ok := draft.Number(v); ok {
				*to = f
			}
		}
		switch key {
		case "box":
			req.Box = request.Box(v)
		case "curve_box":
			req.CurveBox = request.Box(v)
		case "course_box":
			req.CourseBox = request.Box(v)
		case "turn_deg":
			number(&req.Turn)
		case "time_s":
			number(&req.Time)
		case "x":
			number(&req.X)
		case "y":
			number(&req.Y)
		case "step":
			req.Step = request.Steps(v)
		case "fine":
			req.Fine = v == true
		case "speed":
			req.Speed = request.Text(v)
		case "light":
			req.Light = v == true
		}
	})
	return &req, err
}

// AppendJSON writes the fall.
func (f *View) AppendJSON(w *jsontext.Writer) {
	w.Open()
	f.Picture.AppendJSON(w, "picture")
	f.Curve.AppendJSON(w, "curve")
	f.Course.AppendJSON(w, "course")
	jsontext.List(w, "facts", f.Facts, parts.AppendFact)
	jsontext.List(w, "whole", f.Whole, parts.AppendFact)
	jsontext.List(w, "events", f.Events, func(w *jsontext.Writer, e *scene.Event) {
		w.Open()
		w.Text("id", e.ID)
		w.Text("label", e.Label)
		w.Text("text", e.Text)
		w.Num("deg", e.Deg)
		w.Num("time_s", e.TimeS)
		w.Close()
	})
	jsontext.ListIf(w, "fields", f.Fields, parts.AppendField)
	jsontext.List(w, "working", f.Working, parts.AppendStep)
	jsontext.List(w, "problems", f.Problems, parts.AppendNote)
	jsontext.List(w, "notes", f.Notes, parts.AppendNote)
	w.Num("duration_s", f.DurationS)
	w.Num("end_deg", f.EndDeg)
	w.Num("turn_deg", f.TurnDeg)
	w.Num("time_s", f.TimeS)
	w.Text("now", f.Now)
	w.Bool("fresh", f.Fresh)
	w.TextIf("message", f.Message)
	w.Close()
}
