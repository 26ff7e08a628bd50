package draw

// Kept is the extent of the drawing a drag began in.
func (b Box) Kept() (Extent, bool) {
	if len(b.Frame) != 4 {
		return Extent{}, false
	}
	for _, v := range b.Frame {
		if !(v >= 0 && v <= bounds[len(bounds)-1]) {
			return Extent{}, false
		}
	}
	e := Extent{b.Frame[0], b.Frame[1], b.Frame[2], b.Frame[3]}
	return e, e.Left+e.Right >= 1 && e.Down+e.Up >= 1
}

// Drawable says whether a box is big enough to draw in and not absurd.
func (b Box) Drawable() bool {
	return b.W >= 80 && b.H >= 60 && b.W <= 10000 && b.H <= 10000
}

// Box is a width and a height in CSS pixels. While a handle is dragged the
// page sends with it the Frame its drawing had at the press, in every call:
// then the scale stands still until the handle is let go.
//
//codec:type { w: number, h: number, frame?: number[] }
type Box struct {
	W, H  float64
	Frame []float64
}
