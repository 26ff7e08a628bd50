package rigging

import "math"

// SheaveRatio is the tension on the hauling side over that on the load side
// of a sheave of the given efficiency (tension in over tension out at a
// half-turn of wrap, 0 < η ≤ 1) when the two legs include the angle
// included (rad, 0 for a half-turn of wrap, π for a straight rope):
// r = (1 + κ·sin(θ/2))/(1 − κ·sin(θ/2)), κ = (1 − η)/(1 + η), θ = π − included.
// The friction of the pin grows with the load on it, which is what
// sin(θ/2) measures; θ = π gives 1/η and θ = 0 gives 1.
func SheaveRatio(efficiency, included float64) float64 {
	return sheaveRatio(efficiency, math.Cos(included/2))
}

// sheaveRatio takes cos(included/2), which is sin(θ/2).
func sheaveRatio(efficiency, half float64) float64 {
	k := (1 - efficiency) / (1 + efficiency) * half
	return (1 + k) / (1 - k)
}

// BlockLoad is the load on a block, N: the vector sum of both legs' tensions
// t1 and t2 (N) that include an angle (rad),
// |R|² = t1² + t2² + 2·t1·t2·cos(included). Without friction it is
// 2T·cos(included/2) (the parallelogram of forces, any mechanics textbook).
func BlockLoad(t1, t2, included float64) float64 {
	return math.Sqrt(math.Max(0, t1*t1+t2*t2+2*t1*t2*math.Cos(included)))
}
