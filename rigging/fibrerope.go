package rigging

import "math"

// Field rules for fibre rope by its circumference C = π·d in inches; diameter
// in m, NaN unless it is finite and 0 or more.

// ManilaBreaking is the breaking strength (N) of manila, 900·C² lb.
// Source: US Navy training course Builder 3 & 2, strength of fibre line.
func ManilaBreaking(diameter float64) float64 { return circumferenceRule(900, diameter) }

// NylonBreaking is the breaking strength (N) of nylon, 2,400·C² lb. Same
// source. Wet nylon: times WetNylon.
func NylonBreaking(diameter float64) float64 { return circumferenceRule(2400, diameter) }

// WetNylon is what wet nylon keeps of its dry strength: 15 % is lost. Source:
// UFC 4-159-03 Moorings (2005), Table 6-8.
const WetNylon = 0.85

func circumferenceRule(pounds, diameter float64) float64 {
	c := math.Pi * diameter / Inch
	return measured(pounds*c*c*PoundForce, diameter)
}

// FibreLineCircumferenceRule is the circumference (m) of fibre line to hoist
// a load (N): √(15·P) inches, P in short tons (US Navy training course Builder
// 2 & 3, ch. 4; its "ton" taken as the short ton).
func FibreLineCircumferenceRule(load float64) float64 {
	return measured(math.Sqrt(15*load/ShortTonForce)*Inch, load)
}

// FibreRope is a rope of a kind and size.
type FibreRope struct {
	Kind      string  `json:"kind"`
	Diameter  float64 `json:"diameter"`            // m
	Breaking  float64 `json:"breaking"`            // N, new and dry
	Stiffness float64 `json:"stiffness,omitempty"` // N, modulus × area; 0 where not known
	Source    Source  `json:"source"`
}

// FibreRopes are breaking strengths by kind and size. High-modulus
// polyethylene is left out: no figure is at hand, and its makers differ.
func FibreRopes() []FibreRope {
	var all []FibreRope
	for _, t := range fibreRopeTable {
		for _, r := range t.rows {
			all = append(all, FibreRope{t.kind, r.size * t.length, r.breaking * t.force, r.stiffness * t.force, Source{t.source, t.basis}})
		}
	}
	return all
}

// A fibreRopeSize is a row of a table as printed.
type fibreRopeSize struct{ size, breaking, stiffness float64 }

// fibreRopeTable holds the rows by kind, with the units they are printed in.
var fibreRopeTable = [...]struct {
	kind          string
	source        string
	basis         Basis
	length, force float64 // m and N in the printed units
	rows          []fibreRopeSize
}{
	{"nylon_double_braid", "UFC 4-159-03 Moorings (2005), Table 6-8 (mean strength, dry)", Published, Inch, KN,
		[]fibreRopeSize{{1.0, 149.5, 529}, {1.1, 200.2, 709}, {1.2, 231.3, 819}, {1.3, 262.4, 929}}},
	{"manila", "US Army FM 5-125 (1995), Table 1-1", FromMemory, Inch, PoundForce,
		[]fibreRopeSize{{1.0 / 4, 600, 0}, {3.0 / 8, 1350, 0}, {1.0 / 2, 2650, 0}, {5.0 / 8, 4400, 0}, {3.0 / 4, 5400, 0},
			{7.0 / 8, 7700, 0}, {1, 9000, 0}, {1.25, 13500, 0}, {1.5, 18500, 0}, {2, 31000, 0}}},
	{"polyamide_3_strand", "ISO 1140, within about 5 %", FromMemory, MM, KN,
		[]fibreRopeSize{{10, 20, 0}, {12, 29, 0}, {14, 40, 0}, {16, 52, 0}, {20, 81, 0}, {24, 118, 0}}},
	{"polyester_3_strand", "ISO 1141, within about 5 %", FromMemory, MM, KN,
		[]fibreRopeSize{{10, 16, 0}, {12, 22, 0}, {14, 31, 0}, {16, 40, 0}, {20, 62, 0}, {24, 90, 0}}},
	{"polypropylene_3_strand", "ISO 1346, within about 5 %", FromMemory, MM, KN,
		[]fibreRopeSize{{10, 15, 0}, {12, 22, 0}, {14, 30, 0}, {16, 37, 0}, {20, 57, 0}, {24, 80, 0}}},
}

// FindFibreRope is the largest listed rope of that kind that is no thicker
// than diameter (m).
func FindFibreRope(kind string, diameter float64) (FibreRope, bool) {
	var best FibreRope
	for _, r := range FibreRopes() {
		if r.Kind == kind && r.Diameter <= diameter*(1+1e-9) && r.Diameter > best.Diameter {
			best = r
		}
	}
	return best, best.Diameter > 0 && diameter <= math.MaxFloat64
}

// FibreRopeStretch is the elongation at break by material, as a share of the
// length. The high end is used: what stretches most stores most.
func FibreRopeStretch() []Entry { return copied(stretchTable[:]) }

var mooringHandbooks = Source{"mooring handbooks", FromMemory}

var stretchTable = [...]Entry{
	{Key: "nylon", Name: "polyamide (nylon)", Value: 0.50, Low: 0.25, High: 0.50,
		Source: Source{"US Navy NAVEDTRA 12018, p. 7-13: about a third at working load, about half before break", Published}},
	{Key: "polyester", Name: "polyester", Value: 0.20, Low: 0.12, High: 0.20, Source: mooringHandbooks},
	{Key: "polypropylene", Name: "polypropylene", Value: 0.25, Low: 0.18, High: 0.25, Source: mooringHandbooks},
	{Key: "aramid", Name: "aramid", Value: 0.045, Low: 0.035, High: 0.045, Source: mooringHandbooks},
	{Key: "hmpe", Name: "high-modulus polyethylene", Value: 0.05, Low: 0.03, High: 0.05, Source: mooringHandbooks},
}
