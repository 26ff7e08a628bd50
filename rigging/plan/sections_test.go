package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pullline/rigging/plan/field"
)

func withSections(t *testing.T, sections any, more fields) Report {
	d := demoDocument(t)
	tree := d["tree"].(map[string]any)
	delete(tree, "mass_kg")
	delete(tree, "mass_centre_m")
	delete(tree, "form_factor")
	tree["sections"] = sections
	for k, v := range more {
		tree[k] = v
	}
	return d.evaluate(t)
}

// A cone and a paraboloid in sections weigh what the closed forms say: a
// third and a half of the cylinder, with the centre of what stands above the
// cut a quarter and a third of the way up from it.
func TestPlanWithStemInSections(t *testing.T) {
	const height, butt, stump, density = 30.0, 0.9, 0.4, 900.0 // the stump of the demonstration plan
	for _, c := range []struct {
		factor, tolerance float64
		diameter          func(h float64) float64
	}{
		{1.0 / 3, 1e-3, func(h float64) float64 { return butt * (1 - h/height) }},
		{1.0 / 2, 0.01, func(h float64) float64 { return butt * math.Sqrt(1-h/height) }}, // the tip is taken as a cone
	} {
		var sections []any
		for i := range field.Stages.Row().Most {
			h := float64(i) * 1.25
			sections = append(sections, fields{"height_m": h, "diameter_cm": 100 * c.diameter(h)})
		}
		d := fields{"height_m": height, "diameter_cm": 80, "green_density_kgm3": density, "crown_fraction": 0.2, "crown_centre_m": 20, "lean_deg": 0}
		rep := withSections(t, sections, d)
		require.Empty(t, rep.Problems)
		volume := c.factor * math.Pi / 4 * butt * butt * height
		above := volume * math.Pow(1-stump/height, 1/c.factor) * density
		crown := 0.2 * volume * density
		centre := stump + (height-stump)*c.factor/(1+c.factor)
		assert.InEpsilon(t, volume, float64(rep.Tree.VolumeM3), c.tolerance)
		assert.InEpsilon(t, above+crown, float64(rep.Tree.MassKg), c.tolerance)
		assert.InEpsilon(t, (above*centre+crown*20)/(above+crown), float64(rep.Tree.MassCentreM), c.tolerance)
		names := map[string]string{}
		for _, w := range rep.Working {
			names[w.Path] = say(w.Saying) + w.Formula
			if w.Path == "tree.mass_kg" {
				got := float64(w.Values[0].Value*w.Values[1].Value + w.Values[3].Value*w.Values[0].Value*w.Values[2].Value)
				assert.InEpsilon(t, float64(w.Result), got, 1e-9, "the working works out")
			}
		}
		assert.Contains(t, names["tree.volume_m3"], "Smalian")
		for _, a := range rep.Assumed {
			assert.NotEqual(t, "tree.form_factor", a.Path, "not used, not assumed")
		}
		d["mass_kg"] = 5000
		rep = withSections(t, sections, d)
		assert.Equal(t, Num(5000), rep.Tree.MassKg, "a measured mass still replaces")
	}
}

func TestWrongSectionsAreProblems(t *testing.T) {
	one := func(h, d any) any { return fields{"height_m": h, "diameter_cm": d} }
	for name, c := range map[string]struct {
		sections any
		path     string
	}{
		"no list":         {3, "tree.sections"},
		"empty":           {[]any{}, "tree.sections"},
		"no object":       {[]any{3}, "tree.sections[0]"},
		"no diameter":     {[]any{fields{"height_m": 1.3}}, "tree.sections[0].diameter_cm"},
		"text":            {[]any{one("low", 80)}, "tree.sections[0].height_m"},
		"above the top":   {[]any{one(1.3, 80), one(100, 20)}, "tree.sections"},
		"twice":           {[]any{one(1.3, 80), one(1.3, 70)}, "tree.sections[1].height_m"},
		"nought":          {[]any{one(1.3, 0)}, "tree.sections[0].diameter_cm"},
		"an unknown part": {[]any{fields{"height_m": 1.3, "diameter_cm": 80, "girth_cm": 1}}, "tree.sections[0].girth_cm"},
	} {
		rep := withSections(t, c.sections, nil)
		refused(t, name, rep, c.path, false)
	}
}
