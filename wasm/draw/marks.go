package draw

import (
	"math"

	"pullline/rigging"
)

// AnchorMark is something made fast: a square.
func (c *Canvas) AnchorMark(p Pt) {
	r := c.Grow(6)
	c.BoxMark("anchor", p, r, r)
}

// BlockMark is a block on a rope: a circle.
func (c *Canvas) BlockMark(p Pt) {
	c.Circle("block", "", p, c.Grow(9))
	c.Keep(Around(p, c.Grow(9)))
}

// BoxMark is a level box of half width w and half height h.
func (c *Canvas) BoxMark(class string, p Pt, w, h float64) {
	r := Rect{p.X - w, p.Y - h, p.X + w, p.Y + h}
	c.Polygon(class, "", Pt{r.X0, r.Y0}, Pt{r.X1, r.Y0}, Pt{r.X1, r.Y1}, Pt{r.X0, r.Y1})
	c.Keep(r)
}

// Along labels a stroke from a to b, anywhere along it, on the side wanted.
func (c *Canvas) Along(class, text string, a, b, toward Pt, prio int) {
	c.Label(Label{Text: text, Class: class, At: a, Along: b, Slide: true, Toward: toward, Prio: prio})
}

// Beside labels a place, on the side wanted.
func (c *Canvas) Beside(class, text string, at, toward Pt, prio int) {
	c.Label(Label{Text: text, Class: class, At: at, Toward: toward, Prio: prio})
}

// Keep keeps labels off some boxes.
func (c *Canvas) Keep(boxes ...Rect) { c.solid = append(c.solid, boxes...) }

// AngleMark draws the arc between two directions from p and its text: inside
// a wide angle, beside the second direction of a narrow one.
func (c *Canvas) AngleMark(p, u, v Pt, r float64, text string) {
	mid := c.Angle("angle", p, u, v, r)
	u, v = u.Unit(), v.Unit()
	at, toward := p.Plus(mid.Times(r)), mid
	if u.X*v.X+u.Y*v.Y > -0.2 {
		at = p.Plus(v.Times(r))
		if toward = v.Left(); u.X*v.Y-u.Y*v.X > 0 {
			toward = toward.Times(-1)
		}
	}
	c.Label(Label{Text: text, Class: "label", At: at, Toward: toward, Prio: PrioAngle})
}

// Spot adds a place to press.
func (c *Canvas) Spot(s Spot) {
	s.X, s.Y, s.W = tenth(s.X), tenth(s.Y), tenth(s.W)
	c.spots = append(c.spots, s)
}

// Slack draws a leg of a full length that hangs loose between two places,
// down to the ground at most.
func (c *Canvas) Slack(class string, a, b Pt, full, ground float64) {
	d := b.Minus(a).Length()
	sag := math.Sqrt(max(0, 0.375*d*(full-d))) // of a shallow parabola
	const parts = 12
	for i := range parts + 1 {
		k := float64(i) / parts
		p := a.Toward(b, k)
		p.Y = max(p.Y, min(ground, p.Y+4*sag*k*(1-k)))
		if i == 0 {
			c.Move(p)
		} else {
			c.Line(p)
		}
	}
	c.Path(class, "")
}

// Measure draws a dimension line off a stretch from a to b, by off, and
// writes beside it, first where a share of it along from a.
func (c *Canvas) Measure(text string, a, b, off Pt, share float64) {
	a, b = a.Plus(off), b.Plus(off)
	c.Dimension(a, b, b.Minus(off), off.Unit())
	c.Label(Label{Text: text, Class: "label", At: a, Along: b, Slide: true, Toward: off, Gap: c.Grow(3), Prio: PrioMust,
		Stands: []Stand{{a.Toward(b, share), off}}})
}

// Crown is an ellipse about its centre, its first half-axis along the
// direction given.
func (c *Canvas) Crown(at, dir Pt, half, wide float64) {
	half, wide = max(half, 0.5), max(wide, 0.5)
	deg := math.Atan2(dir.Y, dir.X) / rigging.Deg
	a, b := at.Plus(dir.Times(half)), at.Minus(dir.Times(half))
	c.Move(a)
	c.Arc(half, wide, deg, true, true, b)
	c.Arc(half, wide, deg, true, true, a)
	c.Close()
	c.Path("crown", "")
}

// Dimension draws a line from foot to end with ticks, tied to the place
// measured.
func (c *Canvas) Dimension(foot, end, place, out Pt) {
	t := out.Times(c.Grow(4))
	c.Move(foot.Minus(t))
	c.Line(foot.Plus(t))
	c.Move(foot)
	c.Line(end)
	c.Move(end.Plus(t))
	c.Line(place.Plus(out.Times(c.Grow(5))))
	c.Path("dim", "")
	c.Avoid(foot, end)
	if n := len(c.strokes); n > 0 {
		c.strokes[n-1].light = true
	}
}

// CentreMark is the quartered circle that stands for a centre of mass.
func (c *Canvas) CentreMark(at Pt) {
	r := c.Grow(6)
	c.Circle("centre", "", at, r)
	for _, k := range [...]float64{1, -1} {
		c.Move(at)
		c.Line(at.Plus(Pt{k * r, 0}))
		c.Arc(r, r, 0, false, true, at.Plus(Pt{0, k * r}))
		c.Close()
	}
	c.Path("centre-mark", "")
	c.Keep(Around(at, r))
}

// Handle adds a handle, unless its place is none.
func (c *Canvas) Handle(h Handle) {
	if !Finite(h.X) || !Finite(h.Y) {
		return
	}
	h.X, h.Y = tenth(h.X), tenth(h.Y)
	c.handles = append(c.handles, h)
}
