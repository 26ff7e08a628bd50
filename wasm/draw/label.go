package draw

import (
	"math"
	"unicode/utf8"

	"pullline/wasm/words"
)

// Rect is a box on the drawing, pixels.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// Meets says whether two boxes share any room.
func (r Rect) Meets(q Rect) bool {
	return r.X0 < q.X1 && q.X0 < r.X1 && r.Y0 < q.Y1 && q.Y0 < r.Y1
}

// Around is the box that reaches r (px) to each side of p.
func Around(p Pt, r float64) Rect { return Rect{p.X - r, p.Y - r, p.X + r, p.Y + r} }

// stroke is a straight mark labels had better not cover.
type stroke struct {
	a, b  Pt
	light bool // may lie between a text and what it belongs to
}

// crosses says whether any of the stroke lies inside the rectangle, by
// cutting it to the rectangle one side after another.
func (s stroke) crosses(r Rect) bool {
	// Most lie wholly on one side of it.
	if s.a.X < r.X0 && s.b.X < r.X0 || s.a.X > r.X1 && s.b.X > r.X1 ||
		s.a.Y < r.Y0 && s.b.Y < r.Y0 || s.a.Y > r.Y1 && s.b.Y > r.Y1 {
		return false
	}
	t0, t1 := 0.0, 1.0
	d := s.b.Minus(s.a)
	for _, e := range [...][2]float64{
		{-d.X, s.a.X - r.X0}, {d.X, r.X1 - s.a.X},
		{-d.Y, s.a.Y - r.Y0}, {d.Y, r.Y1 - s.a.Y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return false
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = min(t1, e[1]/e[0])
		}
	}
	return t0 < t1
}

// parts says whether the stroke lies between a place, which it does not
// touch, and the rectangle.
func (s stroke) parts(p Pt, r Rect) bool {
	m := Pt{(r.X0 + r.X1) / 2, (r.Y0 + r.Y1) / 2}
	d, e, f := m.Minus(p), s.b.Minus(s.a), s.a.Minus(p)
	n := d.X*e.Y - d.Y*e.X
	if math.Abs(n) < 1e-9 {
		return false
	}
	t, u := (f.X*e.Y-f.Y*e.X)/n, (f.X*d.Y-f.Y*d.X)/n
	return t*d.Length() > 3 && t < 1 && u > 0 && u < 1
}

// Label priorities: where there is no room the lowest are left out.
const (
	PrioMust   = 9 // ids of points, planned tension
	PrioForce  = 7
	PrioAngle  = 6
	PrioLength = 5
	PrioNote   = 3
	PrioExtra  = 1
)

// A Label is text that wants to stand near a place, on the side it prefers.
type Label struct {
	Text   string
	Class  string
	State  string
	At     Pt
	Toward Pt // preferred direction from at; none: above
	Gap    float64
	Prio   int
	// Along, if set, is the end of a stroke from at along which the label
	// may slide.
	Along  Pt
	Slide  bool
	Early  bool // near at rather than half way
	Beside bool // nothing may lie between the text and its stroke
	// Stands are tried before all else, and if only is set nothing else is.
	Stands []Stand
	Only   bool
	Near   bool // farther off it would seem to belong to something else
	// Working is the path of the step that gives the number, where the
	// report has one.
	Working string
}

// A Stand is a place and the side of it on which text stands; no direction
// stands for right on it.
type Stand struct{ At, Toward Pt }

// longestLabel is of a name no plan may have.
const longestLabel = 200

// Label has a text find its place once all marks stand.
func (c *Canvas) Label(l Label) {
	l.Text = words.Shortened(l.Text, longestLabel)
	if l.Gap == 0 {
		l.Gap = c.Grow(5)
	}
	c.labels = append(c.labels, l)
}

// Widths of the page's sans serif faces run near 0.56 em a character for
// words and numbers mixed; a line takes 1.2 em.
const (
	emPerRune = 0.56
	EmPerLine = 1.2
)

// TextWidth is the room (px) that a text takes in the drawing's font.
func (c *Canvas) TextWidth(s string) float64 {
	return float64(utf8.RuneCountInString(s)) * emPerRune * c.Font
}

// place finds room for the labels, the most wanted first, and draws those
// that found it. The rest stay as empty shapes: the drawing's count of shapes
// depends only on what it shows, never on how crowded it is.
func (c *Canvas) place() {
	first := len(c.Shapes)
	for _, l := range c.labels {
		c.Shapes = append(c.Shapes, Shape{Kind: "text", Class: l.Class, State: l.State})
	}
	for prio := PrioMust; prio > 0; prio-- {
		for i, l := range c.labels {
			if l.Prio == prio && l.Text != "" {
				c.placeOne(&c.Shapes[first+i], l)
			}
		}
	}
}

// turns are the directions tried, in eighths of a turn from the wanted one.
var turns = [...]float64{0, 1, -1, 2, -2, 3, -3, 4}

// reaches are the distances tried, in gaps.
var reaches = [...]float64{1, 2.2, 4}

// slides are the places along a stroke tried, as shares of its length.
var (
	slides      = [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}
	slidesEarly = [...]float64{0.08, 0.14, 0.2, 0.3, 0.4, 0.5, 0.65}
)

func (c *Canvas) placeOne(s *Shape, l Label) {
	best, bestHits, bestAt := Rect{}, math.MaxInt, Pt{}
	try := func(at, dir Pt, gap float64) bool {
		r := c.textBox(l.Text, at, dir, gap)
		edge := c.Font * 0.3 // bold letters run wider than reckoned
		if !(r.X0 >= edge && r.Y0 >= 1 && r.X1 <= c.W-edge && r.Y1 <= c.H-1) {
			return false
		}
		for _, q := range c.solid {
			if r.Meets(q) {
				return false
			}
		}
		hits := 0
		for _, q := range c.strokes {
			if q.crosses(r) {
				if hits++; hits >= bestHits {
					return false // no better than what there is
				}
			}
			if l.Beside && !q.light && q.parts(at, r) {
				return false
			}
		}
		if hits < bestHits {
			best, bestHits, bestAt = r, hits, at
		}
		return hits == 0
	}
	c.candidates(l, try)
	// Text over one stroke can be read with the page's halo; over more it
	// cannot be told what it belongs to.
	most := 1
	switch {
	case l.Prio == PrioMust:
		most = math.MaxInt - 1
	case l.Prio <= PrioNote:
		most = 0
	}
	if bestHits > most {
		return
	}
	c.Keep(best)
	// The text starts at its place, however wide the page's face runs.
	s.Working = l.Working
	s.Text, s.Anchor, s.X = l.Text, "middle", tenth((best.X0+best.X1)/2)
	switch {
	case best.X0 >= bestAt.X:
		s.Anchor, s.X = "start", tenth(best.X0)
	case best.X1 <= bestAt.X:
		s.Anchor, s.X = "end", tenth(best.X1)
	}
	s.Y = tenth((best.Y0+best.Y1)/2 + c.Font*0.35) // baseline under the middle of the figures
}

func (c *Canvas) candidates(l Label, try func(at, dir Pt, gap float64) bool) {
	for _, p := range l.Stands {
		if try(p.At, p.Toward, l.Gap) {
			return
		}
	}
	if l.Only {
		return
	}
	if l.Slide {
		n := l.Along.Minus(l.At).Unit().Left()
		if n.Y > 0 { // above the stroke first
			n = n.Times(-1)
		}
		if l.Toward != (Pt{}) {
			n = l.Toward.Unit()
		}
		ks := slides
		if l.Early {
			ks = slidesEarly
		}
		for _, reach := range reaches[:2] {
			for _, k := range ks {
				at := l.At.Toward(l.Along, k)
				if try(at, n, l.Gap*reach) || try(at, n.Times(-1), l.Gap*reach) {
					return
				}
			}
		}
		return
	}
	dir := l.Toward
	if dir == (Pt{}) {
		dir = Pt{0, -1}
	}
	base := math.Atan2(dir.Y, dir.X)
	far := len(reaches)
	if l.Near {
		far = 2
	}
	for _, reach := range reaches[:far] {
		for _, t := range turns {
			sin, cos := math.Sincos(base + t*math.Pi/4)
			if try(l.At, Pt{cos, sin}, l.Gap*reach) {
				return
			}
		}
	}
}

// textBox is the room the text takes when its nearest edge lies gap away
// from a place in a direction.
func (c *Canvas) textBox(text string, at, dir Pt, gap float64) Rect {
	w, h := c.TextWidth(text)/2, c.Font*EmPerLine/2
	if dir == (Pt{}) {
		return Rect{at.X - w, at.Y - h, at.X + w, at.Y + h}
	}
	// The middle lies out along dir by the gap and the part of the box that
	// reaches back toward the place.
	u := dir.Unit()
	m := at.Plus(u.Times(gap)).Plus(Pt{u.X * w, u.Y * h})
	if math.Abs(u.X) > 0.35 && math.Abs(u.Y) < 0.94 {
		// On a slant the corner, not the middle of a side, is nearest.
		m = at.Plus(u.Times(gap)).Plus(Pt{math.Copysign(w, u.X), u.Y * h})
	}
	return Rect{m.X - w, m.Y - h, m.X + w, m.Y + h}
}
