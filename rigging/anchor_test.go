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

	// Den Hartog: what balances 50 lb on a smooth slope of 30°.
	c = publishedExample(t, "inc-01")
	grip = MachineAnchor{Mass: c.In("W1") / G, Slope: -c.InSI("slope")}.Grip(0)
	assertPrinted(t, c, "W2", grip)

	// Bansal: 150 N up a slope of 60° by a rope to a 100 N body on the
	// level, drawn at the angle of friction.
	c = publishedExample(t, "inc-03")
	rope := MachineAnchor{Mass: c.In("W2") / G, Traction: c.In("mu"), Slope: -c.InSI("slope")}.Grip(0)
	assert.InDelta(t, 144.9, rope, 0.05, "the rope between, printed in the same example")
	pull = flat(math.Atan(c.In("mu"))).Scale(c.AnswerSI("P"))
	load, grip = hold(MachineAnchor{Mass: c.In("W1") / G, Traction: c.In("mu")}, pull)
	assert.InDelta(t, load-grip, rope, 0.05, "%s: printed to 0.1 N", c.ID)
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
		{"dragged downhill", 10, 30e3, Vec{Y: -10e3}, 10e3, weight * (0.5*math.Cos(10*Deg) - math.Sin(10*Deg))},
		{"so steep that it slides by itself", 30, 30e3, Vec{X: 1}, 1, 0},
		{"lifted off the ground", 0, 30e3, Vec{X: 1, Z: 60e3}, 1, 0},
		{"held back by its weight", -20, 30e3, Vec{X: 1}, 1, 30e3},
		{"slides away from the pull by itself", -27, 30e3, Vec{X: 1}, 1, 0}, // 26.6° has the tangent 0.5
		{"lifted off a slope away from the pull", -26, 30e3, Vec{X: 1, Z: 45e3}, 1, 0},
	} {
		a.Slope, a.Rated = c.slope*Deg, c.rated
		load, hold, err := a.Hold(c.pull)
		require.NoError(t, err)
		assert.InDelta(t, c.load, load, 1e-6, c.name)
		assert.InDelta(t, c.hold, hold, 1e-6, c.name)
	}
	a.Mass = math.NaN()
	_, hold, _ := a.Hold(Vec{X: 1})
	assert.True(t, math.IsNaN(hold))
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
}

func TestTabledAnchorsTakeTheWholePull(t *testing.T) {
	pull := Vec{X: -8e3, Z: 6e3}
	load, hold, err := BuriedLogAnchor{Depth: 7 * Foot, Length: 2, Diameter: 0.5, Slot: 0.3, SoilFactor: 1}.Hold(pull)
	require.NoError(t, err)
	want, err := BuriedLogCapacity(7*Foot, math.Atan2(6, 8), 0.5, 2, 0.3, 1)
	require.NoError(t, err)
	assert.InDelta(t, 10e3, load, 1e-9)
	assert.InEpsilon(t, want, hold, exactly)
	load, hold, err = PicketAnchor{Rows: []int{1, 1, 1}, SoilFactor: 1}.Hold(pull)
	require.NoError(t, err)
	want, err = PicketCapacity([]int{1, 1, 1}, 1)
	require.NoError(t, err)
	assert.InDelta(t, 10e3, load, 1e-9)
	assert.InEpsilon(t, want, hold, exactly)
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
