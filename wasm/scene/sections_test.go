package scene_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/scene"
	"pullline/wasm/units"
)

func stemOf(t *testing.T, sections string) (d string, corners int) {
	t.Helper()
	raw := `{"version": 1, "tree": {"height_m": 20, "diameter_cm": 50, "lean_deg": 0, "sections": ` + sections + `}}`
	rep := plan.Evaluate([]byte(raw))
	side, _, _ := scene.Drawings(scene.Boxes{Side: draw.Box{W: 600, H: 400}}, drafttest.Parse([]byte(raw)), &rep, &units.KN)
	require.NotNil(t, side)
	for _, s := range side.Shapes {
		if s.Class == "stem" {
			return s.D, strings.Count(s.D, "L") + 1
		}
	}
	require.Fail(t, "no stem")
	return "", 0
}

// The side view shows the taper that was measured.
func TestStemIsDrawnBySections(t *testing.T) {
	even, corners := stemOf(t, `[]`)
	assert.Equal(t, 3, corners)
	_, corners = stemOf(t, `[{"height_m": 1.3, "diameter_cm": 50}, {"height_m": 8, "diameter_cm": 44}, {"height_m": 0, "diameter_cm": 80}]`)
	assert.Equal(t, 7, corners, "two sides of three heights above the stump, and the tip")
	for _, wrong := range []string{`3`, `[3]`, `[{"height_m": "low", "diameter_cm": 50}]`, `[{"height_m": 100, "diameter_cm": 50}]`, `[{"height_m": 2, "diameter_cm": -5}]`} {
		d, _ := stemOf(t, wrong)
		assert.Equal(t, even, d, wrong)
	}
}
