package rigging

import "slices"

// SurveyResult is one thing that a helper gives, in SI.
type SurveyResult struct {
	Key  string `json:"key"`
	Name string `json:"name"`
	Unit string `json:"unit"`
	Measured
}

// What a helper takes.
const (
	TakesReadings = "readings" // a value for each of its readings: Work
	TakesList     = "list"     // any number of readings of one thing: MeasureMean
	TakesPhoto    = "photo"    // marks in a picture and its readings: MeasurePhoto
	TakesSections = "sections" // any number of diameters: StemSections
)

// A SurveyHelper is one way to measure something of the tree or the ground.
type SurveyHelper struct {
	Key      string          `json:"key"`
	Name     string          `json:"name"`
	Takes    string          `json:"takes"`
	Readings []SurveyReading `json:"readings"`
	HowTo    string          `json:"how_to"`
	Watch    string          `json:"watch"` // what it does not see
	Source   Source          `json:"source"`

	work func(m []Measured) ([]SurveyResult, error)
}

// Work is what the helper makes of its readings, by key. A reading that is
// optional and not given takes its usual value and ±; another that is missing
// is a *ReadingError, as is a helper that does not take plain readings.
func (h SurveyHelper) Work(given map[string]Measured) ([]SurveyResult, error) {
	if h.work == nil {
		return nil, &ReadingError{h.Key, "what this way of measuring takes", h.Takes, TakesReadings}
	}
	m := make([]Measured, len(h.Readings))
	for i, r := range h.Readings {
		var ok bool
		if m[i], ok = given[r.Key]; ok {
			continue
		}
		if !r.Optional {
			return nil, &ReadingError{r.Key, r.Name, "missing", r.number(r.Least) + " to " + r.text(r.Most)}
		}
		m[i] = r.Read(r.Usual)
	}
	return h.work(m)
}

// FindSurveyHelper is the helper of that key.
func FindSurveyHelper(key string) (SurveyHelper, bool) {
	for i := range surveyHelpers {
		if surveyHelpers[i].Key == key {
			return surveyHelpers[i].copied(), true
		}
	}
	return SurveyHelper{}, false
}

// one makes the work of a helper with a single result.
func one(key, name, unit string, m Measured, err error) ([]SurveyResult, error) {
	if err != nil {
		return nil, err
	}
	return []SurveyResult{{key, name, unit, m}}, nil
}

func leanResults(l MeasuredLean, err error) ([]SurveyResult, error) {
	if err != nil {
		return nil, err
	}
	return []SurveyResult{{"lean", "lean from plumb", "rad", l.Lean}, {"lean_bearing", "bearing the stem leans to", "rad", l.Bearing}}, nil
}

func offsetResults(p Place) []SurveyResult {
	return []SurveyResult{{"offset", "level offset from the stem", "m", p.Distance}, {"offset_bearing", "bearing it hangs out to", "rad", p.Bearing}}
}

func placeResults(prefix, name string, p Place) []SurveyResult {
	return []SurveyResult{{prefix + "bearing", "bearing from the tree" + name, "rad", p.Bearing}, {prefix + "distance", "level distance from the tree" + name, "m", p.Distance}}
}

// SurveyHelpers are all the ways to measure, in the order of a day's work.
func SurveyHelpers() []SurveyHelper {
	helpers := make([]SurveyHelper, len(surveyHelpers))
	for i := range surveyHelpers {
		helpers[i] = surveyHelpers[i].copied()
	}
	return helpers
}

// copied is a helper for a caller to keep.
func (h *SurveyHelper) copied() SurveyHelper {
	c := *h
	c.Readings = slices.Clone(h.Readings)
	return c
}

var (
	mensurationText = Source{"any text on forest mensuration; Husch, Beers and Kershaw, Forest Mensuration", FromMemory}
	surveyingText   = Source{"plane geometry; any text on surveying", Derived}
)

var surveyHelpers = [...]SurveyHelper{
	{
		Key: "height_angles", Name: "Height by two angles", Takes: TakesReadings, Readings: heightByAnglesReadings,
		HowTo:  "Stand at least one tree height away, square to the lean; from one spot read the angle to the top and to the foot (up is +, below eye level is −), and measure the level distance to the stem.",
		Watch:  "The top is taken to stand over the foot: a top that hangs toward you measures too high, one that hangs away too low.",
		Source: Source{"DeYoung, Forest Measurements: An Applied Approach, section 2.3", Published},
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureHeightByAngles(m[0], m[1], m[2])
			return one("height", "height of the tree", "m", v, err)
		},
	},
	{
		Key: "height_slant", Name: "Height by range finder", Takes: TakesReadings, Readings: heightBySlantReadings,
		HowTo:  "From one spot that sees both, range the top twig and the foot straight, and read the angle of each sight (up is +).",
		Watch:  "A range that catches a twig in front of the top measures too low.",
		Source: Source{"Native Tree Society, Height Measurement Basics (2006)", Published},
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureHeightBySlant(m[0], m[1], m[2], m[3])
			return one("height", "height of the tree", "m", v, err)
		},
	},
	{
		Key: "height_stick", Name: "Height by a stick", Takes: TakesReadings, Readings: heightByStickReadings,
		HowTo:  "Hold the stick upright before the eye and move until it covers the tree just from foot to top without moving the head; then measure the level distance from the eye to the stem.",
		Watch:  "A stick that leans away shows the tree too high; a top that hangs toward you does the same.",
		Source: Source{"similar triangles; any text on forest mensuration", Derived},
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureHeightByStick(m[0], m[1], m[2], m[3])
			return one("height", "height of the tree", "m", v, err)
		},
	},
	{
		Key: "height_arm_stick", Name: "Height by a stick as long as the arm", Takes: TakesReadings, Readings: heightByArmStickReadings,
		HowTo:  "Grip a straight stick so that as much stands above the fist as the fist is from the eye; walk back until it covers the tree from foot to top; the level distance to the stem is the height.",
		Watch:  "A stick that leans away shows the tree too high; a top that hangs toward you does the same.",
		Source: Source{"similar triangles; any text on forest mensuration", Derived},
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureHeightByArmStick(m[0], m[1], m[2])
			return one("height", "height of the tree", "m", v, err)
		},
	},
	{
		Key: "diameter_girth", Name: "Diameter from girth", Takes: TakesReadings, Readings: diameterByGirthReadings,
		HowTo:  "Run the tape once around the stem over the bark, square to the stem, without twist and clear of swellings.",
		Watch:  "A stem that is not round comes out thicker than its wood, never thinner.",
		Source: mensurationText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureDiameter(m[0])
			return one("diameter", "diameter", "m", v, err)
		},
	},
	{
		Key: "lean_offset", Name: "Lean by one plumb offset", Takes: TakesReadings, Readings: leanByOffsetReadings,
		HowTo:  "Walk to where the stem looks plumb and note the bearing it leans to; then, square to that, sight a plumb line against the stem's middle high up and measure how far from the stem's middle it meets the foot.",
		Watch:  "A curved stem is taken as straight between the two places.",
		Source: surveyingText,
		work:   func(m []Measured) ([]SurveyResult, error) { return leanResults(MeasureLean(m[0], m[1], m[2])) },
	},
	{
		Key: "lean_offsets", Name: "Lean by two plumb offsets", Takes: TakesReadings, Readings: leanByTwoOffsetsReadings,
		HowTo:  "Sight a plumb line against the stem's middle at the same height twice: square to the lay, for the offset ahead, and along the lay, for the offset to the right; measure each at the foot.",
		Watch:  "A curved stem is taken as straight between the two places.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			return leanResults(MeasureLeanTwoOffsets(m[0], m[1], m[2]))
		},
	},
	{
		Key: "lean_views", Name: "Lean seen from two sides", Takes: TakesReadings, Readings: leanByTwoViewsReadings,
		HowTo:  "Stand well back and read against a plumb line or a phone's level how far the stem's middle leans to your right (left is −); note the bearing you face; do the same a quarter turn around the tree.",
		Watch:  "Judge the stem's middle, not one edge: the taper makes an edge lean.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			return leanResults(MeasureLeanTwoViews(m[0], m[1], m[2], m[3]))
		},
	},
	{
		Key: "offset_plumb", Name: "Overhang by two plumb offsets", Takes: TakesReadings, Readings: offsetByTwoReadings,
		HowTo:  "Sight a plumb line against the middle of the crown twice: standing behind the stem looking along the lay, for the offset to the right, and square to it, for the offset ahead; measure each from the stem's line on the ground.",
		Watch:  "The middle of the crown is judged by eye, and a crown is heavier where its thick branches are.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			p, err := MeasureOffset(m[0], m[1])
			if err != nil {
				return nil, err
			}
			return offsetResults(p), nil
		},
	},
	{
		Key: "slope_angle", Name: "Slope by an angle", Takes: TakesReadings, Readings: slopeByAngleReadings,
		HowTo:  "Lay a straight bar along the slope and read its angle, or sight along the slope to a mark at the height of your own eye (up is +).",
		Watch:  "It is the slope of that piece of ground only.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureSlopeByAngle(m[0])
			return one("slope", "slope of the ground", "rad", v, err)
		},
	},
	{
		Key: "rise_angle", Name: "Rise by angle and distance", Takes: TakesReadings, Readings: riseReadings,
		HowTo:  "From the foot of the tree sight a mark at the height of your own eye over the point and read the angle (up is +); measure the level distance to the point.",
		Watch:  "The mark must be as high over the point as your eye is over the ground.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureRise(m[0], m[1])
			return one("rise", "rise of the point", "m", v, err)
		},
	},
	{
		Key: "slope_rise", Name: "Slope by rise and run", Takes: TakesReadings, Readings: slopeByRiseReadings,
		HowTo:  "Hold a straight bar level with one end on the ground uphill; measure the bar and the plumb drop from its other end to the ground.",
		Watch:  "It is the slope of that piece of ground only.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureSlope(m[0], m[1])
			return one("slope", "slope of the ground", "rad", v, err)
		},
	},
	{
		Key: "slope_percent", Name: "Slope from percent", Takes: TakesReadings, Readings: slopeByPercentReadings,
		HowTo:  "Sight along the slope to a mark at the height of your own eye and read the percent scale (up is +).",
		Watch:  "100 % is 45°, not straight up.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureSlopeFromPercent(m[0])
			return one("slope", "slope of the ground", "rad", v, err)
		},
	},
	{
		Key: "pace", Name: "Your own pace", Takes: TakesReadings, Readings: paceReadings,
		HowTo:  "Tape out 50 m or more on ground like that of the job, walk it at your usual pace and count the paces.",
		Watch:  "Paces up and down a slope and through brush are shorter than on a track.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasurePace(m[0], m[1])
			return one("pace", "length of one pace", "m", v, err)
		},
	},
	{
		Key: "paced_distance", Name: "Distance by paces", Takes: TakesReadings, Readings: pacedDistanceReadings,
		HowTo:  "Walk straight at the pace that you have measured, count, and read the slope of the ground walked.",
		Watch:  "A detour around brush counts as distance.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasurePacedDistance(m[0], m[1], m[2])
			return one("distance", "level distance", "m", v, err)
		},
	},
	{
		Key: "level_distance", Name: "Level distance from one along the slope", Takes: TakesReadings, Readings: levelDistanceReadings,
		HowTo:  "Stretch the tape straight along the slope and read the angle along it.",
		Watch:  "Broken ground needs a piece for each slope.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureLevelDistance(m[0], m[1])
			return one("distance", "level distance", "m", v, err)
		},
	},
	{
		Key: "bearing", Name: "Bearing from the lay by compass", Takes: TakesReadings, Readings: bearingByCompassReadings,
		HowTo:  "Read the thing and the lay with the same compass from the stem.",
		Watch:  "Machines, saws and wire rope draw the needle: keep away from them.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			v, err := MeasureBearing(m[0], m[1])
			return one("bearing", "bearing from the lay", "rad", v, err)
		},
	},
	{
		Key: "place_distances", Name: "Point by two distances", Takes: TakesReadings, Readings: byDistancesReadings,
		HowTo:  "Measure the level distances to the point from two points whose place from the tree you know, chosen so that the lines cross at 60° to 120°; then say on which side it lies.",
		Watch:  "Two points fit. The flatter the lines cross, the larger the ±.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			fixes, err := MeasurePlacesByDistances(Place{m[0], m[1]}, Place{m[2], m[3]}, m[4], m[5])
			if err != nil {
				return nil, err
			}
			return append(append(placeResults("left_", ", point to the left of the line from the first to the second", fixes[0].Place),
				placeResults("right_", ", point to the right of it", fixes[1].Place)...), crossingResult(fixes[0])), nil
		},
	},
	{
		Key: "place_bearings", Name: "Point by two bearings", Takes: TakesReadings, Readings: byBearingsReadings,
		HowTo:  "From two points whose place from the tree you know, sight the point with the compass and count each bearing from the lay; choose them so that the sights cross at 60° to 120°.",
		Watch:  "The flatter the sights cross, the larger the ±.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			f, err := MeasurePlaceByBearings(Place{m[0], m[1]}, Place{m[2], m[3]}, m[4], m[5])
			if err != nil {
				return nil, err
			}
			return append(placeResults("", "", f.Place), crossingResult(f)), nil
		},
	},
	{
		Key: "place_traverse", Name: "Point from a known point", Takes: TakesReadings, Readings: traverseReadings,
		HowTo:  "From a point whose place from the tree you know, read the bearing to the new point, counted from the lay, and measure the level distance; go on from there for the next.",
		Watch:  "Errors add up from leg to leg.",
		Source: surveyingText,
		work: func(m []Measured) ([]SurveyResult, error) {
			p, err := MeasurePlaceByTraverse(Place{m[0], m[1]}, Place{m[2], m[3]})
			if err != nil {
				return nil, err
			}
			return placeResults("", "", p), nil
		},
	},
	{
		Key: "mean", Name: "Mean of several readings", Takes: TakesList,
		Readings: []SurveyReading{
			{Key: "readings", Name: "the readings", Least: -1e100, Most: 1e100, Accuracy: "exact"},
			{Key: "resolution", Name: "the step to which each was read", Least: 1e-9, Most: 1e100, Accuracy: "exact"},
		},
		HowTo:  "Put the tool away between readings and start anew each time; look again at a reading that is flagged, and do not drop it only because it is off.",
		Watch:  "An error that all readings share, such as a tool out of adjustment, does not average out.",
		Source: Source{"Student's t at 95 %, any text on statistics", FromMemory},
	},
	{
		Key: "photo", Name: "Tree from a photo with a pole", Takes: TakesPhoto, Readings: photoReadings,
		HowTo:  "Stand a straight pole of known length upright beside the stem; go back at least the height of the tree, hold the camera level with the whole tree near the middle of the picture, and measure the level distance to the pole; take a second picture a quarter turn around the tree.",
		Watch:  "A camera tilted up shows the tree too short; a tree farther away than the pole too. A cropped picture or a wide-angle lens is not in the ±.",
		Source: Source{"pinhole projection, any text on photogrammetry", Derived},
	},
	{
		Key: "sections", Name: "Stem volume from diameters", Takes: TakesSections, Readings: []SurveyReading{stemHeightReading, pointHeightReading, pointDiameterReading, hingeHeightReading},
		HowTo:  "Measure the diameter or girth at breast height and at as many heights as can be reached, at equal steps of up to 5 m, clear of swellings at branches.",
		Watch:  "The crown is not in it, and below the lowest diameter the heavier of a cylinder and the drawn-on taper is taken; measure the flare where there is one.",
		Source: Source{"Smalian and Newton as named by C. Goulding, NZ J. For. Sci. 9(1):89 (1979)", Published},
	},
}

func crossingResult(f Fix) SurveyResult {
	return SurveyResult{"crossing", "angle at which the lines cross (30° or more is wanted)", "rad", Measured{f.Crossing, 0}}
}
