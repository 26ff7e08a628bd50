package screen

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// benchBridle: two legs share a pull by the angle between them and by where
// it comes from.
var benchBridle = bench{
	id:    "bridle",
	title: "Two legs to two anchors",
	idea: "A pull shared between two anchors is not halved: the wider the angle between the legs, the harder each leg pulls. " +
		"Legs of fixed length share evenly only while the pull comes along their middle.",
	inputs: []benchInput{
		{key: "included_deg", label: "Angle between the legs", dim: units.Degrees, low: 1, high: 160, start: "80", step: 1, fine: 0.1,
			help: "As rigged, with the pull along the middle."},
		{key: "off_deg", label: "Pull off the middle", dim: units.Degrees, low: -40, high: 40, start: "0", step: 1, fine: 0.1,
			help: "0° along the middle, positive to the right in the picture."},
		{key: "legs", label: "Legs", start: bridleFixed, options: []Option{
			{bridleFixed, "of fixed length"}, {"adjusting", "self-adjusting, through a ring"}}},
		{key: "pull_kN", label: "Pull", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "10", step: 1, fine: 0.1},
	},
	question: "What does the harder loaded leg carry?",
	guess: func(b *benchWork) wanted {
		s := b.kept.(bridleState)
		half := s.rigged / 2
		return wanted{value: s.most(), dim: units.Kilonewtons, way: units.Up, tolerance: 0.1, slips: []slip{
			{s.pull / 2, "That is half the pull: it would be so only with the legs side by side."},
			{s.pull / (2 * math.Cos(s.rigged)), "That is with the whole angle in the cosine: it is half the angle that counts."},
			{s.pull / (2 * math.Sin(half)), "That is with the sine of half the angle between the legs: it is the cosine."},
			{s.pull, "That is the whole pull: a leg carries it at 120° between the legs, or where the other hangs slack."},
		}}
	},
	solve: func(b *benchWork) {
		s := bridleAt(b.in["pull_kN"], b.in["included_deg"]*rigging.Deg, b.in["off_deg"]*rigging.Deg, b.text["legs"] != bridleFixed)
		b.kept = s
		b.fact("load", "Harder loaded leg and its anchor carry", b.u.Load(s.most()))
		F, gamma := "F = "+b.u.Load(s.pull)+" (pull)", "γ = "+b.degrees(s.now)+" (angle between the legs)"
		off := "δ = " + b.degrees(s.off) + " (pull off the middle)"
		const source = "equilibrium of the junction"
		var legs []string
		for i, name := range []string{"Left leg", "Right leg"} {
			id := []string{"left", "right"}[i]
			t := "T" + subscript(i+1) + " = "
			legs = append(legs, t+b.u.Load(s.tension[i]))
			switch {
			case s.slack[i]:
				b.fact(id, name, "slack")
			case s.slack[1-i]:
				b.worked(id, name, b.u.Load(s.tension[i]), t+"F, since |δ| > γ/2", source, F, "γ = "+b.degrees(s.rigged)+" (angle between the legs as rigged)", off)
			case s.self:
				b.worked(id, name, b.u.Load(s.tension[i]), t+"F/(2·cos(γ/2))", source+", both legs pulling alike", F, gamma)
			default:
				b.worked(id, name, b.u.Load(s.tension[i]), t+"F·sin(γ/2 "+[]string{"+", "−"}[i]+" δ)/sin γ", source+" (law of sines)", F, gamma, off)
			}
		}
		b.step("load", "Harder loaded leg", "T = the greater of T₁ and T₂", b.u.Load(s.most()), "the weakest link counts", legs...)
		b.worked("factor", "Times the pull", hundredths(s.most()/s.pull, units.Up), "T/F", "proportion", "T = "+b.u.Load(s.most()), F)
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
	curve: func(b *benchWork) benchCurve {
		s := b.kept.(bridleState)
		return benchCurve{x: "included_deg", nameX: "angle between the legs", nameY: "harder loaded leg", dimY: units.Kilonewtons, way: units.Up,
			lines: []benchLine{
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
	ends              [2]pt
	at                pt      // the junction under the pull
	now               float64 // rad, the angle between the legs there
}

func (s bridleState) most() float64 { return max(s.tension[0], s.tension[1]) }

// bridleAt is a bridle under a pull (kN) that comes off the middle (rad) of
// legs with an angle (rad) between them.
func bridleAt(pull, rigged, off float64, self bool) bridleState {
	sin, cos := math.Sincos(rigged / 2)
	s := bridleState{pull: pull, rigged: rigged, off: off, self: self, ends: [2]pt{{-sin, cos}, {sin, cos}}}
	if self {
		s.at.x, s.at.y = rigging.RingPlace(rigged/2, off)
	}
	toward := pt{math.Sin(off), -math.Cos(off)}
	var legs []rigging.Vec
	for _, end := range s.ends {
		legs = append(legs, rigging.Vec{X: end.x - s.at.x, Z: end.y - s.at.y})
	}
	shared, err := rigging.Bridle{Legs: legs, SelfAdjusting: self}.Share(rigging.Vec{X: pull * toward.x, Z: pull * toward.y})
	if err != nil {
		s.tension = [2]float64{math.NaN(), math.NaN()} // cannot be in the range of the inputs
		return s
	}
	for i := range s.tension {
		s.tension[i], s.slack[i] = shared.Tension[i], shared.Slack[i]
	}
	for i := range s.slack {
		if s.slack[1-i] {
			s.at = s.ends[i].plus(toward)
		}
	}
	u, v := s.ends[0].minus(s.at), s.ends[1].minus(s.at)
	s.now = math.Atan2(math.Abs(u.x*v.y-u.y*v.x), u.x*v.x+u.y*v.y)
	return s
}

func drawBridle(b *benchWork, c *canvas) (title, desc string) {
	s := b.kept.(bridleState)
	reach := math.Min(c.w*0.35, c.h*0.47)
	rigged := pt{c.w / 2, c.h*0.06 + reach}
	see := func(p pt) pt { return pt{rigged.x + p.x*reach, rigged.y - p.y*reach} }
	at, left, right := see(s.at), see(s.ends[0]), see(s.ends[1])
	pull := pt{math.Sin(s.off), math.Cos(s.off)}
	end := at.plus(pull.times(math.Min(c.h*0.3, c.w*0.2)))
	legs := [2]string{"T₁ = ", "T₂ = "}
	for i, e := range []pt{left, right} {
		side := e.minus(at).unit().left() // out of the angle between the legs
		if i == 1 {
			side = side.times(-1)
		}
		if s.slack[i] {
			c.slack("rope-hold", e, at, reach, math.Inf(1))
			c.label(caption{text: legs[i] + "0, slack", class: "label-force", at: e.toward(at, 0.3), toward: side, prio: prioMust})
			continue
		}
		c.segment("bridle", "", e, at)
		c.aside("label-force", legs[i]+b.secret(b.u.Load(s.tension[i])), e, at, side, prioMust)
	}
	c.arrow("load", "", at, end)
	c.aside("label-force", "F = "+b.u.Load(s.pull), at, end, pull.left().times(math.Copysign(1, s.off)), prioMust)
	if s.off != 0 {
		middle := at.plus(pt{0, c.grow(70)})
		c.segment("plumb", "", at, middle)
		c.angleMark(at, pull, pt{0, 1}, c.grow(48), "δ = "+b.degrees(s.off))
	}
	if !s.slack[0] && !s.slack[1] {
		c.angleMark(at, left.minus(at), right.minus(at), c.grow(26), "γ = "+b.degrees(s.now))
	}
	c.circle("sheave", "", at, c.grow(5))
	c.anchorMark(left)
	c.anchorMark(right)
	turn := func(p pt) {
		d := p.minus(rigged)
		b.set("included_deg", 2*math.Abs(math.Atan2(d.x, -d.y))/rigging.Deg, false)
	}
	said := "Angle between the legs as rigged, " + b.degrees(s.rigged)
	b.grab(c, "right", "Right anchor. "+said, right, "included_deg", "-included_deg", turn)
	b.grab(c, "left", "Left anchor. "+said, left, "-included_deg", "-included_deg", turn)
	b.grab(c, "pull", "Where the pull comes from, "+b.degrees(s.off)+" off the middle", end, "off_deg", "", func(p pt) {
		d := p.minus(at)
		b.set("off_deg", math.Atan2(d.x, d.y)/rigging.Deg, false)
	})
	desc = "A pull of " + b.u.Load(s.pull) + ", " + b.degrees(s.off) + " off the middle, is held by two legs with " + b.degrees(s.now) + " between them. "
	for i, name := range []string{"The left leg", " The right leg"} {
		if s.slack[i] {
			desc += name + " hangs slack."
		} else {
			desc += name + " carries " + b.secret(b.u.Load(s.tension[i])) + "."
		}
	}
	return "Two legs to two anchors", desc
}
