// Package experience learns from what was measured: how far the pulls of a crew
// lay from what was computed for them, and where the next one may lie.
package experience

import "math"

// Least is the fewest pulls from which a pattern is told: with two, the band for
// the next is wider than anything one would believe (Student's t at one degree of
// freedom is 12.7).
const Least = 3

// A Record is what measured ÷ computed came to over several pulls. Ratios
// multiply, so that half and double are equally far from 1: everything is worked
// out in their logarithms.
type Record struct {
	N    int
	Mean float64 // geometric mean
	// Low and High bound the next pull's ratio in 95 % of cases, if it is of the
	// same kind as these: the prediction interval of a normal sample,
	// mean ± t·s·√(1 + 1/n) (NIST/SEMATECH e-Handbook of Statistical Methods,
	// section 7.1.4, for one further observation).
	Low, High float64
}

// Of is the record of ratios above 0; others are left out. It is false with
// fewer than Least.
func Of(ratios []float64) (Record, bool) {
	var logs []float64
	for _, r := range ratios {
		if r > 0 && !math.IsInf(r, 1) {
			logs = append(logs, math.Log(r))
		}
	}
	n := float64(len(logs))
	if len(logs) < Least {
		return Record{N: len(logs), Mean: math.NaN(), Low: math.NaN(), High: math.NaN()}, false
	}
	sum, squares := 0.0, 0.0
	for _, x := range logs {
		sum += x
	}
	mean := sum / n
	for _, x := range logs {
		squares += (x - mean) * (x - mean)
	}
	half := student(len(logs)-1) * math.Sqrt(squares/(n-1)*(1+1/n))
	return Record{N: len(logs), Mean: math.Exp(mean), Low: math.Exp(mean - half), High: math.Exp(mean + half)}, true
}

// student is the 97.5 % point of Student's t: the NIST/SEMATECH e-Handbook's table,
// section 1.3.6.7.2. Between its rows the one above is taken, which is the wider.
func student(freedom int) float64 {
	table := [...]float64{12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
		2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086,
		2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042}
	switch {
	case freedom <= len(table):
		return table[freedom-1]
	case freedom < 60:
		return table[len(table)-1]
	case freedom < 100:
		return 2.000
	}
	return 1.984
}
