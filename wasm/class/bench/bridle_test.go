package bench

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/wasm/draw"
	"pullline/wasm/units"
)

// US Department of Energy, DOE-STD-1090 Hoisting and Rigging, ch. 12, load
// angle factors by the angle of a leg above level (from memory): a leg of two
// carries 1.000, 1.035, 1.155, 1.414 and 2.000 times half the load at 90, 75,
// 60, 45 and 30°. Shown in kN for a pull of 20, rounded up.
func TestBridleBenchAngleFactors(t *testing.T) {
	for level, load := range map[float64]string{75: "10.4\u00a0kN", 60: "11.6\u00a0kN", 45: "14.2\u00a0kN", 30: "20.0\u00a0kN"} {
		for _, legs := range []string{"fixed", "adjusting"} {
			b := askFor(t, map[string]any{"bench": "bridle", "values": map[string]string{"included_deg": units.Decimal(180-2*level, -1), "pull_kN": "20", "legs": legs}})
			assert.Equal(t, load, b.fact("load"), "%v° %s", level, legs)
		}
	}
}

// OpenStax, University Physics vol. 1, sec. 6.1, "Different Tensions at
// Different Angles": 15 kg hangs on wires 30° and 45° above level, under 108
// and 132 N. Legs 105° apart, the pull 7.5° off their middle.
func TestBridleBenchTrafficLight(t *testing.T) {
	s := bridleAt(15*9.8/rigging.KN, 105*rigging.Deg, -7.5*rigging.Deg, false)
	assert.InDelta(t, 108, s.tension[0]*rigging.KN, 0.5, "printed to 1 N")
	assert.InDelta(t, 132, s.tension[1]*rigging.KN, 0.5, "printed to 1 N")
	assert.InDelta(t, 105*rigging.Deg, s.now, 1e-12)
}

// A wider angle never takes load off even legs, no leg pushes, and a pull
// farther off the middle never loads the harder of fixed legs less until it
// stands across the other one.
func TestBridleBenchRunsOneWay(t *testing.T) {
	for _, self := range []bool{false, true} {
		for off := 0.0; off <= 40; off += 5 {
			last := 0.0
			for included := 2 * off; included <= 160; included++ {
				s := bridleAt(1, max(included, 1)*rigging.Deg, off*rigging.Deg, self)
				require.True(t, draw.Finite(s.most()))
				assert.GreaterOrEqual(t, min(s.tension[0], s.tension[1]), 0.0)
				if self || off == 0 {
					assert.GreaterOrEqual(t, s.most(), last-1e-12, "%v° %v°", included, off)
				}
				last = s.most()
				if !self && off >= 5 && included/2+off <= 90 {
					less := bridleAt(1, max(included, 1)*rigging.Deg, (off-5)*rigging.Deg, false)
					assert.GreaterOrEqual(t, s.most(), less.most()-1e-9, "%v° %v°", included, off)
				}
			}
		}
	}
}

// Pulled from outside its legs a bridle hangs on one of them, in line.
func TestBridleBenchSaysWhatIsSlack(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "bridle", "values": map[string]string{"included_deg": "40", "off_deg": "30"}, "box": boxes})
	assert.Equal(t, "slack", b.fact("right"))
	assert.Equal(t, "10.0\u00a0kN", b.fact("load"))
	s := bridleAt(10, 40*rigging.Deg, 30*rigging.Deg, false)
	line := s.ends[0].Minus(s.at)
	assert.InDelta(t, 30*rigging.Deg, math.Atan2(-line.X, line.Y), 1e-12)
}
