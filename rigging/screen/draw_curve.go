package screen

import (
	"math"
	"strings"

	"pullline/rigging"
	"pullline/wasm/units"
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

func (h chart) at(deg, kN float64) pt { return pt{h.x0 + deg*h.perDeg, h.y0 - kN*h.perKN} }

// drawCurve draws the pull needed against the turn of the tree.
func (s *scene) drawCurve(b Box) *Drawing {
	if !b.drawable() {
		return nil
	}
	c := newCanvas(b)
	p := &s.rep.Pull
	h := s.chart(c)
	s.axes(c, h)

	// From the back: the planned tension, the marks across, the curves.
	s.plannedLine(c, h)
	s.across(c, h, "face", s.faceDeg(), s.doc.Say("{scarf} closes "), "cut.face_opening_deg")
	s.across(c, h, "commit", float64(p.CommitDeg), "falls by itself from ", "pull.commit_deg")
	s.curvePath(c, h, "curve-hold", true)
	s.curvePath(c, h, "curve", false)
	s.peak(c, h)
	s.nowOn(c, h)
	return c.finish(s.doc.Say("Pull needed while the tree turns toward the {lay}"), s.describeCurve())
}

func (s *scene) faceDeg() float64 { return s.face / rigging.Deg }

// held says whether a hold line still counts at a turn: until the face
// closes and the hinge breaks.
func (s *scene) held(deg float64) bool { return !finite(s.face) || deg <= s.faceDeg()+1e-9 }

// chart takes the smallest round axes that hold everything.
func (s *scene) chart(c *canvas) chart {
	p := &s.rep.Pull
	deg, kN := 10.0, 0.0
	take := func(v float64) {
		if finite(v) && v > kN {
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
		if v > deg && finite(v) {
			deg = v
		}
	}
	most := 90.0
	if s.now != nil {
		deg, most = s.now.motion.Landing/rigging.Deg-4, 180
	}
	unit := s.u.Units[units.Kilonewtons].Size
	show := niceForce(kN * 1.08 / unit)
	if kN == 0 {
		show = niceForce(10 / unit)
	}
	h := chart{maxDeg: min(math.Ceil((deg+4)/10)*10, most), maxKN: show * unit}
	right, top, bottom := c.grow(14), c.font*1.9, c.font*3.3
	h.stepShow = tickStep(show, (c.h-top-bottom)/c.grow(30), 0)
	left := max(c.textWidth(h.figure(show)), c.textWidth(h.figure(show-h.stepShow)), c.textWidth(h.figure(h.stepShow))) + c.grow(9)
	h.x0, h.y0 = left, c.h-bottom
	h.perDeg = max(c.w-left-right, 20) / h.maxDeg
	h.perKN = max(c.h-top-bottom, 20) / h.maxKN
	h.stepDeg = tickStep(h.maxDeg, (c.w-left-right)/c.grow(48), 10)
	return h
}

// figure writes a number beside the axis of force.
func (h chart) figure(v float64) string {
	return units.Grouped(units.Decimal(units.RoundDigits(v, 6), -1))
}

// tickStep is the round step that makes no more ticks than asked for, but
// never finer than least.
func tickStep(span, most, least float64) float64 {
	want := max(span/max(most, 1), least)
	p := math.Pow(10, math.Floor(math.Log10(want)+1e-9))
	for _, k := range [...]float64{1, 2, 5} {
		if k*p >= want*(1-1e-9) {
			return k * p
		}
	}
	return 10 * p
}

// figure is a number at a tick: it stands where it stands, labels give way.
func (c *canvas) figure(text string, r rect, anchor string) {
	x := (r.x0 + r.x1) / 2
	switch anchor {
	case "end":
		x = r.x1
	case "start":
		x = r.x0
	}
	c.shapes = append(c.shapes, Shape{Kind: "text", Class: "tick", Text: text, Anchor: anchor,
		X: tenth(x), Y: tenth((r.y0+r.y1)/2 + c.font*0.35)})
	c.solid = append(c.solid, r)
}

func (s *scene) axes(c *canvas, h chart) {
	unit := s.u.Units[units.Kilonewtons].Size
	right, top := h.at(h.maxDeg, 0).x, h.at(0, h.maxKN).y
	line := c.font * emPerLine / 2
	for k := 1.0; k*h.stepShow <= h.maxKN/unit*(1+1e-9) && k < 50; k++ {
		y := h.at(0, k*h.stepShow*unit).y
		c.move(pt{h.x0, y})
		c.line(pt{right, y})
	}
	c.path("grid", "")
	for k := 0.0; k*h.stepDeg <= h.maxDeg*(1+1e-9) && k < 50; k++ {
		x := h.at(k*h.stepDeg, 0).x
		c.move(pt{x, h.y0})
		c.line(pt{x, h.y0 + c.grow(5)})
	}
	c.path("axis", "")
	c.move(pt{h.x0, top - c.grow(4)})
	c.line(pt{h.x0, h.y0})
	c.line(pt{right, h.y0})
	c.path("axis", "")
	c.avoid(pt{h.x0, h.y0}, pt{right, h.y0})
	c.avoid(pt{h.x0, h.y0}, pt{h.x0, top})
	for k := 0.0; k*h.stepShow <= h.maxKN/unit*(1+1e-9) && k < 50; k++ {
		v := k * h.stepShow
		text := h.figure(v)
		y := h.at(0, v*unit).y
		x := h.x0 - c.grow(6)
		c.figure(text, rect{x - c.textWidth(text), y - line, x, y + line}, "end")
	}
	y := h.y0 + c.grow(8.5)
	for k := 0.0; k*h.stepDeg <= h.maxDeg*(1+1e-9) && k < 50; k++ {
		text := units.Decimal(k*h.stepDeg, -1) + "°"
		x, w := h.at(k*h.stepDeg, 0).x, c.textWidth(text)/2
		c.figure(text, rect{x - w, y, x + w, y + 2*line}, "middle")
	}
	name := "turn of the tree"
	if s.doc.Letters {
		name += " φ"
	}
	y += c.font * 1.25
	c.figure(name, rect{right - c.textWidth(name), y, right, y + 2*line}, "end")
	name = s.letter("T", "pull,") + s.u.Suffix(units.Kilonewtons)
	c.figure(name, rect{c.grow(4), 1, c.grow(4) + c.textWidth(name), 1 + 2*line}, "start")
}

func (s *scene) plannedLine(c *canvas, h chart) {
	v := float64(s.rep.Pull.PlannedKN)
	if !finite(v) || v < 0 {
		c.path("planned", "")
		c.label(caption{class: "label-force"})
		return
	}
	a, b := h.at(0, v), h.at(h.maxDeg, v)
	c.segment("planned", "", a, b)
	c.label(caption{text: "planned " + s.letter("T", s.u.Load(v)), class: "label-force", at: b, along: a, slide: true, gap: c.grow(3), toward: pt{0, -1}, prio: prioMust, working: s.opens("pull.planned_kN")})
}

// across is an upright mark at a turn.
func (s *scene) across(c *canvas, h chart, class string, deg float64, text, working string) {
	if !finite(deg) || deg < 0 || deg > h.maxDeg {
		c.path(class, "")
		c.label(caption{})
		return
	}
	a, b := h.at(deg, 0), h.at(deg, h.maxKN)
	c.segment(class, "", a, b)
	side := pt{1, 0}
	if deg > h.maxDeg*0.6 {
		side.x = -1
	}
	c.label(caption{text: text + s.letter("φ", s.u.Quantity(deg, units.Degrees, units.WayOf(working))), class: "label", at: a, along: b, slide: true, toward: side, gap: c.grow(4), prio: prioLength, working: s.opens(working)})
}

// curvePath draws the pull needed, or the hold lines' tension; where a
// number is missing the curve is broken.
func (s *scene) curvePath(c *canvas, h chart, class string, hold bool) {
	pen := false
	last, some := pt{}, false
	step := max(len(s.rep.Pull.Curve)/400, 1)
	peak := 0.0
	shown := make([]pt, 0, 128) // where there is something above nought
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
		if !finite(v) || !finite(deg) || deg < 0 || deg > h.maxDeg || v < 0 {
			pen = false
			continue
		}
		p := h.at(deg, v)
		if pen {
			c.line(p)
			c.avoid(last, p)
		} else {
			c.move(p)
		}
		pen, last = true, p
		if v > 0 {
			peak, some = max(peak, v), true
			shown = append(shown, p)
		}
	}
	if hold && !some { // no hold line pulls: no line along the axis
		c.buf = c.buf[:0]
	}
	c.path(class, "")
	if hold {
		l := caption{class: "label", only: true, prio: prioNote}
		if some {
			l.text = "hold line up to " + s.u.Load(peak)
		}
		for _, k := range [...]float64{0.5, 0.65, 0.35, 0.8, 0.2} {
			if n := int(k * float64(len(shown))); n < len(shown) {
				l.spots = append(l.spots, spot{shown[n], pt{1, -1}}, spot{shown[n], pt{0, -1}}, spot{shown[n], pt{1, 1}})
			}
		}
		c.label(l)
	}
}

func (s *scene) peak(c *canvas, h chart) {
	p := &s.rep.Pull
	deg, kN := float64(p.PeakDeg), float64(p.PeakKN)
	if !finite(deg) || !finite(kN) || deg < 0 || deg > h.maxDeg || kN < 0 {
		c.circle("peak", "", pt{math.NaN(), 0}, 0)
		c.label(caption{})
		return
	}
	at := h.at(deg, kN)
	c.circle("peak", "", at, c.grow(5))
	c.solid = append(c.solid, around(at, c.grow(5)))
	c.label(caption{text: "peak " + s.letter("T", s.u.Load(kN)) + " at " + s.letter("φ", s.u.Quantity(deg, units.Degrees, units.Nearest)), class: "label-force", at: at, toward: pt{1, -0.5}, prio: prioForce, working: s.opens("pull.peak_kN")})
}

func (s *scene) describeCurve() string {
	p := &s.rep.Pull
	var b strings.Builder
	if !p.PeakKN.Known() || len(p.Curve) == 0 {
		return "The pull needed could not be computed from what is given."
	}
	b.WriteString("Standing, the tree needs a pull of " + s.u.Load(float64(p.StartKN)) + ". The most, " + s.u.Load(float64(p.PeakKN)) +
		", is needed at a turn of " + s.degrees(float64(p.PeakDeg)) + ".")
	if p.CommitDeg.Known() {
		b.WriteString(" From " + s.u.Result("pull.commit_deg", float64(p.CommitDeg)) + " on it falls by itself.")
	}
	if finite(s.face) {
		b.WriteString(s.doc.Say(" The {scarf} closes at ") + s.angleOf(s.face) + ".")
	}
	if p.PlannedKN.Known() {
		b.WriteString(" The planned tension is " + s.u.Load(float64(p.PlannedKN)) + ".")
	}
	hold := 0.0
	for i := range p.Curve {
		if v := float64(p.Curve[i].HoldKN); finite(v) && s.held(float64(p.Curve[i].Deg)) {
			hold = max(hold, v)
		}
	}
	if hold > 0 {
		b.WriteString(" Hold lines carry up to " + s.u.Load(hold) + ".")
	}
	return b.String()
}
