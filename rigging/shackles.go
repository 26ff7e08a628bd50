package rigging

import "math"

// ShackleFieldRule is the safe working load (N) of a shackle whose maker's
// figure cannot be read, from the diameter (m) of its body: 3·D² short tons,
// D in inches. NaN unless the diameter is finite and above 0. Source: US Navy
// NAVEDTRA 14251, Steelworker vol. 2, ch. 6. A shackle without a readable mark
// is better left out of the line.
func ShackleFieldRule(body float64) float64 {
	if positive("", body, "") != nil {
		return math.NaN()
	}
	inches := body / Inch
	return 3 * inches * inches * ShortTonForce
}

// Shackle is the working load limit of a shackle by its size.
type Shackle struct {
	Body   float64 `json:"body"` // m, diameter of the body (bow)
	Pin    float64 `json:"pin"`  // m
	WLL    float64 `json:"wll"`  // N
	Source Source  `json:"source"`
}

// Shackles are the forged anchor shackles of US federal specification
// RR-C-271, carbon steel. Their limits are in short tons: the shackles of
// EN 13889 bear the same numbers in tonnes and hold a tenth more.
func Shackles() []Shackle {
	confirmed := Source{"Seattle City Light Material Standard 6966.15 (RR-C-271D): breaking strength over 5", Published}
	recalled := Source{"RR-C-271, Type IV, grade A", FromMemory}
	out := make([]Shackle, len(shackleTable))
	for i, r := range shackleTable {
		pin, source := r.inches+1.0/8, recalled
		if r.inches < 0.5 {
			pin = r.inches + 1.0/16
		}
		if r.confirmed {
			source = confirmed
		}
		out[i] = Shackle{r.inches * Inch, pin * Inch, r.tons * ShortTonForce, source}
	}
	return out
}

// shackleTable are the body's diameter and the limit in short tons.
var shackleTable = [...]struct {
	inches, tons float64
	confirmed    bool // read, not recalled
}{
	{0.25, 0.5, false}, {0.3125, 0.75, false}, {0.375, 1, false}, {0.4375, 1.5, false},
	{0.5, 2, true}, {0.625, 3.25, true}, {0.75, 4.75, true},
	{0.875, 6.5, false}, {1, 8.5, false}, {1.125, 9.5, false}, {1.25, 12, false},
	{1.375, 13.5, false}, {1.5, 17, false},
}

// ShackleSideLoads are the factors on a shackle's limit by the angle, in
// degrees, of the load to the line from pin to bow: above Low, up to High.
func ShackleSideLoads() []Entry { return copied(sideLoadTable[:]) }

var sideLoadSource = Source{"ASME B30.26 (bands also WAC 296-155-33905, Fig. 17)", FromMemory}

var sideLoadTable = [...]Entry{
	{Key: "in_line", Name: "in line, up to 5°", Value: 1, Low: 0, High: 5, Source: sideLoadSource},
	{Key: "side_45", Name: "up to 45° off line", Value: 0.7, Low: 5, High: 45, Source: sideLoadSource},
	{Key: "side_90", Name: "up to 90° off line", Value: 0.5, Low: 45, High: 90, Source: sideLoadSource},
}

// ShackleSideLoad is the factor on a shackle's limit for a load off its line
// by angle (rad, 0 to 90°). More is not permitted: a *TableError.
func ShackleSideLoad(angle float64) (float64, error) {
	if angle >= 0 {
		for _, band := range sideLoadTable[:] {
			if angle/Deg <= band.High+1e-9 { // a hair for a converted angle
				return band.Value, nil
			}
		}
	}
	return 0, outsideTable("the load's angle to the line of the shackle", angle/Deg, "degrees", "0 to 90 degrees")
}
