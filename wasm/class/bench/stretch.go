package bench

import (
	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/text"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// stretch: a taut rope is a spring, and what it stores comes back if it
// parts.
var stretch = bench{
	id:    "stretch",
	title: "Stretch and stored energy",
	idea: "A loaded rope is a long spring. The more it stretches, the more it stores: twice the pull stores four times as much, " +
		"and a soft rope far more than wire. All of it is released at once if the rope parts. A line made fast that has to grow loads up by the same law.",
	inputs: []input{
		{key: "known", label: "The rope", start: pulled, options: []parts.Choice{
			{Value: pulled, Label: "is pulled with a tension"}, {Value: "grows", Label: "is made fast at both ends and has to stretch: an untended {hold line}"}}},
		{key: "tension_kN", label: "Tension", dim: units.Kilonewtons, low: 0.5, high: 500, start: "30", step: 1, fine: 0.1, when: isPulled},
		{key: "grows_m", label: "It has to grow by", dim: units.Metres, way: units.Up, low: 0.01, high: 50, start: "0.5", step: 0.1, fine: 0.01,
			help: "How much longer its way becomes as the tree turns.", when: func(b *work) bool { return !isPulled(b) }},
		{key: "length_m", label: "Length of rope under load", dim: units.Metres, low: 1, high: 500, start: "50", step: 1, fine: 0.1},
		{key: "stiffness_kN", label: "Rope stiffness (EA)", dim: units.Kilonewtons, low: 50, high: 50000, start: "4990", step: 100, fine: 10, suggest: &offer.AllStiffness,
			help: "Tension divided by the share it stretches: for wire rope modulus times metal area. Published ones are offered. A new wire rope is softer; {fibre} rope is not a straight spring, so its figure is only near."},
	},
	question: "How much energy does the rope store?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(stretchState)
		if s.parted() {
			return marking.Wanted{}
		}
		return marking.Wanted{Value: s.energy, Dim: units.Kilojoules, Way: units.Up, Tolerance: 0.05, Slips: []marking.Slip{
			{Value: 2 * s.energy, Says: "That is tension times stretch: the tension grows from 0, so it is half of that."},
			{Value: 100 * s.energy, Says: "That is with the stretch in centimetres: it takes metres."},
			{Value: s.stretch * s.stiffness / 2, Says: "That leaves out the length: the stretch is the tension over the stiffness, times the length."},
		}}
	},
	solve: func(b *work) {
		s := stretchState{tension: b.in["tension_kN"], length: b.in["length_m"], stiffness: b.in["stiffness_kN"]}
		if !isPulled(b) {
			s.tension = s.stiffness * b.in["grows_m"] / s.length
		}
		s.stretch = rigging.Stretch(s.tension, s.length, s.stiffness)
		s.energy = rigging.StoredEnergy(s.tension, s.length, s.stiffness)
		b.kept = s
		if s.parted() {
			b.lacks = b.Say("That would stretch the rope by more than half its length: even nylon has parted by then, so there is no number.")
			return
		}
		lift := s.energy * 1000 / (thrownKg * rigging.G)
		b.fact("energy", "Energy stored in the rope", b.u.Quantity(s.energy, units.Kilojoules, units.Up))
		stretch := b.u.Quantity(s.stretch/rigging.CM, units.Centimetres, units.Up)
		t, l, ea := parts.Let("T", b.tension(s)).Of("tension"), parts.Let("L", b.metres(s.length)).Of("length"), parts.Let("EA", b.u.Quantity(s.stiffness, units.Kilonewtons, units.Nearest)).Of("stiffness")
		if !isPulled(b) {
			b.worked("tension", "Tension that puts on the rope", b.tension(s), "T = EA·ΔL/L", "Hooke's law", ea, parts.Let("ΔL", b.given("grows_m")).Of("it has to grow"), l)
			b.note("fast", "If the rope cannot take that, it stops or swings the tree, or parts. Have someone pay it out under control.", words.CommonPractice)
		}
		b.worked("stretch", "Stretch", stretch, "ΔL = T·L/(EA)", "Hooke's law", t, l, ea)
		b.worked("share", "Share of its length", units.Decimal(units.Round(s.stretch/s.length*100, 0.01, units.Up), -1)+"\u00a0%", "ΔL/L", "proportion", parts.Let("ΔL", stretch), l)
		b.step("energy", "Energy, the area under the line", "E = T·ΔL/2 = T²·L/(2·EA)", b.u.Quantity(s.energy, units.Kilojoules, units.Up), "work done as the tension grows from 0",
			t, parts.Let("ΔL", stretch))
		b.workedAs("lift", b.Say("The same energy lifts %s by", b.u.Quantity(thrownKg, units.Kilograms, units.Nearest)), b.u.Quantity(lift, units.Metres, units.Up), "H = E/(m·g)", b.Say("potential energy"),
			parts.Let("E", b.u.Quantity(s.energy, units.Kilojoules, units.Up)), parts.Let("m", b.u.Quantity(thrownKg, units.Kilograms, units.Nearest)).Of("chosen to compare with"), parts.Let("g", "9.80665\u00a0m/s²"))
		b.note("recoil", text.Recoil, plan.RecoilSource)
		b.note("zone", "Nobody stands in line with a taut rope nor inside its angle. This number draws no line behind which it is safe.", "UK MCA, Code of Safe Working Practices, 26.3; MGN 308 (M+F), 2.2")
		if s.stretch > s.length*farStretched {
			b.note("far", "Stretched by more than a tenth: hardly any wire rope and few {fibre} ropes are meant for this, and none is a linear spring that far.", words.CommonPractice)
		}
		b.leftOut("The picture shows the stretch larger than it is. Left out: whether the rope holds this pull, the stretch that stays in a new rope, and what {block}s and {strop}s give.")
	},
	draw: drawStretch,
	curve: func(b *work) curve {
		s := b.kept.(stretchState)
		if s.parted() {
			return curve{}
		}
		if !isPulled(b) {
			return curve{x: "grows_m", nameX: "it has to grow by", nameY: "tension", dimY: units.Kilonewtons, way: units.Up, low: 0, high: max(s.stretch*1.5, 0.1),
				lines: []curveLine{{class: "curve", at: func(x float64) float64 { return s.stiffness * x / s.length }}}}
		}
		return curve{x: "tension_kN", nameX: "tension", nameY: "stored energy", dimY: units.Kilojoules, way: units.Up, low: 0, high: max(s.tension*1.5, 10),
			lines: []curveLine{{class: "curve", at: func(x float64) float64 { return rigging.StoredEnergy(x, s.length, s.stiffness) }}}}
	},
}

const pulled = "pulled"

func isPulled(b *work) bool { return b.text["known"] == pulled }

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
func (b *work) tension(s stretchState) string {
	if isPulled(b) {
		return b.u.Quantity(s.tension, units.Kilonewtons, units.Nearest)
	}
	return b.u.Load(s.tension)
}

// parted says whether no rope stretches as far as that.
func (s *stretchState) parted() bool { return s.stretch > mostStretch*s.length }

func drawStretch(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(stretchState)
	stretch, stored := units.None, units.None
	if !s.parted() {
		stretch, stored = b.u.Quantity(s.stretch/rigging.CM, units.Centimetres, units.Up), b.secret(b.u.Quantity(s.energy, units.Kilojoules, units.Up))
	}
	// The rope, before and now.
	left, rowA, rowB := c.Grow(24), c.Font*1.7, c.Font*3.5
	full := drawnKN
	for full < s.tension {
		full *= 2
	}
	share := draw.RoundAbove(full / s.stiffness) // stretch at the right edge, of the length
	bare := c.W * 0.45
	far := c.W - c.Grow(46)
	end := left + bare + (far-left-bare)*min(s.stretch/s.length/share, 1)
	c.Segment("rope-hold", "", draw.Pt{X: left, Y: rowA}, draw.Pt{X: left + bare, Y: rowA})
	c.Segment("rope", "", draw.Pt{X: left, Y: rowB}, draw.Pt{X: end, Y: rowB})
	c.Arrow("force", "", draw.Pt{X: end, Y: rowB}, draw.Pt{X: end + c.Grow(30), Y: rowB})
	c.AnchorMark(draw.Pt{X: left, Y: rowA})
	c.AnchorMark(draw.Pt{X: left, Y: rowB})
	c.Segment("drop", "", draw.Pt{X: left + bare, Y: rowA}, draw.Pt{X: left + bare, Y: rowB + c.Font*1.2})
	c.Label(draw.Label{Text: "L = " + b.metres(s.length), Class: "label", At: draw.Pt{X: left + bare, Y: rowA}, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioForce})
	c.Label(draw.Label{Text: "T = " + b.tension(s), Class: "label-force", At: draw.Pt{X: left, Y: rowB}, Along: draw.Pt{X: left + bare, Y: rowB}, Slide: true, Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioMust})

	// Tension over stretch: the area under the line is the energy.
	o := draw.Pt{X: left + c.Grow(10), Y: c.H - c.Font*2}
	edge := draw.Pt{X: far, Y: rowB + c.Font*3.2}
	at := func(kN float64) draw.Pt {
		return draw.Pt{X: o.X + (edge.X-o.X)*kN/s.stiffness/share, Y: o.Y + (edge.Y-o.Y)*kN/full}
	}
	now := at(s.tension)
	c.Polygon("bight", "", o, draw.Pt{X: now.X, Y: o.Y}, now)
	c.Segment("axis", "", o, draw.Pt{X: o.X, Y: edge.Y})
	c.Segment("axis", "", o, draw.Pt{X: edge.X, Y: o.Y})
	c.Segment("plumb", "", now, at(full))
	c.Segment("curve", "", o, now)
	c.Segment("commit", "", now, draw.Pt{X: now.X, Y: o.Y})
	c.Keep(draw.Around(now, c.Grow(12)))
	c.Label(draw.Label{Text: b.Say("tension"), Class: "label-note", At: draw.Pt{X: o.X, Y: edge.Y}, Toward: draw.Pt{X: 0, Y: -1}, Prio: draw.PrioAngle, Gap: c.Grow(3), Stands: []draw.Stand{{At: draw.Pt{X: o.X - c.Grow(16), Y: edge.Y - c.Font*0.4}, Toward: draw.Pt{X: 1, Y: 0}}}})
	c.Label(draw.Label{Text: b.Say("stretch"), Class: "label-note", At: draw.Pt{X: edge.X, Y: o.Y + c.Font}, Toward: draw.Pt{X: -1, Y: 0}, Prio: draw.PrioAngle})
	c.Label(draw.Label{Text: "ΔL = " + stretch, Class: "label", At: draw.Pt{X: now.X, Y: o.Y}, Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioMust, Gap: c.Grow(3)})
	c.Label(draw.Label{Text: "E = " + stored, Class: "label-force", At: draw.Pt{X: now.X, Y: (o.Y + now.Y) / 2}, Toward: draw.Pt{X: 1, Y: 0}, Gap: c.Grow(8), Prio: draw.PrioMust})
	key, per := "tension_kN", 1.0
	if !isPulled(b) {
		key, per = "grows_m", s.length/s.stiffness
	}
	b.grab(c, "tension", b.Say("Tension, %s", b.tension(s)), now, key, key, func(p draw.Pt) {
		b.set(key, min((p.Y-o.Y)/(edge.Y-o.Y), 1)*full*per, false)
	})
	return b.Say("A rope stretched, and its tension over its stretch"), b.Say("A rope of %s under %s stretches by %s and stores %s.", b.metres(s.length), b.tension(s), stretch, stored)
}
