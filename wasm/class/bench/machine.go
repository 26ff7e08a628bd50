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

// machine: what a machine holds as an anchor by its weight, its ground,
// the slope and how steeply the rope lifts.
var machine = bench{
	id:    "machine",
	title: "Machine as an anchor",
	idea: "A machine holds by its grip: its weight times the traction of the ground. A rope that rises takes weight off, a slope toward the pull takes grip away, " +
		"and its rated pull is a limit in any case.",
	inputs: []input{
		{key: "elevation_deg", label: "Rope above level", dim: units.Degrees, low: -10, high: 60, start: "20", step: 1, fine: 0.1},
		{key: "slope_deg", label: "Slope of the ground", dim: units.Degrees, low: -30, high: 30, start: "5", step: 1, fine: 0.1,
			help: "Positive where the pull drags the machine downhill."},
		{key: "mass_kg", label: "Mass of the machine", dim: units.Kilograms, low: 100, high: 100000, start: "6000", step: 500, fine: 100},
		{key: "traction", label: "Traction", dim: units.Plain, low: 0.05, high: 1, start: "0.4", step: 0.05, fine: 0.01, suggest: &offer.Tractions,
			help: "Grip over weight on what it stands on."},
		{key: "tension_kN", label: "Tension of the rope", dim: units.Kilonewtons, way: units.Up, low: 0.1, high: 500, start: "15", step: 1, fine: 0.1},
		{key: "rated_kN", label: "Rated pull", dim: units.Kilonewtons, way: units.Down, low: 0.1, high: 1000, start: "40", step: 1, fine: 0.1},
	},
	question: "What level pull does the machine hold?",
	guess: func(b *work) marking.Wanted {
		s := b.kept.(machineState)
		return marking.Wanted{Value: s.holds, Dim: units.Kilonewtons, Way: units.Down, Tolerance: 0.05, Slips: []marking.Slip{
			{Value: s.weight * math.Tan(math.Atan(s.traction)-s.slope), Says: "That leaves out the uplift of the rope: it takes weight off the machine."},
			{Value: s.traction * (s.weight - s.uplift), Says: "That leaves out the slope."},
			{Value: s.asked, Says: "That is what the rope asks of it, not what it holds."},
			{Value: s.rated, Says: "That is its rated pull: it slides before."},
			{Value: s.weight, Says: "That is its whole weight: only the traction's share of it grips."},
			{Value: b.inKN(s.traction * s.mass / 1000), Says: "That takes tonnes for kilonewtons: a tonne weighs 9.81 kN."},
		}}
	},
	solve: func(b *work) {
		s := machineAt(b.in, b.in["elevation_deg"])
		b.kept = s
		b.fact("holds", "Level pull the machine holds", b.u.Capacity(s.holds))
		limit, least := words.Text("grip on the ground"), words.Text("H = the least of K and the rated pull, never less than 0")
		switch {
		case !s.stands:
			limit, least = "it slides by itself or is lifted", "H = 0, since it does not stand still by itself"
			b.note("slides", "On this ground, or lifted like this, the machine does not stand still by itself: it is no anchor.", "statics")
		case s.grip <= 0:
			limit = "nothing of its grip is left"
		case s.grip >= s.rated:
			limit = "rated pull"
		}
		w := parts.Let("W = m·g", b.u.Quantity(s.weight, units.Kilonewtons, units.Nearest)).Of("weight")
		b.step("uplift", "Uplift of the rope", "U = T·sin ε", b.u.Quantity(s.uplift, units.Kilonewtons, units.Up), "statics",
			parts.Let("T", b.u.Load(s.tension)).Of("tension of the rope"), parts.Let("ε", b.degrees(s.rope)).Of("rope above level"))
		b.step("grip", "Grip on the ground", "K = (W − U)·tan(arctan μ − α), 0 where it does not stand", b.u.Quantity(s.grip, units.Kilonewtons, units.Down), "statics of a body on a slope under a level pull",
			w, parts.Let("m", b.u.Quantity(s.mass, units.Kilograms, units.Nearest)), parts.Let("μ", units.Significant(s.traction, 3)).Of("traction"), parts.Let("α", b.degrees(s.slope)).Of("slope"), parts.Let("U", b.u.Quantity(s.uplift, units.Kilonewtons, units.Up)))
		b.step("holds", "What it holds", least, b.u.Capacity(s.holds), "the weakest link counts",
			parts.Let("K", b.u.Quantity(s.grip, units.Kilonewtons, units.Down)), parts.Let("", b.u.Capacity(s.rated)).Of("rated pull"))
		b.worked("asked", "Level pull on it", b.u.Load(s.asked), "A = T·cos ε", "statics", parts.Let("T", b.u.Load(s.tension)), parts.Let("ε", b.degrees(s.rope)))
		b.worked("use", "Asked ÷ held", b.Use(rigging.Use(s.asked, s.holds)), "A/H", "proportion", parts.Let("A", b.u.Load(s.asked)), parts.Let("H", b.u.Capacity(s.holds)))
		b.fact("limit", "What limits it", b.Say(limit))
		b.published("range", "Traction is a range for each ground; the low end is offered. Mud, frost, leaves and slash hold less.", rigging.TractionTable()[0].Source)
		b.leftOut("Left out: tipping over, one axle or track bearing more than the other, brakes that do not hold, a blade dug in.")
		b.anchorNote()
	},
	draw: drawMachine,
	curve: func(b *work) curve {
		in := b.in
		return curve{x: "elevation_deg", nameX: "rope above level", nameY: "level pull it holds", dimY: units.Kilonewtons, way: units.Down,
			lines: []curveLine{
				{class: "curve", at: func(x float64) float64 { return machineAt(in, x).holds }},
				{class: "planned", name: "asked of it", at: func(x float64) float64 { return machineAt(in, x).asked }},
			}}
	},
}

type machineState struct {
	mass, traction, slope, rope                        float64 // kg, rad
	tension, rated, weight, uplift, asked, grip, holds float64 // kN
	stands                                             bool    // before anything pulls level
}

// machineAt is the machine of the bench's values with the rope at an
// elevation (degrees).
func machineAt(in map[string]float64, elevation float64) machineState {
	s := machineState{mass: in["mass_kg"], traction: in["traction"], slope: in["slope_deg"] * rigging.Deg, rope: elevation * rigging.Deg,
		tension: in["tension_kN"], rated: in["rated_kN"]}
	s.weight = s.mass * rigging.G / rigging.KN
	sin, cos := math.Sincos(s.rope)
	s.uplift = s.tension * sin
	anchor := rigging.MachineAnchor{Mass: s.mass, Traction: s.traction, Slope: s.slope, Rated: s.rated * rigging.KN}
	asked, holds, err := anchor.Hold(rigging.Vec{X: -s.tension * cos * rigging.KN, Z: s.uplift * rigging.KN})
	if err != nil {
		holds = math.NaN()
	}
	s.stands = anchor.Stands(s.uplift * rigging.KN)
	s.asked, s.holds = asked/rigging.KN, holds/rigging.KN
	s.grip = anchor.Grip(s.uplift*rigging.KN) / rigging.KN
	return s
}

func drawMachine(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(machineState)
	unit := math.Min(c.W/360, c.H/300)
	sin, cos := math.Sincos(s.slope)
	along, out := draw.Pt{X: cos, Y: -sin}, draw.Pt{X: -sin, Y: -cos} // up the ground to the right, and off it
	foot := draw.Pt{X: c.W*0.5 + 40*unit, Y: c.H*0.5 + 52*unit}
	place := func(x, y float64) draw.Pt { return foot.Plus(along.Times(x * unit)).Plus(out.Times(y * unit)) }
	left, right := place(-200, 0), place(100, 0)
	c.Segment("ground", "", left, right)
	c.Polygon("puller", "", place(-48, 14), place(48, 14), place(48, 34), place(34, 34), place(30, 58), place(0, 58), place(-4, 34), place(-48, 34))
	for _, x := range []float64{-28, 28} {
		c.Circle("block", "", place(x, 13), 13*unit)
	}
	for x := -40.0; x <= 40; x += 20 {
		c.Keep(draw.Around(place(x, 24), 14*unit))
	}
	hitch := place(-48, 22)
	rope := draw.Pt{X: -math.Cos(s.rope), Y: -math.Sin(s.rope)}
	tip := hitch.Plus(rope.Times(128 * unit))
	// Forces to one scale.
	scale := 84 * unit / max(s.weight, s.tension)
	c.Segment("rope", "", hitch, tip)
	c.Arrow("force", "", hitch, hitch.Plus(rope.Times(s.tension*scale)))
	clear := rope.Left() // of the machine's cab, and of the angle where there is room
	if s.rope < 40*rigging.Deg {
		clear = clear.Times(-1)
	}
	level := hitch.Minus(draw.Pt{X: 96 * unit, Y: 0})
	c.Segment("plumb", "", hitch, level)
	c.AngleMark(hitch, rope, draw.Pt{X: -1, Y: 0}, 78*unit, "ε = "+b.degrees(s.rope))
	c.Along("label-force", "T = "+b.u.Load(s.tension), hitch, tip, clear, draw.PrioMust)
	centre := place(4, 34)
	weight := centre.Plus(draw.Pt{X: 0, Y: s.weight * scale})
	c.Arrow("weight", "", centre, weight)
	c.Label(draw.Label{Text: "W = " + b.u.Quantity(s.weight, units.Kilonewtons, units.Nearest), Class: "label-force", At: weight, Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioForce})
	from := place(16, -12)
	to := from.Plus(along.Times(60 * unit))
	if !b.hidden && s.holds*scale > 1 {
		to = from.Plus(along.Times(s.holds * scale))
		c.Arrow("load", "", from, to)
	}
	c.Label(draw.Label{Text: "H = " + b.secret(b.u.Capacity(s.holds)), Class: "label-force", At: to, Toward: draw.Pt{X: 1, Y: 0.5}, Prio: draw.PrioMust})
	flat := draw.Pt{X: left.X + 96*unit, Y: left.Y}
	if s.slope != 0 {
		c.Segment("plumb", "", left, flat)
		c.AngleMark(left, along, draw.Pt{X: 1, Y: 0}, 84*unit, "α = "+b.degrees(s.slope))
	} else {
		c.Label(draw.Label{Text: "α = 0°", Class: "label", At: place(-130, 0), Toward: draw.Pt{X: 0, Y: 1}, Prio: draw.PrioAngle})
	}
	b.grab(c, "rope", b.Say("Rope, %s above level", b.degrees(s.rope)), tip, "", "elevation_deg", func(p draw.Pt) {
		d := p.Minus(hitch)
		b.set("elevation_deg", math.Atan2(-d.Y, -d.X)/rigging.Deg, false)
	})
	b.grab(c, "slope", b.Say("Slope of the ground, %s", b.degrees(s.slope)), right, "", "slope_deg", func(p draw.Pt) {
		d := p.Minus(foot)
		b.set("slope_deg", math.Atan2(-d.Y, d.X)/rigging.Deg, false)
	})
	return b.Say("A machine as an anchor"), b.Say("Seen from the side: a machine of %s on ground with a slope of %s is pulled with %s by a rope %s above level. It holds a level pull of %s.", b.u.Quantity(s.mass, units.Kilograms, units.Nearest), b.degrees(s.slope), b.u.Load(s.tension), b.degrees(s.rope), b.secret(b.u.Capacity(s.holds)))
}
