package screen

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Small pictures of the questions. They show what is given and letters for
// what is not; angles are true, lengths need not be.

// text puts a label beside a place, textAlong beside a stroke from it to end.
func (c *canvas) text(text, class string, at, toward pt, prio int) {
	c.label(caption{text: text, class: class, at: at, toward: toward, prio: prio})
}

func (c *canvas) textAlong(text, class string, at, end, toward pt, prio int) {
	c.label(caption{text: text, class: class, at: at, along: end, slide: true, toward: toward, prio: prio})
}

// sketchLegs draws two legs from one place with the angle between them, and
// what acts there: outward of them the pull they share, or between them what
// they add up to, the left one being so many times the right one.
func (q *ask) sketchLegs(c *canvas, angle, times float64, left, right, middle string, shared bool) (title, desc string) {
	sin, cos := math.Sincos(rad(angle / 2))
	at := pt{c.w / 2, c.h - c.grow(24)}
	if shared {
		at.y = c.h - c.grow(48)
	}
	reach := min((at.y-c.grow(20))/max(cos, 0.2), c.w*0.4/max(sin, 0.2))
	one, two := pt{-sin, -cos}, pt{sin, -cos}
	a, b := at.plus(one.times(reach)), at.plus(two.times(reach))
	class, title := "rope", "Two legs of a rope and the angle between them"
	if shared {
		class = "bridle"
		title = "Two legs that share a pull, and the angle between them"
	}
	c.segment(class, "", at, a)
	c.segment(class, "", at, b)
	mid := c.angle("angle", at, one, two, c.grow(34))
	if shared {
		end := at.plus(pt{0, c.grow(38)})
		c.arrow("load", "", at, end)
		c.textAlong(middle, "label-force", at, end, pt{1, 0}, prioForce)
	} else {
		mid = one.times(times).plus(two).unit()
		end := at.plus(mid.times(min(at.y-c.grow(24), c.grow(92))))
		c.arrow("load", "", at.plus(mid.times(c.grow(9))), end)
		c.text(middle, "label-force", end, pt{0.4, -1}, prioForce)
	}
	c.circle("block", "", at, c.grow(8))
	c.solid = append(c.solid, around(at, c.grow(8)))
	c.text("γ = "+q.exact(angle, units.Degrees), "label", at.plus(pt{c.grow(10), c.grow(6)}), pt{1, 0.3}, prioAngle)
	c.textAlong(left, "label-force", at, a, pt{-1, 0}, prioMust)
	c.textAlong(right, "label-force", at, b, pt{1, 0}, prioMust)
	return title, "The angle between the legs is " + q.exact(angle, units.Degrees) + "."
}

// sketchFork draws two legs at different angles off a pull.
func (q *ask) sketchFork(c *canvas, one, two float64, pull string) (title, desc string) {
	at := pt{c.w * 0.5, c.h - c.grow(48)}
	reach := min(c.w*0.4, c.h*0.55)
	line := at.plus(pt{0, -reach})
	left := pt{-math.Sin(rad(one)), -math.Cos(rad(one))}
	right := pt{math.Sin(rad(two)), -math.Cos(rad(two))}
	c.segment("far", "", at, line)
	a, b := at.plus(left.times(reach)), at.plus(right.times(reach))
	c.segment("bridle", "", at, a)
	c.segment("bridle", "", at, b)
	up := pt{0, -1}
	c.angle("angle", at, left, up, c.grow(38))
	c.angle("angle", at, up, right, c.grow(48))
	c.text("α", "label", at.plus(left.plus(up).unit().times(c.grow(40))), left.plus(up).unit(), prioAngle)
	c.text("β", "label", at.plus(right.plus(up).unit().times(c.grow(50))), right.plus(up).unit(), prioAngle)
	end := at.plus(pt{0, c.grow(40)})
	c.arrow("load", "", at, end)
	c.circle("point", "", at, c.grow(6))
	c.solid = append(c.solid, around(at, c.grow(6)))
	c.textAlong(pull, "label-force", at, end, pt{1, 0}, prioMust)
	c.text("T₁", "label-force", a, pt{0, -1}, prioMust)
	c.text("T₂", "label-force", b, pt{0, -1}, prioMust)
	return "Two legs of a shared anchor at different angles off the pull", "The first leg lies " + q.exact(one, units.Degrees) + " off the line of the pull, the second " + q.exact(two, units.Degrees) + " on the other side."
}

// sketchLine draws a stem and a rope from it down to the ground, of the true
// slope where that can be.
func (q *ask) sketchLine(c *canvas, h, d float64, high, far, angle, tension string) (title, desc string) {
	foot := pt{c.grow(36) + c.textWidth(high), c.h - c.grow(34)}
	room := pt{c.w - foot.x - c.grow(34), foot.y - c.grow(30)}
	scale := min(room.x/d, room.y/h)
	foot.y -= (room.y - h*scale) / 2
	top, end := foot.minus(pt{0, h * scale}), foot.plus(pt{d * scale, 0})
	wide := c.grow(5)
	tip := max(top.y-c.grow(20), c.grow(4))
	c.polygon("stem", "", pt{foot.x - wide, foot.y}, pt{foot.x + wide, foot.y}, pt{foot.x + wide*0.6, tip}, pt{foot.x - wide*0.6, tip})
	c.segment("ground", "", pt{c.grow(8), foot.y}, pt{c.w - c.grow(8), foot.y})
	c.segment("rope", "", top, end)
	c.circle("attach", "", top, c.grow(4))
	c.circle("point", "", end, c.grow(5))
	c.solid = append(c.solid, rect{foot.x - wide, tip, foot.x + wide, foot.y}, around(end, c.grow(5)))
	if high != "" {
		left := pt{-1, 0}
		x := pt{foot.x - c.grow(14), foot.y}
		c.dimension(x, pt{x.x, top.y}, top, left)
		c.textAlong(high, "label", x, pt{x.x, top.y}, left, prioLength)
	}
	if far != "" {
		c.textAlong(far, "label", foot, end, pt{0, 1}, prioLength)
	}
	if angle != "" {
		c.angle("angle", end, pt{-1, 0}, top.minus(end), c.grow(44))
		c.text(angle, "label", end.minus(pt{c.grow(48), 0}), pt{-1, -0.3}, prioAngle)
	}
	c.textAlong(tension, "label-force", top, end, pt{1, -1}, prioMust)
	return "A {pull line} from the stem to the ground", "The rope comes down from the stem to the ground. " + words.Join(words.Join(high, far), angle)
}

// sketchLean draws a stem that leans back from its hinge, with its mass
// centre.
func (q *ask) sketchLean(c *canvas, lean, z float64) (title, desc string) {
	foot := pt{c.w * 0.6, c.h - c.grow(24)}
	sin, cos := math.Sincos(rad(lean))
	up := pt{-sin, -cos}
	length := (foot.y - c.grow(10)) / cos
	tip, centre := foot.plus(up.times(length)), foot.plus(up.times(length*0.62))
	side := up.left().times(c.grow(6))
	c.polygon("stem", "", foot.plus(side), foot.minus(side), tip.minus(side.times(0.4)), tip.plus(side.times(0.4)))
	c.segment("ground", "", pt{c.grow(8), foot.y}, pt{c.w - c.grow(8), foot.y})
	c.segment("plumb", "", foot, pt{foot.x, c.grow(10)})
	c.segment("drop", "", centre, pt{centre.x, foot.y})
	c.centreMark(centre)
	c.angle("angle", foot, pt{0, -1}, up, c.grow(70))
	c.solid = append(c.solid, around(centre, c.grow(8)))
	c.text("λ = "+q.exact(lean, units.Degrees), "label", foot.minus(pt{0, c.grow(70)}), pt{1, 0}, prioAngle)
	c.text("z = "+q.exact(z, units.Metres), "label", centre.minus(pt{c.grow(9), 0}), pt{-1, 0}, prioLength)
	c.text("x", "label", pt{(centre.x + foot.x) / 2, foot.y}, pt{0, 1}, prioLength)
	return "A stem that leans back", "The stem leans " + q.exact(lean, units.Degrees) + " from plumb. Its mass centre lies " + q.exact(z, units.Metres) + " up the stem."
}

// sketchTackle draws a simple tackle: the anchor's block on the left, the
// moving one on the right, and every part of rope between them.
func (q *ask) sketchTackle(c *canvas, s rigging.TackleStage) (title, desc string) {
	mid := c.h / 2
	fixed, moving := pt{c.w * 0.3, mid}, pt{c.w * 0.72, mid}
	gap := min(c.grow(17), (c.h-c.grow(50))/float64(s.Parts+1))
	rows := s.Parts // strands between the blocks and the hauling part
	if s.HaulFrom == rigging.HaulFixed {
		rows++
	}
	row := func(i int) float64 { return mid + (float64(i)-float64(rows-1)/2)*gap }
	half := gap * float64(rows) / 2
	box := func(at pt) {
		c.polygon("block", "", pt{at.x - c.grow(7), at.y - half - c.grow(4)}, pt{at.x + c.grow(7), at.y - half - c.grow(4)},
			pt{at.x + c.grow(7), at.y + half + c.grow(4)}, pt{at.x - c.grow(7), at.y + half + c.grow(4)})
	}
	haul := func(from, to pt) { // dashed, but for its head
		c.segment("haul", "", from, to)
		c.arrow("rope", "", to.minus(to.minus(from).unit().times(c.grow(10))), to)
	}
	for i := range s.Parts {
		from, to := pt{fixed.x, row(i)}, pt{moving.x, row(i)}
		if i == s.Parts-1 && s.HaulFrom == rigging.HaulMoving {
			from.x = c.grow(12)
			haul(to, from) // past the fixed block
			continue
		}
		c.segment("rope", "", from, to)
	}
	if s.HaulFrom == rigging.HaulFixed {
		haul(pt{fixed.x, row(rows - 1)}, pt{c.w - c.grow(12), row(rows - 1)})
	}
	end := pt{c.w - c.grow(12), mid - half*0.3}
	c.arrow("rope", "", pt{moving.x, end.y}, end)
	anchor := pt{c.grow(24), mid - half*0.3}
	c.segment("bridle", "", anchor, pt{fixed.x, anchor.y})
	c.polygon("anchor", "", anchor.plus(pt{-c.grow(6), -c.grow(6)}), anchor.plus(pt{c.grow(6), -c.grow(6)}), anchor.plus(pt{c.grow(6), c.grow(6)}), anchor.plus(pt{-c.grow(6), c.grow(6)}))
	box(fixed)
	box(moving)
	top := mid - half - c.grow(4)
	c.text(q.Say("fixed {block}"), "label-note", pt{fixed.x, top}, pt{0, -1}, prioMust)
	c.text(q.Say("moving {block}"), "label-note", pt{moving.x, top}, pt{0, -1}, prioMust)
	c.text("haul", "label-force", pt{c.w / 2, row(rows - 1)}, pt{0, 1}, prioMust)
	c.text("line", "label-force", end, pt{-0.2, -1}, prioForce)
	return "A {tackle} with its {block}s drawn apart", "Rope runs to and fro between the fixed {block} on the left and the moving one on the right; the hauling part leaves " + haulWords(s.HaulFrom) + "."
}

// sketch draws the set-up as seen from above, without any number.
func (s *practiceSetup) sketch(c *canvas) (title, desc string) {
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
	margin := c.grow(40)
	scale := min((c.w-2*margin)/max(high.X-low.X, 1), (c.h-2*margin)/max(high.Y-low.Y, 1))
	see := func(v rigging.Vec) pt { // the lay to the right
		return pt{c.w/2 + (v.X-(low.X+high.X)/2)*scale, c.h/2 - (v.Y-(low.Y+high.Y)/2)*scale}
	}
	tree := see(places[0])
	for i := 1; i < len(places); i++ {
		c.segment("rope", "", see(places[i-1]), see(places[i]))
	}
	end := see(s.end)
	title, desc = "The set-up from above", "A rope from the tree to a winch."
	mark := func(class string, at pt, name string, down float64) {
		r := c.grow(7)
		c.polygon(class, "", pt{at.x - r, at.y - r}, pt{at.x + r, at.y - r}, pt{at.x + r, at.y + r}, pt{at.x - r, at.y + r})
		c.solid = append(c.solid, around(at, r))
		c.text(s.q.Say(name), "label-note", at.plus(pt{0, down * r}), pt{0, down}, prioMust)
	}
	c.circle("stem", "", tree, c.grow(8))
	c.solid = append(c.solid, around(tree, c.grow(8)))
	c.text("tree", "label-note", tree.plus(pt{0, c.grow(8)}), pt{0, 1}, prioMust)
	if s.redirect != (rigging.Vec{}) {
		at := see(s.redirect)
		c.circle("block", "", at, c.grow(8))
		c.solid = append(c.solid, around(at, c.grow(8)))
		c.text(s.q.Say("{redirect}"), "label-note", at.minus(pt{0, c.grow(8)}), pt{0, -1}, prioMust)
		mid := c.angle("angle", at, tree.minus(at), end.minus(at), c.grow(20))
		c.text("γ", "label", at.plus(mid.times(c.grow(22))), mid, prioAngle)
		desc = "A rope from the tree over the {redirect} to a winch."
	}
	if s.tackle > 0 {
		desc = "A rope from the tree to a {tackle}, and its hauling part on to a winch."
		near := end.toward(tree, 0.35)
		gap := c.grow(4)
		for i := range s.tackle - 1 {
			y := (float64(i) - float64(s.tackle-2)/2) * gap
			c.segment("tackle", "", near.plus(pt{0, y}), end.plus(pt{0, y}))
		}
		c.segment("haul", "", near, see(s.puller))
		c.circle("sheave", "", near, c.grow(7))
		c.solid = append(c.solid, around(near, c.grow(7)))
		c.text(s.q.Say("{tackle}"), "label-note", near.minus(pt{0, c.grow(8)}), pt{0, -1}, prioMust)
		mark("anchor", end, "anchor", 1)
		mark("puller", see(s.puller), "winch", 1)
		return title, desc
	}
	mark("puller", end, "winch", -1)
	return title, desc
}
