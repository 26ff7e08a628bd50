package screen

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
)

// Arboriculture Australia, Tree Rescue Manual, p. 118: without friction the
// legs of a rope over a pulley load it with 2, 1.73, 1.41 and 1 times the
// rope's load at 0, 60, 90 and 120°.
func TestDoubledBenchFactors(t *testing.T) {
	for angle, factor := range map[string]string{"0": "2.00", "60": "1.73", "90": "1.41", "120": "1.00"} {
		b := askBench(t, map[string]any{"bench": "doubled", "values": map[string]string{"included_deg": angle, "efficiency": "1"}})
		assert.Equal(t, factor, b.fact("gain"), angle)
	}
}

// R. C. Hibbeler & A. Gupta, Statics and Dynamics, example 2.1: 100 N and
// 150 N with 65° between them come to 213 N (digits of an open companion to
// the book). The sheave that makes 100 of 150 at that angle is a poor one.
func TestDoubledBenchUnequalLegs(t *testing.T) {
	lo, hi := 0.1, 1.0 // η by halving: the ratio falls with it
	for range 60 {
		if mid := (lo + hi) / 2; rigging.SheaveRatio(mid, 65*rigging.Deg) > 1.5 {
			lo = mid
		} else {
			hi = mid
		}
	}
	s := doubledAt(150, 65*rigging.Deg, hi)
	assert.InDelta(t, 100, s.dead, 1e-9)
	assert.InDelta(t, 213, s.load, 0.5, "printed to 1 N")
}

// A wider angle never makes the line pull more, friction never helps, and two
// legs never pull more than twice the tension hauled with.
func TestDoubledBenchRunsOneWay(t *testing.T) {
	for _, efficiency := range []float64{0.5, 0.8, 0.9, 1} {
		last := 2.0
		for angle := 0.0; angle <= 150; angle++ {
			s := doubledAt(1, angle*rigging.Deg, efficiency)
			assert.LessOrEqual(t, s.load, last+1e-12, "%v°", angle)
			assert.LessOrEqual(t, s.dead, 1.0)
			if angle <= 90 {
				assert.LessOrEqual(t, s.load, doubledAt(1, angle*rigging.Deg, 1).load+1e-12, "%v°", angle)
			}
			last = s.load
		}
	}
}
