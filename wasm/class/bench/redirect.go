package bench

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// redirect: the load on a redirect block follows the angle between its
// two legs.
var redirect = bench{
	id:    "redirect",
	title: "Angle at a {redirect}",
	idea: "A {block} that turns a rope is loaded by both legs. The narrower the angle between them, the greater the load: " +
		"twice the rope tension when the rope is folded back on itself.",
	inputs: []input{
		{key: "included_deg", label: "Angle between the legs", dim: units.Degrees, high: 180, start: "70", step: 1, fine: 0.1,
			help: "0° where the rope comes back beside itself, 180° where it runs straight through."},
		{key: "tension_kN", label: "Tension toward the tree", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "10", step: 1, fine: 0.1},
		{key: "efficiency", label: "Efficiency of the sheave", dim: units.Plain, low: 0.5, high: 1, start: "1", step: 0.01, fine: 0.01, suggest: &offer.Sheaves,
			help: "1 is without friction. The field rule is a tenth lost at a half-turn: 0.9."},
	},
	question: "What does the {block} carry?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(redirectState)
		return marking.Wanted{Value: s.load, Dim: units.Kilonewtons, Way: units.Up, Tolerance: 0.1, Slips: []marking.Slip{
			{Value: 2 * s.in * math.Cos(s.angle), Says: "The cosine is of half the angle, not the whole."},
			{Value: 2 * s.in * math.Sin(s.angle/2), Says: "Sine in place of cosine of half the angle between the legs."},
			{Value: 2 * s.in, Says: "That is twice the tension: it would be so only where the legs lie side by side."},
		}}
	},
	solve: func(b *work) {
		s := redirectState{in: b.in["tension_kN"], angle: b.in["included_deg"] * rigging.Deg, efficiency: b.in["efficiency"]}
		s.ratio = rigging.SheaveRatio(s.efficiency, s.angle)
		s.out = s.in * s.ratio
		s.load, s.most = rigging.BlockLoad(s.in, s.out, s.angle), rigging.BlockLoad(s.out, s.out, s.angle)
		s.most = max(s.most, s.load)
		b.kept = s
		b.fact("load", "{Block} and its anchor carry", b.u.Load(s.load))
		b.fact("haul", "Tension toward the puller", b.u.Load(s.out))
		b.step("haul", "Tension toward the {puller}", "T₂ = T₁·(1 + κ·cos(γ/2))/(1 − κ·cos(γ/2)), κ = (1 − η)/(1 + η)", b.u.Load(s.out),
			sheaveFriction, parts.Let("T₁", b.u.Load(s.in)).Of("tension toward the tree"), parts.Let("γ", b.degrees(s.angle)).Of("angle between the legs"),
			parts.Let("η", units.Significant(s.efficiency, 3)).Of("efficiency of the sheave"))
		b.step("load", "Load on the {block}", "R = √(T₁² + T₂² + 2·T₁·T₂·cos γ)", b.u.Load(s.load), "parallelogram of forces",
			parts.Let("T₁", b.u.Load(s.in)), parts.Let("T₂", b.u.Load(s.out)), parts.Let("γ", b.degrees(s.angle)))
		b.worked("most", "At most, if nothing rubs at that haul", b.u.Load(s.most), "2·T₂·cos(γ/2)", "parallelogram of forces; friction is not relied on where it would reduce a load",
			parts.Let("T₂", b.u.Load(s.out)), parts.Let("γ", b.degrees(s.angle)))
		b.worked("factor", "Times the tension", hundredths(s.load/s.in, units.Up), "R/T₁", "proportion", parts.Let("R", b.u.Load(s.load)), parts.Let("T₁", b.u.Load(s.in)))
		b.note("bight", "Nobody stands inside the angle of the rope: if the {block} or its anchor lets go, the rope flies there.", words.CommonPractice)
		b.leftOut("Left out: weight of rope and {block}, a rope that rubs on its {block}, and jerks. What the anchor holds is for a competent person to judge.")
	},
	draw: drawRedirect,
	curve: func(b *work) curve {
		s := b.kept.(redirectState)
		return curve{x: "included_deg", nameX: "angle between the legs", nameY: "load on the {block}", dimY: units.Kilonewtons, way: units.Up,
			lines: []curveLine{{class: "curve", at: func(x float64) float64 {
				angle := x * rigging.Deg
				return rigging.BlockLoad(s.in, s.in*rigging.SheaveRatio(s.efficiency, angle), angle)
			}}}}
	},
}

type redirectState struct{ in, out, load, most, angle, ratio, efficiency float64 } // kN, rad

// degrees writes an angle in rad, to a tenth of a degree also past 100°.
func (b *work) degrees(rad float64) string {
	deg := rad / rigging.Deg
	if math.Abs(deg) < 99.95 {
		return b.u.Quantity(deg, units.Degrees, units.Nearest)
	}
	return units.Grouped(units.Decimal(units.Round(deg, 0.1, units.Nearest), -1)) + b.u.Suffix(units.Degrees)
}

func drawRedirect(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(redirectState)
	// The bisector points up: the anchor pulls the block down.
	reach := math.Min(c.W*0.42, c.H*0.5)
	at := draw.Pt{X: c.W / 2, Y: c.H * 0.66}
	sin, cos := math.Sincos(s.angle / 2)
	left, right := draw.Pt{X: -sin, Y: -cos}, draw.Pt{X: sin, Y: -cos}
	one, two := at.Plus(left.Times(reach)), at.Plus(right.Times(reach))
	c.Segment("rope", "", at, one)
	c.Segment("haul", "", at, two)
	down := draw.Pt{X: 0, Y: 1}
	if sum := left.Times(s.in).Plus(right.Times(s.out)); sum.Length() > 1e-9 {
		down = sum.Unit().Times(-1)
	}
	anchor := at.Plus(down.Times(c.Grow(34)))
	c.Segment("bridle", "", at, anchor)
	c.AnchorMark(anchor)
	// The load, to the scale of the tensions: twice the tension is as long as
	// fits, and its end always higher than the legs', clear of them.
	length := s.load / (s.in * (1 + s.ratio)) * reach * 1.12
	if !b.hidden && length > 1 {
		c.Arrow("load", "", at, at.Minus(down.Times(length)))
		c.Label(draw.Label{Text: "R = " + b.u.Load(s.load), Class: "label-force", At: at.Minus(down.Times(length)), Toward: draw.Pt{X: 0, Y: -1}, Prio: draw.PrioForce})
	}
	c.BlockMark(at)
	c.AngleMark(at, left, right, c.Grow(30), "γ = "+b.degrees(s.angle))
	c.Along("label-force", "T₁ = "+b.u.Load(s.in), at, one, draw.Pt{X: -1, Y: 0}, draw.PrioMust)
	c.Along("label-force", "T₂ = "+b.secret(b.u.Load(s.out)), at, two, draw.Pt{X: 1, Y: 0}, draw.PrioMust)
	turn := func(p draw.Pt) {
		d := p.Minus(at)
		b.set("included_deg", 2*math.Abs(math.Atan2(d.X, -d.Y))/rigging.Deg, false)
	}
	said := b.Say("Angle between the legs, %s", b.degrees(s.angle))
	b.grab(c, "right", b.Say("Leg toward the {puller}. %s", said), two, "included_deg", "-included_deg", turn)
	b.grab(c, "left", b.Say("Leg toward the tree. %s", said), one, "-included_deg", "-included_deg", turn)
	return b.Say("A rope turned by a {block}"), b.Say("A rope under %s is turned by a {block}; its legs include %s. The {block} carries %s.", b.u.Load(s.in), b.degrees(s.angle), b.secret(b.u.Load(s.load)))
}
