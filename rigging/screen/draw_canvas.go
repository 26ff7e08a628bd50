package screen

import (
	"math"
	"strconv"
)

// pt is a place in a drawing, CSS pixels, y down.
type pt struct{ x, y float64 }

func (p pt) plus(q pt) pt              { return pt{p.x + q.x, p.y + q.y} }
func (p pt) minus(q pt) pt             { return pt{p.x - q.x, p.y - q.y} }
func (p pt) times(k float64) pt        { return pt{p.x * k, p.y * k} }
func (p pt) length() float64           { return math.Hypot(p.x, p.y) }
func (p pt) finite() bool              { return finite(p.x) && finite(p.y) }
func (p pt) toward(q pt, k float64) pt { return p.plus(q.minus(p).times(k)) }

// unit is the direction of p, or right where p is shorter than can be seen.
func (p pt) unit() pt {
	if l := p.length(); l > 1e-9 {
		return p.times(1 / l)
	}
	return pt{1, 0}
}

// left turns a direction a quarter turn counter-clockwise as seen on screen.
func (p pt) left() pt { return pt{p.y, -p.x} }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// farPixel bounds every coordinate written: what lies farther out cannot be
// seen and would only lose precision in the page's renderer.
const farPixel = 20000

// A canvas collects the marks of one drawing in paint order, with the labels
// kept back until all marks stand and there is room to judge.
type canvas struct {
	w, h float64
	font float64 // px
	// Path data under way, and whether a coordinate in it was not finite.
	buf []byte
	bad bool

	shapes  []Shape
	handles []Handle
	spots   []Spot
	labels  []caption
	solid   []rect   // what no label may cover
	strokes []stroke // what a label had better not cover
}

// Font sizes: readable at arm's length on a phone, and from the last row.
const (
	fontPx          = 13
	fontProjectorPx = 18
	projectorFromPx = 900 // box width from which the projector's size is taken
)

func newCanvas(b Box) *canvas {
	c := &canvas{w: b.W, h: b.H, font: fontFor(b),
		buf:    make([]byte, 0, 512),
		shapes: make([]Shape, 0, 64), labels: make([]caption, 0, 32),
		handles: make([]Handle, 0, 8), solid: make([]rect, 0, 48), strokes: make([]stroke, 0, 64)}
	return c
}

// grow scales a size in pixels that belongs to marks, not to the tree, with
// the font.
func (c *canvas) grow(px float64) float64 { return px * c.font / fontPx }

func (c *canvas) number(v float64) {
	if !finite(v) {
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
	case v > farPixel:
		v = farPixel
	case v < -farPixel:
		v = -farPixel
	}
	v = math.Round(v*10) / 10
	return v + 0 // no negative zero
}

func (c *canvas) command(letter byte, p pt) {
	c.buf = append(c.buf, letter)
	c.number(p.x)
	c.buf = append(c.buf, ' ')
	c.number(p.y)
}

func (c *canvas) move(p pt) { c.command('M', p) }
func (c *canvas) line(p pt) { c.command('L', p) }
func (c *canvas) close()    { c.buf = append(c.buf, 'Z') }

// arc goes from the current place to p on an ellipse of radii rx, ry whose
// first axis is turned by deg clockwise as seen; sweep true is clockwise.
func (c *canvas) arc(rx, ry, deg float64, large, sweep bool, p pt) {
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
	c.number(p.x)
	c.buf = append(c.buf, ' ')
	c.number(p.y)
}

// path ends the path under way. One that holds a number nobody can draw is
// kept as an empty shape, so that the count of shapes stays.
func (c *canvas) path(class, state string) {
	s := Shape{Kind: "path", Class: class, State: state}
	if !c.bad {
		s.D = string(c.buf)
	}
	c.buf, c.bad = c.buf[:0], false
	c.shapes = append(c.shapes, s)
}

// segment draws a straight stroke and keeps labels off it.
func (c *canvas) segment(class, state string, a, b pt) {
	c.move(a)
	c.line(b)
	c.path(class, state)
	c.avoid(a, b)
}

func (c *canvas) avoid(a, b pt) {
	if a.finite() && b.finite() {
		c.strokes = append(c.strokes, stroke{a: a, b: b})
	}
}

func (c *canvas) polygon(class, state string, ps ...pt) {
	for i, p := range ps {
		if i == 0 {
			c.move(p)
		} else {
			c.line(p)
		}
	}
	if len(ps) > 0 {
		c.close()
	}
	c.path(class, state)
}

func (c *canvas) circle(class, state string, p pt, r float64) {
	s := Shape{Kind: "circle", Class: class, State: state}
	if p.finite() && finite(r) && r > 0 {
		s.X, s.Y, s.R = tenth(p.x), tenth(p.y), max(tenth(r), 0.1)
	}
	c.shapes = append(c.shapes, s)
}

// arrow draws a shaft with an open head at b. A shaft too short for its head
// is drawn with a smaller one.
func (c *canvas) arrow(class, state string, a, b pt) {
	d := b.minus(a)
	head := min(c.grow(9), d.length()*0.6)
	u := d.unit()
	back := b.minus(u.times(head))
	side := u.left().times(head * 0.5)
	c.move(a)
	c.line(b)
	c.move(back.plus(side))
	c.line(b)
	c.line(back.minus(side))
	c.path(class, state)
	c.avoid(a, b)
}

// angle draws the arc of radius r between two directions from p, the short
// way round, and returns the direction half way between them.
func (c *canvas) angle(class string, p pt, u, v pt, r float64) pt {
	u, v = u.unit(), v.unit()
	c.move(p.plus(u.times(r)))
	c.arc(r, r, 0, false, u.x*v.y-u.y*v.x > 0, p.plus(v.times(r)))
	c.path(class, "")
	mid := u.plus(v)
	if mid.length() < 1e-6 {
		mid = u.left()
	}
	return mid.unit()
}

// hatch fills a triangle with slanting strokes, in one path of that class.
func (c *canvas) hatch(class string, t [3]pt, gap float64) {
	// Strokes run along x+y = k; each crosses two sides of the triangle.
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range t {
		if !p.finite() {
			return
		}
		lo, hi = min(lo, p.x+p.y), max(hi, p.x+p.y)
	}
	// Outside the box nothing is seen.
	lo, hi = max(lo, -gap), min(hi, c.w+c.h+gap)
	for k := math.Ceil(lo/gap) * gap; k <= hi; k += gap {
		var cut [3]pt
		n := 0
		for i := range t {
			a, b := t[i], t[(i+1)%3]
			ka, kb := a.x+a.y-k, b.x+b.y-k
			if (ka < 0) != (kb < 0) && n < 2 {
				cut[n] = a.toward(b, ka/(ka-kb))
				n++
			}
		}
		if n == 2 {
			c.move(cut[0])
			c.line(cut[1])
		}
	}
}

// finish places the labels and gives the drawing.
func (c *canvas) finish(title, desc string) *Drawing {
	c.place()
	return &Drawing{W: c.w, H: c.h, Title: title, Desc: desc, Shapes: c.shapes, Handles: c.handles, Spots: c.spots, Font: c.font}
}
