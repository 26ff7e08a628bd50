package rigging

import "math"

// A Tree is the standing tree, its crown and its lean. Lengths along the
// stem are measured from the ground.
type Tree struct {
	Height     float64 // m, along the stem
	Diameter   float64 // m, at breast height over bark
	FormFactor float64 // stem volume over that of a cylinder of the same diameter and height, 0.2 to 1
	Density    float64 // kg/m³, green, with bark
	Strength   float64 // Pa, green bending strength

	CrownShare         float64 // crown mass over whole stem mass
	CrownCentre        float64 // m along the stem
	CrownOffset        float64 // m, level shift of the crown's centre off the stem axis
	CrownOffsetBearing float64 // rad
	CrownArea          float64 // m², facing the wind
	DragCoefficient    float64

	Lean        float64 // rad from plumb
	LeanBearing float64 // rad
	Cavity      float64 // m, diameter of a cavity in the hinge

	// Sections is the stem measured at several heights, which then gives its
	// volume and centre in place of diameter and form factor; nil where it was
	// not. Its Height is this Height.
	Sections *StemSections

	// Measured mass above the hinge (kg) and height of its centre along the
	// stem (m); 0 where not measured.
	Mass, MassCentre float64
}

// Axis is the unit vector up the stem.
func (t Tree) Axis() Vec {
	return AtBearing(t.LeanBearing, math.Sin(t.Lean), math.Cos(t.Lean))
}

// StemVolume is V = f·(π/4)·D²·H in m³, the form-factor volume of forest
// mensuration (any text; from memory: Husch, Beers & Kershaw, Forest
// Mensuration); or that of the measured sections, NaN where they make no stem.
func (t Tree) StemVolume() float64 {
	if t.Sections != nil {
		volume, _ := t.stemAbove(0)
		return volume
	}
	return t.FormFactor * math.Pi / 4 * t.Diameter * t.Diameter * t.Height
}

// stemAbove is the volume (m³) of the stem above a height (m) and the height
// of its centre (m): by its sections, or of the solid of revolution that Body
// tells of.
func (t Tree) stemAbove(height float64) (volume, centre float64) {
	if t.Sections != nil {
		volume, centre, err := t.Sections.Volume(height)
		if err != nil {
			return math.NaN(), math.NaN()
		}
		return volume, centre
	}
	f := t.FormFactor
	return t.StemVolume() * math.Pow(1-height/t.Height, 1/f), height + (t.Height-height)*f/(1+f)
}

// A Body is what the hinge carries: the tree above it as one mass. Places
// are from the middle of the hinge, with the tree standing.
type Body struct {
	StemMass     float64 // kg, whole stem from volume and density
	CrownMass    float64 // kg
	Mass         float64 // kg above the hinge, with crown, or as measured
	Weight       float64 // N
	CentreHeight float64 // m along the stem from the ground
	Centre       Vec     // mass centre
	CrownCentre  Vec     // on the stem axis, where the wind acts
}

// Body gives the tree above a hinge at height stump (m).
//
// The stem is the solid of revolution whose volume above height z is
// V·(1 − z/H)^(1/f), so that f = 1/3 is the cone, 1/2 the paraboloid and 1
// the cylinder; the part above the hinge has its centre at
// s + (H − s)·f/(1 + f), which gives those solids' H/4, H/3 and H/2
// (integral calculus). Measured sections give both in its place.
func (t Tree) Body(stump float64) Body {
	var b Body
	b.StemMass = t.Density * t.StemVolume()
	b.CrownMass = t.CrownShare * b.StemMass
	above, centre := t.stemAbove(stump)
	above *= t.Density

	b.Mass = above + b.CrownMass
	b.CentreHeight = (above*centre + b.CrownMass*t.CrownCentre) / b.Mass
	// A crown that hangs to a side still does so when mass or centre height
	// have been measured, so its share of the shift is kept.
	shift := AtBearing(t.CrownOffsetBearing, t.CrownOffset*b.CrownMass/b.Mass, 0)
	if t.Mass > 0 {
		b.Mass = t.Mass
	}
	if t.MassCentre > 0 {
		b.CentreHeight = t.MassCentre
	}
	b.Weight = b.Mass * G
	axis := t.Axis()
	b.Centre = axis.Scale(b.CentreHeight - stump).Add(shift)
	b.CrownCentre = axis.Scale(t.CrownCentre - stump)
	return b
}

// WindForce is ½·ρ·Cd·A·v² in N on the crown for a wind of speed v (m/s);
// the velocity-squared form is the one Arboriculture & Urban Forestry
// 31(3):101 (2005) judges right for trees.
func (t Tree) WindForce(speed float64) float64 {
	return 0.5 * AirDensity * t.DragCoefficient * t.CrownArea * speed * speed
}
