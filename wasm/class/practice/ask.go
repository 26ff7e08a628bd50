package practice

import (
	"strings"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// An ask is a question being made up.
type ask struct {
	words.Locale // in whose words it is told
	u            *units.System
	dice
	text  string
	given []string
	want  marking.Wanted
	parts []int // per slip, the step it parts ways at, counted from 1
	// Of a choice: what there is to choose from, the value of the right one,
	// and what to say when each is chosen.
	options []parts.Option
	right   string
	whys    []string
	steps   []parts.Step
	draw    func(c *draw.Canvas) (title, desc string)
	unfit   bool // these numbers make no question
	also    *ask // asked of the same set-up after this one
	follows bool // it is such a one
}

// roundIn is how many of the user's units stand for one of the file's in made
// up numbers: near the true one, and round.
func roundIn(u *units.System, dim units.Dimension) float64 {
	switch {
	case u == &units.TF && (dim == units.Kilonewtons || dim == units.KilonewtonMetres):
		return 0.1
	case u != &units.US:
		return 1
	}
	switch dim {
	case units.Kilonewtons:
		return 200
	case units.KilonewtonMetres:
		return 700
	case units.Kilograms:
		return 2
	case units.Metres:
		return 3
	case units.Centimetres:
		return 0.4
	case units.Megapascals:
		return 150
	}
	return 1
}

// some makes up a number from low to high in steps, all in the file's unit,
// that is round in the user's.
func (q *ask) some(dim units.Dimension, low, high, step float64) float64 {
	n := int((high-low)/step+0.5) + 1
	v := (low + step*float64(q.below(n))) * roundIn(q.u, dim)
	return q.u.Units[dim].ToFile(units.RoundDigits(v, units.ShownDigits))
}

// oneOf makes up a number out of a list.
func (q *ask) oneOf(list ...float64) float64 { return list[q.below(len(list))] }

// exact writes a number as it was made up.
func (q *ask) exact(v float64, dim units.Dimension) string {
	return units.Grouped(q.u.Field(v, dim, units.Nearest)) + q.u.Suffix(dim)
}

// figure writes a number of the working to three digits.
func (q *ask) figure(v float64, dim units.Dimension) string { return q.u.Figure(v, dim) }

// give puts a number into what is given: "T = 12 kN, tension of the rope".
func (q *ask) give(letter string, v float64, dim units.Dimension, name string) {
	q.given = append(q.given, letter+" = "+q.exact(v, dim)+", "+q.Words(name))
}

// let is a number of the working: "T = 12 kN".
func (q *ask) let(letter string, v float64, dim units.Dimension) string {
	return letter + " = " + q.exact(v, dim)
}

// wants says what is asked for.
func (q *ask) wants(v float64, dim units.Dimension, tolerance float64) {
	q.want = marking.Wanted{Value: v, Dim: dim, Tolerance: tolerance}
}

// slip adds a common mistake that parts ways at a step.
func (q *ask) slip(step int, v float64, says words.Text) {
	q.want.Slips = append(q.want.Slips, marking.Slip{Value: v, Says: says})
	q.parts = append(q.parts, step)
}

// step adds a step of the solution.
func (q *ask) step(name, formula, result, source string, values ...string) {
	if values == nil {
		values = []string{}
	}
	q.steps = append(q.steps, parts.Step{Name: q.Words(name), Formula: formula, Values: values, Result: result, Source: source})
}

// tellApart leaves out the mistakes whose numbers count as right, or as
// another mistake that was named before.
func (q *ask) tellApart() {
	slips, parts := q.want.Slips[:0], q.parts[:0]
	for i, s := range q.want.Slips {
		ok := draw.Finite(s.Value) && marking.Apart(s.Value, q.want.Value, q.want.Tolerance)
		for _, before := range slips {
			ok = ok && marking.Apart(s.Value, before.Value, q.want.Tolerance)
		}
		if ok {
			slips, parts = append(slips, s), append(parts, q.parts[i])
		}
	}
	q.want.Slips, q.parts = slips, parts
}

// choose makes the question a choice. The right one comes first and is
// shuffled among the others.
func (q *ask) choose(labels, whys []string) {
	for i, k := range q.shuffled(len(labels)) {
		value := string(rune('a' + i))
		q.options = append(q.options, parts.Option{Value: value, Label: q.Words(labels[k])})
		q.whys = append(q.whys, whys[k])
		if k == 0 {
			q.right = value
		}
	}
}

// What is said of the mistakes that many questions know.
const (
	sayWhole    = "That is with the whole angle in the cosine: it is half the angle between the legs that counts."
	saySine     = "That is with the sine where the cosine belongs."
	sayCosine   = "That is with the cosine where the sine belongs."
	sayRadians  = "That is with the angle taken for radians: set the calculator to degrees."
	sayNumbers  = "That adds the pulls as numbers. They pull different ways: they add as arrows do."
	sayFriction = "That is without friction."
	// Of what may arrive, where friction is not to be counted on.
	sayCountedOn = "That counts on friction to spare the gear. A sheave may run freer than you think, so at most is worked out without."
	sayMass      = "That takes the mass for a force. A tonne weighs 9.81 kN: times g first."
	sayOneLeg    = "That is what one leg does. There are two."
	sayHalf      = "That halves the pull as if both legs lay along it. They lie at an angle, so each carries more."
)

const (
	parallelogram = "parallelogram of forces"
	statics       = "statics"
)

// kilo is a force in N in the unit of the file.
func kilo(newtons float64) float64 { return newtons / rigging.KN }

// plural is a number with a word for one or more of it.
func plural(n int, word string) string {
	text := units.Decimal(float64(n), 0) + " " + word
	if n != 1 && !strings.HasSuffix(word, "s") {
		text += "s"
	}
	return text
}
