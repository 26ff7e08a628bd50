package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

func shared(t *testing.T, pull Vec, legs ...Vec) []float64 {
	t.Helper()
	s, err := Bridle{Legs: legs}.Share(pull)
	require.NoError(t, err)
	assert.InDelta(t, 0, s.Off, 1e-6)
	for _, slack := range s.Slack {
		assert.False(t, slack)
	}
	return s.Tension
}

// Two legs in one plane: x level, z up.
func flat(angle float64) Vec { return Vec{X: math.Cos(angle), Z: math.Sin(angle)} }

func TestSharePublishedInAPlane(t *testing.T) {
	// OpenStax University Physics: a traffic light on two wires.
	c := publishedExample(t, "c2d-01")
	legs := shared(t, Vec{Z: -c.In("mass") * c.In("g")}, flat(math.Pi-c.InSI("a1")), flat(c.InSI("a2")))
	assertPrinted(t, c, "T1", legs[0])
	assertPrinted(t, c, "T2", legs[1])

	// OpenStax University Physics: a pan on two strings that hang at a right
	// angle, the shorter of which breaks at 2.8 N.
	c = publishedExample(t, "c2d-03")
	l1, l2 := c.InSI("L1"), c.InSI("L2")
	hyp := math.Hypot(l1, l2)
	angle := math.Asin(l2 / hyp) // of the shorter, from level
	legs = shared(t, Vec{Z: -1}, flat(math.Pi-angle), flat(math.Pi/2-angle))
	require.Greater(t, legs[0], legs[1])
	added := c.In("T_break")/legs[0]/c.In("g") - c.In("pan")
	assertPrintedWithin(t, c, "added_mass", added, 0.002, "the book shows a digit too many: 0.277 kg")

	// Baker & Haynes: a boom's push is a leg the other way.
	c = publishedExample(t, "c2d-04")
	boom := flat(math.Pi/2 - c.InSI("boom_from_vertical"))
	legs = shared(t, Vec{Z: -c.InSI("load")}, boom, Vec{X: -1, Z: c.In("lift_slope")})
	assertPrinted(t, c, "C", legs[0])
	assertPrinted(t, c, "T", legs[1])

	// McLean: a weight on two cords by their slopes, given as run and rise.
	c = publishedExample(t, "c2d-07")
	ab, ac := c.InList("AB_slope"), c.InList("AC_slope")
	legs = shared(t, Vec{Z: -c.In("weight")}, Vec{X: -ab[0], Z: ab[1]}, Vec{X: ac[0], Z: ac[1]})
	assertPrinted(t, c, "AB", legs[0])
	assertPrinted(t, c, "AC", legs[1])

	// McLean: a mass on a 20 m rope drawn 10 m aside by a level pull.
	c = publishedExample(t, "c2d-08")
	offset := c.InSI("offset")
	legs = shared(t, Vec{Z: -c.In("mass") * c.In("g")}, Vec{X: 1}, Vec{X: -offset, Z: math.Sqrt(c.InSI("rope")*c.InSI("rope") - offset*offset)})
	assertPrintedWithin(t, c, "F", legs[0], 0.001, "the rise is taken as 17.3")
	assertPrintedWithin(t, c, "T", legs[1], 0.002, "the rise is taken as 17.3")

	// Hibbeler & Gupta: a crate on a cable at 30° and a level one.
	c = publishedExample(t, "c2d-09")
	legs = shared(t, Vec{Z: -c.InSI("weight")}, flat(c.InSI("AB_angle")), Vec{X: -1})
	assertPrinted(t, c, "TB", legs[0])
	assertPrinted(t, c, "TD", legs[1])

	// Den Hartog: 25 lb between two ropes that 20 and 10 lb draw tight, at the
	// angles from plumb that the solution gives to a tenth of a degree.
	c = publishedExample(t, "c2d-06")
	legs = shared(t, Vec{Z: -c.In("W3")}, flat(math.Pi/2+c.AnswerSI("left")), flat(math.Pi/2-c.AnswerSI("right")))
	assert.InEpsilon(t, c.In("W1"), legs[0], 0.003, c.ID)
	assert.InEpsilon(t, c.In("W2"), legs[1], 0.003, c.ID)
}

// A rope with loads hung along it: each load is held by the two stretches
// beside it, at the slopes that the reactions of the book give them.
func TestSharePublishedAlongARope(t *testing.T) {
	// Tayal: three loads, the right end higher; at the load next to it.
	c := publishedExample(t, "sag-01")
	spacing, last := c.In("spacing"), c.InList("loads")[2]
	drop := c.Answer("y_E").Value
	legs := shared(t, Vec{Z: -last}, Vec{X: spacing, Z: drop}, Vec{X: -spacing, Z: drop - c.In("mid_drop")})
	assertPrinted(t, c, "T_max", legs[0])
	assert.InEpsilon(t, c.Answer("H").Value, legs[0]*spacing/math.Hypot(spacing, drop), 1e-6)

	// Tayal: at the first of three loads, the level pull given.
	c = publishedExample(t, "sag-02")
	up, level, first := c.Answer("Ya").Value, c.In("H"), c.InList("loads")[0]
	legs = shared(t, Vec{Z: -first}, Vec{X: -level, Z: up}, Vec{X: level, Z: first - up})
	assertPrinted(t, c, "T_AC", legs[0])
	assertPrinted(t, c, "T_CD", legs[1])

	// SymPy's reference documentation: at the first of two loads. The second
	// stretch falls by what the first load leaves of the reaction.
	c = publishedExample(t, "sag-14")
	from, load := c.InList("A"), c.InList("P1")
	up, level = c.Answer("R_A_y").Value, c.Answer("H").Value
	legs = shared(t, Vec{Z: -load[2]}, Vec{X: from[0] - load[0], Z: from[1] - load[1]}, Vec{X: level, Z: load[2] - up})
	assert.InEpsilon(t, c.Answer("T_AZ").Value, legs[0], 1e-9)
}

func TestSharePublishedInSpace(t *testing.T) {
	// Baker & Haynes: a balloon of 900 lb lift on three ropes.
	c := publishedExample(t, "c3d-01")
	apex := c.InVec("apex")
	from := func(names ...string) []Vec {
		out := make([]Vec, len(names))
		for i, n := range names {
			out[i] = c.InVec(n).Sub(apex)
		}
		return out
	}
	legs := shared(t, Vec{Y: c.In("lift")}, from("A", "B", "C")...)
	for i, name := range []string{"A", "B", "C"} {
		assertPrinted(t, c, name, legs[i])
	}

	// Hibbeler & Gupta: a weight of 40 lb on two cables and a level one.
	c = publishedExample(t, "c3d-03")
	legs = shared(t, Vec{Z: -c.In("W")}, c.InVec("B"), c.InVec("C"), Vec{X: 1})
	for i, name := range []string{"FB", "FC", "FD"} {
		assertPrinted(t, c, name, legs[i])
	}

	// Hibbeler & Gupta: three cords, one along x.
	c = publishedExample(t, "c3d-04")
	angles := c.InListSI("C_dir_angles")
	d := c.InList("D_dir")
	legs = shared(t, Vec{Z: -c.In("weight")}, Vec{X: 1}, Vec{math.Cos(angles[0]), math.Cos(angles[1]), math.Cos(angles[2])}, Vec{d[0], d[1], d[2]})
	for i, name := range []string{"FB", "FC", "FD"} {
		assertPrintedWithin(t, c, name, legs[i], 0.001, "unit vectors rounded to three places")
	}

	// Tayal: an uplift of 5 kN on three guys.
	c = publishedExample(t, "c3d-07")
	apex = c.InVec("A")
	legs = shared(t, Vec{Y: c.InSI("uplift")}, from("B", "C", "D")...)
	for i, name := range []string{"T_AB", "T_AC", "T_AD"} {
		assertPrintedWithin(t, c, name, legs[i], 0.005, "direction cosines rounded to three figures")
	}

	// McLean: two lines and a strut, the strut's push a leg the other way.
	c = publishedExample(t, "mast-14")
	triple := func(name string) Vec { l := c.InList(name); return Vec{l[0], l[1], l[2]} }
	legs = shared(t, triple("pull"), triple("line1"), triple("line2"), triple("strut_push"))
	for i, name := range []string{"F1", "F2", "F3"} {
		assertPrinted(t, c, name, legs[i])
	}
}

// Fixed legs balance their junction, against gonum's linear solution where
// none would push; with a slack leg the others still carry the whole pull,
// and no leg ever pushes.
func TestShareBalancesTheJunction(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	balanced, slack := 0, 0
	for range 300 {
		legs := []Vec{randomVec(r, 10), randomVec(r, 10), randomVec(r, 10)}
		pull := randomVec(r, 1e4)
		a := mat.NewDense(3, 3, nil)
		for i, l := range legs {
			u, err := l.Unit()
			require.NoError(t, err)
			a.SetCol(i, []float64{u.X, u.Y, u.Z})
		}
		if mat.Cond(a, 2) > 1e3 {
			continue
		}
		var want mat.VecDense
		require.NoError(t, want.SolveVec(a, mat.NewVecDense(3, []float64{-pull.X, -pull.Y, -pull.Z})))
		s, err := Bridle{Legs: legs}.Share(pull)
		if mat.Min(&want) > 0 {
			require.NoError(t, err)
			balanced++
			for i := range legs {
				assert.InDelta(t, want.AtVec(i), s.Tension[i], 1e-6*pull.Norm())
				assert.False(t, s.Slack[i])
			}
			continue
		}
		if err != nil {
			continue // every leg would have to push
		}
		slack++
		var held Vec
		for i, l := range legs {
			assert.GreaterOrEqual(t, s.Tension[i], 0.0)
			if s.Slack[i] {
				assert.Zero(t, s.Tension[i])
			}
			u, _ := l.Unit()
			held = held.Add(u.Scale(s.Tension[i]))
		}
		assert.InEpsilon(t, pull.Norm(), held.Norm(), 1e-9)
		assert.InDelta(t, s.Off, angleBetween(held, pull.Scale(-1)), 1e-6)
		assert.Less(t, s.Off, 90*Deg)
	}
	assert.Greater(t, balanced, 15)
	assert.Greater(t, slack, 50)
}

func TestShareSelfAdjusting(t *testing.T) {
	// Two legs with γ between them carry F/(2·cos(γ/2)) each: the load angle
	// factors of rope and sling tables, 0.577 of the pull at 60° and the
	// whole of it at 120°.
	for _, c := range []struct{ included, each float64 }{{0.001, 0.5}, {60, 0.5774}, {90, 0.7071}, {120, 1}, {150, 1.9319}} {
		s, err := Bridle{Legs: []Vec{AtBearing(c.included/2*Deg, 7, 0), AtBearing(-c.included/2*Deg, 4, 0)}, SelfAdjusting: true}.Share(Vec{X: -1000})
		require.NoError(t, err)
		for _, tension := range s.Tension {
			assert.InDelta(t, 1000*c.each, tension, 0.05, "%v°", c.included)
		}
		assert.InDelta(t, 0, s.Off, 1e-9)
	}
	// Fixed legs of the same shape carry the same.
	fixed := shared(t, Vec{X: -1000}, AtBearing(35*Deg, 7, 0), AtBearing(-35*Deg, 4, 0))
	self, err := Bridle{Legs: []Vec{AtBearing(35*Deg, 7, 0), AtBearing(-35*Deg, 4, 0)}, SelfAdjusting: true}.Share(Vec{X: -1000})
	require.NoError(t, err)
	assert.InDelta(t, fixed[0], self.Tension[0], 1e-9)
}

// A ring at rest on its sling halves the angle between the legs by the pull,
// and the sling keeps its length.
func TestRingPlace(t *testing.T) {
	for _, half := range []float64{1, 30, 60, 85} {
		sin, cos := math.Sincos(half * Deg)
		for _, off := range []float64{-60, -20, 0, 5, 45, 80} {
			x, y := RingPlace(half*Deg, off*Deg)
			one, two := Vec{X: -sin - x, Z: cos - y}, Vec{X: sin - x, Z: cos - y}
			assert.InDelta(t, 2, one.Norm()+two.Norm(), exactly, "%v° %v°", half, off)
			s, err := Bridle{Legs: []Vec{one, two}, SelfAdjusting: true}.Share(Vec{X: math.Sin(off * Deg), Z: -math.Cos(off * Deg)})
			require.NoError(t, err)
			assert.InDelta(t, 0, s.Off, 1e-6, "%v° %v°", half, off)
		}
	}
}

// A bridle whose legs lie on the side the pull comes from holds nothing,
// whichever way its legs are rigged.
func TestShareCannotPush(t *testing.T) {
	for _, self := range []bool{false, true} {
		_, err := Bridle{Legs: []Vec{AtBearing(20*Deg, 5, 0), AtBearing(-20*Deg, 5, 0)}, SelfAdjusting: self}.Share(Vec{X: 1000})
		assert.Error(t, err, "self-adjusting %v", self)
	}
}

func TestShareErrors(t *testing.T) {
	x, y := Vec{X: 5}, Vec{Y: 5}
	for name, b := range map[string]Bridle{
		"no leg":                     {},
		"one leg":                    {Legs: []Vec{x}},
		"four legs":                  {Legs: []Vec{x, y, {Z: 1}, {1, 1, 1}}},
		"a leg of no length":         {Legs: []Vec{x, {}}},
		"a leg that is not finite":   {Legs: []Vec{x, {X: math.NaN()}}},
		"two legs in one line":       {Legs: []Vec{x, {X: 3}}},
		"opposite, self-adjusting":   {Legs: []Vec{x, {X: -5}}, SelfAdjusting: true},
		"leg not finite, adjusting":  {Legs: []Vec{x, {Z: math.Inf(1)}}, SelfAdjusting: true},
		"no leg at all in adjusting": {SelfAdjusting: true},
	} {
		_, err := b.Share(Vec{X: -1000, Y: -500})
		assert.Error(t, err, name)
	}
	s, err := Bridle{Legs: []Vec{x, y}}.Share(Vec{})
	require.NoError(t, err)
	assert.Equal(t, []float64{0, 0}, s.Tension)
}

// Bodies on level ground and on slopes: what the machine holds.
func TestMachinePublished(t *testing.T) {
	hold := func(a MachineAnchor, pull Vec) (load, capacity float64) {
		a.Rated = math.MaxFloat64
		load, capacity, err := a.Hold(pull)
		require.NoError(t, err)
		return load, capacity
	}
	// OpenStax College Physics: a crate of 120 kg on wood.
	c := publishedExample(t, "trac-03")
	_, grip := hold(MachineAnchor{Mass: c.In("m") * c.In("g") / G, Traction: c.In("mu_s")}, Vec{X: 1})
	assertPrinted(t, c, "F", grip)

	// Bansal: a body drawn by a rope that rises at 20° slides when the level
	// part of the pull is all that friction holds.
	c = publishedExample(t, "trac-04")
	pull := flat(c.InSI("rope")).Scale(c.AnswerSI("P"))
	load, grip := hold(MachineAnchor{Mass: c.In("W") / G, Traction: c.In("mu")}, pull)
	assert.InDelta(t, grip, load, 0.01, "%s: printed to 0.01 N", c.ID)

	// The same body, drawn at the angle of friction.
	c = publishedExample(t, "inc-03")
	pull = flat(math.Atan(c.In("mu"))).Scale(c.AnswerSI("P"))
	load, grip = hold(MachineAnchor{Mass: c.In("W1") / G, Traction: c.In("mu")}, pull)
	assert.InDelta(t, 144.9, load-grip, 0.05, "%s: the cord behind it, printed in the same example", c.ID)
}

// onSlope is plain statics of a body on ground that falls by slope (rad)
// toward a level pull: what drags it along the slope that way, and what presses
// it square on the ground.
func onSlope(weight, slope, pull, uplift float64) (along, square float64) {
	sin, cos := math.Sincos(slope)
	return pull*cos + (weight-uplift)*sin, (weight-uplift)*cos - pull*sin
}

// slidesAt bisects for the level pull at which a body begins to slide toward
// it, by how much friction there is; +Inf where none is enough.
func slidesAt(weight, slope, uplift, friction float64) float64 {
	slides := func(pull float64) bool {
		along, square := onSlope(weight, slope, pull, uplift)
		return along > friction*square
	}
	lo, hi := -1e3*weight, 1e6*weight
	if !slides(hi) {
		return math.Inf(1)
	}
	for range 200 {
		if mid := (lo + hi) / 2; slides(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// The statics that the machine's grip is held against, against textbooks. The
// collection of worked examples has none of a body on a slope under a level
// force; its two on slopes are drawn along them, which a machine on a line
// is not.
func TestBodyOnASlopePublished(t *testing.T) {
	// Meriam & Kraige, Engineering Mechanics: Statics, sample problem 6/3
	// (from memory): 100 kg on a slope of 20°, μ 0.20, pushed level against the
	// slope by 500 N and by 100 N, g 9.81 m/s². Friction 134.3 N down the slope on
	// 1093 N; and 242 N up it asked for on 956 N, more than the 191.2 N there is.
	along, square := onSlope(981, -20*Deg, 500, 0)
	assert.InDelta(t, 134.3, along, 0.05)
	assert.InDelta(t, 1093, square, 0.5)
	along, square = onSlope(981, -20*Deg, 100, 0)
	assert.InDelta(t, -242, along, 0.5)
	assert.InDelta(t, 956, square, 0.5)
	assert.InDelta(t, 191.2, 0.20*square, 0.05)
	assert.Zero(t, MachineAnchor{Mass: 100, Traction: 0.20, Slope: -20 * Deg}.Grip(0), "it slides by itself")

	// Budynas & Nisbett, Shigley's Mechanical Engineering Design, example 8-1
	// (from memory): the thread of a power screw is a body on a slope under a
	// level force at its mean radius. 6.4 kN, mean diameter 30 mm, lead 8 mm, μ
	// 0.08: 15.94 N·m to raise the load, and −0.466 N·m to lower it: it runs
	// down by itself.
	lead := math.Atan(8 / (math.Pi * 30))
	assert.InDelta(t, 15.94, slidesAt(6400, -lead, 0, 0.08)*0.015, 0.005)
	assert.InDelta(t, -0.466, slidesAt(6400, lead, 0, 0.08)*0.015, 0.0005)
	for _, slope := range []float64{lead, -lead} {
		assert.Zero(t, MachineAnchor{Mass: 6400 / G, Traction: 0.08, Slope: slope}.Grip(0))
	}
}

// The level pull a machine holds against plain statics: forces along and square
// to the slope, and a friction limit, bisected. It holds nothing where it lifts
// or slides before anything pulls, and any pull where a steep slope behind a
// good grip only presses it harder on the ground.
func TestGripAgainstStatics(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	held, nothing, anything := 0, 0, 0
	for range 5000 {
		a := MachineAnchor{Mass: 500 + 2e4*r.Float64(), Traction: 1.2 * r.Float64(), Slope: (2*r.Float64() - 1) * 55 * Deg}
		weight := a.Mass * 9.80665
		uplift := weight * (1.6*r.Float64() - 0.4)
		got := a.Grip(uplift)
		along, square := onSlope(weight, a.Slope, 0, uplift)
		if square <= 0 || math.Abs(along) > a.Traction*square {
			nothing++
			assert.Zero(t, got)
			continue
		}
		want := slidesAt(weight, a.Slope, uplift, a.Traction)
		if math.IsInf(want, 1) {
			anything++
			assert.Greater(t, got, 1e5*weight, "slope %v, traction %v", a.Slope/Deg, a.Traction)
			continue
		}
		held++
		// 1e-6 of the weight: the last digits of the bisection.
		assert.InDelta(t, want, got, 1e-6*weight+1e-6*want, "slope %v, traction %v, uplift %v", a.Slope/Deg, a.Traction, uplift)
		a.Rated = math.MaxFloat64
		_, capacity, err := a.Hold(Vec{X: -1, Z: uplift})
		require.NoError(t, err)
		assert.Equal(t, got, capacity)
	}
	assert.Greater(t, held, 1000)
	assert.Greater(t, nothing, 1000)
	assert.Greater(t, anything, 10)
	// With no room left beyond level nothing slides it; its rated pull is left.
	steep := MachineAnchor{Mass: 8000, Traction: 1.1, Slope: -45 * Deg, Rated: 50 * KN}
	assert.True(t, math.IsInf(steep.Grip(0), 1))
	_, capacity, err := steep.Hold(Vec{X: 1})
	require.NoError(t, err)
	assert.Equal(t, 50*KN, capacity)
}

// More uplift or ground that falls more toward the pull never lets a
// machine hold more; nor does less grip or less weight.
func TestAWorsePlaceNeverHoldsAMachineMore(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 3))
	worse := map[string]func(a *MachineAnchor, uplift *float64){
		"uplift":  func(a *MachineAnchor, uplift *float64) { *uplift += 3e4 * r.Float64() },
		"grip":    func(a *MachineAnchor, uplift *float64) { a.Traction *= r.Float64() },
		"weight":  func(a *MachineAnchor, uplift *float64) { a.Mass *= r.Float64() },
		"rated":   func(a *MachineAnchor, uplift *float64) { a.Rated *= r.Float64() },
		"steeper": func(a *MachineAnchor, uplift *float64) { a.Slope += 20 * Deg * r.Float64() },
	}
	for name, change := range worse {
		positive := 0
		for range 500 {
			a := MachineAnchor{Mass: 2000 + 1e4*r.Float64(), Traction: 1.2 * r.Float64(), Slope: (2*r.Float64() - 1) * 40 * Deg, Rated: 1e5 * r.Float64()}
			uplift := 3e4 * (r.Float64() - 0.3)
			_, before, err := a.Hold(Vec{X: 1, Z: uplift})
			require.NoError(t, err)
			// Sliding away from the pull by itself it holds nothing, and ground
			// that falls less that way lets it stand.
			if name == "steeper" && !a.Stands(uplift) && a.Slope < 0 {
				continue
			}
			change(&a, &uplift)
			_, after, err := a.Hold(Vec{X: 1, Z: uplift})
			require.NoError(t, err)
			assert.LessOrEqual(t, after, before*(1+exactly), name)
			if before > 0 {
				positive++
			}
		}
		assert.Greater(t, positive, 100, name)
	}
}

func TestMachineHoldsTheLeast(t *testing.T) {
	a := MachineAnchor{Mass: 5000, Traction: 0.5, Rated: 20 * KN}
	weight := 5000 * 9.80665
	for _, c := range []struct {
		name         string
		slope, rated float64
		pull         Vec
		load, hold   float64
	}{
		{"level", 0, 30e3, Vec{X: -10e3}, 10e3, 0.5 * weight},
		{"its rated pull", 0, 20e3, Vec{X: -10e3}, 10e3, 20e3},
		{"uplift takes weight off the tracks", 0, 30e3, Vec{X: -10e3, Z: 5e3}, 10e3, 0.5 * (weight - 5e3)},
		{"dragged downhill", 10, 30e3, Vec{Y: -10e3}, 10e3, weight * (0.5*math.Cos(10*Deg) - math.Sin(10*Deg)) / (math.Cos(10*Deg) + 0.5*math.Sin(10*Deg))},
		{"so steep that it slides by itself", 30, 30e3, Vec{X: 1}, 1, 0},
		{"lifted off the ground", 0, 30e3, Vec{X: 1, Z: 60e3}, 1, 0},
		{"held back by its weight", -20, 30e3, Vec{X: 1}, 1, 30e3},
		{"slides away from the pull by itself", -27, 30e3, Vec{X: 1}, 1, 0}, // 26.6° has the tangent 0.5
		{"lifted off a slope away from the pull", -26, 30e3, Vec{X: 1, Z: 49.1e3}, 1, 0},
		{"so steep that it slides, its rated pull not known", 30, math.NaN(), Vec{X: 1}, 1, 0},
	} {
		a.Slope, a.Rated = c.slope*Deg, c.rated
		load, hold, err := a.Hold(c.pull)
		require.NoError(t, err)
		assert.InDelta(t, c.load, load, 1e-6, c.name)
		assert.InDelta(t, c.hold, hold, 1e-6, c.name)
	}
	a.Slope, a.Rated = 0, 30e3
	for _, unknown := range []*float64{&a.Mass, &a.Traction, &a.Slope, &a.Rated} {
		was := *unknown
		*unknown = math.NaN()
		_, hold, _ := a.Hold(Vec{X: 1})
		assert.True(t, math.IsNaN(hold))
		*unknown = was
	}
}

func TestRatedAndTreeAnchors(t *testing.T) {
	load, hold, err := RatedAnchor{60 * KN}.Hold(Vec{3e3, 4e3, 12e3})
	require.NoError(t, err)
	assert.Equal(t, []float64{13e3, 60e3}, []float64{load, hold})

	// K. Byrne, MSc thesis, UBC 2005 (abstract): 77.4 N·m per kg of stem is
	// the lowest of four conifers. A stem of 1 t so holds 77.4 kN·m, a third
	// of it 25.8; with the sling 1.5 m up that is 17.2 kN of level pull.
	a := TreeAnchor{Diameter: 0.5, Height: 20, FormFactor: 0.4, Turning: 77.4, SlingHeight: 1.5, Factor: 3}
	a.Density = 1000 / (0.4 * math.Pi / 4 * 0.25 * 20)
	load, hold, err = a.Hold(Vec{X: -6e3, Y: 8e3, Z: 5e3})
	require.NoError(t, err)
	assert.InDelta(t, 10e3, load, 1e-9)
	assert.InDelta(t, 17.2e3, hold, 1)
	a.SlingHeight = 3
	_, lower, _ := a.Hold(Vec{X: 1})
	assert.InEpsilon(t, hold/2, lower, exactly, "twice the height, half the pull")

	// The same of lodgepole pine, 145.6 N·m/kg, and a factor of 2: 72.8 kN·m, so
	// 72.8 kN of pull 1 m up, and no more than that lower down.
	pine := mustFind(t, FindTreeAnchorTurning, "lodgepole_pine").Value
	assert.Equal(t, 145.6, pine)
	a.Turning, a.Factor = pine, 2
	for height, want := range map[float64]float64{2: 36.4, 1.3: 56, 1: 72.8, 0.99: 72.8, 0.4: 72.8, 0: 72.8} {
		a.SlingHeight = height
		_, hold, err = a.Hold(Vec{X: 1})
		require.NoError(t, err)
		assert.InDelta(t, want*KN, hold, 1, "%v m up", height)
	}
	a.SlingHeight = math.NaN()
	_, hold, _ = a.Hold(Vec{X: 1})
	assert.True(t, math.IsNaN(hold), "no height, no answer")
}

// What the tables say of the ground lets go, and is divided by the factor.
func TestTabledAnchorsTakeTheWholePull(t *testing.T) {
	pull := Vec{X: -8e3, Z: 6e3}
	log := BuriedLogAnchor{Depth: 7 * Foot, Length: 2, Diameter: 0.5, Slot: 0.3, SoilFactor: 1}
	gives, err := BuriedLogCapacity(7*Foot, math.Atan2(6, 8), 0.5, 2, 0.3, 1)
	require.NoError(t, err)
	pickets := PicketAnchor{Rows: []int{1, 1, 1}, SoilFactor: 1}
	draws, err := PicketCapacity([]int{1, 1, 1}, 1)
	require.NoError(t, err)
	for _, factor := range []float64{1, GroundFactor, 3} {
		log.Factor, pickets.Factor = factor, factor
		for anchor, want := range map[Anchor]float64{&log: gives / factor, &pickets: draws / factor} {
			load, hold, err := anchor.Hold(pull)
			require.NoError(t, err)
			assert.InDelta(t, 10e3, load, 1e-9)
			assert.InEpsilon(t, want, hold, exactly)
		}
	}
	// With no factor there is no verdict.
	log.Factor, pickets.Factor = 0, 0
	for _, anchor := range []Anchor{log, pickets} {
		load, hold, _ := anchor.Hold(pull)
		assert.Equal(t, Unknown, Judge(load, hold))
	}
}

// Three legs in one plane cannot be told apart by statics alone: each gets
// the most it carries in any pair. For legs at −30°, 0 and 30° under a pull
// along the middle one those are F and F/(2·cos 30°), by hand.
func TestThreeLegsInOnePlaneAreBounded(t *testing.T) {
	legs := []Vec{AtBearing(-30*Deg, 5, 0), AtBearing(0, 5, 0), AtBearing(30*Deg, 5, 0)}
	shared, err := Bridle{Legs: legs}.Share(Vec{X: -10})
	require.NoError(t, err)
	outer := 10 / (2 * math.Cos(30*Deg))
	for i, want := range []float64{outer, 10, outer} {
		assert.InDelta(t, want, shared.Tension[i], 1e-9)
		assert.False(t, shared.Slack[i])
	}
	// Any mixture of the three that balances the pull asks no more of a leg.
	for share := 0.0; share <= 1; share += 0.1 {
		assert.LessOrEqual(t, 10*share, shared.Tension[1]+1e-9)
		assert.LessOrEqual(t, (1-share)*outer, shared.Tension[0]+1e-9)
	}
}
