package rigging

import "math"

// A Hinge is the strip of wood left between the face cut and the back cut,
// along the hinge axis: its thickness runs in a straight line from Left to
// Right.
type Hinge struct {
	Length      float64 // m
	Left, Right float64 // m, thickness at its ends
}

// Shape factors κ for the bending of the hinge: a rectangle that has gone
// fully plastic resists 1.5 times what it does when its outer fibres first
// yield (M = σbt²/4 against σbt²/6, beam theory). The high one sizes the
// pull; the low one is for what the hinge is relied on to hold.
const (
	HingePlastic = 1.5
	HingeElastic = 1.0
)

// Moment is what the strip resists when bent over its thickness, N·m:
// κ·σ·b·(tL² + tL·tR + tR²)/18, the integral of σt²/6 along a strip that
// tapers in a straight line. For tL = tR it is κσbt²/6 (beam theory).
func (h Hinge) Moment(kappa, strength float64) float64 {
	return kappa * strength * h.Length * (h.Left*h.Left + h.Left*h.Right + h.Right*h.Right) / 18
}

// SideStress is the greatest bending tension (Pa) in the strip as a beam on
// edge under a side moment (N·m, positive toward the left), elastic, about
// its own centroid, at the end away from the side it wants to go. A cavity
// of diameter c (m) in its middle leaves (b − c)/b of the second moment of
// area. With nothing left the stress is infinite. Beam theory.
func (h Hinge) SideStress(moment, cavity float64) float64 {
	if moment == 0 {
		return 0
	}
	b, sum := h.Length, h.Left+h.Right
	centroid := b * (h.Left - h.Right) / (6 * sum) // toward the left
	second := sum/2*b*b*b/12 - sum/2*b*centroid*centroid
	second *= math.Max(0, (b-cavity)/b)
	edge := b/2 + centroid // to the right end, in tension when it wants to go left
	if moment < 0 {
		edge = b/2 - centroid
	}
	if !(second > 0) {
		return math.Inf(1)
	}
	return math.Abs(moment) * edge / second
}
