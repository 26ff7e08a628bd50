package scene

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A chart carries turn in degrees and force in kN to pixels.
type chart struct {
	x0, y0   float64 // px of turn 0 and force 0
	perDeg   float64
	perKN    float64
	maxDeg   float64
	maxKN    float64
	stepDeg  float64
	stepShow float64 // in the user's unit of force
}

func (h chart) at(deg, kN float64) draw.Pt {
	return draw.Pt{X: h.x0 + deg*h.perDeg, Y: h.y0 - kN*h.perKN}
}

// DrawCurve draws the pull needed against the turn of the tree.
func (s *Scene) DrawCurve(b draw.Box) *draw.Drawing {
	if !b.Drawable() {
		return nil
	}
	c := draw.New(b)
	p := &s.rep.Pull
	h := s.chart(c)
	s.axes(c, h)

	// From the back: the planned tension, the marks across, the curves.
	s.plannedLine(c, h)
	s.across(c, h, "face", s.faceDeg(), "{scarf} closes %s", "cut.face_opening_deg")
	s.across(c, h, "commit", float64(p.CommitDeg), "falls by itself from %s", "pull.commit_deg")
	s.curvePath(c, h, "curve-hold", true)
	s.curvePath(c, h, "curve", false)
	s.peak(c, h)
	s.nowOn(c, h)
	return c.Finish(s.doc.Say("Pull needed while the tree turns toward the {lay}"), s.describeCurve())
}

func (s *Scene) faceDeg() float64 { return s.face / rigging.Deg }

// held says whether a hold line still counts at a turn: until the face
// closes and the hinge breaks.
func (s *Scene) held(deg float64) bool { return !draw.Finite(s.face) || deg <= s.faceDeg()+1e-9 }

// chart takes the smallest round axes that hold everything.
func (s *Scene) chart(c *draw.Canvas) chart {
	p := &s.rep.Pull
	deg, kN := 10.0, 0.0
	take := func(v float64) {
		if draw.Finite(v) && v > kN {
			kN = v
		}
	}
	for i := range p.Curve {
		q := &p.Curve[i]
		if q.Deg.Known() && (q.KN > 0 || q.HoldKN > 0 && s.held(float64(q.Deg))) {
			deg = max(deg, float64(q.Deg))
		}
		take(float64(q.KN))
		if s.held(float64(q.Deg)) {
			take(float64(q.HoldKN))
		}
	}
	take(float64(p.PlannedKN))
	take(float64(p.PeakKN))
	for _, v := range [...]float64{float64(p.CommitDeg), s.faceDeg()} {
		if v > deg && draw.Finite(v) {
			deg = v
		}
	}
	most := 90.0
	if s.now != nil {
		deg, most = s.now.Motion.Landing/rigging.Deg-4, 180
	}
	unit := s.u.Units[units.Kilonewtons].Size
	show := draw.RoundAbove(kN * 1.08 / unit)
	if kN == 0 {
		show = draw.RoundAbove(10 / unit)
	}
	h := chart{maxDeg: min(math.Ceil((deg+4)/10)*10, most), maxKN: show * unit}
	right, top, bottom := c.Grow(14), c.Font*1.9, c.Font*3.3
	h.stepShow = draw.TickStep(show, (c.H-top-bottom)/c.Grow(30), 0)
	left := max(c.TextWidth(h.figure(show)), c.TextWidth(h.figure(show-h.stepShow)), c.TextWidth(h.figure(h.stepShow))) + c.Grow(9)
	h.x0, h.y0 = left, c.H-bottom
	h.perDeg = max(c.W-left-right, 20) / h.maxDeg
	h.perKN = max(c.H-top-bottom, 20) / h.maxKN
	h.stepDeg = draw.TickStep(h.maxDeg, (c.W-left-right)/c.Grow(48), 10)
	return h
}

// figure writes a number beside the axis of force.
func (h chart) figure(v float64) string {
	return units.Grouped(units.Decimal(units.RoundDigits(v, 6), -1))
}

func (s *Scene) axes(c *draw.Canvas, h chart) {
	unit := s.u.Units[units.Kilonewtons].Size
	right, top := h.at(h.maxDeg, 0).X, h.at(0, h.maxKN).Y
	line := c.Font * draw.EmPerLine / 2
	for k := 1.0; k*h.stepShow <= h.maxKN/unit*(1+1e-9) && k < 50; k++ {
		y := h.at(0, k*h.stepShow*unit).Y
		c.Move(draw.Pt{X: h.x0, Y: y})
		c.Line(draw.Pt{X: right, Y: y})
	}
	c.Path("grid", "")
	for k := 0.0; k*h.stepDeg <= h.maxDeg*(1+1e-9) && k < 50; k++ {
		x := h.at(k*h.stepDeg, 0).X
		c.Move(draw.Pt{X: x, Y: h.y0})
		c.Line(draw.Pt{X: x, Y: h.y0 + c.Grow(5)})
	}
	c.Path("axis", "")
	c.Move(draw.Pt{X: h.x0, Y: top - c.Grow(4)})
	c.Line(draw.Pt{X: h.x0, Y: h.y0})
	c.Line(draw.Pt{X: right, Y: h.y0})
	c.Path("axis", "")
	c.Avoid(draw.Pt{X: h.x0, Y: h.y0}, draw.Pt{X: right, Y: h.y0})
	c.Avoid(draw.Pt{X: h.x0, Y: h.y0}, draw.Pt{X: h.x0, Y: top})
	for k := 0.0; k*h.stepShow <= h.maxKN/unit*(1+1e-9) && k < 50; k++ {
		v := k * h.stepShow
		text := h.figure(v)
		y := h.at(0, v*unit).Y
		x := h.x0 - c.Grow(6)
		c.Figure(text, draw.Rect{X0: x - c.TextWidth(text), Y0: y - line, X1: x, Y1: y + line}, "end")
	}
	y := h.y0 + c.Grow(8.5)
	for k := 0.0; k*h.stepDeg <= h.maxDeg*(1+1e-9) && k < 50; k++ {
		text := units.Decimal(k*h.stepDeg, -1) + "°"
		x, w := h.at(k*h.stepDeg, 0).X, c.TextWidth(text)/2
		c.Figure(text, draw.Rect{X0: x - w, Y0: y, X1: x + w, Y1: y + 2*line}, "middle")
	}
	name := s.doc.Say("turn of the tree")
	if s.letters {
		name = s.doc.Say("turn of the tree φ")
	}
	y += c.Font * 1.25
	c.Figure(name, draw.Rect{X0: right - c.TextWidth(name), Y0: y, X1: right, Y1: y + 2*line}, "end")
	name = s.letter("T", s.doc.Say("pull, %s", s.u.Units[units.Kilonewtons].Name))
	c.Figure(name, draw.Rect{X0: c.Grow(4), Y0: 1, X1: c.Grow(4) + c.TextWidth(name), Y1: 1 + 2*line}, "start")
}

func (s *Scene) plannedLine(c *draw.Canvas, h chart) {
	v := float64(s.rep.Pull.PlannedKN)
	if !draw.Finite(v) || v < 0 {
		c.Path("planned", "")
		c.Label(draw.Label{Class: "label-force"})
		return
	}
	a, b := h.at(0, v), h.at(h.maxDeg, v)
	c.Segment("planned", "", a, b)
	c.Label(draw.Label{Text: s.doc.Say("planned %s", s.letter("T", s.u.Load(v))), Class: "label-force", At: b, Along: a, Slide: true, Gap: c.Grow(3), Toward: draw.Pt{X: 0, Y: -1}, Prio: draw.PrioMust, Working: s.opens("pull.planned_kN")})
}

// across is an upright mark at a turn.
func (s *Scene) across(c *draw.Canvas, h chart, class string, deg float64, text words.Text, working string) {
	if !draw.Finite(deg) || deg < 0 || deg > h.maxDeg {
		c.Path(class, "")
		c.Label(draw.Label{})
		return
	}
	a, b := h.at(deg, 0), h.at(deg, h.maxKN)
	c.Segment(class, "", a, b)
	side := draw.Pt{X: 1, Y: 0}
	if deg > h.maxDeg*0.6 {
		side.X = -1
	}
	c.Label(draw.Label{Text: s.doc.Say(text, s.letter("φ", s.u.Quantity(deg, units.Degrees, units.WayOf(working)))), Class: "label", At: a, Along: b, Slide: true, Toward: side, Gap: c.Grow(4), Prio: draw.PrioLength, Working: s.opens(working)})
}

// curvePath draws the pull needed, or the hold lines' tension; where a
// number is missing the curve is broken.
func (s *Scene) curvePath(c *draw.Canvas, h chart, class string, hold bool) {
	pen := false
	last, some := draw.Pt{}, false
	step := max(len(s.rep.Pull.Curve)/400, 1)
	peak := 0.0
	shown := make([]draw.Pt, 0, 128) // where there is something above nought
	for i := 0; i < len(s.rep.Pull.Curve); i += step {
		q := &s.rep.Pull.Curve[i]
		v := float64(q.KN)
		deg := float64(q.Deg)
		if hold {
			v = float64(q.HoldKN)
			if !s.held(deg) {
				break
			}
		}
		if !draw.Finite(v) || !draw.Finite(deg) || deg < 0 || deg > h.maxDeg || v < 0 {
			pen = false
			continue
		}
		p := h.at(deg, v)
		if pen {
			c.Line(p)
			c.Avoid(last, p)
		} else {
			c.Move(p)
		}
		pen, last = true, p
		if v > 0 {
			peak, some = max(peak, v), true
			shown = append(shown, p)
		}
	}
	if hold && !some { // no hold line pulls: no line along the axis
		c.Drop()
	}
	c.Path(class, "")
	if hold {
		l := draw.Label{Class: "label", Only: true, Prio: draw.PrioNote}
		if some {
			l.Text = s.doc.Say("{hold line} up to %s", s.u.Load(peak))
		}
		for _, k := range [...]float64{0.5, 0.65, 0.35, 0.8, 0.2} {
			if n := int(k * float64(len(shown))); n < len(shown) {
				l.Stands = append(l.Stands, draw.Stand{At: shown[n], Toward: draw.Pt{X: 1, Y: -1}}, draw.Stand{At: shown[n], Toward: draw.Pt{X: 0, Y: -1}}, draw.Stand{At: shown[n], Toward: draw.Pt{X: 1, Y: 1}})
			}
		}
		c.Label(l)
	}
}

func (s *Scene) peak(c *draw.Canvas, h chart) {
	p := &s.rep.Pull
	deg, kN := float64(p.PeakDeg), float64(p.PeakKN)
	if !draw.Finite(deg) || !draw.Finite(kN) || deg < 0 || deg > h.maxDeg || kN < 0 {
		c.Circle("peak", "", draw.Pt{X: math.NaN(), Y: 0}, 0)
		c.Label(draw.Label{})
		return
	}
	at := h.at(deg, kN)
	c.Circle("peak", "", at, c.Grow(5))
	c.Keep(draw.Around(at, c.Grow(5)))
	c.Label(draw.Label{Text: s.doc.Say("peak %s at %s", s.letter("T", s.u.Load(kN)), s.letter("φ", s.u.Quantity(deg, units.Degrees, units.Nearest))), Class: "label-force", At: at, Toward: draw.Pt{X: 1, Y: -0.5}, Prio: draw.PrioForce, Working: s.opens("pull.peak_kN")})
}

func (s *Scene) describeCurve() string {
	p := &s.rep.Pull
	if !p.PeakKN.Known() || len(p.Curve) == 0 {
		return s.doc.Say("The pull needed cannot be computed from what is given.")
	}
	out := s.doc.Say("Standing, the tree needs a pull of %s. The most, %s, is needed at a turn of %s.", s.u.Load(float64(p.StartKN)), s.u.Load(float64(p.PeakKN)), s.degrees(float64(p.PeakDeg)))
	if p.CommitDeg.Known() {
		out = words.Join(out, s.doc.Say("From %s on it falls by itself.", s.u.Result("pull.commit_deg", float64(p.CommitDeg))))
	}
	if draw.Finite(s.face) {
		out = words.Join(out, s.doc.Say("The {scarf} closes at %s.", s.AngleOf(s.face)))
	}
	if p.PlannedKN.Known() {
		out = words.Join(out, s.doc.Say("The planned tension is %s.", s.u.Load(float64(p.PlannedKN))))
	}
	hold := 0.0
	for i := range p.Curve {
		if v := float64(p.Curve[i].HoldKN); draw.Finite(v) && s.held(float64(p.Curve[i].Deg)) {
			hold = max(hold, v)
		}
	}
	if hold > 0 {
		out = words.Join(out, s.doc.Say("{Hold line}s carry up to %s.", s.u.Load(hold)))
	}
	return out
}
