package screen

import (
	"math"
	"unicode/utf8"

	"pullline/wasm/words"
)

// rect is a box on the drawing, pixels.
type rect struct{ x0, y0, x1, y1 float64 }

func (r rect) meets(q rect) bool {
	return r.x0 < q.x1 && q.x0 < r.x1 && r.y0 < q.y1 && q.y0 < r.y1
}

func around(p pt, r float64) rect { return rect{p.x - r, p.y - r, p.x + r, p.y + r} }

// stroke is a straight mark labels had better not cover.
type stroke struct {
	a, b  pt
	light bool // may lie between a text and what it belongs to
}

// crosses says whether any of the stroke lies inside the rectangle, by
// cutting it to the rectangle one side after another.
func (s stroke) crosses(r rect) bool {
	// Most lie wholly on one side of it.
	if s.a.x < r.x0 && s.b.x < r.x0 || s.a.x > r.x1 && s.b.x > r.x1 ||
		s.a.y < r.y0 && s.b.y < r.y0 || s.a.y > r.y1 && s.b.y > r.y1 {
		return false
	}
	t0, t1 := 0.0, 1.0
	d := s.b.minus(s.a)
	for _, e := range [...][2]float64{
		{-d.x, s.a.x - r.x0}, {d.x, r.x1 - s.a.x},
		{-d.y, s.a.y - r.y0}, {d.y, r.y1 - s.a.y}} {
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
func (s stroke) parts(p pt, r rect) bool {
	m := pt{(r.x0 + r.x1) / 2, (r.y0 + r.y1) / 2}
	d, e, f := m.minus(p), s.b.minus(s.a), s.a.minus(p)
	n := d.x*e.y - d.y*e.x
	if math.Abs(n) < 1e-9 {
		return false
	}
	t, u := (f.x*e.y-f.y*e.x)/n, (f.x*d.y-f.y*d.x)/n
	return t*d.length() > 3 && t < 1 && u > 0 && u < 1
}

// Label priorities: where there is no room the lowest are left out.
const (
	prioMust   = 9 // ids of points, planned tension
	prioForce  = 7
	prioAngle  = 6
	prioLength = 5
	prioNote   = 3
	prioExtra  = 1
)

// A caption is text that wants to stand near a place, on the side it prefers.
type caption struct {
	text   string
	class  string
	state  string
	at     pt
	toward pt // preferred direction from at; none: above
	gap    float64
	prio   int
	// along, if set, is the end of a stroke from at along which the label
	// may slide.
	along  pt
	slide  bool
	early  bool // near at rather than half way
	beside bool // nothing may lie between the text and its stroke
	// spots are tried before all else, and if only is set nothing else is.
	spots []spot
	only  bool
	near  bool // farther off it would seem to belong to something else
	// working is the path of the step that gives the number, where the
	// report has one.
	working string
}

// A spot is a place and the side of it on which text stands; no direction
// stands for right on it.
type spot struct{ at, toward pt }

// longestLabel is of a name no plan may have.
const longestLabel = 200

func (c *canvas) label(l caption) {
	l.text = words.Shortened(l.text, longestLabel)
	if l.gap == 0 {
		l.gap = c.grow(5)
	}
	c.labels = append(c.labels, l)
}

// Widths of the page's sans serif faces run near 0.56 em a character for
// words and numbers mixed; a line takes 1.2 em.
const (
	emPerRune = 0.56
	emPerLine = 1.2
)

func (c *canvas) textWidth(s string) float64 {
	return float64(utf8.RuneCountInString(s)) * emPerRune * c.font
}

// place finds room for the labels, the most wanted first, and draws those
// that found it. The rest stay as empty shapes: the drawing's count of shapes
// depends only on what it shows, never on how crowded it is.
func (c *canvas) place() {
	first := len(c.shapes)
	for _, l := range c.labels {
		c.shapes = append(c.shapes, Shape{Kind: "text", Class: l.class, State: l.state})
	}
	for prio := prioMust; prio > 0; prio-- {
		for i, l := range c.labels {
			if l.prio == prio && l.text != "" {
				c.placeOne(&c.shapes[first+i], l)
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

func (c *canvas) placeOne(s *Shape, l caption) {
	best, bestHits, bestAt := rect{}, math.MaxInt, pt{}
	try := func(at, dir pt, gap float64) bool {
		r := c.textBox(l.text, at, dir, gap)
		edge := c.font * 0.3 // bold letters run wider than reckoned
		if !(r.x0 >= edge && r.y0 >= 1 && r.x1 <= c.w-edge && r.y1 <= c.h-1) {
			return false
		}
		for _, q := range c.solid {
			if r.meets(q) {
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
			if l.beside && !q.light && q.parts(at, r) {
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
	case l.prio == prioMust:
		most = math.MaxInt - 1
	case l.prio <= prioNote:
		most = 0
	}
	if bestHits > most {
		return
	}
	c.solid = append(c.solid, best)
	// The text starts at its place, however wide the page's face runs.
	s.Working = l.working
	s.Text, s.Anchor, s.X = l.text, "middle", tenth((best.x0+best.x1)/2)
	switch {
	case best.x0 >= bestAt.x:
		s.Anchor, s.X = "start", tenth(best.x0)
	case best.x1 <= bestAt.x:
		s.Anchor, s.X = "end", tenth(best.x1)
	}
	s.Y = tenth((best.y0+best.y1)/2 + c.font*0.35) // baseline under the middle of the figures
}

func (c *canvas) candidates(l caption, try func(at, dir pt, gap float64) bool) {
	for _, p := range l.spots {
		if try(p.at, p.toward, l.gap) {
			return
		}
	}
	if l.only {
		return
	}
	if l.slide {
		n := l.along.minus(l.at).unit().left()
		if n.y > 0 { // above the stroke first
			n = n.times(-1)
		}
		if l.toward != (pt{}) {
			n = l.toward.unit()
		}
		ks := slides
		if l.early {
			ks = slidesEarly
		}
		for _, reach := range reaches[:2] {
			for _, k := range ks {
				at := l.at.toward(l.along, k)
				if try(at, n, l.gap*reach) || try(at, n.times(-1), l.gap*reach) {
					return
				}
			}
		}
		return
	}
	dir := l.toward
	if dir == (pt{}) {
		dir = pt{0, -1}
	}
	base := math.Atan2(dir.y, dir.x)
	far := len(reaches)
	if l.near {
		far = 2
	}
	for _, reach := range reaches[:far] {
		for _, t := range turns {
			sin, cos := math.Sincos(base + t*math.Pi/4)
			if try(l.at, pt{cos, sin}, l.gap*reach) {
				return
			}
		}
	}
}

// textBox is the room the text takes when its nearest edge lies gap away
// from a place in a direction.
func (c *canvas) textBox(text string, at, dir pt, gap float64) rect {
	w, h := c.textWidth(text)/2, c.font*emPerLine/2
	if dir == (pt{}) {
		return rect{at.x - w, at.y - h, at.x + w, at.y + h}
	}
	// The middle lies out along dir by the gap and the part of the box that
	// reaches back toward the place.
	u := dir.unit()
	m := at.plus(u.times(gap)).plus(pt{u.x * w, u.y * h})
	if math.Abs(u.x) > 0.35 && math.Abs(u.y) < 0.94 {
		// On a slant the corner, not the middle of a side, is nearest.
		m = at.plus(u.times(gap)).plus(pt{math.Copysign(w, u.x), u.y * h})
	}
	return rect{m.x - w, m.y - h, m.x + w, m.y + h}
}
