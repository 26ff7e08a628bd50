package bench

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// hinge: the strip of wood that steers the tree. It resists being bent
// with the square of its thickness and being torn sideways in proportion.
var hinge = bench{
	id:    "hinge",
	title: "Thickness of the {hinge}",
	idea: "The {hinge} seen from above. Twice as thick takes four times the moment to bend, and the line must supply it. " +
		"Side hold only doubles, and less is relied on than the mean strength of the wood. A cavity or a thin end takes off side hold where it is needed.",
	inputs: []input{
		{key: "left_cm", label: "Thickness at the left end", dim: units.Centimetres, low: 1, high: 25, start: "8", step: 0.5, fine: 0.1},
		{key: "right_cm", label: "Thickness at the right end", dim: units.Centimetres, low: 1, high: 25, start: "8", step: 0.5, fine: 0.1},
		{key: "cavity_cm", label: "Diameter of a cavity in its middle", dim: units.Centimetres, low: 0, high: 100, start: "0", step: 1, fine: 0.5},
		{key: "diameter_cm", label: "Diameter of the {stem} at the cut", dim: units.Centimetres, low: 30, high: 120, start: "50", step: 1, fine: 0.5},
		{key: "strength_MPa", label: "Bending strength of the green wood", dim: units.Megapascals, low: 10, high: 100, start: "40", step: 1, fine: 0.5,
			help: "40 MPa is only an example. A plan takes it from the table of species, with its source."},
	},
	question: "How many times as hard to bend is it as a {hinge} of a tenth of the diameter?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(hingeState)
		if s.outside() {
			return marking.Wanted{}
		}
		k := (s.Left + s.Right) / 2 / s.usual.Left
		return marking.Wanted{Value: s.bending / s.usualBending, Dim: units.Plain, Way: units.Up, Tolerance: 0.06, Slips: []marking.Slip{
			{Value: k, Says: "That is in proportion to the thickness. The outer fibres are farther away as well as more of them, so it goes by the square."},
			{Value: k * k * k, Says: "That is by the cube of the thickness: so goes stiffness. What it takes to bend it goes by the square."},
			{Value: 2 * k, Says: "It is not twice as much for every part it is thicker, but the square of how many times as thick."},
		}}
	},
	solve: solveHinge,
	draw:  drawHinge,
	curve: func(b *work) curve {
		s := b.kept.(hingeState)
		if s.outside() {
			return curve{}
		}
		// Both ends together: the taper stays, as long as there is a right end.
		side := func(h hingeState) float64 { return min(h.toLeft, h.toRight) }
		at := func(of func(h hingeState) float64) func(x float64) float64 {
			return func(x float64) float64 {
				right := s.Right - s.Left + x*rigging.CM
				if right <= 0 {
					return math.NaN()
				}
				if h := hingeOf(b, x*rigging.CM, right); !h.outside() {
					return of(h)
				}
				return math.NaN()
			}
		}
		return curve{x: "left_cm", nameX: "thickness, left (right alike)", nameY: "moment", dimY: units.KilonewtonMetres, way: units.Up, lines: []curveLine{
			{class: "curve", name: "to bend it", at: at(func(h hingeState) float64 { return h.bending })},
			{class: "curve-hold", name: "to tear it sideways", at: at(side)},
		}}
	},
}

// hingeState is a hinge (m) with the moments it resists: kN·m.
type hingeState struct {
	rigging.Hinge
	usual                 rigging.Hinge // by the guide
	cavity                float64       // m
	bending, usualBending float64
	first                 float64 // as its outer fibres yield
	toLeft, toRight       float64 // side moments at which an end reaches the strength relied on
}

func hingeOf(b *work, left, right float64) hingeState {
	strength := b.in["strength_MPa"] * rigging.MPa
	s := hingeState{usual: rigging.GuideHinge(b.in["diameter_cm"] * rigging.CM)}
	s.Hinge = rigging.Hinge{Length: s.usual.Length, Left: left, Right: right}
	s.bending = s.Moment(rigging.HingePlastic, strength) / rigging.KNm
	s.first = s.Moment(rigging.HingeElastic, strength) / rigging.KNm
	s.usualBending = s.usual.Moment(rigging.HingePlastic, strength) / rigging.KNm
	// The stress is in proportion to the moment, and infinite where a cavity
	// leaves nothing: the side hold is then nought. It is relied on, so it goes by
	// the low strength.
	s.cavity = b.in["cavity_cm"] * rigging.CM
	s.toLeft = rigging.HingeReliedOn * strength / s.SideStress(rigging.KNm, s.cavity)
	s.toRight = rigging.HingeReliedOn * strength / s.SideStress(-rigging.KNm, s.cavity)
	return s
}

// outside says whether a cavity is as wide as the stem, or an end reaches out
// of a round stem at the back: so it does past 0.6 of the diameter, where the
// chord behind the hinge is again as short as that at its front.
func (s *hingeState) outside() bool {
	length, _ := rigging.FindHingeGuide("hinge_length")
	diameter := s.usual.Length / length.Value
	deepest := diameter * math.Sqrt(1-length.Value*length.Value)
	return max(s.Left, s.Right) > deepest*(1+units.Noise) || s.cavity >= diameter*(1-units.Noise)
}

func solveHinge(b *work) {
	s := hingeOf(b, b.in["left_cm"]*rigging.CM, b.in["right_cm"]*rigging.CM)
	b.kept = s
	if s.outside() {
		b.lacks = b.Say("A {hinge} that reaches out of the {stem}, or a cavity as wide as that: there is no such {hinge}, and no number for it.")
		return
	}
	holds := func(kNm float64) string { return b.u.Quantity(kNm, units.KilonewtonMetres, units.Down) }
	times := hundredths(s.bending/s.usualBending, units.Up)
	b.fact("bending", "Bending moment the line must supply", b.moment(s.bending))
	b.fact("times", "Factor on a {hinge} of a tenth of the diameter", times)
	b.fact("right", "Relied on to the side, pulled to the right", holds(s.toRight))
	b.fact("left", "Relied on to the side, pulled to the left", holds(s.toLeft))
	strip := []parts.Value{parts.Let("σ", b.given("strength_MPa")).Of("bending strength, green"), parts.Let("b", b.centis(s.Length)).Of("length, 80 % of the diameter"),
		parts.Let("t₁", b.given("left_cm")).Of("left end"), parts.Let("t₂", b.given("right_cm")).Of("right end")}
	b.step("bending", "Moment to bend the {hinge}", "M = 1.5·σ·b·(t₁² + t₁·t₂ + t₂²)/18; for t₁ = t₂ = t it is σ·b·t²/4", b.moment(s.bending),
		"beam theory, fully plastic: 1.5 times the moment at first yield", strip...)
	b.stepAs("times", b.Say("Against a tenth of the diameter"), "n = M/(σ·b·t₀²/4)", times, hingeGuideSource(), parts.Let("M", b.moment(s.bending)), strip[0], strip[1], parts.Let("t₀", b.centis(s.usual.Left)))
	side := append(strip, parts.Let("ν", units.Significant(rigging.HingeReliedOn, 2)).Of("share of the mean strength relied on"), parts.Let("c", b.given("cavity_cm")).Of("cavity"))
	const formula words.Text = "S = ν·σ·I/e, I = b³·(t₁² + 4·t₁·t₂ + t₂²)/(36·(t₁ + t₂))·(b − c)/b, never less than 0, e = b·"
	b.step("right", "Side hold, pulled to the right (left end in tension)", formula+"(t₁ + 2·t₂)/(3·(t₁ + t₂))", holds(s.toRight), "beam theory, elastic: a trapezium on edge about its centroid", side...)
	b.step("left", "Side hold, pulled to the left (right end in tension)", formula+"(2·t₁ + t₂)/(3·(t₁ + t₂))", holds(s.toLeft), "beam theory, elastic: a trapezium on edge about its centroid", side...)
	diameter := b.in["diameter_cm"] * rigging.CM
	switch thin := min(s.Left, s.Right); {
	case thin < plan.ThinHinge*diameter*(1-1e-9):
		b.note("very_thin", "Its thinner end is under 5 % of the diameter: it may break before it has steered the tree. A plan with that is near its limits at best.", words.CommonPractice)
	case thin < s.usual.Left*(1-1e-9):
		b.note("thin", "Its thinner end is under a tenth of the diameter, %s.", words.Text(hingeGuideSource()), b.centis(s.usual.Left))
	}
	if b.in["cavity_cm"] > 0 {
		b.note("cavity", "The cavity is taken off the side hold but not off the moment to bend it, which is kept high because the line has to supply it. Decay is seldom only where it is seen: a competent person judges whether this tree may be pulled.", words.CommonPractice)
	}
	if s.Left != s.Right {
		b.note("taper", "The thick end pulls the tree its way as it bends; that is left out here.", words.CommonPractice)
	}
	b.note("relied_on", "The line has to bend the {hinge} whatever its wood is like, so that goes by the mean strength, fully plastic. What is relied on to hold goes by %s of the mean, which 19 of 20 pieces reach.", "derived from the standard deviations of green clear wood in ASTM D2555", units.Significant(rigging.HingeReliedOn, 2))
	if thick := max(s.Left, s.Right); thick > plan.ThickHinge*diameter*(1+1e-9) {
		b.note("thick", "Its thicker end is over 15 % of the diameter: it takes much more pull, and the {stem} may split upward before it bends. A plan with that is near its limits at best.", words.CommonPractice)
	}
	if s.cavity > plan.LargeCavity*s.Length*(1+1e-9) {
		b.note("cavity_large", "The cavity takes more than a third of its length: what is left may not steer the tree. A plan with that is near its limits at best.", words.CommonPractice)
	}
	b.note("estimate", "Clear wood without knots, bent a little. No published test of felling {hinge}s is known to us: an estimate, not a hold to rely on.", words.CommonPractice)
}

func drawHinge(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(hingeState)
	d, bending := b.in["diameter_cm"]*rigging.CM, units.None
	if !s.outside() {
		bending = b.secret(b.moment(s.bending))
	}
	// The lay points to the right. The face cut goes in until its front is as
	// long as the hinge: where the chord is 0.8 of the diameter.
	l := draw.Fit(draw.Box{W: c.W, H: c.H}, draw.Extent{Left: d * 0.62, Right: d * 0.62, Up: d * 0.5, Down: d * 0.5}, c.Font, c.Font, c.Font*1.5, c.Font*1.5, false)
	front := math.Sqrt(d*d-s.Length*s.Length) / 2
	middle, half := l.ToPx(0, 0), s.Length/2
	r := d / 2 * l.Scale
	c.Circle("bark", "", middle, r)
	topFront, botFront := l.ToPx(front, half), l.ToPx(front, -half)
	topBack, botBack := l.ToPx(front-s.Left, half), l.ToPx(front-s.Right, -half)
	// What the face cut takes out.
	c.Move(topFront)
	c.Arc(r, r, 0, false, true, botFront)
	c.Close()
	c.Path("bight", "")
	c.Polygon("stem", "", topFront, botFront, botBack, topBack)
	c.Avoid(topBack, botBack)
	c.Avoid(topFront, botFront)
	if cavity := b.in["cavity_cm"] * rigging.CM; cavity > 0 {
		c.Circle("centre", "", l.ToPx(front-(s.Left+s.Right)/4, 0), min(cavity, d)/2*l.Scale)
	}
	lay := middle.Plus(draw.Pt{X: r + c.Grow(8), Y: 0})
	c.Arrow("lay", "", l.ToPx(front, 0).Plus(draw.Pt{X: c.Grow(8), Y: 0}), lay.Plus(draw.Pt{X: c.Grow(12), Y: 0}))
	c.Label(draw.Label{Text: b.Say("{lay}"), Class: "label-note", At: lay, Toward: draw.Pt{X: 0.4, Y: 1}, Prio: draw.PrioAngle})
	c.Label(draw.Label{Text: "t₁ = " + b.given("left_cm"), Class: "label-force", At: topBack, Toward: draw.Pt{X: -1, Y: 0}, Gap: c.Grow(14), Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "t₂ = " + b.given("right_cm"), Class: "label-force", At: botBack, Toward: draw.Pt{X: -1, Y: 0}, Gap: c.Grow(14), Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "b = " + b.centis(s.Length), Class: "label", At: topFront, Along: botFront, Slide: true, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "M = " + bending, Class: "label-force", At: middle.Minus(draw.Pt{X: r * 0.55, Y: 0}), Toward: draw.Pt{}, Prio: draw.PrioMust,
		Stands: []draw.Stand{{At: middle.Minus(draw.Pt{X: r * 0.5, Y: 0}), Toward: draw.Pt{}}}})
	c.Label(draw.Label{Text: b.Say("left"), Class: "label-note", At: middle.Minus(draw.Pt{X: 0, Y: r}), Toward: draw.Pt{X: -0.4, Y: -1}, Prio: draw.PrioNote})
	c.Label(draw.Label{Text: b.Say("right"), Class: "label-note", At: middle.Plus(draw.Pt{X: 0, Y: r}), Toward: draw.Pt{X: -0.4, Y: 1}, Prio: draw.PrioNote})
	end := func(key string) func(p draw.Pt) {
		return func(p draw.Pt) {
			x, _ := l.FromPx(p)
			b.set(key, (front-x)/rigging.CM, false)
		}
	}
	b.grab(c, "left", b.Say("Left end of the {hinge}, %s thick", b.given("left_cm")), topBack, "-left_cm", "", end("left_cm"))
	b.grab(c, "right", b.Say("Right end of the {hinge}, %s thick", b.given("right_cm")), botBack, "-right_cm", "", end("right_cm"))
	return b.Say("The {hinge} on the stump, seen from above"), b.Say("On a {stem} %s thick stands a {hinge} %s long, %s thick at its left end and %s at its right. To bend it takes %s.", b.given("diameter_cm"), b.centis(s.Length), b.given("left_cm"), b.given("right_cm"), bending)
}
