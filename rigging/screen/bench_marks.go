package screen

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
