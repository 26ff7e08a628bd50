package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
)

// rod is a uniform rod of a length, hinged at its foot.
func rod(length float64) Toppling {
	return Toppling{Mass: 1, Centre: length / 2, Inertia: StemInertia(1, length, 1)}
}

func TestTopplingPublished(t *testing.T) {
	// OpenStax University Physics 1, ch. 10: a rod let go 60° above level.
	c := publishedExample(t, "top-01")
	length := c.InSI("L")
	from := math.Pi/2 - c.In("start")*Deg
	// The book takes g = 9.8 m/s².
	assertPrinted(t, c, "v_tip", rod(length).Speed(from, math.Pi/2)*length*math.Sqrt(c.In("g")/G))

	// The same, ch. 10.8: a rod that topples from upright arrives at √(3gL).
	c = publishedExample(t, "top-03")
	assert.InDelta(t, c.Answer("coef").Value, rod(20).Speed(0, math.Pi/2)*20/math.Sqrt(20*G), 1e-7)

	// OpenStax College Physics 2e: four blades about one end.
	c = publishedExample(t, "top-04")
	inertia := c.In("n") * StemInertia(c.In("m"), c.InSI("L"), 1)
	assertPrinted(t, c, "I", inertia)
	omega := c.In("speed") * 2 * math.Pi / 60
	assertPrinted(t, c, "KE", inertia*omega*omega/2)
}

// Second moments about the foot from integral calculus: cylinder 1/3,
// paraboloid 1/6, cone 1/10, neiloid 1/15 of mH².
func TestStemInertia(t *testing.T) {
	for f, want := range map[float64]float64{1: 1. / 3, 1. / 2: 1. / 6, 1. / 3: 1. / 10, 1. / 4: 1. / 15} {
		assert.InDelta(t, want, StemInertia(1, 1, f), 1e-12)
	}
}

// Falling times of rods from rest to level, from the equation of motion
// printed in physics texts, θ″ = (3g/2L)·sin θ. The reference is the
// integral of dθ/ω by Gauss-Legendre quadrature, with θ = from + u² to take
// out its pole at the start.
func TestTopplingTime(t *testing.T) {
	for _, length := range []float64{10, 25, 40} {
		for _, deg := range []float64{1, 2, 5, 10} {
			body, from := rod(length), deg*Deg
			got, err := body.Time(from, math.Pi/2)
			require.NoError(t, err)
			want := quad.Fixed(func(u float64) float64 {
				return 2 * u / body.Speed(from, from+u*u)
			}, 0, math.Sqrt(math.Pi/2-from), 400, nil, 0)
			// The quadrature is good to about 1e-6 for the smallest start.
			assert.InEpsilon(t, want, got, 1e-5, "%g m from %g°", length, deg)
		}
	}
	// A heavier foot falls faster: cone before paraboloid before rod.
	last := math.Inf(1)
	for _, f := range []float64{1, 1. / 2, 1. / 3, 1. / 4} {
		body := Toppling{Mass: 1, Centre: 25 * f / (1 + f), Inertia: StemInertia(1, 25, f)}
		got, err := body.Time(5*Deg, math.Pi/2)
		require.NoError(t, err)
		assert.Less(t, got, last)
		last = got
	}
}

func TestTopplingRefused(t *testing.T) {
	for _, c := range [][2]float64{{0, 1}, {-1, 1}, {1, 1}, {1, 2}, {math.NaN(), 1}, {1e-30, 1}} {
		_, err := rod(10).Time(c[0], c[1])
		assert.Error(t, err, "%v", c)
	}
	_, err := Toppling{}.Time(0.1, 1)
	assert.Error(t, err)
}
