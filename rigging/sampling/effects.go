package sampling

import "math"

// Effects gathers what each input does to an output: at a base point, and at the
// same point with one input drawn anew, for each input.
//
// Source: M. J. W. Jansen, Analysis of variance designs for model output, Computer
// Physics Communications 117 (1999), recommended by A. Saltelli et al., Variance
// based sensitivity analysis of model output, ibid. 181 (2010); both from memory.
type Effects struct {
	squares   []float64 // of each input, summed
	n         int
	sum, sum2 float64 // of the outputs less the first
	first     float64
	outputs   int
}

// NewEffects is for so many inputs.
func NewEffects(inputs int) *Effects { return &Effects{squares: make([]float64, inputs)} }

// Add takes in the output at a base point and with each input drawn anew. All must
// be finite.
func (e *Effects) Add(base float64, anew []float64) {
	if e.n == 0 {
		e.first = base
	}
	e.n++
	e.output(base)
	for i, v := range anew {
		e.squares[i] += (v - base) * (v - base)
		e.output(v)
	}
}

// output takes one more into the variance; each is a draw of the whole.
func (e *Effects) output(v float64) {
	v -= e.first
	e.sum, e.sum2, e.outputs = e.sum+v, e.sum2+v*v, e.outputs+1
}

// Variance of the output.
func (e *Effects) Variance() float64 {
	n := float64(e.outputs)
	return math.Max(0, e.sum2/n-e.sum/n*(e.sum/n))
}

// Total is each input's total effect: the part of the output's variance that would
// be left if all others were known, alone and with the others together. They add
// up to 1 where the inputs act by themselves, to more where they act on each other.
// 0 for all where the output does not vary.
func (e *Effects) Total() []float64 {
	out, variance := make([]float64, len(e.squares)), e.Variance()
	if !(variance > 0) {
		return out
	}
	for i, s := range e.squares {
		out[i] = s / (2 * float64(e.n) * variance)
	}
	return out
}
