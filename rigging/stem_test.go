package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r3"
)

// bent1 is the stem of a set-up at one turn with all its lines at tensions.
func bent1(t *testing.T, s *Setup, defects []StemDefect, turn float64, tensions ...float64) (*Bending, StemStress) {
	t.Helper()
	b, ok := s.Bending(s.Tree.Body(s.Stump), defects)
	require.True(t, ok)
	states := make([]*LineState, len(s.Lines))
	for i := range s.Lines {
		st, err := s.Lines[i].At(turn)
		require.NoError(t, err)
		states[i] = &st
	}
	return b, b.Greatest(1, func(int) (float64, []*LineState, []float64) { return turn, states, tensions })
}

// levelPull is a stem without weight to speak of, pulled square to itself.
func levelPull(tree Tree, stump, tie float64) *Setup {
	tree.Density = 1e-12
	return &Setup{Tree: tree, Stump: stump, Lines: []Line{{Share: 1, Path: []Station{
		StemStation(tree, stump, tie, 1), {At: Vec{50, 0, tie - stump}}}}}}
}

// A tapered cantilever of round section, twice as thick at its support as at
// its loaded end: the greatest stress is 128·P·L/(27·π·d³) half-way along, where
// it is 1.5 times as thick as at the end, and 4·P·L/(π·d³) at the support. Gere &
// Goodno, Mechanics of Materials, nonprismatic beams (from memory).
func TestStemAgainstTaperedCantilever(t *testing.T) {
	const height, thick, pull, length = 30.0, 0.8, 20e3, 15.0
	s := levelPull(Tree{Height: height, Diameter: thick, FormFactor: 1.0 / 3}, 0, length)
	b, got := bent1(t, s, nil, 0, pull)
	end := UnderBark * thick / 2
	assert.InEpsilon(t, 128*pull*length/(27*math.Pi*cube(end)), got.Stress, 1e-7)
	assert.InDelta(t, length/2, got.Height, 0.01)
	assert.InEpsilon(t, 1.5*end, got.Diameter, 1e-3)

	at := b.at(0, []*LineState{{Units: []Vec{{X: 1}}, Multiple: []float64{1}}}, []float64{pull})
	assert.InEpsilon(t, 4*pull*length/(math.Pi*cube(end)), at.moment(&b.sections[0])/b.sections[0].modulus, 1e-7)
}

// A cylinder under a load at its end is worked hardest at its support,
// 32·P·L/(π·d³); a hollow one by d⁴/(d⁴ − c⁴) more (beam theory, any text).
func TestStemAgainstCylinder(t *testing.T) {
	const thick, pull, length, stump = 0.6, 30e3, 12.0, 0.5
	s := levelPull(Tree{Height: 25, Diameter: thick, FormFactor: 1}, stump, length)
	d := UnderBark * thick
	whole := 32 * pull * (length - stump) / (math.Pi * cube(d))
	_, got := bent1(t, s, nil, 0, pull)
	assert.InEpsilon(t, whole, got.Stress, 1e-7)
	assert.Equal(t, stump, got.Height)

	c := 0.4
	_, got = bent1(t, s, []StemDefect{{HollowDefect, stump, c}}, 0, pull)
	assert.InEpsilon(t, whole*d*d*d*d/(d*d*d*d-c*c*c*c), got.Stress, 1e-7)
	_, got = bent1(t, s, []StemDefect{{HollowDefect, 6, d}}, 0, pull)
	assert.True(t, math.IsInf(got.Stress, 1), "nothing is left")
	assert.Equal(t, 6.0, got.Height)
}

// Girths of a cone, measured anywhere, are that cone again.
func TestStemBySectionsAgainstLaw(t *testing.T) {
	const height, thick = 30.0, 0.8
	law := levelPull(Tree{Height: height, Diameter: thick, FormFactor: 1.0 / 3}, 0, 20)
	tree := law.Tree
	tree.Sections = &StemSections{Height: height}
	for _, z := range []float64{0, 2, 9, 17, 24} {
		tree.Sections.Points = append(tree.Sections.Points, DiameterAt{z, thick * (1 - z/height)})
	}
	_, want := bent1(t, law, nil, 0, 1e4)
	_, got := bent1(t, levelPull(tree, 0, 20), nil, 0, 1e4)
	assert.InEpsilon(t, want.Stress, got.Stress, 1e-6)
	assert.InDelta(t, want.Height, got.Height, 0.02)
	// Below the lowest girth nothing thicker is relied on.
	points, err := tree.Sections.sorted()
	require.NoError(t, err)
	assert.Equal(t, points[1].Diameter, tree.Sections.relied(points[1:], 0.5))
}

// At any height the moment is that of the forces and of thin slices of the stem
// summed in the ground's own axes (gonum's quadrature and vectors), and at the
// hinge that of the whole body.
func TestStemMomentAgainstSlices(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	for range 100 {
		s := randomSetup(r)
		s.Tree.Mass, s.Tree.MassCentre = 0, 0
		body := s.Tree.Body(s.Stump)
		turn, tensions := 70*Deg*r.Float64(), make([]float64, len(s.Lines))
		for i := range tensions {
			tensions[i] = 4e4 * r.Float64()
		}
		b, _ := bent1(t, &s, nil, turn, tensions...)
		states := make([]*LineState, len(s.Lines))
		for i := range s.Lines {
			st, err := s.Lines[i].At(turn)
			require.NoError(t, err)
			states[i] = &st
		}
		at := b.at(turn, states, tensions)
		axis := s.Tree.Axis().Turned(turn)
		square := func(m r3.Vec) float64 { return r3.Norm(r3.Sub(m, r3.Scale(r3.Dot(m, r3.Vec(axis)), r3.Vec(axis)))) }
		shift := b.shift.Turned(turn)
		for k := range b.sections {
			z := b.sections[k].height
			from := axis.Scale(z - s.Stump)
			var m r3.Vec
			add := func(place, force Vec) { m = r3.Add(m, r3.Cross(r3.Vec(place.Sub(from)), r3.Vec(force))) }
			for i, l := range s.Lines {
				for n, st := range l.Path {
					if height := s.Stump + st.At.Norm(); st.OnStem && height > z {
						add(axis.Scale(height-s.Stump), states[i].Force(n).Scale(tensions[i]))
					}
				}
			}
			// In the measure in which the law has no kink at the tip.
			tree, e := s.Tree, 1/s.Tree.FormFactor
			level := quad.Fixed(func(u float64) float64 {
				h := tree.Height * (1 - u)
				return tree.Density * G * tree.StemVolume() * e * math.Pow(u, e-1) * (h - z)
			}, 0, 1-z/tree.Height, 60, nil, 0)
			add(axis.Scale(z-s.Stump+1), Vec{Z: -level})
			if z <= tree.CrownCentre {
				add(axis.Scale(tree.CrownCentre-s.Stump).Add(shift), Vec{Z: -G * body.CrownMass})
			}
			want := square(m)
			assert.InDelta(t, want, at.moment(&b.sections[k]), 1e-6*want+1e-3)
		}
		var whole r3.Vec
		whole = r3.Cross(r3.Vec(body.Centre.Turned(turn)), r3.Vec{Z: -body.Weight})
		for i, l := range s.Lines {
			for n, st := range l.Path {
				if st.OnStem {
					whole = r3.Add(whole, r3.Cross(r3.Vec(st.At.Turned(turn)), r3.Vec(states[i].Force(n).Scale(tensions[i]))))
				}
			}
		}
		assert.InEpsilon(t, square(whole), at.moment(&b.sections[0]), 1e-6)
	}
}

// A measured mass and centre leave at the hinge the moment of that body.
func TestStemCarriesTheMeasuredBody(t *testing.T) {
	s := levelPull(Tree{Height: 30, Diameter: 0.7, FormFactor: 0.45, CrownShare: 0.2, CrownCentre: 20, Lean: 6 * Deg, LeanBearing: 100 * Deg}, 0.4, 14)
	s.Tree.Density = 900
	s.Tree.Mass, s.Tree.MassCentre = 7000, 13
	b, _ := bent1(t, s, nil, 0, 0)
	at := b.at(0, []*LineState{{Units: []Vec{{X: 1}}, Multiple: []float64{1}}}, []float64{0})
	assert.InEpsilon(t, 7000*G*(13-0.4)*math.Sin(6*Deg), at.moment(&b.sections[0]), 1e-9)
}

// At the tie the moment is only that of the weight above.
func TestStemAtTheTie(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	for range 50 {
		s := randomSetup(r)
		slack := make([]float64, len(s.Lines))
		tight := make([]float64, len(s.Lines))
		for i := range tight {
			tight[i] = 5e4
		}
		b, _ := bent1(t, &s, nil, 0, slack...)
		top := &b.sections[len(b.sections)-1]
		states := make([]*LineState, len(s.Lines))
		for i := range s.Lines {
			st, err := s.Lines[i].At(0)
			require.NoError(t, err)
			states[i] = &st
		}
		at := b.at(0, states, slack)
		want := at.moment(top)
		at = b.at(0, states, tight)
		assert.InDelta(t, want, at.moment(top), 1e-9*want)
	}
}

// A line's pull square to the stem bends it in proportion; with the weight the
// stress never sags below the line between two tensions, and where line and weight
// bend it the same way more tension is never less stress. No defect helps.
func TestStemStressGrows(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	for range 100 {
		s := randomSetup(r)
		s.Lines = s.Lines[:1]
		turn := 80 * Deg * r.Float64()
		low, more := 3e4*r.Float64(), 3e4*r.Float64()
		_, a := bent1(t, &s, nil, turn, low)
		_, b := bent1(t, &s, nil, turn, low+more)
		_, c := bent1(t, &s, nil, turn, low+2*more)
		assert.LessOrEqual(t, b.Stress, (a.Stress+c.Stress)/2*(1+1e-5))

		z := s.Stump + r.Float64()*s.Lines[0].Path[0].At.Norm()
		kind := DefectKinds[r.IntN(len(DefectKinds))]
		_, weak := bent1(t, &s, []StemDefect{{kind, z, s.Tree.Diameter * r.Float64() / 2}}, turn, low)
		assert.GreaterOrEqual(t, weak.Stress, a.Stress*(1-1e-5), kind)

		plumb := s
		plumb.Tree.Lean, plumb.Tree.CrownOffset = 0, 0
		plumb.Lines = []Line{{Share: 1, Path: []Station{StemStation(plumb.Tree, s.Stump, 0.5*s.Tree.Height, 1), {At: Vec{X: 60}}}}}
		_, a = bent1(t, &plumb, nil, turn/4, low)
		_, b = bent1(t, &plumb, nil, turn/4, low+more)
		assert.GreaterOrEqual(t, b.Stress, a.Stress*(1-1e-5))
	}
}

func TestStemOfWhatIsNotKnown(t *testing.T) {
	s := levelPull(Tree{Height: 30, Diameter: 0.8, FormFactor: 0.4}, 0.4, 14)
	_, got := bent1(t, s, nil, 0, math.NaN())
	assert.True(t, math.IsNaN(got.Stress))
	s.Tree.Sections = &StemSections{Height: 30}
	_, ok := s.Bending(s.Tree.Body(s.Stump), nil)
	assert.False(t, ok)
	s.Tree.Sections, s.Lines = nil, nil
	_, ok = s.Bending(s.Tree.Body(s.Stump), nil)
	assert.False(t, ok)
}
