package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
)

// exactly is the relative tolerance of two ways to one number in double
// precision: a few hundred roundings.
const exactly = 1e-12

func asR3(v Vec) r3.Vec { return r3.Vec{X: v.X, Y: v.Y, Z: v.Z} }

func assertVec(t *testing.T, want, got Vec, slack float64, msg ...any) {
	t.Helper()
	assert.InDelta(t, want.X, got.X, slack, msg...)
	assert.InDelta(t, want.Y, got.Y, slack, msg...)
	assert.InDelta(t, want.Z, got.Z, slack, msg...)
}

func randomVec(r *rand.Rand, size float64) Vec {
	return Vec{size * (2*r.Float64() - 1), size * (2*r.Float64() - 1), size * (2*r.Float64() - 1)}
}

// Gonum's spatial/r3 is the independent reference.
func TestVecAgainstGonum(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		v, w, turn := randomVec(r, 50), randomVec(r, 50), 2*math.Pi*r.Float64()
		a, b := asR3(v), asR3(w)
		slack := exactly * 2500 // values up to 50², or 50
		assert.InDelta(t, r3.Dot(a, b), v.Dot(w), slack)
		assert.InDelta(t, r3.Norm(a), v.Norm(), slack)
		for _, c := range []struct {
			want r3.Vec
			got  Vec
		}{
			{r3.Cross(a, b), v.Cross(w)},
			{r3.Add(a, b), v.Add(w)},
			{r3.Sub(a, b), v.Sub(w)},
			{r3.Scale(turn, a), v.Scale(turn)},
			// A right-handed turn about +y takes up (z) into the lay (x).
			{r3.NewRotation(turn, r3.Vec{Y: 1}).Rotate(a), v.Turned(turn)},
		} {
			assertVec(t, Vec{c.want.X, c.want.Y, c.want.Z}, c.got, slack)
		}
	}
}

func TestVecDirections(t *testing.T) {
	for _, c := range []struct {
		bearing float64
		at      Vec
	}{
		{0, Vec{2, 0, 1}}, {90, Vec{0, -2, 1}}, {180, Vec{-2, 0, 1}}, {270, Vec{0, 2, 1}},
	} {
		at := AtBearing(c.bearing*Deg, 2, 1)
		assertVec(t, c.at, at, 1e-15*10, "bearing %v", c.bearing)
		assert.InDelta(t, c.bearing*Deg, at.Bearing(), 1e-14)
		assert.InDelta(t, math.Atan(0.5), at.Elevation(), 1e-14)
		assert.InDelta(t, 2, at.Horizontal(), 1e-14)
	}
	for _, up := range []float64{1, -1} {
		assert.Zero(t, Vec{Z: up}.Bearing())
		assert.InDelta(t, up*math.Pi/2, Vec{Z: up}.Elevation(), 1e-15)
	}
	// Just left of the lay rounds to a full turn, which is 0.
	b := Vec{1, 1e-300, 0}.Bearing()
	assert.Zero(t, b)
	assert.False(t, math.Signbit(Vec{1, 0, 0}.Bearing()))
}

func TestUnitNeedsALength(t *testing.T) {
	for _, v := range []Vec{{}, {X: 1e-7}, {X: math.NaN()}, {Y: math.Inf(1)}, {Z: math.Inf(-1)}, {X: 1e300, Y: 1e300}} {
		_, err := v.Unit()
		assert.ErrorIs(t, err, ErrNoDirection, "%v", v)
	}
	u, err := Vec{3, 0, -4}.Unit()
	require.NoError(t, err)
	assertVec(t, Vec{0.6, 0, -0.8}, u, exactly)
}

// Moments of forces as printed in textbooks.
func TestMomentsPublished(t *testing.T) {
	// Baker & Haynes: cable from B to D, moment about the origin.
	c := publishedExample(t, "mom-01")
	b := c.InVec("B")
	u, err := c.InVec("D").Sub(b).Unit()
	require.NoError(t, err)
	m := b.Cross(u.Scale(c.InSI("T")))
	assertPrinted(t, c, "Mx", m.X)
	assertPrinted(t, c, "My", m.Y)
	assertPrinted(t, c, "Mz", m.Z)

	// Baker & Haynes: moment about a line.
	c = publishedExample(t, "mom-02")
	force := Vec{c.InList("F")[0], c.InList("F")[1], c.InList("F")[2]}
	arm := Vec{c.InList("arm")[0], c.InList("arm")[1], c.InList("arm")[2]}
	line, err := Vec{c.InList("line")[0], c.InList("line")[1], c.InList("line")[2]}.Unit()
	require.NoError(t, err)
	assertPrinted(t, c, "M", math.Abs(line.Dot(arm.Cross(force))))

	// OpenStax University Physics: torque as a vector product, an arm, and a
	// sum of four torques.
	c = publishedExample(t, "mom-04")
	m = c.InVec("r").Cross(c.InVec("F"))
	assertPrinted(t, c, "Mx", m.X)
	assertPrinted(t, c, "My", m.Y)
	assertPrinted(t, c, "Mz", m.Z)

	c = publishedExample(t, "mom-05")
	r := Vec{X: c.InSI("r")}
	f := AtBearing(-c.InSI("angle"), c.InSI("F"), 0)
	assertPrinted(t, c, "torque", r.Cross(f).Norm())
	assertPrinted(t, c, "arm", r.Cross(f).Norm()/f.Norm())

	c = publishedExample(t, "mom-07")
	net := 0.0
	for _, k := range []string{"1", "2", "3", "4"} {
		at := c.InListSI("at" + k)
		force := AtBearing(-c.InSI("dir"+k), c.InSI("F"+k), 0) // counter-clockwise from x
		net += Vec{at[0], at[1], 0}.Cross(force).Z
	}
	assertPrintedWithin(t, c, "net", math.Abs(net), 0.005, "the book rounds 119.8 to 120 and adds whole numbers")

	// Hibbeler & Gupta: the force that keeps a particle with three others.
	c = publishedExample(t, "c3d-05")
	u, err = Vec{c.InList("F3_dir")[0], c.InList("F3_dir")[1], c.InList("F3_dir")[2]}.Unit()
	require.NoError(t, err)
	rest := c.InVec("F1").Add(c.InVec("F2")).Add(u.Scale(c.InSI("F3"))).Scale(-1)
	assertPrinted(t, c, "F", rest.Norm())
	assertPrinted(t, c, "alpha", math.Acos(rest.X/rest.Norm()))
	assertPrinted(t, c, "beta", math.Acos(rest.Y/rest.Norm()))
	assertPrinted(t, c, "gamma", math.Acos(rest.Z/rest.Norm()))
}

// By the published sides of triangles whose angles are known: the half of an
// equilateral one (60°), 3-4-5 (90°), and opposite and like directions.
func TestAngleBetweenVectors(t *testing.T) {
	for _, c := range []struct {
		v, w Vec
		deg  float64
	}{
		{Vec{1, 0, 0}, Vec{0.5, math.Sqrt(0.75), 0}, 60}, {Vec{3, 4, 0}, Vec{0, 0, 7}, 90}, {Vec{3, 4, 0}, Vec{-4, 3, 0}, 90},
		{Vec{1, 2, 3}, Vec{2, 4, 6}, 0}, {Vec{1, 2, 3}, Vec{-1, -2, -3}, 180}, {Vec{1, 0, 0}, Vec{-1, 1e-9, 0}, 180 - 1e-9/Deg},
	} {
		assert.InDelta(t, c.deg*Deg, c.v.Angle(c.w), 1e-15)
		assert.InDelta(t, c.deg*Deg, c.w.Angle(c.v), 1e-15)
	}
	for _, none := range []Vec{{}, {1e-9, 0, 0}, {math.NaN(), 1, 1}} {
		assert.True(t, math.IsNaN(none.Angle(Vec{1, 0, 0})))
		assert.True(t, math.IsNaN(Vec{1, 0, 0}.Angle(none)))
	}
}
