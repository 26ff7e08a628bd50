package draw

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
