package rigging

import "math"

// Inside the package every quantity is in SI: metres, kilograms, newtons,
// newton-metres, pascals, radians. A unit constant turns a number read in
// another unit into SI by multiplication and back by division:
// 30*KN is thirty kilonewtons, load/KN a load read in kilonewtons.
//
// A bare "ton" is left out on purpose: the short ton-force and the
// tonne-force differ by a tenth, and shackle tables exist in both.
const (
	Deg           = math.Pi / 180     // rad
	CM            = 0.01              // m
	MM            = 0.001             // m
	Inch          = 0.0254            // m, exact (international inch)
	Foot          = 0.3048            // m, exact
	Pound         = 0.45359237        // kg, exact (avoirdupois pound)
	KN            = 1000.0            // N
	KNm           = 1000.0            // N·m
	MPa           = 1e6               // Pa
	PoundForce    = Pound * G         // N
	ShortTonForce = 2000 * PoundForce // N
	TonneForce    = 1000 * G          // N
)

// G is the standard acceleration of free fall, m/s², exact by the third
// General Conference on Weights and Measures (1901).
const G = 9.80665

// AirDensity is that of the standard atmosphere at sea level and 15 °C,
// kg/m³ (ISO 2533).
const AirDensity = 1.225
