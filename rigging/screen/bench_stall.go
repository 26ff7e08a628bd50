package screen

import (
	"math"

	"pullline/rigging"
)

// benchStall: a puller may pull harder than anybody planned, and some piece
// reaches its limit first.
var benchStall = bench{
	id:    "stall",
	title: "Stall against limit",
	idea: "What was planned may be within every limit, and the {puller} can still pull harder until it stalls. " +
		"Each piece has a haul at which it reaches its limit; the shortest bar gives first, and there the {puller} is to be held.",
	inputs: []benchInput{
		{key: "haul_kN", label: "Haul planned", dim: kilonewt, low: 0.5, high: 400, start: "10", step: 0.5, fine: 0.1},
		{key: "stall_kN", label: "Haul at stall", dim: kilonewt, low: 0.5, high: 400, start: "20", step: 0.5, fine: 0.1,
			help: "The greatest pull the {puller} can make, not its rated one."},
		{key: "rated_kN", label: "Rated pull of the {puller}", dim: kilonewt, low: 0.5, high: 200, start: "15", step: 0.5, fine: 0.1},
		{key: "parts", label: "Parts of the {tackle}", dim: count, low: 1, high: 6, start: "3", step: 1, fine: 1,
			help: "Parts of rope that pull on its moving {block}, the hauling one among them; 1 for no {tackle}."},
		{key: "included_deg", label: "Angle between the legs at the {redirect}", dim: degrees, low: 0, high: 180, start: "60", step: 1, fine: 0.1},
		{key: "mbl_kN", label: "Breaking load of the line", dim: kilonewt, low: 5, high: 2000, start: "200", step: 5, fine: 1},
		{key: "design_factor", label: "Design factor of the line", dim: plain, low: 1, high: 12, start: "3", step: 0.5, fine: 0.1, suggest: &factorOptions},
		{key: "block_t", label: "Working load limit of the {block}", dim: tonneSWL, low: 0.1, high: 100, start: "10", step: 0.5, fine: 0.1},
		{key: "sling_t", label: "Working load limit of its {strop}, as rigged", dim: tonneSWL, low: 0.1, high: 100, start: "6", step: 0.5, fine: 0.1},
	},
	question: "To what haul is the {puller} to be held?",
	guess: func(b *benchWork) wanted {
		s := b.kept.(stallState)
		weak := s.weakest(true)
		ideal := b.in["parts"] * 2 * math.Cos(b.in["included_deg"]*rigging.Deg/2)
		strongest := 0.0
		for i := range s.pieces {
			strongest = max(strongest, s.pieces[i].limit())
		}
		return wanted{value: weak.limit(), dim: kilonewt, way: downward, tolerance: 0.05, slips: []slip{
			{weak.holds, "That is what the weakest piece holds. Haul times {tackle} and angle makes that load, so it is reached at a smaller haul."},
			{b.inKN(b.in["sling_t"] / s.pieces[stallSling].times), "That takes the mass on the tag for a force: one tonne is 9.81 kN."},
			{weak.holds / s.pieces[stallRope].times, "That leaves out the angle: {block} and {strop} carry both legs of the line."},
			{strongest, "That is where the strongest piece gives. The weakest one decides."},
			{s.pieces[stallSling].holds / ideal, "That is without friction; here each sheave costs a tenth."},
		}}
	},
	solve: solveStall,
	draw:  drawStall,
	curve: func(b *benchWork) benchCurve {
		level := func(key string) func(x float64) float64 { return func(float64) float64 { return b.in[key] } }
		return benchCurve{x: "included_deg", nameX: "angle at the {redirect}", nameY: "haul", dimY: kilonewt, way: downward, lines: []benchLine{
			{class: "curve", name: "hold to", at: func(x float64) float64 { return stallOf(b, x).weakest(true).limit() }},
			{class: "planned", name: "planned", at: level("haul_kN")},
			{class: "curve-hold", name: "stall", at: level("stall_kN")},
		}}
	},
}

// stallPiece is a piece with what it may carry (kN) and how many times the
// haul it does carry.
type stallPiece struct {
	name         string
	holds, times float64
}

// limit is the haul (kN) at which it carries all it may.
func (p stallPiece) limit() float64 { return p.holds / p.times }

const (
	stallPuller = iota
	stallRope
	stallBlock
	stallSling
	stallPieces
)

type stallState struct {
	pieces [stallPieces]stallPiece
	ratio  float64 // tension toward the puller over that toward the tree, at the redirect
}

// weakest is the piece whose limit comes first, the puller's own rating
// counted or not.
func (s stallState) weakest(withPuller bool) stallPiece {
	first := s.pieces[stallRope]
	for i := range s.pieces {
		if p := s.pieces[i]; p.limit() < first.limit() && (withPuller || i != stallPuller) {
			first = p
		}
	}
	return first
}

// stallEfficiency is that of every sheave here, by the field rule.
const stallEfficiency = 1 - rigging.FieldLossPerSheave

func stallOf(b *benchWork, includedDeg float64) stallState {
	advantage := 1.0
	if parts := int(b.in["parts"]); parts > 1 {
		advantage, _ = rigging.SimpleAdvantage(parts, rigging.HaulMoving, stallEfficiency) // in range
	}
	included := includedDeg * rigging.Deg
	s := stallState{ratio: rigging.SheaveRatio(stallEfficiency, included)}
	both := rigging.BlockLoad(advantage/s.ratio, advantage, included)
	tonnes := rigging.TonneForce / rigging.KN
	s.pieces = [stallPieces]stallPiece{
		{"{puller}, rated", b.in["rated_kN"], 1},
		{"line", rigging.WorkingLimit(b.in["mbl_kN"], b.in["design_factor"]), advantage},
		{"{block}", b.in["block_t"] * tonnes, both},
		{"{strop}", b.in["sling_t"] * tonnes, both},
	}
	return s
}

func solveStall(b *benchWork) {
	s := stallOf(b, b.in["included_deg"])
	b.kept = s
	haul, stall := b.in["haul_kN"], b.in["stall_kN"]
	hold, first := s.weakest(true), s.weakest(false)
	use := func(haul float64) string { return first.name + ", " + percent(haul/first.limit()) + " of its limit" }
	atStall := use(stall)
	impossible := stall < b.in["rated_kN"]
	if impossible {
		atStall = none
	}
	rope := &s.pieces[stallRope]
	factor := b.in["mbl_kN"] / (rope.times * stall)
	b.fact("hold", "Hold the {puller} to", b.u.holds(hold.limit()))
	b.fact("first", "First piece over its limit", b.say(first.name+", at "+b.u.holds(first.limit())))
	b.fact("planned", "Nearest its limit as planned", b.say(use(haul)))
	b.fact("stall", "Worst at stall", b.say(atStall))
	parts, gamma, A := "n = "+b.given("parts")+" (parts)", "γ = "+b.given("included_deg")+" (angle between the legs)", "A = "+hundredths(rope.times, upward)
	eta := "η = " + significant(stallEfficiency, 2) + " (efficiency of a sheave)"
	b.step("line", "Tension of the line for each unit of haul", "A = 1 + η + … + ηⁿ⁻¹", hundredths(rope.times, upward), "tension falls at each sheave", parts, eta)
	b.step("block", "Load on {block} and {strop} for each unit of haul", "r = A·√(1 + 1/q² + (2/q)·cos γ), q = (1 + κ·cos(γ/2))/(1 − κ·cos(γ/2)), κ = (1 − η)/(1 + η)",
		hundredths(s.pieces[stallSling].times, upward), "parallelogram of forces; "+sheaveFriction, A, gamma, eta)
	var limits []string
	for i := range s.pieces {
		if p := &s.pieces[i]; i != stallPuller {
			f, times := "F"+subscript(i)+" = ", [...]string{"", "A", "r", "r"}[i]
			b.step([]string{"", "line_limit", "block_limit", "sling_limit"}[i], "Haul at which the limit of the "+p.name+" is reached", f+"P/"+times, b.u.holds(p.limit()),
				"proportion", "P = "+b.u.holds(p.holds)+" (limit)", times+" = "+hundredths(p.times, upward))
			limits = append(limits, f+b.u.holds(p.limit())+" ("+p.name+")")
		}
	}
	b.step("hold", "Hold the {puller} to", "the smallest of these", b.u.holds(hold.limit()), "the weakest piece decides", append(limits, b.given("rated_kN")+" (rated pull)")...)
	b.step("first", "First piece over its limit", "L = the smallest of these", b.u.holds(first.limit()), "the weakest piece decides", limits...)
	b.step("planned", "Use of that piece as planned", "F/L", percent(haul/first.limit()), "proportion", "F = "+b.given("haul_kN")+" (haul planned)", "L = "+b.u.holds(first.limit()))
	if !impossible {
		b.step("stall", "Use of that piece at stall", "F/L", percent(stall/first.limit()), "proportion", "F = "+b.given("stall_kN")+" (haul at stall)", "L = "+b.u.holds(first.limit()))
	}
	b.worked("break", "Line breaks at so many times the greatest pull", hundredths(factor, downward), "B/(A·F)", "UK MCA MGN 308 (M+F), 2.1", "B = "+b.given("mbl_kN")+" (breaking load)", A,
		"F = "+b.given("stall_kN")+" (haul at stall)")
	switch {
	case impossible:
		b.note("impossible", "The stall given is below the rated pull, which no machine has. Give the greatest pull it can make; nothing is said of the stall here.", benchStatics)
	case stall > first.limit() && haul <= hold.limit():
		b.note("stall_over", "As planned every piece is within its limit, at stall one is not. Whoever drives must be able to stop at the number above, or the gear must be stronger.", "UK MCA MGN 308 (M+F), 2.1")
	}
	if haul > hold.limit() {
		b.note("planned_over", "What is planned is already past a limit.", benchStatics)
	}
	if haul > stall && !impossible {
		b.note("beyond_stall", "More is planned than the {puller} can pull at all: it will stall first.", benchStatics)
	}
	b.note("rope_twice", "The rule for pulling: a line breaks at no less than twice the greatest pull of the machine, and the machine stalls well below half of what the weakest piece may carry.", "UK MCA MGN 308 (M+F), 2.1")
	b.leftOut("Anchors, shackles, the {tackle}'s own {block}s and what holds at the {stem} have limits too. A snatch loads every piece harder than a steady stall.")
}

func drawStall(b *benchWork, c *canvas) (title, desc string) {
	s := b.kept.(stallState)
	haul, stall := b.in["haul_kN"], b.in["stall_kN"]
	x0, top, bottom := c.grow(10), c.font*2.4, c.h-c.font*2.4
	axis := 2 * b.in["rated_kN"]
	per := (c.w - x0 - c.grow(16)) / axis
	at := func(kN float64) float64 { return x0 + min(kN, axis)*per }
	row := (bottom - top) / stallPieces
	first := s.weakest(true)
	for i := range s.pieces {
		p := &s.pieces[i]
		y := top + row*float64(i)
		thick := min(row*0.42, c.grow(30))
		base := y + row - c.grow(3)
		text := p.name + ": holds " + b.u.holds(p.holds) + ", carries " + hundredths(p.times, upward) + "·F"
		class := "label"
		if i == stallPuller {
			text = p.name + " " + b.given("rated_kN")
		}
		if !b.hidden {
			text = p.name + " " + b.u.holds(p.limit())
			if *p == first {
				class = "label-force"
			}
			state := rigging.Judge(stall, p.limit())
			if stall < b.in["rated_kN"] {
				state = rigging.Unknown // no machine is like that
			}
			c.polygon("bar", state.String(), pt{x0, base - thick}, pt{at(p.limit()), base - thick}, pt{at(p.limit()), base}, pt{x0, base})
			c.solid = append(c.solid, rect{x0, base - thick, at(p.limit()), base})
			// How far the stall goes past it.
			if a, b := at(p.limit()), at(stall); state == rigging.Over {
				c.hatch("hatch", [3]pt{{a, base - thick}, {b, base - thick}, {b, base}}, c.grow(7))
				c.hatch("hatch", [3]pt{{a, base - thick}, {b, base}, {a, base}}, c.grow(7))
				c.path("hatch", "")
			}
		}
		c.label(caption{text: b.say(text), class: class, only: true, gap: c.grow(2), prio: prioMust,
			spots: []spot{{pt{x0, base - thick - c.font*0.75}, pt{1, 0}}}})
	}
	planned, stalled := pt{at(haul), bottom}, pt{at(stall), top}
	c.segment("axis", "", pt{x0, top}, pt{x0, bottom})
	c.segment("axis", "", pt{x0, bottom}, pt{c.w - c.grow(4), bottom})
	c.segment("planned", "", pt{planned.x, top}, planned)
	c.segment("curve-hold", "", stalled, pt{stalled.x, bottom})
	c.label(caption{text: "planned F = " + b.given("haul_kN"), class: "label-force", at: planned, toward: pt{0, 1}, gap: c.grow(14), prio: prioMust})
	c.label(caption{text: "stall " + b.given("stall_kN"), class: "label-force", at: stalled, toward: pt{0, -1}, gap: c.grow(13), prio: prioMust})
	to := func(key string) func(p pt) {
		return func(p pt) { b.set(key, min((p.x-x0)/per, axis), false) }
	}
	b.grab(c, "planned", "Haul planned, "+b.given("haul_kN"), planned, "haul_kN", "", to("haul_kN"))
	b.grab(c, "stall", "Haul at stall, "+b.given("stall_kN"), stalled, "stall_kN", "", to("stall_kN"))
	return "The haul at which each piece reaches its limit", "Planned is a haul of " + b.given("haul_kN") + "; the {puller} stalls at " + b.given("stall_kN") +
		". It is to be held to " + b.secret(b.u.holds(first.limit())) + "."
}
