package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// place is one at a point, exact, without ±.
func place(v Vec) Place {
	return Place{Measured{v.Bearing(), 0}, Measured{v.Horizontal(), 0}}
}

func at(p Place) Vec { return AtBearing(p.Bearing.Value, p.Distance.Value, 0) }

func TestPlacesByDistances(t *testing.T) {
	// Known points 6 m apart, the new one 5 m from each: 3-4-5, 4 m to
	// either side of the middle.
	a, b := place(Vec{0, 0, 0}), place(Vec{6, 0, 0})
	fixes, err := MeasurePlacesByDistances(a, b, Measured{5, 0}, Measured{5, 0})
	require.NoError(t, err)
	require.Len(t, fixes, 2)
	assertAt(t, Vec{3, 4, 0}, fixes[0].Place)
	assertAt(t, Vec{3, -4, 0}, fixes[1].Place)
	assert.InEpsilon(t, 2*math.Asin(0.6), fixes[0].Crossing, 1e-9)
	assert.False(t, fixes[0].Weak)

	random := rand.New(rand.NewSource(8))
	for range 300 {
		draw := func() Vec { return Vec{60 * (random.Float64() - 0.5), 60 * (random.Float64() - 0.5), 0} }
		p, q, x := draw(), draw(), draw()
		fixes, err := MeasurePlacesByDistances(place(p), place(q), Measured{x.Sub(p).Norm(), 0}, Measured{x.Sub(q).Norm(), 0})
		if err != nil {
			continue // too flat; TestPlacesRefused
		}
		// x to the left of p→q comes first.
		i := 1
		if q.Sub(p).Cross(x.Sub(p)).Z > 0 {
			i = 0
		}
		assertAt(t, x, fixes[i].Place)
	}
}

func assertAt(t *testing.T, want Vec, p Place) {
	t.Helper()
	// 1e-6 m: crossing circles lose digits as they get flat.
	assert.InDelta(t, want.X, at(p).X, 1e-6)
	assert.InDelta(t, want.Y, at(p).Y, 1e-6)
}

func TestPlaceByBearings(t *testing.T) {
	// From the tree at 45° to the right, from 10 m ahead at 90°.
	f, err := MeasurePlaceByBearings(Place{}, place(Vec{10, 0, 0}), Measured{45 * Deg, 0}, Measured{90 * Deg, 0})
	require.NoError(t, err)
	assertAt(t, Vec{10, -10, 0}, f.Place)
	assert.InEpsilon(t, 45*Deg, f.Crossing, 1e-9)

	random := rand.New(rand.NewSource(9))
	n := 0
	for range 300 {
		draw := func() Vec { return Vec{60 * (random.Float64() - 0.5), 60 * (random.Float64() - 0.5), 0} }
		p, q, x := draw(), draw(), draw()
		f, err := MeasurePlaceByBearings(place(p), place(q), Measured{x.Sub(p).Bearing(), 0}, Measured{x.Sub(q).Bearing(), 0})
		if err != nil {
			continue
		}
		n++
		assertAt(t, x, f.Place)
	}
	assert.Greater(t, n, 200)
}

// The ± of a fix by bearings: r·ε across each sight, over the sine of the
// crossing (the textbook's error figure). Seen from the far side of a square
// the point's error is that of both lines.
func TestPlusMinusOfFixes(t *testing.T) {
	e := 1 * Deg
	// a at the tree, b 20 m ahead; point 20 m to the right of a: sights
	// cross at 45°; both errors move the point along the other line.
	f, err := MeasurePlaceByBearings(Place{}, place(Vec{20, 0, 0}), Measured{90 * Deg, e}, Measured{135 * Deg, e})
	require.NoError(t, err)
	assertAt(t, Vec{0, -20, 0}, f.Place)
	// Distance from the tree moves by what b's sight (28.3 m long) does, over
	// sin 45°, and by what a's does, times cot 45°.
	want := math.Hypot(20*math.Sqrt2*e/math.Sin(45*Deg), 20*e/math.Tan(45*Deg))
	assert.InEpsilon(t, want, f.Distance.PlusMinus, linear)
	assert.InEpsilon(t, e, f.Bearing.PlusMinus, linear, "on a's own line only a's error turns it")

	// The flatter the crossing, the larger the ±.
	last := 0.0
	for _, far := range []float64{10, 20, 40, 80} {
		x := Vec{far, 0, 0}
		f, err := MeasurePlaceByBearings(place(Vec{0, 10, 0}), place(Vec{0, -10, 0}),
			Measured{x.Sub(Vec{0, 10, 0}).Bearing(), e}, Measured{x.Sub(Vec{0, -10, 0}).Bearing(), e})
		require.NoError(t, err)
		assert.Greater(t, f.Distance.PlusMinus, last)
		last = f.Distance.PlusMinus
		assert.Equal(t, f.Crossing < 30*Deg, f.Weak)
	}
	// By distances at a right angle: each tape's error, along its own line.
	fixes, err := MeasurePlacesByDistances(place(Vec{0, 0, 0}), place(Vec{20, 20, 0}), Measured{20, 0.2}, Measured{20, 0.3})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.2, fixes[0].Distance.PlusMinus, linear)
	assert.InEpsilon(t, 0.3/20, fixes[0].Bearing.PlusMinus, linear)
}

func TestPlaceByTraverse(t *testing.T) {
	// 20 m ahead, then 15 m to the right: 25 m at atan(3/4).
	p, err := MeasurePlaceByTraverse(Place{}, Place{Measured{0, 0}, Measured{20, 0.2}}, Place{Measured{90 * Deg, 2 * Deg}, Measured{15, 0.1}})
	require.NoError(t, err)
	assertAt(t, Vec{20, -15, 0}, p)
	assert.InEpsilon(t, 25.0, p.Distance.Value, exact)
	// Along the line to it: 4/5 of the first tape, 3/5 of the second, and 4/5
	// of 15 m × 2° across.
	want := math.Sqrt(math.Pow(0.8*0.2, 2) + math.Pow(0.6*0.1, 2) + math.Pow(0.8*15*2*Deg, 2))
	assert.InEpsilon(t, want, p.Distance.PlusMinus, linear)

	// A walk that comes back to the tree has no bearing.
	p, err = MeasurePlaceByTraverse(place(Vec{5, 0, 0}), Place{Measured{180 * Deg, 0}, Measured{5, 0.1}})
	require.NoError(t, err)
	assert.InDelta(t, 0, p.Distance.Value, 1e-9)
	assert.Equal(t, math.Pi, p.Bearing.PlusMinus)

	b, err := MeasureBearing(Measured{10 * Deg, 2 * Deg}, Measured{350 * Deg, 2 * Deg})
	require.NoError(t, err)
	assert.InEpsilon(t, 20*Deg, b.Value, 1e-9)
	assert.InEpsilon(t, 2*math.Sqrt2*Deg, b.PlusMinus, 1e-9)
}

func TestPlacesRefused(t *testing.T) {
	m := func(v float64) Measured { return Measured{v, 0} }
	a, b := place(Vec{0, 0, 0}), place(Vec{10, 0, 0})
	_, err := MeasurePlacesByDistances(a, b, m(4), m(5))
	readingWrong(t, err, "from_b") // do not meet
	assert.EqualError(t, err, "the level distance from the second known point is 5 m; accepted: between 6 m and 14 m, for the distances to meet")
	_, err = MeasurePlacesByDistances(a, b, m(20), m(9))
	readingWrong(t, err, "from_b")
	_, err = MeasurePlacesByDistances(a, b, m(300), m(300))
	readingWrong(t, err, "from_b") // nearly parallel
	_, err = MeasurePlacesByDistances(a, a, m(3), m(3))
	readingWrong(t, err, "b_distance")
	_, err = MeasurePlacesByDistances(a, b, Measured{5.1, 0.3}, m(5.1))
	readingWrong(t, err, "from_a") // crosses at 23°, but within its ± they do not meet
	_, err = MeasurePlacesByDistances(a, b, Measured{6, 2}, m(5))
	readingWrong(t, err, "from_a") // within its ± they do not meet

	_, err = MeasurePlaceByBearings(a, b, m(0.5), m(0.5+5*Deg))
	readingWrong(t, err, "from_b")
	_, err = MeasurePlaceByBearings(a, b, m(0.5), m(0.5+math.Pi))
	readingWrong(t, err, "from_b")
	_, err = MeasurePlaceByBearings(a, b, m(45*Deg), m(-90*Deg))
	readingWrong(t, err, "from_b") // meets behind the second person
	_, err = MeasurePlaceByBearings(a, b, m(math.NaN()), m(1))
	readingWrong(t, err, "from_a")
	_, err = MeasurePlaceByTraverse(a)
	readingWrong(t, err, "leg_distance")
	_, err = MeasurePlaceByTraverse(a, place(Vec{}))
	readingWrong(t, err, "leg_distance")
	_, err = MeasureBearing(m(1), m(math.Inf(-1)))
	readingWrong(t, err, "lay")
}
