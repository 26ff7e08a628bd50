package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSlingAngleFactors(t *testing.T) {
	c := publishedExample(t, "sling-03")
	for i, name := range []string{"k90", "k75", "k60", "k45", "k30"} {
		assertPrinted(t, c, name, SlingAngleFactor(c.InListSI("angles")[i]))
	}
	c = publishedExample(t, "sling-04")
	for i, name := range []string{"k80", "k65", "k55", "k50", "k40", "k35"} {
		assertPrintedWithin(t, c, name, SlingAngleFactor(c.InListSI("angles")[i]), 1e-3, "recalled digits, off by one in the last place at 65, 40 and 35°")
	}
	for _, bad := range []float64{0, -1, 2, math.NaN(), math.Inf(1)} {
		assert.True(t, math.IsNaN(SlingAngleFactor(bad)))
	}
}

func TestSlingLegs(t *testing.T) {
	c := publishedExample(t, "sling-01") // its lengths fit no triangle: the formula alone
	t1, t2 := SlingLegs(c.In("load"), c.In("S1"), c.In("S2"), c.In("D1"), c.In("D2"), c.In("H"))
	assertPrinted(t, c, "TS1", t1)
	assertPrinted(t, c, "TS2", t2)

	// With true lengths the legs balance the load: even legs at 60° carry
	// 1.155 of half each.
	t1, t2 = SlingLegs(10, 2, 2, 1, 1, math.Sqrt(3))
	assert.InEpsilon(t, 5*SlingAngleFactor(60*Deg), t1, exact)
	assert.InEpsilon(t, t1, t2, exact)
	t1, _ = SlingLegs(10, 2, 2, 1, 1, 0)
	assert.True(t, math.IsNaN(t1))
}

// Arboriculture Australia, Tree Rescue Manual, p. 118: the same factor
// carries a rope over a pulley and a basket's two legs.
func TestBasketFactor(t *testing.T) {
	c := publishedExample(t, "redir-03")
	for i, name := range []string{"k_0", "k_60", "k_90", "k_120"} {
		if unit := c.Answer(name); unit.Printed == "1" || unit.Printed == "2" {
			assert.InDelta(t, unit.Value, BasketFactor(c.InListSI("angles")[i]), 1e-9)
			continue
		}
		assertPrinted(t, c, name, BasketFactor(c.InListSI("angles")[i]))
	}
	assert.True(t, math.IsNaN(BasketFactor(-0.1)))
	assert.True(t, math.IsNaN(BasketFactor(4)))
	assert.True(t, math.IsNaN(BasketFactor(math.NaN())))
	// EN 1492-1 mode factors (from memory) are these at their steepest, cut
	// off: 2·cos 45° is 1.41, 2·cos 60° is 1.
	assert.InDelta(t, mustFind(t, FindHitch, "basket_45").Value, BasketFactor(90*Deg), 0.015)
	assert.InDelta(t, mustFind(t, FindHitch, "basket_60").Value, BasketFactor(120*Deg), 1e-12)
}

// 29 CFR 1918 App. II, Table 2, in pounds: choker half of vertical (0.4545 of it at 1/2 in), basket
// 2·cos of the leg's angle, rounded to 100 or 50 lb. Only 1 in at 45°
// (2,546) is rounded up, to 2,600; the others stand at or below the formula.
func TestFibreSlingTable(t *testing.T) {
	printed := map[float64][6]float64{
		0.5:   {550, 250, 1100, 900, 750, 550},
		0.625: {900, 450, 1800, 1500, 1200, 900},
		0.75:  {1100, 550, 2200, 1900, 1500, 1100},
		1:     {1800, 900, 3600, 3100, 2600, 1800},
	}
	choked := mustFind(t, FindHitch, "choked_natural_fibre")
	for inches, row := range printed {
		s, ok := FindFibreSling(inches * Inch)
		require.True(t, ok)
		assert.InEpsilon(t, row[0], s.Vertical/PoundForce, exact)
		assert.InEpsilon(t, row[1], s.Choker/PoundForce, exact)
		assert.InDelta(t, choked.High*row[0], s.Choker/PoundForce, 25, "half of vertical, in steps of 50")
		assert.LessOrEqual(t, choked.Value*row[0], s.Choker/PoundForce, "no more than is printed for any of them")
		for i, angle := range []float64{0, 30, 45, 60} {
			assert.InEpsilon(t, row[2+i], s.Basket[i]/PoundForce, exact)
			assert.InDelta(t, row[0]*BasketFactor(2*angle*Deg), row[2+i], 75, "%v in at %v°", inches, angle)
		}
	}
	between, ok := FindFibreSling(0.7 * Inch)
	require.True(t, ok)
	assert.InEpsilon(t, 0.625*Inch, between.Diameter, exact, "the next thinner one listed")
	_, ok = FindFibreSling(0.4 * Inch)
	assert.False(t, ok)
	_, ok = FindFibreSling(math.NaN())
	assert.False(t, ok)
}

// ASME B30.9, from memory: percent of the choker rating by angle of choke.
func TestChokeFactor(t *testing.T) {
	for degrees, want := range map[float64]float64{
		180: 1, 135: 1, 121: 1, 120: 0.87, 90: 0.87, 89: 0.74, 60: 0.74, 59: 0.62, 30: 0.62, 29: 0.49, 0: 0.49,
	} {
		got, err := ChokeFactor(degrees * Deg)
		require.NoError(t, err)
		assert.Equal(t, want, got, "%v°", degrees)
	}
	for _, bad := range []float64{-0.1, 3.2, math.NaN(), math.Inf(1)} {
		_, err := ChokeFactor(bad)
		assert.Error(t, err)
	}
}
