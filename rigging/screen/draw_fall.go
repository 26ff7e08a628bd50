package screen

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
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
func (s *scene) fallLayout(b Box) layout {
	h, f := s.size(), fontFor(b)
	const side, above, below = 0.8, 1.5, 2.9 // margins, in the height of the text
	e := extent{left: 0.35 * h, right: 1.12 * h, up: h}
	lines := e
	for i := range s.points {
		if p := &s.points[i]; p.known {
			lines.right, lines.left = max(lines.right, p.at.X*beyond), max(lines.left, -p.at.X*beyond)
			e.down = max(e.down, min(-p.at.Z*beyond, 0.4*h))
		}
	}
	room := (b.W-2*side*f)/max(b.H-(above+below)*f, 20)*(e.up+e.down) - e.left - e.right
	for _, way := range [...]struct{ has, wants *float64 }{{&e.right, &lines.right}, {&e.left, &lines.left}} {
		more := min(*way.wants-*way.has, max(room, 0))
		*way.has += more
		room -= more
	}
	return fit(b, e, f*side, f*side, f*above, f*below, true)
}

// topHandle is the id of the handle at the top of the falling tree.
const topHandle = "fall/top"

// drawFall draws the tree on its way, seen from the right of the lay.
func (s *scene) drawFall(b Box) *Drawing {
	if !b.drawable() || !s.tree {
		return nil
	}
	m := s.now.motion
	l, c := s.fallLayout(b), newCanvas(b)
	hinge := rigging.Vec{X: 0, Y: 0, Z: s.stump}
	// The top at a turn.
	tip := func(turn float64) pt {
		return l.side(hinge.Add(s.axis.Turned(turn - s.turned).Scale(s.h - s.stump)))
	}
	c.segment("ground", "", pt{0, l.oy}, pt{b.W, l.oy})
	s.drops(c, l)
	c.segment("before", "", l.side(hinge), tip(0))
	r := m.Reach * l.scale
	c.move(tip(0))
	c.arc(r, r, 0, false, true, tip(m.Landing))
	c.path("path", "")
	for i := range s.now.events {
		e := &s.now.events[i]
		at := tip(e.Deg * rigging.Deg)
		switch e.ID {
		case "stand":
			continue
		case "land":
			d := c.grow(7)
			c.move(at.plus(pt{-d, -d}))
			c.line(at.plus(pt{d, d}))
			c.move(at.plus(pt{-d, d}))
			c.line(at.plus(pt{d, -d}))
			c.path("land", "")
			c.solid = append(c.solid, around(at, d))
			c.label(caption{text: s.u.Quantity(m.Top.X, units.Metres, units.Up), class: "label-force", at: at, toward: pt{0, 1}, gap: c.grow(9), prio: prioMust, working: "reach"})
		default:
			if e.ID == "slack" && e.Deg*rigging.Deg-m.Commit < 8*rigging.Deg {
				continue // one mark would lie on the other
			}
			c.circle("mark", "", at, c.grow(4))
			c.solid = append(c.solid, around(at, c.grow(4)))
			c.label(caption{text: e.Label, class: "label", at: at, toward: pt{1, -0.6}, gap: c.grow(8), prio: prioLength})
		}
	}
	s.sideCrown(c, l)
	s.sideStem(c, l)
	s.drawLegs(c, l.side)
	s.drawPoints(c, l.side)
	for i := range s.lines {
		for _, st := range s.lines[i].stations {
			if st.stem && st.known {
				at := l.side(st.at)
				c.circle("attach", "", at, c.grow(3.5))
				c.solid = append(c.solid, around(at, c.grow(3.5)))
			}
		}
	}
	if s.hasCentre {
		at := l.side(s.centre)
		c.arrow("weight", "", at, at.plus(pt{0, min(0.2*c.h, max(l.oy-at.y, c.grow(16)))}))
		c.centreMark(at)
	}
	s.sideNames(c, l)
	s.scaleBar(c, l)
	s.layNote(c)
	top := tip(s.turned)
	c.handle(Handle{ID: topHandle, Label: "Top of the tree: turned " + s.turnText(), X: top.x, Y: top.y, Axes: "x", Paths: []string{}})
	d := c.finish(s.doc.Say("The fall, seen from the right of the {lay}"), s.describeFall())
	d.Legend = legend(d.Shapes)
	return d
}

// turnOf is the turn at which the top stands in the direction of a place in
// the picture.
func (s *scene) turnOf(b Box, p pt) float64 {
	l := s.fallLayout(b)
	d := p.minus(l.side(rigging.Vec{X: 0, Y: 0, Z: s.stump}))
	start := s.axis.Turned(-s.turned)
	turn := math.Atan2(d.x, -d.y) - math.Atan2(start.X, start.Z)
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
func (s *scene) nowOn(c *canvas, h chart) {
	if s.now == nil {
		return
	}
	deg := s.turned / rigging.Deg
	at := h.at(deg, s.now.need)
	c.segment("now", "", h.at(deg, 0), h.at(deg, h.maxKN))
	c.circle("peak", "", at, c.grow(5))
	c.solid = append(c.solid, around(at, c.grow(5)))
}

// drawCourse draws the turn over time, with the place where the tree is.
func (s *scene) drawCourse(b Box) *Drawing {
	if !b.drawable() {
		return nil
	}
	m, c := s.now.motion, newCanvas(b)
	last := m.Duration()
	f := frame{highX: last, highY: math.Ceil(m.Landing/rigging.Deg/15) * 15}
	f.place(c, "time,\u00a0s", "turn of the tree,\u00a0°")
	at := func(st *rigging.MotionStep) pt { return f.at(st.Time, st.Turn/rigging.Deg) }
	for i := range s.now.events {
		e := &s.now.events[i]
		if e.ID == "commit" || e.ID == "face" {
			a, z := f.at(e.TimeS, 0), f.at(e.TimeS, f.highY)
			side := pt{1, 0}
			if e.TimeS > 0.5*last {
				side = pt{-1, 0}
			}
			c.segment(e.ID, "", a, z)
			c.label(caption{text: e.Label, class: "label", at: a, along: z, slide: true, toward: side, gap: c.grow(4), prio: prioLength})
		}
	}
	before := at(&m.Steps[0])
	c.move(before)
	for i := 1; i < len(m.Steps); i++ {
		// The first steps out of rest are too short to be seen.
		if p := at(&m.Steps[i]); p.minus(before).length() > 2 || i == len(m.Steps)-1 {
			c.line(p)
			c.avoid(before, p)
			before = p
		}
	}
	c.path("curve", "")
	here := at(&s.now.step)
	c.segment("now", "", pt{here.x, f.y0}, here)
	c.circle("peak", "", here, c.grow(5))
	c.solid = append(c.solid, around(here, c.grow(5)))
	c.label(caption{text: s.turnText(), class: "label-force", at: here, toward: pt{-1, -1}, prio: prioMust})
	return c.finish("Turn of the tree over time", "From standing to the ground it takes "+seconds(last, units.Nearest)+". After "+seconds(s.now.step.Time, units.Nearest)+" it has turned "+s.turnText()+".")
}
