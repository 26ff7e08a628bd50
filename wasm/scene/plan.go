package scene

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draw"
	"pullline/wasm/units"
)

// PlanIDs begin the ids of the plan view's handles.
const PlanIDs = "plan/"

// DrawPlan draws the plan seen from above, the lay pointing to the right,
// left of the lay up.
func (s *Scene) DrawPlan(b draw.Box) *draw.Drawing {
	if !b.Drawable() {
		return nil
	}
	l, c := s.PlanLayout(b), draw.New(b)
	origin := l.ToPx(0, 0)
	if s.Tree {
		s.farCircle(c, l, origin)
	}
	s.zones(c, l)
	s.bights(c, l)
	if s.Tree {
		s.planCrown(c, l)
	}
	lay := l.ToPx(s.size(), 0)
	c.Arrow("lay", "", origin, lay)
	c.Label(draw.Label{Text: s.doc.Say("{lay}"), Class: "label-note", At: lay, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioMust})
	if s.Tree {
		s.planTree(c, l, origin)
	}
	s.drawLegs(c, l.Plan)
	s.drawPoints(c, l.Plan)
	s.planLoads(c, l)
	s.planAngles(c, l)
	if s.Tree && s.hasCentre {
		at := l.Plan(s.centre)
		c.CentreMark(at)
		if s.letters {
			c.Label(draw.Label{Text: s.letter("y", s.metres(s.centre.Y)), Class: "label", At: at, Toward: draw.Pt{X: -1, Y: 1}, Gap: c.Grow(9), Prio: draw.PrioForce, Working: s.opens("tree.left_m")})
		}
	}
	s.scaleBar(c, l)
	for i := range s.Points {
		if p := &s.Points[i]; p.Known {
			c.Label(draw.Label{Text: p.ID, Class: "label-id", State: s.state(p), At: l.Plan(p.At), Toward: l.Plan(p.At).Minus(origin), Gap: c.Grow(9), Prio: draw.PrioMust})
		}
	}
	s.labelLegs(c, l.Plan, draw.PrioNote, c.Grow(80), true)
	if s.Tree {
		s.leanHandle(c, PlanIDs, l.Plan(s.OnStem(s.Height)), "xy")
	}
	s.pointHandles(c, PlanIDs, l.Plan, "xy")
	s.drawPeople(c, l)
	d := c.Finish(s.doc.Say("Plan view, seen from above; the {lay} points to the right"), s.describe())
	d.Frame, d.Legend = l.Frame(), s.legend(d.Shapes)
	return d
}

// treeLengths is how far from the stem nobody but the crew that fells stays:
// common practice, no source.
const treeLengths = 2

// farCircle is where two tree lengths end, labelled where it can be seen.
func (s *Scene) farCircle(c *draw.Canvas, l draw.Layout, origin draw.Pt) {
	r := treeLengths * s.Height * l.Scale
	c.Circle("far", "", origin, r)
	const n = 64
	last := origin.Plus(draw.Pt{X: r, Y: 0})
	for i := 1; i <= n; i++ {
		p := origin.Plus(sincosPt(2 * math.Pi * float64(i) / n).Times(r))
		if draw.Around(p, 0).Meets(draw.Rect{X0: 0, Y0: 0, X1: c.W, Y1: c.H}) {
			c.Avoid(last, p)
		}
		last = p
	}
	text := s.doc.Say("%s tree lengths %s", units.Decimal(treeLengths, -1), s.u.Quantity(treeLengths*s.Height, units.Metres, units.WayOf("keep_out_m")))
	name := draw.Label{Text: text, Class: "label-note", Gap: c.Grow(4), Prio: draw.PrioExtra, Only: true}
	for _, deg := range [...]float64{180, 0, 165, 195, 15, 345, 150, 210, 30, 330, 120, 240, 60, 300, 90, 270} {
		u := sincosPt(deg * rigging.Deg)
		p := origin.Plus(u.Times(r))
		if draw.Around(p, 0).Meets(draw.Rect{X0: 0, Y0: 0, X1: c.W, Y1: c.H}) {
			name.Stands = append(name.Stands, draw.Stand{At: p, Toward: u}, draw.Stand{At: p, Toward: u.Times(-1)})
		}
	}
	c.Label(name)
}

// bights hatches the area inside the angle of each turn of rope: whatever
// lets go there comes that way, and nobody stands in it.
func (s *Scene) bights(c *draw.Canvas, l draw.Layout) {
	gap := c.Grow(8)
	for i := range s.Lines {
		s.Lines[i].bightsAt(func(from, block, to Station) {
			t := [3]draw.Pt{l.Plan(from.At), l.Plan(block.At), l.Plan(to.At)}
			c.Polygon("bight", "", t[:]...)
			c.Hatch("hatch", t, gap)
			c.Path("hatch", "")
		})
	}
}

func (s *Scene) planCrown(c *draw.Canvas, l draw.Layout) {
	if !s.crown {
		c.Path("crown", "")
		return
	}
	flat := math.Hypot(s.Axis.X, s.Axis.Y)
	dir := draw.Pt{X: 1, Y: 0}
	if flat > 1e-9 {
		dir = draw.Pt{X: s.Axis.X, Y: -s.Axis.Y}.Unit()
	}
	// Seen along the plumb an ellipsoid leaning by λ is as long as the root
	// of (half·sin λ)² + (radius·cos λ)².
	along := math.Hypot(s.crownHalf*flat, s.crownR*s.Axis.Z)
	c.Crown(l.Plan(s.OnStem(s.crownH).Add(s.crownAt)), dir, along*l.Scale, s.crownR*l.Scale)
}

// planTree is the butt of the stem and where it leans.
func (s *Scene) planTree(c *draw.Canvas, l draw.Layout, origin draw.Pt) {
	r := max(s.radius(s.Stump)*l.Scale, c.Grow(3.5)) // smaller could not be seen
	c.Circle("stem", "", origin, r)
	c.Keep(draw.Around(origin, r))
	tip := l.Plan(s.OnStem(s.Height))
	d := tip.Minus(origin)
	if s.Lean <= 0 {
		c.Path("lean", "")
		c.Label(draw.Label{Text: s.leanText(), Class: "label", At: origin, Toward: draw.Pt{X: -1, Y: 0}, Gap: r + c.Grow(4), Prio: draw.PrioLength})
		return
	}
	// A lean too small to be seen keeps a short arrow for its direction; the
	// handle stays at the true place.
	dir := draw.Pt{X: math.Cos(s.leanB), Y: math.Sin(s.leanB)}
	if d.Length() < c.Grow(16) {
		tip = origin.Plus(dir.Times(c.Grow(16)))
	}
	c.Arrow("lean", "", origin, tip)
	text := s.leanText()
	if s.letters {
		text += ", " + s.letter("β", s.bearingText(s.leanB))
	}
	c.Label(draw.Label{Text: text, Class: "label", At: tip, Toward: dir, Prio: draw.PrioLength})
}

// planLoads draws how each anchor is pulled; the arrows' lengths are the
// horizontal parts, to one scale; the number is the whole load.
func (s *Scene) planLoads(c *draw.Canvas, l draw.Layout) {
	top := 0.0
	for i := range s.Points {
		if p := s.Points[i].Rep; p != nil && p.LoadKN.Known() {
			top = max(top, float64(p.LoadKN))
		}
	}
	perKN := 0.22 * min(c.H, c.W) / draw.RoundAbove(top)
	for i := range s.Points {
		p := &s.Points[i]
		if !p.Known {
			continue
		}
		if p.Rep == nil || !p.Rep.LoadKN.Known() || !p.Rep.BearingDeg.Known() || !p.Rep.HorizontalKN.Known() || p.Rep.LoadKN <= 0 {
			c.Path("load", s.state(p))
			c.Label(draw.Label{Class: "label-force"})
			continue
		}
		sin, cos := math.Sincos(float64(p.Rep.BearingDeg) * rigging.Deg)
		dir := draw.Pt{X: cos, Y: sin} // bearings run clockwise, y down
		at := l.Plan(p.At)
		tip := at.Plus(dir.Times(float64(p.Rep.HorizontalKN) * perKN))
		c.Arrow("load", s.state(p), at, tip)
		c.Label(draw.Label{Text: s.letter("R", s.u.Load(float64(p.Rep.LoadKN))), Class: "label-force", State: s.state(p), At: tip, Toward: dir, Prio: draw.PrioForce, Working: s.pointOpens(p, ".load_kN")})
	}
}

// planAngles marks the angle between the ropes at each block.
func (s *Scene) planAngles(c *draw.Canvas, l draw.Layout) {
	for i := range s.Lines {
		s.Lines[i].TurnsAt(func(from, block, to Station) {
			at := l.Plan(block.At)
			u, v := l.Plan(from.At).Minus(at), l.Plan(to.At).Minus(at)
			r := min(c.Grow(20), u.Length()*0.45, v.Length()*0.45)
			mid := c.Angle("angle", at, u, v, r)
			text := ""
			if g := Included(from.At, block.At, to.At); draw.Finite(g) {
				text = s.letter("γ", s.AngleOf(g))
			}
			// Inside the angle, but beside its half: there lies the arrow of
			// the load.
			quarter := math.Acos(min(max(mid.X*u.Unit().X+mid.Y*u.Unit().Y, -1), 1)) / 2
			out := min(max(c.Font*1.1/max(math.Sin(quarter), 0.1), r+c.Font*0.8), 0.7*min(u.Length(), v.Length()))
			l := draw.Label{Text: text, Class: "label", At: at.Plus(mid.Times(r)), Toward: mid, Gap: c.Grow(3), Prio: draw.PrioAngle, Working: s.pointOpens(&s.Points[block.Point], ".angle_deg")}
			for _, w := range [...]draw.Pt{v.Unit(), u.Unit()} {
				dir := mid.Plus(w).Unit()
				l.Stands = append(l.Stands, draw.Stand{At: at.Plus(dir.Times(out))}, draw.Stand{At: at.Plus(dir.Times(out * 1.3))})
			}
			c.Label(l)
		})
	}
}
