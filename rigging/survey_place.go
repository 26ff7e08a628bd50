package rigging

import "math"

// A Place is where a point stands from the tree: the bearing (rad, clockwise
// from the lay) and the level distance (m). The tree itself is the zero Place.
type Place struct {
	Bearing  Measured `json:"bearing"`
	Distance Measured `json:"distance"`
}

// A Fix is a place found from two others. Crossing is the angle (rad, 0 to
// π/2) at which the two lines meet there; the flatter, the larger the ±. Weak
// says that it is below 30°: measure from a better place if you can.
type Fix struct {
	Place
	Crossing float64 `json:"crossing"`
	Weak     bool    `json:"weak"`
}

var byDistancesReadings = []SurveyReading{
	bearingReading("a_bearing", "the bearing from the tree to the first known point"),
	lengthReading("a_distance", "the level distance from the tree to the first known point", "tape", 0, 1000),
	bearingReading("b_bearing", "the bearing from the tree to the second known point"),
	lengthReading("b_distance", "the level distance from the tree to the second known point", "tape", 0, 1000),
	lengthReading("from_a", "the level distance from the first known point", "tape", 0.1, 1000),
	lengthReading("from_b", "the level distance from the second known point", "tape", 0.1, 1000),
}

var byBearingsReadings = []SurveyReading{
	bearingReading("a_bearing", "the bearing from the tree to the first known point"),
	lengthReading("a_distance", "the level distance from the tree to the first known point", "tape", 0, 1000),
	bearingReading("b_bearing", "the bearing from the tree to the second known point"),
	lengthReading("b_distance", "the level distance from the tree to the second known point", "tape", 0, 1000),
	bearingReading("from_a", "the bearing from the first known point"),
	bearingReading("from_b", "the bearing from the second known point"),
}

// leastBase is the least distance (m) between two known places.
const leastBase = 0.5

func checkBase(readings []SurveyReading, given []Measured) (base float64, err error) {
	if err := checkReadings(readings, given); err != nil {
		return 0, err
	}
	v := valuesOf(given)
	base = AtBearing(v[0], v[1], 0).Sub(AtBearing(v[2], v[3], 0)).Norm()
	if base < leastBase {
		return 0, &ReadingError{readings[3].Key, "the distance between the two known points", readings[3].text(base), readings[3].text(leastBase) + " or more"}
	}
	return base, nil
}

// workOutPlace is the place f gives, with the ± of bearing and distance.
func workOutPlace(readings []SurveyReading, given []Measured, f func(v []float64) Vec) (Place, error) {
	distance, err := workOut("the place", readings, given, func(v []float64) float64 { return f(v).Horizontal() })
	if err != nil {
		return Place{}, err
	}
	bearing, err := workOutBearing("the place", readings, given, func(v []float64) (ahead, right float64) {
		p := f(v)
		return p.X, -p.Y
	})
	return Place{bearing, distance}, err
}

// MeasurePlacesByDistances are the two places at a level distance (m) from
// each of two known places: where two circles cross, first the one to the left
// of the line from a to b, then the one to the right. Which of them it is, the
// person there sees. With base d between a and b, u = (r_a² − r_b² + d²)/2d
// along it and √(r_a² − u²) to either side: plane geometry. Lines that cross
// at less than 10° are refused; the ± comes from all the readings, and grows
// as 1/sin of the crossing.
//
// How: choose two points whose place from the tree you know and from which the
// tape runs free, so that the lines to the new point cross at 60° to 120°,
// and measure both distances level.
func MeasurePlacesByDistances(a, b Place, fromA, fromB Measured) ([]Fix, error) {
	readings := byDistancesReadings
	given := []Measured{a.Bearing, a.Distance, b.Bearing, b.Distance, fromA, fromB}
	base, err := checkBase(readings, given)
	if err != nil {
		return nil, err
	}
	ra, rb := fromA.Value, fromB.Value
	if least, most := math.Abs(base-ra), base+ra; !(rb > least && rb < most) {
		return nil, readings[5].wrong(rb, "between "+readings[5].text(least)+" and "+readings[5].text(most)+", for the distances to meet")
	}
	// Angle at the new point, by the law of cosines.
	angle := math.Acos(math.Max(-1, math.Min(1, (ra*ra+rb*rb-base*base)/(2*ra*rb))))
	crossing := math.Min(angle, math.Pi-angle)
	if crossing < leastCrossing {
		return nil, nearlyParallel(readings[5], rb, crossing)
	}
	var fixes []Fix
	for _, side := range []float64{1, -1} {
		p, err := workOutPlace(readings, given, func(v []float64) Vec {
			a, b := AtBearing(v[0], v[1], 0), AtBearing(v[2], v[3], 0)
			line := b.Sub(a)
			d := line.Norm()
			along := (v[4]*v[4] - v[5]*v[5] + d*d) / (2 * d)
			aside := side * math.Sqrt(v[4]*v[4]-along*along) // NaN where they do not meet
			unit := line.Scale(1 / d)
			return a.Add(unit.Scale(along)).Add(Vec{-unit.Y, unit.X, 0}.Scale(aside))
		})
		if err != nil {
			return nil, err
		}
		fixes = append(fixes, Fix{p, crossing, crossing < weakCrossing})
	}
	return fixes, nil
}

func nearlyParallel(r SurveyReading, given, crossing float64) error {
	degrees := angleReading("", "", "", 0)
	return r.wrong(given, "one whose line crosses the other at "+degrees.text(leastCrossing)+" or more, best near 90°; it crosses at "+degrees.text(crossing))
}

// MeasurePlaceByBearings is the place in both sights, each along a bearing
// (rad) from a known place: the crossing of two rays, plane geometry. Sights
// that cross at less than 10° are refused, and sights that meet behind a
// person. At distance r an error of ε sets a line off by r·ε, and the fix by
// that over sin of the crossing.
//
// How: from two points whose place from the tree you know, sight the new point
// with the compass and turn each bearing to be counted from the lay; choose
// them so that the sights cross at 60° to 120°. Nobody has to go there.
func MeasurePlaceByBearings(a, b Place, fromA, fromB Measured) (Fix, error) {
	readings := byBearingsReadings
	given := []Measured{a.Bearing, a.Distance, b.Bearing, b.Distance, fromA, fromB}
	if _, err := checkBase(readings, given); err != nil {
		return Fix{}, err
	}
	crossing := crossingAngle(fromA.Value, fromB.Value)
	if crossing < leastCrossing {
		return Fix{}, nearlyParallel(readings[5], fromB.Value, crossing)
	}
	alongA, alongB, _ := crossRays(valuesOf(given))
	for i, along := range []float64{alongA, alongB} {
		if !(along > 0) {
			return Fix{}, readings[4+i].wrong(given[4+i].Value, "a bearing that meets the other sight in front of the person, not behind")
		}
	}
	p, err := workOutPlace(readings, given, func(v []float64) Vec {
		_, _, at := crossRays(v)
		return at
	})
	return Fix{p, crossing, crossing < weakCrossing}, err
}

// crossRays is how far along each ray they meet, and where.
func crossRays(v []float64) (alongA, alongB float64, at Vec) {
	a, b := AtBearing(v[0], v[1], 0), AtBearing(v[2], v[3], 0)
	ua, ub := AtBearing(v[4], 1, 0), AtBearing(v[5], 1, 0)
	base, det := b.Sub(a), ua.Cross(ub).Z
	alongA, alongB = base.Cross(ub).Z/det, base.Cross(ua).Z/det
	return alongA, alongB, a.Add(ua.Scale(alongA))
}

// MeasurePlaceByTraverse is where a walk ends that starts at a known place and
// goes each leg along its bearing (rad, from the lay) for its level distance
// (m): the sum of the legs (any text on surveying). At least one leg.
//
// How: measure bearing and level distance from a point you know to the next
// one you can see, and so on to the point wanted.
func MeasurePlaceByTraverse(from Place, legs ...Place) (Place, error) {
	readings := traverseReadings[:2:2]
	given := []Measured{from.Bearing, from.Distance}
	for range legs {
		readings = append(readings, traverseReadings[2:]...)
	}
	for _, leg := range legs {
		given = append(given, leg.Bearing, leg.Distance)
	}
	if len(legs) == 0 {
		return Place{}, &ReadingError{traverseReadings[3].Key, "the number of legs", "0", "1 or more"}
	}
	if err := checkReadings(readings, given); err != nil {
		return Place{}, err
	}
	return workOutPlace(readings, given, func(v []float64) Vec {
		var at Vec
		for i := 0; i < len(v); i += 2 {
			at = at.Add(AtBearing(v[i], v[i+1], 0))
		}
		return at
	})
}

// traverseReadings are those of a known point and of one leg from it.
var traverseReadings = []SurveyReading{
	bearingReading("from_bearing", "the bearing from the tree to the known point"),
	lengthReading("from_distance", "the level distance from the tree to the known point", "tape", 0, 1000),
	bearingReading("leg_bearing", "the bearing of the leg"),
	lengthReading("leg_distance", "the level length of the leg", "tape", 0.1, 1000),
}

var bearingByCompassReadings = []SurveyReading{
	bearingReading("compass", "the compass bearing"),
	bearingReading("lay", "the compass bearing of the lay"),
}

// MeasureBearing is a bearing from the lay (rad, 0 to 2π) from two compass
// bearings (rad), of the thing and of the lay.
//
// How: read both with the same compass, away from the machine, chainsaw and
// wire rope, which draw the needle.
func MeasureBearing(compass, lay Measured) (Measured, error) {
	given := []Measured{compass, lay}
	if err := checkReadings(bearingByCompassReadings, given); err != nil {
		return Measured{}, err
	}
	return workOutBearing("the bearing", bearingByCompassReadings, given, func(v []float64) (ahead, right float64) {
		sin, cos := math.Sincos(v[0] - v[1])
		return cos, sin
	})
}
