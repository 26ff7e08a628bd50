package rigging

import "math"

// Sag is how a leg of rope hangs.
type Sag struct {
	Mid      float64 // m, plumb distance from chord to rope at mid-span
	EndAngle float64 // rad, the larger change of angle at an end against the chord
}

// What is taken for the stiffness EA of a rope that gives none, over its
// breaking load, and for a breaking load that is not given, over the working load
// limit. High on purpose: a stiffer line loads up more where it is stretched.
// From memory.
const (
	WireStiffness     = 70.0 // wire rope and chain
	FibreStiffness    = 30.0
	BreakingOverLimit = 5.0
)

// SagCounts: where a line weighs more than its tension over this, its sag is
// no longer small beside the angles of a plan. Common practice, no source.
const SagCounts = 20

// Catenary gives the sag of a leg with its chord from end to end, of a rope
// of mass per metre (kg/m), at a tension (N) along the chord. The level part
// of that tension is the catenary's constant pull H; with c = H/(mass·g) and
// the curve y = c·cosh(x/c) (any statics text; checked against Baker &
// Haynes, Engineering Statics). A plumb leg does not sag. NaN for a tension
// or a mass that is not above 0.
func Catenary(chord Vec, massPerMetre, tension float64) Sag {
	if !(massPerMetre > 0) || !(tension > 0) {
		return Sag{math.NaN(), math.NaN()}
	}
	span := chord.Horizontal()
	if span < shortestLeg {
		return Sag{}
	}
	c := tension * span / chord.Norm() / (massPerMetre * G)
	half := span / (2 * c)
	mid := math.Asinh(chord.Z / (2 * c * math.Sinh(half)))
	// cosh(half) − 1 by the half-angle form, which keeps its digits for a
	// taut rope.
	s := math.Sinh(half / 2)
	straight := chord.Elevation()
	low := straight - math.Atan(math.Sinh(mid-half))
	high := math.Atan(math.Sinh(mid+half)) - straight
	return Sag{Mid: c * math.Cosh(mid) * 2 * s * s, EndAngle: math.Max(low, high)}
}

// TensionForSag is the tension (N) along the chord at which a leg sags so much
// (m) at mid-span, the inverse of Catenary: what a rope's sag tells of its
// tension. Found by halving, to a part in 10⁹. NaN for a plumb leg and where
// mass or sag is not finite and above 0.
func TensionForSag(chord Vec, massPerMetre, sag float64) float64 {
	low := massPerMetre * G * chord.Norm() * chord.Norm() / (8 * sag) // the parabola's
	if !(massPerMetre > 0 && sag > 0 && chord.Horizontal() >= shortestLeg) || math.IsInf(low, 0) || low == 0 {
		return math.NaN()
	}
	high := low
	for Catenary(chord, massPerMetre, low).Mid < sag {
		high, low = low, low/2
	}
	for Catenary(chord, massPerMetre, high).Mid > sag {
		low, high = high, 2*high
	}
	for high-low > 1e-9*high {
		if mid := (low + high) / 2; Catenary(chord, massPerMetre, mid).Mid > sag {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// Stretch is T·L/(EA) in m of a leg of length L (m) at a tension (N) for a
// stiffness EA (N). Hooke's law.
func Stretch(tension, length, stiffness float64) float64 {
	if !(stiffness > 0) {
		return math.NaN()
	}
	return tension * length / stiffness
}

// StoredEnergy is T²L/(2EA) in J: half the tension times the stretch.
func StoredEnergy(tension, length, stiffness float64) float64 {
	return tension * Stretch(tension, length, stiffness) / 2
}
