package bench

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// solved is a bench worked out at some of its values, for what it keeps.
func solved(t testing.TB, spec *bench, values map[string]string) *work {
	t.Helper()
	b := &work{u: &units.KN, spec: spec, in: map[string]float64{}, text: map[string]string{}, out: broken(words.Locale{}, "")}
	b.resolve(values)
	require.True(t, b.out.Fresh, "%v %+v", values, b.out.Fields)
	spec.solve(b)
	return b
}

// equalPlan evaluates a plan of the same set-up as a bench.
func equalPlan(t testing.TB, p map[string]any) plan.Report {
	t.Helper()
	raw, err := json.Marshal(p)
	require.NoError(t, err)
	rep := plan.Evaluate(raw)
	return rep
}

// plumbPlan is a plan of an invented tree in calm air, with a line from a height
// on it.
func plumbPlan(height, bearing, distance, planned float64) map[string]any {
	return map[string]any{"version": 1,
		"tree":       map[string]any{"species": "unknown_conifer", "height_m": 25, "diameter_cm": 50, "lean_deg": 0},
		"site":       map[string]any{"wind_mps": 0},
		"cut":        map[string]any{"stump_m": 0},
		"points":     []any{map[string]any{"id": "A", "bearing_deg": bearing, "distance_m": distance, "anchor": map[string]any{"kind": "rated", "capacity_kN": 500}}},
		"lines":      []any{map[string]any{"id": "pull", "role": "pull", "path": []any{map[string]any{"stem_m": height}, map[string]any{"point": "A"}}}},
		"planned_kN": planned}
}

// The part of a pull that turns and the part that presses, by the angle of
// the line: the cosines and sines of any printed table of trigonometric
// functions, to the two places shown; share rounded down, press rounded up.
func TestLineAngleShares(t *testing.T) {
	for _, c := range []struct{ deg, turns, presses float64 }{{15, 0.97, 0.26}, {20, 0.94, 0.34}, {30, 0.87, 0.50}, {45, 0.71, 0.71}, {60, 0.50, 0.87}} {
		height := 8 * math.Tan(c.deg*rigging.Deg)
		s := solved(t, &slopeOfLine, map[string]string{"attach_m": units.Decimal(max(height, 2), -1), "distance_m": "8", "tension_kN": "10"}).kept.(lineAngle)
		assert.InDelta(t, c.turns, s.lever/s.height, 0.005, c.deg)
		assert.InDelta(t, c.presses, s.press/s.tension, 0.005, c.deg)
	}
}

// 3-4-5: a line 12 m up to an anchor 16 m away is 20 m long and passes the
// hinge at 12·16/20 = 9.6 m; 10 kN turn with 96 kN·m and press with 6 kN.
func TestLineAngleByARightTriangle(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "line_angle", "values": map[string]string{"attach_m": "12", "distance_m": "16", "tension_kN": "10"}})
	assert.Equal(t, "96.0\u00a0kN·m", b.fact("turn"))
	assert.Equal(t, "80\u00a0%", b.fact("share"))
	assert.Equal(t, "9.6\u00a0m", b.fact("lever"))
	assert.Equal(t, "6.00\u00a0kN", b.fact("press"))
	assert.Equal(t, "10\u00a0m at 45°", b.fact("best"))
}

func TestLineAngleProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	for range 200 {
		h, d := 2+20*r.Float64(), 4+28*r.Float64()
		lever, press := leverOf(h, d)
		rope := math.Hypot(h, d)
		assert.LessOrEqual(t, lever, rope/2*(1+1e-12), "no lever is longer than half the rope")
		assert.InDelta(t, 1, lever/h*lever/h+press*press, 1e-12)
		higher, _ := leverOf(h*1.05, d)
		farther, _ := leverOf(h, d*1.05)
		assert.Greater(t, higher, lever)
		assert.Greater(t, farther, lever)
	}
	lever, _ := leverOf(10, 10)
	assert.InEpsilon(t, math.Hypot(10, 10)/2, lever, 1e-12, "at 45° it is half the rope")
}

func TestLineAngleIsThePlans(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "line_angle"})
	rep := equalPlan(t, plumbPlan(14, 0, 20, 20))
	assert.InDelta(t, 20*float64(rep.Pull.LeverM), solved(t, &slopeOfLine, nil).kept.(lineAngle).turn, 1e-5)
	assert.Equal(t, percentLeft(float64(rep.Lines[0].TurningShare)), b.fact("share"))
	assert.InDelta(t, float64(rep.Lines[0].Legs[0].ElevationDeg), -35, 0.01)
}

// The rope stays as long as it was, to the tenth of a metre that is kept.
func TestLineAngleAtItsBest(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "line_angle", "values": map[string]string{"attach_m": "5", "distance_m": "20"}, "do": "best"})
	assert.Equal(t, b.Values["attach_m"], b.Values["distance_m"])
	assert.Equal(t, "14.6", b.Values["attach_m"]) // √(5² + 20²)/√2 = 14.58
}
