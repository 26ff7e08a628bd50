package screen

import (
	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// benchStretch: a taut rope is a spring, and what it stores comes back if it
// parts.
var benchStretch = bench{
	id:    "stretch",
	title: "Stretch and stored energy",
	idea: "A rope under load is a long spring. The more it stretches at a pull, the more it stores: twice the pull stores four times as much, " +
		"and a soft rope far more than wire. All of it comes back at once if the rope parts. A line made fast that has to grow loads up by the same law.",
	inputs: []benchInput{
		{key: "known", label: "The rope", start: pulled, options: []Option{
			{pulled, "is pulled with a tension"}, {"grows", "is made fast at both ends and has to grow: a {hold line} nobody lets out"}}},
		{key: "tension_kN", label: "Tension", dim: units.Kilonewtons, low: 0.5, high: 500, start: "30", step: 1, fine: 0.1, when: isPulled},
		{key: "grows_m", label: "It has to grow by", dim: units.Metres, way: units.Up, low: 0.01, high: 50, start: "0.5", step: 0.1, fine: 0.01,
			help: "How much longer its way becomes as the tree turns.", when: func(b *benchWork) bool { return !isPulled(b) }},
		{key: "length_m", label: "Length of rope under load", dim: units.Metres, low: 1, high: 500, start: "50", step: 1, fine: 0.1},
		{key: "stiffness_kN", label: "Stiffness of the rope (EA)", dim: units.Kilonewtons, low: 50, high: 50000, start: "4990", step: 100, fine: 10, suggest: &allStiffness,
			help: "Tension divided by the share it stretches: for wire rope modulus times metal area. Published ones are offered. A new wire rope is softer; {fibre} rope is not a straight spring, so its figure is only near."},
	},
	question: "How much energy does the rope store?",
	guess: func(b *benchWork) wanted {
		s := b.kept.(stretchState)
		if s.parted() {
			return wanted{}
		}
		return wanted{value: s.energy, dim: units.Kilojoules, way: units.Up, tolerance: 0.05, slips: []slip{
			{2 * s.energy, "That is tension times stretch: the tension grows from nought, so it is half of that."},
			{100 * s.energy, "That is with the stretch in centimetres: it takes metres."},
			{s.stretch * s.stiffness / 2, "That leaves out the length: the stretch is the tension over the stiffness, times the length."},
		}}
	},
	solve: func(b *benchWork) {
		s := stretchState{tension: b.in["tension_kN"], length: b.in["length_m"], stiffness: b.in["stiffness_kN"]}
		if !isPulled(b) {
			s.tension = s.stiffness * b.in["grows_m"] / s.length
		}
		s.stretch = rigging.Stretch(s.tension, s.length, s.stiffness)
		s.energy = rigging.StoredEnergy(s.tension, s.length, s.stiffness)
		b.kept = s
		if s.parted() {
			b.lacks = "That would stretch the rope by more than half its length: even nylon has parted by then, so there is no number."
			return
		}
		lift := s.energy * 1000 / (thrownKg * rigging.G)
		b.fact("energy", "Energy stored in the rope", b.u.Quantity(s.energy, units.Kilojoules, units.Up))
		stretch := b.u.Quantity(s.stretch/rigging.CM, units.Centimetres, units.Up)
		t, l, ea := "T = "+b.tension(s)+" (tension)", "L = "+b.metres(s.length)+" (length)", "EA = "+b.u.Quantity(s.stiffness, units.Kilonewtons, units.Nearest)+" (stiffness)"
		if !isPulled(b) {
			b.worked("tension", "Tension that puts on the rope", b.tension(s), "T = EA·ΔL/L", "Hooke's law", ea, "ΔL = "+b.given("grows_m")+" (it has to grow)", l)
			b.note("fast", "Where the rope cannot take that, it stops or swings the tree, or parts. Have someone let it out under control.", words.CommonPractice)
		}
		b.worked("stretch", "Stretch", stretch, "ΔL = T·L/(EA)", "Hooke's law", t, l, ea)
		b.worked("share", "Of its length", units.Decimal(units.Round(s.stretch/s.length*100, 0.01, units.Up), -1)+"\u00a0%", "ΔL/L", "proportion", "ΔL = "+stretch, l)
		b.step("energy", "Energy, the area under the line", "E = T·ΔL/2 = T²·L/(2·EA)", b.u.Quantity(s.energy, units.Kilojoules, units.Up), "work done as the tension grows from nought",
			t, "ΔL = "+stretch)
		b.worked("lift", "The same energy lifts "+b.u.Quantity(thrownKg, units.Kilograms, units.Nearest)+" by", b.u.Quantity(lift, units.Metres, units.Up), "H = E/(m·g)", "potential energy",
			"E = "+b.u.Quantity(s.energy, units.Kilojoules, units.Up), "m = "+b.u.Quantity(thrownKg, units.Kilograms, units.Nearest)+", chosen to compare with", "g = 9.80665\u00a0m/s²")
		b.note("recoil", plan.Recoil, plan.RecoilSource)
		b.note("zone", "Nobody stands in line with a taut rope nor inside its angle. This number draws no line behind which it is safe.", "UK MCA, Code of Safe Working Practices, 26.3; MGN 308 (M+F), 2.2")
		if s.stretch > s.length*farStretched {
			b.note("far", "Stretched by more than a tenth: hardly any wire rope and few {fibre} ropes are meant for this, and none is a straight spring that far.", words.CommonPractice)
		}
		b.leftOut("The picture shows the stretch larger than it is. Left out: whether the rope holds this pull, the stretch that stays in a new rope, and what {block}s and {strop}s give.")
	},
	draw: drawStretch,
	curve: func(b *benchWork) benchCurve {
		s := b.kept.(stretchState)
		if s.parted() {
			return benchCurve{}
		}
		if !isPulled(b) {
			return benchCurve{x: "grows_m", nameX: "it has to grow by", nameY: "tension", dimY: units.Kilonewtons, way: units.Up, low: 0, high: max(s.stretch*1.5, 0.1),
				lines: []benchLine{{class: "curve", at: func(x float64) float64 { return s.stiffness * x / s.length }}}}
		}
		return benchCurve{x: "tension_kN", nameX: "tension", nameY: "stored energy", dimY: units.Kilojoules, way: units.Up, low: 0, high: max(s.tension*1.5, 10),
			lines: []benchLine{{class: "curve", at: func(x float64) float64 { return rigging.StoredEnergy(x, s.length, s.stiffness) }}}}
	},
}

const pulled = "pulled"

func isPulled(b *benchWork) bool { return b.text["known"] == pulled }

const (
	thrownKg     = 100  // a mass to tell the energy by
	farStretched = 0.1  // share of the length from which the straight spring is not believed
	mostStretch  = 0.5  // share of the length by which nylon stretches before it parts: US Navy NAVEDTRA 12018, p. 7-13
	drawnKN      = 100. // tension the picture holds, kN; more where there is more
)

// stretchState is in kN, m and kJ.
type stretchState struct{ tension, length, stiffness, stretch, energy float64 }

// tension writes what the rope is under: as it was given, else never less than it
// is.
func (b *benchWork) tension(s stretchState) string {
	if isPulled(b) {
		return b.u.Quantity(s.tension, units.Kilonewtons, units.Nearest)
	}
	return b.u.Load(s.tension)
}

// parted says whether no rope stretches as far as that.
func (s *stretchState) parted() bool { return s.stretch > mostStretch*s.length }

func drawStretch(b *benchWork, c *canvas) (title, desc string) {
	s := b.kept.(stretchState)
	stretch, stored := units.None, units.None
	if !s.parted() {
		stretch, stored = b.u.Quantity(s.stretch/rigging.CM, units.Centimetres, units.Up), b.secret(b.u.Quantity(s.energy, units.Kilojoules, units.Up))
	}
	// The rope, before and now.
	left, rowA, rowB := c.grow(24), c.font*1.7, c.font*3.5
	full := drawnKN
	for full < s.tension {
		full *= 2
	}
	share := niceForce(full / s.stiffness) // stretch at the right edge, of the length
	bare := c.w * 0.45
	far := c.w - c.grow(46)
	end := left + bare + (far-left-bare)*min(s.stretch/s.length/share, 1)
	c.segment("rope-hold", "", pt{left, rowA}, pt{left + bare, rowA})
	c.segment("rope", "", pt{left, rowB}, pt{end, rowB})
	c.arrow("force", "", pt{end, rowB}, pt{end + c.grow(30), rowB})
	c.anchorMark(pt{left, rowA})
	c.anchorMark(pt{left, rowB})
	c.segment("drop", "", pt{left + bare, rowA}, pt{left + bare, rowB + c.font*1.2})
	c.label(caption{text: "L = " + b.metres(s.length), class: "label", at: pt{left + bare, rowA}, toward: pt{1, 0}, prio: prioForce})
	c.label(caption{text: "T = " + b.tension(s), class: "label-force", at: pt{left, rowB}, along: pt{left + bare, rowB}, slide: true, toward: pt{0, 1}, prio: prioMust})

	// Tension over stretch: the area under the line is the energy.
	o := pt{left + c.grow(10), c.h - c.font*2}
	edge := pt{far, rowB + c.font*3.2}
	at := func(kN float64) pt {
		return pt{o.x + (edge.x-o.x)*kN/s.stiffness/share, o.y + (edge.y-o.y)*kN/full}
	}
	now := at(s.tension)
	c.polygon("bight", "", o, pt{now.x, o.y}, now)
	c.segment("axis", "", o, pt{o.x, edge.y})
	c.segment("axis", "", o, pt{edge.x, o.y})
	c.segment("plumb", "", now, at(full))
	c.segment("curve", "", o, now)
	c.segment("commit", "", now, pt{now.x, o.y})
	c.solid = append(c.solid, around(now, c.grow(12)))
	c.label(caption{text: "tension", class: "label-note", at: pt{o.x, edge.y}, toward: pt{0, -1}, prio: prioAngle, gap: c.grow(3), spots: []spot{{pt{o.x - c.grow(16), edge.y - c.font*0.4}, pt{1, 0}}}})
	c.label(caption{text: "stretch", class: "label-note", at: pt{edge.x, o.y + c.font}, toward: pt{-1, 0}, prio: prioAngle})
	c.label(caption{text: "ΔL = " + stretch, class: "label", at: pt{now.x, o.y}, toward: pt{0, 1}, prio: prioMust, gap: c.grow(3)})
	c.label(caption{text: "E = " + stored, class: "label-force", at: pt{now.x, (o.y + now.y) / 2}, toward: pt{1, 0}, gap: c.grow(8), prio: prioMust})
	key, per := "tension_kN", 1.0
	if !isPulled(b) {
		key, per = "grows_m", s.length/s.stiffness
	}
	b.grab(c, "tension", "Tension, "+b.tension(s), now, key, key, func(p pt) {
		b.set(key, min((p.y-o.y)/(edge.y-o.y), 1)*full*per, false)
	})
	return "A rope stretched, and its tension over its stretch", "A rope of " + b.metres(s.length) + " under " + b.tension(s) +
		" stretches by " + stretch + " and stores " + stored + "."
}
