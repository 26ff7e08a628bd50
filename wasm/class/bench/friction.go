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

// friction: what a rope loses over blocks one after another, and what it
// gains round a stem.
var friction = bench{
	id:    "friction",
	title: "Friction over {block}s and round a {stem}",
	idea: "Every {block} a rope runs over adds friction: the more wrap and the more {block}s, the harder the {puller} must haul. No gear or anchor may rely on that: a freer sheave lets the whole load through. " +
		"Round a {stem} the friction is many times greater, enough for a hand to hold a heavy load.",
	inputs: []input{
		{key: "over", label: "The rope runs", start: overBlocks, options: []parts.Choice{
			{Value: overBlocks, Label: "over {block}s, one after another"}, {Value: "stem", Label: "round a {stem} or bollard"}}},
		{key: "tension_kN", label: "Tension at the loaded end", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "10", step: 1, fine: 0.1},
		{key: "blocks", label: "{Block}s", dim: units.Count, low: 1, high: 6, start: "3", step: 1, fine: 1, when: frictionOverBlocks},
		{key: "included_deg", label: "Angle between the legs at each", dim: units.Degrees, high: 180, start: "90", step: 1, fine: 0.1, when: frictionOverBlocks},
		{key: "efficiency", label: "Efficiency of each sheave", dim: units.Plain, low: 0.5, high: 1, start: "0.9", step: 0.01, fine: 0.01, suggest: &offer.Sheaves, when: frictionOverBlocks,
			help: "Tension on the load side ÷ tension on the hauling side, for a turn of 180°. 1 is without friction."},
		{key: "turns", label: "Turns round it", dim: units.Plain, low: 0.25, high: 4, start: "1", step: 0.25, fine: 0.05, when: frictionRoundStem},
		{key: "friction", label: "Coefficient of friction", dim: units.Plain, low: 0.05, high: 0.6, start: "0.3", step: 0.01, fine: 0.01, suggest: &ropeFrictions, when: frictionRoundStem},
	},
	question: "What is the tension at the other end?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(frictionState)
		want := marking.Wanted{Value: s.out, Dim: units.Kilonewtons, Way: units.Up, Tolerance: 0.04,
			Slips: []marking.Slip{{Value: s.in, Says: "That leaves friction out."}}}
		if s.round {
			want.Slips = append(want.Slips,
				marking.Slip{Value: s.in / rigging.CapstanRatio(s.friction, s.turns), Says: "That is with turns in the exponent: it takes the wrap in radians, 2π to the turn."},
				marking.Slip{Value: s.haul, Says: "That is what it takes to haul the load in: here the tail only holds it."})
		} else {
			want.Slips = append(want.Slips,
				marking.Slip{Value: s.in * math.Pow(1/s.efficiency, float64(s.blocks)), Says: "That takes the loss of a half-turn at each {block}: the rope wraps less here."},
				marking.Slip{Value: s.in * math.Pow(s.efficiency, float64(s.blocks)), Says: "That is less than at the loaded end: hauling, the tension rises at every {block}."},
				marking.Slip{Value: s.in * s.ratio, Says: "That is after one {block} only."})
		}
		return want
	},
	solve: func(b *work) {
		s := frictionState{round: frictionRoundStem(b), in: b.in["tension_kN"], blocks: int(b.in["blocks"]),
			angle: b.in["included_deg"] * rigging.Deg, efficiency: b.in["efficiency"], turns: b.in["turns"], friction: b.in["friction"]}
		if s.round {
			s.ratio = rigging.CapstanRatio(s.friction, 2*math.Pi*s.turns)
			s.out, s.haul = s.in/s.ratio, s.in*s.ratio
		} else {
			s.ratio = rigging.SheaveRatio(s.efficiency, s.angle)
			s.out = s.in * math.Pow(s.ratio, float64(s.blocks))
			s.anchor, s.anchorMost = rigging.BlockLoad(s.in, s.in*s.ratio, s.angle), rigging.BlockLoad(s.out, s.out, s.angle)
		}
		b.kept = s
		t := parts.Let("T₁", b.u.Load(s.in)).Of("tension at the loaded end")
		if s.round {
			b.fact("out", "Least hold at the tail", b.u.Load(s.out))
			wrap := []parts.Value{t, parts.Let("μ", units.Significant(s.friction, 3)).Of("coefficient of friction"),
				parts.Let("β", "2π·"+units.Significant(s.turns, 4)+" = "+units.Significant(2*math.Pi*s.turns, 5)).Of("wrap in radians")}
			const source words.Text = "Euler and Eytelwein, rope round a fixed body"
			b.step("out", "Tension at the tail that just holds", "T₂ = T₁/e^(μ·β)", b.u.Load(s.out), source, wrap...)
			b.worked("ratio", "Load ÷ hold", units.Grouped(units.Decimal(units.Round(s.ratio, max(0.01, units.DigitStep(s.ratio, 4)), units.Down), -1)), "T₁/T₂ = e^(μ·β)", source, wrap[1:]...)
			b.worked("haul", "Pull to haul it in instead", b.u.Load(s.haul), "T₂ = T₁·e^(μ·β)", source, wrap...)
			b.note("wet", "Friction is a range, not a number: wet, icy or stripped bark and stiff or slippery rope change it. Take the low end to hold, the high end to haul.", words.CommonPractice)
			b.leftOut("Left out: ropes crossing on each other, bark crushing, heat that melts {fibre} rope on a fast run.")
			return
		}
		b.fact("out", "Tension at the hauling end, that may be needed", b.u.Load(s.out))
		rise := units.Decimal(units.Round(s.ratio, 0.001, units.Up), 3)
		b.step("rise", "Tension behind a {block} over that before", "r = (1 + κ·cos(γ/2))/(1 − κ·cos(γ/2)), κ = (1 − η)/(1 + η)", rise, sheaveFriction,
			parts.Let("γ", b.degrees(s.angle)).Of("angle between the legs"), parts.Let("η", units.Significant(s.efficiency, 3)).Of("efficiency of the sheave"))
		b.step("out", "Tension at the hauling end", "T₂ = T₁·rⁿ", b.u.Load(s.out), "tensions rise at every {block}", t,
			parts.Let("r", rise), parts.Let("n", units.Decimal(float64(s.blocks), 0)).Of("{block}s"))
		b.worked("ratio", "Times the loaded end", hundredths(s.out/s.in, units.Up), "T₂/T₁", "proportion", parts.Let("T₂", b.u.Load(s.out)), t)
		b.worked("each", "Rise at each {block}", units.Percent(s.ratio-1), "r − 1", "proportion", parts.Let("r", rise))
		b.worked("through", "That haul reaches the loaded end, if nothing rubs, as", b.u.Load(s.out), "T₂, whole", "friction is not relied on where it would reduce a load", parts.Let("T₂", b.u.Load(s.out)))
		gamma := parts.Let("γ", b.degrees(s.angle)).Of("angle between the legs")
		b.worked("anchor", "First {block}'s anchor gets, with friction", b.u.Load(s.anchor), "√(T₁² + (r·T₁)² + 2·r·T₁²·cos γ)", "parallelogram of forces", t, parts.Let("r", rise), gamma)
		b.worked("anchor_most", "At most, if nothing rubs", b.u.Load(s.anchorMost), "2·T₂·cos(γ/2)", "parallelogram of forces; without friction", parts.Let("T₂", b.u.Load(s.out)), gamma)
		b.note("both_ways", "Take friction high for the haul you may need, and not at all for what gear and anchors may get: a plan does both.", words.CommonPractice)
		b.leftOut("Left out: stiff rope on a small sheave, a rope that rubs on its {block}, mud and ice. A sheave that does not turn is far worse.")
	},
	draw: drawFriction,
	curve: func(b *work) curve {
		s := b.kept.(frictionState)
		of := curve{x: "included_deg", nameX: "angle between the legs at each", nameY: "tension at the hauling end", dimY: units.Kilonewtons, way: units.Up,
			lines: []curveLine{{class: "curve", at: func(x float64) float64 {
				return s.in * math.Pow(rigging.SheaveRatio(s.efficiency, x*rigging.Deg), float64(s.blocks))
			}}, {class: "planned", name: "without friction", at: func(float64) float64 { return s.in }}}}
		if s.round {
			of.x, of.nameX, of.nameY = "turns", "turns", "tension at the tail"
			of.lines[0].at = func(x float64) float64 { return s.in / rigging.CapstanRatio(s.friction, 2*math.Pi*x) }
		}
		return of
	},
}

const overBlocks = "blocks"

var ropeFrictions = offer.Table(rigging.RopeFrictions, "", units.Down)

func frictionOverBlocks(b *work) bool { return b.text["over"] == overBlocks }
func frictionRoundStem(b *work) bool  { return b.text["over"] != overBlocks }

type frictionState struct {
	round                       bool
	in, out, haul               float64 // kN; haul: in against the friction round a stem
	ratio                       float64 // at one block, or round the stem
	anchor, anchorMost          float64 // kN, on the first block's anchor with friction, and on any at that haul without
	blocks                      int
	angle                       float64 // rad
	efficiency, turns, friction float64
}

func drawFriction(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(frictionState)
	first, last := parts.Let("T₁", b.u.Load(s.in)).String(), parts.Let("T₂", b.secret(b.u.Load(s.out))).String()
	if s.round {
		drawWraps(b, c, s, first, last)
		return b.Say("A rope round a {stem}"), b.Say("A rope under %s runs %s turns round a {stem}. Its tail has to hold %s.", b.u.Load(s.in), units.Significant(s.turns, 4), b.secret(b.u.Load(s.out)))
	}
	n := float64(s.blocks)
	sin, cos := math.Sincos(s.angle / 2)
	r := c.Grow(9)
	long := (c.W*0.66 - 2*n*r*cos) / ((n + 1) * max(sin, 1e-9))
	long = min(long, c.H*0.6/max(cos, 1e-9))
	down, up := draw.Pt{X: sin, Y: cos}, draw.Pt{X: sin, Y: -cos}
	between := draw.Pt{X: long*sin + 2*r*cos, Y: long*cos - 2*r*sin}
	edge := long*sin + r*cos
	at := draw.Pt{X: (c.W-2*edge-(n-1)*between.X)/2 + edge, Y: (c.H - between.Y) / 2}
	start := at.Plus(draw.Pt{X: -cos, Y: -sin}.Times(r)).Minus(up.Times(long))
	c.Move(start)
	c.Line(at.Plus(draw.Pt{X: -cos, Y: -sin}.Times(r)))
	var sheaves []draw.Pt
	for i := range s.blocks {
		sheaves = append(sheaves, at)
		high := i%2 == 0
		dir, off := down, draw.Pt{X: cos, Y: -sin}
		if !high {
			dir, off = up, draw.Pt{X: cos, Y: sin}
		}
		c.Arc(r, r, 0, false, high, at.Plus(off.Times(r)))
		to := at.Plus(off.Times(r)).Plus(dir.Times(long))
		c.Line(to)
		c.Avoid(at.Plus(off.Times(r)), to)
		if i < s.blocks-1 {
			at.X += between.X
			if high {
				at.Y += between.Y
			} else {
				at.Y -= between.Y
			}
		}
	}
	c.Path("rope", "")
	c.Avoid(start, sheaves[0])
	high := s.blocks%2 == 1
	dir, off := down, draw.Pt{X: cos, Y: -sin}
	if !high {
		dir, off = up, draw.Pt{X: cos, Y: sin}
	}
	end := at.Plus(off.Times(r)).Plus(dir.Times(long))
	tip := end.Plus(dir.Times(c.Grow(34)))
	for _, p := range sheaves {
		c.Circle("block", "", p, r-c.Grow(2.5))
		c.Keep(draw.Around(p, r))
	}
	tail := start.Minus(up.Times(c.Grow(34)))
	c.Arrow("load", "", start, tail)
	c.Arrow("load", "", end, tip)
	c.Angle("angle", sheaves[0], up.Times(-1), down, c.Grow(28))
	c.Label(draw.Label{Text: "γ = " + b.degrees(s.angle), Class: "label", At: sheaves[0].Minus(draw.Pt{X: 0, Y: r}), Toward: draw.Pt{X: 0, Y: -1}, Prio: draw.PrioAngle})
	c.Along("label-force", first, sheaves[0], tail, draw.Pt{X: -cos, Y: -sin}, draw.PrioMust)
	c.Along("label-force", last, at, tip, off, draw.PrioMust)
	y := "included_deg"
	if !high {
		y = "-included_deg"
	}
	b.grab(c, "end", b.Say("Hauling end; angle between the legs, %s", b.degrees(s.angle)), tip, "included_deg", y, func(p draw.Pt) {
		d := p.Minus(at)
		if !high {
			d.Y = -d.Y
		}
		b.set("included_deg", 2*math.Atan2(math.Abs(d.X), max(d.Y, 0))/rigging.Deg, false)
	})
	return b.Say("A rope over {block}s, one after another"), b.Say("A rope under %s runs over %s with %s between its legs at each. At the hauling end it is under %s.", b.u.Load(s.in), b.Count(s.blocks, "1 {block}", "%s {block}s"), b.degrees(s.angle), b.secret(b.u.Load(s.out)))
}

func drawWraps(b *work, c *draw.Canvas, s frictionState, first, last string) {
	unit := math.Min(c.W/360, c.H/300)
	stem := draw.Pt{X: c.W / 2, Y: c.H / 2}
	r := 44 * unit
	grow := c.Grow(5) // of the radius with every turn, so that they can be told apart
	c.Circle("stem", "", stem, r-c.Grow(2))
	place := func(turns float64) (at, dir draw.Pt) {
		sin, cos := math.Sincos(2*math.Pi*turns - math.Pi/2)
		return stem.Plus(draw.Pt{X: cos, Y: sin}.Times(r + grow*turns)), draw.Pt{X: -sin, Y: cos}
	}
	on, _ := place(0)
	load := draw.Pt{X: on.X - 130*unit, Y: on.Y}
	c.Move(load)
	c.Line(on)
	steps := math.Ceil(s.turns * 48)
	for i := range int(steps) {
		at, _ := place(s.turns * (float64(i) + 1) / steps)
		c.Line(at)
	}
	off, dir := place(s.turns)
	end := off.Plus(dir.Times(86 * unit))
	c.Line(end)
	c.Path("rope", "")
	c.Avoid(load, on)
	c.Avoid(off, end)
	tip := end.Plus(dir.Times(34 * unit))
	c.Arrow("load", "", load.Plus(draw.Pt{X: 34 * unit, Y: 0}), load)
	c.Arrow("load", "", end, tip)
	text := b.Say("%s turns", units.Significant(s.turns, 4))
	if s.turns == 1 {
		text = "1 turn"
	}
	c.Label(draw.Label{Text: text, Class: "label", At: stem, Stands: []draw.Stand{{At: stem}}, Only: true, Prio: draw.PrioMust})
	c.Label(draw.Label{Text: first, Class: "label-force", At: load, Along: on, Slide: true, Early: true, Prio: draw.PrioMust})
	c.Label(draw.Label{Text: last, Class: "label-force", At: tip, Along: off, Slide: true, Early: true, Toward: dir.Left(), Prio: draw.PrioMust})
	b.grab(c, "tail", b.Say("Tail of the rope; %s round the stem", text), tip, "turns", "-turns", func(p draw.Pt) {
		d := p.Minus(stem)
		out := r + grow*s.turns
		far := math.Sqrt(max(0, d.X*d.X+d.Y*d.Y-out*out))
		turn := (math.Atan2(d.Y, d.X)-math.Atan2(far, out))/(2*math.Pi) + 0.25
		// The same place comes up once in every turn: the nearest is meant.
		b.set("turns", turn+math.Round(s.turns-turn), true)
	})
}
