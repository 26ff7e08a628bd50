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

// doubled: a line over a block on the stem and back to a dead end pulls
// with both of its legs.
var doubled = bench{
	id:    "doubled",
	title: "Line doubled through a {block} on the {stem}",
	idea: "A line run through a {block} on the {stem} and back to a {dead end} pulls on the {stem} with both legs: nearly twice the tension while they lie close together, " +
		"less the wider they spread. The {block} and its {strop} carry all of it.",
	inputs: []input{
		{key: "included_deg", label: "Angle between the legs", dim: units.Degrees, high: 150, start: "70", step: 1, fine: 0.1},
		{key: "tension_kN", label: "Tension at the {puller}", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "10", step: 1, fine: 0.1},
		{key: "efficiency", label: "Efficiency of the sheave", dim: units.Plain, low: 0.5, high: 1, start: "0.9", step: 0.01, fine: 0.01, suggest: &offer.Sheaves,
			help: "Tension on the load side ÷ tension on the hauling side, for a turn of 180°. 1 is without friction."},
	},
	question: "With how much does the line pull on the {stem}?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(doubledState)
		return marking.Wanted{Value: s.load, Dim: units.Kilonewtons, Way: units.Up, Tolerance: 0.03, Slips: []marking.Slip{
			{Value: 2 * s.haul * math.Cos(s.angle/2), Says: "That leaves out friction: the leg to the {dead end} pulls less than the hauled one."},
			{Value: 2 * s.haul, Says: "That is twice the tension: it would be so only with the legs side by side and no friction."},
			{Value: s.haul + s.dead, Says: "That adds the two tensions as numbers: they pull in different directions."},
			{Value: 2 * s.haul * math.Cos(s.angle), Says: "The cosine is of half the angle, not the whole."},
			{Value: s.haul, Says: "That is one leg alone."},
		}}
	},
	solve: func(b *work) {
		s := doubledAt(b.in["tension_kN"], b.in["included_deg"]*rigging.Deg, b.in["efficiency"])
		b.kept = s
		b.fact("load", "Pull on the {stem}, with friction", b.u.Load(s.load))
		gamma := parts.Let("γ", b.degrees(s.angle)).Of("angle between the legs")
		T2 := parts.Let("T₂", b.u.Load(s.haul))
		b.worked("haul", "The {puller} and its anchor carry", b.u.Load(s.haul), "T₂ = tension at the {puller}", asGiven)
		b.worked("dead", "The anchor of the {dead end} carries", b.u.Load(s.dead), "T₁ = T₂·(1 − κ·cos(γ/2))/(1 + κ·cos(γ/2)), κ = (1 − η)/(1 + η)", sheaveFriction,
			T2, gamma, parts.Let("η", units.Significant(s.efficiency, 3)).Of("efficiency of the sheave"))
		b.step("load", "Pull on the {stem}", "R = √(T₁² + T₂² + 2·T₁·T₂·cos γ)", b.u.Load(s.load), "parallelogram of forces",
			parts.Let("T₁", b.u.Load(s.dead)), T2, gamma)
		b.worked("most", "{Block} and {strop} on the {stem} get at most", b.u.Load(s.most), "2·T₂·cos(γ/2)", "parallelogram of forces; friction is not relied on where it would reduce a load", T2, gamma)
		b.worked("dead_most", "The anchor of the {dead end} gets at most", b.u.Load(s.haul), "T₂, whole", "without friction both legs pull alike", T2)
		b.worked("gain", "Times the tension at the {puller}", hundredths(s.load/s.haul, units.Down), "R/T₂", "proportion", parts.Let("R", b.u.Load(s.load)), T2)
		b.worked("rope", "Rope to haul ÷ travel of the {stem}", hundredths(s.rope, units.Up), "2·cos(γ/2)", "both legs shorten alike", gamma)
		b.note("stall", "The {strop} and {block} on the {stem} are to be chosen for what the {puller} makes at most, doubled: friction is not counted on there.", words.CommonPractice)
		b.note("between", "Nobody stands between the legs.", words.CommonPractice)
		b.leftOut("Left out: how steep the legs run, and the weight and stretch of the rope.")
		b.anchorNote()
	},
	draw: drawDoubled,
	curve: func(b *work) curve {
		s := b.kept.(doubledState)
		return curve{x: "included_deg", nameX: "angle between the legs", nameY: "pull on the {stem}", dimY: units.Kilonewtons, way: units.Up,
			lines: []curveLine{
				{class: "curve", at: func(x float64) float64 { return doubledAt(s.haul, x*rigging.Deg, s.efficiency).load }},
				{class: "planned", name: "one leg alone", at: func(float64) float64 { return s.haul }},
			}}
	},
}

type doubledState struct {
	haul, dead, load, angle, efficiency float64 // kN, rad
	most                                float64 // kN, the load with friction or without, whichever is more
	rope                                float64 // hauled over the stem's way
}

// doubledAt is a line hauled with a tension (kN) over a block on the stem,
// with an angle (rad) between its legs.
func doubledAt(haul, angle, efficiency float64) doubledState {
	s := doubledState{haul: haul, angle: angle, efficiency: efficiency, dead: haul / rigging.SheaveRatio(efficiency, angle)}
	s.load, s.most = rigging.BlockLoad(s.dead, s.haul, angle), rigging.BlockLoad(haul, haul, angle)
	s.most = max(s.most, s.load)
	s.rope = rigging.BlockLoad(1, 1, angle)
	return s
}

func drawDoubled(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(doubledState)
	unit := math.Min(c.W/360, c.H/300)
	at := draw.Pt{X: c.W*0.5 - 84*unit, Y: c.H / 2}
	reach := 134 * unit
	sin, cos := math.Sincos(s.angle / 2)
	up, down := draw.Pt{X: cos, Y: -sin}, draw.Pt{X: cos, Y: sin}
	dead, haul := at.Plus(up.Times(reach)), at.Plus(down.Times(reach))
	stem := at.Minus(draw.Pt{X: 52 * unit, Y: 0})
	c.Circle("stem", "", stem, 24*unit)
	c.Keep(draw.Around(stem, 24*unit))
	c.Segment("bridle", "", stem.Plus(draw.Pt{X: 24 * unit, Y: 0}), at)
	c.Segment("rope", "", at, dead)
	c.Segment("haul", "", at, haul)
	mid := draw.Pt{X: 1, Y: 0}
	if sum := up.Times(s.dead).Plus(down.Times(s.haul)); sum.Length() > 1e-9 {
		mid = sum.Unit()
	}
	if !b.hidden {
		// To the scale of the tensions: both side by side are as long as a leg.
		tip := at.Plus(mid.Times(s.load / (s.dead + s.haul) * reach * 1.25))
		c.Arrow("load", "", at, tip)
		c.Label(draw.Label{Text: "R = " + b.u.Load(s.load), Class: "label-force", At: tip, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioForce})
	}
	c.BlockMark(at)
	c.AnchorMark(dead)
	c.BoxMark("puller", haul, c.Grow(9), c.Grow(6))
	c.AngleMark(at, down, up, c.Grow(44), "γ = "+b.degrees(s.angle))
	// Toward the ends, so that the angle has room at the block.
	c.Along("label-force", "T₁ = "+b.secret(b.u.Load(s.dead)), dead, at.Toward(dead, 0.4), up.Left(), draw.PrioMust)
	c.Along("label-force", "T₂ = "+b.u.Load(s.haul), haul, at.Toward(haul, 0.4), down.Left().Times(-1), draw.PrioMust)
	c.Label(draw.Label{Text: b.Say("{dead end}"), Class: "label-note", At: dead, Toward: draw.Pt{X: 1, Y: 0}, Gap: c.Grow(14), Prio: draw.PrioLength})
	c.Label(draw.Label{Text: b.Say("{puller}"), Class: "label-note", At: haul, Toward: draw.Pt{X: 1, Y: 0}, Gap: c.Grow(14), Prio: draw.PrioLength})
	turn := func(p draw.Pt) {
		d := p.Minus(at)
		b.set("included_deg", 2*math.Abs(math.Atan2(d.Y, d.X))/rigging.Deg, false)
	}
	said := b.Say("Angle between the legs, %s", b.degrees(s.angle))
	b.grab(c, "dead", b.Say("{Dead end}. %s", said), dead, "-included_deg", "included_deg", turn)
	b.grab(c, "haul", b.Say("{Puller}. %s", said), haul, "-included_deg", "-included_deg", turn)
	return b.Say("A line doubled through a {block} on the {stem}"), b.Say("Seen from above: a line hauled with %s runs through a {block} on the {stem} and back to a {dead end}, with %s between its legs. It pulls on the {stem} with %s.", b.u.Load(s.haul), b.degrees(s.angle), b.secret(b.u.Load(s.load)))
}
