package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// linear is how near the ± of a bent formula comes to the first-order one at
// small errors of reading: the bend adds a few percent.
const linear = 0.05

func TestMeasuredHeights(t *testing.T) {
	// DeYoung, Forest Measurements, section 2.3, Example 1: run 50 ft, +124 %
	// and −16 %: 62 ft and 8 ft, together 70 ft. Here the person stands level
	// or uphill: the foot is below the eye.
	h, err := MeasureHeightByAngles(Measured{50 * Foot, 0}, Measured{math.Atan(1.24), 0}, Measured{math.Atan(-0.16), 0})
	require.NoError(t, err)
	assert.InEpsilon(t, 70*Foot, h.Value, exact)
	assert.Zero(t, h.PlusMinus, "exact readings")
	// Standing well downhill the foot is above the eye and takes away.
	h, err = MeasureHeightByAngles(Measured{50 * Foot, 0}, Measured{math.Atan(1.24), 0}, Measured{math.Atan(0.16), 0})
	require.NoError(t, err)
	assert.InEpsilon(t, 54*Foot, h.Value, exact)

	c := publishedExample(t, "ht-01") // sine method, above the eye
	h, err = MeasureHeightBySlant(Measured{c.InSI("range"), 0}, Measured{c.InSI("angle"), 0}, Measured{30, 0}, Measured{})
	require.NoError(t, err)
	assertPrinted(t, c, "h", h.Value)

	// Similar triangles by hand: 0.6 m at 0.7 m covers 30 m at 35 m.
	h, err = MeasureHeightByStick(Measured{35, 0}, Measured{0.6, 0}, Measured{0.7, 0}, Measured{})
	require.NoError(t, err)
	assert.InEpsilon(t, 30.0, h.Value, exact)
	h, err = MeasureHeightByArmStick(Measured{22, 0}, Measured{0.65, 0}, Measured{})
	require.NoError(t, err)
	assert.InEpsilon(t, 22.0, h.Value, exact)

	d, err := MeasureDiameter(Measured{math.Pi, 0.02})
	require.NoError(t, err)
	assert.InEpsilon(t, 1.0, d.Value, exact)
	assert.InEpsilon(t, 0.02/math.Pi, d.PlusMinus, 1e-9)
}

// The ± against the partial derivatives of the textbook, worked out by hand.
func TestMeasuredHeightsPlusMinus(t *testing.T) {
	D, top, foot := 30.0, 40*Deg, -5*Deg
	eD, eA := 0.03*D, 0.5*Deg
	h, err := MeasureHeightByAngles(Measured{D, eD}, Measured{top, eA}, Measured{foot, eA})
	require.NoError(t, err)
	sq := func(x float64) float64 { return x * x }
	want := math.Sqrt(sq(h.Value/D*eD) + sq(D*eA/sq(math.Cos(top))) + sq(D*eA/sq(math.Cos(foot))))
	assert.InEpsilon(t, want, h.PlusMinus, linear)
	assert.GreaterOrEqual(t, h.PlusMinus, want, "the bend only widens it")

	R1, R2, eR := 45.0, 31.0, 0.5
	h, err = MeasureHeightBySlant(Measured{R1, eR}, Measured{top, eA}, Measured{R2, eR}, Measured{foot, eA})
	require.NoError(t, err)
	want = math.Sqrt(sq(math.Sin(top)*eR) + sq(R1*math.Cos(top)*eA) + sq(math.Sin(foot)*eR) + sq(R2*math.Cos(foot)*eA))
	assert.InEpsilon(t, want, h.PlusMinus, linear)

	L, e, eL, eE := 0.6, 0.7, 0.005, 0.01
	h, err = MeasureHeightByStick(Measured{D, eD}, Measured{L, eL}, Measured{e, eE}, Measured{0, 2 * Deg})
	require.NoError(t, err)
	want = h.Value * math.Sqrt(sq(eD/D)+sq(eL/L)+sq(eE/e)+sq(L*2*Deg/e))
	assert.InEpsilon(t, want, h.PlusMinus, linear)
}

// The band of the two-angle height holds the truth 19 times out of 20 when
// the readings scatter as stated: an independent check by drawing them.
func TestMeasuredHeightBandByDrawing(t *testing.T) {
	random := rand.New(rand.NewSource(5))
	truth := 30 * (math.Tan(40*Deg) + math.Tan(5*Deg))
	held, n := 0, 4000
	for range n {
		draw := func(v, pm float64) Measured { return Measured{v + random.NormFloat64()*pm/1.96, pm} }
		h, err := MeasureHeightByAngles(draw(30, 0.9), draw(40*Deg, 0.5*Deg), draw(-5*Deg, 0.5*Deg))
		require.NoError(t, err)
		if math.Abs(h.Value-truth) <= h.PlusMinus {
			held++
		}
	}
	// 4000 draws of a 95 % band scatter by 0.35 % (one standard deviation).
	assert.InDelta(t, 0.95, float64(held)/float64(n), 0.012)
}

// The four ways agree on the same tree: a straight geometry of eye, foot and
// top, on a slope up or down.
func TestHeightsAgree(t *testing.T) {
	random := rand.New(rand.NewSource(6))
	for range 200 {
		D, H, down := 10+40*random.Float64(), 5+40*random.Float64(), -5+10*random.Float64()
		top, foot := math.Atan2(H-down, D), math.Atan2(-down, D)
		a, err := MeasureHeightByAngles(Measured{D, 0}, Measured{top, 0}, Measured{foot, 0})
		require.NoError(t, err)
		b, err := MeasureHeightBySlant(Measured{math.Hypot(D, H-down), 0}, Measured{top, 0}, Measured{math.Hypot(D, down), 0}, Measured{foot, 0})
		require.NoError(t, err)
		s, err := MeasureHeightByStick(Measured{D, 0}, Measured{0.7 * H / D, 0}, Measured{0.7, 0}, Measured{})
		require.NoError(t, err)
		for _, h := range []Measured{a, b, s} {
			assert.InEpsilon(t, H, h.Value, 1e-9)
		}
	}
}

// readingWrong asserts a ReadingError about that reading.
func readingWrong(t *testing.T, err error, key string) {
	t.Helper()
	var wrong *ReadingError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, key, wrong.Key, wrong.Error())
	assert.NotEmpty(t, wrong.What)
	assert.NotEmpty(t, wrong.Given)
	assert.NotEmpty(t, wrong.Accepted)
}

func TestMeasuredHeightsOfNoTree(t *testing.T) {
	m := func(v float64) Measured { return Measured{v, 0} }
	nan, inf := math.NaN(), math.Inf(1)
	for key, list := range map[string][][3]float64{
		"distance": {{0, 0.5, 0}, {-3, 0.5, 0}, {nan, 0.5, 0}, {inf, 0.5, 0}},
		"top":      {{30, 0.1, 0.2}, {30, 0, 0}, {30, 89.5 * Deg, 0}, {30, nan, 0}},
		"foot":     {{30, 1, nan}, {30, 1, -89.5 * Deg}},
	} {
		for _, v := range list {
			h, err := MeasureHeightByAngles(m(v[0]), m(v[1]), m(v[2]))
			readingWrong(t, err, key)
			assert.Zero(t, h)
		}
	}
	_, err := MeasureHeightByAngles(m(30), Measured{88 * Deg, 3 * Deg}, m(0))
	readingWrong(t, err, "top") // its ± reaches straight up
	assert.EqualError(t, err, "the ± of the angle to the top is 3°; accepted: less: within it the height could not be worked out")
	_, err = MeasureHeightByAngles(Measured{30, nan}, m(1), m(0))
	readingWrong(t, err, "distance")
	_, err = MeasureHeightByAngles(m(30), m(5*Deg), m(7*Deg))
	assert.EqualError(t, err, "the angle to the top is 5°; accepted: above the angle to the foot, 7°")

	_, err = MeasureHeightBySlant(m(30), m(0.1), m(30), m(0.2))
	readingWrong(t, err, "top")
	_, err = MeasureHeightBySlant(m(30), m(0.1), m(0), m(0))
	readingWrong(t, err, "range_foot")
	_, err = MeasureHeightByStick(m(30), m(0), m(0.7), m(0))
	readingWrong(t, err, "stick")
	_, err = MeasureHeightByArmStick(m(-1), m(0.7), m(0))
	readingWrong(t, err, "distance")
	_, err = MeasureDiameter(m(0))
	readingWrong(t, err, "girth")
}

func TestAccuracies(t *testing.T) {
	seen := map[string]bool{}
	for _, a := range Accuracies() {
		assert.False(t, seen[a.Key], a.Key)
		seen[a.Key] = true
		assert.NotEmpty(t, a.Name)
		assert.NotEmpty(t, a.Source.Text)
		assert.Equal(t, CommonPractice, a.Source.Basis)
		assert.True(t, a.Absolute >= 0 && a.Share >= 0 && (a.Absolute+a.Share > 0 || a.Key == "exact"), a.Key)
	}
	assert.InEpsilon(t, 0.9, heightByAnglesReadings[0].Read(30).PlusMinus, exact) // 3 % of 30 m
	assert.InEpsilon(t, 0.5*Deg, heightByAnglesReadings[1].Read(0.7).PlusMinus, exact)
}
