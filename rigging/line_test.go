package rigging

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/spatial/r3"
)

// randomLine is a line from its dead end to its hauling end: fixed on the
// stem, or doubled through a block there, over none to two redirects.
func randomLine(r *rand.Rand, tree Tree, stump float64) Line {
	ground := func() Station {
		return Station{At: AtBearing((2*r.Float64()-1)*50*Deg, 20+50*r.Float64(), 4*r.Float64()-2-stump), Efficiency: 0.8 + 0.2*r.Float64()}
	}
	onStem := func() Station {
		return StemStation(tree, stump, tree.Height*(0.3+0.4*r.Float64()), 0.8+0.2*r.Float64())
	}
	l := Line{Share: 1}
	if r.IntN(3) == 0 {
		l.Path = append(l.Path, ground())
	}
	l.Path = append(l.Path, onStem())
	if r.IntN(6) == 0 { // stem, block on the ground, and up again
		l.Path = append(l.Path, ground(), onStem())
	}
	for range 1 + r.IntN(3) {
		l.Path = append(l.Path, ground())
	}
	return l
}

func randomTree(r *rand.Rand) Tree {
	t := Tree{
		Height: 10 + 30*r.Float64(), Diameter: 0.3 + 0.9*r.Float64(), FormFactor: 0.3 + 0.3*r.Float64(), Density: 600 + 500*r.Float64(), Strength: (30 + 40*r.Float64()) * MPa,
		CrownShare: 0.4 * r.Float64(), CrownOffset: 1.5 * r.Float64(), CrownOffsetBearing: 2 * math.Pi * r.Float64(), CrownArea: 80 * r.Float64(), DragCoefficient: 0.5,
		Lean: 8 * Deg * r.Float64(), LeanBearing: 2 * math.Pi * r.Float64(),
	}
	t.CrownCentre = t.Height * (0.5 + 0.3*r.Float64())
	return t
}

// Without friction the work of the rope is the work on the stem:
// dL/dφ·τ + moment = 0 (virtual work). The derivative is gonum's central
// difference.
func TestLeverIsTheRateOfHaul(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	for range 200 {
		tree := randomTree(r)
		l := randomLine(r, tree, 0.4)
		for i := range l.Path {
			l.Path[i].Efficiency = 1
		}
		length := func(turn float64) float64 {
			st, err := l.At(turn)
			require.NoError(t, err)
			return st.Length
		}
		turn := 80 * Deg * r.Float64()
		st, err := l.At(turn)
		require.NoError(t, err)
		rate := fd.Derivative(length, turn, &fd.Settings{Formula: fd.Central, Step: 1e-5})
		// 1e-6 m: the second-order error of the difference on 40 m of rope.
		assert.InDelta(t, -rate, st.Forward, 1e-6)
		// The side lever is the same about the axis that has turned half as far.
		axis := turnedTo(turn / 2).Rotate(r3.Vec{X: -1})
		lean := func(angle float64) float64 {
			tilted := l
			tilted.Path = append([]Station{}, l.Path...)
			for i, s := range tilted.Path {
				if s.OnStem {
					a := r3.NewRotation(angle, axis).Rotate(turnedTo(turn).Rotate(toR3(s.At)))
					tilted.Path[i].At = Vec{a.X, a.Y, a.Z}.Turned(-turn)
				}
			}
			st, err := tilted.At(turn)
			require.NoError(t, err)
			return st.Length
		}
		assert.InDelta(t, -fd.Derivative(lean, 0, &fd.Settings{Formula: fd.Central, Step: 1e-5}), st.Side, 1e-6)
	}
}

// The forces on all stations of a line are internal to it: they sum to
// nothing, and so do their moments. Each block's force is the parallelogram
// of its legs, and the tension rises by the sheave's ratio toward the puller.
func TestLineBalance(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	for range 200 {
		tree := randomTree(r)
		l := randomLine(r, tree, 0.4)
		turn := 70 * Deg * r.Float64()
		st, err := l.At(turn)
		require.NoError(t, err)
		var force, moment Vec
		var forward, side, length float64
		for i := range l.Path {
			f := st.Force(i)
			force = force.Add(f)
			m := st.Places[i].Cross(f)
			moment = moment.Add(m)
			if l.Path[i].OnStem {
				forward += m.Y
				side += toLeft(toR3(m), turn)
			}
			if i > 0 && i < len(l.Path)-1 {
				assert.InDelta(t, BlockLoad(st.Multiple[i-1], st.Multiple[i], st.Included(i)), f.Norm(), 1e-7)
				assert.InDelta(t, angleBetween(st.Units[i], st.Units[i-1].Scale(-1)), st.Included(i), 1e-7)
				assert.InEpsilon(t, SheaveRatio(l.Path[i].Efficiency, st.Included(i)), st.Multiple[i]/st.Multiple[i-1], 1e-9)
			}
		}
		for i := range st.Units {
			length += st.Places[i+1].Sub(st.Places[i]).Norm()
		}
		assertVec(t, Vec{}, force, 1e-12)
		assertVec(t, Vec{}, moment, 1e-10)
		assert.InDelta(t, forward, st.Forward, 1e-10)
		assert.InDelta(t, side, st.Side, 1e-10)
		assert.InDelta(t, length, st.Length, 1e-10)
		assert.Equal(t, st.Multiple[len(st.Multiple)-1], st.End())
		for i, m := range st.Multiple {
			assert.LessOrEqual(t, m, st.Highest())
			if i > 0 {
				assert.GreaterOrEqual(t, m, st.Multiple[i-1]-1e-12)
			}
		}
	}
}

// boom is a line from a stem station at tip to a far-off place in the
// direction of the rope, and lever its moment arm about the hinge.
func lever(t *testing.T, tip, rope Vec) float64 {
	t.Helper()
	st, err := Line{Path: []Station{{OnStem: true, At: tip}, {At: tip.Add(rope)}}}.At(0)
	require.NoError(t, err)
	return st.Forward
}

// Booms, masts and guys on a pivot: the line's lever about the hinge.
func TestLeverPublished(t *testing.T) {
	rise := func(angle, size float64) Vec { return Vec{X: size * math.Cos(angle), Z: size * math.Sin(angle)} }

	// OpenStax University Physics: a level strut held by a cable.
	c := publishedExample(t, "mast-01")
	length := c.InSI("strut_len")
	tip := Vec{X: length}
	weight := c.InSI("strut_weight")*length/2 + c.InSI("tip_load")*length
	tension := -weight / lever(t, tip, Vec{X: -length, Z: c.InSI("cable_rise")})
	assertPrinted(t, c, "T", math.Abs(tension))

	// OpenStax University Physics: a boom at 20° with the cable at 45° from
	// level, given as 65° to the boom.
	c = publishedExample(t, "mast-02")
	tip = rise(c.InSI("boom_tilt"), 1)
	weight = (c.InSI("boom_weight")/2 + c.InSI("tip_load")) * tip.X
	tension = -weight / lever(t, tip, rise(math.Pi-c.InSI("cable_angle"), 1))
	assertPrinted(t, c, "T", tension)
	// What the pivot takes.
	pivot := rise(-c.InSI("cable_angle"), tension).Add(Vec{Z: c.InSI("boom_weight") + c.InSI("tip_load")})
	assertPrinted(t, c, "hinge", pivot.Norm())
	assertPrinted(t, c, "hinge_angle", pivot.Elevation())

	// Den Hartog: the moment of a rope on a boom.
	c = publishedExample(t, "mast-06")
	tip = rise(c.InSI("boom_angle"), c.In("boom"))
	moment := c.In("rope_tension") * math.Abs(lever(t, tip, rise(math.Pi+c.InSI("rope_angle"), 1)))
	assertPrinted(t, c, "moment", moment)
	assertPrinted(t, c, "W", moment/tip.X)

	// Den Hartog: a deck on a pivot, its cable and counterweight plumb.
	c = publishedExample(t, "mast-08")
	tension = c.In("deck") * c.In("deck_arm") / math.Abs(lever(t, Vec{X: c.In("cable_arm")}, Vec{Z: 1}))
	assertPrinted(t, c, "T", tension)

	// FM 5-125, gin pole (from memory): a spar and its load, the line 28 ft
	// from the foot.
	c = publishedExample(t, "mast-16")
	weight = c.In("load")*c.In("drift") + c.In("spar")*c.In("drift")/2
	assertPrinted(t, c, "T", weight/lever(t, Vec{Z: c.In("perp")}, Vec{X: 1}))
}

// McLean, Engineering Mechanics, example 6-15: a boom on a ball joint under
// its own weight and a load at its tip, held by two cables. Their levers to
// both sides of the joint, with the tensions printed, balance the weights and
// each other. The book's upward y is toward the lay here, its x to the left.
func TestLinesPublishedOnABoom(t *testing.T) {
	c := publishedExample(t, "mast-13")
	turned := func(v []float64) Vec { return Vec{X: v[1], Y: v[0], Z: v[2]} }
	var forward, side float64
	for _, cable := range []string{"A", "C"} {
		at, way := turned(c.InList(cable+"_at")), turned(c.InList(cable+"_dir"))
		st, err := Line{Share: 1, Path: []Station{{OnStem: true, At: at}, {At: at.Add(way)}}}.At(0)
		require.NoError(t, err)
		pull := turned([]float64{c.Answer(cable + "x").Value, c.Answer(cable + "y").Value, c.Answer(cable + "z").Value}).Norm()
		forward += pull * st.Forward
		side += pull * st.Side
	}
	weights := c.In("boom_weight")*4 + c.In("tip_load")*8 // ft from the joint
	assert.InEpsilon(t, weights, forward, 0.005, "printed to 1 lb of about 100")
	assert.InDelta(t, 0, side, 0.005*weights, "printed to 1 lb of about 100")
}

func TestLineErrors(t *testing.T) {
	stem, ground := Station{OnStem: true, At: Vec{Z: 10}}, Station{At: Vec{X: 30}, Efficiency: 0.9}
	for name, c := range map[string]struct {
		path    []Station
		station int
	}{
		"no station":                  {nil, -1},
		"one station":                 {[]Station{stem}, -1},
		"never on the stem":           {[]Station{ground, {At: Vec{X: 5}}}, -1},
		"ends on the stem":            {[]Station{ground, stem}, 1},
		"two stations at one place":   {[]Station{stem, ground, ground}, 2},
		"not finite":                  {[]Station{stem, {At: Vec{X: math.NaN()}}}, 1},
		"infinitely far":              {[]Station{stem, {At: Vec{X: math.Inf(1)}}}, 1},
		"coincides with the stem":     {[]Station{stem, {At: Vec{Z: 10}}}, 1},
		"two places on the stem meet": {[]Station{stem, stem, ground}, 1},
	} {
		_, err := Line{Path: c.path}.At(0)
		var e *LineError
		if assert.True(t, errors.As(err, &e), "%s: %v", name, err) {
			assert.Equal(t, c.station, e.Station, name)
			assert.NotEmpty(t, e.Error(), name)
		}
	}
}

// More friction in a block never lowers what comes after it toward the
// puller: the tension, the block's own load, the haul.
func TestMoreFrictionNeverLowersTheHaul(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 3))
	for range 200 {
		tree := randomTree(r)
		l := Line{Path: []Station{StemStation(tree, 0.4, tree.Height/2, 0)}}
		for k := range 3 {
			l.Path = append(l.Path, Station{At: AtBearing((2*r.Float64()-1)*2, 20+20*float64(k)*r.Float64(), 0), Efficiency: 0.6 + 0.4*r.Float64()})
		}
		before, err := l.At(0)
		require.NoError(t, err)
		worse := 1 + r.IntN(2)
		l.Path[worse].Efficiency *= 0.5 + 0.5*r.Float64()
		after, err := l.At(0)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, after.End(), before.End()-1e-12)
		assert.Equal(t, before.Forward, after.Forward)
		for i := 1; i < len(l.Path); i++ {
			assert.GreaterOrEqual(t, after.Force(i).Norm(), before.Force(i).Norm()-1e-12, fmt.Sprint("station ", i))
		}
	}
}
