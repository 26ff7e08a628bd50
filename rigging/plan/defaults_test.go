package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

// What is taken where nothing is said is what the tables of package rigging
// have, value and source.
func TestDefaultsAreThoseOfTheTables(t *testing.T) {
	rep := demoDocument(t).drop("cut").drop("lines[0].path[1].efficiency").drop("lines[0].tackle.efficiency").
		set("tree.diameter_cm", 60.0).set("tree.height_m", 30.0).set("site.wind_mps", 5.0).
		set("points[2].anchor", map[string]any{"kind": "tree", "diameter_cm": 50.0, "height_m": 20.0, "sling_height_m": 1.0}).evaluate(t)
	find := func(find func(string) (rigging.Entry, bool), key string) rigging.Entry {
		e, ok := find(key)
		require.True(t, ok, key)
		return e
	}
	for path, want := range map[string]struct {
		entry rigging.Entry
		times float64
	}{
		"lines[0].path[1].efficiency":         {find(rigging.FindSheave, "field_rule"), 1},
		"lines[0].tackle.efficiency":          {find(rigging.FindSheave, "field_rule"), 1},
		"cut.face_opening_deg":                {find(rigging.FindHingeGuide, "open_face_deg"), 1},
		"cut.hinge_length_cm":                 {find(rigging.FindHingeGuide, "hinge_length"), 60},
		"cut.hinge_left_cm":                   {find(rigging.FindHingeGuide, "hinge_thickness"), 60},
		"cut.hinge_right_cm":                  {find(rigging.FindHingeGuide, "hinge_thickness"), 60},
		"tree.drag_coefficient":               {find(rigging.FindDragCoefficient, "unknown_crown"), 1},
		"points[2].anchor.form_factor":        {find(rigging.FindTreeAnchorGuide, "form_factor"), 1},
		"points[2].anchor.green_density_kgm3": {find(rigging.FindTreeAnchorGuide, "green_density"), 1},
		"points[2].anchor.turning_Nm_per_kg":  {find(rigging.FindTreeAnchorTurning, "unknown_tree"), 1},
		"points[2].anchor.factor":             {find(rigging.FindTreeAnchorGuide, "factor"), 1},
	} {
		a := assumedAt(&rep, path)
		if !assert.NotNil(t, a, path) {
			continue
		}
		assert.InEpsilon(t, want.entry.Value*want.times, a.Value, 1e-9, path)
		if path != "points[2].anchor.factor" {
			assert.Equal(t, want.entry.Source.Text, a.Source, path)
			assert.Equal(t, string(want.entry.Source.Basis), a.Basis, path)
		}
	}
	assert.InEpsilon(t, rigging.CrownMiddle*30, assumedAt(&rep, "tree.crown_centre_m").Value, 1e-9)
	assert.InEpsilon(t, rigging.CrownSail*30*30, assumedAt(&rep, "tree.crown_area_m2").Value, 1e-9)
}
