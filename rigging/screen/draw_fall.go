package screen

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A fallNow is the tree at one turn of its fall.
type fallNow struct {
	motion  *rigging.Motion
	step    rigging.MotionStep
	need    float64   // kN, the pull needed
	shorter []float64 // m, of each line
	events  []FallEvent
}

// fallScene is the scene with the tree turned.
func fallScene(doc *draft.Plan, rep *plan.Report, u *units.System, now *fallNow) *scene {
	s := newScene(doc, rep, u)
	s.turned, s.now = now.step.Turn, now
	// A fall's report is without working; what was solved has these steps.
	s.steps = map[string]*plan.Working{"pull.planned_kN": {}, "pull.peak_kN": {}, "pull.commit_deg": {}}
	hinge := rigging.Vec{X: 0, Y: 0, Z: s.stump}
	s.axis = s.axis.Turned(s.turned)
	s.centre = hinge.Add(s.centre.Sub(hinge).Turned(s.turned))
	s.crownAt = s.crownAt.Turned(s.turned)
	place := func(st *station) {
		if st.stem && st.known {
			st.at = s.onStem(st.h)
		}
	}
	_, atSlack := now.motion.Lines(now.motion.Slack)
	for i := range s.lines {
		l := &s.lines[i]
		for k := range l.stations {
			place(&l.stations[k])
		}
		for k := range l.legs {
			leg := &l.legs[k]
			place(&leg.from)
			place(&leg.to)
			if l.hold || i >= len(now.shorter) || !(s.turned > now.motion.Slack) || leg.from.stem == leg.to.stem || leg.tackle {
				continue
			}
			leg.more = max(0, now.shorter[i]-atSlack[i])
		}
	}
	return s
}

// fallLayout holds the whole fall, and of the lines as much as there is room
// for beside it: it stands still while the tree turns.
func (s *scene) fallLayout(b draw.Box) draw.Layout {
	h, f := s.size(), draw.FontFor(b)
	const side, above, below = 0.8, 1.5, 2.9 // margins, in the height of the text
	e := draw.Extent{Left: 0.35 * h, Right: 1.12 * h, Up: h}
	lines := e
	for i := range s.points {
		if p := &s.points[i]; p.known {
			lines.Right, lines.Left = max(lines.Right, p.at.X*draw.Beyond), max(lines.Left, -p.at.X*draw.Beyond)
			e.Down = max(e.Down, min(-p.at.Z*draw.Beyond, 0.4*h))
		}
	}
	room := (b.W-2*side*f)/max(b.H-(above+below)*f, 20)*(e.Up+e.Down) - e.Left - e.Right
	for _, way := range [...]struct{ has, wants *float64 }{{&e.Right, &lines.Right}, {&e.Left, &lines.Left}} {
		more := min(*way.wants-*way.has, max(room, 0))
		*way.has += more
		room -= more
	}
	return draw.Fit(b, e, f*side, f*side, f*above, f*below, true)
}

// topHandle is the id of the handle at the top of the falling tree.
const topHandle = "fall/top"

// drawFall draws the tree on its way, seen from the right of the lay.
func (s *scene) drawFall(b draw.Box) *draw.Drawing {
	if !b.Drawable() || !s.tree {
		return nil
	}
	m := s.now.motion
	l, c := s.fallLayout(b), draw.New(b)
	hinge := rigging.Vec{X: 0, Y: 0, Z: s.stump}
	// The top at a turn.
	tip := func(turn float64) draw.Pt {
		return l.Side(hinge.Add(s.axis.Turned(turn - s.turned).Scale(s.h - s.stump)))
	}
	c.Segment("ground", "", draw.Pt{X: 0, Y: l.OY}, draw.Pt{X: b.W, Y: l.OY})
	s.drops(c, l)
	c.Segment("before", "", l.Side(hinge), tip(0))
	r := m.Reach * l.Scale
	c.Move(tip(0))
	c.Arc(r, r, 0, false, true, tip(m.Landing))
	c.Path("path", "")
	for i := range s.now.events {
		e := &s.now.events[i]
		at := tip(e.Deg * rigging.Deg)
		switch e.ID {
		case "stand":
			continue
		case "land":
			d := c.Grow(7)
			c.Move(at.Plus(draw.Pt{X: -d, Y: -d}))
			c.Line(at.Plus(draw.Pt{X: d, Y: d}))
			c.Move(at.Plus(draw.Pt{X: -d, Y: d}))
			c.Line(at.Plus(draw.Pt{X: d, Y: -d}))
			c.Path("land", "")
			c.Keep(draw.Around(at, d))
			c.Label(draw.Label{Text: s.u.Quantity(m.Top.X, units.Metres, units.Up), Class: "label-force", At: at, Toward: draw.Pt{X: 0, Y: 1}, Gap: c.Grow(9), Prio: draw.PrioMust, Working: "reach"})
		default:
			if e.ID == "slack" && e.Deg*rigging.Deg-m.Commit < 8*rigging.Deg {
				continue // one mark would lie on the other
			}
			c.Circle("mark", "", at, c.Grow(4))
			c.Keep(draw.Around(at, c.Grow(4)))
			c.Label(draw.Label{Text: e.Label, Class: "label", At: at, Toward: draw.Pt{X: 1, Y: -0.6}, Gap: c.Grow(8), Prio: draw.PrioLength})
		}
	}
	s.sideCrown(c, l)
	s.sideStem(c, l)
	s.drawLegs(c, l.Side)
	s.drawPoints(c, l.Side)
	for i := range s.lines {
		for _, st := range s.lines[i].stations {
			if st.stem && st.known {
				at := l.Side(st.at)
				c.Circle("attach", "", at, c.Grow(3.5))
				c.Keep(draw.Around(at, c.Grow(3.5)))
			}
		}
	}
	if s.hasCentre {
		at := l.Side(s.centre)
		c.Arrow("weight", "", at, at.Plus(draw.Pt{X: 0, Y: min(0.2*c.H, max(l.OY-at.Y, c.Grow(16)))}))
		c.CentreMark(at)
	}
	s.sideNames(c, l)
	s.scaleBar(c, l)
	s.layNote(c)
	top := tip(s.turned)
	c.Handle(draw.Handle{ID: topHandle, Label: "Top of the tree: turned " + s.turnText(), X: top.X, Y: top.Y, Axes: "x", Paths: []string{}})
	d := c.Finish(s.doc.Say("The fall, seen from the right of the {lay}"), s.describeFall())
	d.Legend = legend(d.Shapes)
	return d
}

// turnOf is the turn at which the top stands in the direction of a place in
// the picture.
func (s *scene) turnOf(b draw.Box, p draw.Pt) float64 {
	l := s.fallLayout(b)
	d := p.Minus(l.Side(rigging.Vec{X: 0, Y: 0, Z: s.stump}))
	start := s.axis.Turned(-s.turned)
	turn := math.Atan2(d.X, -d.Y) - math.Atan2(start.X, start.Z)
	if turn < -math.Pi/2 {
		turn += 2 * math.Pi
	}
	return turn
}

func (s *scene) turnText() string { return s.degrees(s.turned / rigging.Deg) }

func (s *scene) describeFall() string {
	m, at := s.now.motion, &s.now.step
	text := "The tree has turned " + s.turnText() + s.doc.Say(" toward the {lay}, ") + seconds(at.Time, units.Nearest) +
		" after the pull began; its top moves at " + s.u.Quantity(at.Rate*m.Reach, units.MetresPerSecond, units.Up) + ". "
	if s.now.need > 0 {
		text += "The pull needed here is " + s.u.Load(s.now.need) + "."
	} else {
		text += "It needs no pull here."
	}
	for i := range s.now.events {
		if e := &s.now.events[i]; e.ID != "stand" {
			text += " " + words.Capital(e.Label) + ": at " + e.Text + "."
		}
	}
	return text
}

// nowOn marks where the tree stands on the curve of the pull.
func (s *scene) nowOn(c *draw.Canvas, h chart) {
	if s.now == nil {
		return
	}
	deg := s.turned / rigging.Deg
	at := h.at(deg, s.now.need)
	c.Segment("now", "", h.at(deg, 0), h.at(deg, h.maxKN))
	c.Circle("peak", "", at, c.Grow(5))
	c.Keep(draw.Around(at, c.Grow(5)))
}

// drawCourse draws the turn over time, with the place where the tree is.
func (s *scene) drawCourse(b draw.Box) *draw.Drawing {
	if !b.Drawable() {
		return nil
	}
	m, c := s.now.motion, draw.New(b)
	last := m.Duration()
	f := draw.Axes{HighX: last, HighY: math.Ceil(m.Landing/rigging.Deg/15) * 15}
	f.Place(c, "time,\u00a0s", "turn of the tree,\u00a0°")
	at := func(st *rigging.MotionStep) draw.Pt { return f.At(st.Time, st.Turn/rigging.Deg) }
	for i := range s.now.events {
		e := &s.now.events[i]
		if e.ID == "commit" || e.ID == "face" {
			a, z := f.At(e.TimeS, 0), f.At(e.TimeS, f.HighY)
			side := draw.Pt{X: 1, Y: 0}
			if e.TimeS > 0.5*last {
				side = draw.Pt{X: -1, Y: 0}
			}
			c.Segment(e.ID, "", a, z)
			c.Label(draw.Label{Text: e.Label, Class: "label", At: a, Along: z, Slide: true, Toward: side, Gap: c.Grow(4), Prio: draw.PrioLength})
		}
	}
	before := at(&m.Steps[0])
	c.Move(before)
	for i := 1; i < len(m.Steps); i++ {
		// The first steps out of rest are too short to be seen.
		if p := at(&m.Steps[i]); p.Minus(before).Length() > 2 || i == len(m.Steps)-1 {
			c.Line(p)
			c.Avoid(before, p)
			before = p
		}
	}
	c.Path("curve", "")
	here := at(&s.now.step)
	c.Segment("now", "", draw.Pt{X: here.X, Y: f.Y0}, here)
	c.Circle("peak", "", here, c.Grow(5))
	c.Keep(draw.Around(here, c.Grow(5)))
	c.Label(draw.Label{Text: s.turnText(), Class: "label-force", At: here, Toward: draw.Pt{X: -1, Y: -1}, Prio: draw.PrioMust})
	return c.Finish("Turn of the tree over time", "From standing to the ground it takes "+seconds(last, units.Nearest)+". After "+seconds(s.now.step.Time, units.Nearest)+" it has turned "+s.turnText()+".")
}
