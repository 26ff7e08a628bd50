package screen

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
)

func demoView(t *testing.T, settings Settings) (*View, *plan.Report) {
	t.Helper()
	tree, err := jsontext.Parse(demo(t))
	require.NoError(t, err)
	box := Box{W: 700, H: 420}
	v := view(&Request{Plan: tree, size: 1, Boxes: Boxes{box, box, box}, Settings: settings})
	rep := plan.EvaluateTree(tree, 1)
	return v, &rep
}

// first is the number a text begins with, without its unit.
func first(text string) string {
	text, _, _ = strings.Cut(text, "\u00a0")
	return strings.TrimSuffix(text, "°")
}

// Every main number of the demonstration opens a step, whose result, rounded
// as the page rounds, is the number shown.
func TestEveryNumberHasItsWorking(t *testing.T) {
	for _, u := range []*unitSystem{&systemKN, &systemTF, &systemUS} {
		v, rep := demoView(t, Settings{Units: u.key})
		steps := stepsByPath(rep)
		shown := func(path, text string, dim dimension, way direction) {
			t.Helper()
			s := steps[path]
			require.NotNil(t, s, "%s of %s", path, text)
			value := float64(s.Result)
			if value < 0 {
				value = -value // said in words: to the right, against the lay
			}
			want := u.quantity(value, dim, way)
			if dim == plain {
				want = percent(value)
			}
			assert.Contains(t, text, first(want), "%s in %s", path, u.key)
		}
		dims := map[string]struct {
			dim dimension
			way direction
		}{
			"planned": {kilonewt, upward}, "start": {kilonewt, upward}, "peak": {kilonewt, upward}, "hold-puller": {kilonewt, downward},
			"commit": {degrees, nearest}, "hold-tension": {kilonewt, upward}, "hold-length": {metres, upward}, "haul": {kilonewt, upward},
			"travel": {metres, upward}, "rope": {metres, upward}, "side-hold": {plain, upward}, "mass": {kilograms, upward}, "centre": {metres, nearest},
			"forward": {moment, upward}, "side": {moment, upward}, "hinge": {moment, upward},
		}
		for _, f := range v.Facts {
			require.NotEmpty(t, f.Working, "%s opens its working", f.ID)
			require.NotNil(t, steps[f.Working], f.ID)
			id, _, _ := strings.Cut(f.ID, ":")
			if id == "drift" { // none: straight along the lay
				assert.InDelta(t, 0, float64(steps[f.Working].Result), 1e-6)
				continue
			}
			d, ok := dims[id]
			require.True(t, ok, f.ID)
			shown(f.Working, f.Value, d.dim, d.way)
		}
		assert.Len(t, v.Pieces, len(rep.Gear)+len(rep.Points))
		for _, p := range v.Pieces {
			shown(p.UseWorking, p.Use, plain, upward)
			shown(p.LoadWorking, p.Load, kilonewt, upward)
			if strings.HasSuffix(p.ID, "/puller") { // rated and stalling as the plan says
				assert.Empty(t, p.CapacityWorking+p.StallWorking)
				continue
			}
			shown(p.CapacityWorking, p.Capacity, kilonewt, downward)
			shown(p.StallWorking, p.StallLoad, kilonewt, upward)
		}
	}
}

func TestStepsInOtherUnits(t *testing.T) {
	v, _ := demoView(t, Settings{Units: "us"})
	for _, s := range v.Working {
		switch s.Path {
		case "pull.planned_kN":
			assert.Regexp(t, `^12\.42 kN \(.*lbf\)$`, s.Result)
		case "points[0].use":
			assert.Equal(t, "0.3338 (34\u00a0%)", s.Result)
		}
		assert.True(t, s.From == nil || len(s.From) == len(s.Values), s.Path)
	}
}

// What was typed stays in the names of steps, whatever the region's words.
func TestStepsInTheWordsOfTheRegion(t *testing.T) {
	d := new(document)
	d.region = wordsUK
	rep := plan.Report{Working: []plan.Working{{Path: "gear[0].use", Name: "Use of block by the block", Of: "block by the block"}, {Path: "x", Name: "Tackle"}}}
	steps := workingSteps(d, &systemKN, &rep)
	assert.Equal(t, "Use of block by the block", steps[0].Name)
	assert.Equal(t, "Pulley system", steps[1].Name)
}

func labelsOf(d *Drawing) (all []string) {
	for _, s := range d.Shapes {
		if s.Kind == "text" && s.Text != "" {
			all = append(all, strings.ReplaceAll(s.Text, "\u00a0", " "))
		}
	}
	return all
}

// With letters the drawings name what they show as the formulas do, without
// them they are as they were.
func TestDrawingsWithLetters(t *testing.T) {
	tree, err := jsontext.Parse(demo(t))
	require.NoError(t, err)
	box := Box{W: 1100, H: 600}
	v := view(&Request{Plan: tree, size: 1, Boxes: Boxes{box, box, box}, Letters: true, Settings: Settings{Units: "kN", Words: "nz"}})
	side, above, curve := strings.Join(labelsOf(v.Side), "\n"), strings.Join(labelsOf(v.Plan), "\n"), strings.Join(labelsOf(v.Curve), "\n")
	for _, text := range []string{"H 29.0 m", "h 14.0 m", "W 71.6 kN", "T₁ 12.5 kN", "Tₕ 8.9 kN", "λ 4°", "z 10.9 m", "s 0.4 m"} {
		assert.Contains(t, side, text)
	}
	for _, text := range []string{"γ 75°", "R 20.1 kN", "β 155°", "T₂ 12.9 kN", "y −0.3 m"} {
		assert.Contains(t, above, text)
	}
	for _, text := range []string{"T 12.5 kN", "φ 7.9°", "turn of the tree φ"} {
		assert.Contains(t, curve, text)
	}
	// The letters are those of the steps.
	letters := map[string]bool{}
	for _, s := range v.Working {
		for _, value := range s.Values {
			letter, _, _ := strings.Cut(value, " = ")
			letters[letter] = true
		}
	}
	for _, l := range []string{"H", "h", "W", "T₁", "T₂", "Tₕ", "S", "λ", "β", "z", "x", "y", "s", "γ", "R", "B₁", "T", "φ"} {
		assert.True(t, letters[l], "%s stands in a formula", l)
	}
	bare := view(&Request{Plan: tree, size: 1, Boxes: Boxes{box, box, box}, Settings: Settings{Units: "kN", Words: "nz"}})
	for _, d := range []*Drawing{bare.Side, bare.Plan, bare.Curve} {
		for _, text := range labelsOf(d) {
			assert.NotRegexp(t, `^(T₁|Tₕ|W|H|h|γ|λ|R) \d`, text)
		}
	}
}
