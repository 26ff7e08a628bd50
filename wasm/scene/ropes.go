package scene

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
)

// The drawings are made of shapes in paint order. Their classes, for the
// style sheet (what tells lines apart is dash and weight, colour comes last):
//
//	ground     the ground line of the side view (stroke)
//	drop       plumb line from a raised or sunk point to the ground (thin stroke)
//	far        circle of two tree lengths (thin dashed stroke)
//	lay        where the tree shall fall, seen from above (stroke, arrow)
//	bend       where the pull bends the stem the hardest (a thick tick across it)
//	lands, recoil, escape, person  where the tree lands and ropes fly, the ways out, who is about
//	bight      area inside the angle of a redirect (faint fill)
//	hatch      its hatching (thin stroke)
//	crown      outline of the crown (faint fill, stroke)
//	stem       stem, to scale (fill, stroke); stump the same below the hinge
//	bark       outline of a stem that is cut across (stroke)
//	hinge      the hinge and the face cut (stroke)
//	plumb      plumb line over the hinge (thin dashed stroke)
//	lean       which way the stem leans, seen from above (stroke, arrow)
//	dim        dimension line (thin stroke)
//	rope       pull line (heavy stroke); rope-hold (medium, long dashes);
//	haul       the tackle's hauling part (medium, short dashes)
//	slack      pull line that has gone slack (medium stroke)
//	bridle     leg of a shared anchor (medium stroke)
//	tackle     strands of the tackle (thin strokes side by side)
//	block      block on a rope (circle); sheave the same, small, of a tackle
//	anchor     made fast to the ground (square); puller (box); point (unused, circle);
//	attach     where a line meets the stem (circle)
//	centre     mass centre (circle); centre-mark its quarters (fill)
//	weight     weight at the mass centre (stroke, arrow)
//	force      what a line does to the stem (heavy stroke, arrow)
//	load       how an anchor is pulled (heavy stroke, arrow)
//	bar        bar of a bench's picture (fill, stroke)
//	angle      arc of an angle (thin stroke)
//	scale      scale bar (stroke)
//	axis, grid, tick, curve, curve-hold, planned, commit, face, peak   of the curve
//	path       the way of the top through the fall (thin dashed stroke); mark
//	           a place on it (circle); before the stem as it stood (thin dashed
//	           stroke); land where the top comes down (heavy stroke)
//	now        where it stands on a curve (stroke)
//	label      text; label-id ids; label-force forces; label-note what matters least
//
// A shape that has no room or no number keeps its place with nothing in it.

// Drawings makes those drawings whose boxes are big enough.
func Drawings(b Boxes, doc *draft.Plan, rep *plan.Report, u *units.System) (side, above, curve *draw.Drawing) {
	s := New(doc, rep, u)
	s.letters = b.Letters
	return s.DrawSide(b.Side), s.DrawPlan(b.Plan), s.DrawCurve(b.Curve)
}

// ropeClass tells a leg's line by class.
func ropeClass(l *sceneLine, leg *sceneLeg) string {
	switch {
	case leg.Hauling:
		return "haul"
	case l.Hold:
		return "rope-hold"
	}
	return "rope"
}

// drawLegs draws all ropes and tackles as seen by the projection.
func (s *Scene) drawLegs(c *draw.Canvas, see func(rigging.Vec) draw.Pt) {
	for i := range s.Points {
		for n, k := range s.Points[i].legs {
			if s.Points[i].Known && s.Points[k].Known {
				a, b := see(s.Points[i].At), see(s.Points[k].At)
				c.Segment("bridle", "", a, b)
				if s.letters {
					c.Label(draw.Label{Text: plan.BridleSymbol(n), Class: "label", At: a, Along: b, Slide: true, Prio: draw.PrioAngle, Working: s.pointOpens(&s.Points[i], "."+plan.BridleSymbol(n))})
				}
			}
		}
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		for k := range l.Legs {
			leg := &l.Legs[k]
			if !leg.known() {
				continue
			}
			a, b := see(leg.From.At), see(leg.To.At)
			if leg.more > 0 {
				long := leg.To.At.Sub(leg.From.At).Norm()
				c.Slack("slack", a, b, b.Minus(a).Length()*(1+leg.more/long), max(a.Y, b.Y))
				continue
			}
			if !leg.tackle {
				c.Segment(ropeClass(l, leg), "", a, b)
				continue
			}
			c.Segment(ropeClass(l, leg), "", a, b.Toward(a, tackleEnd))
			s.drawTackle(c, l, a, b)
		}
	}
}

// A tackle is marked on the last third of its leg; how long it really is the
// plan does not say.
const tackleEnd = 0.34

func (s *Scene) drawTackle(c *draw.Canvas, l *sceneLine, a, b draw.Pt) {
	p, q := b.Toward(a, tackleEnd), b.Toward(a, 0.04)
	side := q.Minus(p).Unit().Left()
	gap := c.Grow(3.2)
	for n := range l.parts {
		off := side.Times((float64(n) - float64(l.parts-1)/2) * gap)
		c.Move(p.Plus(off))
		c.Line(q.Plus(off))
	}
	c.Path("tackle", "")
	c.Avoid(p, q)
	r := c.Grow(2.6) + gap*float64(l.parts-1)/2*0.7
	c.Circle("sheave", "", p, r)
	c.Circle("sheave", "", q, r)
	c.Keep(draw.Around(p, r), draw.Around(q, r))
}

// tackleText is the ideal advantage, or nothing where it is not known.
func (l *sceneLine) tackleText() string {
	if l.Rep != nil && l.Rep.IdealAdvantage.Known() {
		return units.Decimal(math.Round(float64(l.Rep.IdealAdvantage)*100)/100, -1) + ":1"
	}
	return ""
}

// drawPoints marks every known point and keeps room around it.
func (s *Scene) drawPoints(c *draw.Canvas, see func(rigging.Vec) draw.Pt) {
	for i := range s.Points {
		p := &s.Points[i]
		if !p.Known {
			continue
		}
		at, state, r := see(p.At), s.state(p), c.Grow(5)
		switch p.role {
		case blockPoint:
			c.Circle("block", state, at, r)
		case pullerPoint:
			r = c.Grow(7)
			h := r * 0.65
			c.Polygon("puller", state, draw.Pt{X: at.X - r, Y: at.Y - h}, draw.Pt{X: at.X + r, Y: at.Y - h}, draw.Pt{X: at.X + r, Y: at.Y + h}, draw.Pt{X: at.X - r, Y: at.Y + h})
		case anchorPoint:
			c.Polygon("anchor", state, draw.Pt{X: at.X - r, Y: at.Y - r}, draw.Pt{X: at.X + r, Y: at.Y - r}, draw.Pt{X: at.X + r, Y: at.Y + r}, draw.Pt{X: at.X - r, Y: at.Y + r})
		default:
			c.Circle("point", state, at, r*0.8)
		}
		c.Keep(draw.Around(at, r+1))
	}
}

// scaleBar draws a round length in the lower left corner.
func (s *Scene) scaleBar(c *draw.Canvas, l draw.Layout) {
	unit := s.u.Units[units.Metres].Size
	want := min(c.W*0.25, c.Grow(110)) / l.Scale / unit
	n := 0.0
	p := math.Pow(10, math.Floor(math.Log10(want)))
	for _, k := range [...]float64{1, 2, 5} {
		if k*p <= want {
			n = k * p
		}
	}
	x0, y := c.Grow(8), c.H-c.Grow(6)
	x1 := x0 + n*unit*l.Scale
	t := c.Grow(4)
	c.Move(draw.Pt{X: x0, Y: y - t})
	c.Line(draw.Pt{X: x0, Y: y})
	c.Line(draw.Pt{X: x1, Y: y})
	c.Line(draw.Pt{X: x1, Y: y - t})
	c.Path("scale", "")
	c.Keep(draw.Rect{X0: x0, Y0: y - t, X1: x1, Y1: y})
	c.Label(draw.Label{Text: units.Decimal(n, -1) + s.u.Suffix(units.Metres), Class: "label-note", At: draw.Pt{X: x1, Y: y - t/2}, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioMust})
}

// mid is where a leg is labelled: between the stem and the tackle.
func (l *sceneLeg) ends(see func(rigging.Vec) draw.Pt) (draw.Pt, draw.Pt) {
	a, b := see(l.From.At), see(l.To.At)
	if l.tackle {
		b = b.Toward(a, tackleEnd)
	}
	return a, b
}

// legLetter is the letter of the tension of a line's leg.
func (l *sceneLine) legLetter(k int) string {
	if ropes := len(l.Stations) - 1; k < ropes {
		return plan.LegSymbol(l.Hold, false, k, ropes)
	}
	return plan.LegSymbol(l.Hold, true, k+1-len(l.Stations), len(l.haul))
}

// labelLegs writes tensions along the legs that are seen to be longer than
// least pixels, and the advantage at the tackles. Seen from above a line of a
// single leg bears its tension as the load at its end.
func (s *Scene) labelLegs(c *draw.Canvas, see func(rigging.Vec) draw.Pt, prio int, least float64, above bool) {
	if s.letters { // the formulas need every leg's
		prio, least = draw.PrioForce, min(least, c.Grow(30))
	}
	for i := range s.Lines {
		l := &s.Lines[i]
		for k := range l.Legs {
			leg := &l.Legs[k]
			if !leg.known() {
				continue
			}
			a, b := leg.ends(see)
			text, p := "", prio
			if !above && !leg.From.Stem && !leg.To.Stem {
				p = draw.PrioExtra // seen from the side ropes over the ground lie over each other
			}
			if draw.Finite(leg.Tension) && b.Minus(a).Length() > least && !(above && len(l.Legs) == 1) {
				text = s.letter(l.legLetter(k), s.u.Load(leg.Tension))
				if s.letters && above && c.H < c.Grow(340) {
					text = l.legLetter(k) // there is no room for more
				}
			}
			c.Label(draw.Label{Text: text, Class: "label-force", At: a, Along: b, Slide: true, Beside: !above, Prio: p, Working: s.legOpens(l, k)})
			if leg.tackle {
				q := see(leg.To.At)
				c.Label(draw.Label{Text: l.tackleText(), Class: "label", At: b, Along: q, Slide: true, Gap: c.Grow(10), Prio: draw.PrioAngle})
			}
		}
	}
}
