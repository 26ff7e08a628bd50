package rigging

import (
	"math"
	"slices"
)

// A WireRope is a class of steel wire rope with its core, by the factors of
// EN 12385-4: with d the nominal diameter and R the rope grade, least
// breaking force is K·d²·R, metallic area C·d², mass per metre W·d².
//
// Ropes in inch sizes and the grades IPS or EIP are printed up to 8 % weaker
// than these factors give with 1770 or 1960 N/mm² (API Spec 9A / ISO 10425,
// Table C.1): take their own table or certificate.
type WireRope struct {
	Key     string  `json:"key"`
	Name    string  `json:"name"`
	K       float64 `json:"breaking_factor"` // none: newtons over (m² · Pa)
	C       float64 `json:"area_factor"`     // none: m² over m²
	W       float64 `json:"mass_factor"`     // kg per 100 m and mm², as printed
	Modulus Figure  `json:"modulus_Pa"`      // Pa on the metallic area, used rope
	Source  Source  `json:"source"`
}

// Rope grades (Pa) of common wire ropes, EN 12385.
const (
	WireGrade1770 = 1770 * MPa
	WireGrade1960 = 1960 * MPa
)

// WireRopeTable are the classes. Factors: K. Feyrer, Wire Ropes: Tension,
// Endurance, Reliability, Table 1.9, after EN 12385. A new rope's modulus is
// lower, so it stretches and stores more than these moduli of used rope say.
func WireRopeTable() []WireRope { return slices.Clone(wireRopeTable[:]) }

const (
	wireRopeText = "K. Feyrer, Wire Ropes, Table 1.9, factors of EN 12385"

	wireModuli    = "machine-elements textbook, Table 18.7, after Shigley & Mitchell (1983)"
	moduli6x7     = wireModuli + ", 6x7"
	moduli6x19    = wireModuli + ", 6x19"
	moduli6x37    = wireModuli + ", 6x37"
	moduli8x19    = wireModuli + ", 8x19"
	moduliSoftest = wireModuli + ", 8x19, the softest of its table, for a class it does not list"

	mpsi = 1e6 * PoundForce / (Inch * Inch) // a million psi, as printed
)

// wireRopeTable lists key, name, K, C, W, modulus and source.
var wireRopeTable = [...]WireRope{
	{"6x7_fibre_core", "6x7, fibre core", 0.332, 0.369, 0.345, Figure{14 * mpsi, Source{moduli6x7, Published}}, Source{wireRopeText, Published}},
	{"6x7_steel_core", "6x7, steel core", 0.359, 0.432, 0.384, Figure{14 * mpsi, Source{moduli6x7, Published}}, Source{wireRopeText, Published}},
	{"6x19_fibre_core", "6x19 (Seale, Warrington, filler), fibre core", 0.330, 0.384, 0.359, Figure{12 * mpsi, Source{moduli6x19, Published}}, Source{wireRopeText, Published}},
	{"6x19_steel_core", "6x19 (Seale, Warrington, filler), steel core", 0.356, 0.449, 0.400, Figure{12 * mpsi, Source{moduli6x19, Published}}, Source{wireRopeText, Published}},
	{"6x36_fibre_core", "6x36 (Warrington-Seale), fibre core", 0.330, 0.393, 0.367, Figure{11 * mpsi, Source{moduli6x37, Published}}, Source{wireRopeText, Published}},
	{"6x36_steel_core", "6x36 (Warrington-Seale), steel core", 0.356, 0.460, 0.409, Figure{11 * mpsi, Source{moduli6x37, Published}}, Source{wireRopeText, Published}},
	{"8x19_fibre_core", "8x19, fibre core", 0.293, 0.349, 0.340, Figure{10 * mpsi, Source{moduli8x19, Published}}, Source{wireRopeText, Published}},
	{"8x19_steel_core", "8x19, steel core", 0.356, 0.457, 0.407, Figure{10 * mpsi, Source{moduli8x19, Published}}, Source{wireRopeText, Published}},
	{"8x36_fibre_core", "8x36, fibre core", 0.293, 0.357, 0.348, Figure{10 * mpsi, Source{moduliSoftest, GroupFigure}}, Source{wireRopeText, Published}},
	{"8x36_steel_core", "8x36, steel core", 0.356, 0.468, 0.417, Figure{10 * mpsi, Source{moduliSoftest, GroupFigure}}, Source{wireRopeText, Published}},
	{"6x19m_fibre_core", "6x19M (cross lay), fibre core", 0.307, 0.357, 0.344, Figure{12 * mpsi, Source{moduli6x19, Published}}, Source{wireRopeText, Published}},
	{"6x19m_steel_core", "6x19M (cross lay), steel core", 0.332, 0.418, 0.372, Figure{12 * mpsi, Source{moduli6x19, Published}}, Source{wireRopeText, Published}},
	{"6x37m_fibre_core", "6x37M (cross lay), fibre core", 0.295, 0.357, 0.334, Figure{11 * mpsi, Source{moduli6x37, Published}}, Source{wireRopeText, Published}},
	{"6x37m_steel_core", "6x37M (cross lay), steel core", 0.319, 0.418, 0.372, Figure{11 * mpsi, Source{moduli6x37, Published}}, Source{wireRopeText, Published}},
	{"18x7_fibre_core", "18x7, fibre core", 0.328, 0.408, 0.382, Figure{10 * mpsi, Source{moduliSoftest, GroupFigure}}, Source{wireRopeText, Published}},
	{"18x7_steel_core", "18x7, steel core", 0.328, 0.433, 0.401, Figure{10 * mpsi, Source{moduliSoftest, GroupFigure}}, Source{wireRopeText, Published}},
}

// FindWireRope is the class of that key.
func FindWireRope(key string) (WireRope, bool) {
	for i := range wireRopeTable {
		if wireRopeTable[i].Key == key {
			return wireRopeTable[i], true
		}
	}
	return WireRope{}, false
}

// BreakingForce is the least breaking force (N) of a new rope of a nominal
// diameter (m) and grade (Pa): K·d²·R.
func (r WireRope) BreakingForce(diameter, grade float64) float64 {
	return measured(r.K*diameter*diameter*grade, diameter, grade)
}

// Area is the metallic area, m²: C·d², d in m.
func (r WireRope) Area(diameter float64) float64 {
	return measured(r.C*diameter*diameter, diameter)
}

// MassPerMetre is in kg/m: W·d², d in m.
func (r WireRope) MassPerMetre(diameter float64) float64 {
	d := diameter / MM
	return measured(r.W*d*d/100, diameter)
}

// Stiffness is modulus × metallic area (N), for stretch and stored energy.
func (r WireRope) Stiffness(diameter float64) float64 {
	return r.Modulus.Value * r.Area(diameter)
}

// The field rules below stand in for a certificate that is not at hand. The
// two "8 d²" rules look alike and differ by two fifths: one takes inches
// and short tons, the other millimetres and kilograms-force. All are NaN
// unless what they take is finite and 0 or more.

// WireRopeInchRule is the safe working load (N) 8·D² short tons, D in inches
// (US Navy NAVEDTRA 14026, ch. 1); diameter in m.
func WireRopeInchRule(diameter float64) float64 {
	d := diameter / Inch
	return measured(8*d*d*ShortTonForce, diameter)
}

// WireRopeMillimetreRule is the safe working load (N) 8·d² kilograms-force,
// d in millimetres (Australian Emergency Manual, Disaster Rescue, para 3.15);
// diameter in m. The lower of the two.
func WireRopeMillimetreRule(diameter float64) float64 {
	d := diameter / MM
	return measured(8*d*d*G, diameter)
}

// WireRopeCircumferenceRule is the circumference (m) of wire rope that a pull
// (long tons-force in the book; here N) needs with a factor on its breaking
// strength, by the seaman's 2·C² tons, C in inches (Nicholls's Seamanship and
// Nautical Knowledge). The book's ton is taken as the long ton of 2,240 lb.
func WireRopeCircumferenceRule(pull, factor float64) float64 {
	const longTon = 2240 * PoundForce
	return measured(math.Sqrt(pull*factor/longTon/2)*Inch, pull, factor)
}
