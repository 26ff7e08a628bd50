package rigging

import (
	"math"
	"slices"
)

// SlingAngleFactor is how many times its even share of the load a sling leg
// carries: 1/sin of its angle above level (rad, above 0 up to 90°), by
// statics; NaN for any other angle. The trade stays at 30° (factor 2) and
// above.
func SlingAngleFactor(angle float64) float64 {
	if !(angle > 0 && angle <= math.Pi/2*(1+1e-12)) {
		return math.NaN()
	}
	return 1 / math.Sin(angle)
}

// SlingLegs gives the tensions (N) of two legs that hang a load (N) from one
// hook: lengths s1 and s2, level distances d1 and d2 from below the hook, hook
// height h above the load's points (all m). Leg 1 carries load·d2·s1/(h·(d1 +
// d2)), leg 2 its mirror (Old Dominion University, calculating the sling load).
// Both are NaN unless every measure is finite and above 0.
func SlingLegs(load, s1, s2, d1, d2, h float64) (t1, t2 float64) {
	for _, v := range []float64{load, s1, s2, d1, d2, h} {
		if positive("", v, "") != nil {
			return math.NaN(), math.NaN()
		}
	}
	return load * d2 * s1 / (h * (d1 + d2)), load * d1 * s2 / (h * (d1 + d2))
}

// BasketFactor is how many times one leg's rating a basket hitch carries,
// by the angle between its two legs (rad, 0 up to 180°): 2·cos(γ/2) by
// statics; NaN for any other angle. It holds only where the bend is gentle
// enough for the sling.
func BasketFactor(included float64) float64 {
	if !(included >= 0 && included <= math.Pi) {
		return math.NaN()
	}
	return 2 * math.Cos(included/2)
}

// Hitches are the factors on a sling's straight-pull rating. The angles of a
// basket are those of each leg from the line of pull.
func Hitches() []Entry { return copied(hitchTable[:]) }

var webHitches = Source{"EN 1492-1:2000+A1:2008, Table 3", FromMemory}

var hitchTable = [...]Entry{
	{Key: "straight", Name: "straight pull", Value: 1, Source: Source{"by definition of the rating", Derived}},
	{Key: "choked_natural_fibre", Name: "choked, natural fibre rope", Value: 0.45, Low: 0.45, High: 0.5, Source: Source{"29 CFR 1918 App. II, Table 2", Published},
		Note: "half, but less for the thinnest sling listed"},
	{Key: "choked_wire_rope", Name: "choked, wire rope 6x19 or 6x37", Value: 0.75, Source: Source{"ASME B30.9", FromMemory},
		Note: "with the choke hanging freely; a tighter choke angle holds less"},
	{Key: "choked_textile", Name: "choked, webbing or roundsling", Value: 0.8, Source: webHitches},
	{Key: "basket_parallel", Name: "basket, legs parallel", Value: 2, Source: webHitches},
	{Key: "basket_45", Name: "basket, each leg up to 45° off the pull", Value: 1.4, Source: webHitches},
	{Key: "basket_60", Name: "basket, each leg 45° to 60° off the pull", Value: 1, Source: webHitches},
	{Key: "two_leg_45", Name: "two legs, each up to 45° off the pull", Value: 1.4, Source: webHitches},
	{Key: "two_leg_60", Name: "two legs, each 45° to 60° off the pull", Value: 1, Source: webHitches},
	{Key: "two_leg_choked_45", Name: "two legs choked, each up to 45° off the pull", Value: 1.12, Source: webHitches},
	{Key: "two_leg_choked_60", Name: "two legs choked, each 45° to 60° off the pull", Value: 0.8, Source: webHitches},
}

// FindHitch is the hitch of that key.
func FindHitch(key string) (Entry, bool) { return findEntry(hitchTable[:], key) }

// ChokeBands are the factors on the choker rating by the angle of choke in
// degrees, from Low to High; 120° itself belongs to the band below it, the
// other bounds to the band above.
func ChokeBands() []Entry { return copied(chokeTable[:]) }

var chokeSource = Source{"ASME B30.9, table of choke angles", FromMemory}

var chokeTable = [...]Entry{
	{Key: "choke_over_120", Name: "over 120°", Value: 1, Low: 120, High: 180, Source: chokeSource},
	{Key: "choke_90_120", Name: "90° to 120°", Value: 0.87, Low: 90, High: 120, Source: chokeSource},
	{Key: "choke_60_90", Name: "60° to 90°", Value: 0.74, Low: 60, High: 90, Source: chokeSource},
	{Key: "choke_30_60", Name: "30° to 60°", Value: 0.62, Low: 30, High: 60, Source: chokeSource},
	{Key: "choke_under_30", Name: "under 30°", Value: 0.49, Low: 0, High: 30, Source: chokeSource},
}

// ChokeFactor is the factor on the choker rating for an angle of choke (rad,
// 0 to 180°), by ChokeBands. Anything else is a *TableError.
func ChokeFactor(angle float64) (float64, error) {
	if !(angle >= 0 && angle <= math.Pi) {
		return 0, outsideTable("the angle of choke", angle/Deg, "degrees", "0 to 180 degrees")
	}
	for _, b := range chokeTable[1:] {
		// A hair keeps an angle that has been through a conversion in its band.
		if angle/Deg >= b.Low-1e-9 && (angle/Deg <= 120+1e-9) {
			return b.Value, nil
		}
	}
	return chokeTable[0].Value, nil
}

// FibreSling is the rating of a natural fibre rope sling with eye splices.
type FibreSling struct {
	Diameter float64 // m
	Vertical float64 // N, straight pull
	Choker   float64 // N
	// Basket is the rating (N) with each leg 0°, 30°, 45° and 60° off the pull.
	Basket [4]float64
}

// FibreSlings are the ratings of 29 CFR 1918 App. II, Table 2 (some sizes).
func FibreSlings() []FibreSling {
	out := make([]FibreSling, len(fibreSlingTable))
	for i, r := range fibreSlingTable {
		s := FibreSling{Diameter: r.inches * Inch, Vertical: r.vertical * PoundForce, Choker: r.choker * PoundForce}
		for k, pounds := range r.basket {
			s.Basket[k] = pounds * PoundForce
		}
		out[i] = s
	}
	return out
}

// fibreSlingTable is in inches and pounds, as printed.
var fibreSlingTable = [...]struct {
	inches, vertical, choker float64
	basket                   [4]float64
}{
	{0.5, 550, 250, [4]float64{1100, 900, 750, 550}},
	{0.625, 900, 450, [4]float64{1800, 1500, 1200, 900}},
	{0.75, 1100, 550, [4]float64{2200, 1900, 1500, 1100}},
	{1, 1800, 900, [4]float64{3600, 3100, 2600, 1800}},
}

// FindFibreSling is the rating of the largest listed sling that is no thicker
// than diameter (m); none is listed below 1/2 in.
func FindFibreSling(diameter float64) (FibreSling, bool) {
	if positive("", diameter, "") != nil {
		return FibreSling{}, false
	}
	for _, s := range slices.Backward(FibreSlings()) {
		if s.Diameter <= diameter*(1+1e-9) {
			return s, true
		}
	}
	return FibreSling{}, false
}
