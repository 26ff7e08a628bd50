package rigging

import "math"

// CapstanRatio is the load that a rope wrapped round a fixed body can hold
// over the pull on its tail, at the limit before it slips: exp(μ·β), μ the
// coefficient of friction and β the wrap (rad). It does not depend on the
// diameter. Euler and Eytelwein; any mechanics text. NaN unless both are
// finite and 0 or more.
func CapstanRatio(friction, wrap float64) float64 {
	return measured(math.Exp(friction*wrap), friction, wrap)
}

// NotchedRatio is the same in a V-shaped notch with the given whole angle
// between its flanks (rad, above 0 up to 180°): exp(μ·β/sin(angle/2)), the
// V-belt equation. NaN for anything else.
func NotchedRatio(friction, wrap, angle float64) float64 {
	if !(angle > 0 && angle <= math.Pi) {
		return math.NaN()
	}
	return CapstanRatio(friction/math.Sin(angle/2), wrap)
}

// RopeFrictions are coefficients of friction of rope on what it is wrapped
// round. Value is the low end, for what the wraps are relied on to hold.
func RopeFrictions() []Entry { return copied(ropeFrictionTable[:]) }

var ropeFrictionRange = Source{"typical range", FromMemory}

var ropeFrictionTable = [...]Entry{
	{Key: "hmpe_on_steel", Name: "high-modulus polyethylene on steel", Value: 0.06, Low: 0.06, High: 0.10, Source: ropeFrictionRange},
	{Key: "steel_on_steel", Name: "wire rope on steel", Value: 0.08, Low: 0.08, High: 0.15, Source: ropeFrictionRange},
	{Key: "polyester_on_steel", Name: "polyester or nylon on steel", Value: 0.10, Low: 0.10, High: 0.20, Source: ropeFrictionRange},
	{Key: "rope_on_bark", Name: "rope on bark", Value: 0.30, Low: 0.30, High: 0.50, Source: ropeFrictionRange},
	{Key: "cable_on_stump", Name: "wire rope in a notched stump", Value: 0.1768,
		Source: Source{"A. R. Kimbell, Tension relationships for steel cable on notched stumps (Oregon State University, 1981), mean", Published}},
}
