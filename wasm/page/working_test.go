package page

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/page/show"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/scene"
	"pullline/wasm/units"
)

func demoView(t *testing.T, settings request.Settings) (*View, *plan.Report) {
	t.Helper()
	tree, err := jsontext.Parse(drafttest.Demo(t))
	require.NoError(t, err)
	box := draw.Box{W: 700, H: 420}
	v := view(&asked{Common: request.Common{Plan: tree, Size: 1, Settings: settings}, Boxes: scene.Boxes{Side: box, Plan: box, Curve: box}})
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
	for _, u := range []*units.System{&units.KN, &units.TF, &units.US} {
		v, rep := demoView(t, request.Settings{Units: u.Key})
		steps := scene.StepsByPath(rep)
		shown := func(path, text string, dim units.Dimension, way units.Direction) {
			t.Helper()
			s := steps[path]
			require.NotNil(t, s, "%s of %s", path, text)
			value := float64(s.Result)
			if value < 0 {
				value = -value // said in words: to the right, against the lay
			}
			want := u.Quantity(value, dim, way)
			if dim == units.Plain {
				want = units.Percent(value)
			}
			assert.Contains(t, text, first(want), "%s in %s", path, u.Key)
		}
		dims := map[string]struct {
			dim units.Dimension
			way units.Direction
		}{
			"planned": {units.Kilonewtons, units.Up}, "start": {units.Kilonewtons, units.Up}, "peak": {units.Kilonewtons, units.Up}, "hold-puller": {units.Kilonewtons, units.Down},
			"commit": {units.Degrees, units.Nearest}, "hold-tension": {units.Kilonewtons, units.Up}, "hold-length": {units.Metres, units.Up}, "haul": {units.Kilonewtons, units.Up},
			"travel": {units.Metres, units.Up}, "rope": {units.Metres, units.Up}, "side-hold": {units.Plain, units.Up}, "mass": {units.Kilograms, units.Up}, "centre": {units.Metres, units.Nearest},
			"forward": {units.KilonewtonMetres, units.Up}, "side": {units.KilonewtonMetres, units.Up}, "hinge": {units.KilonewtonMetres, units.Up},
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
		assert.Len(t, v.Pieces, len(rep.Gear)+len(rep.Points)+1)
		for _, p := range v.Pieces {
			carries := units.Kilonewtons
			if p.ID == plan.StemRow {
				carries = units.Megapascals
			}
			shown(p.UseWorking, p.Use, units.Plain, units.Up)
			shown(p.LoadWorking, p.Load, carries, units.Up)
			shown(p.CapacityWorking, p.Capacity, carries, units.Down)
			if strings.HasSuffix(p.ID, "/puller") { // at most as the plan says
				assert.Empty(t, p.AtMostWorking)
				continue
			}
			shown(p.AtMostWorking, p.AtMostLoad, carries, units.Up)
		}
	}
}

func TestStepsInOtherUnits(t *testing.T) {
	v, rep := demoView(t, request.Settings{Units: "us"})
	for _, s := range v.Working {
		switch s.Path {
		case "pull.planned_kN":
			assert.Regexp(t, `^`+regexp.QuoteMeta(units.Decimal(math.Ceil(float64(rep.Pull.PlannedKN)*100)/100, -1))+`.kN \(.*lbf\)$`, s.Result)
		case "points[0].use":
			assert.Contains(t, s.Result, " ("+units.Percent(float64(rep.Points[0].Use))+")")
		}
		assert.True(t, s.From == nil || len(s.From) == len(s.Values), s.Path)
	}
}

func labelsOf(d *draw.Drawing) (all []string) {
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
	tree, err := jsontext.Parse(drafttest.Demo(t))
	require.NoError(t, err)
	box := draw.Box{W: 1100, H: 600}
	v := view(&asked{Common: request.Common{Plan: tree, Size: 1, Settings: request.Settings{Units: "kN", Words: "nz"}}, Boxes: scene.Boxes{Side: box, Plan: box, Curve: box, Letters: true}, Report: true})
	rep := v.Report
	load := func(letter string, n plan.Num) string {
		return letter + " " + strings.ReplaceAll(units.KN.Load(float64(n)), "\u00a0", " ")
	}
	side, above, curve := strings.Join(labelsOf(v.Side), "\n"), strings.Join(labelsOf(v.Plan), "\n"), strings.Join(labelsOf(v.Curve), "\n")
	for _, text := range []string{"H 29.0 m", "h 14.0 m", load("W", rep.Tree.WeightKN), load("T₁", rep.Lines[0].TensionKN), load("Tₕ", rep.Lines[1].TensionKN), "λ 4°", "z " + units.Decimal(units.RoundDigits(float64(rep.Tree.MassCentreM), 3), 1) + " m", "s 0.4 m"} {
		assert.Contains(t, side, text)
	}
	for _, text := range []string{"γ 75°", load("R", rep.Points[0].LoadKN), "β 155°", load("T₂", rep.Lines[0].Legs[1].TensionKN), "y −" + units.Decimal(-float64(rep.Tree.LeftM), 1) + " m"} {
		assert.Contains(t, above, text)
	}
	for _, text := range []string{load("T", rep.Pull.PlannedKN), "φ " + units.Decimal(units.RoundDigits(float64(rep.Pull.CommitDeg), 2), 1) + "°", "turn of the tree φ"} {
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
	bare := view(&asked{Common: request.Common{Plan: tree, Size: 1, Settings: request.Settings{Units: "kN", Words: "nz"}}, Boxes: scene.Boxes{Side: box, Plan: box, Curve: box}})
	for _, d := range []*draw.Drawing{bare.Side, bare.Plan, bare.Curve} {
		for _, text := range labelsOf(d) {
			assert.NotRegexp(t, `^(T₁|Tₕ|W|H|h|γ|λ|R) \d`, text)
		}
	}
}

// inWordsAndDrawings gives the parts of the verdict and the labels of the
// drawings, each with the path of the step it opens.
func inWordsAndDrawings(v *View, each func(path, text string)) {
	for _, list := range [][]show.Part{v.Headline.Parts, v.Headline.AtMostParts} {
		for _, p := range list {
			each(p.Working, p.Text)
		}
	}
	for _, d := range []*draw.Drawing{v.Side, v.Plan, v.Curve} {
		for _, s := range d.Shapes {
			each(s.Working, s.Text)
		}
	}
}

// offered are the steps that a view offers to open, with the texts that do.
func offered(v *View) map[string][]string {
	out := map[string][]string{}
	add := func(path, text string) {
		if path != "" {
			out[path] = append(out[path], text)
		}
	}
	inWordsAndDrawings(v, add)
	for _, a := range v.Assumed {
		add(a.Working, a.Value)
	}
	for _, f := range v.Facts {
		add(f.Working, f.Value)
	}
	for _, p := range v.Pieces {
		add(p.LoadWorking, p.Load)
		add(p.CapacityWorking, p.Capacity)
		add(p.UseWorking, p.Use)
		add(p.AtMostWorking, p.AtMostLoad)
	}
	for _, s := range v.Working {
		for _, from := range s.From {
			add(from, s.Name)
		}
	}
	return out
}

// Nothing offers to open a step that is not there, in good plans and bad.
func TestNothingOpensNothing(t *testing.T) {
	change := func(text string, swaps ...string) string {
		for i := 0; i < len(swaps); i += 2 {
			require.Contains(t, text, swaps[i])
			text = strings.ReplaceAll(text, swaps[i], swaps[i+1])
		}
		return text
	}
	whole := string(drafttest.Demo(t))
	plans := map[string]string{
		"example":      whole,
		"own tension":  change(whole, `"tree": {`, `"planned_kN": 30, "tree": {`),
		"over":         change(whole, `"tree": {`, `"planned_kN": 300, "tree": {`),
		"no height":    change(whole, `"height_m"`, `"x_height_m"`),
		"broken lines": change(whole, `"lines"`, `"x_lines"`),
		"empty":        `{"version": 1}`,
	}
	for name, text := range plans {
		tree, err := jsontext.Parse([]byte(text))
		require.NoError(t, err, name)
		for _, letters := range []bool{false, true} {
			for _, w := range []float64{320, 700, 1400} {
				box := draw.Box{W: w, H: 420}
				v := view(&asked{Common: request.Common{Plan: tree, Size: len(text), Settings: request.Settings{Units: "kN"}}, Boxes: scene.Boxes{Side: box, Plan: box, Curve: box, Letters: letters}})
				steps := map[string]*parts.Step{}
				for _, list := range [][]parts.Step{v.Working, v.Taken} {
					for i := range list {
						require.Nil(t, steps[list[i].Path], "%s: %s stands once", name, list[i].Path)
						steps[list[i].Path] = &list[i]
						assert.NotEmpty(t, list[i].Name, list[i].Path)
						assert.NotEmpty(t, list[i].Formula, list[i].Path)
						assert.NotEmpty(t, list[i].Result, list[i].Path)
					}
				}
				for path, texts := range offered(v) {
					assert.NotNil(t, steps[path], "%s: %s of %q", name, path, texts)
				}
				said := ""
				for _, p := range v.Headline.Parts {
					said += p.Text
				}
				if said != "" {
					assert.Equal(t, v.Headline.Sentence, said, name)
				}
				// A light view, as during a drag, offers the same labels.
				light := view(&asked{Common: request.Common{Plan: tree, Size: len(text), Settings: request.Settings{Units: "kN"}}, Light: true, Boxes: scene.Boxes{Side: box, Plan: box, Curve: box, Letters: letters}})
				assert.Equal(t, v.Headline, light.Headline, name)
				assert.Equal(t, v.Plan, light.Plan, name)
			}
		}
	}
}

// The numbers of the verdict and the drawings say what the step they open
// comes to.
func TestLabelsSayWhatTheyOpen(t *testing.T) {
	v, rep := demoView(t, request.Settings{Units: "kN"})
	steps := scene.StepsByPath(rep)
	found := map[string]bool{}
	say := func(path, text string) {
		if path == "" {
			return
		}
		s := steps[path]
		require.NotNil(t, s, "%s of %s", path, text)
		r := float64(s.Result)
		if r < 0 {
			r = -r
		}
		want := units.KN.Load(r)
		switch {
		case strings.HasSuffix(path, ".use"):
			want = units.Percent(r)
		case s.Unit == "°":
			want = new(scene.Scene).AngleOf(r * rigging.Deg)
		case strings.Contains(path, "capacity") || strings.Contains(path, "hold_puller"):
			want = units.KN.Capacity(r)
		}
		assert.Contains(t, text, want, path)
		found[path] = true
	}
	inWordsAndDrawings(v, say)
	governs := ""
	for i, g := range rep.Gear {
		if g.ID == rep.Governing {
			governs = draft.Elem("gear", i)
		}
	}
	for _, path := range []string{
		"lines[0].haul_kN", governs + ".use", governs + ".capacity_kN", "pull.hold_puller_to_kN", // verdict
		"lines[0].tension_kN", "lines[0].haul_kN", "lines[1].tension_kN", "lines[0].legs[0].slope_deg", "tree.weight_kN", // side
		"points[0].load_kN", "points[0].angle_deg", // from above
		"pull.planned_kN", "pull.peak_kN", "pull.commit_deg", // curve
	} {
		assert.True(t, found[path], "%s can be opened from the verdict or a drawing", path)
	}
	// So can every number that was assumed, with why and whose it is.
	require.NotEmpty(t, v.Taken)
	for _, s := range v.Taken {
		assert.True(t, strings.HasPrefix(s.Formula, "assumed: "), s.Path)
		if s.Path == "tree.green_density_kgm3" {
			assert.Equal(t, "1000\u00a0kg/m³", s.Result)
			assert.Contains(t, s.Source, "convention")
		}
	}
}
