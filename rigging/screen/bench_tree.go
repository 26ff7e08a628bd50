package screen

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/units"
)

// Sources of what the benches with a tree say.
const (
	benchMemory  = "common practice, from memory"
	benchStatics = "statics: moment is force times lever"
)

// sideBox lays the part of a side view into a canvas: so many metres to the
// left and the right of the tree's foot, and up, with room below the ground.
func sideBox(c *canvas, left, right, up, below float64) layout {
	f := c.font
	return fit(Box{W: c.w, H: c.h}, extent{left: left, right: right, up: up}, f*0.6, f*0.6, f*1.3, f*below, true)
}

// benchTree draws a tree on its foot at the origin of a side view, as high
// (m) and as thick at the butt (m) as given, leaning toward the lay (rad),
// its crown moved by shift (m) along the lay, and gives the place of a height
// along the stem. A stem too thin to be seen is drawn a little wider.
func benchTree(c *canvas, l layout, height, butt, lean, shift float64) func(h float64) pt {
	sin, cos := math.Sincos(lean)
	at := func(h float64) pt { return l.toPx(h*sin, h*cos) }
	foot, tip := at(0), at(height)
	up := tip.minus(foot).unit()
	// Crown: as the plan's drawings take it, 0.7 of the height deep and a
	// quarter of it wide.
	c.crown(at(rigging.CrownMiddle*height).plus(pt{shift * l.scale, 0}), up, 0.35*height*l.scale, 0.125*height*l.scale)
	across := up.left().times(max(butt/2*l.scale, c.grow(2.5)))
	c.polygon("stem", "", foot.minus(across), foot.plus(across), tip)
	c.avoid(foot, tip)
	return at
}

// measure draws a dimension line off a stretch from a to b, by off, and
// writes beside it, first where a share of it along from a.
func (c *canvas) measure(text string, a, b, off pt, share float64) {
	a, b = a.plus(off), b.plus(off)
	c.dimension(a, b, b.minus(off), off.unit())
	c.label(caption{text: text, class: "label", at: a, along: b, slide: true, toward: off, gap: c.grow(3), prio: prioMust,
		spots: []spot{{a.toward(b, share), off}}})
}

// given writes a value as it was typed, or to three digits where it was
// typed in another unit.
func (b *benchWork) given(key string) string {
	for i := range b.spec.inputs {
		in := &b.spec.inputs[i]
		if in.key != key {
			continue
		}
		if text := b.u.Field(b.in[key], in.dim, units.Nearest); len(text) <= 5 {
			return units.Grouped(text) + b.u.Suffix(in.dim)
		}
		return b.u.Quantity(b.in[key], in.dim, units.Nearest)
	}
	return units.None
}

// percentLeft writes a share that is relied on as whole percent, rounded
// down.
func percentLeft(share float64) string {
	return units.Decimal(units.Round(share*100, 1, units.Down), 0) + "\u00a0%"
}

// straightPull is a line from a height (m) up a plumb stem to a place on the
// ground, bearing off the lay (rad) and distance (m).
func straightPull(height, bearing, distance float64) rigging.Line {
	return rigging.Line{Share: 1, Path: []rigging.Station{
		{OnStem: true, At: rigging.Vec{Z: height}, Efficiency: 1}, {At: rigging.AtBearing(bearing, distance, 0), Efficiency: 1}}}
}
