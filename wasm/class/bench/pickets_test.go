package bench

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/wasm/units"
)

// US Navy NAVEDTRA 14251, Steelworker vol. 2, ch. 6: 700 lb for a picket,
// 1,800 lb for 1-1-1 and 4,000 lb for 3-2-1, in loam. US Army FM 5-125, Table
// 4-1 (from memory): 1,400 lb for 1-1 and 2,000 lb for 2-1.
func TestPicketsBenchTable(t *testing.T) {
	for group, pounds := range map[string]float64{"1": 700, "1-1": 1400, "2-1": 2000, "1-1-1": 1800, "3-2-1": 4000} {
		s := picketsAt(group, 0, 1, 2)
		assert.InEpsilon(t, pounds*rigging.PoundForce/rigging.KN, s.lets, 1e-12, group)
		assert.Equal(t, s.lets/2, s.holds)
		assert.LessOrEqual(t, s.lets, s.single*float64(s.pickets)+1e-12, "never more than they add up to: %s", group)
	}
	b := askFor(t, map[string]any{"bench": "pickets", "settings": map[string]any{"units": "us"}, "values": map[string]string{"group": "3-2-1", "soil_factor": "1"}})
	assert.Equal(t, "4000\u00a0lbf", b.fact("lets"))
	assert.Equal(t, "2000\u00a0lbf", b.fact("holds"))
}

// Natural Disasters Organisation (Australia), Disaster Rescue, para 8.3: 350
// kg of working load for each steel picket, about 2 tonnes for the whole: no
// factor on that.
func TestPicketsBenchSteel(t *testing.T) {
	for n, tonnes := range map[int]float64{1: 0.35, 3: 1.05, 6: 2} {
		assert.InEpsilon(t, tonnes*rigging.TonneForce/rigging.KN, picketsAt("steel", n, 0.1, 2).holds, 1e-12, "%d", n)
	}
}

// More pickets or firmer ground never hold less.
func TestPicketsBenchRunsOneWay(t *testing.T) {
	for n := 1; n < 6; n++ {
		assert.LessOrEqual(t, picketsAt("steel", n, 1, 2).holds, picketsAt("steel", n+1, 1, 2).holds)
	}
	for _, group := range []string{"1", "1-1", "2-1", "1-1-1", "3-2-1"} {
		for soil := 0.1; soil < 0.9; soil += 0.1 {
			assert.LessOrEqual(t, picketsAt(group, 0, soil, 2).holds, picketsAt(group, 0, soil+0.1, 2).holds)
		}
	}
}

// A plan with the same pickets, its factor not given.
func TestPicketsAreThePlans(t *testing.T) {
	for _, rows := range [][]int{{1}, {1, 1}, {2, 1}, {1, 1, 1}, {3, 2, 1}} {
		p := plumbPlan(14, 0, 40, 2)
		p["points"].([]any)[0].(map[string]any)["anchor"] = map[string]any{"kind": "pickets", "rows": rows, "soil_factor": 0.9}
		rep := equalPlan(t, p)
		group := strings.Trim(strings.ReplaceAll(fmt.Sprint(rows), " ", "-"), "[]")
		b := askFor(t, map[string]any{"bench": "pickets", "values": map[string]string{"group": group, "soil_factor": "0.9"}})
		assert.Equal(t, units.KN.Exact().Capacity(float64(rep.Points[0].CapacityKN)), b.fact("holds"), group)
	}
}
