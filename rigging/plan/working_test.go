package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pullline/rigging"
	"pullline/rigging/jsontext"
)

// wholeWorkings are plans that between them have every step.
func wholeWorkings(t *testing.T) map[string]Report {
	rep := func(change func(d document)) Report {
		d := demoDocument(t)
		change(d)
		return d.evaluate(t)
	}
	anchor := func(point string, v any) func(d document) {
		return func(d document) { d.set(point+".anchor", v) }
	}
	type part = map[string]any
	two := []any{part{"point": "T1"}, part{"point": "T2"}}
	return map[string]Report{
		"demo":        rep(func(document) {}),
		"wind":        rep(func(d document) { d.set("site.wind_mps", 8.0) }),
		"own tension": rep(func(d document) { d.set("planned_kN", 20.0) }),
		"measured":    rep(func(d document) { d.set("tree.mass_kg", 6000.0); d.set("tree.mass_centre_m", 12.0) }),
		"sections": rep(func(d document) {
			d.set("tree.sections", []any{part{"height_m": 1.3, "diameter_cm": 78.0}, part{"height_m": 12.0, "diameter_cm": 50.0}})
		}),
		"no hold line": rep(func(d document) { d["lines"] = d["lines"].([]any)[:1]; d["gear"] = d["gear"].([]any)[:7] }),
		"fixed legs":   rep(anchor("points[1]", part{"kind": "bridle", "legs": two})),
		"three legs":   rep(anchor("points[1]", part{"kind": "bridle", "legs": append(two, part{"point": "M"})})),
		"buried log":   rep(anchor("points[0]", part{"kind": "buried_log", "depth_m": 1.5, "length_m": 1.5, "diameter_cm": 40.0})),
		"pickets":      rep(anchor("points[5]", part{"kind": "pickets", "rows": []any{3.0, 2.0, 1.0}, "soil_factor": 0.9})),
		"moving":       rep(func(d document) { d.set("lines[0].tackle.stages[0].haul_from", "moving") }),
		"compound": rep(func(d document) {
			d.set("lines[0].tackle.stages", []any{part{"parts": 2.0, "haul_from": "fixed"}, part{"parts": 3.0, "haul_from": "moving"}})
		}),
		"no haul path": rep(func(d document) { delete(d.at("lines[0].tackle").(map[string]any), "haul_path") }),
		"haul path":    rep(func(d document) { d.set("lines[0].tackle.haul_path", []any{part{"point": "T1"}, part{"point": "M"}}) }),
		"no tackle":    rep(func(d document) { delete(d.at("lines[0]").(map[string]any), "tackle") }),
		"doubled": rep(func(d document) {
			d.set("lines[0].path", []any{part{"point": "T1"}, part{"stem_m": 15.0}, part{"point": "R"}, part{"point": "A"}})
		}),
		"lean ahead": rep(func(d document) { d.set("tree.lean_bearing_deg", 60.0) }),
		"hinge of uneven thickness": rep(func(d document) {
			d.set("cut.hinge_left_cm", 6.0)
			d["lines"] = d["lines"].([]any)[:1]
		}),
		"two pull lines": rep(func(d document) {
			second := part{"id": "second", "role": "pull", "share": 0.5, "path": []any{part{"stem_m": 10.0}, part{"point": "R"}}, "puller": part{"rated_kN": 20.0, "limited_by": "stall", "stall_kN": 30.0}}
			d["lines"] = append(d["lines"].([]any), second)
		}),
		"hold line made fast": rep(func(d document) { d.drop("lines[1].tended"); d.set("lines[1].rope.stiffness_kN", 600.0) }),
		"by its grip": rep(func(d document) {
			d.set("lines[0].puller", part{"rated_kN": 12.0, "limited_by": "grip"}).set("points[4].anchor.mass_kg", 1500.0)
		}),
		"low rating": rep(func(d document) { d.set("lines[0].puller.rated_kN", 8.0) }),
		"stump":      rep(anchor("points[5]", part{"kind": "stump", "diameter_cm": 60.0, "height_m": 24.0, "sling_height_m": 0.5})),
		"weak block": rep(func(d document) {
			d.set("gear[3].wll_t", 2.0)
			d["lines"] = d["lines"].([]any)[:1]
			d["gear"] = d["gear"].([]any)[:7]
		}),
		"weak sling": rep(func(d document) { d.set("points[5].anchor.capacity_kN", 9.0) }),
	}
}

// Every printed formula, worked out from the values beside it, gives the
// result beside it.
func TestWorkingWorksOut(t *testing.T) {
	const printed = 1e-6 // relative: the peak is found to 1e-6 rad of turn
	for name, rep := range wholeWorkings(t) {
		require.True(t, rep.Pull.PlannedKN.Known(), "%s: %v", name, rep.Problems)
		for i := range rep.Working {
			w := &rep.Working[i]
			text, _ := strings.CutSuffix(w.Formula, ", at least 0")
			got, ok := inWords(w)
			if !ok {
				got = evaluate(text, w.Values)
				if text != w.Formula {
					got = max(got, 0)
				}
			}
			if !w.Result.Known() {
				continue
			}
			want := float64(w.Result) * size(w.Unit)
			assert.InDelta(t, want, got, 1e-6+printed*abs(want), "%s: %s %s %v", name, w.Path, w.Formula, w.Values)
		}
	}
}

// The plans above have every step that there is.
func TestWholeWorkingsAreWhole(t *testing.T) {
	used := map[[2]string]bool{}
	for _, rep := range wholeWorkings(t) {
		for _, w := range rep.Working {
			used[[2]string{w.Source, w.Unit + formulaShape(w.Formula)}] = true
		}
	}
	for _, g := range formulaGroups {
		for _, s := range g.steps {
			assert.True(t, used[[2]string{say(named("step." + s.key + ".source")), s.unit + formulaShape(s.formula)}], "%s: %s", s.key, s.formula)
		}
	}
}

// formulaShape is a formula with the letters that stand for the legs taken out.
func formulaShape(formula string) string {
	for _, letter := range []string{"$1", "$2", "₀", "₁", "₂", "₃", "ᵃ", "ᵇ", "ₕ", "ₘ", "_g", "T", "S", "B", "Q", "R", "F"} {
		formula = strings.ReplaceAll(formula, letter, "")
	}
	return formula
}

func abs(v float64) float64 { return max(v, -v) }

// Every value that says where it comes from is the result of that step; steps
// have names of their own, a source and explained letters.
func TestWorkingHangsTogether(t *testing.T) {
	const same = 1e-9 // relative: rounding of a few operations
	for name, rep := range wholeWorkings(t) {
		byPath := map[string]*Working{}
		for i := range rep.Working {
			w := &rep.Working[i]
			assert.Nil(t, byPath[w.Path], "%s: %s stands once", name, w.Path)
			byPath[w.Path] = w
			assert.NotEmpty(t, w.Source, "%s: %s", name, w.Path)
			assert.NotEmpty(t, w.Name, "%s: %s", name, w.Path)
			assert.NotContains(t, w.Formula, "$", "%s: %s", name, w.Path)
			for _, v := range w.Values {
				assert.NotEmpty(t, v.Name, "%s: %s: %s is explained", name, w.Path, v.Symbol)
				assert.NotContains(t, v.Symbol, "$", "%s: %s", name, w.Path)
			}
		}
		assumed := map[string]float64{}
		for _, a := range rep.Assumed {
			if v, ok := a.Value.(float64); ok {
				assumed[a.Path] = v
			}
		}
		for _, w := range rep.Working {
			for _, v := range w.Values {
				if v.From == "" {
					continue
				}
				step := byPath[v.From]
				if taken, ok := assumed[v.From]; ok {
					require.Nil(t, step, "%s: %s is either worked out or assumed", name, v.From)
					unit := 1.0
					if strings.HasSuffix(v.From, "_cm") {
						unit = rigging.CM
					}
					assert.InDelta(t, taken*unit, float64(v.Value), same, "%s: %s of %s from %s", name, v.Symbol, w.Path, v.From)
					continue
				}
				require.NotNil(t, step, "%s: %s comes from %s", name, v.Symbol, v.From)
				if !v.Value.Known() && !step.Result.Known() {
					continue
				}
				assert.InDelta(t, float64(step.Result), float64(v.Value), same*(1+abs(float64(v.Value))), "%s: %s of %s from %s", name, v.Symbol, w.Path, v.From)
				assert.Equal(t, step.Unit, v.Unit, "%s: %s of %s", name, v.Symbol, w.Path)
			}
		}
		// No chain bites its own tail.
		state := map[string]int{}
		var visit func(path string)
		visit = func(path string) {
			require.NotEqual(t, 1, state[path], "%s: %s comes from itself", name, path)
			if state[path] == 2 {
				return
			}
			state[path] = 1
			for _, v := range byPath[path].Values {
				if byPath[v.From] != nil {
					visit(v.From)
				}
			}
			state[path] = 2
		}
		for path := range byPath {
			visit(path)
		}
	}
}

// What the report gives under a path is what the step under it comes to.
func TestWorkingGivesTheReportsNumbers(t *testing.T) {
	for name, rep := range wholeWorkings(t) {
		w := jsontext.NewWriter(1 << 10)
		rep.AppendJSON(w)
		d := parse(t, w.Bytes())
		found := 0
		for _, w := range rep.Working {
			v, ok := reached(d, w.Path)
			if !ok {
				continue
			}
			found++
			if !w.Result.Known() {
				assert.Nil(t, v, "%s: %s", name, w.Path)
				continue
			}
			assert.InDelta(t, v, float64(w.Result), 1e-9*(1+abs(float64(w.Result))), "%s: %s", name, w.Path)
		}
		assert.Greater(t, found, 40, name)
	}
}

// reached is a value at a path, if there is such a path.
func reached(d document, path string) (v any, ok bool) {
	defer func() {
		if recover() != nil {
			ok = false
		}
	}()
	parent, key := d.at(path[:strings.LastIndexByte(path, '.')]).(map[string]any), path[strings.LastIndexByte(path, '.')+1:]
	v, ok = parent[key]
	return v, ok
}

func TestLegSymbols(t *testing.T) {
	assert.Equal(t, "T₁", LegSymbol(false, false, 0, 1))
	assert.Equal(t, "T₁₂", LegSymbol(false, false, 11, 12))
	assert.Equal(t, "S", LegSymbol(false, true, 0, 1))
	assert.Equal(t, "S₂", LegSymbol(false, true, 1, 2))
	assert.Equal(t, "Tₕ", LegSymbol(true, false, 0, 1))
	assert.Equal(t, "Tₕ₂", LegSymbol(true, false, 1, 2))
}
