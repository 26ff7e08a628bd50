package draw

import (
	"math"
	"strconv"
)

// FarPixel bounds every coordinate written: what lies farther out cannot be
// seen and would only lose precision in the page's renderer.
const FarPixel = 20000

// A Canvas collects the marks of one drawing in paint order, with the labels
// kept back until all marks stand and there is room to judge.
type Canvas struct {
	W, H float64
	Font float64 // px
	// Path data under way, and whether a coordinate in it was not finite.
	buf []byte
	bad bool

	Shapes  []Shape
	handles []Handle
	spots   []Spot
	labels  []Label
	solid   []Rect   // what no label may cover
	strokes []stroke // what a label had better not cover
}

// Font sizes: readable at arm's length on a phone, and from the last row.
const (
	Font            = 13
	fontProjectorPx = 18
	projectorFromPx = 900 // box width from which the projector's size is taken
)

// New is an empty canvas of the size of a box.
func New(b Box) *Canvas {
	c := &Canvas{W: b.W, H: b.H, Font: FontFor(b),
		buf:    make([]byte, 0, 512),
		Shapes: make([]Shape, 0, 64), labels: make([]Label, 0, 32),
		handles: make([]Handle, 0, 8), solid: make([]Rect, 0, 48), strokes: make([]stroke, 0, 64)}
	return c
}

// Grow scales a size in pixels that belongs to marks, not to the tree, with
// the font.
func (c *Canvas) Grow(px float64) float64 { return px * c.Font / Font }

func (c *Canvas) number(v float64) {
	if !Finite(v) {
		c.bad = true
		v = 0
	}
	// In whole tenths, which is quicker to write than a float.
	tenths := int64(math.Round(tenth(v) * 10))
	if tenths < 0 {
		c.buf = append(c.buf, '-')
		tenths = -tenths
	}
	c.buf = strconv.AppendInt(c.buf, tenths/10, 10)
	if digit := tenths % 10; digit != 0 {
		c.buf = append(c.buf, '.', '0'+byte(digit))
	}
}

// tenth rounds a coordinate to what is written, within what can be seen.
func tenth(v float64) float64 {
	switch {
	case v > FarPixel:
		v = FarPixel
	case v < -FarPixel:
		v = -FarPixel
	}
	v = math.Round(v*10) / 10
	return v + 0 // no negative zero
}

func (c *Canvas) command(letter byte, p Pt) {
	c.buf = append(c.buf, letter)
	c.number(p.X)
	c.buf = append(c.buf, ' ')
	c.number(p.Y)
}

// Move begins a stroke of the path under way at p.
func (c *Canvas) Move(p Pt) { c.command('M', p) }

// Line goes on to p in a straight stroke.
func (c *Canvas) Line(p Pt) { c.command('L', p) }

// Close goes back to where the stroke began.
func (c *Canvas) Close() { c.buf = append(c.buf, 'Z') }

// Arc goes from the current place to p on an ellipse of radii rx, ry whose
// first axis is turned by deg clockwise as seen; sweep true is clockwise.
func (c *Canvas) Arc(rx, ry, deg float64, large, sweep bool, p Pt) {
	c.buf = append(c.buf, 'A')
	for _, v := range [...]float64{rx, ry, deg} {
		c.number(v)
		c.buf = append(c.buf, ' ')
	}
	for _, f := range [...]bool{large, sweep} {
		if f {
			c.buf = append(c.buf, '1', ' ')
		} else {
			c.buf = append(c.buf, '0', ' ')
		}
	}
	c.number(p.X)
	c.buf = append(c.buf, ' ')
	c.number(p.Y)
}

// Path ends the path under way. One that holds a number nobody can draw is
// kept as an empty shape, so that the count of shapes stays.
func (c *Canvas) Path(class, state string) {
	s := Shape{Kind: "path", Class: class, State: state}
	if !c.bad {
		s.D = string(c.buf)
	}
	c.buf, c.bad = c.buf[:0], false
	c.Shapes = append(c.Shapes, s)
}

// Drop gives up the path under way.
func (c *Canvas) Drop() { c.buf = c.buf[:0] }

// Segment draws a straight stroke and keeps labels off it.
func (c *Canvas) Segment(class, state string, a, b Pt) {
	c.Move(a)
	c.Line(b)
	c.Path(class, state)
	c.Avoid(a, b)
}

// Avoid keeps labels off a straight stroke where there is room.
func (c *Canvas) Avoid(a, b Pt) {
	if a.finite() && b.finite() {
		c.strokes = append(c.strokes, stroke{a: a, b: b})
	}
}

// Polygon draws a closed outline.
func (c *Canvas) Polygon(class, state string, ps ...Pt) {
	for i, p := range ps {
		if i == 0 {
			c.Move(p)
		} else {
			c.Line(p)
		}
	}
	if len(ps) > 0 {
		c.Close()
	}
	c.Path(class, state)
}

// Circle draws one of radius r (px) about p.
func (c *Canvas) Circle(class, state string, p Pt, r float64) {
	s := Shape{Kind: "circle", Class: class, State: state}
	if p.finite() && Finite(r) && r > 0 {
		s.X, s.Y, s.R = tenth(p.X), tenth(p.Y), max(tenth(r), 0.1)
	}
	c.Shapes = append(c.Shapes, s)
}

// Arrow draws a shaft with an open head at b. A shaft too short for its head
// is drawn with a smaller one.
func (c *Canvas) Arrow(class, state string, a, b Pt) {
	d := b.Minus(a)
	head := min(c.Grow(9), d.Length()*0.6)
	u := d.Unit()
	back := b.Minus(u.Times(head))
	side := u.Left().Times(head * 0.5)
	c.Move(a)
	c.Line(b)
	c.Move(back.Plus(side))
	c.Line(b)
	c.Line(back.Minus(side))
	c.Path(class, state)
	c.Avoid(a, b)
}

// Angle draws the arc of radius r between two directions from p, the short
// way round, and returns the direction half way between them.
func (c *Canvas) Angle(class string, p Pt, u, v Pt, r float64) Pt {
	u, v = u.Unit(), v.Unit()
	c.Move(p.Plus(u.Times(r)))
	c.Arc(r, r, 0, false, u.X*v.Y-u.Y*v.X > 0, p.Plus(v.Times(r)))
	c.Path(class, "")
	mid := u.Plus(v)
	if mid.Length() < 1e-6 {
		mid = u.Left()
	}
	return mid.Unit()
}

// Hatch fills a triangle with slanting strokes, in one path of that class.
func (c *Canvas) Hatch(class string, t [3]Pt, gap float64) {
	// Strokes run along x+y = k; each crosses two sides of the triangle.
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range t {
		if !p.finite() {
			return
		}
		lo, hi = min(lo, p.X+p.Y), max(hi, p.X+p.Y)
	}
	// Outside the box nothing is seen.
	lo, hi = max(lo, -gap), min(hi, c.W+c.H+gap)
	for k := math.Ceil(lo/gap) * gap; k <= hi; k += gap {
		var cut [3]Pt
		n := 0
		for i := range t {
			a, b := t[i], t[(i+1)%3]
			ka, kb := a.X+a.Y-k, b.X+b.Y-k
			if (ka < 0) != (kb < 0) && n < 2 {
				cut[n] = a.Toward(b, ka/(ka-kb))
				n++
			}
		}
		if n == 2 {
			c.Move(cut[0])
			c.Line(cut[1])
		}
	}
}

// Finish places the labels and gives the drawing.
func (c *Canvas) Finish(title, desc string) *Drawing {
	c.place()
	return &Drawing{W: c.W, H: c.H, Title: title, Desc: desc, Shapes: c.Shapes, Handles: c.handles, Spots: c.spots, Font: c.Font}
}
