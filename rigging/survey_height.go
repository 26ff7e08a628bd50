package rigging

import "math"

// steepest is the steepest sight accepted with a level distance: beyond it
// half a degree moves the top by half the height and more.
const steepest = 89 * Deg

var heightByAnglesReadings = []SurveyReading{
	lengthReading("distance", "the level distance to the stem", "paced", 0.5, 500),
	angleReading("top", "the angle to the top", "clinometer", steepest),
	angleReading("foot", "the angle to the foot", "clinometer", steepest),
}

// MeasureHeightByAngles is the height (m) by HeightByTwoAngles, with its ±:
// H = D·(tan top − tan foot), so that ∂H/∂D = H/D and ∂H/∂angle = D/cos².
//
// An angle is positive above the eye: standing level or uphill of the tree the
// foot is below the eye and its angle negative; standing far enough downhill
// it is positive. The top must stand over the foot: a top that hangs toward
// the person by x reads about x·tan(top) too high, and one that hangs away as
// much too low; that is not in the ±.
//
// How: stand at least one tree height away, at right angles to the lean, read
// the angle to the top and to the foot from the same spot, and measure the
// level distance to the stem.
func MeasureHeightByAngles(distance, top, foot Measured) (Measured, error) {
	given := []Measured{distance, top, foot}
	if err := checkReadings(heightByAnglesReadings, given); err != nil {
		return Measured{}, err
	}
	if !(top.Value > foot.Value) {
		return Measured{}, heightByAnglesReadings[1].wrong(top.Value, "above the angle to the foot, "+heightByAnglesReadings[2].text(foot.Value))
	}
	return workOut("the height", heightByAnglesReadings, given, func(v []float64) float64 {
		return v[0] * (steep(v[1]) - steep(v[2]))
	})
}

var heightBySlantReadings = []SurveyReading{
	lengthReading("range_top", "the straight range to the top", "rangefinder", 0.5, 500),
	angleReading("top", "the angle to the top", "clinometer", math.Pi/2),
	lengthReading("range_foot", "the straight range to the foot", "rangefinder", 0.5, 500),
	angleReading("foot", "the angle to the foot", "clinometer", math.Pi/2),
}

// MeasureHeightBySlant is the plumb height (m) of the top over the foot by
// HeightBySlant, with its ±: H = R₁·sin top − R₂·sin foot, ∂H/∂R = sin,
// ∂H/∂angle = R·cos. It holds for a leaning tree and on any ground. A range
// that catches a twig in front of the top reads low.
//
// How: from one spot from which the top twig and the foot can be seen, range
// each with a range finder and read the angle of the same sight.
func MeasureHeightBySlant(rangeTop, top, rangeFoot, foot Measured) (Measured, error) {
	given := []Measured{rangeTop, top, rangeFoot, foot}
	if err := checkReadings(heightBySlantReadings, given); err != nil {
		return Measured{}, err
	}
	f := func(v []float64) float64 { return v[0]*math.Sin(v[1]) - v[2]*math.Sin(v[3]) }
	if !(f(valuesOf(given)) > 0) {
		return Measured{}, heightBySlantReadings[1].wrong(top.Value, "an angle that puts the top above the foot")
	}
	return workOut("the height", heightBySlantReadings, given, f)
}

var (
	treeDistanceReading = SurveyReading{Key: "distance", Name: "the level distance from the eye to the stem", Unit: "m", Least: 0.5, Most: 500, Accuracy: "paced"}
	stickTiltReading    = SurveyReading{Key: "stick_tilt", Name: "the stick's tilt away from the eye", Unit: "rad", Least: -20 * Deg, Most: 20 * Deg, Accuracy: "by_eye", Optional: true}
)

var heightByStickReadings = []SurveyReading{
	treeDistanceReading,
	lengthReading("stick", "the length of the stick that covers the tree", "rule", 0.02, 5),
	lengthReading("eye_to_stick", "the level distance from the eye to the stick", "arm", 0.1, 5),
	stickTiltReading,
}

// MeasureHeightByStick is the height (m) by similar triangles: a stick of
// length L held upright at e from the eye covers the tree at D from foot to
// top, H = D·L/e. Held at a tilt δ (top away from the eye) it shows
// H = D·L·cos δ/(e + L·sin δ); that is for a foot near eye level, and with the
// foot lower the tilt changes less. Similar triangles: any text on forest
// measuring; Euclid, Elements VI.4.
//
// How: hold the stick upright, move until its lower end covers the foot and
// its upper end the top without moving the head, then measure the level
// distance from the eye to the stem.
func MeasureHeightByStick(distance, stick, eyeToStick, tilt Measured) (Measured, error) {
	given := []Measured{distance, stick, eyeToStick, tilt}
	if err := checkReadings(heightByStickReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the height", heightByStickReadings, given, func(v []float64) float64 {
		return stickHeight(v[0], v[1], v[2], v[3])
	})
}

func stickHeight(distance, stick, eye, tilt float64) float64 {
	sin, cos := math.Sincos(tilt)
	if reach := eye + stick*sin; reach > 0 {
		return distance * stick * cos / reach
	}
	return math.NaN()
}

var heightByArmStickReadings = []SurveyReading{
	treeDistanceReading,
	lengthReading("arm", "the length from the eye to the stick, to which the stick is cut", "arm", 0.2, 1.5),
	stickTiltReading,
}

// MeasureHeightByArmStick is MeasureHeightByStick with a stick just as long as
// its distance from the eye: where it covers the tree the height is the
// distance. The ± of arm is how well the two lengths agree.
//
// How: grip a straight stick so that as much stands above the fist as the fist
// is from the eye, walk back until it covers the tree from foot to top, and
// measure the level distance to the stem.
func MeasureHeightByArmStick(distance, arm, tilt Measured) (Measured, error) {
	given := []Measured{distance, arm, tilt}
	if err := checkReadings(heightByArmStickReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the height", heightByArmStickReadings, given, func(v []float64) float64 {
		return stickHeight(v[0], arm.Value, v[1], v[2])
	})
}

var diameterByGirthReadings = []SurveyReading{lengthReading("girth", "the girth", "girth", 0.05, 40)}

// MeasureDiameter is the diameter (m) of a round stem from its girth (m):
// girth/π, ± by the same. A stem that is not round has more girth for its area
// than a circle, so the diameter never comes out too small for the wood in it.
//
// How: run the tape once around the stem, level on a standing tree, without
// twist, over the bark, clear of swellings.
func MeasureDiameter(girth Measured) (Measured, error) {
	given := []Measured{girth}
	if err := checkReadings(diameterByGirthReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the diameter", diameterByGirthReadings, given, func(v []float64) float64 { return v[0] / math.Pi })
}
