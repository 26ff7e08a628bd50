package rigging

import "math"

// A MeasuredLean is a stem's lean from plumb and the bearing it leans to, both
// in rad, the bearing clockwise from the lay, 0 to 2π.
type MeasuredLean struct {
	Lean    Measured `json:"lean"`
	Bearing Measured `json:"bearing"`
}

// workOutLean is the lean of a stem whose middle moves (ahead, right) for each
// metre that it rises. A lean within its own ± may point anywhere: the
// bearing's ± is then π.
func workOutLean(readings []SurveyReading, given []Measured, perRise func(v []float64) (ahead, right float64)) (MeasuredLean, error) {
	lean, err := workOut("the lean", readings, given, func(v []float64) float64 { return math.Atan(math.Hypot(perRise(v))) })
	if err != nil {
		return MeasuredLean{}, err
	}
	bearing, err := workOutBearing("the lean's bearing", readings, given, perRise)
	return MeasuredLean{lean, bearing}, err
}

var (
	plumbHeightReading = SurveyReading{Key: "height", Name: "the plumb height over the foot of the place sighted", Unit: "m", Least: 0.5, Most: 120, Accuracy: "tape"}
	offsetReading      = SurveyReading{Key: "offset", Name: "the level offset", Unit: "m", Least: -30, Most: 30, Accuracy: "plumb"}
)

var leanByOffsetReadings = []SurveyReading{offsetReading, plumbHeightReading, bearingReading("bearing", "the bearing the stem leans to")}

// MeasureLean is the lean of a stem whose middle, at a plumb height (m) over
// the foot, lies a level offset (m) toward a bearing (rad) from its middle at
// the foot: lean = atan(offset/height), ∂/∂offset = cos²/height. A sweep or a
// curve counts as the straight lean of those two places.
//
// How: walk around to where the stem looks plumb, so that it leans straight
// away from you or toward you; note that bearing; then, from the side, hang a
// plumb line in front of the eye against the stem's middle high up and measure
// how far from the stem's middle it meets the foot.
func MeasureLean(offset, height, bearing Measured) (MeasuredLean, error) {
	given := []Measured{offset, height, bearing}
	if err := checkReadings(leanByOffsetReadings, given); err != nil {
		return MeasuredLean{}, err
	}
	return workOutLean(leanByOffsetReadings, given, func(v []float64) (ahead, right float64) {
		sin, cos := math.Sincos(v[2])
		return v[0] / v[1] * cos, v[0] / v[1] * sin
	})
}

var leanByTwoOffsetsReadings = []SurveyReading{
	offsetNamed("ahead", "the level offset along the lay (ahead is +)"),
	offsetNamed("right", "the level offset across the lay (right is +)"),
	plumbHeightReading,
}

func offsetNamed(key, name string) SurveyReading {
	return SurveyReading{Key: key, Name: name, Unit: "m", Least: -30, Most: 30, Accuracy: "plumb"}
}

// MeasureLeanTwoOffsets is MeasureLean from the offsets (m) ahead along the
// lay and to the right of it, at the same plumb height (m):
// tan lean = √(ahead² + right²)/height, bearing = atan2(right, ahead).
//
// How: sight a plumb line against the stem's middle high up, once standing
// behind the stem and looking along the lay, once standing square to it, and
// measure each time how far from the stem's middle it meets the foot.
func MeasureLeanTwoOffsets(ahead, right, height Measured) (MeasuredLean, error) {
	given := []Measured{ahead, right, height}
	if err := checkReadings(leanByTwoOffsetsReadings, given); err != nil {
		return MeasuredLean{}, err
	}
	return workOutLean(leanByTwoOffsetsReadings, given, func(v []float64) (float64, float64) { return v[0] / v[2], v[1] / v[2] })
}

// leastCrossing is the least angle between two sights or two lines that fix a
// place: below it nothing is worked out. Below weakCrossing the fix is weak.
// Both are common practice in chart and plane-table work, no source.
const (
	leastCrossing = 10 * Deg
	weakCrossing  = 30 * Deg
)

var leanByTwoViewsReadings = []SurveyReading{
	angleReading("lean_a", "the lean seen in the first view (to the right is +)", "lean", 60*Deg),
	bearingReading("facing_a", "the bearing faced in the first view"),
	angleReading("lean_b", "the lean seen in the second view (to the right is +)", "lean", 60*Deg),
	bearingReading("facing_b", "the bearing faced in the second view"),
}

// MeasureLeanTwoViews is the full lean from the leans seen in two views, each
// in rad, positive to the right of the person who faces that bearing (rad). A
// view facing β shows tan lean·sin(lean's bearing − β); a quarter turn apart,
// tan² lean = tan² a + tan² b. Views that cross at less than 30° are refused:
// a fault of one degree would then be doubled. Solid geometry.
//
// How: stand well back, hold a plumb line or a level phone against the stem's
// middle and read how far it leans to the right; note the bearing you face;
// do the same a quarter turn around the tree.
func MeasureLeanTwoViews(leanA, facingA, leanB, facingB Measured) (MeasuredLean, error) {
	given := []Measured{leanA, facingA, leanB, facingB}
	if err := checkReadings(leanByTwoViewsReadings, given); err != nil {
		return MeasuredLean{}, err
	}
	if crossing := crossingAngle(facingA.Value, facingB.Value); !(crossing >= weakCrossing) {
		r := leanByTwoViewsReadings[3]
		return MeasuredLean{}, r.wrong(facingB.Value, "30° or more off the first view's line, best a quarter turn; it crosses it at "+r.text(crossing))
	}
	return workOutLean(leanByTwoViewsReadings, given, func(v []float64) (ahead, right float64) {
		// (ahead, right)·(cos, sin) of the bearing to the viewer's right.
		sinA, cosA := math.Sincos(v[1] + math.Pi/2)
		sinB, cosB := math.Sincos(v[3] + math.Pi/2)
		det := float64(cosA*sinB) - float64(cosB*sinA)
		a, b := math.Tan(v[0]), math.Tan(v[2])
		return (float64(a*sinB) - float64(b*sinA)) / det, (float64(b*cosA) - float64(a*cosB)) / det
	})
}

// crossingAngle is the angle between two lines of those bearings, 0 to π/2.
func crossingAngle(a, b float64) float64 {
	sin, cos := math.Sincos(a - b)
	return math.Atan2(math.Abs(sin), math.Abs(cos))
}
