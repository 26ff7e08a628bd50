package screen

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// benchFriction: what a rope loses over blocks one after another, and what it
// gains round a stem.
var benchFriction = bench{
	id:    "friction",
	title: "Friction over {block}s and round a {stem}",
	idea: "Every {block} a rope runs over takes its toll: the further it wraps and the more {block}s, the harder the {puller} has to haul. " +
		"But no gear or anchor may count on that: a sheave that runs freer lets all of it through. Round a {stem} friction is many times that, and it is what lets a hand hold a heavy load.",
	inputs: []benchInput{
		{key: "over", label: "The rope runs", start: overBlocks, options: []Option{
			{overBlocks, "over {block}s, one after another"}, {"stem", "round a {stem} or bollard"}}},
		{key: "tension_kN", label: "Tension at the loaded end", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "10", step: 1, fine: 0.1},
		{key: "blocks", label: "{Block}s", dim: units.Count, low: 1, high: 6, start: "3", step: 1, fine: 1, when: frictionOverBlocks},
		{key: "included_deg", label: "Angle between the legs at each", dim: units.Degrees, high: 180, start: "90", step: 1, fine: 0.1, when: frictionOverBlocks},
		{key: "efficiency", label: "Efficiency of each sheave", dim: units.Plain, low: 0.5, high: 1, start: "0.9", step: 0.01, fine: 0.01, suggest: &sheaveOptions, when: frictionOverBlocks,
			help: "Tension in over tension out at a half-turn of rope; 1 is without friction."},
		{key: "turns", label: "Turns round it", dim: units.Plain, low: 0.25, high: 4, start: "1", step: 0.25, fine: 0.05, when: frictionRoundStem},
		{key: "friction", label: "Coefficient of friction", dim: units.Plain, low: 0.05, high: 0.6, start: "0.3", step: 0.01, fine: 0.01, suggest: &ropeFrictions, when: frictionRoundStem},
	},
	question: "What is the tension at the other end?",
	guess: func(b *benchWork) wanted {
		s := b.kept.(frictionState)
		want := wanted{value: s.out, dim: units.Kilonewtons, way: units.Up, tolerance: 0.04,
			slips: []slip{{s.in, "That leaves friction out."}}}
		if s.round {
			want.slips = append(want.slips,
				slip{s.in / rigging.CapstanRatio(s.friction, s.turns), "That is with turns in the exponent: it takes the wrap in radians, 2π to the turn."},
				slip{s.haul, "That is what it takes to haul the load in: here the tail only holds it."})
		} else {
			want.slips = append(want.slips,
				slip{s.in * math.Pow(1/s.efficiency, float64(s.blocks)), "That takes the loss of a half-turn at each {block}: the rope wraps less here."},
				slip{s.in * math.Pow(s.efficiency, float64(s.blocks)), "That is less than at the loaded end: hauling, the tension rises at every {block}."},
				slip{s.in * s.ratio, "That is after one {block} only."})
		}
		return want
	},
	solve: func(b *benchWork) {
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
		t := "T₁ = " + b.u.Load(s.in) + " (tension at the loaded end)"
		if s.round {
			b.fact("out", "The tail has to hold at least", b.u.Load(s.out))
			wrap := []string{t, "μ = " + units.Significant(s.friction, 3) + " (coefficient of friction)",
				"β = 2π·" + units.Significant(s.turns, 4) + " = " + units.Significant(2*math.Pi*s.turns, 5) + " (wrap in radians)"}
			const source = "Euler and Eytelwein, rope round a fixed body"
			b.step("out", "Tension at the tail that just holds", "T₂ = T₁/e^(μ·β)", b.u.Load(s.out), source, wrap...)
			b.worked("ratio", "The load over that", units.Grouped(units.Decimal(units.Round(s.ratio, max(0.01, units.DigitStep(s.ratio, 4)), units.Down), -1)), "T₁/T₂ = e^(μ·β)", source, wrap[1:]...)
			b.worked("haul", "To haul it in instead", b.u.Load(s.haul), "T₂ = T₁·e^(μ·β)", source, wrap...)
			b.note("wet", "Friction is a range, not a number: wet, icy or stripped bark and stiff or slippery rope change it. Take the low end to hold, the high end to haul.", words.CommonPractice)
			b.leftOut("Left out: ropes crossing on each other, bark crushing, heat that melts {fibre} rope on a fast run.")
			return
		}
		b.fact("out", "Tension at the hauling end, that may be needed", b.u.Load(s.out))
		rise := units.Decimal(units.Round(s.ratio, 0.001, units.Up), 3)
		b.step("rise", "Tension behind a {block} over that before", "r = (1 + κ·cos(γ/2))/(1 − κ·cos(γ/2)), κ = (1 − η)/(1 + η)", rise, sheaveFriction,
			"γ = "+b.degrees(s.angle)+" (angle between the legs)", "η = "+units.Significant(s.efficiency, 3)+" (efficiency of the sheave)")
		b.step("out", "Tension at the hauling end", "T₂ = T₁·rⁿ", b.u.Load(s.out), "tensions rise at every {block}", t,
			"r = "+rise, "n = "+units.Decimal(float64(s.blocks), 0)+" ({block}s)")
		b.worked("ratio", "Times the loaded end", hundredths(s.out/s.in, units.Up), "T₂/T₁", "proportion", "T₂ = "+b.u.Load(s.out), t)
		b.worked("each", "Rise at each {block}", units.Percent(s.ratio-1), "r − 1", "proportion", "r = "+rise)
		b.worked("through", "That haul reaches the loaded end, if nothing rubs, as", b.u.Load(s.out), "T₂, whole", "friction is not counted on where it would spare something", "T₂ = "+b.u.Load(s.out))
		gamma := "γ = " + b.degrees(s.angle) + " (angle between the legs)"
		b.worked("anchor", "First {block}'s anchor gets, with friction", b.u.Load(s.anchor), "√(T₁² + (r·T₁)² + 2·r·T₁²·cos γ)", "parallelogram of forces", t, "r = "+rise, gamma)
		b.worked("anchor_most", "At most, if nothing rubs", b.u.Load(s.anchorMost), "2·T₂·cos(γ/2)", "parallelogram of forces; without friction", "T₂ = "+b.u.Load(s.out), gamma)
		b.note("both_ways", "Take friction high for the haul you may need, and not at all for what gear and anchors may get: a plan does both.", words.CommonPractice)
		b.leftOut("Left out: stiff rope on a small sheave, a rope that rubs on its {block}, mud and ice. A sheave that does not turn is far worse.")
	},
	draw: drawFriction,
	curve: func(b *benchWork) benchCurve {
		s := b.kept.(frictionState)
		of := benchCurve{x: "included_deg", nameX: "angle between the legs at each", nameY: "tension at the hauling end", dimY: units.Kilonewtons, way: units.Up,
			lines: []benchLine{{class: "curve", at: func(x float64) float64 {
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

var ropeFrictions = tableOffer(rigging.RopeFrictions, "", units.Down)

func frictionOverBlocks(b *benchWork) bool { return b.text["over"] == overBlocks }
func frictionRoundStem(b *benchWork) bool  { return b.text["over"] != overBlocks }

type frictionState struct {
	round                       bool
	in, out, haul               float64 // kN; haul: in against the friction round a stem
	ratio                       float64 // at one block, or round the stem
	anchor, anchorMost          float64 // kN, on the first block's anchor with friction, and on any at that haul without
	blocks                      int
	angle                       float64 // rad
	efficiency, turns, friction float64
}

func drawFriction(b *benchWork, c *canvas) (title, desc string) {
	s := b.kept.(frictionState)
	first, last := "T₁ = "+b.u.Load(s.in), "T₂ = "+b.secret(b.u.Load(s.out))
	if s.round {
		drawWraps(b, c, s, first, last)
		return "A rope round a {stem}", "A rope under " + b.u.Load(s.in) + " runs " + units.Significant(s.turns, 4) + " turns round a {stem}. Its tail has to hold " + b.secret(b.u.Load(s.out)) + "."
	}
	n := float64(s.blocks)
	sin, cos := math.Sincos(s.angle / 2)
	r := c.grow(9)
	long := (c.w*0.66 - 2*n*r*cos) / ((n + 1) * max(sin, 1e-9))
	long = min(long, c.h*0.6/max(cos, 1e-9))
	down, up := pt{sin, cos}, pt{sin, -cos}
	between := pt{long*sin + 2*r*cos, long*cos - 2*r*sin}
	edge := long*sin + r*cos
	at := pt{(c.w-2*edge-(n-1)*between.x)/2 + edge, (c.h - between.y) / 2}
	start := at.plus(pt{-cos, -sin}.times(r)).minus(up.times(long))
	c.move(start)
	c.line(at.plus(pt{-cos, -sin}.times(r)))
	var sheaves []pt
	for i := range s.blocks {
		sheaves = append(sheaves, at)
		high := i%2 == 0
		dir, off := down, pt{cos, -sin}
		if !high {
			dir, off = up, pt{cos, sin}
		}
		c.arc(r, r, 0, false, high, at.plus(off.times(r)))
		to := at.plus(off.times(r)).plus(dir.times(long))
		c.line(to)
		c.avoid(at.plus(off.times(r)), to)
		if i < s.blocks-1 {
			at.x += between.x
			if high {
				at.y += between.y
			} else {
				at.y -= between.y
			}
		}
	}
	c.path("rope", "")
	c.avoid(start, sheaves[0])
	high := s.blocks%2 == 1
	dir, off := down, pt{cos, -sin}
	if !high {
		dir, off = up, pt{cos, sin}
	}
	end := at.plus(off.times(r)).plus(dir.times(long))
	tip := end.plus(dir.times(c.grow(34)))
	for _, p := range sheaves {
		c.circle("block", "", p, r-c.grow(2.5))
		c.solid = append(c.solid, around(p, r))
	}
	tail := start.minus(up.times(c.grow(34)))
	c.arrow("load", "", start, tail)
	c.arrow("load", "", end, tip)
	c.angle("angle", sheaves[0], up.times(-1), down, c.grow(28))
	c.label(caption{text: "γ = " + b.degrees(s.angle), class: "label", at: sheaves[0].minus(pt{0, r}), toward: pt{0, -1}, prio: prioAngle})
	c.aside("label-force", first, sheaves[0], tail, pt{-cos, -sin}, prioMust)
	c.aside("label-force", last, at, tip, off, prioMust)
	y := "included_deg"
	if !high {
		y = "-included_deg"
	}
	b.grab(c, "end", "Hauling end; angle between the legs, "+b.degrees(s.angle), tip, "included_deg", y, func(p pt) {
		d := p.minus(at)
		if !high {
			d.y = -d.y
		}
		b.set("included_deg", 2*math.Atan2(math.Abs(d.x), max(d.y, 0))/rigging.Deg, false)
	})
	return "A rope over {block}s, one after another", "A rope under " + b.u.Load(s.in) + " runs over " + words.CountOf(s.blocks, "{block}", "{block}s") + " with " + b.degrees(s.angle) +
		" between its legs at each. At the hauling end it is under " + b.secret(b.u.Load(s.out)) + "."
}

func drawWraps(b *benchWork, c *canvas, s frictionState, first, last string) {
	unit := math.Min(c.w/360, c.h/300)
	stem := pt{c.w / 2, c.h / 2}
	r := 44 * unit
	grow := c.grow(5) // of the radius with every turn, so that they can be told apart
	c.circle("stem", "", stem, r-c.grow(2))
	place := func(turns float64) (at, dir pt) {
		sin, cos := math.Sincos(2*math.Pi*turns - math.Pi/2)
		return stem.plus(pt{cos, sin}.times(r + grow*turns)), pt{-sin, cos}
	}
	on, _ := place(0)
	load := pt{on.x - 130*unit, on.y}
	c.move(load)
	c.line(on)
	steps := math.Ceil(s.turns * 48)
	for i := range int(steps) {
		at, _ := place(s.turns * (float64(i) + 1) / steps)
		c.line(at)
	}
	off, dir := place(s.turns)
	end := off.plus(dir.times(86 * unit))
	c.line(end)
	c.path("rope", "")
	c.avoid(load, on)
	c.avoid(off, end)
	tip := end.plus(dir.times(34 * unit))
	c.arrow("load", "", load.plus(pt{34 * unit, 0}), load)
	c.arrow("load", "", end, tip)
	text := units.Significant(s.turns, 4) + " turns"
	if s.turns == 1 {
		text = "1 turn"
	}
	c.label(caption{text: text, class: "label", at: stem, spots: []spot{{at: stem}}, only: true, prio: prioMust})
	c.label(caption{text: first, class: "label-force", at: load, along: on, slide: true, early: true, prio: prioMust})
	c.label(caption{text: last, class: "label-force", at: tip, along: off, slide: true, early: true, toward: dir.left(), prio: prioMust})
	b.grab(c, "tail", "Tail of the rope; "+text+" round the stem", tip, "turns", "-turns", func(p pt) {
		d := p.minus(stem)
		out := r + grow*s.turns
		far := math.Sqrt(max(0, d.x*d.x+d.y*d.y-out*out))
		turn := (math.Atan2(d.y, d.x)-math.Atan2(far, out))/(2*math.Pi) + 0.25
		// The same place comes up once in every turn: the nearest is meant.
		b.set("turns", turn+math.Round(s.turns-turn), true)
	})
}
