package bench

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Sources of what the benches with a tree say.
const (
	statics      words.Text = "statics"
	memory       words.Text = "common practice, from memory"
	leverStatics words.Text = "statics: moment is force times lever"
)

// sideBox lays the part of a side view into a canvas: so many metres to the
// left and the right of the tree's foot, and up, with room below the ground.
func sideBox(c *draw.Canvas, left, right, up, below float64) draw.Layout {
	f := c.Font
	return draw.Fit(draw.Box{W: c.W, H: c.H}, draw.Extent{Left: left, Right: right, Up: up}, f*0.6, f*0.6, f*1.3, f*below, true)
}

// drawTree draws a tree on its foot at the origin of a side view, as high
// (m) and as thick at the butt (m) as given, leaning toward the lay (rad),
// its crown moved by shift (m) along the lay, and gives the place of a height
// along the stem. A stem too thin to be seen is drawn a little wider.
func drawTree(c *draw.Canvas, l draw.Layout, height, butt, lean, shift float64) func(h float64) draw.Pt {
	sin, cos := math.Sincos(lean)
	at := func(h float64) draw.Pt { return l.ToPx(h*sin, h*cos) }
	foot, tip := at(0), at(height)
	up := tip.Minus(foot).Unit()
	// Crown: as the plan's drawings take it, 0.7 of the height deep and a
	// quarter of it wide.
	c.Crown(at(rigging.CrownMiddle*height).Plus(draw.Pt{X: shift * l.Scale, Y: 0}), up, 0.35*height*l.Scale, 0.125*height*l.Scale)
	across := up.Left().Times(max(butt/2*l.Scale, c.Grow(2.5)))
	c.Polygon("stem", "", foot.Minus(across), foot.Plus(across), tip)
	c.Avoid(foot, tip)
	return at
}

// given writes a value as it was typed, or to three digits where it was
// typed in another unit.
func (b *work) given(key string) string {
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
