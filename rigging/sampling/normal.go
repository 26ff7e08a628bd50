package sampling

import "math"

// A Normal is a normal distribution about a mean, cut at its ends: what lies beyond
// them is as if it had not been drawn.
type Normal struct {
	Mean, Deviation float64 // Deviation is that before the cut, above 0
	Low, High       float64 // Low < High
}

// Quantile is the value below which a part p (0 to 1) of the draws lies.
func (d Normal) Quantile(p float64) float64 {
	from, to := upTo((d.Low-d.Mean)/d.Deviation), upTo((d.High-d.Mean)/d.Deviation)
	z := math.Sqrt2 * math.Erfinv(2*(from+p*(to-from))-1)
	return math.Max(d.Low, math.Min(d.High, d.Mean+z*d.Deviation))
}

// upTo is the part of the standard normal distribution below z.
func upTo(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
