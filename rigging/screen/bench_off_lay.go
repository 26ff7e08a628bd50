package screen

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// benchOffLay: a pull beside the lay turns the tree to the side as well, and
// what holds the tree back makes it worse.
var benchOffLay = bench{
	id:    "off_lay",
	title: "Pull off the {lay}",
	idea: "Little of the pull is lost when the anchor stands beside the {lay}. But a side moment comes in quickly, and the {hinge} has to hold it. " +
		"Where the tree also leans back, it wants to go still farther off.",
	inputs: []benchInput{
		{key: "off_deg", label: "Anchor off the {lay}, to the right", dim: units.Degrees, low: 0, high: 60, start: "20", step: 1, fine: 0.1},
		{key: "distance_m", label: "Distance of the anchor", dim: units.Metres, low: 4, high: 26, start: "22", step: 0.5, fine: 0.1},
		{key: "attach_m", label: "Height of the line on the {stem}", dim: units.Metres, low: 2, high: 23, start: "14", step: 0.5, fine: 0.1,
			help: "Above the {hinge}, which is level with the anchor here."},
		{key: "tension_kN", label: "Tension of the line", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "20", step: 1, fine: 0.1},
		{key: "back_kNm", label: "Moment of a back lean", dim: units.KilonewtonMetres, low: 0, high: 500, start: "80", step: 5, fine: 1,
			help: "How hard the tree's weight turns it back, away from the {lay}. 0 for a tree that stands plumb."},
	},
	question: "What side moment has the {hinge} to hold?",
	guess: func(b *benchWork) wanted {
		s := b.kept.(offLay)
		return wanted{value: s.side, dim: units.KilonewtonMetres, way: units.Up, tolerance: 0.05, slips: []slip{
			{s.pull * math.Cos(s.off), "That is with the cosine of the angle off the {lay}: it gives the part toward the {lay}. The part to the side goes by the sine."},
			{s.tension * math.Sin(s.off), "That is the part of the tension to the side, a force: it is still to be multiplied by the lever."},
			{s.pull * s.off / (math.Pi / 2), "That is in proportion to the angle. It goes by the sine, which rises faster at first."},
			{s.pull * (1 - math.Cos(s.off)), "That is what is lost toward the {lay}. What goes to the side is far more: forces do not add as numbers."},
		}}
	},
	solve: func(b *benchWork) {
		s := offLayOf(b.in["attach_m"], b.in["off_deg"]*rigging.Deg, b.in["distance_m"], b.in["tension_kN"], b.in["back_kNm"])
		b.kept = s
		M, theta, B := "M = "+b.moment(s.pull), "θ = "+b.given("off_deg"), "B = "+b.given("back_kNm")
		b.fact("side", "Side moment on the {hinge}, to the right", b.moment(s.side))
		b.fact("drift", "The tree wants to go off the {lay} by", b.degrees(s.drift))
		b.fact("forward", "Moment left toward the {lay}", b.u.Quantity(s.forward, units.KilonewtonMetres, units.Down))
		b.fact("lost", "Share of the pull lost toward the {lay}", units.Percent(1-math.Cos(s.off)))
		b.step("pull", "Moment of the pull, the way the line runs", "M = T·h·d/√(h² + d²)", b.moment(s.pull), benchStatics, "T = "+b.given("tension_kN")+" (tension)",
			"h = "+b.given("attach_m")+" (height of the line)", "d = "+b.given("distance_m")+" (distance of the anchor)")
		b.step("side", "Side moment", "S = M·sin θ", b.moment(s.side), "parts of a moment at right angles", M, theta+" (angle off the {lay})")
		b.step("forward", "Moment left toward the {lay}", "F = M·cos θ − B", b.u.Quantity(s.forward, units.KilonewtonMetres, units.Down), "parts of a moment at right angles", M, theta, B+" (back {lean})")
		b.step("drift", "Where the tree wants to go, from the {lay}", "δ = arctan(S/F); past 90° where F is negative", b.degrees(s.drift), "statics; the same as in a plan's report", "S = "+b.moment(s.side),
			"F = "+b.u.Quantity(s.forward, units.KilonewtonMetres, units.Down))
		b.step("lost", "Share lost toward the {lay}", "1 − cos θ", units.Percent(1-math.Cos(s.off)), "parts of a moment at right angles", theta)
		switch {
		case s.forward <= 0:
			b.note("back", "Nothing of this pull is left toward the {lay}: the line does not pull this tree over the way it should go.", benchStatics)
		case s.drift > 5*rigging.Deg:
			b.note("drift", "The {hinge} alone keeps this tree on the {lay}. Set the anchor on the {lay}, lead the line through a {redirect} that stands on it, or take the side off with a {hold line}.", words.CommonPractice)
		}
		if s.off > plan.FarOffLay*(1+1e-9) {
			b.note("far", "More than "+units.Significant(plan.FarOffLay/rigging.Deg, 2)+"° off the {lay} is out of the ordinary: a plan whose lines together pull that far off is near its limits at best, whatever its gear holds.", words.CommonPractice)
		}
		b.leftOut("What the {hinge} can hold to the side is another bench. Side lean, wind and the hinge's own moment are left out.")
	},
	draw: drawOffLay,
	curve: func(b *benchWork) benchCurve {
		s := b.kept.(offLay)
		at := func(x float64) offLay { return offLayOf(s.height, x*rigging.Deg, s.distance, s.tension, s.back) }
		return benchCurve{x: "off_deg", nameX: "anchor off the {lay}", nameY: "moment", dimY: units.KilonewtonMetres, way: units.Up, lines: []benchLine{
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
func (b *benchWork) moment(kNm float64) string {
	return b.u.Quantity(kNm, units.KilonewtonMetres, units.Up)
}

func drawOffLay(b *benchWork, c *canvas) (title, desc string) {
	s := b.kept.(offLay)
	f := c.font
	l := fit(Box{W: c.w, H: c.h}, extent{left: 4, right: 28, up: 2.5, down: 23}, f*0.6, f*0.6, f*0.6, f*0.6, false)
	stem, lay := l.toPx(0, 0), l.toPx(28, 0)
	c.arrow("lay", "", stem, lay)
	c.label(caption{text: b.Say("{lay}"), class: "label-note", at: lay, toward: pt{-1, -1}, prio: prioMust})
	dir := pt{math.Cos(s.off), math.Sin(s.off)}
	anchor := stem.plus(dir.times(s.distance * l.scale))
	c.segment("rope", "", stem, anchor)
	c.anchorMark(anchor)
	// Moments, each drawn the way it turns the tree, to one scale.
	per := 18 * l.scale / niceForce(max(s.pull, s.back))
	pull := stem.plus(dir.times(s.pull * per))
	end := pull.minus(pt{s.back * per, 0})
	c.arrow("force", "", stem, pull)
	if !b.hidden {
		c.segment("rope-hold", "", pt{end.x, stem.y}, end)
		if s.back*per > 1 {
			c.arrow("weight", "", pull, end)
			c.label(caption{text: "B = " + b.given("back_kNm"), class: "label", at: pull, along: end, slide: true, toward: pt{0, 1}, prio: prioMust})
		}
		c.arrow("load", "", stem, end)
		c.label(caption{text: "S = " + b.moment(s.side), class: "label-force", at: pt{end.x, stem.y}, along: end, slide: true, toward: pt{1, 0}, prio: prioMust})
		c.label(caption{text: "δ = " + b.degrees(s.drift), class: "label-force", at: stem, along: end, slide: true, toward: pt{-0.6, 1}, prio: prioForce})
	}
	c.circle("stem", "", stem, c.grow(6))
	c.solid = append(c.solid, around(stem, c.grow(6)))
	c.label(caption{text: "M = " + b.moment(s.pull), class: "label-force", at: pull, toward: pt{0.7, -1}, prio: prioMust,
		spots: []spot{{pull, pt{0.7, -1}}, {anchor.plus(pt{0, c.grow(22)}), pt{-0.5, 1}}, {anchor.plus(pt{0, c.grow(22)}), pt{-1, 1}}}})
	r := c.grow(62)
	mid := c.angle("angle", stem, pt{1, 0}, dir, r)
	c.label(caption{text: "θ = " + b.given("off_deg"), class: "label", at: stem.plus(mid.times(r)), toward: pt{1, 0.3}, gap: c.grow(3), prio: prioMust})
	b.grab(c, "anchor", "Anchor, "+b.given("off_deg")+" off the {lay}, "+b.given("distance_m")+" away", anchor, "distance_m", "-off_deg", func(p pt) {
		d := p.minus(stem)
		b.set("off_deg", math.Atan2(d.y, d.x)/rigging.Deg, false)
		b.set("distance_m", d.length()/l.scale, false)
	})
	return "A pull beside the {lay}, seen from above", "The anchor stands " + b.given("off_deg") + " to the right of the {lay}. The pull turns the tree with " + b.moment(s.pull) +
		"; to the side that makes " + b.secret(b.moment(s.side)) + "."
}
