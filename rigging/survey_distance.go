package rigging

import "math"

var slopeByRiseReadings = []SurveyReading{
	{Key: "rise", Name: "the rise (down is −)", Unit: "m", Least: -200, Most: 200, Accuracy: "tape"},
	lengthReading("run", "the level run", "tape", 0.1, 1000),
}

// MeasureSlope is the slope (rad, up is positive) of a rise over a level run
// (m): atan(rise/run).
//
// How: hold a straight bar level with its end on the ground uphill, measure
// the bar and the plumb drop from its other end to the ground.
func MeasureSlope(rise, run Measured) (Measured, error) {
	given := []Measured{rise, run}
	if err := checkReadings(slopeByRiseReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the slope", slopeByRiseReadings, given, func(v []float64) float64 { return math.Atan2(v[0], v[1]) })
}

var slopeByPercentReadings = []SurveyReading{
	{Key: "percent", Name: "the slope as rise over run (0.35 for 35 %)", Unit: "", Least: -5, Most: 5, Accuracy: "slope_percent"},
}

// MeasureSlopeFromPercent is the slope (rad) of a rise over run (0.35 for
// 35 %): its arctangent, so that 100 % is 45°.
//
// How: sight along the slope to a mark at the height of your own eye and read
// the clinometer's percent scale.
func MeasureSlopeFromPercent(share Measured) (Measured, error) {
	given := []Measured{share}
	if err := checkReadings(slopeByPercentReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the slope", slopeByPercentReadings, given, func(v []float64) float64 { return math.Atan(v[0]) })
}

var (
	pacesReading       = SurveyReading{Key: "paces", Name: "the number of paces", Unit: "", Least: 1, Most: 5000, Accuracy: "count"}
	groundSlopeReading = SurveyReading{Key: "slope", Name: "the slope of the ground", Unit: "rad", Least: -70 * Deg, Most: 70 * Deg, Accuracy: "clinometer", Optional: true}
)

var paceReadings = []SurveyReading{lengthReading("distance", "the known distance", "tape", 5, 1000), pacesReading}

// MeasurePace is the length of one's own pace (m): a known distance (m) over
// the paces it took.
//
// How: tape out 50 m or more on ground like that of the job, walk it at your
// usual pace and count; paces uphill and downhill are shorter than on the
// level.
func MeasurePace(distance, paces Measured) (Measured, error) {
	given := []Measured{distance, paces}
	if err := checkReadings(paceReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the length of the pace", paceReadings, given, func(v []float64) float64 {
		if v[1] > 0 {
			return v[0] / v[1]
		}
		return math.NaN()
	})
}

var pacedDistanceReadings = []SurveyReading{pacesReading, lengthReading("pace", "the length of one pace along the ground", "paced", 0.2, 2.5), groundSlopeReading}

// MeasurePacedDistance is the level distance (m) of paces of that length (m)
// along ground of that slope (rad): paces × pace × cos slope.
//
// How: walk straight to the stem at the pace that you have measured, count,
// and read the slope of the ground walked.
func MeasurePacedDistance(paces, pace, slope Measured) (Measured, error) {
	given := []Measured{paces, pace, slope}
	if err := checkReadings(pacedDistanceReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the distance", pacedDistanceReadings, given, func(v []float64) float64 { return v[0] * v[1] * math.Cos(v[2]) })
}

var levelDistanceReadings = []SurveyReading{lengthReading("along", "the distance along the slope", "tape", 0.1, 1000), groundSlopeReading}

// MeasureLevelDistance is the level distance (m) of one measured along a slope
// (rad): along × cos slope.
//
// How: stretch the tape straight along the slope and read the angle along it.
func MeasureLevelDistance(along, slope Measured) (Measured, error) {
	given := []Measured{along, slope}
	if err := checkReadings(levelDistanceReadings, given); err != nil {
		return Measured{}, err
	}
	return workOut("the distance", levelDistanceReadings, given, func(v []float64) float64 { return v[0] * math.Cos(v[1]) })
}
