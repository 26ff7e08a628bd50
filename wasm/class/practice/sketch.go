package practice

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Small pictures of the questions. They show what is given and letters for
// what is not; angles are true, lengths need not be.

// sketchLegs draws two legs from one place with the angle between them, and
// what acts there: outward of them the pull they share, or between them what
// they add up to, the left one being so many times the right one.
func (q *ask) sketchLegs(c *draw.Canvas, angle, times float64, left, right, middle string, shared bool) (title, desc string) {
	sin, cos := math.Sincos(rad(angle / 2))
	at := draw.Pt{X: c.W / 2, Y: c.H - c.Grow(24)}
	if shared {
		at.Y = c.H - c.Grow(48)
	}
	reach := min((at.Y-c.Grow(20))/max(cos, 0.2), c.W*0.4/max(sin, 0.2))
	one, two := draw.Pt{X: -sin, Y: -cos}, draw.Pt{X: sin, Y: -cos}
	a, b := at.Plus(one.Times(reach)), at.Plus(two.Times(reach))
	class, title := "rope", q.Say("Two legs of a rope and the angle between them")
	if shared {
		class = "bridle"
		title = q.Say("Two legs that share a pull, and the angle between them")
	}
	c.Segment(class, "", at, a)
	c.Segment(class, "", at, b)
	mid := c.Angle("angle", at, one, two, c.Grow(34))
	if shared {
		end := at.Plus(draw.Pt{X: 0, Y: c.Grow(38)})
		c.Arrow("load", "", at, end)
		c.Along("label-force", middle, at, end, draw.Pt{X: 1, Y: 0}, draw.PrioForce)
	} else {
		mid = one.Times(times).Plus(two).Unit()
		end := at.Plus(mid.Times(min(at.Y-c.Grow(24), c.Grow(92))))
		c.Arrow("load", "", at.Plus(mid.Times(c.Grow(9))), end)
		c.Beside("label-force", middle, end, draw.Pt{X: 0.4, Y: -1}, draw.PrioForce)
	}
	c.Circle("block", "", at, c.Grow(8))
	c.Keep(draw.Around(at, c.Grow(8)))
	c.Beside("label", "γ = "+q.exact(angle, units.Degrees), at.Plus(draw.Pt{X: c.Grow(10), Y: c.Grow(6)}), draw.Pt{X: 1, Y: 0.3}, draw.PrioAngle)
	c.Along("label-force", left, at, a, draw.Pt{X: -1, Y: 0}, draw.PrioMust)
	c.Along("label-force", right, at, b, draw.Pt{X: 1, Y: 0}, draw.PrioMust)
	return title, q.Say("The angle between the legs is %s.", q.exact(angle, units.Degrees))
}

// sketchFork draws two legs at different angles off a pull.
func (q *ask) sketchFork(c *draw.Canvas, one, two float64, pull string) (title, desc string) {
	at := draw.Pt{X: c.W * 0.5, Y: c.H - c.Grow(48)}
	reach := min(c.W*0.4, c.H*0.55)
	line := at.Plus(draw.Pt{X: 0, Y: -reach})
	left := draw.Pt{X: -math.Sin(rad(one)), Y: -math.Cos(rad(one))}
	right := draw.Pt{X: math.Sin(rad(two)), Y: -math.Cos(rad(two))}
	c.Segment("far", "", at, line)
	a, b := at.Plus(left.Times(reach)), at.Plus(right.Times(reach))
	c.Segment("bridle", "", at, a)
	c.Segment("bridle", "", at, b)
	up := draw.Pt{X: 0, Y: -1}
	c.Angle("angle", at, left, up, c.Grow(38))
	c.Angle("angle", at, up, right, c.Grow(48))
	c.Beside("label", "α", at.Plus(left.Plus(up).Unit().Times(c.Grow(40))), left.Plus(up).Unit(), draw.PrioAngle)
	c.Beside("label", "β", at.Plus(right.Plus(up).Unit().Times(c.Grow(50))), right.Plus(up).Unit(), draw.PrioAngle)
	end := at.Plus(draw.Pt{X: 0, Y: c.Grow(40)})
	c.Arrow("load", "", at, end)
	c.Circle("point", "", at, c.Grow(6))
	c.Keep(draw.Around(at, c.Grow(6)))
	c.Along("label-force", pull, at, end, draw.Pt{X: 1, Y: 0}, draw.PrioMust)
	c.Beside("label-force", "T₁", a, draw.Pt{X: 0, Y: -1}, draw.PrioMust)
	c.Beside("label-force", "T₂", b, draw.Pt{X: 0, Y: -1}, draw.PrioMust)
	return q.Say("Two legs of a shared anchor at different angles off the pull"), q.Say("The first leg lies %s off the line of the pull, the second %s on the other side.", q.exact(one, units.Degrees), q.exact(two, units.Degrees))
}

// sketchLine draws a stem and a rope from it down to the ground, of the true
// slope where that can be.
func (q *ask) sketchLine(c *draw.Canvas, h, d float64, high, far, angle, tension string) (title, desc string) {
	foot := draw.Pt{X: c.Grow(36) + c.TextWidth(high), Y: c.H - c.Grow(34)}
	room := draw.Pt{X: c.W - foot.X - c.Grow(34), Y: foot.Y - c.Grow(30)}
	scale := min(room.X/d, room.Y/h)
	foot.Y -= (room.Y - h*scale) / 2
	top, end := foot.Minus(draw.Pt{X: 0, Y: h * scale}), foot.Plus(draw.Pt{X: d * scale, Y: 0})
	wide := c.Grow(5)
	tip := max(top.Y-c.Grow(20), c.Grow(4))
	c.Polygon("stem", "", draw.Pt{X: foot.X - wide, Y: foot.Y}, draw.Pt{X: foot.X + wide, Y: foot.Y}, draw.Pt{X: foot.X + wide*0.6, Y: tip}, draw.Pt{X: foot.X - wide*0.6, Y: tip})
	c.Segment("ground", "", draw.Pt{X: c.Grow(8), Y: foot.Y}, draw.Pt{X: c.W - c.Grow(8), Y: foot.Y})
	c.Segment("rope", "", top, end)
	c.Circle("attach", "", top, c.Grow(4))
	c.Circle("point", "", end, c.Grow(5))
	c.Keep(draw.Rect{X0: foot.X - wide, Y0: tip, X1: foot.X + wide, Y1: foot.Y}, draw.Around(end, c.Grow(5)))
	if high != "" {
		left := draw.Pt{X: -1, Y: 0}
		x := draw.Pt{X: foot.X - c.Grow(14), Y: foot.Y}
		c.Dimension(x, draw.Pt{X: x.X, Y: top.Y}, top, left)
		c.Along("label", high, x, draw.Pt{X: x.X, Y: top.Y}, left, draw.PrioLength)
	}
	if far != "" {
		c.Along("label", far, foot, end, draw.Pt{X: 0, Y: 1}, draw.PrioLength)
	}
	if angle != "" {
		c.Angle("angle", end, draw.Pt{X: -1, Y: 0}, top.Minus(end), c.Grow(44))
		c.Beside("label", angle, end.Minus(draw.Pt{X: c.Grow(48), Y: 0}), draw.Pt{X: -1, Y: -0.3}, draw.PrioAngle)
	}
	c.Along("label-force", tension, top, end, draw.Pt{X: 1, Y: -1}, draw.PrioMust)
	return q.Say("A {pull line} from the {stem} to the ground"), words.Join(q.Say("The rope comes down from the {stem} to the ground."), words.Join(words.Join(high, far), angle))
}

// sketchLean draws a stem that leans back from its hinge, with its mass
// centre.
func (q *ask) sketchLean(c *draw.Canvas, lean, z float64) (title, desc string) {
	foot := draw.Pt{X: c.W * 0.6, Y: c.H - c.Grow(24)}
	sin, cos := math.Sincos(rad(lean))
	up := draw.Pt{X: -sin, Y: -cos}
	length := (foot.Y - c.Grow(10)) / cos
	tip, centre := foot.Plus(up.Times(length)), foot.Plus(up.Times(length*0.62))
	side := up.Left().Times(c.Grow(6))
	c.Polygon("stem", "", foot.Plus(side), foot.Minus(side), tip.Minus(side.Times(0.4)), tip.Plus(side.Times(0.4)))
	c.Segment("ground", "", draw.Pt{X: c.Grow(8), Y: foot.Y}, draw.Pt{X: c.W - c.Grow(8), Y: foot.Y})
	c.Segment("plumb", "", foot, draw.Pt{X: foot.X, Y: c.Grow(10)})
	c.Segment("drop", "", centre, draw.Pt{X: centre.X, Y: foot.Y})
	c.CentreMark(centre)
	c.Angle("angle", foot, draw.Pt{X: 0, Y: -1}, up, c.Grow(70))
	c.Keep(draw.Around(centre, c.Grow(8)))
	c.Beside("label", "λ = "+q.exact(lean, units.Degrees), foot.Minus(draw.Pt{X: 0, Y: c.Grow(70)}), draw.Pt{X: 1, Y: 0}, draw.PrioAngle)
	c.Beside("label", "z = "+q.exact(z, units.Metres), centre.Minus(draw.Pt{X: c.Grow(9), Y: 0}), draw.Pt{X: -1, Y: 0}, draw.PrioLength)
	c.Beside("label", "x", draw.Pt{X: (centre.X + foot.X) / 2, Y: foot.Y}, draw.Pt{X: 0, Y: 1}, draw.PrioLength)
	return q.Say("A {stem} that leans back"), q.Say("The {stem} leans %s from vertical. Its {centre} of mass is %s up the {stem}.", q.exact(lean, units.Degrees), q.exact(z, units.Metres))
}

// sketchTackle draws a simple tackle: the anchor's block on the left, the
// moving one on the right, and every part of rope between them.
func (q *ask) sketchTackle(c *draw.Canvas, s rigging.TackleStage) (title, desc string) {
	mid := c.H / 2
	fixed, moving := draw.Pt{X: c.W * 0.3, Y: mid}, draw.Pt{X: c.W * 0.72, Y: mid}
	gap := min(c.Grow(17), (c.H-c.Grow(50))/float64(s.Parts+1))
	rows := s.Parts // strands between the blocks and the hauling part
	if s.HaulFrom == rigging.HaulFixed {
		rows++
	}
	row := func(i int) float64 { return mid + (float64(i)-float64(rows-1)/2)*gap }
	half := gap * float64(rows) / 2
	box := func(at draw.Pt) {
		c.Polygon("block", "", draw.Pt{X: at.X - c.Grow(7), Y: at.Y - half - c.Grow(4)}, draw.Pt{X: at.X + c.Grow(7), Y: at.Y - half - c.Grow(4)},
			draw.Pt{X: at.X + c.Grow(7), Y: at.Y + half + c.Grow(4)}, draw.Pt{X: at.X - c.Grow(7), Y: at.Y + half + c.Grow(4)})
	}
	haul := func(from, to draw.Pt) { // dashed, but for its head
		c.Segment("haul", "", from, to)
		c.Arrow("rope", "", to.Minus(to.Minus(from).Unit().Times(c.Grow(10))), to)
	}
	for i := range s.Parts {
		from, to := draw.Pt{X: fixed.X, Y: row(i)}, draw.Pt{X: moving.X, Y: row(i)}
		if i == s.Parts-1 && s.HaulFrom == rigging.HaulMoving {
			from.X = c.Grow(12)
			haul(to, from) // past the fixed block
			continue
		}
		c.Segment("rope", "", from, to)
	}
	if s.HaulFrom == rigging.HaulFixed {
		haul(draw.Pt{X: fixed.X, Y: row(rows - 1)}, draw.Pt{X: c.W - c.Grow(12), Y: row(rows - 1)})
	}
	end := draw.Pt{X: c.W - c.Grow(12), Y: mid - half*0.3}
	c.Arrow("rope", "", draw.Pt{X: moving.X, Y: end.Y}, end)
	anchor := draw.Pt{X: c.Grow(24), Y: mid - half*0.3}
	c.Segment("bridle", "", anchor, draw.Pt{X: fixed.X, Y: anchor.Y})
	c.Polygon("anchor", "", anchor.Plus(draw.Pt{X: -c.Grow(6), Y: -c.Grow(6)}), anchor.Plus(draw.Pt{X: c.Grow(6), Y: -c.Grow(6)}), anchor.Plus(draw.Pt{X: c.Grow(6), Y: c.Grow(6)}), anchor.Plus(draw.Pt{X: -c.Grow(6), Y: c.Grow(6)}))
	box(fixed)
	box(moving)
	top := mid - half - c.Grow(4)
	c.Beside("label-note", q.Say("fixed {block}"), draw.Pt{X: fixed.X, Y: top}, draw.Pt{X: 0, Y: -1}, draw.PrioMust)
	c.Beside("label-note", q.Say("moving {block}"), draw.Pt{X: moving.X, Y: top}, draw.Pt{X: 0, Y: -1}, draw.PrioMust)
	c.Beside("label-force", q.Say("haul"), draw.Pt{X: c.W / 2, Y: row(rows - 1)}, draw.Pt{X: 0, Y: 1}, draw.PrioMust)
	c.Beside("label-force", q.Say("line"), end, draw.Pt{X: -0.2, Y: -1}, draw.PrioForce)
	return q.Say("A {tackle} with its {block}s drawn apart"), q.Say("Rope runs back and forth between the fixed {block} on the left and the moving one on the right. %s.", q.Say(haulWords(s.HaulFrom)))
}

// sketch draws the set-up as seen from above, without any number.
func (s *setup) sketch(c *draw.Canvas) (title, desc string) {
	places := []rigging.Vec{{}, s.end}
	if s.redirect != (rigging.Vec{}) {
		places = []rigging.Vec{{}, s.redirect, s.end}
	}
	all := places
	if s.tackle > 0 {
		all = append(all, s.puller)
	}
	low, high := all[0], all[0]
	for _, p := range all {
		low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
		high.X, high.Y = max(high.X, p.X), max(high.Y, p.Y)
	}
	margin := c.Grow(40)
	scale := min((c.W-2*margin)/max(high.X-low.X, 1), (c.H-2*margin)/max(high.Y-low.Y, 1))
	see := func(v rigging.Vec) draw.Pt { // the lay to the right
		return draw.Pt{X: c.W/2 + (v.X-(low.X+high.X)/2)*scale, Y: c.H/2 - (v.Y-(low.Y+high.Y)/2)*scale}
	}
	tree := see(places[0])
	for i := 1; i < len(places); i++ {
		c.Segment("rope", "", see(places[i-1]), see(places[i]))
	}
	end := see(s.end)
	title, desc = s.q.Say("The set-up from above"), s.q.Say("A rope from the tree to a winch.")
	mark := func(class string, at draw.Pt, name words.Text, down float64) {
		r := c.Grow(7)
		c.Polygon(class, "", draw.Pt{X: at.X - r, Y: at.Y - r}, draw.Pt{X: at.X + r, Y: at.Y - r}, draw.Pt{X: at.X + r, Y: at.Y + r}, draw.Pt{X: at.X - r, Y: at.Y + r})
		c.Keep(draw.Around(at, r))
		c.Beside("label-note", s.q.Say(name), at.Plus(draw.Pt{X: 0, Y: down * r}), draw.Pt{X: 0, Y: down}, draw.PrioMust)
	}
	c.Circle("stem", "", tree, c.Grow(8))
	c.Keep(draw.Around(tree, c.Grow(8)))
	c.Beside("label-note", s.q.Say("tree"), tree.Plus(draw.Pt{X: 0, Y: c.Grow(8)}), draw.Pt{X: 0, Y: 1}, draw.PrioMust)
	if s.redirect != (rigging.Vec{}) {
		at := see(s.redirect)
		c.Circle("block", "", at, c.Grow(8))
		c.Keep(draw.Around(at, c.Grow(8)))
		c.Beside("label-note", s.q.Say("{redirect}"), at.Minus(draw.Pt{X: 0, Y: c.Grow(8)}), draw.Pt{X: 0, Y: -1}, draw.PrioMust)
		mid := c.Angle("angle", at, tree.Minus(at), end.Minus(at), c.Grow(20))
		c.Beside("label", "γ", at.Plus(mid.Times(c.Grow(22))), mid, draw.PrioAngle)
		desc = s.q.Say("A rope from the tree over the {redirect} to a winch.")
	}
	if s.tackle > 0 {
		desc = s.q.Say("A rope from the tree to a {tackle}, and its hauling part on to a winch.")
		near := end.Toward(tree, 0.35)
		gap := c.Grow(4)
		for i := range s.tackle - 1 {
			y := (float64(i) - float64(s.tackle-2)/2) * gap
			c.Segment("tackle", "", near.Plus(draw.Pt{X: 0, Y: y}), end.Plus(draw.Pt{X: 0, Y: y}))
		}
		c.Segment("haul", "", near, see(s.puller))
		c.Circle("sheave", "", near, c.Grow(7))
		c.Keep(draw.Around(near, c.Grow(7)))
		c.Beside("label-note", s.q.Say("{tackle}"), near.Minus(draw.Pt{X: 0, Y: c.Grow(8)}), draw.Pt{X: 0, Y: -1}, draw.PrioMust)
		mark("anchor", end, "anchor", 1)
		mark("puller", see(s.puller), "winch", 1)
		return title, desc
	}
	mark("puller", end, "winch", -1)
	return title, desc
}
