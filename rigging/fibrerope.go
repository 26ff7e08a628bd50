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
	braid := Source{"UFC 4-159-03 Moorings (2005), Table 6-8 (mean strength, dry)", Published}
	for _, r := range []struct{ inches, breaking, stiffness float64 }{
		{1.0, 149.5, 529}, {1.1, 200.2, 709}, {1.2, 231.3, 819}, {1.3, 262.4, 929},
	} {
		all = append(all, FibreRope{"nylon_double_braid", r.inches * Inch, r.breaking * KN, r.stiffness * KN, braid})
	}
	manila := Source{"US Army FM 5-125 (1995), Table 1-1", FromMemory}
	for _, r := range []struct{ inches, pounds float64 }{
		{1.0 / 4, 600}, {3.0 / 8, 1350}, {1.0 / 2, 2650}, {5.0 / 8, 4400}, {3.0 / 4, 5400}, {7.0 / 8, 7700}, {1, 9000}, {1.25, 13500}, {1.5, 18500}, {2, 31000},
	} {
		all = append(all, FibreRope{"manila", r.inches * Inch, r.pounds * PoundForce, 0, manila})
	}
	for _, k := range []struct {
		kind, standard string
		breaking       [6]float64 // kN
	}{
		{"polyamide_3_strand", "ISO 1140", [6]float64{20, 29, 40, 52, 81, 118}},
		{"polyester_3_strand", "ISO 1141", [6]float64{16, 22, 31, 40, 62, 90}},
		{"polypropylene_3_strand", "ISO 1346", [6]float64{15, 22, 30, 37, 57, 80}},
	} {
		for i, mm := range []float64{10, 12, 14, 16, 20, 24} {
			all = append(all, FibreRope{k.kind, mm * MM, k.breaking[i] * KN, 0, Source{k.standard + ", within about 5 %", FromMemory}})
		}
	}
	return all
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
func FibreRopeStretch() []Entry {
	source := Source{"mooring handbooks", FromMemory}
	return []Entry{
		{Key: "nylon", Name: "polyamide (nylon)", Value: 0.50, Low: 0.25, High: 0.50,
			Source: Source{"US Navy NAVEDTRA 12018, p. 7-13: about a third at working load, about half before break", Published}},
		{Key: "polyester", Name: "polyester", Value: 0.20, Low: 0.12, High: 0.20, Source: source},
		{Key: "polypropylene", Name: "polypropylene", Value: 0.25, Low: 0.18, High: 0.25, Source: source},
		{Key: "aramid", Name: "aramid", Value: 0.045, Low: 0.035, High: 0.045, Source: source},
		{Key: "hmpe", Name: "high-modulus polyethylene", Value: 0.05, Low: 0.03, High: 0.05, Source: source},
	}
}
