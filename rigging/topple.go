package rigging

import (
	"fmt"
	"math"
)

// A Toppling body turns about a foot that stays put, with no hinge, line or
// air to slow it: how long a tree takes to fall, and how fast its top
// arrives, at most.
type Toppling struct {
	Mass    float64 // kg
	Centre  float64 // m from the foot to the mass centre
	Inertia float64 // kg·m², second moment of mass about the foot
}

// StemInertia is the second moment of mass about its foot of a thin stem of
// mass m (kg), height H (m) and form factor f, m·H²·2/((1/f + 1)(1/f + 2)):
// mH²/3 for the cylinder, mH²/6 for the paraboloid and mH²/10 for the cone
// (integral calculus).
func StemInertia(mass, height, formFactor float64) float64 {
	p := 1 / formFactor
	return mass * height * height * 2 / ((p + 1) * (p + 2))
}

// Speed is the rate of turn (rad/s) at angle to, measured from plumb, of a
// body let go at rest at angle from: all the height lost has become motion,
// ω² = 2·m·g·z·(cos from − cos to)/I.
func (t Toppling) Speed(from, to float64) float64 {
	return math.Sqrt(math.Max(0, 2*t.Mass*G*t.Centre*(math.Cos(from)-math.Cos(to))/t.Inertia))
}

// Time is how long (s) it takes from rest at angle from to angle to, both
// from plumb, 0 < from < to ≤ π/2: θ″ = (m·g·z/I)·sin θ, integrated in
// steps of a thousandth of the body's own time √(I/mgz) by the classical
// Runge-Kutta rule. A body let go upright never falls.
func (t Toppling) Time(from, to float64) (float64, error) {
	if !(from > 0) || !(to > from) || to > math.Pi/2 {
		return 0, fmt.Errorf("a body falls from an angle above 0 to a larger one up to a right angle, not from %g to %g rad", from, to)
	}
	rate := t.Mass * G * t.Centre / t.Inertia
	if !(rate > 0) || math.IsInf(rate, 0) {
		return 0, fmt.Errorf("mass, centre and inertia have to be above 0 and finite")
	}
	step := 1e-3 / math.Sqrt(rate)
	const most = 50000 // steps: a start of a billionth of a degree takes half of them
	angle, speed, elapsed := from, 0.0, 0.0
	for range most {
		k1 := rate * math.Sin(angle)
		k2 := rate * math.Sin(angle+step/2*speed)
		k3 := rate * math.Sin(angle+step/2*(speed+step/2*k1))
		k4 := rate * math.Sin(angle+step*(speed+step/2*k2))
		next := angle + step*speed + step*step/6*(k1+k2+k3)
		if next >= to {
			return elapsed + step*(to-angle)/(next-angle), nil
		}
		angle, speed, elapsed = next, speed+step/6*(k1+2*k2+2*k3+k4), elapsed+step
	}
	return 0, fmt.Errorf("a body let go at %g rad stands all but upright: it has no falling time", from)
}
