package bench

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// The tree the line benches draw.
const (
	treeHeight   = 25.0 // m
	buttDiameter = 0.5  // m
)

// slopeOfLine: only the level part of a pull turns the tree, and how far
// up it is made fast is its lever.
var slopeOfLine = bench{
	id:    "line_angle",
	title: "Angle of the line",
	idea: "Only the level part of the pull turns the tree; the rest presses the {stem} down. Tie higher and the lever grows, but the line gets steeper. " +
		"Go farther out and more of the pull turns the tree.",
	inputs: []input{
		{key: "attach_m", label: "Height of the line on the {stem}", dim: units.Metres, low: 2, high: 23, start: "14", step: 0.5, fine: 0.1,
			help: "Above the {hinge}, which is level with the anchor here."},
		{key: "distance_m", label: "Distance of the anchor", dim: units.Metres, low: 4, high: 32, start: "20", step: 0.5, fine: 0.1},
		{key: "tension_kN", label: "Tension of the line", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "20", step: 1, fine: 0.1},
		{key: "over", label: "The curve runs over", start: "height", options: []parts.Choice{
			{Value: "height", Label: "the height, anchor where it is"}, {Value: "distance", Label: "the distance, at this height"}, {Value: "rope", Label: "the height, with this length of rope"}}},
	},
	question: "How large is the moment that turns the tree?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(lineAngle)
		return marking.Wanted{Value: s.turn, Dim: units.KilonewtonMetres, Way: units.Down, Tolerance: 0.05, Slips: []marking.Slip{
			{Value: s.tension * s.height * math.Sin(s.angle), Says: "That is with the sine of the angle from level: it gives the part that presses the {stem} down. The part that turns the tree goes by the cosine."},
			{Value: s.tension * s.height, Says: "That is with the whole height as the lever: it would be so only for a level line. The lever is h·cos β."},
			{Value: s.tension * math.Cos(s.angle), Says: "That is the level part of the pull, a force. To be a moment it is still to be multiplied by the height."},
			{Value: s.tension * s.distance, Says: "That is with the distance of the anchor as the lever: the lever is how far the line passes from the {hinge}."},
		}}
	},
	solve: func(b *work) {
		s := lineAngle{height: b.in["attach_m"], distance: b.in["distance_m"], tension: b.in["tension_kN"]}
		s.angle = math.Atan2(s.height, s.distance)
		s.rope = math.Hypot(s.height, s.distance)
		s.lever, s.press = leverOf(s.height, s.distance)
		s.press *= s.tension
		s.turn = s.tension * s.lever
		b.kept = s
		h, d, beta, T, k := parts.Let("h", b.given("attach_m")), parts.Let("d", b.given("distance_m")), parts.Let("β", b.degrees(s.angle)), parts.Let("T", b.given("tension_kN")), parts.Let("k", b.metres(s.lever))
		turns := b.u.Quantity(s.turn, units.KilonewtonMetres, units.Down)
		b.fact("turn", "Moment that turns the tree", turns)
		b.fact("share", "Share of the pull that turns it", percentLeft(s.lever/s.height))
		b.fact("lever", "Lever of the line", b.metres(s.lever))
		b.fact("press", "Force down on the {hinge}", b.u.Load(s.press))
		b.fact("best", "Greatest lever with this rope of %s", b.Say("%s at 45°", b.metres(s.rope/2)), b.metres(s.rope))
		b.step("angle", "Angle of the line from level", "β = arctan(h/d)", b.degrees(s.angle), "trigonometry", h.Of("height of the line"), d.Of("distance of the anchor"))
		b.step("share", "Share of the pull that turns the tree", "s = cos β", percentLeft(s.lever/s.height), "parallelogram of forces", beta)
		b.step("lever", "Lever: how far the line passes from the {hinge}", "k = h·cos β", b.metres(s.lever), leverStatics, h, beta)
		b.step("turn", "Moment that turns the tree", "M = T·k", turns, leverStatics, T.Of("tension"), k)
		b.step("press", "Part that presses the {stem} down", "V = T·sin β", b.u.Load(s.press), "parallelogram of forces", T, beta)
		b.step("best", "Greatest lever of a rope as long as this", "k = L·sin β·cos β = L/2·sin 2β, greatest at β = 45°: L/2", b.metres(s.rope/2), "trigonometry", parts.Let("L = √(h² + d²)", b.metres(s.rope)))
		b.out.Actions = append(b.out.Actions, parts.Action{Do: "best", Label: b.Say("Same rope, at 45°")})
		b.note("which", "Where the anchor is fixed, higher is always a longer lever, though less and less. With a rope of one length the lever is longest at 45°: higher then brings the anchor too near.", leverStatics)
		if s.angle > 30*rigging.Deg {
			b.note("steep", "This line is steeper than 30°: much of its pull only presses on the {hinge}. Go farther out.", memory)
		}
		if s.height > treeHeight*2/3 {
			b.note("high", "This is above two thirds of the height: the {stem} is thin there. Tie only where it is sound and stiff.", memory)
		}
		if s.distance < treeHeight {
			b.note("reach", "The tree, %s long, reaches the anchor: keep people and machines clear while it falls. Lead the line to the side with a {redirect}.", words.CommonPractice, b.metres(treeHeight))
		}
		b.note("two_lengths", "Keep everyone at least two tree lengths away, %s here, while it is felled.", "29 CFR 1910.266(h)(1)", b.metres(2*treeHeight))
		b.leftOut("The tree stands plumb and the rope is straight. Weight of the tree, bending of the {stem} and sag of the rope are left out.")
	},
	draw: drawLineAngle,
	act: func(b *work, do string) {
		if do == "best" {
			s := b.kept.(lineAngle)
			b.set("attach_m", s.rope*math.Sqrt2/2, true)
			b.set("distance_m", s.rope*math.Sqrt2/2, true)
		}
	},
	curve: func(b *work) curve {
		s := b.kept.(lineAngle)
		of := curve{x: "attach_m", nameX: "height of the line", nameY: "moment that turns the tree", dimY: units.KilonewtonMetres, way: units.Down}
		at := func(x float64) (h, d float64) { return x, s.distance }
		switch b.text["over"] {
		case "distance":
			of.x, of.nameX = "distance_m", "distance of the anchor"
			at = func(x float64) (h, d float64) { return s.height, x }
		case "rope":
			of.nameX, of.argsX = "height of the line, rope of %s", []string{b.metres(s.rope)}
			at = func(x float64) (h, d float64) { return x, math.Sqrt(s.rope*s.rope - x*x) } // NaN past its length
		}
		of.lines = []curveLine{{class: "curve", at: func(x float64) float64 {
			k, _ := leverOf(at(x))
			return s.tension * k
		}}}
		return of
	},
}

type lineAngle struct{ height, distance, rope, angle, tension, lever, press, turn float64 } // m, rad, kN, kN·m

// leverOf is the forward lever (m) of a line from a height to an anchor (m),
// and the share of its pull that presses down; NaN where there is no line.
func leverOf(height, distance float64) (lever, press float64) {
	st, err := straightPull(height, 0, distance).At(0)
	if err != nil || !draw.Finite(distance) {
		return math.NaN(), math.NaN()
	}
	return st.Forward, -st.Force(0).Z
}

// metres writes a length to three digits, feet too: levers are short.
func (b *work) metres(m float64) string {
	return units.Significant(m/b.u.Units[units.Metres].Size, 3) + b.u.Suffix(units.Metres)
}

func drawLineAngle(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(lineAngle)
	l := sideBox(c, 10.5, 32, treeHeight, 3.4)
	foot := l.ToPx(0, 0)
	c.Segment("ground", "", draw.Pt{X: 0, Y: foot.Y}, draw.Pt{X: c.W, Y: foot.Y})
	on := drawTree(c, l, treeHeight, buttDiameter, 0, 0)
	high, anchor := on(s.height), l.ToPx(s.distance, 0)
	c.Segment("rope", "", high, anchor)
	// The lever: square to the line, from the hinge.
	lever := foot.Plus(draw.Pt{X: math.Sin(s.angle), Y: -math.Cos(s.angle)}.Times(s.lever * l.Scale))
	c.Segment("planned", "", foot, lever)
	// The pull and its two parts.
	length := 0.2 * min(c.W, c.H)
	if !b.hidden {
		along := draw.Pt{X: math.Cos(s.angle), Y: math.Sin(s.angle)}.Times(length)
		c.Arrow("force", "", high, high.Plus(draw.Pt{X: along.X, Y: 0}))
		c.Arrow("load", "", high, high.Plus(draw.Pt{X: 0, Y: along.Y}))
		c.Label(draw.Label{Text: "T·cos β = " + b.u.Capacity(s.tension*math.Cos(s.angle)), Class: "label-force", At: high.Plus(draw.Pt{X: along.X, Y: 0}), Toward: draw.Pt{X: 1, Y: -0.2}, Prio: draw.PrioForce})
	}
	c.Circle("hinge", "", foot, c.Grow(4))
	c.Circle("attach", "", high, c.Grow(5))
	c.Keep(draw.Around(high, c.Grow(5)), draw.Around(foot, c.Grow(5)))
	c.AnchorMark(anchor)
	c.Measure("h = "+b.given("attach_m"), foot, high, draw.Pt{X: -c.Grow(17), Y: 0}, min(0.3, 4/s.height))
	c.Measure("d = "+b.given("distance_m"), foot, anchor, draw.Pt{X: 0, Y: c.Grow(14)}, 0.5)
	dir := high.Minus(anchor)
	r := min(c.Grow(38), dir.Length()*0.35)
	c.Angle("angle", anchor, draw.Pt{X: -1, Y: 0}, dir, r)
	c.Label(draw.Label{Text: "β = " + b.degrees(s.angle), Class: "label", At: anchor, Toward: draw.Pt{X: 1, Y: -0.6}, Gap: c.Grow(9), Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "T = " + b.given("tension_kN"), Class: "label-force", At: high, Along: anchor, Slide: true, Toward: draw.Pt{X: 1, Y: -1}, Prio: draw.PrioMust})
	c.Label(draw.Label{Text: "k = " + b.secret(b.metres(s.lever)), Class: "label", At: foot, Along: lever, Slide: true, Toward: draw.Pt{X: 1, Y: 0.6}, Gap: c.Grow(3), Prio: draw.PrioMust})
	b.grab(c, "attach", b.Say("Where the line is tied to the {stem}, %s up", b.metres(s.height)), high, "", "attach_m", func(p draw.Pt) {
		_, up := l.FromPx(p)
		b.set("attach_m", up, false)
	})
	b.grab(c, "anchor", b.Say("Anchor, %s away", b.metres(s.distance)), anchor, "distance_m", "", func(p draw.Pt) {
		out, _ := l.FromPx(p)
		b.set("distance_m", out, false)
	})
	return b.Say("A line from the {stem} to an anchor, seen from the side"), b.Say("A line under %s runs from %s up a plumb {stem} to an anchor %s away, %s from level. It turns the tree with %s.", b.u.Load(s.tension), b.metres(s.height), b.metres(s.distance), b.degrees(s.angle), b.secret(b.u.Quantity(s.turn, units.KilonewtonMetres, units.Down)))
}
