package rigging

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// An Anchor holds a point. Hold takes the pull on it (N) and gives the load
// that matters for its kind and what it holds against that load, both in N.
// A capacity below nothing is nothing. Whatever the numbers say, each is an
// estimate until a competent person has judged the anchor in place.
type Anchor interface {
	Hold(pull Vec) (load, capacity float64, err error)
}

// RatedAnchor is a plate, or a stump or rock that a competent person has
// judged, by its number. The whole pull counts.
type RatedAnchor struct{ Capacity float64 } // N

// Hold implements Anchor.
func (a RatedAnchor) Hold(pull Vec) (float64, float64, error) {
	return pull.Norm(), a.Capacity, nil
}

// MachineAnchor is a machine on its wheels or tracks. The level pull counts.
type MachineAnchor struct {
	Mass     float64 // kg
	Traction float64 // coefficient of traction on its ground
	Slope    float64 // rad, positive where the pull drags it downhill
	Rated    float64 // N, its rated pull
}

// Hold implements Anchor: the least of the rated pull and the grip. A machine
// that does not stand still by itself holds nothing.
func (a MachineAnchor) Hold(pull Vec) (float64, float64, error) {
	grip := a.Grip(pull.Z)
	if grip == 0 { // whatever it is rated for
		return pull.Horizontal(), 0, nil
	}
	return pull.Horizontal(), math.Max(0, math.Min(a.Rated, grip)), nil
}

// Grip is the level pull (N) that the ground holds under an uplift (N), 0 where
// the machine slides or lifts by itself: (m·g − uplift)·tan(arctan μ − α). The
// force on the ground, level pull and what is left of the weight, must lie
// within the friction angle of the square to the slope (statics). +Inf where
// grip and slope together lean back past level: no pull slides it then.
func (a MachineAnchor) Grip(uplift float64) float64 {
	if !a.Stands(uplift) {
		return 0
	}
	lean := math.Atan(a.Traction) - a.Slope
	if lean >= math.Pi/2 {
		return math.Inf(1)
	}
	return (a.Mass*G - uplift) * math.Tan(lean)
}

// Stands says whether the machine stays where it is before anything pulls
// level on it: the slope, up or down, is no steeper than its grip holds, and an
// uplift (N) does not lift it off its ground. Statics.
func (a MachineAnchor) Stands(uplift float64) bool {
	// Put so that what is not known does not come to nothing.
	return !(a.Mass*G <= uplift || a.Traction < math.Abs(math.Tan(a.Slope)))
}

// LeastArm is the arm (m) by which a pull on a tree counts at least: nearer to
// the ground the roots are sheared rather than turned, and the turning figures
// no longer say what they hold. Our own rule, from memory.
const LeastArm = 1.0

// TreeAnchor is a standing tree with a sling round it, or its stump. The level
// pull counts, by its moment about the ground.
type TreeAnchor struct {
	Diameter, Height float64 // m
	FormFactor       float64
	Density          float64 // kg/m³ green
	Turning          float64 // N·m of critical turning moment per kg of stem
	SlingHeight      float64 // m above ground
	Factor           float64 // critical moment over allowed moment, at least 1
}

// Hold implements Anchor: the base moment is level pull × arm, the sling's
// height but at least LeastArm, and the allowed one turning × stem mass ÷
// factor. The turning figures come from whole trees pulled high on the stem
// (K. Byrne, UBC 2005); of a stump there is no table, so it goes by the tree it
// was.
func (a TreeAnchor) Hold(pull Vec) (float64, float64, error) {
	stem := Tree{Height: a.Height, Diameter: a.Diameter, FormFactor: a.FormFactor}
	allowed := a.Turning * a.Density * stem.StemVolume() / a.Factor
	return pull.Horizontal(), allowed / math.Max(LeastArm, a.SlingHeight), nil
}

// BuriedLogAnchor is a log in a trench across the pull (a deadman). The
// whole pull counts, at its own slope.
type BuriedLogAnchor struct {
	Depth, Length, Diameter float64 // m; depth to the middle of the log's face
	Slot                    float64 // m, width of the slot for the rope
	SoilFactor              float64
	Factor                  float64 // of what lets go over what is counted on, at least 1
}

// Hold implements Anchor by BuriedLogCapacity ÷ factor.
func (a BuriedLogAnchor) Hold(pull Vec) (float64, float64, error) {
	capacity, err := BuriedLogCapacity(a.Depth, math.Max(0, pull.Elevation()), a.Diameter, a.Length, a.Slot, a.SoilFactor)
	return pull.Norm(), capacity / a.Factor, err
}

// GroundFactor divides what the tables say of buried logs and pickets, which is
// what lets go. Common practice, no source.
const GroundFactor = 2.0

// PicketAnchor is rows of pickets lashed together, front row first. The
// whole pull counts.
type PicketAnchor struct {
	Rows       []int
	SoilFactor float64
	Factor     float64 // of what lets go over what is counted on, at least 1
}

// Hold implements Anchor by PicketCapacity ÷ factor.
func (a PicketAnchor) Hold(pull Vec) (float64, float64, error) {
	capacity, err := PicketCapacity(a.Rows, a.SoilFactor)
	return pull.Norm(), capacity / a.Factor, err
}

// A Bridle shares a junction's pull between two or three legs.
type Bridle struct {
	Legs          []Vec // m, from the junction to each leg's point
	SelfAdjusting bool  // the legs run through a ring and pull alike
}

// Shared is how a bridle carries a pull. Tensions are in N.
type Shared struct {
	Tension []float64
	Slack   []bool // the leg would have to push, so it hangs slack
	// Off is the angle (rad) between the pull and the nearest direction in
	// which the taut legs can hold it; the junction moves until it is none.
	Off float64
}

// RingPlace is where a ring comes to rest on a sling whose two ends are made
// fast, in half lengths of the sling, from where it rests under a pull along
// the middle: x toward the side the pull goes to, y toward the two ends. half
// is half the angle between the legs there (rad, above 0, below 90°), off the
// pull's angle from the middle (rad, within 90° either way). The ring keeps to
// an ellipse about the ends and rests where the pull halves the angle between
// the legs, since both pull alike (geometry of the ellipse).
func RingPlace(half, off float64) (x, y float64) {
	sin, cos := math.Sincos(math.Atan(math.Tan(off) / math.Cos(half)))
	return sin, math.Cos(half) * (1 - cos)
}

// What keeps a shared anchor from holding a pull.
var (
	ErrLegsTogether = errors.New("the legs of the shared anchor lie in one straight line, so their tensions cannot be told apart")
	ErrLegsAcross   = errors.New("the legs of the shared anchor lie in one straight line, so no tension in them can hold a pull across it")
	ErrLegsPush     = errors.New("every leg of the shared anchor would have to push: the legs do not lie against the pull")
)

// Share gives the legs' tensions under a pull (N) on the junction.
//
// Fixed legs carry it by equilibrium of the junction; a leg that would push
// is slack and the others carry it. Where the taut legs cannot reach the
// pull's direction (two legs, or three in one plane, and a pull out of it),
// the junction moves into line, so the full pull is taken along the nearest direction
// they hold. Self-adjusting legs carry equal tension, F ÷ |Σ unit vectors|,
// which is F/(2·cos(γ/2)) for two legs with γ between them.
func (b Bridle) Share(pull Vec) (Shared, error) {
	var out Shared
	err := b.ShareInto(&out, pull)
	return out, err
}

// ShareInto is Share into one whose room is used again.
func (b Bridle) ShareInto(out *Shared, pull Vec) error {
	n := len(b.Legs)
	out.clear(n)
	if n < 2 || n > 3 {
		return fmt.Errorf("a shared anchor has %d legs; it needs two or three", n)
	}
	var units [3]Vec
	var sum Vec
	for i, leg := range b.Legs {
		u, err := leg.Unit()
		if err != nil {
			return fmt.Errorf("leg %d of the shared anchor has no length", i+1)
		}
		units[i] = u
		sum = sum.Add(u)
	}
	size := pull.Norm()
	if size == 0 {
		return nil
	}
	if b.SelfAdjusting {
		total := sum.Norm()
		if total < 1e-6 {
			return ErrLegsAcross
		}
		out.Off = angleBetween(pull, sum.Scale(-1))
		if out.Off > math.Pi/2-1e-6 {
			return ErrLegsPush
		}
		for i := range out.Tension {
			out.Tension[i] = size / total
		}
		return nil
	}
	err := fixedLegs(out, units[:n], []int{0, 1, 2}[:n], pull)
	if n == 3 && errors.Is(err, ErrLegsTogether) {
		*out, err = worstPairs(units[:], pull)
	}
	return err
}

// clear makes it one of n legs that carry nothing.
func (s *Shared) clear(n int) {
	if cap(s.Tension) < n {
		s.Tension, s.Slack = make([]float64, n), make([]bool, n)
	}
	s.Tension, s.Slack, s.Off = s.Tension[:n], s.Slack[:n], 0
	clear(s.Tension)
	clear(s.Slack)
}

// fixedLegs is the equilibrium of a junction held by the legs listed, into one
// that is clear. The list is used up.
func fixedLegs(out *Shared, units []Vec, taut []int, pull Vec) error {
	size := pull.Norm()
	against := pull.Scale(-1) // a leg holds the pull by drawing against it
	for len(taut) > 0 {
		t, ok := leastSquares(units, taut, against)
		if !ok {
			return ErrLegsTogether
		}
		worst, at := -1e-9*size, -1
		for k, v := range t[:len(taut)] {
			if v < worst {
				worst, at = v, k
			}
		}
		if at >= 0 {
			out.Slack[taut[at]] = true
			taut = append(taut[:at], taut[at+1:]...)
			continue
		}
		var held Vec
		for k, i := range taut {
			held = held.Add(units[i].Scale(t[k]))
		}
		h := held.Norm()
		if h < 1e-6*size {
			break
		}
		out.Off = angleBetween(held, against)
		for k, i := range taut {
			out.Tension[i] = math.Max(0, t[k]) * size / h
		}
		return nil
	}
	return ErrLegsPush
}

// worstPairs bounds three legs in one plane, whose tensions statics alone
// cannot tell apart: every way for them to hold the pull lies between those
// in which two of them do, so each leg is given the most it carries in any
// pair.
func worstPairs(units []Vec, pull Vec) (Shared, error) {
	out := Shared{Tension: make([]float64, 3), Slack: []bool{true, true, true}, Off: math.Inf(1)}
	err := ErrLegsTogether
	for _, pair := range [][]int{{0, 1}, {0, 2}, {1, 2}} {
		two := Shared{Tension: make([]float64, 3), Slack: make([]bool, 3)}
		if e := fixedLegs(&two, units, slices.Clone(pair), pull); e != nil {
			continue
		}
		err = nil
		out.Off = math.Min(out.Off, two.Off)
		for _, i := range pair {
			out.Tension[i] = math.Max(out.Tension[i], two.Tension[i])
			out.Slack[i] = out.Slack[i] && two.Slack[i]
		}
	}
	return out, err
}

// leastSquares solves Σ t_i·u_i ≈ f for the legs listed in taut through the
// normal equations, by Cramer's rule; at most three unknowns.
func leastSquares(units []Vec, taut []int, f Vec) (t [3]float64, ok bool) {
	n := len(taut)
	var a [3][3]float64
	var r [3]float64
	for i := range n {
		for j := range n {
			a[i][j] = units[taut[i]].Dot(units[taut[j]])
		}
		r[i] = units[taut[i]].Dot(f)
	}
	for i := n; i < 3; i++ {
		a[i][i] = 1
	}
	det := func(m [3][3]float64) float64 {
		return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) -
			m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) +
			m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
	}
	d := det(a)
	if math.Abs(d) < 1e-9 { // unit vectors: legs within about 2 arc minutes of one line or plane
		return t, false
	}
	for k := range n {
		m := a
		for i := range 3 {
			m[i][k] = r[i]
		}
		t[k] = det(m) / d
	}
	return t, true
}

func angleBetween(v, w Vec) float64 {
	return math.Atan2(v.Cross(w).Norm(), v.Dot(w))
}
