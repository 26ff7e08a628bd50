package draw

import "pullline/rigging/jsontext"

// A Drawing is laid out in CSS pixels of its box, y down, to one scale.
type Drawing struct {
	W       float64   `json:"w"`
	H       float64   `json:"h"`
	Title   string    `json:"title"` // for those who cannot see it
	Desc    string    `json:"desc"`  // what is here, in numbers
	Shapes  []Shape   `json:"shapes"`
	Handles []Handle  `json:"handles"`
	Spots   []Spot    `json:"spots,omitempty"`
	Font    float64   `json:"font"`            // px, the size the labels were given room for
	Frame   []float64 `json:"frame,omitempty"` // what is in view, to be sent back as Box.Frame during a drag
	// Legend tells what the kinds of line mean that the drawing has.
	Legend []LegendItem `json:"legend,omitempty"`
}

// A LegendItem is one kind of line: its mark, in a box of its own, and what
// it stands for.
type LegendItem struct {
	Label  string  `json:"label"`
	W      float64 `json:"w"`
	H      float64 `json:"h"`
	Shapes []Shape `json:"shapes"`
}

// A Shape is one mark. D is SVG path data for kind path; circle uses X, Y,
// R; text uses X, Y, Text, Anchor.
type Shape struct {
	Kind   string  `json:"kind"`  // path, circle, text
	Class  string  `json:"class"` // ground, stem, crown, hinge, rope, rope-hold, tackle, haul, block, anchor, force, angle, centre, label, dim, axis, curve, planned, grid …
	D      string  `json:"d,omitempty"`
	X      float64 `json:"x,omitempty"`
	Y      float64 `json:"y,omitempty"`
	R      float64 `json:"r,omitempty"`
	Text   string  `json:"text,omitempty"`
	Anchor string  `json:"anchor,omitempty"` // start, middle, end
	State  string  `json:"state,omitempty"`  // verdict key, for colour and pattern
	// Working is the path of the step of the working that gives the number
	// the text says.
	Working string `json:"working,omitempty"`
}

// A Handle can be dragged; from the keyboard an arrow key is one step.
type Handle struct {
	ID    string   `json:"id"`
	Label string   `json:"label"` // what it is and its state in numbers
	X     float64  `json:"x"`
	Y     float64  `json:"y"`
	Axes  string   `json:"axes"`  // x, y or xy: what it can change
	Paths []string `json:"paths"` // the typed fields it stands for
}

// A Spot is a place in a picture that does an action when it is pressed: X and
// Y are its mark's middle. The area that takes the press is W wide, with the
// mark in its middle, and as high as the picture.
type Spot struct {
	Do    string  `json:"do"`
	Mark  string  `json:"mark"` // the letter in its mark
	Label string  `json:"label"`
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	W     float64 `json:"w"`
}

// AppendJSON writes a drawing, and nothing where there is none.
func (d *Drawing) AppendJSON(w *jsontext.Writer, key string) {
	if d == nil {
		return
	}
	w.Key(key)
	w.Open()
	w.Num("w", d.W)
	w.Num("h", d.H)
	w.Text("title", d.Title)
	w.Text("desc", d.Desc)
	jsontext.List(w, "shapes", d.Shapes, appendShape)
	jsontext.List(w, "handles", d.Handles, appendHandle)
	jsontext.ListIf(w, "spots", d.Spots, appendSpot)
	w.Num("font", d.Font)
	w.NumsIf("frame", d.Frame)
	jsontext.ListIf(w, "legend", d.Legend, appendLegendItem)
	w.Close()
}

func appendLegendItem(w *jsontext.Writer, l *LegendItem) {
	w.Open()
	w.Text("label", l.Label)
	w.Num("w", l.W)
	w.Num("h", l.H)
	jsontext.List(w, "shapes", l.Shapes, appendShape)
	w.Close()
}

func appendShape(w *jsontext.Writer, s *Shape) {
	w.Open()
	w.Text("kind", s.Kind)
	w.Text("class", s.Class)
	w.TextIf("d", s.D)
	w.NumIf("x", s.X)
	w.NumIf("y", s.Y)
	w.NumIf("r", s.R)
	w.TextIf("text", s.Text)
	w.TextIf("anchor", s.Anchor)
	w.TextIf("state", s.State)
	w.TextIf("working", s.Working)
	w.Close()
}

func appendHandle(w *jsontext.Writer, h *Handle) {
	w.Open()
	w.Text("id", h.ID)
	w.Text("label", h.Label)
	w.Num("x", h.X)
	w.Num("y", h.Y)
	w.Text("axes", h.Axes)
	w.Texts("paths", h.Paths)
	w.Close()
}

func appendSpot(w *jsontext.Writer, s *Spot) {
	w.Open()
	w.Text("do", s.Do)
	w.Text("mark", s.Mark)
	w.Text("label", s.Label)
	w.Num("x", s.X)
	w.Num("y", s.Y)
	w.Num("w", s.W)
	w.Close()
}
