package draw

import "pullline/rigging"

// A Layout carries metres to pixels and back, to one scale. The drawing and
// the dragging use the same one, so a handle is where it is grabbed.
type Layout struct {
	Extent
	Scale float64 // px per metre
	OX    float64 // px of the stem's centre
	OY    float64 // px of the ground, or of the stem's centre seen from above
}

// ToPx places a point: right is along the lay; up is z in the side view and
// left of the lay in the plan view.
func (l Layout) ToPx(right, up float64) Pt { return Pt{l.OX + right*l.Scale, l.OY - up*l.Scale} }

// FromPx is ToPx turned round: metres of a place.
func (l Layout) FromPx(p Pt) (right, up float64) {
	return (p.X - l.OX) / l.Scale, (l.OY - p.Y) / l.Scale
}

// Side places a point seen from the right of the lay.
func (l Layout) Side(p rigging.Vec) Pt { return l.ToPx(p.X, p.Z) }

// Plan places a point seen from above.
func (l Layout) Plan(p rigging.Vec) Pt { return l.ToPx(p.X, p.Y) }

// Extent is the part of the ground, or of the vertical plane, in metres.
type Extent struct{ Left, Right, Down, Up float64 }

// bounds are the steps an extent is taken in, metres: while a point is
// dragged about between two of them the scale stands still.
var bounds = [...]float64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100, 120, 150, 200, 250, 300, 400, 500, 600, 800, 1000, 1200, 1500, 2000, 2500}

func roundExtent(v float64) float64 {
	for _, b := range bounds {
		if v <= b {
			return b
		}
	}
	return bounds[len(bounds)-1]
}

// Beyond is the room left outside the outermost place, so that it can be
// dragged outward without reaching the edge at once.
const Beyond = 1.05

// Frame is the extent as a drawing sends it, to come back in Box.Frame.
func (e Extent) Frame() []float64 { return []float64{e.Left, e.Right, e.Down, e.Up} }

// BoundOr0 is the next step up of an extent, 0 for none at all.
func BoundOr0(v float64) float64 {
	if v <= 0 {
		return 0
	}
	return roundExtent(v)
}

// Fit lays an extent into a box less its margins; room left over goes half
// to each side, but all of it above where the ground is at the bottom.
func Fit(b Box, e Extent, left, right, top, bottom float64, ground bool) Layout {
	w, h := max(b.W-left-right, 20), max(b.H-top-bottom, 20)
	l := Layout{Extent: e, Scale: min(w/(e.Left+e.Right), h/(e.Down+e.Up))}
	l.OX = left + e.Left*l.Scale + (w-(e.Left+e.Right)*l.Scale)/2
	spare := h - (e.Down+e.Up)*l.Scale
	l.OY = top + e.Up*l.Scale + spare/2
	if ground {
		l.OY += spare / 2
	}
	return l
}

// FontFor is the size (px) of the labels in a drawing of a box's size.
func FontFor(b Box) float64 {
	if b.W > projectorFromPx {
		return fontProjectorPx
	}
	return Font
}
