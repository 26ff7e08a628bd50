package bench

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

func frictionOut(t *testing.T, values map[string]string) string {
	return askFor(t, map[string]any{"bench": "friction", "values": values}).fact("out")
}

// Tails of ropes round a fixed body: A. K. Tayal, Engineering Mechanics,
// example 7.4, 1000 N held through half a turn at 0.25 by 456 N (digits of an
// open companion to the book, which takes e as 2.718); R. S. Khurmi & J. K.
// Gupta, Theory of Machines, example 11.5, 9000 N through 2.5 turns at 0.25 by
// 177.33 N (likewise a companion's digits). Here rounded up.
func TestFrictionBenchCapstan(t *testing.T) {
	assert.Equal(t, "45.6\u00a0kN", frictionOut(t, map[string]string{"over": "stem", "tension_kN": "100", "turns": "0.5", "friction": "0.25"}))
	assert.Equal(t, "1.78\u00a0kN", frictionOut(t, map[string]string{"over": "stem", "tension_kN": "90", "turns": "2.5", "friction": "0.25"}))
}

// The lead-line factor of one sheave of the Wire Rope Users Manual (from
// memory) is the ratio at a half-turn: 1.09 with a plain bearing, 1.04 with a
// rolling one. Over three such sheaves they multiply.
func TestFrictionBenchHalfTurns(t *testing.T) {
	half := map[string]string{"included_deg": "0", "tension_kN": "100", "blocks": "1", "efficiency": units.Decimal(1/1.09, -1)}
	assert.Equal(t, "109\u00a0kN", frictionOut(t, half))
	half["blocks"] = "3"
	assert.Equal(t, "130\u00a0kN", frictionOut(t, half)) // 1.09³ = 1.295
	half["efficiency"], half["blocks"] = units.Decimal(1/1.04, -1), "1"
	assert.Equal(t, "104\u00a0kN", frictionOut(t, half))
}

// More wrap, more blocks or a worse sheave never make hauling easier; more
// turns or more friction never ask more of the tail.
func TestFrictionBenchRunsOneWay(t *testing.T) {
	out := func(values map[string]string) float64 {
		b := &work{u: &units.KN, spec: &friction, in: map[string]float64{}, text: map[string]string{}, out: broken(words.Locale{}, "")}
		b.resolve(values)
		b.spec.solve(b)
		return b.kept.(frictionState).out
	}
	runs := func(key string, from, to, step float64, values map[string]string, way float64) {
		values[key] = units.Decimal(from, -1)
		last := out(values)
		for v := from + step; v <= to; v += step {
			values[key] = units.Decimal(v, -1)
			now := out(values)
			assert.GreaterOrEqual(t, way*now, way*last-1e-9, "%s %v", key, v)
			last = now
		}
	}
	runs("included_deg", 0, 180, 5, map[string]string{}, -1)
	runs("blocks", 1, 6, 1, map[string]string{}, 1)
	runs("efficiency", 0.5, 1, 0.05, map[string]string{}, -1)
	runs("turns", 0.25, 4, 0.25, map[string]string{"over": "stem"}, -1)
	runs("friction", 0.05, 0.6, 0.05, map[string]string{"over": "stem"}, -1)
}

// Published frictions are offered by name, each within what the field takes.
func TestFrictionBenchOffersPublishedValues(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "friction", "values": map[string]string{"over": "stem"}})
	for _, f := range b.Fields {
		if f.Path == "friction" {
			assert.Len(t, f.Suggest, len(rigging.RopeFrictions()))
			for _, o := range f.Suggest {
				to := askFor(t, map[string]any{"bench": "friction", "values": b.Values, "set": "friction", "text": o.Value})
				assert.True(t, to.Fresh, o.Label)
			}
		}
	}
}

// What a wrap is relied on to hold is never shown as more than it is: e^(0.6 ·
// 2π · 1.247) is 110.07.
func TestFrictionBenchRatioDown(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "friction", "values": map[string]string{"over": "stem", "turns": "1.247", "friction": "0.6"}})
	assert.Equal(t, "110", b.fact("ratio"))
}

// Over one block, a block's anchor gets 2, 1.73, 1.41 and 1 times the haul at
// 0°, 60°, 90° and 120° where nothing rubs (Arboriculture Australia, Tree Rescue
// Manual, p. 118), and never more than that with friction.
func TestFrictionBenchAnchors(t *testing.T) {
	for angle, factor := range map[string]float64{"0": 2, "60": 1.73, "90": 1.41, "120": 1} {
		s := solved(t, &friction, map[string]string{"included_deg": angle, "efficiency": "0.85"}).kept.(frictionState)
		assert.InDelta(t, factor, s.anchorMost/s.out, 0.005, angle)
		assert.Less(t, s.anchor, s.anchorMost, angle)
	}
}

// A plan with one such block, whose puller stops at just the haul that may be
// needed: with friction and without.
func TestFrictionIsThePlans(t *testing.T) {
	p := plumbPlan(14, 0, 40, 20)
	p["tree"].(map[string]any)["lean_deg"], p["tree"].(map[string]any)["lean_bearing_deg"] = 15, 0 // it goes by itself: all loads are standing
	p["points"] = append(p["points"].([]any), map[string]any{"id": "M", "bearing_deg": 70, "distance_m": 45, "anchor": map[string]any{"kind": "rated", "capacity_kN": 90}})
	line := p["lines"].([]any)[0].(map[string]any)
	line["path"] = append(line["path"].([]any), map[string]any{"point": "M"})
	line["path"].([]any)[1].(map[string]any)["efficiency"] = 0.85
	haul := float64(equalPlan(t, p).Lines[0].HaulKN)
	line["puller"] = map[string]any{"rated_kN": 30, "limited_by": "device", "setting_kN": haul}
	rep := equalPlan(t, p)
	s := solved(t, &friction, map[string]string{"tension_kN": "20", "blocks": "1", "efficiency": "0.85", "included_deg": units.Decimal(float64(rep.Points[0].IncludedDeg), -1)}).kept.(frictionState)
	const digits = 1e-5 // of the report
	assert.InEpsilon(t, haul, s.out, digits)
	assert.InEpsilon(t, float64(rep.Lines[0].AtMostKN), s.out, digits)
	assert.InEpsilon(t, float64(rep.Points[0].LoadKN), s.anchor, digits)
	assert.InEpsilon(t, float64(rep.Points[0].AtMostKN), s.anchorMost, digits)
}
