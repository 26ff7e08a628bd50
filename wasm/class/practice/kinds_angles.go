package practice

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Questions on angles: factors read off an angle, and forces added as arrows.

// legs gives an angle between two legs, and its half and its cosines for the
// working and the slips.
func (q *ask) legs(low, high float64, of words.Text) (angle, half float64) {
	angle = q.some(units.Degrees, low, high, 10)
	q.give("γ", angle, units.Degrees, of)
	return angle, angle / 2
}

func (q *ask) halve(angle float64) {
	q.step("Half the angle", "γ/2", q.exact(angle/2, units.Degrees), "", q.let("γ", angle, units.Degrees))
}

func askRedirectFactor(q *ask) {
	angle, half := q.legs(20, 150, "angle between the two legs of the rope")
	q.asks("A rope runs over a {block} without friction. How many times the tension of the rope does the {block} carry?")
	q.wants(rigging.BlockLoad(1, 1, rad(angle)), units.Plain, marking.Closely)
	q.slip(1, 2*math.Cos(rad(angle)), sayWhole)
	q.slip(2, 2*math.Sin(rad(half)), saySine)
	q.slip(2, math.Cos(rad(half)), sayOneLeg)
	q.slip(2, 2, sayNumbers)
	q.slip(2, 2*math.Cos(half), sayRadians)
	q.halve(angle)
	q.step("Factor on the {block}", "k = 2·cos(γ/2)", q.figure(q.want.Value, units.Plain), parallelogram, q.let("γ/2", half, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLegs(c, angle, 1, "T", "T", "k·T", false)
	}
}

func askLegShare(q *ask) {
	angle, half := q.legs(40, 150, "angle between the two legs")
	q.asks("Two equal legs share a pull that lies midway between them. What does each leg carry, as a factor on the pull?")
	q.wants(rigging.SlingAngleFactor(math.Pi/2-rad(half))/2, units.Plain, marking.Closely)
	q.slip(2, 0.5, sayHalf)
	q.slip(1, 0.5/math.Cos(rad(angle)), sayWhole)
	q.slip(2, 0.5/math.Sin(rad(half)), saySine)
	q.slip(2, 1/math.Cos(rad(half)), sayOneLeg)
	q.slip(2, 0.5/math.Cos(half), sayRadians)
	q.halve(angle)
	q.step("Factor on each leg", "k = 1/(2·cos(γ/2))", q.figure(q.want.Value, units.Plain), parallelogram, q.let("γ/2", half, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLegs(c, angle, 1, "k·F", "k·F", "F", true)
	}
}

func askBasketFactor(q *ask) {
	angle, half := q.legs(20, 120, "angle between the two legs of the {strop}")
	q.asks("A {strop} is laid round a stem as a basket, both eyes in the hook. How many times its straight-pull limit may it carry?")
	q.wants(rigging.BasketFactor(rad(angle)), units.Plain, marking.Closely)
	q.slip(2, 2, "True only if both legs lie side by side.")
	q.slip(1, 2*math.Cos(rad(angle)), sayWhole)
	q.slip(2, 2*math.Sin(rad(half)), saySine)
	q.slip(2, math.Cos(rad(half)), sayOneLeg)
	q.slip(2, 2*math.Cos(half), sayRadians)
	q.halve(angle)
	q.step("Basket factor", "k = 2·cos(γ/2)", q.figure(q.want.Value, units.Plain), statics, q.let("γ/2", half, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLegs(c, angle, 1, "", "", "", true)
	}
}

// levelAndUp are the level and the plumb part of a tension of 1 in a rope
// that rises at an angle.
func levelAndUp(angle float64) (level, up float64) {
	v := rigging.Vec{X: 1}.Turned(rad(angle))
	return v.X, math.Abs(v.Z)
}

func askLevelShare(q *ask) {
	angle := q.some(units.Degrees, 15, 60, 5)
	q.give("α", angle, units.Degrees, "slope of the rope above level")
	q.asks("A {pull line} comes down from the stem. What part of its tension pulls level, as a factor?")
	level, up := levelAndUp(angle)
	q.wants(level, units.Plain, marking.Closely)
	q.slip(1, up, saySine)
	q.slip(1, up/level, "Tangent in place of cosine: the tension acts along the rope.")
	q.slip(1, 1, "That takes the whole tension: part of it only presses the stem down.")
	q.slip(1, math.Cos(angle), sayRadians)
	q.step("Level part", "k = cos α", q.figure(level, units.Plain), statics, q.let("α", angle, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLine(c, math.Tan(rad(angle)), 1, "", "", "α = "+q.exact(angle, units.Degrees), "T")
	}
}

func askNarrowest(q *ask) {
	angles := []float64{q.some(units.Degrees, 10, 50, 10), q.some(units.Degrees, 60, 90, 10), q.some(units.Degrees, 100, 130, 10), q.some(units.Degrees, 140, 170, 10)}
	q.asks("The same rope, under the same tension, turns at four {block}s. At which angle between its legs is the {block} loaded most?")
	var labels, whys []string
	for _, a := range angles {
		labels = append(labels, q.exact(a, units.Degrees))
		whys = append(whys, q.Say("At %s the {block} carries %s times the tension: the narrower the angle, the more.", q.exact(a, units.Degrees), q.figure(rigging.BlockLoad(1, 1, rad(a)), units.Plain)))
	}
	q.choose(labels, whys)
	for _, a := range angles {
		q.stepAs(q.Say("Factor at %s", q.exact(a, units.Degrees)), "k = 2·cos(γ/2)", q.figure(rigging.BlockLoad(1, 1, rad(a)), units.Plain), q.Say(parallelogram), q.let("γ", a, units.Degrees))
	}
}

func askBlockLoad(q *ask) {
	t := q.some(units.Kilonewtons, 6, 40, 2)
	q.give("T", t, units.Kilonewtons, "tension of the rope")
	angle, half := q.legs(30, 150, "angle between its legs")
	q.asks("A rope runs over the {redirect} without friction. What does the {block} carry?")
	q.wants(rigging.BlockLoad(t, t, rad(angle)), units.Kilonewtons, marking.Fairly)
	q.slip(2, 2*t, sayNumbers)
	q.slip(1, 2*t*math.Cos(rad(angle)), sayWhole)
	q.slip(2, 2*t*math.Sin(rad(half)), saySine)
	q.slip(2, t*math.Cos(rad(half)), sayOneLeg)
	q.slip(2, 2*t*math.Cos(half), sayRadians)
	q.halve(angle)
	q.step("Load on the {block}", "R = 2·T·cos(γ/2)", q.figure(q.want.Value, units.Kilonewtons), parallelogram, q.let("T", t, units.Kilonewtons), q.let("γ/2", half, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLegs(c, angle, 1, q.let("T", t, units.Kilonewtons).String(), "T", "R", false)
	}
}

func askResultant(q *ask) {
	one, two := q.some(units.Kilonewtons, 10, 24, 2), q.some(units.Kilonewtons, 5, 20, 3)
	q.give("F₁", one, units.Kilonewtons, "pull of one rope")
	q.give("F₂", two, units.Kilonewtons, "pull of the other")
	angle, _ := q.legs(40, 140, "angle between them")
	q.asks("Two ropes are made fast to one anchor and pull different ways. What does the anchor carry?")
	q.wants(rigging.BlockLoad(one, two, rad(angle)), units.Kilonewtons, marking.Fairly)
	q.slip(1, one+two, sayNumbers)
	q.slip(1, rigging.BlockLoad(one, two, math.Pi-rad(angle)), "Minus before the cosine. The angle is between the ropes, so it is a plus.")
	q.slip(1, math.Hypot(one, two), "That leaves the angle out, as if it were a right angle.")
	q.slip(1, rigging.BlockLoad(one, two, angle), sayRadians)
	q.slip(1, math.Abs(one-two), "That subtracts one pull from the other, as if they pulled against each other.")
	q.step("Load on the anchor", "R = √(F₁² + F₂² + 2·F₁·F₂·cos γ)", q.figure(q.want.Value, units.Kilonewtons), parallelogram,
		q.let("F₁", one, units.Kilonewtons), q.let("F₂", two, units.Kilonewtons), q.let("γ", angle, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLegs(c, angle, one/two, "F₁", "F₂", "R", false)
	}
}

func askEqualLegs(q *ask) {
	f := q.some(units.Kilonewtons, 10, 60, 5)
	q.give("F", f, units.Kilonewtons, "pull on the ring, midway between the legs")
	angle, half := q.legs(40, 140, "angle between the legs")
	q.asks("Two equal {strop}s from one ring share an anchor load. What does each carry?")
	sin, cos := math.Sincos(rad(half))
	shared, err := rigging.Bridle{Legs: []rigging.Vec{{X: cos, Y: sin}, {X: cos, Y: -sin}}, SelfAdjusting: true}.Share(rigging.Vec{X: -f})
	q.unfit = err != nil
	q.wants(shared.Tension[0], units.Kilonewtons, marking.Fairly)
	q.slip(2, f/2, sayHalf)
	q.slip(1, f/2/math.Cos(rad(angle)), sayWhole)
	q.slip(2, f/2/sin, saySine)
	q.slip(2, f/cos, sayOneLeg)
	q.slip(2, f/2*cos, "That multiplies by the cosine. A leg at an angle carries more than half, so divide by it.")
	q.slip(2, f/2/math.Cos(half), sayRadians)
	q.halve(angle)
	q.step("Tension of each leg", "T = F/(2·cos(γ/2))", q.figure(q.want.Value, units.Kilonewtons), parallelogram, q.let("F", f, units.Kilonewtons), q.let("γ/2", half, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLegs(c, angle, 1, "T", "T", q.let("F", f, units.Kilonewtons).String(), true)
	}
}

func askUnequalLegs(q *ask) {
	f := q.some(units.Kilonewtons, 10, 60, 5)
	one, two := q.some(units.Degrees, 15, 60, 5), q.some(units.Degrees, 15, 60, 5)
	q.unfit = math.Abs(one-two) < 10
	q.give("F", f, units.Kilonewtons, "pull on the ring")
	q.give("α", one, units.Degrees, "angle of the first leg off the line of the pull")
	q.give("β", two, units.Degrees, "angle of the second leg off it, on the other side")
	q.asks("Two legs of fixed length hold a ring. What does the first leg carry?")
	sinA, cosA := math.Sincos(rad(one))
	sinB, cosB := math.Sincos(rad(two))
	shared, err := rigging.Bridle{Legs: []rigging.Vec{{X: cosA, Y: sinA}, {X: cosB, Y: -sinB}}}.Share(rigging.Vec{X: -f})
	q.unfit = q.unfit || err != nil
	q.wants(shared.Tension[0], units.Kilonewtons, marking.Fairly)
	q.slip(1, shared.Tension[1], "That is the other leg. The leg that lies nearer the pull carries more.")
	q.slip(1, f/2, sayHalf)
	q.slip(1, f*cosA, "That is F·cos α, as if there were one leg only.")
	q.slip(1, f*cosB/math.Sin(rad(one+two)), "That is with the cosine of β: across the pull it is the sines that balance.")
	q.slip(1, f*math.Sin(two)/math.Sin(one+two), sayRadians)
	q.step("Tension of the first leg", "T₁ = F·sin β/sin(α + β)", q.figure(q.want.Value, units.Kilonewtons), "equilibrium of the ring (law of sines)",
		q.let("F", f, units.Kilonewtons), q.let("α", one, units.Degrees), q.let("β", two, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchFork(c, one, two, q.let("F", f, units.Kilonewtons).String())
	}
}

func askUplift(q *ask) {
	t := q.some(units.Kilonewtons, 10, 50, 5)
	h, d := q.some(units.Metres, 6, 16, 2), q.some(units.Metres, 12, 36, 4)
	q.give("T", t, units.Kilonewtons, "tension of the rope")
	q.give("h", h, units.Metres, "height of the rope's fastening above the anchor")
	q.give("d", d, units.Metres, "level distance from the stem to the anchor")
	q.asks("A {pull line} runs straight from the stem down to its anchor. With what force does it lift the anchor?")
	leg := rigging.Vec{X: d, Z: h}
	u, err := leg.Unit()
	q.unfit = err != nil
	q.wants(t*u.Z, units.Kilonewtons, marking.Fairly)
	q.slip(2, t*u.X, sayCosine)
	q.slip(2, t*h/d, "That divides by the level distance: it is the length along the rope.")
	q.slip(2, t, "That is the whole tension. Only its upward part lifts.")
	q.step("Length of the rope", "L = √(h² + d²)", q.figure(leg.Norm(), units.Metres), "Pythagoras", q.let("h", h, units.Metres), q.let("d", d, units.Metres))
	q.step("Upward part", "U = T·h/L", q.figure(q.want.Value, units.Kilonewtons), statics, q.let("T", t, units.Kilonewtons), q.let("h", h, units.Metres), parts.Let("L", q.figure(leg.Norm(), units.Metres)))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLine(c, h, d, q.let("h", h, units.Metres).String(), q.let("d", d, units.Metres).String(), "", q.let("T", t, units.Kilonewtons).String())
	}
}
