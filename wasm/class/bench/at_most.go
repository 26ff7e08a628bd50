package bench

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// pullerAtMost: friction adds to the haul that may be needed, and may not be
// counted on to spare the gear. Between the two numbers lies the room a crew has.
var pullerAtMost = bench{
	id:    "stall", // as it stands in addresses
	title: "What the {puller} can do at most",
	idea: "Friction works both ways. It adds to the haul you may need; but if a sheave runs freer than you thought, more reaches gear and anchors. " +
		"So the haul needed is worked out with friction, and the pull to hold the {puller} to without. The room you have lies between the two.",
	inputs: []input{
		{key: "tension_kN", label: "Tension planned, at the tree", dim: units.Kilonewtons, way: units.Up, low: 0.5, high: 400, start: "20", step: 1, fine: 0.1},
		{key: "efficiency", label: "Efficiency of each sheave", dim: units.Plain, low: 0.5, high: 1, start: "0.9", step: 0.01, fine: 0.01, suggest: &offer.Sheaves,
			help: "Tension on the load side ÷ tension on the hauling side, for a turn of 180°. 1 is without friction."},
		{key: "limited_by", label: "What limits the pull?", start: "stall", options: offer.PullerLimits[1:]},
		{key: "stall_kN", label: "Haul at stall", dim: units.Kilonewtons, way: units.Up, low: 0.5, high: 400, start: "20", step: 0.5, fine: 0.1,
			help: "The greatest pull the {puller} can make, not its rated one.", when: func(b *work) bool { return b.text["limited_by"] != "device" }},
		{key: "setting_kN", label: "It stops at", dim: units.Kilonewtons, way: units.Up, low: 0.5, high: 400, start: "10", step: 0.5, fine: 0.1,
			help: "Where the device lets go, or the person watching stops.", when: func(b *work) bool { return b.text["limited_by"] == "device" || b.text["limited_by"] == "watched" }},
		{key: "mass_kg", label: "Mass of the machine", dim: units.Kilograms, way: units.Up, low: 100, high: 40000, start: "1500", step: 100, fine: 10,
			help: "It pulls no more than its weight.", when: func(b *work) bool { return b.text["limited_by"] == "grip" }},
		{key: "rated_kN", label: "Rated pull of the {puller}", dim: units.Kilonewtons, way: units.Down, low: 0.5, high: 200, start: "15", step: 0.5, fine: 0.1},
		{key: "parts", label: "Parts of the {tackle}", dim: units.Count, low: 1, high: 6, start: "3", step: 1, fine: 1,
			help: "Parts of rope that pull on its moving {block}, the hauling one among them; 1 for no {tackle}."},
		{key: "included_deg", label: "Angle between the legs at the {redirect}", dim: units.Degrees, low: 0, high: 180, start: "60", step: 1, fine: 0.1},
		{key: "mbl_kN", label: "Breaking load of the line", dim: units.Kilonewtons, way: units.Down, low: 5, high: 2000, start: "200", step: 5, fine: 1},
		{key: "design_factor", label: "Design factor of the line", dim: units.Plain, low: 1, high: 12, start: "3", step: 0.5, fine: 0.1, suggest: &offer.DesignFactors},
		{key: "block_t", label: "Working load limit of the {block}", dim: units.TonnesForce, way: units.Down, low: 0.1, high: 100, start: "10", step: 0.5, fine: 0.1},
		{key: "sling_t", label: "Working load limit of its {strop}, as rigged", dim: units.TonnesForce, way: units.Down, low: 0.1, high: 100, start: "6", step: 0.5, fine: 0.1},
	},
	question: "What haul must the {puller} be held to?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(atMost)
		weak := s.weakest(true)
		strongest := 0.0
		for i := range s.pieces {
			strongest = max(strongest, s.pieces[i].limit())
		}
		return marking.Wanted{Value: weak.limit(), Dim: units.Kilonewtons, Way: units.Down, Tolerance: 0.05, Slips: []marking.Slip{
			{Value: weak.holds / weak.rubbed, Says: "That relies on friction: each sheave is taken to keep its share off the gear. A freer sheave lets more through, so it is worked out without."},
			{Value: weak.holds, Says: "That is the limit of the weakest piece. The haul is multiplied by {tackle} and angle, so a smaller haul reaches it."},
			{Value: b.inKN(b.in["sling_t"] / s.pieces[mostSling].times), Says: "That takes the mass on the tag for a force: one tonne is 9.81 kN."},
			{Value: weak.holds / s.pieces[mostRope].times, Says: "That leaves out the angle: {block} and {strop} carry both legs of the line."},
			{Value: strongest, Says: "That is where the strongest piece gives. The weakest one decides."},
		}}
	},
	solve: solveAtMost,
	draw:  drawAtMost,
	curve: func(b *work) curve {
		at := func(of func(s atMost) float64) func(x float64) float64 {
			return func(x float64) float64 { return of(atMostOf(b, x)) }
		}
		return curve{x: "efficiency", nameX: "efficiency of each sheave", nameY: "haul", dimY: units.Kilonewtons, way: units.Down, lines: []curveLine{
			{class: "curve", name: "hold to", at: at(func(s atMost) float64 { return s.weakest(true).limit() })},
			{class: "planned", name: "planned", at: at(func(s atMost) float64 { return s.haul })},
			{class: "curve-hold", name: "if friction is relied on", at: at(func(s atMost) float64 {
				least := math.Inf(1)
				for i := range s.pieces {
					least = min(least, s.pieces[i].holds/s.pieces[i].rubbed)
				}
				return least
			})},
		}}
	},
}

// mostPiece is a piece with what it may carry (kN) and how many times the haul
// it does carry: at most, where nothing rubs, and with friction.
type mostPiece struct {
	name, factor string // factor: the multiple in letters
	holds        float64
	times        float64
	rubbed       float64
}

// limit is the haul (kN) at which it may carry all it can.
func (p mostPiece) limit() float64 { return p.holds / p.times }

const (
	mostPuller = iota
	mostRope
	mostBlock
	mostSling
	mostPieces
)

// atMost is what a puller may be asked for and what it can do, kN.
type atMost struct {
	pieces    [mostPieces]mostPiece
	parts     float64
	advantage float64 // with friction
	ratio     float64 // tension toward the puller over that toward the tree, at the redirect
	haul      float64 // planned
	most      float64 // what the puller makes
	stall     float64 // what it makes where nobody stops it
	// impossible: a stall below the rated pull is no machine's.
	impossible bool
}

// reached writes the haul at which a piece's limit is reached.
func (b *work) reached(p mostPiece) string {
	if p.times < 1e-9 { // legs that run on in one line
		return b.Say("not loaded")
	}
	return b.u.Capacity(p.limit())
}

// weakest is the piece whose limit comes first, the puller's own rating
// counted or not.
func (s atMost) weakest(withPuller bool) mostPiece {
	first := s.pieces[mostRope]
	for i := range s.pieces {
		if p := s.pieces[i]; p.limit() < first.limit() && (withPuller || i != mostPuller) {
			first = p
		}
	}
	return first
}

func atMostOf(b *work, efficiency float64) atMost {
	included, n := b.in["included_deg"]*rigging.Deg, b.in["parts"]
	s := atMost{parts: n, advantage: 1, ratio: rigging.SheaveRatio(efficiency, included)}
	if n > 1 {
		s.advantage, _ = rigging.SimpleAdvantage(int(n), rigging.HaulMoving, efficiency) // in range
	}
	free, rubbed := rigging.BlockLoad(n, n, included), rigging.BlockLoad(s.advantage/s.ratio, s.advantage, included)
	tonnes := rigging.TonneForce / rigging.KN
	s.pieces = [mostPieces]mostPiece{
		{b.Say("{puller}, rated"), "", b.in["rated_kN"], 1, 1},
		{b.Say("line"), "n", rigging.WorkingLimit(b.in["mbl_kN"], b.in["design_factor"]), n, s.advantage},
		{b.Say("{block}"), "2·n·cos(γ/2)", b.in["block_t"] * tonnes, free, rubbed},
		{b.Say("{strop}"), "2·n·cos(γ/2)", b.in["sling_t"] * tonnes, free, rubbed},
	}
	s.haul = b.in["tension_kN"] * s.ratio / s.advantage
	s.stall = b.in["stall_kN"]
	switch s.most = s.stall; b.text["limited_by"] {
	case "device":
		s.most, s.stall = b.in["setting_kN"], b.in["setting_kN"]
	case "watched":
		s.most = b.in["setting_kN"]
	case "grip":
		s.most = min(s.stall, plan.DrivingGrip*b.in["mass_kg"]*rigging.G/rigging.KN)
	}
	s.impossible = b.text["limited_by"] != "device" && s.stall < b.in["rated_kN"]
	return s
}

// room is how far the number to hold the puller to lies above the haul planned,
// kN; not above 0 where there is none.
func (s atMost) room() float64 { return s.weakest(true).limit() - s.haul }

func solveAtMost(b *work) {
	s := atMostOf(b, b.in["efficiency"])
	b.kept = s
	hold, first := s.weakest(true), s.weakest(false)
	most, worst, arrives, breaks := b.u.Load(s.most), b.Use(s.most/first.limit()), b.u.Load(s.most*s.parts), hundredths(b.in["mbl_kN"]/(s.parts*s.most), units.Down)
	room := b.Say("none")
	if r := s.room(); r > 0 {
		room = b.u.Capacity(r)
	}
	b.fact("hold", "Hold the {puller} to", b.u.Capacity(hold.limit()))
	b.fact("need", "Haul planned, with friction", b.u.Load(s.haul))
	b.fact("room", "Room between the two", room)
	b.fact("first", "First piece over its limit", b.Say("%s, at %s", first.name, b.u.Capacity(first.limit())))
	if s.impossible {
		b.fact("most", "The {puller} can pull at most", units.None)
	} else {
		b.fact("most", "The {puller} can pull at most", most)
		b.fact("worst", "Worst piece then, without friction", b.Say("%s, %s of its limit", first.name, worst))
		b.fact("arrives", "Line tension that can give", arrives)
		b.fact("break", "Breaking load ÷ that tension", breaks)
	}

	n, gamma := parts.Let("n", b.given("parts")).Of("parts"), parts.Let("γ", b.given("included_deg")).Of("angle between the legs")
	eta, T := parts.Let("η", units.Significant(b.in["efficiency"], 3)).Of("efficiency of a sheave"), parts.Let("T", b.given("tension_kN")).Of("tension planned")
	A, q, r := units.Significant(s.advantage, 4), units.Significant(s.ratio, 4), hundredths(s.pieces[mostSling].times, units.Up)
	b.step("advantage", "Advantage of the {tackle} with friction", "A = 1 + η + … + ηⁿ⁻¹", A, "tension falls at each sheave", n, eta)
	b.step("redirect", "Tension after the {redirect} ÷ tension before", "q = (1 + κ·cos(γ/2))/(1 − κ·cos(γ/2)), κ = (1 − η)/(1 + η)", q, sheaveFriction, gamma, eta)
	b.step("need", "Planned haul, with friction: it adds to the haul", "S = T·q/A", b.u.Load(s.haul), statics, T, parts.Let("q", q).Of("friction at the {redirect}"), parts.Let("A", A).Of("advantage"))
	b.step("block", "Load on {block} and {strop} per unit of haul, without friction", "r = 2·n·cos(γ/2)", r, "parallelogram of forces; friction is not relied on where it would reduce a load", n, gamma)
	var limits []parts.Value
	for i := range s.pieces {
		if p := &s.pieces[i]; i != mostPuller {
			f, times, of := "F"+subscript(i), [...]string{"", "n", "r", "r"}[i], n
			if times == "r" {
				of = parts.Let("r", r).Of("load per unit of haul")
			}
			b.stepAs([...]string{"", "line_limit", "block_limit", "sling_limit"}[i], b.Say("Haul at which the limit is reached: %s", p.name), f+" = P/"+times, b.reached(*p),
				b.Say("proportion"), parts.Let("P", b.u.Capacity(p.holds)).Of("limit"), of)
			limits = append(limits, parts.Let(f, b.reached(*p)).Of("%s", p.name))
		}
	}
	b.step("first", "First piece over its limit", "L = the smallest of these", b.u.Capacity(first.limit()), "the weakest piece decides", limits...)
	b.step("hold", "Hold the {puller} to", "H = the smaller of L and the rated pull", b.u.Capacity(hold.limit()), "the weakest piece decides; never above the rated pull", parts.Let("L", b.u.Capacity(first.limit())).Of("first piece"), parts.Let("", b.given("rated_kN")).Of("rated pull"))
	b.step("room", "Room between the two", "H − S", room, "difference; none where it is not above 0", parts.Let("H", b.u.Capacity(hold.limit())).Of("hold to"), parts.Let("S", b.u.Load(s.haul)).Of("haul planned"))
	if !s.impossible {
		stall := parts.Let("", b.given("stall_kN")).Of("haul at stall")
		switch b.text["limited_by"] {
		case "device", "watched":
			b.step("most", "The {puller} can pull at most", "M = where it stops", most, asGiven, parts.Let("", b.given("setting_kN")).Of("it stops at"))
		case "grip":
			b.step("most", "The {puller} can pull at most", "M = the smaller of m·g and the stall", most, "a machine that pulls by driving makes at most its own weight, from memory", parts.Let("m", b.given("mass_kg")).Of("mass"), parts.Let("g", "9.80665\u00a0m/s²"), stall)
		default:
			b.step("most", "The {puller} can pull at most", "M = the stall", most, asGiven, stall)
		}
		M := parts.Let("M", most).Of("at most")
		b.step("worst", "Use of the worst piece then", "M/L", worst, "proportion", M, parts.Let("L", b.u.Capacity(first.limit())).Of("first piece"))
		b.step("arrives", "Tension of the line then, without friction", "M·n", arrives, statics, M, n)
		b.step("break", "Breaking load ÷ that tension", "B/(M·n)", breaks, "UK MCA MGN 308 (M+F), 2.1", parts.Let("B", b.given("mbl_kN")).Of("breaking load"), M, n)
	}
	b.atMostNotes(s)
}

func (b *work) atMostNotes(s atMost) {
	hold, first := s.weakest(true).limit(), s.weakest(false).limit()
	const mgn words.Text = "UK MCA MGN 308 (M+F), 2.1"
	switch {
	case s.haul <= hold*(1+1e-9):
	case s.pieces[mostPuller].limit() < first:
		b.note("no_room", "No room: the haul that may be needed is above the rating of the {puller}. A stronger {puller} or one more part makes room.", statics)
	default:
		b.note("no_room", "No room: the haul that may be needed is above what the gear may carry. A stronger weakest piece or freer sheaves make room. More parts do not: each adds a sheave.", statics)
	}
	switch {
	case s.impossible:
		b.note("impossible", "The stall pull given is below the rated pull, which is impossible. Give the greatest pull it can make; the most it can do is not shown here.", statics)
	case s.most > first:
		b.note("at_most_over", "If the {puller} pulls all it can, a piece is over its limit. A device set below the number above stops it, or the gear must be stronger.", mgn)
	case b.text["limited_by"] == "watched" && s.stall > first:
		b.note("watched", "Only the person watching keeps it from its stall, where a piece is over its limit. A plan like that is near its limits at best.", words.CommonPractice)
	}
	if s.haul > s.most && !s.impossible {
		b.note("too_weak", "The planned haul is more than the {puller} can pull.", statics)
	}
	if b.text["limited_by"] == "device" {
		b.note("device", "Test the device before relying on it: settings drift, and a valve is set to a pressure, not a pull.", words.CommonPractice)
	}
	b.note("rope_twice", "The pulling rule: the line should break at no less than twice the greatest pull of the machine, and the machine should stall well below half of what the weakest piece may carry.", mgn)
	b.leftOut("Anchors, {shackle}s, the {tackle}'s own {block}s and the piece on the {stem} have limits too. Here the tree stands; a plan takes the greatest loads until it falls by itself. A snatch loads every piece harder than a steady pull.")
}

func drawAtMost(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(atMost)
	x0, top, bottom := c.Grow(10), c.Font*2.4, c.H-c.Font*2.4
	axis := 2 * b.in["rated_kN"]
	per := (c.W - x0 - c.Grow(16)) / axis
	at := func(kN float64) float64 { return x0 + min(kN, axis)*per }
	row := (bottom - top) / mostPieces
	first := s.weakest(true)
	for i := range s.pieces {
		p := &s.pieces[i]
		y := top + row*float64(i)
		thick := min(row*0.42, c.Grow(30))
		base := y + row - c.Grow(3)
		text := b.Say("%s: holds %s, gets %s·F", p.name, b.u.Capacity(p.holds), p.factor)
		class := "label"
		if i == mostPuller {
			text = b.Say("%s %s", p.name, b.given("rated_kN"))
		}
		if !b.hidden {
			text = b.Say("%s %s", p.name, b.reached(*p))
			if *p == first {
				class = "label-force"
			}
			state := rigging.Judge(s.most, p.limit())
			if s.impossible {
				state = rigging.Unknown // no machine is like that
			}
			c.Polygon("bar", state.String(), draw.Pt{X: x0, Y: base - thick}, draw.Pt{X: at(p.limit()), Y: base - thick}, draw.Pt{X: at(p.limit()), Y: base}, draw.Pt{X: x0, Y: base})
			c.Keep(draw.Rect{X0: x0, Y0: base - thick, X1: at(p.limit()), Y1: base})
			// How far the puller can go past it.
			if a, b := at(p.limit()), at(s.most); state == rigging.Over {
				c.Hatch("hatch", [3]draw.Pt{{X: a, Y: base - thick}, {X: b, Y: base - thick}, {X: b, Y: base}}, c.Grow(7))
				c.Hatch("hatch", [3]draw.Pt{{X: a, Y: base - thick}, {X: b, Y: base}, {X: a, Y: base}}, c.Grow(7))
				c.Path("hatch", "")
			}
		}
		c.Label(draw.Label{Text: text, Class: class, Only: true, Gap: c.Grow(2), Prio: draw.PrioMust,
			Stands: []draw.Stand{{At: draw.Pt{X: x0, Y: base - thick - c.Font*0.75}, Toward: draw.Pt{X: 1, Y: 0}}}})
		for _, line := range [...]struct {
			class string
			kN    float64
		}{{"planned", s.haul}, {"curve-hold", s.most}} { // past each bar, clear of the words
			c.Segment(line.class, "", draw.Pt{X: at(line.kN), Y: base - thick - c.Grow(1)}, draw.Pt{X: at(line.kN), Y: base + c.Grow(3)})
		}
	}
	planned, most := draw.Pt{X: at(s.haul), Y: bottom}, draw.Pt{X: at(s.most), Y: top}
	c.Segment("axis", "", draw.Pt{X: x0, Y: top}, draw.Pt{X: x0, Y: bottom})
	c.Segment("axis", "", draw.Pt{X: x0, Y: bottom}, draw.Pt{X: c.W - c.Grow(4), Y: bottom})
	need, can := b.Say("planned F = %s", b.u.Load(s.haul)), b.Say("at most %s", b.u.Load(s.most))
	c.Label(draw.Label{Text: need, Class: "label-force", At: planned, Toward: draw.Pt{X: 0, Y: 1}, Gap: c.Grow(14), Prio: draw.PrioMust})
	c.Label(draw.Label{Text: can, Class: "label-force", At: most, Toward: draw.Pt{X: 0, Y: -1}, Gap: c.Grow(13), Prio: draw.PrioMust})
	b.grab(c, "planned", b.Say("Haul planned, %s", b.u.Load(s.haul)), planned, "tension_kN", "", func(p draw.Pt) {
		b.set("tension_kN", min((p.X-x0)/per, axis)*s.advantage/s.ratio, false)
	})
	key, size := "stall_kN", 1.0
	switch limit := b.text["limited_by"]; {
	case limit == "device" || limit == "watched":
		key = "setting_kN"
	case limit == "grip" && s.most < s.stall:
		key, size = "mass_kg", rigging.KN/(plan.DrivingGrip*rigging.G)
	}
	b.grab(c, "stall", b.Say("The {puller} at most, %s", b.u.Load(s.most)), most, key, "", func(p draw.Pt) {
		b.set(key, min((p.X-x0)/per, axis)*size, false)
	})
	return b.Say("Haul at which each piece may reach its limit"), b.Say("The planned haul is %s; the {puller} can pull at most %s. Hold it to %s.", b.u.Load(s.haul), b.u.Load(s.most), b.secret(b.u.Capacity(first.limit())))
}
