package rigging

import "math"

// Capacity is what a piece of gear may carry, in the unit of its limit:
// the working load limit (or breaking load ÷ design factor) times the hitch
// factor and every reduction that applies. NaN where any of them is missing,
// not finite or not above 0.
func Capacity(limit, hitch float64, reductions ...float64) float64 {
	c := limit * hitch
	ok := limit > 0 && hitch > 0
	for _, r := range reductions {
		c *= r
		ok = ok && r > 0
	}
	if !ok || math.IsInf(c, 0) {
		return math.NaN()
	}
	return c
}

// WorkingLimit is a minimum breaking load ÷ design factor; NaN unless the
// load is above 0 and the factor at least 1.
func WorkingLimit(breaking, factor float64) float64 {
	if !(breaking > 0) || !(factor >= 1) {
		return math.NaN()
	}
	return breaking / factor
}
