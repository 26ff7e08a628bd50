package rigging

import "math"

// SnatchSpeed (m/s) is how fast a machine is taken to move that takes up slack, where
// nothing is said of it: a slow walk. Assumed.
const SnatchSpeed = 1.0

// Snatch is by how much (N) the tension of a line rises when a machine of a mass (kg)
// that moves at a speed (m/s) takes up its slack: v·√(k·m), a mass on a spring of
// k = EA/ℓ (N/m, any text). Through a tackle it is the same for the line: the machine
// stretches it as much slower as it pulls harder. NaN unless all is known.
func Snatch(mass, speed, stiffness, length float64) float64 {
	if !(mass >= 0 && speed >= 0 && stiffness >= 0 && length > 0) {
		return math.NaN()
	}
	return speed * math.Sqrt(stiffness/length*mass)
}
