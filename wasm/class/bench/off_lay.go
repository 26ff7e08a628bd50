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

// pullOffLay: a pull beside the lay turns the tree to the side as well, and
// what holds the tree back makes it worse.
var pullOffLay = bench{
	id:    "off_lay",
	title: "Pull off the {lay}",
	idea: "An anchor beside the {lay} loses little of the pull, but a side moment builds up fast and the {hinge} has to hold it. " +
		"If the tree also leans back, it is drawn even farther off the {lay}.",
	inputs: []input{
		{key: "off_deg", label: "Anchor off the {lay}, to the right", dim: units.Degrees, low: 0, high: 60, start: "20", step: 1, fine: 0.1},
		{key: "distance_m", label: "Distance of the anchor", dim: units.Metres, low: 4, high: 26, start: "22", step: 0.5, fine: 0.1},
		{key: "attach_m", label: "Height of the line on the {stem}", dim: units.Metres, low: 2, high: 23, start: "14", step: 0.5, fine: 0.1,
			help: "Above the {hinge}, which is level with the anchor here."},
		{key: "tension_kN", label: "Tension of the line", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "20", step: 1, fine: 0.1},
		{key: "back_kNm", label: "Moment of a back lean", dim: units.KilonewtonMetres, low: 0, high: 500, start: "80", step: 5, fine: 1,
			help: "How hard the tree's weight turns it back, away from the {lay}. 0 for a tree that stands plumb."},
	},
	question: "What side moment has the {hinge} to hold?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(offLay)
		return marking.Wanted{Value: s.side, Dim: units.KilonewtonMetres, Way: units.Up, Tolerance: 0.05, Slips: []marking.Slip{
			{Value: s.pull * math.Cos(s.off), Says: "That is with the cosine of the angle off the {lay}: it gives the part toward the {lay}. The part to the side goes by the sine."},
			{Value: s.tension * math.Sin(s.off), Says: "That is the part of the tension to the side, a force: it is still to be multiplied by the lever."},
			{Value: s.pull * s.off / (math.Pi / 2), Says: "That is in proportion to the angle. It goes by the sine, which rises faster at first."},
			{Value: s.pull * (1 - math.Cos(s.off)), Says: "That is what is lost toward the {lay}. What goes to the side is far more: forces do not add as numbers."},
		}}
	},
	solve: func(b *work) {
		s := offLayOf(b.in["attach_m"], b.in["off_deg"]*rigging.Deg, b.in["distance_m"], b.in["tension_kN"], b.in["back_kNm"])
		b.kept = s
		M, theta, B := parts.Let("M", b.moment(s.pull)), parts.Let("θ", b.given("off_deg")), parts.Let("B", b.given("back_kNm"))
		b.fact("side", "Side moment on the {hinge}, to the right", b.moment(s.side))
		b.fact("drift", "The tree is drawn off the {lay} by", b.degrees(s.drift))
		b.fact("forward", "Moment left toward the {lay}", b.u.Quantity(s.forward, units.KilonewtonMetres, units.Down))
		b.fact("lost", "Share of the pull lost toward the {lay}", units.Percent(1-math.Cos(s.off)))
		b.step("pull", "Moment of the pull, the way the line runs", "M = T·h·d/√(h² + d²)", b.moment(s.pull), leverStatics, parts.Let("T", b.given("tension_kN")).Of("tension"),
			parts.Let("h", b.given("attach_m")).Of("height of the line"), parts.Let("d", b.given("distance_m")).Of("distance of the anchor"))
		b.step("side", "Side moment", "S = M·sin θ", b.moment(s.side), "parts of a moment at right angles", M, theta.Of("angle off the {lay}"))
		b.step("forward", "Moment left toward the {lay}", "F = M·cos θ − B", b.u.Quantity(s.forward, units.KilonewtonMetres, units.Down), "parts of a moment at right angles", M, theta, B.Of("back {lean}"))
		b.step("drift", "Direction the tree is drawn, from the {lay}", "δ = arctan(S/F); past 90° where F is negative", b.degrees(s.drift), "statics; the same as in a plan's report", parts.Let("S", b.moment(s.side)),
			parts.Let("F", b.u.Quantity(s.forward, units.KilonewtonMetres, units.Down)))
		b.step("lost", "Share lost toward the {lay}", "1 − cos θ", units.Percent(1-math.Cos(s.off)), "parts of a moment at right angles", theta)
		switch {
		case s.forward <= 0:
			b.note("back", "Nothing of this pull is left toward the {lay}: the line does not pull this tree over the way it should go.", leverStatics)
		case s.drift > 5*rigging.Deg:
			b.note("drift", "The {hinge} alone keeps this tree on the {lay}. Set the anchor on the {lay}, lead the line through a {redirect} that stands on it, or take the side off with a {hold line}.", words.CommonPractice)
		}
		if s.off > plan.FarOffLay*(1+1e-9) {
			b.note("far", "More than %s° off the {lay} is out of the ordinary: a plan whose lines together pull that far off is near its limits at best, whatever its gear holds.", words.CommonPractice, units.Significant(plan.FarOffLay/rigging.Deg, 2))
		}
		b.leftOut("What the {hinge} can hold to the side is another bench. Side lean, wind and the hinge's own moment are left out.")
	},
	draw: drawOffLay,
	curve: func(b *work) curve {
		s := b.kept.(offLay)
		at := func(x float64) offLay { return offLayOf(s.height, x*rigging.Deg, s.distance, s.tension, s.back) }
		return curve{x: "off_deg", nameX: "anchor off the {lay}", nameY: "moment", dimY: units.KilonewtonMetres, way: units.Up, lines: []curveLine{
			{class: "curve", name: "to the side", at: func(x float64) float64 { return at(x).side }},
			{class: "curve-hold", name: "toward the {lay}", at: func(x float64) float64 { return at(x).forward }},
		}}
	},
}

type offLay struct{ height, off, distance, tension, back, pull, side, forward, drift float64 } // m, rad, kN, kN·m

func offLayOf(height, off, distance, tension, back float64) offLay {
	s := offLay{height: height, off: off, distance: distance, tension: tension, back: back}
	st, err := straightPull(height, off, distance).At(0)
	if err != nil {
		s.side, s.forward = math.NaN(), math.NaN()
		return s
	}
	s.side, s.forward = -tension*st.Side+0, tension*st.Forward-back // right is positive here, and never a negative nought
	s.pull = tension * math.Hypot(st.Side, st.Forward)
	if s.side != 0 || s.forward != 0 {
		s.drift = math.Atan2(s.side, s.forward)
	}
	return s
}

// moment writes a moment that has to be held.
func (b *work) moment(kNm float64) string {
	return b.u.Quantity(kNm, units.KilonewtonMetres, units.Up)
}

func drawOffLay(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(offLay)
	f := c.Font
	l := draw.Fit(draw.Box{W: c.W, H: c.H}, draw.Extent{Left: 4, Right: 28, Up: 2.5, Down: 23}, f*0.6, f*0.6, f*0.6, f*0.6, false)
	stem, lay := l.ToPx(0, 0), l.ToPx(28, 0)
	c.Arrow("lay", "", stem, lay)
	c.Label(draw.Label{Text: b.Say("{lay}"), Class: "label-note", At: lay, Toward: draw.Pt{X: -1, Y: -1}, Prio: draw.PrioMust})
	dir := draw.Pt{X: math.Cos(s.off), Y: math.Sin(s.off)}
	anchor := stem.Plus(dir.Times(s.distance * l.Scale))
	c.Segment("rope", "", stem, anchor)
	c.AnchorMark(anchor)
	// Moments, each drawn the way it turns the tree, to one scale.
	per := 18 * l.Scale / draw.RoundAbove(max(s.pull, s.back))
	pull := stem.Plus(dir.Times(s.pull * per))
	end := pull.Minus(draw.Pt{X: s.back * per, Y: 0})
	c.Arrow("force", "", stem, pull)
	if !b.hidden {
		c.Segment("rope-hold", "", draw.Pt{X: end.X, Y: stem.Y}, end)
		if s.back*per > 1 {
			c.Arrow("weight", "", pull, end)
			c.Label(draw.Label{Text: "B = " + b.given("back_kNm"), Class: "label", At: pull, Along: end, Slide: true, Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioMust})
		}
		c.Arrow("load", "", stem, end)
		c.Label(draw.Label{Text: "S = " + b.moment(s.side), Class: "label-force", At: draw.Pt{X: end.X, Y: stem.Y}, Along: end, Slide: true, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioMust})
		c.Label(draw.Label{Text: "δ = " + b.degrees(s.drift), Class: "label-force", At: stem, Along: end, Slide: true, Toward: draw.Pt{X: -0.6, Y: 1}, Prio: draw.PrioForce})
	}
	c.Circle("stem", "", stem, c.Grow(6))
	c.Keep(draw.Around(stem, c.Grow(6)))
	c.Label(draw.Label{Text: "M = " + b.moment(s.pull), Class: "label-force", At: pull, Toward: draw.Pt{X: 0.7, Y: -1}, Prio: draw.PrioMust,
		Stands: []draw.Stand{{At: pull, Toward: draw.Pt{X: 0.7, Y: -1}}, {At: anchor.Plus(draw.Pt{X: 0, Y: c.Grow(22)}), Toward: draw.Pt{X: -0.5, Y: 1}}, {At: anchor.Plus(draw.Pt{X: 0, Y: c.Grow(22)}), Toward: draw.Pt{X: -1, Y: 1}}}})
	r := c.Grow(62)
	mid := c.Angle("angle", stem, draw.Pt{X: 1, Y: 0}, dir, r)
	c.Label(draw.Label{Text: "θ = " + b.given("off_deg"), Class: "label", At: stem.Plus(mid.Times(r)), Toward: draw.Pt{X: 1, Y: 0.3}, Gap: c.Grow(3), Prio: draw.PrioMust})
	b.grab(c, "anchor", b.Say("Anchor, %s off the {lay}, %s away", b.given("off_deg"), b.given("distance_m")), anchor, "distance_m", "-off_deg", func(p draw.Pt) {
		d := p.Minus(stem)
		b.set("off_deg", math.Atan2(d.Y, d.X)/rigging.Deg, false)
		b.set("distance_m", d.Length()/l.Scale, false)
	})
	return b.Say("A pull beside the {lay}, seen from above"), b.Say("The anchor stands %s to the right of the {lay}. The pull turns the tree with %s; to the side that makes %s.", b.given("off_deg"), b.moment(s.pull), b.secret(b.moment(s.side)))
}
