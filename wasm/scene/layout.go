package scene

import (
	"pullline/rigging"
	"pullline/wasm/draw"
)

// extentOf takes every place in, and at least what the tree's height asks
// for, whatever the plan holds.
func (s *Scene) extentOf(b draw.Box, least draw.Extent, up func(rigging.Vec) float64, tip bool) draw.Extent {
	if kept, ok := b.Kept(); ok {
		return kept
	}
	e := draw.Extent{}
	take := func(p rigging.Vec) {
		e.Right, e.Left = max(e.Right, p.X), max(e.Left, -p.X)
		e.Up, e.Down = max(e.Up, up(p)), max(e.Down, -up(p))
	}
	for i := range s.Points {
		if s.Points[i].Known {
			take(s.Points[i].At)
		}
	}
	for i := range s.People {
		// Only the view from above shows them.
		if p := &s.People[i]; tip && p.Known && p.At.Horizontal() <= peopleInView*s.size() {
			take(p.At)
		}
	}
	if s.Tree {
		t := s.OnStem(s.Height)
		if !tip { // the height stays the same however the stem leans
			t.Z = 0
		}
		take(t)
	}
	return draw.Extent{
		Left:  max(draw.BoundOr0(least.Left), draw.BoundOr0(e.Left*draw.Beyond)),
		Right: max(draw.BoundOr0(least.Right), draw.BoundOr0(e.Right*draw.Beyond)),
		Down:  max(draw.BoundOr0(least.Down), draw.BoundOr0(e.Down*draw.Beyond)),
		Up:    max(draw.BoundOr0(least.Up), draw.BoundOr0(e.Up*draw.Beyond)),
	}
}

func (s *Scene) size() float64 {
	if s.Tree {
		return s.Height
	}
	return 20 // metres; nothing of the tree is drawn then
}

// SideLayout is that of the side view in a box.
func (s *Scene) SideLayout(b draw.Box) draw.Layout {
	h := s.size()
	e := s.extentOf(b, draw.Extent{Left: 0.35 * h, Right: 1.1 * h, Up: h}, func(p rigging.Vec) float64 { return p.Z }, false)
	f := draw.FontFor(b)
	return draw.Fit(b, e, f*2.2, f*0.8, f*1.5, f*2.9, true)
}

// PlanLayout is that of the view from above in a box.
func (s *Scene) PlanLayout(b draw.Box) draw.Layout {
	h := s.size()
	e := s.extentOf(b, draw.Extent{Left: 0.3 * h, Right: 1.1 * h, Up: 0.6 * h, Down: 0.6 * h}, func(p rigging.Vec) float64 { return p.Y }, true)
	f := draw.FontFor(b)
	return draw.Fit(b, e, f, f, f*1.2, f*1.6, false)
}
