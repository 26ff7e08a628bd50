package bench

import (
	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// sag: a line hangs through under its own weight, less the tighter it
// is, but never not at all.
var sag = bench{
	id:    "sag",
	title: "Sag and tension",
	idea: "A rope sags under its own weight. Twice the tension halves the sag; twice the span makes it four times as deep; " +
		"no tension removes it altogether. At its ends the rope pulls off the straight line.",
	inputs: []input{
		{key: "tension_kN", label: "Tension along the line", dim: units.Kilonewtons, low: 0.05, high: 300, start: "3", step: 0.5, fine: 0.05},
		{key: "mass_kgpm", label: "Rope mass per length", dim: units.KilogramsPerMetre, low: 0.01, high: 10, start: "0.5", step: 0.05, fine: 0.01, suggest: &offer.RopeMasses},
		{key: "span_m", label: "Level distance between the ends", dim: units.Metres, low: 2, high: 300, start: "40", step: 1, fine: 0.1},
		{key: "rise_m", label: "One end higher by", dim: units.Metres, low: 0, high: 60, start: "0", step: 1, fine: 0.1},
	},
	question: "How far does it sag in the middle?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(sagState)
		if s.slack() {
			return marking.Wanted{}
		}
		mid := s.sag.Mid / rigging.CM
		return marking.Wanted{Value: mid, Dim: units.Centimetres, Way: units.Up, Tolerance: 0.1, Slips: []marking.Slip{
			{Value: mid / rigging.G, Says: "That is with the mass of the rope for its weight: times 9.81."},
			{Value: 2 * mid, Says: "That is as if the whole weight hung in the middle: spread along the line it sags half as deep."},
			{Value: mid / 4, Says: "That is with half the span for the span."},
		}}
	},
	solve: func(b *work) {
		s := sagState{chord: rigging.Vec{X: b.in["span_m"], Z: b.in["rise_m"]}, mass: b.in["mass_kgpm"], tension: b.in["tension_kN"] * rigging.KN}
		s.length = s.chord.Norm()
		s.weight = s.mass * rigging.G * s.length
		s.sag = rigging.Catenary(s.chord, s.mass, s.tension)
		b.kept = s
		if s.slack() {
			b.lacks = b.Say("The rope weighs more than its tension: it hangs slack, and there is no number for that. Give it more tension.")
			return
		}
		b.fact("sag", "Sag in the middle", b.sag(s.sag.Mid))
		b.fact("end", "Its ends pull off the straight line by up to", b.u.Quantity(s.sag.EndAngle/rigging.Deg, units.Degrees, units.Up))
		level := s.tension * s.chord.X / s.length
		per := s.mass * rigging.G
		c := level / per
		w := parts.Let("w", units.Significant(per, 4)+"\u00a0N/m")
		length, tension := parts.Let("C", b.metres(s.length)).Of("straight from end to end"), parts.Let("T", b.u.Quantity(s.tension/rigging.KN, units.Kilonewtons, units.Nearest)).Of("tension")
		ends := []parts.Value{parts.Let("c", b.metres(c)), parts.Let("L", b.metres(s.chord.X)).Of("level distance"), parts.Let("h", b.metres(s.chord.Z)).Of("one end higher")}
		b.step("metre", "Weight of a metre of rope", "w = m·g", units.Significant(per, 4)+"\u00a0N/m", "by definition", parts.Let("m", b.u.Quantity(s.mass, units.KilogramsPerMetre, units.Nearest)).Of("mass"), parts.Let("g", "9.80665\u00a0m/s²"))
		b.step("shallow", "Approximation for a taut rope", "f ≈ w·C²/(8·T)", b.sag(per*s.length*s.length/(8*s.tension)), "parabola, any statics text",
			w, length, tension)
		b.step("sag", "Exactly, by the catenary", "f = c·cosh(k)·(cosh(L/(2·c)) − 1), c = T·L/(C·w), k = arsinh(h/(2·c·sinh(L/(2·c))))", b.sag(s.sag.Mid), "catenary, any statics text",
			ends...)
		b.step("end", "Angle at the ends against the straight line", "ψ = the greater of arctan(sinh(k + L/(2·c))) − ε and ε − arctan(sinh(k − L/(2·c))), ε = arctan(h/L), k as above", b.u.Quantity(s.sag.EndAngle/rigging.Deg, units.Degrees, units.Up), "catenary, any statics text",
			ends...)
		weight := b.u.Load(s.weight / rigging.KN)
		b.worked("weight", "The rope weighs", weight, "G = w·C", "by definition; taken as long as the straight line", w, length)
		b.worked("share", "Share of its tension", units.Decimal(units.Round(s.weight/s.tension*100, 0.1, units.Up), -1)+"\u00a0%", "G/T", "proportion", parts.Let("G", weight), tension)
		if s.weight > s.tension/rigging.SagCounts {
			b.note("heavy", "The rope weighs more than a twentieth of its tension. A plan leaves the sag out: do not trust its angles here.", "catenary")
		}
		b.note("slack", "Take the slack out slowly: a line that comes taut with a jerk sees far more than the pull, and that is not in these numbers.", words.CommonPractice)
		b.leftOut("Left out: wind and ice on the rope, and that it stretches.")
	},
	draw: drawSag,
	curve: func(b *work) curve {
		s := b.kept.(sagState)
		if s.slack() {
			return curve{}
		}
		kN := s.weight / rigging.KN
		return curve{x: "tension_kN", nameX: "tension", nameY: "sag", dimY: units.Centimetres, way: units.Up, low: kN, high: max(40*kN, s.tension/rigging.KN*1.3), topY: max(s.length/20, s.sag.Mid*1.3) / rigging.CM,
			lines: []curveLine{{class: "curve", at: func(x float64) float64 { return rigging.Catenary(s.chord, s.mass, x*rigging.KN).Mid / rigging.CM }}}}
	},
}

type sagState struct {
	chord                         rigging.Vec
	mass, tension, length, weight float64 // kg/m, N, m, N
	sag                           rigging.Sag
}

// slack says whether the rope weighs more than its tension: it is no line
// then, but lies about.
func (s *sagState) slack() bool { return s.weight > s.tension }

// sag writes a sag in m: never less than it is.
func (b *work) sag(m float64) string {
	return b.u.Quantity(m/rigging.CM, units.Centimetres, units.Up)
}

// deepenings are how many times as deep as true a sag may be drawn.
var deepenings = [...]float64{1, 2, 5, 10, 20, 50, 100}

// deeper is by how much a sag is drawn deeper than true, for a scale in px
// per m: so that a twentieth of the tension in weight can be seen, unless
// the sag as it is would not fit into the room.
func (s *sagState) deeper(scale, room float64) float64 {
	best := 1.0
	for _, k := range deepenings {
		if s.length/160*scale*k <= room*0.45 && s.sag.Mid*scale*k <= room {
			best = k
		}
	}
	return best
}

func drawSag(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(sagState)
	side, top := c.Grow(52), c.Font*3.2
	scale := (c.W - 2*side) / s.chord.X
	if s.chord.Z > 0 {
		scale = min(scale, c.H*0.35/s.chord.Z)
	}
	wide, high := s.chord.X*scale, s.chord.Z*scale
	left := draw.Pt{X: (c.W - wide) / 2, Y: top + high}
	right := draw.Pt{X: left.X + wide, Y: top}
	mid := left.Toward(right, 0.5)
	room := c.H - mid.Y - c.Font*2.6
	k := s.deeper(scale, room)
	deep, sag := min(s.sag.Mid*scale*k, room), units.None
	if !s.slack() {
		sag = b.secret(b.sag(s.sag.Mid))
	}
	c.Segment("plumb", "", left, right)
	last := left
	for i := range 41 {
		u := float64(i) / 40
		p := left.Toward(right, u).Plus(draw.Pt{X: 0, Y: 4 * u * (1 - u) * deep})
		if i == 0 {
			c.Move(p)
			continue
		}
		c.Line(p)
		c.Avoid(last, p)
		last = p
	}
	c.Path("rope", "")
	low := mid.Plus(draw.Pt{X: 0, Y: deep})
	c.Segment("dim", "", mid, low)
	along := right.Minus(left).Unit()
	for _, end := range [...]struct {
		at  draw.Pt
		way float64
	}{{left, -1}, {right, 1}} {
		tip := end.at.Plus(along.Times(end.way * c.Grow(40)))
		c.Arrow("force", "", end.at, tip)
		c.AnchorMark(end.at)
	}
	c.Label(draw.Label{Text: "T = " + b.u.Quantity(s.tension/rigging.KN, units.Kilonewtons, units.Nearest), Class: "label-force", At: right, Toward: draw.Pt{X: 0, Y: -1}, Gap: c.Grow(10), Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "C = " + b.metres(s.length), Class: "label", At: left, Along: right, Slide: true, Early: true, Prio: draw.PrioForce})
	c.Label(draw.Label{Text: "f = " + sag, Class: "label-force", At: low, Toward: draw.Pt{X: 0, Y: 1}, Gap: c.Grow(14), Prio: draw.PrioMust})
	if k > 1 {
		c.Label(draw.Label{Text: b.Say("sag drawn %s times as deep", units.Decimal(k, 0)), Class: "label-note", At: draw.Pt{X: c.W / 2, Y: c.H - c.Font}, Prio: draw.PrioNote,
			Stands: []draw.Stand{{At: draw.Pt{X: c.W / 2, Y: c.H - c.Font*0.8}, Toward: draw.Pt{}}}})
	}
	b.grab(c, "sag", b.Say("The rope's middle. Tension %s", b.u.Quantity(s.tension/rigging.KN, units.Kilonewtons, units.Nearest)), low, "", "tension_kN", func(p draw.Pt) {
		if down := (p.Y - mid.Y) / (scale * k); down > 0 {
			b.set("tension_kN", rigging.TensionForSag(s.chord, s.mass, down)/rigging.KN, true)
		}
	})
	return b.Say("A rope hanging through"), b.Say("A rope of %s under %s sags by %s.", b.metres(s.length), b.u.Quantity(s.tension/rigging.KN, units.Kilonewtons, units.Nearest), sag)
}
