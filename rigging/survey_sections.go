package rigging

import (
	"math"
	"slices"
)

// DiameterAt is a diameter (m, over bark) at a height (m, along the stem from
// the ground).
type DiameterAt struct {
	Height   float64 `json:"height"`
	Diameter float64 `json:"diameter"`
}

// StemSections is a stem measured at any number of heights.
//
// Between the points the area of the cross-section runs as the section formula
// says: by Newton where three points stand equally spaced (to 10 cm) and the
// middle one lies in the run of the other two, a parabola through the three
// areas; else by Smalian, a straight line between two. From the last point to the
// tip it is a cone. From the first point down it is the heavier of a cylinder
// and of the taper of the two lowest diameters drawn on to the ground (with
// one point, of the cone to the tip): a flare left out would make the stem too
// light, and more wood anywhere above the hinge makes the weight's moment about
// it larger, never smaller. On a stem that leans to the lay that weight helps
// instead: measure the flare there, so that nothing rests on this choice.
//
// Sources: Smalian and Newton as in SmalianVolume and NewtonVolume.
type StemSections struct {
	Height float64      `json:"height"` // m, along the stem from the ground to the tip
	Points []DiameterAt `json:"points"` // in any order, one or more, below the tip
}

// spacingSlack (m) is how far three heights may be from equally spaced and
// still count so: heights along a stem are read to about 10 cm. The parabola
// goes through the heights as given.
const spacingSlack = 0.1

// leastTip (m) is the least stem above a height that anything is said of.
const leastTip = CM

var (
	stemHeightReading    = SurveyReading{Key: "height", Name: "the height of the tree along the stem", Unit: "m", Least: 0.5, Most: 150, Accuracy: "tape"}
	pointHeightReading   = SurveyReading{Key: "point_height", Name: "the height of a diameter along the stem", Unit: "m", Least: 0, Most: 150, Accuracy: "tape"}
	pointDiameterReading = SurveyReading{Key: "point_diameter", Name: "a diameter over bark", Unit: "m", Least: 0.005, Most: 12, Accuracy: "girth"}
	hingeHeightReading   = SurveyReading{Key: "above", Name: "the height of the hinge along the stem", Unit: "m", Least: 0, Most: 150, Accuracy: "exact"}
)

// sorted is a copy of the points from the ground up, or a *ReadingError.
func (s StemSections) sorted() ([]DiameterAt, error) {
	if err := stemHeightReading.check(Measured{s.Height, 0}); err != nil {
		return nil, err
	}
	if len(s.Points) == 0 {
		return nil, &ReadingError{"points", "the number of diameters", "0", "1 or more"}
	}
	points := slices.Clone(s.Points)
	for _, p := range points {
		if err := pointHeightReading.check(Measured{p.Height, 0}); err != nil {
			return nil, err
		}
		if err := pointDiameterReading.check(Measured{p.Diameter, 0}); err != nil {
			return nil, err
		}
		if !(p.Height <= s.Height-leastTip) {
			return nil, pointHeightReading.wrong(p.Height, "1 cm or more below the tip at "+stemHeightReading.text(s.Height))
		}
	}
	slices.SortFunc(points, func(a, b DiameterAt) int {
		if a.Height < b.Height {
			return -1
		}
		if a.Height > b.Height {
			return 1
		}
		return 0
	})
	for i := 1; i < len(points); i++ {
		if points[i].Height-points[i-1].Height < CM {
			return nil, pointHeightReading.wrong(points[i].Height, "1 cm or more from the height of the next diameter")
		}
	}
	return points, nil
}

// groundDiameter is the heavier reading of the butt below the lowest point.
func (s StemSections) groundDiameter(points []DiameterAt) float64 {
	low, next := points[0], DiameterAt{s.Height, 0}
	if len(points) > 1 {
		next = points[1]
	}
	taper := (low.Diameter - next.Diameter) / (next.Height - low.Height)
	return low.Diameter + math.Max(0, taper*low.Height)
}

// DiameterAt is the diameter (m) at a height (m, 0 to the tip) by straight
// lines between the points, to the tip, and below the lowest point as the
// volume takes it. Between points the volume's own sections may be a little
// thicker than this.
func (s StemSections) DiameterAt(height float64) (float64, error) {
	points, err := s.sorted()
	if err != nil {
		return 0, err
	}
	if !(height >= 0 && height <= s.Height) {
		return 0, hingeHeightReading.wrong(height, "0 to the tip at "+stemHeightReading.text(s.Height))
	}
	last := DiameterAt{0, s.groundDiameter(points)}
	for _, p := range append(points, DiameterAt{s.Height, 0}) {
		if height <= p.Height {
			if p.Height == last.Height {
				return p.Diameter, nil
			}
			share := (height - last.Height) / (p.Height - last.Height)
			return last.Diameter + share*(p.Diameter-last.Diameter), nil
		}
		last = p
	}
	return 0, nil
}

// A stemPiece is a stretch of stem over which the area runs as a parabola,
// given at the three heights.
type stemPiece struct {
	at       [3]float64 // m
	area     [3]float64 // m²
	accuracy float64    // share of its volume, 95 %
}

// Shares of a section's volume by which its shape may be off (95 %), for
// sections up to goodLength and in proportion beyond. Goulding, NZ J. For. Sci.
// 9(1):89 (1979), abstract: Smalian's error grows past 8 % when sections are
// longer than 5 m, Newton's formula about halves it. Butt and tip take
// Smalian's; derived.
const (
	smalianAccuracy = 0.08
	newtonAccuracy  = 0.04
	goodLength      = 5.0 // m
)

func newStemPiece(from, middle, to, a, b, c, accuracy float64) stemPiece {
	return stemPiece{[3]float64{from, middle, to}, [3]float64{a, b, c}, accuracy * math.Max(1, (to-from)/goodLength)}
}

// taperPiece is a frustum of a cone.
func taperPiece(from, to, d1, d2 float64) stemPiece {
	return newStemPiece(from, (from+to)/2, to, circle(d1), circle((d1+d2)/2), circle(d2), smalianAccuracy)
}

// areaAt is the parabola through the three areas (Lagrange).
func (p stemPiece) areaAt(h float64) float64 {
	a, b, c := h-p.at[0], h-p.at[1], h-p.at[2]
	ab, bc, ac := p.at[0]-p.at[1], p.at[1]-p.at[2], p.at[0]-p.at[2]
	return p.area[0]*b*c/(ab*ac) - p.area[1]*a*c/(ab*bc) + p.area[2]*a*b/(ac*bc)
}

// above is the volume (m³) of the piece above a height and its moment about
// the ground (m⁴), both exact: Simpson's rule takes cubics.
func (p stemPiece) above(height float64) (volume, moment float64) {
	from, to := math.Max(p.at[0], height), p.at[2]
	if from >= to {
		return 0, 0
	}
	m := (from + to) / 2
	a, b, c := p.areaAt(from), p.areaAt(m), p.areaAt(to)
	return (to - from) / 6 * (a + 4*b + c), (to - from) / 6 * (a*from + 4*b*m + c*to)
}

// runsOn is whether the parabola stays between its end areas, so that it is
// the middle of one run and not a dip or a bulge the points do not show.
func (p stemPiece) runsOn() bool {
	// Slopes at both ends have one sign (or are flat, as a cone's at its tip).
	first, last := p.slopeAt(p.at[0]), p.slopeAt(p.at[2])
	slack := 1e-9 * math.Max(math.Abs(first), math.Abs(last))
	return first <= slack && last <= slack || first >= -slack && last >= -slack
}

func (p stemPiece) slopeAt(h float64) float64 {
	a, b, c := h-p.at[0], h-p.at[1], h-p.at[2]
	ab, bc, ac := p.at[0]-p.at[1], p.at[1]-p.at[2], p.at[0]-p.at[2]
	return p.area[0]*(b+c)/(ab*ac) - p.area[1]*(a+c)/(ab*bc) + p.area[2]*(a+b)/(ac*bc)
}

// pieces are the stem from the ground to the tip.
func (s StemSections) pieces(points []DiameterAt) []stemPiece {
	var pieces []stemPiece
	if low := points[0]; low.Height >= MM { // lower is the ground
		pieces = append(pieces, taperPiece(0, low.Height, s.groundDiameter(points), low.Diameter))
	}
	for i := 0; i+1 < len(points); {
		a, b := points[i], points[i+1]
		if i+2 < len(points) {
			c := points[i+2]
			p := newStemPiece(a.Height, b.Height, c.Height, circle(a.Diameter), circle(b.Diameter), circle(c.Diameter), newtonAccuracy)
			if math.Abs(a.Height+c.Height-2*b.Height) <= spacingSlack && p.runsOn() {
				pieces = append(pieces, p)
				i += 2
				continue
			}
		}
		from, to := circle(a.Diameter), circle(b.Diameter)
		pieces = append(pieces, newStemPiece(a.Height, (a.Height+b.Height)/2, b.Height, from, (from+to)/2, to, smalianAccuracy))
		i++
	}
	last := points[len(points)-1]
	return append(pieces, taperPiece(last.Height, s.Height, last.Diameter, 0))
}

// Volume is the volume (m³, over bark) of the stem above a height (m along the
// stem, such as the hinge's; below the tip) and the height of its centre (m
// along the stem from the ground).
//
// How: measure the girth or diameter at breast height and, with a climber, a
// lift or on a photo, at as many heights as you can, at equal steps of up to
// 5 m, clear of swellings at branches.
func (s StemSections) Volume(above float64) (volume, centre float64, err error) {
	points, err := s.sorted()
	if err != nil {
		return 0, 0, err
	}
	if !(above >= 0 && above <= s.Height-leastTip) {
		return 0, 0, hingeHeightReading.wrong(above, "0 to 1 cm below the tip at "+stemHeightReading.text(s.Height))
	}
	volume, centre, _ = s.volume(points, above)
	return volume, centre, nil
}

// volume also gives the ± of the volume that the shape of the sections has,
// all off to one side together.
func (s StemSections) volume(points []DiameterAt, above float64) (volume, centre, shape float64) {
	var moment float64
	for _, p := range s.pieces(points) {
		v, m := p.above(above)
		volume, moment, shape = volume+v, moment+m, shape+v*p.accuracy
	}
	return volume, moment / volume, shape
}

// Mass is Volume × green density over bark (kg/m³): the mass (kg) of the stem
// above a height and its centre. The crown is not in it.
func (s StemSections) Mass(above, density float64) (mass, centre float64, err error) {
	if err := positive("the green density", density, "kg/m³"); err != nil {
		return 0, 0, err
	}
	volume, centre, err := s.Volume(above)
	return volume * density, centre, err
}

// StemErrors are the ± (95 %) of the measures of a stem: of its height (m), of
// the heights of its points (m) and of its diameters as a share of each.
type StemErrors struct{ Height, PointHeight, DiameterShare float64 }

// StemMass is the measured stem above a hinge.
type StemMass struct {
	Volume Measured `json:"volume"` // m³
	Mass   Measured `json:"mass"`   // kg
	Centre Measured `json:"centre"` // m along the stem from the ground; the shape's error is not in its ±
}

// Measure is Mass with its ±. Points count as independent of each other; the
// shape of the sections adds the shares of Goulding's abstract. density is in
// kg/m³ with its own ±.
func (s StemSections) Measure(above float64, density Measured, pm StemErrors) (StemMass, error) {
	points, err := s.sorted()
	if err != nil {
		return StemMass{}, err
	}
	if _, _, err := s.Volume(above); err != nil {
		return StemMass{}, err
	}
	readings := []SurveyReading{{Key: "density", Name: "the green density over bark", Unit: "kg/m³", Least: 100, Most: 2000}, stemHeightReading}
	given := []Measured{density, {s.Height, pm.Height}}
	for _, p := range points {
		readings = append(readings, pointHeightReading, pointDiameterReading)
		given = append(given, Measured{p.Height, pm.PointHeight}, Measured{p.Diameter, pm.DiameterShare * p.Diameter})
	}
	if err := checkReadings(readings, given); err != nil {
		return StemMass{}, err
	}
	// Moved points are taken as they come; a point that its ± carries past a
	// neighbour, the tip or the ground tells nothing of the stem.
	with := func(v []float64) (volume, centre float64) {
		moved := StemSections{Height: v[1]}
		for i := 2; i < len(v); i += 2 {
			// The ground is the limit of a height, not a fault of the reading.
			moved.Points = append(moved.Points, DiameterAt{math.Max(0, v[i]), v[i+1]})
		}
		sorted, err := moved.sorted()
		if err != nil || above > moved.Height-leastTip {
			return math.NaN(), math.NaN()
		}
		volume, centre, _ = moved.volume(sorted, above)
		return volume, centre
	}
	var m StemMass
	if m.Volume, err = workOut("the volume", readings, given, func(v []float64) float64 { volume, _ := with(v); return volume }); err != nil {
		return StemMass{}, err
	}
	if m.Centre, err = workOut("the centre", readings, given, func(v []float64) float64 { _, centre := with(v); return centre }); err != nil {
		return StemMass{}, err
	}
	_, _, shape := s.volume(points, above)
	m.Volume.PlusMinus = math.Hypot(m.Volume.PlusMinus, shape)
	m.Mass = Measured{m.Volume.Value * density.Value, math.Hypot(m.Volume.PlusMinus*density.Value, m.Volume.Value*density.PlusMinus)}
	return m, nil
}
