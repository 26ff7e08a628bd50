package rigging

import "math"

// Volumes of a stem section from its diameters (m) and length (m), in m³.
// All are NaN unless every measure is a finite number of 0 or more.
//
// Smalian, cone and neiloid as on the University of Missouri forestry page on
// cubic log volume and named by C. Goulding, NZ J. For. Sci. 9(1):89 (1979);
// Huber and Newton as in any text on forest mensuration.

// SmalianVolume takes the mean of the end areas: exact for a section of a
// paraboloid, too high for a flared butt. Goulding found its error above 8 %
// with sections longer than 5 m.
func SmalianVolume(d1, d2, length float64) float64 {
	return measured(length/2*(circle(d1)+circle(d2)), d1, d2, length)
}

// HuberVolume takes the area at mid-length: exact for a paraboloid.
func HuberVolume(middle, length float64) float64 {
	return measured(length*circle(middle), middle, length)
}

// NewtonVolume weighs both ends and the middle 1:4:1: exact for a
// paraboloid, a cone and a neiloid.
func NewtonVolume(d1, middle, d2, length float64) float64 {
	return measured(length/6*(circle(d1)+4*circle(middle)+circle(d2)), d1, middle, d2, length)
}

// ConeVolume is that of a frustum of a cone.
func ConeVolume(d1, d2, length float64) float64 {
	a, b := circle(d1), circle(d2)
	return measured(length/3*(a+math.Sqrt(a*b)+b), d1, d2, length)
}

// NeiloidVolume is that of a frustum of a neiloid, the shape of a flared
// butt.
func NeiloidVolume(d1, d2, length float64) float64 {
	a, b := circle(d1), circle(d2)
	return measured(length/4*(a+math.Cbrt(a*a*b)+math.Cbrt(a*b*b)+b), d1, d2, length)
}

// circle is the area of a circle, m².
func circle(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }

// measured is v, or NaN unless it and what it came from are finite numbers of
// 0 or more.
func measured(v float64, from ...float64) float64 {
	for _, m := range append(from, v) {
		if !(m >= 0 && m <= math.MaxFloat64) {
			return math.NaN()
		}
	}
	return v
}
