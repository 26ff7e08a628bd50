package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBlockLoadPublished(t *testing.T) {
	// Arboriculture Australia, Tree Rescue Manual, table of rope angles.
	c := publishedExample(t, "redir-03")
	for i, name := range []string{"k_0", "k_60", "k_90", "k_120"} {
		assertPrinted(t, c, name, BlockLoad(1, 1, c.InList("angles")[i]*Deg))
	}
	// The parallelogram of forces by hand: 1.6 t at 90° come to 2·1.6·cos 45°.
	assert.InDelta(t, 2.26, BlockLoad(1.6, 1.6, 90*Deg), 0.005)
	// OpenStax College Physics 2e, two equal pulls 15° either side of a line.
	c = publishedExample(t, "redir-02")
	assertPrinted(t, c, "resultant", BlockLoad(c.InSI("tension"), c.InSI("tension"), math.Pi-2*c.InSI("angle_each_side")))
	// Baker & Haynes: a rope from A over a block at B to a knot at C that
	// holds a weight, and on to D.
	c = publishedExample(t, "redir-01")
	place := func(name string) Vec { at := c.InListSI(name); return Vec{X: at[0], Z: at[1]} }
	knot, err := Bridle{Legs: []Vec{place("B").Sub(place("C")), place("D").Sub(place("C"))}}.Share(Vec{Z: -c.InSI("weight")})
	require.NoError(t, err)
	assertPrinted(t, c, "rope_tension_BC", knot.Tension[0])
	assertPrinted(t, c, "rope_tension_CD", knot.Tension[1])
	rope := Line{Path: []Station{{OnStem: true, At: place("C")}, {At: place("B"), Efficiency: 1}, {At: place("A")}}}
	st, err := rope.At(0)
	require.NoError(t, err)
	assertPrinted(t, c, "block_force", knot.Tension[0]*st.Force(1).Norm())
	assertPrinted(t, c, "block_force", BlockLoad(knot.Tension[0], knot.Tension[0], st.Included(1)))
	hold := st.Force(1).Scale(-1)
	assertPrinted(t, c, "block_force_angle_below_minus_x", math.Atan2(-hold.Z, -hold.X))
	// Hibbeler & Gupta: two different pulls, in a plane and in space.
	c = publishedExample(t, "redir-05")
	f1, f2, angle := c.InSI("F1"), c.InSI("F2"), c.InSI("angle_between")
	assertPrinted(t, c, "resultant", BlockLoad(f1, f2, angle))
	sum := AtBearing(0, f1, 0).Add(AtBearing(angle, f2, 0))
	assertPrinted(t, c, "angle_from_F1", sum.Bearing())
	assertPrinted(t, c, "direction", sum.Bearing()+c.InSI("F1_dir"))
	c = publishedExample(t, "redir-07")
	toB, toC := c.InVec("B").Sub(c.InVec("A")), c.InVec("C").Sub(c.InVec("A"))
	assertPrinted(t, c, "resultant", BlockLoad(c.InSI("T_AB"), c.InSI("T_AC"), angleBetween(toB, toC)))
	// Baker & Haynes: three wires either side of a pole, guyed.
	c = publishedExample(t, "mast-04")
	side := c.InSI("line_tension") * c.In("lines") / 2
	level := BlockLoad(side, side, 2*c.InSI("half_angle"))
	assertPrinted(t, c, "Gh", level)
	assertPrinted(t, c, "G", level/math.Sin(c.InSI("guy_from_pole")))
	// OpenStax University Physics: two lines from a corner pole, guyed.
	c = publishedExample(t, "mast-05")
	pull := c.InSI("line_tension") * math.Sin(c.InSI("line_from_pole"))
	assertPrinted(t, c, "guy", BlockLoad(pull, pull, c.InSI("corner"))/math.Sin(c.InSI("guy_from_vertical")))
}

// A pull across a taut line: what it carries in the middle is the load on a
// block at nearly a straight rope.
func TestSidePullPublished(t *testing.T) {
	// OpenStax University Physics, the tightrope walker.
	c := publishedExample(t, "side-01")
	weight := c.In("mass") * c.In("g")
	assertPrintedWithin(t, c, "tension", weight/BlockLoad(1, 1, math.Pi-2*c.InSI("angle")), 0.002, "the book takes sin 5° as 0.0872 and rounds to three figures")
	// OpenStax University Physics, a spider on its strand.
	c = publishedExample(t, "side-03")
	weight = c.In("mass") * c.In("g")
	across := weight / BlockLoad(1, 1, math.Pi-2*c.InSI("angle"))
	assertPrinted(t, c, "T_vertical", weight)
	assertPrinted(t, c, "T_horizontal", across)
	assertPrintedWithin(t, c, "ratio", across/weight, 0.003, "the quotient of rounded values")
	// OpenStax University Physics, a flat-hung mass at two angles.
	c = publishedExample(t, "side-04")
	weight = c.In("mass") * c.In("g")
	for i, name := range []string{"T_5", "T_05"} {
		assertPrinted(t, c, name, weight/BlockLoad(1, 1, math.Pi-2*c.InListSI("angles")[i]))
	}
}

func TestBlockLoadAgainstVectors(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	for range 200 {
		a, b := randomVec(r, 30), randomVec(r, 30)
		assert.InDelta(t, a.Add(b).Norm(), BlockLoad(a.Norm(), b.Norm(), angleBetween(a, b)), 1e-6)
	}
	assert.InDelta(t, 0, BlockLoad(5, 5, math.Pi), 1e-7)
}

// The ratio's two ends are known: 1/η after a half-turn, none on a straight
// rope. In between it grows with the wrap.
func TestSheaveRatio(t *testing.T) {
	for _, efficiency := range []float64{0.5, 0.9, 0.96, 1} {
		assert.InEpsilon(t, 1/efficiency, SheaveRatio(efficiency, 0), exactly)
		assert.InDelta(t, 1, SheaveRatio(efficiency, math.Pi), exactly)
		last := SheaveRatio(efficiency, 0)
		for included := 1.0; included <= 180; included++ {
			theta := math.Pi - included*Deg
			k := (1 - efficiency) / (1 + efficiency)
			want := (1 + k*math.Sin(theta/2)) / (1 - k*math.Sin(theta/2))
			got := SheaveRatio(efficiency, included*Deg)
			assert.InEpsilon(t, want, got, exactly)
			assert.LessOrEqual(t, got, last+1e-15)
			last = got
		}
	}
}

// A wider included angle never raises the load on a block, the load side's
// tension given, nor the hauling side's tension.
func TestWiderAngleNeverLoadsABlockMore(t *testing.T) {
	for _, efficiency := range []float64{0.7, 0.9, 1} {
		last := math.Inf(1)
		for included := 0.0; included <= 180; included += 0.5 {
			load := BlockLoad(1, SheaveRatio(efficiency, included*Deg), included*Deg)
			assert.LessOrEqual(t, load, last+1e-12)
			last = load
		}
	}
}

// A known sheave, the plain bearing of the Pipeline Rules of Thumb Handbook with
// 1.09 times the tension after a half-turn: the friction of its pin follows
// from that, and gives the ratio at any other wrap by balance of moments about
// the pin, (T₂ − T₁)·R = f·|T₁ + T₂|, with the pin's load as the vector sum
// of both legs. The closed form takes that load as (T₁ + T₂)·sin(θ/2), which is
// exact for a half-turn.
func TestPartialWrapFromThePinsFriction(t *testing.T) {
	plain, ok := FindSheave("plain_bearing")
	require.True(t, ok)
	assert.InDelta(t, 1.09, SheaveRatio(plain.Value, 0), 0.001)
	for _, efficiency := range []float64{0.85, plain.Value, 0.96, 0.98} {
		// Half-turn: (T₂ − T₁)·R = f·(T₁ + T₂).
		friction := (1/efficiency - 1) / (1/efficiency + 1) // f ÷ R
		for included := 0.0; included <= 180; included += 5 {
			lo, hi := 1.0, 2.0
			for range 100 {
				mid := (lo + hi) / 2
				load := flat(0).Add(flat(included * Deg).Scale(mid)).Norm()
				if mid-1 > friction*load {
					hi = mid
				} else {
					lo = mid
				}
			}
			got := SheaveRatio(efficiency, included*Deg)
			if included == 0 {
				assert.InDelta(t, lo, got, 1e-9)
			}
			// What both lose, to 1 % of it: f² of the worst sheave.
			assert.InDelta(t, lo-1, got-1, 0.01*(lo-1)+1e-9, "%v, %v°", efficiency, included)
		}
	}
	// A redirect at a right angle on the plain bearing: κ = 0.09/2.09, so
	// (1 + κ·0.7071)/(1 − κ·0.7071) = 1.063, by hand.
	assert.InDelta(t, 1.063, SheaveRatio(1/1.09, math.Pi/2), 0.0005)
}
