package rigging

import "math"

// Heights of a tree from where a person stands, in m. An angle (rad) is
// positive above eye level. All are NaN where the measures cannot be: a
// distance not above 0, an angle not between straight down and straight up, a
// top below its base.

// HeightByTwoAngles takes the level distance (m) to the stem and the angles
// to the top and to the foot: distance × (tan top − tan base), as open
// forestry texts teach. A foot above the eye makes base positive. The top must
// stand over the foot: a tree leaning toward the person measures too high.
func HeightByTwoAngles(distance, top, base float64) float64 {
	return heightBetween(distance*steep(top), distance*steep(base), distance)
}

// HeightByPercent is the same with the clinometer's percent scale (1.24 for
// 124 %): DeYoung, Forest Measurements: An Applied Approach, section 2.3.
func HeightByPercent(distance, top, base float64) float64 {
	return heightBetween(distance*top, distance*base, distance)
}

// HeightBySlant takes the straight-line ranges (m) to the top and to the
// foot: range × sin of the angle, each. It needs no level distance and no top
// over the foot: Native Tree Society, Height Measurement Basics (2006).
func HeightBySlant(rangeTop, top, rangeBase, base float64) float64 {
	if !(rangeBase > 0) {
		return math.NaN()
	}
	return heightBetween(rangeTop*sine(top), rangeBase*sine(base), rangeTop)
}

// heightBetween is up − down, both from eye level, if it can be one.
func heightBetween(up, down, distance float64) float64 {
	if h := up - down; distance > 0 && h > 0 && h <= math.MaxFloat64 {
		return h
	}
	return math.NaN()
}

func steep(angle float64) float64 {
	if math.Abs(angle) < math.Pi/2 {
		return math.Tan(angle)
	}
	return math.NaN()
}

func sine(angle float64) float64 {
	if math.Abs(angle) <= math.Pi/2 {
		return math.Sin(angle)
	}
	return math.NaN()
}
