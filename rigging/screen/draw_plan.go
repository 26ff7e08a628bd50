package screen

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/units"
)

// planIDs begin the ids of the plan view's handles.
const planIDs = "plan/"

// drawPlan draws the plan seen from above, the lay pointing to the right,
// left of the lay up.
func (s *scene) drawPlan(b Box) *Drawing {
	if !b.drawable() {
		return nil
	}
	l, c := s.planLayout(b), newCanvas(b)
	origin := l.toPx(0, 0)
	if s.tree {
		s.farCircle(c, l, origin)
	}
	s.bights(c, l)
	if s.tree {
		s.planCrown(c, l)
	}
	lay := l.toPx(s.size(), 0)
	c.arrow("lay", "", origin, lay)
	c.label(caption{text: s.doc.Say("{lay}"), class: "label-note", at: lay, toward: pt{1, 0}, prio: prioMust})
	if s.tree {
		s.planTree(c, l, origin)
	}
	s.drawLegs(c, l.plan)
	s.drawPoints(c, l.plan)
	s.planLoads(c, l)
	s.planAngles(c, l)
	if s.tree && s.hasCentre {
		at := l.plan(s.centre)
		c.centreMark(at)
		if s.doc.Letters {
			c.label(caption{text: s.letter("y", s.metres(s.centre.Y)), class: "label", at: at, toward: pt{-1, 1}, gap: c.grow(9), prio: prioForce, working: s.opens("tree.left_m")})
		}
	}
	s.scaleBar(c, l)
	for i := range s.points {
		if p := &s.points[i]; p.known {
			c.label(caption{text: p.id, class: "label-id", state: s.state(p), at: l.plan(p.at), toward: l.plan(p.at).minus(origin), gap: c.grow(9), prio: prioMust})
		}
	}
	s.labelLegs(c, l.plan, prioNote, c.grow(80), true)
	if s.tree {
		s.leanHandle(c, planIDs, l.plan(s.onStem(s.h)), "xy")
	}
	s.pointHandles(c, planIDs, l.plan, "xy")
	d := c.finish(s.doc.Say("Plan view, seen from above; the {lay} points to the right"), s.describe())
	d.Frame, d.Legend = l.frame(), legend(d.Shapes)
	return d
}

// treeLengths is how far from the stem nobody but the crew that fells stays:
// common practice, no source.
const treeLengths = 2

// farCircle is where two tree lengths end, labelled where it can be seen.
func (s *scene) farCircle(c *canvas, l layout, origin pt) {
	r := treeLengths * s.h * l.scale
	c.circle("far", "", origin, r)
	const n = 64
	last := origin.plus(pt{r, 0})
	for i := 1; i <= n; i++ {
		p := origin.plus(sincosPt(2 * math.Pi * float64(i) / n).times(r))
		if around(p, 0).meets(rect{0, 0, c.w, c.h}) {
			c.avoid(last, p)
		}
		last = p
	}
	text := units.Decimal(treeLengths, -1) + " tree lengths " + s.u.Quantity(treeLengths*s.h, units.Metres, units.WayOf("keep_out_m"))
	name := caption{text: text, class: "label-note", gap: c.grow(4), prio: prioExtra, only: true}
	for _, deg := range [...]float64{180, 0, 165, 195, 15, 345, 150, 210, 30, 330, 120, 240, 60, 300, 90, 270} {
		u := sincosPt(deg * rigging.Deg)
		p := origin.plus(u.times(r))
		if around(p, 0).meets(rect{0, 0, c.w, c.h}) {
			name.spots = append(name.spots, spot{p, u}, spot{p, u.times(-1)})
		}
	}
	c.label(name)
}

// bights hatches the area inside the angle of each turn of rope: whatever
// lets go there comes that way, and nobody stands in it.
func (s *scene) bights(c *canvas, l layout) {
	gap := c.grow(8)
	for i := range s.lines {
		s.lines[i].bightsAt(func(from, block, to station) {
			t := [3]pt{l.plan(from.at), l.plan(block.at), l.plan(to.at)}
			c.polygon("bight", "", t[:]...)
			c.hatch("hatch", t, gap)
			c.path("hatch", "")
		})
	}
}

func (s *scene) planCrown(c *canvas, l layout) {
	if !s.crown {
		c.path("crown", "")
		return
	}
	flat := math.Hypot(s.axis.X, s.axis.Y)
	dir := pt{1, 0}
	if flat > 1e-9 {
		dir = pt{s.axis.X, -s.axis.Y}.unit()
	}
	// Seen along the plumb an ellipsoid leaning by λ is as long as the root
	// of (half·sin λ)² + (radius·cos λ)².
	along := math.Hypot(s.crownHalf*flat, s.crownR*s.axis.Z)
	c.crown(l.plan(s.onStem(s.crownH).Add(s.crownAt)), dir, along*l.scale, s.crownR*l.scale)
}

// planTree is the butt of the stem and where it leans.
func (s *scene) planTree(c *canvas, l layout, origin pt) {
	r := max(s.radius(s.stump)*l.scale, c.grow(3.5)) // smaller could not be seen
	c.circle("stem", "", origin, r)
	c.solid = append(c.solid, around(origin, r))
	tip := l.plan(s.onStem(s.h))
	d := tip.minus(origin)
	if s.lean <= 0 {
		c.path("lean", "")
		c.label(caption{text: s.leanText(), class: "label", at: origin, toward: pt{-1, 0}, gap: r + c.grow(4), prio: prioLength})
		return
	}
	// A lean too small to be seen keeps a short arrow for its direction; the
	// handle stays at the true place.
	dir := pt{math.Cos(s.leanB), math.Sin(s.leanB)}
	if d.length() < c.grow(16) {
		tip = origin.plus(dir.times(c.grow(16)))
	}
	c.arrow("lean", "", origin, tip)
	text := s.leanText()
	if s.doc.Letters {
		text += ", " + s.letter("β", s.bearingText(s.leanB))
	}
	c.label(caption{text: text, class: "label", at: tip, toward: dir, prio: prioLength})
}

// planLoads draws how each anchor is pulled; the arrows' lengths are the
// horizontal parts, to one scale; the number is the whole load.
func (s *scene) planLoads(c *canvas, l layout) {
	top := 0.0
	for i := range s.points {
		if p := s.points[i].rep; p != nil && p.LoadKN.Known() {
			top = max(top, float64(p.LoadKN))
		}
	}
	perKN := 0.22 * min(c.h, c.w) / niceForce(top)
	for i := range s.points {
		p := &s.points[i]
		if !p.known {
			continue
		}
		if p.rep == nil || !p.rep.LoadKN.Known() || !p.rep.BearingDeg.Known() || !p.rep.HorizontalKN.Known() || p.rep.LoadKN <= 0 {
			c.path("load", s.state(p))
			c.label(caption{class: "label-force"})
			continue
		}
		sin, cos := math.Sincos(float64(p.rep.BearingDeg) * rigging.Deg)
		dir := pt{cos, sin} // bearings run clockwise, y down
		at := l.plan(p.at)
		tip := at.plus(dir.times(float64(p.rep.HorizontalKN) * perKN))
		c.arrow("load", s.state(p), at, tip)
		c.label(caption{text: s.letter("R", s.u.Load(float64(p.rep.LoadKN))), class: "label-force", state: s.state(p), at: tip, toward: dir, prio: prioForce, working: s.pointOpens(p, ".load_kN")})
	}
}

// planAngles marks the angle between the ropes at each block.
func (s *scene) planAngles(c *canvas, l layout) {
	for i := range s.lines {
		s.lines[i].turnsAt(func(from, block, to station) {
			at := l.plan(block.at)
			u, v := l.plan(from.at).minus(at), l.plan(to.at).minus(at)
			r := min(c.grow(20), u.length()*0.45, v.length()*0.45)
			mid := c.angle("angle", at, u, v, r)
			text := ""
			if g := included(from.at, block.at, to.at); finite(g) {
				text = s.letter("γ", s.angleOf(g))
			}
			// Inside the angle, but beside its half: there lies the arrow of
			// the load.
			quarter := math.Acos(min(max(mid.x*u.unit().x+mid.y*u.unit().y, -1), 1)) / 2
			out := min(max(c.font*1.1/max(math.Sin(quarter), 0.1), r+c.font*0.8), 0.7*min(u.length(), v.length()))
			l := caption{text: text, class: "label", at: at.plus(mid.times(r)), toward: mid, gap: c.grow(3), prio: prioAngle, working: s.pointOpens(&s.points[block.point], ".angle_deg")}
			for _, w := range [...]pt{v.unit(), u.unit()} {
				dir := mid.plus(w).unit()
				l.spots = append(l.spots, spot{at: at.plus(dir.times(out))}, spot{at: at.plus(dir.times(out * 1.3))})
			}
			c.label(l)
		})
	}
}
