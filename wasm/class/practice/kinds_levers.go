package practice

import (
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Questions on levers: what turns the tree and what holds it.

// lever makes up a straight line from the stem to the ground and gives its
// forward lever (m): its moment about the hinge per unit of tension.
func (q *ask) lever() (h, d, lever float64) {
	h, d = q.some(units.Metres, 6, 16, 2), q.some(units.Metres, 12, 40, 4)
	q.give("h", h, units.Metres, "height of the rope on the stem above the {hinge}")
	q.give("d", d, units.Metres, "level distance to where it is pulled from, at {hinge} height")
	st, err := rigging.Line{Path: []rigging.Station{rigging.StemStation(rigging.Tree{}, 0, h, 1), {At: rigging.Vec{X: d}}}}.At(0)
	q.unfit = q.unfit || err != nil
	return h, d, st.Forward
}

// stepLever is the working of lever.
func (q *ask) stepLever(h, d, lever float64) {
	length := math.Hypot(h, d)
	q.step("Length of the rope", "L = √(h² + d²)", q.figure(length, units.Metres), "Pythagoras", q.let("h", h, units.Metres), q.let("d", d, units.Metres))
	q.step("Lever of the rope about the {hinge}", "k = h·d/L", q.figure(lever, units.Metres), statics, q.let("h", h, units.Metres), q.let("d", d, units.Metres), parts.Let("L", q.figure(length, units.Metres)))
}

func askLineMoment(q *ask) {
	t := q.some(units.Kilonewtons, 10, 40, 5)
	q.give("T", t, units.Kilonewtons, "tension of the rope")
	h, d, lever := q.lever()
	q.asks("What moment does the {pull line} put on the stem about the {hinge}?")
	q.wants(t*lever, units.KilonewtonMetres, marking.Fairly)
	q.slip(2, t*h, "That treats the rope as level. It slopes down: only its level part turns the stem.")
	q.slip(2, t*h*lever/d, "Sine in place of cosine: the level part of the tension is T·d/L.")
	q.slip(2, t*d, "That uses the distance as the lever.")
	q.slip(2, t*math.Hypot(h, d), "That uses the rope length as the lever.")
	q.stepLever(h, d, lever)
	q.step("Moment", "M = T·k", q.figure(q.want.Value, units.KilonewtonMetres), statics, q.let("T", t, units.Kilonewtons), parts.Let("k", q.figure(lever, units.Metres)))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLine(c, h, d, q.let("h", h, units.Metres).String(), q.let("d", d, units.Metres).String(), "", q.let("T", t, units.Kilonewtons).String())
	}
}

// mass makes up the mass of a tree. It gives its weight in kN, and what one
// comes to who mistakes one for the other, with what to say to it.
func (q *ask) mass(low, high, step float64) (weight, mistaken float64, says words.Text, text parts.Value) {
	m := q.some(units.Kilograms, low, high, step)
	q.give("m", m, units.Kilograms, "mass of the tree above the {hinge}")
	weight, mistaken, says = kilo(m*rigging.G), m/1000, sayMass
	switch q.u {
	case &units.US:
		mistaken, says = weight*rigging.G/rigging.Foot, "That multiplies by g. A pound weighs a pound-force as it is."
	case &units.TF:
		mistaken, says = weight*rigging.G, "That multiplies by g. A tonne weighs a tonne-force as it is."
	}
	return weight, mistaken, says, q.let("m", m, units.Kilograms)
}

func (q *ask) stepWeight(weight float64, mass parts.Value) {
	switch q.u {
	case &units.US:
		q.step("Weight", "a pound weighs a pound-force", q.figure(weight, units.Kilonewtons), statics, mass)
	case &units.TF:
		q.step("Weight", "1000 kg weigh a tonne-force", q.figure(weight, units.Kilonewtons), statics, mass)
	default:
		q.step("Weight", "W = m·g", q.figure(weight, units.Kilonewtons), statics, mass, parts.Let("g", "9.81 m/s²"))
	}
}

func askWeightMoment(q *ask) {
	w, mistaken, says, mass := q.mass(1000, 9000, 500)
	x := q.oneOf(0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.2) * roundIn(q.u, units.Metres)
	x = q.u.Units[units.Metres].ToFile(units.RoundDigits(x, units.ShownDigits))
	z := q.some(units.Metres, 8, 14, 1)
	q.give("x", x, units.Metres, "level distance of its {centre} of mass behind the {hinge}")
	q.give("z", z, units.Metres, "height of its {centre} of mass")
	q.asks("The tree leans back. What moment of its weight must the pull overcome at the {hinge}?")
	q.wants(w*x, units.KilonewtonMetres, marking.Fairly)
	q.slip(1, mistaken*x, says)
	q.slip(2, w*z, "That uses the height of the mass {centre}. Weight acts straight down, so its lever is the level distance.")
	q.stepWeight(w, mass)
	q.step("Moment", "M = W·x", q.figure(q.want.Value, units.KilonewtonMetres), statics, parts.Let("W", q.figure(w, units.Kilonewtons)), q.let("x", x, units.Metres))
}

func askLeanOffset(q *ask) {
	lean := q.some(units.Degrees, 3, 14, 1)
	z := q.some(units.Metres, 8, 16, 1)
	q.give("λ", lean, units.Degrees, "{lean} from vertical, straight back")
	q.give("z", z, units.Metres, "height of the {centre} of mass along the stem, from the {hinge}")
	q.asks("How far behind the {hinge} is the {centre} of mass, level?")
	axis := rigging.Tree{Lean: rad(lean)}.Axis()
	q.wants(z*axis.X, units.Metres, marking.Fairly)
	q.slip(1, z*axis.Z, sayCosine)
	q.slip(1, z*math.Abs(math.Sin(lean)), sayRadians)
	q.slip(1, z*axis.X/2, "Half the angle: here the whole {lean} counts.")
	q.slip(1, z*lean/100, "That takes degrees as percent.")
	q.step("Level distance", "x = z·sin λ", q.figure(q.want.Value, units.Metres), statics, q.let("z", z, units.Metres), q.let("λ", lean, units.Degrees))
	q.draw = func(c *draw.Canvas) (string, string) { return q.sketchLean(c, lean, z) }
}

func askHingeMoment(q *ask) {
	b, t := q.some(units.Centimetres, 30, 70, 5), q.some(units.Centimetres, 4, 9, 1)
	strength := q.some(units.Megapascals, 30, 60, 5)
	q.give("b", b, units.Centimetres, "length of the {hinge}")
	q.give("t", t, units.Centimetres, "its thickness, even")
	q.give("σ", strength, units.Megapascals, "bending strength of the green wood")
	q.give("κ", rigging.HingePlastic, units.Plain, "shape factor, for wood that keeps bending after it yields")
	q.asks("With what moment does the {hinge} resist the pull once its wood yields?")
	strip := rigging.Hinge{Length: b * rigging.CM, Left: t * rigging.CM, Right: t * rigging.CM}
	m := strip.Moment(rigging.HingePlastic, strength*rigging.MPa) / rigging.KNm
	thick := t * rigging.CM
	q.wants(m, units.KilonewtonMetres, marking.Fairly)
	q.slip(1, m/thick, "Thickness counted once: it counts squared.")
	q.slip(1, m/rigging.HingePlastic, "That leaves κ out: it is the moment before the wood yields.")
	q.slip(1, m*2, "Twice too much: the divisor is 6.")
	q.slip(1, m*6, "That leaves the divisor 6 out.")
	q.slip(1, m*b/t, "That squares the length: it is the thickness that counts squared.")
	q.slip(1, m*10, "That is out by 10: bring centimetres to metres before squaring.")
	system := words.Text("1 MPa·cm³ = 1 N·m")
	switch q.u {
	case &units.TF:
		system = "9807 MPa·cm³ = 1 tf·m"
	case &units.US:
		system = "12 psi·in³ = 1 ft·lbf"
		q.slip(1, m*12, "That is in inch-pounds: divide by 12 for foot-pounds.")
	}
	q.step("Moment of the {hinge}", "M = κ·σ·b·t²/6", q.figure(m, units.KilonewtonMetres), "beam theory",
		q.let("κ", rigging.HingePlastic, units.Plain), q.let("σ", strength, units.Megapascals), q.let("b", b, units.Centimetres), q.let("t", t, units.Centimetres), parts.Let("", q.Say(system)))
}

func askPullNeeded(q *ask) {
	w, mistaken, says, mass := q.mass(1500, 8000, 500)
	x := q.u.Units[units.Metres].ToFile(units.RoundDigits(q.oneOf(0.3, 0.4, 0.5, 0.6, 0.8, 1)*roundIn(q.u, units.Metres), units.ShownDigits))
	q.give("x", x, units.Metres, "level distance of its {centre} of mass behind the {hinge}")
	m := q.some(units.KilonewtonMetres, 5, 30, 5)
	q.give("M", m, units.KilonewtonMetres, "resisting moment of the {hinge}")
	h, d, lever := q.lever()
	q.asks("What tension in the {pull line} just starts the tree over?")
	q.wants((w*x+m)/lever, units.Kilonewtons, marking.Fairly)
	q.slip(1, (mistaken*x+m)/lever, says)
	q.slip(2, w*x/lever, "That leaves the {hinge} out: it must be bent as well.")
	q.slip(4, (w*x+m)/h, "That treats the rope as level. It slopes down, so it needs more.")
	q.slip(4, (w*x+m)*d/(h*lever), "Sine in place of cosine: the lever is h·d/L.")
	q.slip(2, math.Abs(w*x-m)/lever, "That subtracts the {hinge}. It works against the pull, as the weight does.")
	q.slip(4, (w*x+m)/d, "That uses the distance as the lever.")
	q.stepWeight(w, mass)
	q.step("Moment to overcome", "M₀ = W·x + M", q.figure(w*x+m, units.KilonewtonMetres), statics, parts.Let("W", q.figure(w, units.Kilonewtons)), q.let("x", x, units.Metres), q.let("M", m, units.KilonewtonMetres))
	q.stepLever(h, d, lever)
	q.step("Tension needed", "T = M₀/k", q.figure(q.want.Value, units.Kilonewtons), statics, parts.Let("M₀", q.figure(w*x+m, units.KilonewtonMetres)), parts.Let("k", q.figure(lever, units.Metres)))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLine(c, h, d, q.let("h", h, units.Metres).String(), q.let("d", d, units.Metres).String(), "", "T")
	}
}

func askHingeTwice(q *ask) {
	n := 2 + q.below(2)
	part := q.below(2)
	thin := rigging.Hinge{Length: 0.5, Left: 0.05, Right: 0.05}
	other := thin
	if part == 0 {
		other.Left *= float64(n)
		other.Right *= float64(n)
		q.asks([...]words.Text{"The {hinge} is cut twice as thick. How much does it then resist the pull?", "The {hinge} is cut three times as thick. How much does it then resist the pull?"}[n-2])
	} else {
		other.Length *= float64(n)
		q.asks([...]words.Text{"The {hinge} is cut twice as long, at the same thickness. How much does it then resist the pull?", "The {hinge} is cut three times as long, at the same thickness. How much does it then resist the pull?"}[n-2])
	}
	times := int(math.Round(other.Moment(1, 1) / thin.Moment(1, 1)))
	all := []int{n, n * n, n * n * n, 1}
	labels, whys := []string{}, []string{}
	why := q.Say("Thickness counts squared, length once: M = κ·σ·b·t²/6.")
	add := func(k int) {
		label := q.Count(k, "the same", "%s times as much")
		labels, whys = append(labels, label), append(whys, why)
	}
	add(times)
	for _, k := range all {
		if k != times {
			add(k)
		}
	}
	q.choose(labels, whys)
	letter := [...]string{"t", "b"}[part]
	q.step("Moment of the {hinge}", "M = κ·σ·b·t²/6", labels[0], "beam theory", parts.Let("", q.Say("%s becomes %s", letter, strconv.Itoa(n)+"·"+letter)))
}
