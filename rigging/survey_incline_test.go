package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The examples of W3C, Device Orientation and Motion (from memory): lying on
// a level table beta and gamma are 0; held with the screen in a vertical plane
// and the top up, beta is 90°; with the top to the person's right, gamma is 90°.
func TestPhoneSightsOfTheStandardsExamples(t *testing.T) {
	for _, c := range []struct {
		name         string
		at           Attitude
		edge, camera float64 // degrees
	}{
		{"flat on the table", Attitude{0, 0}, 0, -90},
		{"upright, top up", Attitude{90 * Deg, 0}, 90, 0},
		{"upright, top to the right", Attitude{0, 90 * Deg}, 0, 0},
		{"on its face", Attitude{180 * Deg, 0}, 0, 90},
		{"tipped up 30° from flat", Attitude{30 * Deg, 0}, 30, -60},
		{"past upright, camera looking up 20°", Attitude{110 * Deg, 0}, 70, 20},
	} {
		assert.InDelta(t, c.edge, SightAlongEdge.Angle(c.at)/Deg, 1e-9, c.name)
		assert.InDelta(t, c.camera, SightByCamera.Angle(c.at)/Deg, 1e-9, c.name)
	}
}

// Against rotation matrices multiplied out: Z, then X', then Y”.
func TestPhoneSightsByMatrices(t *testing.T) {
	type matrix [3][3]float64
	times := func(a, b matrix) (m matrix) {
		for i := range 3 {
			for j := range 3 {
				for k := range 3 {
					m[i][j] += a[i][k] * b[k][j]
				}
			}
		}
		return m
	}
	random := rand.New(rand.NewSource(3))
	for range 200 {
		alpha, beta, gamma := 2*math.Pi*random.Float64(), (2*random.Float64()-1)*math.Pi, (random.Float64()-0.5)*math.Pi
		sa, ca := math.Sincos(alpha)
		sb, cb := math.Sincos(beta)
		sg, cg := math.Sincos(gamma)
		r := times(times(matrix{{ca, -sa, 0}, {sa, ca, 0}, {0, 0, 1}}, matrix{{1, 0, 0}, {0, cb, -sb}, {0, sb, cb}}), matrix{{cg, 0, sg}, {0, 1, 0}, {-sg, 0, cg}})
		edge := Vec{r[0][1], r[1][1], r[2][1]} // the phone's y axis in the world
		look := Vec{-r[0][2], -r[1][2], -r[2][2]}
		a := Attitude{beta, gamma}
		assert.InDelta(t, math.Atan2(edge.Z, edge.Horizontal()), SightAlongEdge.Angle(a), 1e-7)
		assert.InDelta(t, math.Atan2(look.Z, look.Horizontal()), SightByCamera.Angle(a), 1e-7)
	}
}

// A phone stood upright and rolled to the right by ten degrees leans so.
func TestPhoneBesideAStem(t *testing.T) {
	// Upright facing the person, rolled clockwise by r: the y axis is at
	// sin β = cos r above level, x at −cos β·sin γ = −sin r, z level.
	for _, r := range []float64{-25, -3, 0, 10, 40} {
		beta := math.Asin(math.Cos(r * Deg))
		gamma := math.Copysign(math.Pi/2, r)
		if r == 0 {
			gamma = 0
		}
		assert.InDelta(t, r, SightBeside.Angle(Attitude{beta, gamma})/Deg, 1e-6)
	}
	assert.True(t, math.IsNaN(SightBeside.Angle(Attitude{0, 0})), "flat")
}

func TestMeasureIncline(t *testing.T) {
	a, err := MeasureIncline(SightAlongEdge, []Attitude{{40 * Deg, 0}})
	require.NoError(t, err)
	assert.InDelta(t, 40*Deg, a.Mean.Value, 1e-12)
	assert.InDelta(t, 0.5*Deg, a.Mean.PlusMinus, 1e-12)

	a, err = MeasureIncline(SightAlongEdge, []Attitude{{40.1 * Deg, 0}, {39.9 * Deg, 0.3}, {40 * Deg, -1}})
	require.NoError(t, err)
	assert.InDelta(t, 40*Deg, a.Mean.Value, 1e-12)
	assert.InDelta(t, 0.5*Deg, a.Mean.PlusMinus, 1e-12, "no better than the phone")

	// Student's t at 95 % and 2 degrees of freedom is 4.303.
	a, err = MeasureIncline(SightAlongEdge, []Attitude{{38 * Deg, 0}, {40 * Deg, 0}, {42 * Deg, 0}})
	require.NoError(t, err)
	assert.InDelta(t, 4.303*2*Deg/math.Sqrt(3), a.Mean.PlusMinus, 1e-9)

	for _, bad := range []Attitude{{math.NaN(), 0}, {0, math.Inf(1)}} {
		_, err = MeasureIncline(SightAlongEdge, []Attitude{{0, 0}, bad})
		readingWrong(t, err, "phone")
	}
	_, err = MeasureIncline(SightBeside, []Attitude{{0, 0}})
	readingWrong(t, err, "phone")
	_, err = MeasureIncline("upside down", []Attitude{{0, 0}})
	readingWrong(t, err, "phone")
	_, err = MeasureIncline(SightAlongEdge, nil)
	readingWrong(t, err, "readings")
}
