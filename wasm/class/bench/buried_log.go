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

// buriedLog: a log in a trench holds by the soil in front of it, the
// deeper and the flatter the pull the more.
var buriedLog = bench{
	id:    "buried_log",
	title: "{Buried log}",
	idea: "A log in a trench across the pull holds by the undisturbed soil in front of it. Soil bears most deep down, under a flat pull; " +
		"a pull that rises lifts the log out. The rope slot, 1 ft of the log's length, bears nothing. The table says where it lets go; only part of that is relied on.",
	inputs: []input{
		{key: "depth_m", label: "Depth to the middle of the log", dim: units.Metres, low: 0.92, high: 2.5, start: "1.5", step: 0.1, fine: 0.01},
		{key: "slope_deg", label: "Slope of the pull above level", dim: units.Degrees, high: 45, start: "25", step: 1, fine: 0.1},
		{key: "diameter_cm", label: "Diameter of the log", dim: units.Centimetres, low: 20, high: 80, start: "40", step: 1, fine: 0.1},
		{key: "length_m", label: "Length of the log", dim: units.Metres, low: 0.8, high: 4, start: "1.8", step: 0.1, fine: 0.01},
		{key: "soil_factor", label: "Soil factor", dim: units.Plain, low: 0.1, high: 5, start: "1", step: 0.1, fine: 0.05, suggest: &offer.LogSoils, help: "1 for undisturbed loam."},
		groundFactor,
	},
	question: "What load may the {buried log} be relied on for? The picture gives what the soil bears.",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(buriedState)
		want := marking.Wanted{Value: s.holds, Dim: units.Kilonewtons, Way: units.Down, Tolerance: 0.03, Slips: []marking.Slip{
			{Value: s.lets, Says: sayLetsGo},
			{Value: s.holds * s.length / (s.length - rigging.BuriedLogSlot), Says: "That takes the log's whole length: the slot for the rope, 1 ft of it, has no soil to bear on."},
			{Value: s.holds * math.Pi / 2, Says: "That takes half the log's round: its face counts as seen from the pull, by its diameter."},
			{Value: s.pressure * s.soil, Says: "That is what the soil bears on each square metre: times the log's face."},
		}}
		if s.soil != 1 {
			want.Slips = append(want.Slips, marking.Slip{Value: s.holds / s.soil, Says: "That leaves out the soil factor."})
		}
		return want
	},
	solve: func(b *work) {
		s := buriedAt(b.in, b.in["depth_m"], b.in["slope_deg"])
		b.kept = s
		holds, lets := b.u.Capacity(s.holds), b.u.Capacity(s.lets)
		if s.problem != nil {
			holds, lets = b.Say(notKnown), b.Say(notKnown)
		}
		b.fact("holds", "Load relied on for the {buried log}", holds)
		b.fact("lets", "It lets go at (table)", lets)
		if s.problem != nil {
			b.note("outside_table", "%s.", buriedSource(), words.Capital(b.Error(s.problem)))
		}
		p, d, L := parts.Let("p", b.pressure(s.pressure)), parts.Let("d", b.given("diameter_cm")).Of("diameter"), parts.Let("L", b.given("length_m")).Of("length")
		k := parts.Let("k", units.Significant(s.soil, 3)).Of("soil factor")
		b.step("loam", "What loam bears", "p = table by depth h and slope β, between its entries in proportion", b.pressure(s.pressure), buriedSource(),
			parts.Let("h", b.given("depth_m")).Of("depth to the middle"), parts.Let("β", b.degrees(s.slope)).Of("slope of the pull"))
		b.step("lets", "Where the log lets go", "G = p·d·(L − s)·k", lets, buriedSource(),
			p, d, L,
			parts.Let("s", units.Significant(rigging.BuriedLogSlot/b.u.Units[units.Metres].Size, 3)+b.u.Suffix(units.Metres)).Of("slot for the rope, 1 ft"), k)
		b.step("holds", "Load relied on", "H = G/f", holds, words.CommonPractice, parts.Let("G", lets).Of("lets go"), b.factor())
		if s.depth > deepestListed || s.slope < flattestListed {
			b.note("end_of_table", "The table ends at 7 ft of depth and at a slope of 1:4, 14°: what is deeper or flatter counts as that.", buriedSource())
		}
		b.worked("pressure", "The soil bears on its face", b.pressure(s.pressure*s.soil), "p·k", buriedSource(), p, k)
		b.worked("slender", "Length ÷ diameter", units.Decimal(units.Round(s.length/s.diameter, 0.1, units.Up), 1), "L/d", "proportion", L, d)
		b.note("breaking", "The manual sizes the log for the breaking load of the line: where it lets go before the line breaks, a plan says so.", buriedSource())
		b.note("slender", "A log more than 5 times as long as thick may break before the soil gives.", buriedSource())
		b.leftOut("Left out: soil that was dug before, a trench wall that crumbles, water in the trench, a rotten log.")
		b.anchorNote()
	},
	draw: drawBuriedLog,
	curve: func(b *work) curve {
		s := b.kept.(buriedState)
		in := b.in
		return curve{x: "depth_m", nameX: "depth", nameY: "counted on", dimY: units.Kilonewtons, way: units.Down, lines: []curveLine{
			{class: "curve", at: func(x float64) float64 { return buriedAt(in, x, s.slope/rigging.Deg).holds }},
			{class: "curve-hold", name: "at a slope of 45°", at: func(x float64) float64 { return buriedAt(in, x, 45).holds }},
		}}
	},
}

// groundFactor is the input of the factor on what holds by the ground, from
// tables that say where it lets go.
var groundFactor = input{key: "factor", label: "Safety factor", dim: units.Plain, low: 1, high: 20, start: units.Significant(rigging.GroundFactor, 3), step: 0.5, fine: 0.1,
	help: "Load at which it lets go divided by the load relied on: no ground is quite that of the table."}

// factor is it as a value of a working.
func (b *work) factor() parts.Value {
	return parts.Let("f", units.Significant(b.in["factor"], 3)).Of("safety factor")
}

const (
	sayLetsGo words.Text = "That is the load at which it lets go by the table. Only part of it is relied on: divide by the safety factor."
	notKnown  words.Text = "not known"
)

// Where the table of pressures ends.
const deepestListed = 7 * rigging.Foot

var flattestListed = math.Atan(1.0 / 4)

type buriedState struct {
	depth, diameter, length float64 // m
	slope                   float64 // rad
	soil                    float64
	pressure                float64 // kN/m², in loam
	lets, holds             float64 // kN, where it lets go by the table and what is counted on; NaN where the table does not say
	problem                 error
}

// buriedSource is where the pressures and rules of a buried log come from.
func buriedSource() words.Text { return words.Text(rigging.BuriedLogSoils()[0].Source.Words()) }

// buriedAt is the log of the bench's values at a depth (m) under a pull of a
// slope (degrees).
func buriedAt(in map[string]float64, depth, slope float64) buriedState {
	s := buriedState{depth: depth, slope: slope * rigging.Deg, diameter: in["diameter_cm"] * rigging.CM, length: in["length_m"], soil: in["soil_factor"]}
	lets, err := rigging.BuriedLogCapacity(s.depth, s.slope, s.diameter, s.length, rigging.BuriedLogSlot, s.soil)
	if err != nil {
		s.problem, lets = err, math.NaN()
	}
	s.lets = lets / rigging.KN
	s.holds = s.lets / in["factor"]
	pressure, err := rigging.BuriedLogPressure(s.depth, s.slope)
	if err != nil {
		pressure = math.NaN()
	}
	s.pressure = pressure / rigging.KN
	return s
}

// pressure writes kN/m² as force on an area in the user's units, for a
// working.
func (b *work) pressure(v float64) string {
	force, area := b.u.Units[units.Kilonewtons], b.u.Units[units.SquareMetres]
	return units.Significant(v*area.Size/force.Size, 3) + "\u00a0" + force.Name + "/" + area.Name
}

func drawBuriedLog(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(buriedState)
	unit := math.Min(c.W/360, c.H/300)
	m := 66 * unit // to a metre
	ground := c.H/2 - 70*unit
	log := draw.Pt{X: c.W/2 + 58*unit, Y: ground + s.depth*m}
	r := s.diameter / 2 * m
	c.Segment("ground", "", draw.Pt{X: c.W/2 - 170*unit, Y: ground}, draw.Pt{X: c.W/2 + 170*unit, Y: ground})
	// The trench behind the log's face.
	c.Move(draw.Pt{X: log.X - r, Y: ground})
	c.Line(draw.Pt{X: log.X - r, Y: log.Y + r})
	c.Line(draw.Pt{X: log.X + r + 8*unit, Y: log.Y + r})
	c.Line(draw.Pt{X: log.X + r + 8*unit, Y: ground})
	c.Path("dim", "")
	rope := draw.Pt{X: -math.Cos(s.slope), Y: -math.Sin(s.slope)}
	end := log.Plus(rope.Times(170 * unit))
	face := log.Plus(rope.Times(r))
	c.Segment("rope", "", face, end)
	c.Arrow("load", "", end.Minus(rope.Times(40*unit)), end)
	for _, y := range []float64{-0.6, 0.6} {
		to := draw.Pt{X: log.X - r*math.Sqrt(1-y*y), Y: log.Y + y*r}
		c.Arrow("force", "", to.Minus(draw.Pt{X: 30 * unit, Y: 0}), to)
	}
	c.Circle("stem", "", log, r)
	c.Keep(draw.Around(log, r))
	c.Label(draw.Label{Text: "p = " + b.pressure(s.pressure), Class: "label", At: draw.Pt{X: log.X - r - 16*unit, Y: log.Y + r*0.6}, Toward: draw.Pt{X: -0.6, Y: 1}, Prio: draw.PrioMust})
	depth := draw.Pt{X: log.X + r + 24*unit, Y: ground}
	c.Segment("dim", "", depth, draw.Pt{X: depth.X, Y: log.Y})
	c.Segment("dim", "", draw.Pt{X: depth.X - 8*unit, Y: log.Y}, draw.Pt{X: depth.X + 4*unit, Y: log.Y})
	c.Label(draw.Label{Text: "h = " + b.given("depth_m"), Class: "label", At: depth.Toward(draw.Pt{X: depth.X, Y: log.Y}, 0.5), Toward: draw.Pt{X: 1, Y: 0}, Prio: draw.PrioAngle})
	c.Label(draw.Label{Text: "d = " + b.given("diameter_cm") + ", L = " + b.given("length_m"), Class: "label", At: draw.Pt{X: log.X, Y: log.Y + r}, Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioAngle})
	level := draw.Pt{X: -1, Y: 0}
	if s.slope > 0 {
		c.Segment("plumb", "", face, face.Plus(level.Times(110*unit)))
		c.AngleMark(log, rope, level, 100*unit+r, "β = "+b.degrees(s.slope))
	}
	counted := b.secret(b.out.Facts[0].Value)
	c.Label(draw.Label{Text: "H = " + counted, Class: "label-force", At: end, Toward: draw.Pt{X: 0, Y: 1}, Gap: c.Grow(14), Prio: draw.PrioMust})
	b.grab(c, "rope", b.Say("Pull, %s above level", b.degrees(s.slope)), end, "", "slope_deg", func(p draw.Pt) {
		d := p.Minus(log)
		b.set("slope_deg", math.Atan2(-d.Y, -d.X)/rigging.Deg, false)
	})
	b.grab(c, "log", b.Say("Log, %s deep", b.given("depth_m")), log, "", "-depth_m", func(p draw.Pt) {
		b.set("depth_m", (p.Y-ground)/m, true)
	})
	return b.Say("{Buried log}"), b.Say("Seen along the log: it lies %s deep and is pulled %s above level. It is relied on for %s.", b.given("depth_m"), b.degrees(s.slope), counted)
}
