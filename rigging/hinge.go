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
//
// A bending strength from tests is worked out as if the wood broke elastic, so
// it holds the plastic part already and the high factor counts it twice:
// cautious for the pull.
const (
	HingePlastic = 1.5
	HingeElastic = 1.0
)

// HingeReliedOn is the part of the mean bending strength that is counted on
// where the hinge has to hold: the mean less 1.65 standard deviations, which 19
// of 20 pieces reach, at a scatter of 16 % (derived from the standard deviations
// of green clear wood printed in ASTM D2555).
const HingeReliedOn = 0.74

// Moment is what the strip resists when bent over its thickness, N·m:
// κ·σ·b·(tL² + tL·tR + tR²)/18, the integral of σt²/6 along a strip that
// tapers in a straight line. For tL = tR it is κσbt²/6 (beam theory).
func (h Hinge) Moment(kappa, strength float64) float64 {
	return kappa * strength * h.Length * (h.Left*h.Left + h.Left*h.Right + h.Right*h.Right) / 18
}

// SideSection is the strip as a beam on edge: the second moment of area (m⁴)
// about its own centroid, and how far (m) that lies left of the middle. A
// cavity of diameter c (m) in its middle leaves (b − c)/b of the second moment.
// Beam theory.
func (h Hinge) SideSection(cavity float64) (second, centroid float64) {
	b, sum := h.Length, h.Left+h.Right
	centroid = b * (h.Left - h.Right) / (6 * sum)
	second = sum/2*b*b*b/12 - sum/2*b*centroid*centroid
	return second * math.Max(0, (b-cavity)/b), centroid
}

// SideStress is the greatest bending tension (Pa) in the strip as a beam on
// edge under a side moment (N·m, positive toward the left), elastic, at the
// end away from the side it wants to go. With nothing left of the strip the
// stress is infinite. Beam theory.
func (h Hinge) SideStress(moment, cavity float64) float64 {
	if moment == 0 {
		return 0
	}
	second, edge := h.SideSection(cavity)
	if moment < 0 {
		edge = -edge
	}
	edge += h.Length / 2 // to the right end, in tension when it wants to go left
	if !(second > 0) {
		return math.Inf(1)
	}
	return math.Abs(moment) * edge / second
}
