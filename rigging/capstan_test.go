package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

const fullTurn = 2 * math.Pi

func TestCapstanExamples(t *testing.T) {
	c := publishedExample(t, "cap-01")
	assertPrinted(t, c, "hold", c.In("load")/CapstanRatio(c.In("mu"), c.In("turns")*fullTurn))
	c = publishedExample(t, "cap-02")
	assertPrintedWithin(t, c, "T2", c.In("T1")/CapstanRatio(c.In("mu"), c.InSI("wrap")), 1e-4, "takes 2.718 for e")
	c = publishedExample(t, "cap-04") // each peg wraps 135°, and both add
	wraps := c.InListSI("wraps")
	assertPrinted(t, c, "mass", c.In("T")/CapstanRatio(c.In("mu"), wraps[0]+wraps[1])/c.In("g"))
	c = publishedExample(t, "cap-06")
	assertPrinted(t, c, "tail", c.In("load")/CapstanRatio(c.In("mu"), c.In("turns")*fullTurn))
	c = publishedExample(t, "cap-07")                              // band brake: M = (tight − slack)·r
	tight := c.In("W") * c.InList("arms")[0] / c.InList("arms")[1] // the side on the lever
	assertPrintedWithin(t, c, "M", tight*(1-1/CapstanRatio(c.In("mu"), c.InSI("wrap")))*c.In("r"), 1e-4, "takes 2.718 for e")
}

// Ratios of Euler's formula as tabulated, three digits.
func TestCapstanTable(t *testing.T) {
	for friction, row := range map[float64][5]float64{
		0.08: {1.29, 1.65, 2.73, 4.52, 7.47},
		0.10: {1.37, 1.87, 3.51, 6.59, 12.3},
		0.20: {1.87, 3.51, 12.3, 43.4, 152},
		0.30: {2.57, 6.59, 43.4, 286, 1880},
		0.40: {3.51, 12.3, 152, 1880, 23200},
	} {
		for i, turns := range []float64{0.5, 1, 2, 3, 4} {
			assert.InEpsilon(t, row[i], digits(CapstanRatio(friction, turns*fullTurn)), exact, "μ %v, %v turns", friction, turns)
		}
	}
}

// A. R. Kimbell, Oregon State University, 1981: μ 0.1768 in one wrap round
// a notched stump, 9.22 : 1; a notch of 60° gives it, a plain wrap only 3.04.
func TestNotchedStump(t *testing.T) {
	var stump Entry
	for _, e := range RopeFrictions() {
		if e.Key == "cable_on_stump" {
			stump = e
		}
	}
	assert.InDelta(t, 9.22, NotchedRatio(stump.Value, fullTurn, 60*Deg), 0.01)
	assert.InDelta(t, 3.04, CapstanRatio(stump.Value, fullTurn), 0.005)
	assert.InEpsilon(t, CapstanRatio(0.2, 3), NotchedRatio(0.2, 3, math.Pi), exact)

	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		assert.True(t, math.IsNaN(CapstanRatio(bad, 1)))
		assert.True(t, math.IsNaN(CapstanRatio(1, bad)))
		assert.True(t, math.IsNaN(NotchedRatio(0.2, 1, bad)))
	}
	assert.True(t, math.IsNaN(NotchedRatio(0.2, 1, 0)))
}
