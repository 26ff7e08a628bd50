package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Stretch of bars, wires and ropes in the physics texts (OpenStax).
func TestStretchExamples(t *testing.T) {
	round := func(c publishedCase) float64 { return c.In("Y") * circle(c.InSI("d")) } // EA

	c := publishedExample(t, "el-01")
	force := c.In("m") * c.In("g")
	assertPrinted(t, c, "stress", force/c.InSI("Aa"))
	assertPrinted(t, c, "dL", Stretch(force, c.In("L"), c.In("Y")*c.InSI("Aa")))

	c = publishedExample(t, "el-02") // a climber on nylon rope
	assertPrinted(t, c, "dL", Stretch(c.In("m")*c.In("g"), c.In("L"), round(c)))
	c = publishedExample(t, "el-04") // a long steel cable
	assertPrinted(t, c, "dL", Stretch(c.In("F"), c.In("L"), round(c)))
	c = publishedExample(t, "el-05")
	assertPrintedWithin(t, c, "dL", Stretch(c.In("load")*c.In("g"), c.In("L"), round(c)), 0.003, "exact 8.570 mm, printed 8.59 from rounded steps")
	c = publishedExample(t, "el-07") // a tightrope wire
	assertPrinted(t, c, "dL", Stretch(c.In("F"), c.In("L"), round(c)))
}

// Energy taken up by a line: ½·k·x², k = EA/L.
func TestStoredEnergyExamples(t *testing.T) {
	c := publishedExample(t, "el-08") // a fall of 2 m caught by a rope of 14 kN/m
	energy := c.In("m") * c.In("g") * c.In("h")
	for length, name := range map[float64]string{1: "x", 2: "x_double"} {
		tension := math.Sqrt(2 * energy * c.In("k") / length)
		assert.InEpsilon(t, energy, StoredEnergy(tension, length, c.In("k")), exact)
		assertPrinted(t, c, name, Stretch(tension, length, c.In("k")))
	}

	c = publishedExample(t, "el-10") // a train into a spring: ½mv² = ½kx²
	energy = c.In("m") * c.In("v") * c.In("v") / 2
	k := c.Answer("k").Value
	assertPrinted(t, c, "k", 2*energy/(c.In("x")*c.In("x")))
	// 0.1 %: k is printed to three digits.
	assert.InEpsilon(t, energy, StoredEnergy(k*c.In("x"), 1, k), 1e-3)

	// 50 kN over 60 m: 16 mm wire rope (118 mm², 70 GPa) stretches 0.36 m
	// and holds 9.1 kJ; fibre that stretches 1, 3 or 10 % holds 15, 45, 150 kJ.
	const tension, length = 50 * KN, 60.0
	assert.InDelta(t, 0.36, Stretch(tension, length, 118*MM*MM*70e9), 0.005)
	assert.InDelta(t, 9.1e3, StoredEnergy(tension, length, 118*MM*MM*70e9), 50)
	for percent, kilojoules := range map[float64]float64{1: 15, 3: 45, 10: 150} {
		assert.InEpsilon(t, 1000*kilojoules, StoredEnergy(tension, length, tension/(percent/100)), exact)
	}
}
