package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDragPullExamples(t *testing.T) {
	c := publishedExample(t, "trac-03") // crate on a level floor
	g := c.In("g")
	assertPrinted(t, c, "F", DragPull(c.In("m")*g, c.In("mu_s"), 0, 0))
	slipping := DragPull(c.In("m")*g, c.In("mu_k"), 0, 0)
	assertPrinted(t, c, "a", (c.Answer("F").Value-slipping)/c.In("m"))

	c = publishedExample(t, "trac-04") // rope 20° above the floor
	assertPrinted(t, c, "P", DragPull(c.In("W"), c.In("mu"), 0, c.InSI("rope")))

	c = publishedExample(t, "trac-01") // eight dogs and a sled
	push := c.In("dogs") * c.In("push")
	dogs := c.In("dogs") * c.In("dog")
	for friction, name := range map[string]string{"mu_s": "start", "mu_k": "run"} {
		drag := DragPull(c.In("sled")*c.In("g"), c.In(friction), 0, 0)
		a := (push - drag) / (dogs + c.In("sled"))
		assertPrinted(t, c, "a_"+name, a)
		assertPrinted(t, c, "coupling_"+name, push-dogs*a)
	}

	c = publishedExample(t, "inc-01") // frictionless slope
	assertPrinted(t, c, "W2", DragPull(c.In("W1"), 0, c.InSI("slope"), 0))

	// inc-03: a block up 60°, its cord moving another on the level at the
	// best angle, atan μ.
	c = publishedExample(t, "inc-03")
	mu := c.In("mu")
	cord := DragPull(c.In("W2"), mu, c.InSI("slope"), 0)
	assert.InDelta(t, 144.9, cord, 0.05)
	best := math.Atan(mu)
	level := DragPull(c.In("W1"), mu, 0, best) + cord/(math.Cos(best)+mu*math.Sin(best))
	assertPrinted(t, c, "P", level)
}

func TestDragPull(t *testing.T) {
	// The least pull is at atan μ, W·sin(atan μ) on the level.
	assert.InEpsilon(t, 1000*math.Sin(math.Atan(0.6)), DragPull(1000, 0.6, 0, math.Atan(0.6)), exact)
	assert.Less(t, DragPull(1000, 0.6, 0, math.Atan(0.6)), DragPull(1000, 0.6, 0, 0))
	assert.Zero(t, DragPull(1000, 0.2, -30*Deg, 0), "slides by itself")
	nan := math.NaN()
	for _, bad := range [][4]float64{
		{-1, 0.5, 0, 0}, {nan, 0.5, 0, 0}, {1, -0.1, 0, 0}, {1, nan, 0, 0}, {1, 0.5, math.Pi / 2, 0}, {1, 0.5, nan, 0},
		{1, 0.5, 0, math.Pi / 2}, {1, 0.5, 0, nan}, {1, 0.9, 0, -60 * Deg}, {math.Inf(1), 0.5, 0, 0},
	} {
		assert.True(t, math.IsNaN(DragPull(bad[0], bad[1], bad[2], bad[3])), "%v", bad)
	}
}

// Peurifoy & Schexnayder, traction table, from memory; the low ends.
func TestTractionTable(t *testing.T) {
	for key, want := range map[string]float64{
		"tyres_dry_concrete": 0.80, "tyres_dry_clay_loam": 0.50, "tyres_wet_clay_loam": 0.40, "tyres_ice": 0.10,
		"tracks_dry_concrete": 0.45, "tracks_dry_clay_loam": 0.90, "tracks_wet_clay_loam": 0.70, "tracks_dry_snow": 0.15,
	} {
		assert.Equal(t, want, mustFind(t, FindTraction, key).Value, key)
	}
}
