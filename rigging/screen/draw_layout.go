package screen

import (
	"math"

	"pullline/rigging"
)

// A layout carries metres to pixels and back, to one scale. The drawing and
// the dragging use the same one, so a handle is where it is grabbed.
type layout struct {
	extent
	scale float64 // px per metre
	ox    float64 // px of the stem's centre
	oy    float64 // px of the ground, or of the stem's centre seen from above
}

// toPx places a point: right is along the lay; up is z in the side view and
// left of the lay in the plan view.
func (l layout) toPx(right, up float64) pt { return pt{l.ox + right*l.scale, l.oy - up*l.scale} }

func (l layout) fromPx(p pt) (right, up float64) {
	return (p.x - l.ox) / l.scale, (l.oy - p.y) / l.scale
}

func (l layout) side(p rigging.Vec) pt { return l.toPx(p.X, p.Z) }
func (l layout) plan(p rigging.Vec) pt { return l.toPx(p.X, p.Y) }

// extent is the part of the ground, or of the vertical plane, in metres.
type extent struct{ left, right, down, up float64 }

// bounds are the steps an extent is taken in, metres: while a point is
// dragged about between two of them the scale stands still.
var bounds = [...]float64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100, 120, 150, 200, 250, 300, 400, 500, 600, 800, 1000, 1200, 1500, 2000, 2500}

func bound(v float64) float64 {
	for _, b := range bounds {
		if v <= b {
			return b
		}
	}
	return bounds[len(bounds)-1]
}

// beyond is the room left outside the outermost place, so that it can be
// dragged outward without reaching the edge at once.
const beyond = 1.05

// extentOf takes every place in, and at least what the tree's height asks
// for, whatever the plan holds.
func (s *scene) extentOf(b Box, least extent, up func(rigging.Vec) float64, tip bool) extent {
	if kept, ok := b.kept(); ok {
		return kept
	}
	e := extent{}
	take := func(p rigging.Vec) {
		e.right, e.left = max(e.right, p.X), max(e.left, -p.X)
		e.up, e.down = max(e.up, up(p)), max(e.down, -up(p))
	}
	for i := range s.points {
		if s.points[i].known {
			take(s.points[i].at)
		}
	}
	if s.tree {
		t := s.onStem(s.h)
		if !tip { // the height stays the same however the stem leans
			t.Z = 0
		}
		take(t)
	}
	return extent{
		left:  max(boundOr0(least.left), boundOr0(e.left*beyond)),
		right: max(boundOr0(least.right), boundOr0(e.right*beyond)),
		down:  max(boundOr0(least.down), boundOr0(e.down*beyond)),
		up:    max(boundOr0(least.up), boundOr0(e.up*beyond)),
	}
}

// kept is the extent of the drawing a drag began in.
func (b Box) kept() (extent, bool) {
	if len(b.Frame) != 4 {
		return extent{}, false
	}
	for _, v := range b.Frame {
		if !(v >= 0 && v <= bounds[len(bounds)-1]) {
			return extent{}, false
		}
	}
	e := extent{b.Frame[0], b.Frame[1], b.Frame[2], b.Frame[3]}
	return e, e.left+e.right >= 1 && e.down+e.up >= 1
}

func (e extent) frame() []float64 { return []float64{e.left, e.right, e.down, e.up} }

func boundOr0(v float64) float64 {
	if v <= 0 {
		return 0
	}
	return bound(v)
}

// fit lays an extent into a box less its margins; room left over goes half
// to each side, but all of it above where the ground is at the bottom.
func fit(b Box, e extent, left, right, top, bottom float64, ground bool) layout {
	w, h := max(b.W-left-right, 20), max(b.H-top-bottom, 20)
	l := layout{extent: e, scale: min(w/(e.left+e.right), h/(e.down+e.up))}
	l.ox = left + e.left*l.scale + (w-(e.left+e.right)*l.scale)/2
	spare := h - (e.down+e.up)*l.scale
	l.oy = top + e.up*l.scale + spare/2
	if ground {
		l.oy += spare / 2
	}
	return l
}

func (s *scene) size() float64 {
	if s.tree {
		return s.h
	}
	return 20 // metres; nothing of the tree is drawn then
}

func (s *scene) sideLayout(b Box) layout {
	h := s.size()
	e := s.extentOf(b, extent{left: 0.35 * h, right: 1.1 * h, up: h}, func(p rigging.Vec) float64 { return p.Z }, false)
	f := fontFor(b)
	return fit(b, e, f*2.2, f*0.8, f*1.5, f*2.9, true)
}

func (s *scene) planLayout(b Box) layout {
	h := s.size()
	e := s.extentOf(b, extent{left: 0.3 * h, right: 1.1 * h, up: 0.6 * h, down: 0.6 * h}, func(p rigging.Vec) float64 { return p.Y }, true)
	f := fontFor(b)
	return fit(b, e, f, f, f*1.2, f*1.6, false)
}

func fontFor(b Box) float64 {
	if b.W > projectorFromPx {
		return fontProjectorPx
	}
	return fontPx
}

// drawable says whether a box is big enough to draw in and not absurd.
func (b Box) drawable() bool {
	return b.W >= 80 && b.H >= 60 && b.W <= 10000 && b.H <= 10000
}

// niceForce rounds a force up to a step, so that arrows keep their scale
// while loads move a little.
func niceForce(kN float64) float64 {
	if !(kN > 0) || math.IsInf(kN, 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(kN)))
	for _, k := range [...]float64{1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10} {
		if kN <= k*p {
			return k * p
		}
	}
	return 10 * p
}
