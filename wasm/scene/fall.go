package scene

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Falling is the tree at one turn of its fall.
type Falling struct {
	Motion  *rigging.Motion
	Step    rigging.MotionStep
	Need    float64   // kN, the pull needed
	Shorter []float64 // m, of each line
	Events  []Event
}

// FallScene is the scene with the tree turned.
func FallScene(doc *draft.Plan, rep *plan.Report, u *units.System, now *Falling) *Scene {
	s := New(doc, rep, u)
	s.turned, s.now = now.Step.Turn, now
	// A fall's report is without working; what was solved has these steps.
	s.steps = map[string]*plan.Working{"pull.planned_kN": {}, "pull.peak_kN": {}, "pull.commit_deg": {}}
	hinge := rigging.Vec{X: 0, Y: 0, Z: s.Stump}
	s.Axis = s.Axis.Turned(s.turned)
	s.centre = hinge.Add(s.centre.Sub(hinge).Turned(s.turned))
	s.crownAt = s.crownAt.Turned(s.turned)
	place := func(st *Station) {
		if st.Stem && st.Known {
			st.At = s.OnStem(st.H)
		}
	}
	_, atSlack := now.Motion.Lines(now.Motion.Slack)
	for i := range s.Lines {
		l := &s.Lines[i]
		for k := range l.Stations {
			place(&l.Stations[k])
		}
		for k := range l.Legs {
			leg := &l.Legs[k]
			place(&leg.From)
			place(&leg.To)
			if l.Hold || i >= len(now.Shorter) || !(s.turned > now.Motion.Slack) || leg.From.Stem == leg.To.Stem || leg.tackle {
				continue
			}
			leg.more = max(0, now.Shorter[i]-atSlack[i])
		}
	}
	return s
}

// fallLayout holds the whole fall, and of the lines as much as there is room
// for beside it: it stands still while the tree turns.
func (s *Scene) fallLayout(b draw.Box) draw.Layout {
	h, f := s.size(), draw.FontFor(b)
	const side, above, below = 0.8, 1.5, 2.9 // margins, in the height of the text
	e := draw.Extent{Left: 0.35 * h, Right: 1.12 * h, Up: h}
	lines := e
	for i := range s.Points {
		if p := &s.Points[i]; p.Known {
			lines.Right, lines.Left = max(lines.Right, p.At.X*draw.Beyond), max(lines.Left, -p.At.X*draw.Beyond)
			e.Down = max(e.Down, min(-p.At.Z*draw.Beyond, 0.4*h))
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

// TopHandle is the id of the handle at the top of the falling tree.
const TopHandle = "fall/top"

// DrawFall draws the tree on its way, seen from the right of the lay.
func (s *Scene) DrawFall(b draw.Box) *draw.Drawing {
	if !b.Drawable() || !s.Tree {
		return nil
	}
	m := s.now.Motion
	l, c := s.fallLayout(b), draw.New(b)
	hinge := rigging.Vec{X: 0, Y: 0, Z: s.Stump}
	// The top at a turn.
	tip := func(turn float64) draw.Pt {
		return l.Side(hinge.Add(s.Axis.Turned(turn - s.turned).Scale(s.Height - s.Stump)))
	}
	c.Segment("ground", "", draw.Pt{X: 0, Y: l.OY}, draw.Pt{X: b.W, Y: l.OY})
	s.drops(c, l)
	c.Segment("before", "", l.Side(hinge), tip(0))
	r := m.Reach * l.Scale
	c.Move(tip(0))
	c.Arc(r, r, 0, false, true, tip(m.Landing))
	c.Path("path", "")
	for i := range s.now.Events {
		e := &s.now.Events[i]
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
	for i := range s.Lines {
		for _, st := range s.Lines[i].Stations {
			if st.Stem && st.Known {
				at := l.Side(st.At)
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
	c.Handle(draw.Handle{ID: TopHandle, Label: s.doc.Say("Top of the tree: turned %s", s.TurnText()), X: top.X, Y: top.Y, Axes: "x", Paths: []string{}})
	d := c.Finish(s.doc.Say("The fall, seen from the right of the {lay}"), s.describeFall())
	d.Legend = s.legend(d.Shapes)
	return d
}

// TurnOf is the turn at which the top stands in the direction of a place in
// the picture.
func (s *Scene) TurnOf(b draw.Box, p draw.Pt) float64 {
	l := s.fallLayout(b)
	d := p.Minus(l.Side(rigging.Vec{X: 0, Y: 0, Z: s.Stump}))
	start := s.Axis.Turned(-s.turned)
	turn := math.Atan2(d.X, -d.Y) - math.Atan2(start.X, start.Z)
	if turn < -math.Pi/2 {
		turn += 2 * math.Pi
	}
	return turn
}

// TurnText is how far the tree has turned, in words.
func (s *Scene) TurnText() string { return s.degrees(s.turned / rigging.Deg) }

func (s *Scene) describeFall() string {
	m, at := s.now.Motion, &s.now.Step
	text := s.doc.Say("The tree has turned %s toward the {lay}, %s after the pull began; its top moves at %s.", s.TurnText(), Seconds(at.Time, units.Nearest), s.u.Quantity(at.Rate*m.Reach, units.MetresPerSecond, units.Up))
	if s.now.Need > 0 {
		text = words.Join(text, s.doc.Say("The pull needed here is %s.", s.u.Load(s.now.Need)))
	} else {
		text = words.Join(text, s.doc.Say("It needs no pull here."))
	}
	for i := range s.now.Events {
		if e := &s.now.Events[i]; e.ID != "stand" {
			text = words.Join(text, s.doc.Say("%s: at %s.", words.Capital(e.Label), e.Text))
		}
	}
	return text
}

// nowOn marks where the tree stands on the curve of the pull.
func (s *Scene) nowOn(c *draw.Canvas, h chart) {
	if s.now == nil {
		return
	}
	deg := s.turned / rigging.Deg
	at := h.at(deg, s.now.Need)
	c.Segment("now", "", h.at(deg, 0), h.at(deg, h.maxKN))
	c.Circle("peak", "", at, c.Grow(5))
	c.Keep(draw.Around(at, c.Grow(5)))
}

// DrawCourse draws the turn over time, with the place where the tree is.
func (s *Scene) DrawCourse(b draw.Box) *draw.Drawing {
	if !b.Drawable() {
		return nil
	}
	m, c := s.now.Motion, draw.New(b)
	last := m.Duration()
	f := draw.Axes{HighX: last, HighY: math.Ceil(m.Landing/rigging.Deg/15) * 15}
	f.Place(c, s.doc.Say("time,\u00a0s"), s.doc.Say("turn of the tree,\u00a0°"))
	at := func(st *rigging.MotionStep) draw.Pt { return f.At(st.Time, st.Turn/rigging.Deg) }
	for i := range s.now.Events {
		e := &s.now.Events[i]
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
	here := at(&s.now.Step)
	c.Segment("now", "", draw.Pt{X: here.X, Y: f.Y0}, here)
	c.Circle("peak", "", here, c.Grow(5))
	c.Keep(draw.Around(here, c.Grow(5)))
	c.Label(draw.Label{Text: s.TurnText(), Class: "label-force", At: here, Toward: draw.Pt{X: -1, Y: -1}, Prio: draw.PrioMust})
	return c.Finish(s.doc.Say("Turn of the tree over time"), s.doc.Say("From standing to the ground it takes %s. After %s it has turned %s.", Seconds(last, units.Nearest), Seconds(s.now.Step.Time, units.Nearest), s.TurnText()))
}

// A Event is a turn at which something changes.
type Event struct {
	ID    string  `json:"id"` // stand, commit, slack, face, land
	Label string  `json:"label"`
	Text  string  `json:"text"` // turn and time
	Deg   float64 `json:"deg"`
	TimeS float64 `json:"time_s"`
}

// Seconds writes a time: what is left is rounded down.
func Seconds(s float64, way units.Direction) string {
	if !draw.Finite(s) {
		return units.None
	}
	return units.Decimal(units.Round(s, 0.1, way), 1) + "\u00a0s"
}
