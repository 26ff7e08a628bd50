package bench

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// pickets: what pickets hold together stands in a table; it does not
// follow from one of them.
var pickets = bench{
	id:    "pickets",
	title: "Pickets as an anchor",
	idea: "Rows of pickets, each lashed from its top to the foot of the next, hold together. Tables give the hold for a few groups only: " +
		"rows behind do not simply add, and soft ground halves the hold. The table says where they let go; only part of that is relied on.",
	inputs: []input{
		{key: "group", label: "Pickets", start: "1-1-1", help: "In each row, the row nearest the load first.", options: []parts.Choice{
			{Value: "1", Label: "wood, one"}, {Value: "1-1", Label: "wood, 1-1"}, {Value: "2-1", Label: "wood, 2-1"}, {Value: "1-1-1", Label: "wood, 1-1-1"}, {Value: "3-2-1", Label: "wood, 3-2-1"}, {Value: steelPickets, Label: "steel, one behind the other"}}},
		{key: "steel", label: "How many", dim: units.Count, low: 1, high: 6, start: "3", step: 1, fine: 1, when: func(b *work) bool { return b.text["group"] == steelPickets }},
		{key: "soil_factor", label: "Soil factor", dim: units.Plain, low: 0.1, high: 1, start: "0.9", step: 0.05, fine: 0.01, suggest: &offer.PicketSoils,
			when: func(b *work) bool { return b.text["group"] != steelPickets }, help: "1 for undisturbed loam."},
		woodFactor(),
		{key: "pull_kN", label: "Pull on the pickets", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 25, start: "3", step: 0.5, fine: 0.1},
	},
	question: "What load may the pickets be relied on for, together?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(picketState)
		want := marking.Wanted{Value: s.holds, Dim: units.Kilonewtons, Way: units.Down, Tolerance: 0.03}
		if s.pickets == 1 {
			if !s.steel {
				want.Slips = []marking.Slip{{Value: s.lets, Says: sayLetsGo}}
			}
			return want
		}
		want.Slips = []marking.Slip{
			{Value: s.lets, Says: sayLetsGo},
			{Value: s.single * s.soil / s.factor * float64(s.pickets), Says: "That adds up single pickets: the rows behind do not take their full share."},
			{Value: s.single * s.soil / s.factor, Says: "That is one picket alone."},
			{Value: s.single / s.factor * float64(s.pickets), Says: "That adds up single pickets, and leaves out the soil."},
		}
		if s.steel {
			want.Slips = want.Slips[2:3]
		}
		if s.soil < 1 {
			want.Slips = append([]marking.Slip{{Value: s.holds / s.soil, Says: "That leaves out the soil."}}, want.Slips...)
		}
		return want
	},
	solve: func(b *work) {
		s := picketsAt(b.text["group"], int(b.in["steel"]), b.in["soil_factor"], b.in["factor"])
		s.pull = b.in["pull_kN"]
		b.kept = s
		b.fact("holds", "Load relied on for the pickets", b.u.Capacity(s.holds))
		lets := b.u.Capacity(s.lets)
		single := b.u.Capacity(s.single * s.soil)
		const steel words.Text = "Natural Disasters Organisation (Australia), Disaster Rescue, para 8.3"
		if s.steel {
			b.step("single", "One of them alone", "H₁ = 350 kg·g", single, steel)
			b.step("holds", "Load relied on", "H = n·H₁, at most 2 t", b.u.Capacity(s.holds), steel,
				parts.Let("n", units.Decimal(float64(s.pickets), 0)).Of("pickets"), parts.Let("H₁", single))
			b.note("as_driven", "Steel pickets 1.5 m long and 25 mm thick, driven at 45° two thirds into good ground, at least 1 m apart.", steel)
		} else {
			k := parts.Let("k", units.Significant(s.soil, 3)).Of("soil factor")
			b.stepAs("lets", b.Say("Where they let go"), "G = G₀·k", lets, b.Source(s.source), parts.Let("G₀", b.u.Capacity(s.lets/s.soil)).Of("%s in loam, by the table", b.text["group"]), k)
			b.stepAs("single", b.Say("One of them alone"), "G₁·k", single, b.Source(rigging.PicketHolds()[0].Source), parts.Let("G₁", b.u.Capacity(s.single)).Of("one in loam, by the table"), k)
			b.published("as_driven", "Wooden pickets 3 in thick and 5 ft long, driven 3 to 4 ft into undisturbed ground, leaning 15° back from the load, rows 3 to 6 ft apart.", rigging.PicketHolds()[0].Source)
			b.step("holds", "Load relied on", "H = G/f", b.u.Capacity(s.holds), words.CommonPractice, parts.Let("G", lets).Of("let go"), b.factor())
			b.fact("lets", "They let go at (table)", lets)
		}
		b.fact("single", s.alone(), single)
		b.worked("pull", "Pull on the pickets", b.u.Load(s.pull), "F = pull on the pickets", asGiven)
		b.worked("use", "Pull ÷ load relied on", b.Use(rigging.Use(s.pull, s.holds)), "F/H", "proportion", parts.Let("F", b.u.Load(s.pull)), parts.Let("H", b.u.Capacity(s.holds)))
		b.note("no_table", "No other group is in the table: do not work one out from these.", words.CommonPractice)
		b.leftOut("Left out: a pull that rises, rotten or split pickets, rain that softens the ground, slack lashings.")
		b.anchorNote()
	},
	draw: drawPickets,
	curve: func(b *work) curve {
		s := b.kept.(picketState)
		group := b.text["group"]
		of := curve{x: "soil_factor", nameX: "soil factor", nameY: "counted on", dimY: units.Kilonewtons, way: units.Down, lines: []curveLine{
			{class: "curve", at: func(x float64) float64 { return picketsAt(group, 1, x, s.factor).holds }},
			{class: "planned", name: "pull", at: func(float64) float64 { return s.pull }}}}
		if s.steel {
			of.x, of.nameX = "steel", "pickets"
			of.lines[0].at = func(x float64) float64 { return picketsAt(group, int(x), 1, s.factor).holds }
		}
		return of
	},
}

const steelPickets = "steel"

func woodFactor() input {
	in := groundFactor
	in.when = func(b *work) bool { return b.text["group"] != steelPickets }
	return in
}

type picketState struct {
	rows                      []int
	pickets                   int
	steel                     bool
	lets, holds, single, pull float64 // kN: where they let go, what is counted on, the same of one: where it lets go in loam or, of steel, its working load
	soil, factor              float64
	source                    rigging.Source
}

// picketsAt are pickets by their group or, of steel, their number. What no
// table lists holds NaN.
func picketsAt(group string, steel int, soil, factor float64) picketState {
	s := picketState{soil: soil, factor: factor, pickets: steel, steel: group == steelPickets}
	if s.steel {
		s.soil, s.factor = 1, 1 // its figure is a working load already
		for range steel {
			s.rows = append(s.rows, 1)
		}
		lets, err := rigging.SteelPicketCapacity(steel)
		single, _ := rigging.SteelPicketCapacity(1)
		return s.with(lets, single, err)
	}
	s.pickets = 0
	for row := range strings.SplitSeq(group, "-") {
		n := int(row[0] - '0')
		s.rows = append(s.rows, n)
		s.pickets += n
	}
	for _, h := range rigging.PicketHolds() {
		if slices.Equal(h.Rows, s.rows) {
			s.source = h.Source
		}
	}
	lets, err := rigging.PicketCapacity(s.rows, soil)
	single, _ := rigging.PicketCapacity([]int{1}, 1)
	return s.with(lets, single, err)
}

// alone says what is given of one picket: of wood where it lets go, of steel a
// working load.
func (s picketState) alone() words.Text {
	if s.steel {
		return "One of them alone"
	}
	return "One of them alone lets go at"
}

// with fills in where they let go (N).
func (s picketState) with(lets, single float64, err error) picketState {
	if err != nil {
		lets = math.NaN()
	}
	s.lets, s.single = lets/rigging.KN, single/rigging.KN
	s.holds = s.lets / s.factor
	return s
}

func drawPickets(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(picketState)
	unit := math.Min(c.W/360, c.H/300)
	ground := c.H/2 + 20*unit
	hitch := draw.Pt{X: c.W/2 - 18*unit, Y: ground}
	// Wood: 5 ft, driven 3.5 ft, 15° back, rows 4.5 ft apart. Steel: 1.5 m,
	// two thirds in at 45°, 1 m apart.
	long, in, lean, apart := 5*rigging.Foot, 3.5*rigging.Foot, 15*rigging.Deg, 4.5*rigging.Foot
	if s.steel {
		long, in, lean, apart = 1.5, 1.0, 45*rigging.Deg, 1.0
	}
	m := min(56*unit, 130*unit/(apart*float64(max(len(s.rows)-1, 1))))
	sin, cos := math.Sincos(lean)
	c.Segment("ground", "", draw.Pt{X: c.W*0.5 - 170*unit, Y: ground}, draw.Pt{X: c.W*0.5 + 170*unit, Y: ground})
	back := draw.Pt{X: sin, Y: -cos} // up along a picket, away from the load
	for i, n := range s.rows {
		foot := hitch.Plus(draw.Pt{X: float64(i) * apart * m, Y: 0})
		top := foot.Plus(back.Times((long - in) * m))
		tip := foot.Minus(back.Times(in * m))
		if i < len(s.rows)-1 {
			c.Segment("bridle", "", top.Toward(foot, 0.1), foot.Plus(draw.Pt{X: apart * m, Y: -c.Grow(4)}))
		}
		c.Segment("lean", "", tip, top)
		if !s.steel {
			c.Label(draw.Label{Text: units.Decimal(float64(n), 0), Class: "label-id", At: tip, Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioMust})
		}
	}
	// Pull and hold to one scale.
	per := 136 * unit / 25
	rope := draw.Pt{X: hitch.X, Y: ground - c.Grow(5)}
	end := rope.Minus(draw.Pt{X: s.pull * per, Y: 0})
	c.Arrow("load", "", rope, end)
	c.Label(draw.Label{Text: "F = " + b.u.Load(s.pull), Class: "label-force", At: end, Toward: draw.Pt{X: 0.2, Y: -1}, Gap: c.Grow(14), Prio: draw.PrioMust})
	if !b.hidden && draw.Finite(s.holds) {
		at := draw.Pt{X: rope.X - min(s.holds*per, c.W), Y: ground}
		c.Segment("planned", "", at.Minus(draw.Pt{X: 0, Y: c.Grow(50)}), at.Plus(draw.Pt{X: 0, Y: c.Grow(24)}))
		c.Label(draw.Label{Text: "H = " + b.u.Capacity(s.holds), Class: "label-force", At: at.Plus(draw.Pt{X: 0, Y: c.Grow(24)}), Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioForce})
	}
	what := words.Text("one alone lets go in loam at %s")
	if s.steel {
		what = "one alone in good ground: %s"
	}
	c.Label(draw.Label{Text: b.Say(what, b.u.Capacity(s.single)), Class: "label-note", At: draw.Pt{X: c.W / 2, Y: c.Grow(18)}, Prio: draw.PrioLength})
	b.grab(c, "pull", b.Say("Pull, %s", b.u.Load(s.pull)), end, "-pull_kN", "", func(p draw.Pt) {
		b.set("pull_kN", (rope.X-p.X)/per, true)
	})
	kind := b.Count(s.pickets, "1 wooden picket", "%s wooden pickets")
	if s.steel {
		kind = b.Count(s.pickets, "1 steel picket", "%s steel pickets")
	}
	return b.Say("Pickets as an anchor"), b.Say("Seen from the side: %s in %s, under a pull of %s. Relied on for %s.", kind, b.Count(len(s.rows), "1 row", "%s rows"), b.u.Load(s.pull), b.secret(b.u.Capacity(s.holds)))
}
