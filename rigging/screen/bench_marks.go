package screen

import (
	"math"

	"pullline/wasm/words"
)

// Marks that the pictures of the benches share.

// anchorMark is something made fast: a square.
func (c *canvas) anchorMark(p pt) {
	r := c.grow(6)
	c.boxMark("anchor", p, r, r)
}

// blockMark is a block on a rope: a circle.
func (c *canvas) blockMark(p pt) {
	c.circle("block", "", p, c.grow(9))
	c.solid = append(c.solid, around(p, c.grow(9)))
}

// boxMark is a level box of half width w and half height h.
func (c *canvas) boxMark(class string, p pt, w, h float64) {
	r := rect{p.x - w, p.y - h, p.x + w, p.y + h}
	c.polygon(class, "", pt{r.x0, r.y0}, pt{r.x1, r.y0}, pt{r.x1, r.y1}, pt{r.x0, r.y1})
	c.solid = append(c.solid, r)
}

// aside labels a stroke, anywhere along it, on the side wanted.
func (c *canvas) aside(class, text string, a, b, toward pt, prio int) {
	c.label(caption{text: text, class: class, at: a, along: b, slide: true, toward: toward, prio: prio})
}

// angleMark draws the arc between two directions from p and its text: inside
// a wide angle, beside the second direction of a narrow one.
func (c *canvas) angleMark(p, u, v pt, r float64, text string) {
	mid := c.angle("angle", p, u, v, r)
	u, v = u.unit(), v.unit()
	at, toward := p.plus(mid.times(r)), mid
	if u.x*v.x+u.y*v.y > -0.2 {
		at = p.plus(v.times(r))
		if toward = v.left(); u.x*v.y-u.y*v.x > 0 {
			toward = toward.times(-1)
		}
	}
	c.label(caption{text: text, class: "label", at: at, toward: toward, prio: prioAngle})
}

// slack draws a leg of a full length that hangs loose between two places,
// down to the ground at most.
func (c *canvas) slack(class string, a, b pt, full, ground float64) {
	d := b.minus(a).length()
	sag := math.Sqrt(max(0, 0.375*d*(full-d))) // of a shallow parabola
	const parts = 12
	for i := range parts + 1 {
		k := float64(i) / parts
		p := a.toward(b, k)
		p.y = max(p.y, min(ground, p.y+4*sag*k*(1-k)))
		if i == 0 {
			c.move(p)
		} else {
			c.line(p)
		}
	}
	c.path(class, "")
}

// sheaveFriction is where the loss at a sheave comes from.
const sheaveFriction = "statics: friction of the pin in proportion to the load on it"

// anchorNote says what every number about an anchor is.
func (b *benchWork) anchorNote() {
	b.note("anchor_estimate", "What an anchor holds is an estimate until a competent person has judged it in place.", words.CommonPractice)
}

// leftOut says what the bench does not count.
func (b *benchWork) leftOut(message string) {
	b.note("left_out", message, "what this bench covers")
}
