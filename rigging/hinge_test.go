package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
)

func randomHinge(r *rand.Rand) Hinge {
	return Hinge{Length: 0.1 + 0.9*r.Float64(), Left: 0.01 + 0.15*r.Float64(), Right: 0.01 + 0.15*r.Float64()}
}

// The strip's moment is the integral of κσt²/6 along it (beam theory), here
// by Gauss-Legendre quadrature (gonum), exact for polynomials.
func TestHingeMomentAgainstQuadrature(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for range 200 {
		h := randomHinge(r)
		strength := (20 + 60*r.Float64()) * MPa
		want := quad.Fixed(func(y float64) float64 {
			thick := h.Left + (h.Right-h.Left)*y/h.Length
			return 1.5 * strength * thick * thick / 6
		}, 0, h.Length, 5, nil, 0)
		assert.InEpsilon(t, want, h.Moment(HingePlastic, strength), 1e-10)
		assert.InEpsilon(t, want/1.5, h.Moment(HingeElastic, strength), 1e-10)
	}
	// A rectangle fully plastic resists σbt²/4, at first yield σbt²/6.
	h := Hinge{Length: 0.6, Left: 0.08, Right: 0.08}
	assert.InEpsilon(t, 40e6*0.6*0.08*0.08/4, h.Moment(HingePlastic, 40e6), exactly)
	assert.InEpsilon(t, 40e6*0.6*0.08*0.08/6, h.Moment(HingeElastic, 40e6), exactly)
}

// Side stress against centroid and second moment by quadrature, y to the
// left from the middle.
func TestSideStressAgainstQuadrature(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 2))
	for range 200 {
		h := randomHinge(r)
		cavity := 0.9 * h.Length * r.Float64()
		moment := 1e5 * (2*r.Float64() - 1)
		thick := func(y float64) float64 {
			return (h.Left+h.Right)/2 + (h.Left-h.Right)*y/h.Length
		}
		along := func(f func(y float64) float64) float64 {
			return quad.Fixed(f, -h.Length/2, h.Length/2, 6, nil, 0)
		}
		area := along(thick)
		mean := along(func(y float64) float64 { return y * thick(y) }) / area
		second := along(func(y float64) float64 { return (y - mean) * (y - mean) * thick(y) })
		second *= (h.Length - cavity) / h.Length
		end := -h.Length / 2 // wants to go left: the right end is in tension
		if moment < 0 {
			end = h.Length / 2
		}
		assert.InEpsilon(t, math.Abs(moment)*math.Abs(end-mean)/second, h.SideStress(moment, cavity), 1e-9)
	}
}

func TestSideStressEdges(t *testing.T) {
	h := Hinge{Length: 0.6, Left: 0.08, Right: 0.08}
	assert.Zero(t, h.SideStress(0, 0))
	// A rectangle on edge: 6M/(t·b²).
	assert.InEpsilon(t, 6*20e3/(0.08*0.36), h.SideStress(20e3, 0), exactly)
	for _, cavity := range []float64{0.6, 0.9} {
		assert.True(t, math.IsInf(h.SideStress(1, cavity), 1), "nothing is left of the hinge")
	}
	assert.True(t, math.IsInf(Hinge{}.SideStress(1, 0), 1))
	// Turned about, the strip is the same strip.
	taper, other := Hinge{0.6, 0.1, 0.05}, Hinge{0.6, 0.05, 0.1}
	assert.InEpsilon(t, taper.SideStress(5e3, 0.1), other.SideStress(-5e3, 0.1), exactly)
	// The thin end's fibres are farther from the centroid.
	assert.Greater(t, taper.SideStress(5e3, 0), taper.SideStress(-5e3, 0))
}
