package bench

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// mostLayers is how many layers of rope are drawn.
const mostLayers = 8

// drum: a winch pulls less with every layer of rope on its drum.
var drum = bench{
	id:    "drum",
	title: "Layers on a winch drum",
	idea: "The drum turns with the same torque however much rope is on it. Each layer lengthens the lever: " +
		"the rope comes in faster and pulls less. The rated pull is for the first layer, on the bare drum.",
	inputs: []input{
		{key: "layer", label: "Layer the rope comes in on", dim: units.Count, low: 1, high: mostLayers, start: "4", step: 1, fine: 1,
			help: "1 is the first, on the bare drum."},
		{key: "first_kN", label: "Pull on the first layer", dim: units.Kilonewtons, way: units.Down, low: 0.5, high: 500, start: "50", step: 1, fine: 0.1},
		{key: "drum_cm", label: "Diameter of the bare drum", dim: units.Centimetres, low: 2, high: 200, start: "20", step: 1, fine: 0.1},
		{key: "rope_cm", label: "Diameter of the rope", dim: units.Centimetres, low: 0.2, high: 6, start: "1.2", step: 0.1, fine: 0.05},
	},
	question: "What does the winch pull on this layer?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(drumState)
		n := float64(s.layer)
		return marking.Wanted{Value: s.pull, Dim: units.Kilonewtons, Way: units.Down, Tolerance: 0.03, Slips: []marking.Slip{
			{Value: s.first, Says: "That is the pull on the plate: it holds for the first layer only."},
			{Value: s.first * s.first / s.pull, Says: "That is more than on the first layer: a larger drum hauls faster, not harder."},
			{Value: s.first * (s.drum + s.rope) / (s.drum + n*s.rope), Says: "That adds one rope's diameter a layer: it is two, one on either side of the drum."},
			{Value: s.first * s.drum / (s.drum + 2*n*s.rope), Says: "That measures to the outside of the rope: it pulls along its middle, on the first layer as on the last."},
		}}
	},
	solve: func(b *work) {
		s := drumState{layer: int(b.in["layer"]), first: b.in["first_kN"], drum: b.in["drum_cm"] * rigging.CM, rope: b.in["rope_cm"] * rigging.CM}
		s.pull = s.at(s.layer)
		b.kept = s
		b.fact("pull", "Pull on layer %s", b.u.Capacity(s.pull), units.Decimal(float64(s.layer), 0))
		n, lever := subscript(s.layer), b.cm(s.lever(s.layer))
		D, d := parts.Let("D", b.cm(s.drum)).Of("bare drum"), parts.Let("d", b.cm(s.rope)).Of("rope")
		one, now, first, pull := parts.Let("r₁", b.cm(s.lever(1))), parts.Let("r"+n, lever), parts.Let("F₁", b.u.Capacity(s.first)), parts.Let("F"+n, b.u.Capacity(s.pull))
		b.step("first", "Lever on the first layer, to the middle of the rope", "r₁ = (D + d)/2", b.cm(s.lever(1)), "geometry", D, d)
		b.workedAs("lever", b.Say("Lever of the rope about the axle"), lever, "r"+n+" = (D + (2·n − 1)·d)/2", b.Say("geometry"), D, d, parts.Let("n", units.Decimal(float64(s.layer), 0)).Of("layer"))
		b.stepAs("pull", b.Say("Pull on this layer, at the same torque"), "F"+n+" = F₁·r₁/r"+n, b.u.Capacity(s.pull), b.Say(drumSource), first.Of("on the first layer"), one, now)
		b.workedAs("share", b.Say("Share of the pull on the first layer"), units.Decimal(units.Round(s.pull/s.first*100, 0.1, units.Down), -1)+"\u00a0%", "F"+n+"/F₁", b.Say("proportion"), pull, first)
		b.workedAs("faster", b.Say("Rope speed, times that on the first layer"), ratio(s.first/s.pull, units.Nearest), "r"+n+"/r₁", b.Say("geometry"), now, one)
		b.worked("gear", "What the winch can load the gear with, on the first layer", b.u.Load(s.first), "F₁ = pull on the first layer", asGiven)
		b.note("stall", "With little rope out the winch pulls less than its plate says; with nearly all of it out it pulls the most: choose the gear for that.", "statics")
		b.note("wraps", "Keep at least %s turns on the drum: the clamp alone does not hold the pull.", "US Army TM 9-2320-279-10-2", units.Decimal(rigging.LeastWraps, 0))
		if s.drum < tightDrum*s.rope {
			b.note("tight", "The drum is thinner than %s rope diameters, the least for a hoist's sheave: bent so sharply, wire rope is weaker and wears out fast.", "UFGS 14636N, 2.3.3", units.Decimal(tightDrum, 0))
		}
		b.note("published", "A truck's winch in print, first to fifth layer: 20,000, 18,173, 16,663, 15,361 and 14,254 lb.", "US Army TM 9-2320-279-10-2, Table 2-7")
		b.leftOut("Left out: how many layers fit below the flange, rope wound loosely, crossed or sunk between the turns below, and what motor and gear do besides.")
	},
	draw: drawDrum,
	curve: func(b *work) curve {
		s := b.kept.(drumState)
		return curve{x: "layer", nameX: "layer", nameY: "pull", dimY: units.Kilonewtons, way: units.Down, low: 0.5, high: mostLayers + 0.5,
			lines: []curveLine{{class: "curve", at: func(x float64) float64 {
				return s.at(int(min(math.Floor(x+0.5), mostLayers)))
			}}}}
	},
}

const drumSource words.Text = "constant torque, statics; within 0.1 % of US Army TM 9-2320-279-10-2, Table 2-7"

// tightDrum is how many rope diameters a drum has at the least before it is
// called tight.
const tightDrum = 16

type drumState struct {
	layer             int
	first, pull       float64 // kN
	drum, rope, scale float64 // m, px per m
}

// at is the pull on a layer, kN.
func (s *drumState) at(layer int) float64 {
	pull, err := rigging.DrumPull(s.first, s.drum, s.rope, layer)
	if err != nil {
		return math.NaN()
	}
	return pull
}

// lever is the distance from the axle to the middle of the rope, m.
func (s *drumState) lever(layer int) float64 { return (s.drum + float64(2*layer-1)*s.rope) / 2 }

// cm writes a length in m as the small one it is.
func (b *work) cm(m float64) string {
	return b.u.Quantity(m/rigging.CM, units.Centimetres, units.Nearest)
}

func drawDrum(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(drumState)
	top := c.Font * 2.2
	most := min((c.H-top-c.Font*1.2)/2, c.W*0.3)
	s.scale = most / (s.lever(mostLayers) + s.rope/2)
	at := draw.Pt{X: c.W * 0.33, Y: (top + c.H) / 2}
	bare := s.drum / 2 * s.scale
	for n := s.layer; n > 0; n-- {
		c.Circle("tackle", "", at, (s.lever(n)+s.rope/2)*s.scale)
	}
	c.Circle("sheave", "", at, bare)
	out, lever := (s.lever(s.layer)+s.rope/2)*s.scale, s.lever(s.layer)*s.scale
	c.Keep(draw.Around(at, bare*0.7))
	from, to := draw.Pt{X: at.X, Y: at.Y - lever}, draw.Pt{X: c.W - c.Grow(20), Y: at.Y - lever}
	c.Segment("rope", "", from, to)
	c.Arrow("force", "", to.Minus(draw.Pt{X: c.Grow(60), Y: 0}), to)
	c.Segment("bridle", "", at, from)
	c.Circle("point", "", at, c.Grow(4))
	side := draw.Pt{X: at.X + out, Y: at.Y}
	c.Label(draw.Label{Text: "F" + subscript(s.layer) + " = " + b.secret(b.u.Capacity(s.pull)), Class: "label-force",
		At: draw.Pt{X: max(side.X, c.W*0.55), Y: to.Y}, Along: to, Slide: true, Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioMust})
	text := draw.Pt{X: side.X + c.Grow(10), Y: at.Y}
	c.Label(draw.Label{Text: "r" + subscript(s.layer) + " = " + b.cm(s.lever(s.layer)), Class: "label", At: text, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioForce,
		Stands: []draw.Stand{{At: text, Toward: draw.Pt{X: 1, Y: 0}}}})
	text.Y += c.Font * 1.7
	c.Label(draw.Label{Text: b.Say("layer %s", units.Decimal(float64(s.layer), 0)), Class: "label-id", At: text, Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioForce, Stands: []draw.Stand{{At: text, Toward: draw.Pt{X: 1, Y: 0}}}})
	grip := at.Plus(draw.Pt{X: 0.6, Y: 0.8}.Times(out))
	b.grab(c, "layer", b.Say("Outermost layer, %s", units.Decimal(float64(s.layer), 0)), grip, "layer", "-layer", func(p draw.Pt) {
		b.set("layer", ((p.Minus(at).Length()/s.scale)-s.drum/2)/s.rope+0.5, false)
	})
	return b.Say("A winch drum from its end"), b.Say("A winch drum with %s layers of rope, pulling %s.", units.Decimal(float64(s.layer), 0), b.secret(b.u.Capacity(s.pull)))
}
