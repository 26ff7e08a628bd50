package screen

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/units"
)

// The drawings are made of shapes in paint order. Their classes, for the
// style sheet (what tells lines apart is dash and weight, colour comes last):
//
//	ground     the ground line of the side view (stroke)
//	drop       plumb line from a raised or sunk point to the ground (thin stroke)
//	far        circle of two tree lengths (thin dashed stroke)
//	lay        where the tree shall fall, seen from above (stroke, arrow)
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

// drawings makes those drawings whose boxes are big enough.
func drawings(b Boxes, doc *draft.Plan, rep *plan.Report, u *units.System) (side, above, curve *Drawing) {
	s := newScene(doc, rep, u)
	return s.drawSide(b.Side), s.drawPlan(b.Plan), s.drawCurve(b.Curve)
}

// ropeClass tells a leg's line by class.
func ropeClass(l *sceneLine, leg *sceneLeg) string {
	switch {
	case leg.hauling:
		return "haul"
	case l.hold:
		return "rope-hold"
	}
	return "rope"
}

// drawLegs draws all ropes and tackles as seen by the projection.
func (s *scene) drawLegs(c *canvas, see func(rigging.Vec) pt) {
	for i := range s.points {
		for n, k := range s.points[i].legs {
			if s.points[i].known && s.points[k].known {
				a, b := see(s.points[i].at), see(s.points[k].at)
				c.segment("bridle", "", a, b)
				if s.doc.Letters {
					c.label(caption{text: plan.BridleSymbol(n), class: "label", at: a, along: b, slide: true, prio: prioAngle, working: s.pointOpens(&s.points[i], "."+plan.BridleSymbol(n))})
				}
			}
		}
	}
	for i := range s.lines {
		l := &s.lines[i]
		for k := range l.legs {
			leg := &l.legs[k]
			if !leg.known() {
				continue
			}
			a, b := see(leg.from.at), see(leg.to.at)
			if leg.more > 0 {
				long := leg.to.at.Sub(leg.from.at).Norm()
				c.slack("slack", a, b, b.minus(a).length()*(1+leg.more/long), max(a.y, b.y))
				continue
			}
			if !leg.tackle {
				c.segment(ropeClass(l, leg), "", a, b)
				continue
			}
			c.segment(ropeClass(l, leg), "", a, b.toward(a, tackleEnd))
			s.drawTackle(c, l, a, b)
		}
	}
}

// A tackle is marked on the last third of its leg; how long it really is the
// plan does not say.
const tackleEnd = 0.34

func (s *scene) drawTackle(c *canvas, l *sceneLine, a, b pt) {
	p, q := b.toward(a, tackleEnd), b.toward(a, 0.04)
	side := q.minus(p).unit().left()
	gap := c.grow(3.2)
	for n := range l.parts {
		off := side.times((float64(n) - float64(l.parts-1)/2) * gap)
		c.move(p.plus(off))
		c.line(q.plus(off))
	}
	c.path("tackle", "")
	c.avoid(p, q)
	r := c.grow(2.6) + gap*float64(l.parts-1)/2*0.7
	c.circle("sheave", "", p, r)
	c.circle("sheave", "", q, r)
	c.solid = append(c.solid, around(p, r), around(q, r))
}

// tackleText is the ideal advantage, or nothing where it is not known.
func (l *sceneLine) tackleText() string {
	if l.rep != nil && l.rep.IdealAdvantage.Known() {
		return units.Decimal(math.Round(float64(l.rep.IdealAdvantage)*100)/100, -1) + ":1"
	}
	return ""
}

// drawPoints marks every known point and keeps room around it.
func (s *scene) drawPoints(c *canvas, see func(rigging.Vec) pt) {
	for i := range s.points {
		p := &s.points[i]
		if !p.known {
			continue
		}
		at, state, r := see(p.at), s.state(p), c.grow(5)
		switch p.role {
		case blockPoint:
			c.circle("block", state, at, r)
		case pullerPoint:
			r = c.grow(7)
			h := r * 0.65
			c.polygon("puller", state, pt{at.x - r, at.y - h}, pt{at.x + r, at.y - h}, pt{at.x + r, at.y + h}, pt{at.x - r, at.y + h})
		case anchorPoint:
			c.polygon("anchor", state, pt{at.x - r, at.y - r}, pt{at.x + r, at.y - r}, pt{at.x + r, at.y + r}, pt{at.x - r, at.y + r})
		default:
			c.circle("point", state, at, r*0.8)
		}
		c.solid = append(c.solid, around(at, r+1))
	}
}

// scaleBar draws a round length in the lower left corner.
func (s *scene) scaleBar(c *canvas, l layout) {
	unit := s.u.Units[units.Metres].Size
	want := min(c.w*0.25, c.grow(110)) / l.scale / unit
	n := 0.0
	p := math.Pow(10, math.Floor(math.Log10(want)))
	for _, k := range [...]float64{1, 2, 5} {
		if k*p <= want {
			n = k * p
		}
	}
	x0, y := c.grow(8), c.h-c.grow(6)
	x1 := x0 + n*unit*l.scale
	t := c.grow(4)
	c.move(pt{x0, y - t})
	c.line(pt{x0, y})
	c.line(pt{x1, y})
	c.line(pt{x1, y - t})
	c.path("scale", "")
	c.solid = append(c.solid, rect{x0, y - t, x1, y})
	c.label(caption{text: units.Decimal(n, -1) + s.u.Suffix(units.Metres), class: "label-note", at: pt{x1, y - t/2}, toward: pt{1, 0}, prio: prioMust})
}

// mid is where a leg is labelled: between the stem and the tackle.
func (l *sceneLeg) ends(see func(rigging.Vec) pt) (pt, pt) {
	a, b := see(l.from.at), see(l.to.at)
	if l.tackle {
		b = b.toward(a, tackleEnd)
	}
	return a, b
}

// legLetter is the letter of the tension of a line's leg.
func (l *sceneLine) legLetter(k int) string {
	if ropes := len(l.stations) - 1; k < ropes {
		return plan.LegSymbol(l.hold, false, k, ropes)
	}
	return plan.LegSymbol(l.hold, true, k+1-len(l.stations), len(l.haul))
}

// labelLegs writes tensions along the legs that are seen to be longer than
// least pixels, and the advantage at the tackles. Seen from above a line of a
// single leg bears its tension as the load at its end.
func (s *scene) labelLegs(c *canvas, see func(rigging.Vec) pt, prio int, least float64, above bool) {
	if s.doc.Letters { // the formulas need every leg's
		prio, least = prioForce, min(least, c.grow(30))
	}
	for i := range s.lines {
		l := &s.lines[i]
		for k := range l.legs {
			leg := &l.legs[k]
			if !leg.known() {
				continue
			}
			a, b := leg.ends(see)
			text, p := "", prio
			if !above && !leg.from.stem && !leg.to.stem {
				p = prioExtra // seen from the side ropes over the ground lie over each other
			}
			if finite(leg.tension) && b.minus(a).length() > least && !(above && len(l.legs) == 1) {
				text = s.letter(l.legLetter(k), s.u.Load(leg.tension))
				if s.doc.Letters && above && c.h < c.grow(340) {
					text = l.legLetter(k) // there is no room for more
				}
			}
			c.label(caption{text: text, class: "label-force", at: a, along: b, slide: true, beside: !above, prio: p, working: s.legOpens(l, k)})
			if leg.tackle {
				q := see(leg.to.at)
				c.label(caption{text: l.tackleText(), class: "label", at: b, along: q, slide: true, gap: c.grow(10), prio: prioAngle})
			}
		}
	}
}
