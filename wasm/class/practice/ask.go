package practice

import (
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
	text  string // said
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
func (q *ask) give(letter string, v float64, dim units.Dimension, name words.Text, args ...string) {
	q.given = append(q.given, q.Say("%s, %s", q.let(letter, v, dim).String(), q.Say(name, args...)))
}

// tell puts a sentence into what is given.
func (q *ask) tell(t words.Text, args ...string) { q.given = append(q.given, q.Say(t, args...)) }

// asks is the question itself.
func (q *ask) asks(t words.Text) { q.text = q.Say(t) }

// let is a number of the working: "T = 12 kN".
func (q *ask) let(letter string, v float64, dim units.Dimension) parts.Value {
	return parts.Let(letter, q.exact(v, dim))
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
func (q *ask) step(name, formula words.Text, result string, source words.Text, values ...parts.Value) {
	q.stepAs(q.Say(name), q.Say(formula), result, q.Say(source), values...)
}

// stepAs is step with texts that depend on the numbers.
func (q *ask) stepAs(name, formula, result, source string, values ...parts.Value) {
	s := parts.Step{Name: name, Formula: formula, Values: make([]string, len(values)), Result: result, Source: source}
	for i, v := range values {
		s.Values[i] = v.In(q.Locale)
	}
	q.steps = append(q.steps, s)
}

// tellApart leaves out the mistakes whose numbers count as right, or as
// another mistake that was named before.
func (q *ask) tellApart() {
	slips, at := q.want.Slips[:0], q.parts[:0]
	for i, s := range q.want.Slips {
		ok := draw.Finite(s.Value) && marking.Apart(s.Value, q.want.Value, q.want.Tolerance)
		for _, before := range slips {
			ok = ok && marking.Apart(s.Value, before.Value, q.want.Tolerance)
		}
		if ok {
			slips, at = append(slips, s), append(at, q.parts[i])
		}
	}
	q.want.Slips, q.parts = slips, at
}

// choose makes the question a choice among what was said. The right one comes first and is
// shuffled among the others.
func (q *ask) choose(labels, whys []string) {
	for i, k := range q.shuffled(len(labels)) {
		value := string(rune('a' + i))
		q.options = append(q.options, parts.Option{Value: value, Label: labels[k]})
		q.whys = append(q.whys, whys[k])
		if k == 0 {
			q.right = value
		}
	}
}

// What is said of the mistakes that many questions know.
const (
	sayWhole    words.Text = "The cosine is of half the angle between the legs, not the whole."
	saySine     words.Text = "Sine in place of cosine."
	sayCosine   words.Text = "Cosine in place of sine."
	sayRadians  words.Text = "The calculator is set to radians: set it to degrees."
	sayNumbers  words.Text = "That adds the pulls as numbers. They pull in different directions: add them as arrows."
	sayFriction words.Text = "Friction is left out."
	// Of what may arrive, where friction is not to be counted on.
	sayCountedOn words.Text = "That relies on friction to spare the gear. A sheave may run freer than you think, so the most is worked out without."
	sayMass      words.Text = "That takes mass for force. A tonne weighs 9.81 kN: multiply by g first."
	sayOneLeg    words.Text = "That is one leg. There are two."
	sayHalf      words.Text = "That halves the pull as if both legs lay along it. At an angle, each carries more."
)

const (
	parallelogram words.Text = "parallelogram of forces"
	statics       words.Text = "statics"
)

// kilo is a force in N in the unit of the file.
func kilo(newtons float64) float64 { return newtons / rigging.KN }
