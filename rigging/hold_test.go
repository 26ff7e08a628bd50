package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Hold lines take every side moment they can: with lines to both sides none
// is left on the hinge, those to one side carry the same, the others hang
// slack, and none pushes.
func TestHoldLinesLeaveNoSideMoment(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 1))
	for range 300 {
		tree := randomTree(r)
		var h holdLines
		var states []LineState
		left, right := false, false
		for range r.IntN(5) {
			st, err := randomHold(r, tree, 0.4).At(0)
			require.NoError(t, err)
			h.add(&st)
			states = append(states, st)
			left, right = left || st.Side >= 0.05*st.Arm, right || st.Side <= -0.05*st.Arm
		}
		side := 1e5 * (2*r.Float64() - 1)
		sum, forward, carried := side, 0.0, -1.0
		for i := range states {
			tension := h.on(&states[i], side)
			assert.GreaterOrEqual(t, tension, 0.0)
			sum += tension * states[i].Side
			forward += tension * states[i].Forward
			if side*states[i].Side > 0 {
				assert.Zero(t, tension, "it would pull the tree farther that way")
				continue
			}
			if math.Abs(states[i].Side) < 0.05*states[i].Arm {
				assert.Zero(t, tension, "its lever is too small to count")
				continue
			}
			if carried >= 0 {
				assert.InDelta(t, carried, tension, 1e-9*(1+tension), "lines to one side share alike")
			}
			carried = tension
		}
		assert.InDelta(t, sum, side+h.side(side), 1e-6)
		assert.InDelta(t, forward, h.forward(side), 1e-6*(1+math.Abs(forward)))
		if side > 0 && right || side < 0 && left {
			assert.InDelta(t, 0, sum, 1e-6)
		} else {
			assert.Equal(t, side, sum)
		}
		assert.Zero(t, h.forward(0))
	}
}

// One hold line square to the side against a hand calculation.
func TestHoldByHand(t *testing.T) {
	tree := Tree{Height: 25, Diameter: 0.6, FormFactor: 0.42, Density: 900, Strength: 40 * MPa, Lean: 5 * Deg, LeanBearing: math.Pi / 2, Mass: 4000, MassCentre: 10}
	s := Setup{Tree: tree, FaceOpening: 70 * Deg, Hinge: Hinge{0.5, 0.06, 0.06}, Allowance: 1, Lines: []Line{
		{Share: 1, Path: []Station{StemStation(tree, 0, 12, 0), {At: Vec{50, -12 * math.Sin(5*Deg), 0}}}}, // straight ahead of its attachment
		{Hold: true, Tended: true, Path: []Station{StemStation(tree, 0, 10, 0), {At: Vec{Y: 20}}}},
	}}
	p, err := s.Solve()
	require.NoError(t, err)
	// It leans right by W·10·sin 5°; the hold line pulls left from height
	// 10·cos 5°, offset 10·sin 5° to the right.
	y, z := 10*math.Sin(5*Deg), 10*math.Cos(5*Deg)
	long := math.Hypot(20+y, z)
	arm := (z*(20+y) - y*z) / long
	holds := s.HoldAt(p, p.Standing, []float64{0, 0})
	assert.Zero(t, holds[0])
	assert.InEpsilon(t, 4000*G*10*math.Sin(5*Deg)/arm, holds[1], 1e-9)
	// The pull line runs level with the lay from where it is tied: it only
	// presses the stem down, to the right by the attachment's own offset.
	at := s.HoldAt(p, p.Standing, []float64{1000, 0})
	down := 12 * math.Cos(5*Deg) / math.Hypot(50, 12*math.Cos(5*Deg))
	assert.InEpsilon(t, (4000*G*10*math.Sin(5*Deg)+1000*down*12*math.Sin(5*Deg))/arm, at[1], 1e-9)
	assert.InDelta(t, 0, p.Side.Moment, 1e-6)
	assert.InDelta(t, 0, p.Drift, 1e-9)
}

// growth is how much longer a straight rope from a place on the stem to one
// on the ground gets at a turn, by Pythagoras.
func growth(stem, ground Vec, turn float64) float64 {
	long := func(x, z float64) float64 {
		return math.Sqrt((ground.X-x)*(ground.X-x) + (ground.Y-stem.Y)*(ground.Y-stem.Y) + (ground.Z-z)*(ground.Z-z))
	}
	sin, cos := math.Sin(turn), math.Cos(turn)
	return long(stem.X*cos+stem.Z*sin, stem.Z*cos-stem.X*sin) - long(stem.X, stem.Z)
}

// A hold line made fast at both ends carries what its strain puts on it
// (Hooke), on top of what holds the tree; one that is tended does not. The
// strain is worked out from the two places alone.
func TestFastHoldLineAgainstItsStrain(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 2))
	grown := 0
	for done := 0; done < 300; {
		s := randomSetup(r)
		s.Lines = append(s.Lines[:1], randomHold(r, s.Tree, s.Stump))
		hold := &s.Lines[1]
		hold.Tended, hold.Stiffness = true, 8e6
		tended, err := s.Solve()
		if err != nil {
			continue
		}
		done++
		assert.Zero(t, tended.Stretched[1])
		stem, ground := hold.Path[0].At, hold.Path[1].At
		to := math.Min(tended.Commit, s.FaceOpening)
		most := 0.0
		for i := 0; i <= 2000; i++ {
			most = math.Max(most, growth(stem, ground, to*float64(i)/2000))
		}
		// It may be longest between two whole degrees.
		assert.InDelta(t, most, tended.Stretch[1], 1e-3)

		hold.Tended = false
		fast, err := s.Solve()
		require.NoError(t, err)
		assert.InDelta(t, 8e6*fast.Stretch[1]/ground.Sub(stem).Norm(), fast.Stretched[1], 1e-6*(1+fast.Stretched[1]))
		// What it stretches by is Stretch of the same rope at that tension.
		assert.InDelta(t, fast.Stretch[1], Stretch(fast.Stretched[1], ground.Sub(stem).Norm(), 8e6), 1e-9)
		assert.InDelta(t, tended.Tension[1]+fast.Stretched[1], fast.Tension[1], 1e-6*(1+fast.Tension[1]))
		assert.GreaterOrEqual(t, fast.Tension[1], tended.Tension[1], "a tended one never carries more")
		// All else stays: the stretch is no part of the balance.
		assert.Equal(t, tended.Peak, fast.Peak)
		assert.Equal(t, tended.Side, fast.Side)

		hold.Stiffness *= 1 + r.Float64()
		stiffer, err := s.Solve()
		require.NoError(t, err)
		assert.GreaterOrEqual(t, stiffer.Tension[1], fast.Tension[1], "a stiffer one never carries less")
		for _, unknown := range []float64{math.NaN(), 0, -1} {
			hold.Stiffness = unknown
			p, err := s.Solve()
			require.NoError(t, err)
			if fast.Stretch[1] > 0 {
				assert.Equal(t, Unknown, Judge(p.Tension[1], 1000*KN), "a stiffness of %v", unknown)
			} else {
				assert.InDelta(t, tended.Tension[1], p.Tension[1], 1e-9*(1+tended.Tension[1]))
			}
		}
		if fast.Stretch[1] > 0.1 {
			grown++
		}
	}
	assert.Greater(t, grown, 50)
}

// Closed form: made fast b behind and d to the side of the hinge, at its
// height, and h up an upright stem, a rope is √(h² + b² + d² + 2hb·sin φ) long;
// square to the side it keeps its length.
func TestFastHoldLineByHand(t *testing.T) {
	tree := Tree{Height: 25, Diameter: 0.6, FormFactor: 0.42, Density: 900, Strength: 40 * MPa, Mass: 4000, MassCentre: 10}
	s := Setup{Tree: tree, FaceOpening: 30 * Deg, Hinge: Hinge{0.5, 0.1, 0.1}, Allowance: 1, Lines: []Line{
		{Share: 1, Path: []Station{StemStation(tree, 0, 12, 0), {At: Vec{X: 50}}}},
		{Hold: true, Stiffness: 5e6, Path: []Station{StemStation(tree, 0, 10, 0), {At: Vec{-15, 20, 0}}}},
		{Hold: true, Stiffness: 5e6, Path: []Station{StemStation(tree, 0, 10, 0), {At: Vec{0, 25, 0}}}},
	}}
	// It commits where the weight bends the hinge: sin φ = M_h ÷ 10 W, 50 kN·m
	// over 392 kN·m.
	commit := math.Asin(1.5 * 40e6 * 0.5 * 0.01 / 6 / (4000 * 9.80665 * 10))
	require.Less(t, commit, s.FaceOpening)
	for _, opening := range []float64{30 * Deg, 4 * Deg} { // 4° closes before commit
		s.FaceOpening = opening
		p, err := s.Solve()
		require.NoError(t, err)
		long := math.Sqrt(100 + 225 + 400)
		grown := math.Sqrt(100+225+400+2*10*15*math.Sin(math.Min(commit, opening))) - long
		assert.InEpsilon(t, grown, p.Stretch[1], 1e-6)
		assert.InEpsilon(t, 5e6*grown/long, p.Stretched[1], 1e-6)
		assert.InDelta(t, 0, p.Stretch[2], 1e-12)
		assert.InDelta(t, 0, p.Stretched[2], 1e-3)
	}
}

// HoldAt answers for the states it is given: of the same lines over sheaves
// without friction, as the free body has them.
func TestHoldAtOtherStates(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 3))
	other := 0
	for done := 0; done < 100; {
		s := randomSetup(r)
		p, err := s.Solve()
		if err != nil {
			continue
		}
		done++
		free := s
		free.Lines = nil
		var states []LineState
		tensions := make([]float64, len(s.Lines))
		tau := 20 * KN * r.Float64()
		for i, l := range s.Lines {
			l.Path = append([]Station{}, l.Path...)
			for k := range l.Path {
				l.Path[k].Efficiency = 1
			}
			free.Lines = append(free.Lines, l)
			st, err := l.At(0)
			require.NoError(t, err)
			states = append(states, st)
			tensions[i] = l.Share * tau
		}
		got, with := s.HoldAt(p, states, tensions), s.HoldAt(p, p.Standing, tensions)
		for i, want := range (reference{free}).balance(0, true).holds(tau) {
			assert.InDelta(t, want, got[i], 1e-6*(1+want))
			if math.Abs(got[i]-with[i]) > 1 {
				other++
			}
		}
	}
	assert.Positive(t, other)
}
