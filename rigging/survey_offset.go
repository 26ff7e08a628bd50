package rigging

import "math"

var offsetByTwoReadings = []SurveyReading{
	offsetNamed("ahead", "the level offset along the lay (ahead is +)"),
	offsetNamed("right", "the level offset across the lay (right is +)"),
}

// MeasureOffset is the level offset (m) and its bearing of a crown's centre
// that hangs ahead along the lay and to the right of it by so much (m): the
// sides of a right angle.
//
// How: stand behind the stem looking along the lay and sight a plumb line
// against the middle of the crown; measure how far to the right it meets the
// ground from the stem's line. Do the same square to it for the offset ahead.
func MeasureOffset(ahead, right Measured) (Place, error) {
	given := []Measured{ahead, right}
	if err := checkReadings(offsetByTwoReadings, given); err != nil {
		return Place{}, err
	}
	return workOutPlace(offsetByTwoReadings, given, func(v []float64) Vec { return Vec{v[0], -v[1], 0} })
}

var offsetByTwoViewsReadings = []SurveyReading{
	offsetNamed("offset_a", "the offset seen in the first view (to the right is +)"),
	bearingReading("facing_a", "the bearing faced in the first view"),
	offsetNamed("offset_b", "the offset seen in the second view (to the right is +)"),
	bearingReading("facing_b", "the bearing faced in the second view"),
}

// MeasureOffsetTwoViews is the level offset (m) and its bearing from those
// seen in two views, each to the right of a person facing that bearing (rad):
// a view facing β shows offset·sin(its bearing − β). Views that cross at less
// than 30° are refused. Plane geometry.
func MeasureOffsetTwoViews(a, facingA, b, facingB Measured) (Place, error) {
	readings := offsetByTwoViewsReadings
	given := []Measured{a, facingA, b, facingB}
	if err := checkReadings(readings, given); err != nil {
		return Place{}, err
	}
	if crossing := crossingAngle(facingA.Value, facingB.Value); !(crossing >= weakCrossing) {
		return Place{}, readings[3].wrong(facingB.Value, "30° or more off the first view's line, best a quarter turn; it crosses it at "+readings[3].text(crossing))
	}
	return workOutPlace(readings, given, func(v []float64) Vec {
		sinA, cosA := math.Sincos(v[1] + math.Pi/2)
		sinB, cosB := math.Sincos(v[3] + math.Pi/2)
		det := float64(cosA*sinB) - float64(cosB*sinA)
		return Vec{(float64(v[0]*sinB) - float64(v[2]*sinA)) / det, -(float64(v[2]*cosA) - float64(v[0]*cosB)) / det, 0}
	})
}

// MeasureAlongStem is the length along a leaning stem (m) whose ends are a
// plumb height (m) apart: height/cos lean.
func MeasureAlongStem(plumb, lean Measured) (Measured, error) {
	readings := []SurveyReading{lengthReading("height", "the plumb height", "exact", 0, 500), angleReading("lean", "the lean of the stem", "exact", 60*Deg)}
	given := []Measured{plumb, lean}
	if err := checkReadings(readings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the length along the stem", readings, given, func(v []float64) float64 { return v[0] / math.Cos(v[1]) })
}

var riseReadings = []SurveyReading{
	lengthReading("distance", "the level distance", "tape", 0.1, 1000),
	angleReading("slope", "the angle up to it (down is −)", "clinometer", 70*Deg),
}

// MeasureRise is the rise (m, down is −) over a level distance (m) at an angle
// (rad): distance·tan angle.
//
// How: from the foot of the tree sight a mark at the height of your own eye
// over the point, and measure the level distance to it.
func MeasureRise(distance, slope Measured) (Measured, error) {
	given := []Measured{distance, slope}
	if err := checkReadings(riseReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the rise", riseReadings, given, func(v []float64) float64 { return v[0] * math.Tan(v[1]) })
}

var slopeByAngleReadings = []SurveyReading{angleReading("slope", "the angle along the slope (up is +)", "clinometer", 70*Deg)}

// MeasureSlopeByAngle is a slope (rad) read off as an angle.
//
// How: lay a straight bar along the slope and the clinometer or the phone on
// it; or sight along the slope to a mark at the height of your own eye.
func MeasureSlopeByAngle(slope Measured) (Measured, error) {
	if err := checkReadings(slopeByAngleReadings, []Measured{slope}); err != nil {
		return Measured{}, err
	}
	return slope, nil
}
