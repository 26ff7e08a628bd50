package rigging

import "math"

// Attitude is how a phone is held, as its browser tells it: beta and gamma
// (rad) of the intrinsic turns about its axes z, x and y, in that order, with
// x to the right of the screen, y along its long edge to the top and z out of
// the screen. Lying on its back it has 0 and 0; stood upright beta is a right
// angle. The first turn, alpha, is about the plumb line and tells no slope.
//
// Source: W3C, Device Orientation and Motion, sections on the deviceorientation
// event and on its worked examples, from memory.
type Attitude struct{ Beta, Gamma float64 }

// up is the plumb line upward in the phone's own axes: the last row of
// Rz(alpha)·Rx(beta)·Ry(gamma).
func (a Attitude) up() (x, y, z float64) {
	sinB, cosB := math.Sincos(a.Beta)
	sinG, cosG := math.Sincos(a.Gamma)
	return -cosB * sinG, sinB, cosB * cosG
}

// A PhoneSight says what of a phone is put along what is measured.
type PhoneSight string

// The sights.
const (
	SightAlongEdge PhoneSight = "edge"   // sighting along the long edge from bottom to top, the phone lying or on its side: the angle above level
	SightByCamera  PhoneSight = "camera" // through the camera on the back: the angle above level
	SightBeside    PhoneSight = "beside" // the long edge along a stem seen beyond the screen: the lean to the right
)

// Angle is what a phone held so measures (rad). Straight up, where a phone's
// own turns run into each other, the angles above level are still right.
// SightBeside is NaN for a phone lying flat, which shows no lean.
func (s PhoneSight) Angle(a Attitude) float64 {
	x, y, z := a.up()
	if math.IsNaN(x + y + z) {
		return math.NaN() // half a reading is none
	}
	switch s {
	case SightAlongEdge:
		return math.Asin(y)
	case SightByCamera: // the camera looks along −z
		return math.Asin(-z)
	case SightBeside:
		if math.Hypot(x, y) > math.Sin(leastUpright) {
			return math.Atan2(-x, y)
		}
	}
	return math.NaN()
}

// leastUpright is the least slope of a screen that still shows a lean.
const leastUpright = 30 * Deg

var phoneReadings = [...]struct {
	sight PhoneSight
	SurveyReading
}{
	{SightAlongEdge, angleReading("phone", "the angle of the phone's long edge", "clinometer", math.Pi/2)},
	{SightByCamera, angleReading("phone", "the angle of the phone's camera", "clinometer", math.Pi/2)},
	{SightBeside, angleReading("phone", "the lean of the phone's long edge", "lean", 60*Deg)},
}

// MeasureIncline is the mean of several sights with a phone, each taken anew:
// MeasureMean, never better than the usual ± of such a sight, which all of them
// share. A single sight has that usual ±.
//
// How: put the phone down between sights; its case must not round off the edge
// sighted along. Check it first: the two readings of one level edge, the phone
// turned end for end between them, must be the same with opposite signs.
func MeasureIncline(sight PhoneSight, taken []Attitude) (Average, error) {
	var r SurveyReading
	for i := range phoneReadings {
		if phoneReadings[i].sight == sight {
			r = phoneReadings[i].SurveyReading
		}
	}
	if r.Key == "" {
		return Average{}, &ReadingError{"phone", "the way the phone is held", `"` + string(sight) + `"`, string(SightAlongEdge) + ", " + string(SightByCamera) + " or " + string(SightBeside)}
	}
	angles := make([]float64, len(taken))
	for i, a := range taken {
		angles[i] = sight.Angle(a)
		if err := r.check(Measured{angles[i], 0}); err != nil {
			return Average{}, err
		}
	}
	if len(angles) == 1 {
		return Average{Mean: r.Read(angles[0]), Count: 1}, nil
	}
	return MeasureMean(angles, r.Read(0).PlusMinus)
}
