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
