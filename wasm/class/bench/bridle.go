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

// bridle: two legs share a pull by the angle between them and by where
// it comes from.
var bridle = bench{
	id:    "bridle",
	title: "Two legs to two anchors",
	idea: "Two anchors do not halve a pull they share: the wider the angle between the legs, the harder each leg pulls. " +
		"Legs of fixed length share equally only while the pull comes along their middle.",
	inputs: []input{
		{key: "included_deg", label: "Angle between the legs", dim: units.Degrees, low: 1, high: 160, start: "80", step: 1, fine: 0.1,
			help: "As rigged, with the pull along the middle."},
		{key: "off_deg", label: "Pull off the middle", dim: units.Degrees, low: -40, high: 40, start: "0", step: 1, fine: 0.1,
			help: "0° along the middle, positive to the right in the picture."},
		{key: "legs", label: "Legs", start: bridleFixed, options: []parts.Choice{
			{Value: bridleFixed, Label: "of fixed length"}, {Value: "adjusting", Label: "self-adjusting, through a ring"}}},
		{key: "pull_kN", label: "Pull", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "10", step: 1, fine: 0.1},
	},
	question: "What does the harder loaded leg carry?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(bridleState)
		half := s.rigged / 2
		return marking.Wanted{Value: s.most(), Dim: units.Kilonewtons, Way: units.Up, Tolerance: 0.1, Slips: []marking.Slip{
			{Value: s.pull / 2, Says: "That is half the pull: it would be so only with the legs side by side."},
			{Value: s.pull / (2 * math.Cos(s.rigged)), Says: "The cosine is of half the angle, not the whole."},
			{Value: s.pull / (2 * math.Sin(half)), Says: "Sine in place of cosine of half the angle between the legs."},
			{Value: s.pull, Says: "That is the whole pull: a leg carries it at 120° between the legs, or where the other hangs slack."},
		}}
	},
	solve: func(b *work) {
		s := bridleAt(b.in["pull_kN"], b.in["included_deg"]*rigging.Deg, b.in["off_deg"]*rigging.Deg, b.text["legs"] != bridleFixed)
		b.kept = s
		b.fact("load", "Load on the harder loaded leg and its anchor", b.u.Load(s.most()))
		F, gamma := parts.Let("F", b.u.Load(s.pull)).Of("pull"), parts.Let("γ", b.degrees(s.now)).Of("angle between the legs")
		off := parts.Let("δ", b.degrees(s.off)).Of("pull off the middle")
		const source words.Text = "equilibrium of the junction"
		var legs []parts.Value
		for i, name := range []words.Text{"Left leg", "Right leg"} {
			id := []string{"left", "right"}[i]
			t := "T" + subscript(i+1) + " = "
			legs = append(legs, parts.Let("T"+subscript(i+1), b.u.Load(s.tension[i])))
			switch {
			case s.slack[i]:
				b.fact(id, name, b.Say("slack"))
			case s.slack[1-i]:
				b.workedAs(id, b.Say(name), b.u.Load(s.tension[i]), b.Say("%sF, since |δ| > γ/2", t), b.Say(source), F, parts.Let("γ", b.degrees(s.rigged)).Of("angle between the legs as rigged"), off)
			case s.self:
				b.workedAs(id, b.Say(name), b.u.Load(s.tension[i]), t+"F/(2·cos(γ/2))", b.Say("equilibrium of the junction, equal pull in both legs"), F, gamma)
			default:
				b.workedAs(id, b.Say(name), b.u.Load(s.tension[i]), t+"F·sin(γ/2 "+[]string{"+", "−"}[i]+" δ)/sin γ", b.Say("equilibrium of the junction (law of sines)"), F, gamma, off)
			}
		}
		b.step("load", "Harder loaded leg", "T = the greater of T₁ and T₂", b.u.Load(s.most()), "the weakest link counts", legs...)
		b.worked("factor", "Leg load ÷ pull", hundredths(s.most()/s.pull, units.Up), "T/F", "proportion", parts.Let("T", b.u.Load(s.most())), F)
		if s.slack[0] || s.slack[1] {
			b.note("slack", "The pull comes from outside the legs: one hangs slack, the other swings into line and carries all of it.", source)
		}
		if s.self {
			b.note("ring", "The ring runs to where the pull halves the angle. If one leg lets go, the ring must not run off the sling, and the other leg takes the shock.", words.CommonPractice)
		}
		b.note("wide", "Keep the angle well under 120°: from there on each leg carries more than the whole pull.", "Arboriculture Australia, Tree Rescue Manual, 2022, p. 173")
		b.leftOut("Left out: legs that stretch, weight of the legs, friction in the ring.")
		b.anchorNote()
	},
	draw: drawBridle,
	curve: func(b *work) curve {
		s := b.kept.(bridleState)
		return curve{x: "included_deg", nameX: "angle between the legs", nameY: "harder loaded leg", dimY: units.Kilonewtons, way: units.Up,
			lines: []curveLine{
				{class: "curve", at: func(x float64) float64 { return bridleAt(s.pull, x*rigging.Deg, s.off, s.self).most() }},
				{class: "planned", name: "the whole pull", at: func(float64) float64 { return s.pull }},
			}}
	},
}

const bridleFixed = "fixed"

// bridleState is a bridle at rest. Places are in lengths of a leg from the
// junction as rigged, x to the right and y up, the ends above it.
type bridleState struct {
	pull, rigged, off float64 // kN, rad
	self              bool
	tension           [2]float64 // kN, left and right
	slack             [2]bool
	ends              [2]draw.Pt
	at                draw.Pt // the junction under the pull
	now               float64 // rad, the angle between the legs there
}

func (s bridleState) most() float64 { return max(s.tension[0], s.tension[1]) }

// bridleAt is a bridle under a pull (kN) that comes off the middle (rad) of
// legs with an angle (rad) between them.
func bridleAt(pull, rigged, off float64, self bool) bridleState {
	sin, cos := math.Sincos(rigged / 2)
	s := bridleState{pull: pull, rigged: rigged, off: off, self: self, ends: [2]draw.Pt{{X: -sin, Y: cos}, {X: sin, Y: cos}}}
	if self {
		s.at.X, s.at.Y = rigging.RingPlace(rigged/2, off)
	}
	toward := draw.Pt{X: math.Sin(off), Y: -math.Cos(off)}
	var legs []rigging.Vec
	for _, end := range s.ends {
		legs = append(legs, rigging.Vec{X: end.X - s.at.X, Z: end.Y - s.at.Y})
	}
	shared, err := rigging.Bridle{Legs: legs, SelfAdjusting: self}.Share(rigging.Vec{X: pull * toward.X, Z: pull * toward.Y})
	if err != nil {
		s.tension = [2]float64{math.NaN(), math.NaN()} // cannot be in the range of the inputs
		return s
	}
	for i := range s.tension {
		s.tension[i], s.slack[i] = shared.Tension[i], shared.Slack[i]
	}
	for i := range s.slack {
		if s.slack[1-i] {
			s.at = s.ends[i].Plus(toward)
		}
	}
	u, v := s.ends[0].Minus(s.at), s.ends[1].Minus(s.at)
	s.now = math.Atan2(math.Abs(u.X*v.Y-u.Y*v.X), u.X*v.X+u.Y*v.Y)
	return s
}

func drawBridle(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(bridleState)
	reach := math.Min(c.W*0.35, c.H*0.47)
	rigged := draw.Pt{X: c.W / 2, Y: c.H*0.06 + reach}
	see := func(p draw.Pt) draw.Pt { return draw.Pt{X: rigged.X + p.X*reach, Y: rigged.Y - p.Y*reach} }
	at, left, right := see(s.at), see(s.ends[0]), see(s.ends[1])
	pull := draw.Pt{X: math.Sin(s.off), Y: math.Cos(s.off)}
	end := at.Plus(pull.Times(math.Min(c.H*0.3, c.W*0.2)))
	legs := [2]string{"T₁ = ", "T₂ = "}
	for i, e := range []draw.Pt{left, right} {
		side := e.Minus(at).Unit().Left() // out of the angle between the legs
		if i == 1 {
			side = side.Times(-1)
		}
		if s.slack[i] {
			c.Slack("rope-hold", e, at, reach, math.Inf(1))
			c.Label(draw.Label{Text: b.Say("%s0, slack", legs[i]), Class: "label-force", At: e.Toward(at, 0.3), Toward: side, Prio: draw.PrioMust})
			continue
		}
		c.Segment("bridle", "", e, at)
		c.Along("label-force", legs[i]+b.secret(b.u.Load(s.tension[i])), e, at, side, draw.PrioMust)
	}
	c.Arrow("load", "", at, end)
	c.Along("label-force", "F = "+b.u.Load(s.pull), at, end, pull.Left().Times(math.Copysign(1, s.off)), draw.PrioMust)
	if s.off != 0 {
		middle := at.Plus(draw.Pt{X: 0, Y: c.Grow(70)})
		c.Segment("plumb", "", at, middle)
		c.AngleMark(at, pull, draw.Pt{X: 0, Y: 1}, c.Grow(48), "δ = "+b.degrees(s.off))
	}
	if !s.slack[0] && !s.slack[1] {
		c.AngleMark(at, left.Minus(at), right.Minus(at), c.Grow(26), "γ = "+b.degrees(s.now))
	}
	c.Circle("sheave", "", at, c.Grow(5))
	c.AnchorMark(left)
	c.AnchorMark(right)
	turn := func(p draw.Pt) {
		d := p.Minus(rigged)
		b.set("included_deg", 2*math.Abs(math.Atan2(d.X, -d.Y))/rigging.Deg, false)
	}
	said := b.Say("Angle between the legs as rigged, %s", b.degrees(s.rigged))
	b.grab(c, "right", b.Say("Right anchor. %s", said), right, "included_deg", "-included_deg", turn)
	b.grab(c, "left", b.Say("Left anchor. %s", said), left, "-included_deg", "-included_deg", turn)
	b.grab(c, "pull", b.Say("Where the pull comes from, %s off the middle", b.degrees(s.off)), end, "off_deg", "", func(p draw.Pt) {
		d := p.Minus(at)
		b.set("off_deg", math.Atan2(d.X, d.Y)/rigging.Deg, false)
	})
	desc = b.Say("A pull of %s, %s off the middle, is held by two legs with %s between them.", b.u.Load(s.pull), b.degrees(s.off), b.degrees(s.now))
	for i, leg := range [...]struct{ slack, carries words.Text }{{"The left leg is slack.", "The left leg carries %s."}, {"The right leg is slack.", "The right leg carries %s."}} {
		if s.slack[i] {
			desc = words.Join(desc, b.Say(leg.slack))
		} else {
			desc = words.Join(desc, b.Say(leg.carries, b.secret(b.u.Load(s.tension[i]))))
		}
	}
	return b.Say("Two legs to two anchors"), desc
}
