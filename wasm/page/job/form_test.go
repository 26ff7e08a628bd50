package job

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/fields"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

func formOf(t testing.TB, raw string, u *units.System) []parts.Section {
	d, rep := drafttest.Parse([]byte(raw)), plan.Evaluate([]byte(raw))
	d.Tell(&rep, u)
	return Form(d, u, &rep)
}

// sectionsOf visits every section of a form.
func sectionsOf(form []parts.Section, visit func(*parts.Section)) {
	for i := range form {
		visit(&form[i])
		sectionsOf(form[i].Sections, visit)
	}
}

// Every field of the plan format is in the catalogue, and every one that can
// be typed is in the form.
func TestEveryFieldIsInCatalogueAndForm(t *testing.T) {
	d := drafttest.Parse([]byte(drafttest.Full))
	require.NoError(t, d.Err)
	inForm := drafttest.Fields(formOf(t, drafttest.Full, &units.KN))
	seen := map[string]bool{}
	drafttest.Walk("", d.Tree, func(path string, v any) {
		if strings.Contains(path, ".rows[") || strings.Contains(path, ".sequence[") || strings.Contains(path, ".tied[") || strings.Contains(path, ".photos[") {
			path, _, _ = draft.SplitElem(path)
		}
		spec, ok := fields.At(path)
		if !assert.True(t, ok, "%s is not in the catalogue", path) {
			return
		}
		seen[spec.Path] = true
		pseudo := strings.Contains(path, ".path[") && strings.HasSuffix(path, ".point")
		if !spec.Hidden && !pseudo {
			assert.Contains(t, inForm, path)
			assert.NotEmpty(t, inForm[path].Text, path)
		}
	})
	for _, f := range fields.All {
		if !strings.HasPrefix(f.Path, "lines[].tackle.reeving") && f.Path != "plus_minus" && f.Path != "gear[].reductions" && f.Path != "lines[].tackle.haul_path" && f.Path != "lines[].path[].point" {
			assert.True(t, seen[f.Path], "the drafttest.Full plan has no %s", f.Path)
		}
	}
}

// Every kind of anchor and of gear can be chosen, and each field of an anchor's kind
// is then asked for.
func TestEveryKindIsAskedFor(t *testing.T) {
	for _, kind := range field.AnchorKinds() {
		word := kind.Row().Word
		form := drafttest.Fields(formOf(t, `{"points": [{"id": "A", "anchor": {"kind": "`+word+`", "legs": [{}]}}]}`, &units.KN))
		asked := form["points[0].anchor.kind"]
		assert.True(t, slices.ContainsFunc(asked.Options, func(o parts.Option) bool {
			return o.Value == word && o.Label != "" && !strings.Contains(o.Label, "not known")
		}), "%s can be chosen", word)
		for _, f := range kind.Row().Fields {
			if f.Row().Kind == field.Objects {
				f = f.Children()[0]
			}
			path := strings.NewReplacer("points[]", "points[0]", "[]", "[0]").Replace(f.Path())
			assert.Contains(t, form, path, word)
		}
	}
	for _, word := range field.PieceKind.Row().Words {
		form := drafttest.Fields(formOf(t, `{"gear": [{"id": "x", "kind": "`+word+`"}]}`, &units.KN))
		assert.NotContains(t, parts.Label(form["gear[0].kind"].Options, word), "_", "%s has a name of its own", word)
		assert.Contains(t, form, "gear[0].wll_kN", word)
	}
}

func TestCatalogueIsSpelledOut(t *testing.T) {
	for _, f := range fields.All {
		assert.NotEmpty(t, f.Label, f.Path)
		if !f.Hidden {
			assert.NotEmpty(t, f.Help, f.Path)
			assert.NotContains(t, words.Locale{}.Say(f.Label+f.Help), "{", f.Path)
		}
		// The file's unit is in the name of the field.
		for suffix, dim := range map[string]units.Dimension{"_m": units.Metres, "_cm": units.Centimetres, "_deg": units.Degrees, "_kN": units.Kilonewtons, "_t": units.TonnesForce, "_kg": units.Kilograms,
			"_kgm3": units.KilogramsPerCubicMetre, "_MPa": units.Megapascals, "_m2": units.SquareMetres, "_mps": units.MetresPerSecond, "_kgpm": units.KilogramsPerMetre} {
			if strings.HasSuffix(f.Path, suffix) {
				want := dim
				if strings.HasSuffix(f.Path, "_Nm_per_kg") {
					want = units.NewtonMetresPerKilogram
				}
				assert.Equal(t, want, f.Dim, f.Path)
			}
		}
	}
	assert.Len(t, fields.Catalogue, len(fields.All), "each path once")
}

func TestPseudoFields(t *testing.T) {
	form := drafttest.Fields(formOf(t, drafttest.Full, &units.KN))
	assert.Equal(t, "stem", form["lines[0].path[0].@at"].Text)
	assert.Equal(t, "point/A", form["lines[0].path[1].@at"].Text)
	assert.Equal(t, "line/pull", form["gear[0].@place"].Text)
	assert.Equal(t, "stem/pull", form["gear[1].@place"].Text)
	assert.Equal(t, "point/A", form["gear[2].@place"].Text)
	assert.Equal(t, "wll_t", form["gear[0].@basis"].Text)
	assert.Equal(t, "mbl_kN", form["gear[2].@basis"].Text)
	assert.Contains(t, form, "gear[2].design_factor")
	assert.NotContains(t, form, "gear[0].design_factor")
	assert.Equal(t, "3-2-1", form["points[4].anchor.rows"].Text)
	assert.Equal(t, "true", form["points[5].anchor.self_adjusting"].Text)
	for _, f := range form {
		if f.Kind == fields.Choice {
			found := false
			for _, o := range f.Options {
				found = found || o.Value == f.Text
			}
			assert.True(t, found, "%s: %q is one of its own options", f.Path, f.Text)
		}
	}
}

// A choice that the plan leaves wrong is shown as it is, not as something else.
func TestOddChoicesAreShown(t *testing.T) {
	form := drafttest.Fields(formOf(t, `{"tree": {"species": "triffid"}, "points": [{"id": "A", "anchor": {"kind": "balloon"}}],
		"gear": [{"id": "x", "line": "gone", "point": "A"}, {"id": "y", "place": "stem"}],
		"lines": [{"id": "l", "path": [{"point": "Z"}, {}, {"stem_m": 3, "point": "A"}]}]}`, &units.KN))
	assert.Equal(t, "triffid", form["tree.species"].Text)
	assert.Equal(t, "balloon", form["points[0].anchor.kind"].Text)
	assert.Equal(t, "line/gone + point/A", form["gear[0].@place"].Text)
	assert.Equal(t, "point/Z", form["lines[0].path[0].@at"].Text)
	assert.Equal(t, "", form["lines[0].path[1].@at"].Text)
	assert.Contains(t, form, "lines[0].path[1].stem_m")
	assert.NotEmpty(t, form["lines[0].path[0].@at"].Problem)
	assert.NotEmpty(t, form["gear[0].@place"].Problem)
	assert.Contains(t, form, "lines[0].path[2].stem_m", "what stands in the file can be cleared")
}

func TestDefaultsAndUnits(t *testing.T) {
	raw := string(drafttest.Demo(t))
	metric := drafttest.Fields(formOf(t, raw, &units.KN))
	assert.NotEmpty(t, metric["tree.form_factor"].Default)
	assert.Equal(t, "", metric["tree.form_factor"].Text)
	us := drafttest.Fields(formOf(t, raw, &units.US))
	assert.Equal(t, "ft", us["tree.height_m"].Unit)
	assert.Equal(t, "in", us["tree.diameter_cm"].Unit)
	assert.Equal(t, "lbf", us["lines[0].puller.rated_kN"].Unit)
	assert.NotEqual(t, metric["tree.height_m"].Text, us["tree.height_m"].Text)
}

// Every problem stands either at its field or in the notes of a section, and
// is counted in every section it lies in.
func TestProblemsStandWhereTheyBelong(t *testing.T) {
	raw := `{"tree": {"height_m": "tall", "wrong": 1}, "points": [{"id": "A", "bearing_deg": 0}], "lines": [{"id": "l", "path": [{"stem_m": ""}]}],
		"gear": [{"id": "x"}], "allowance": 0.5, "plus_minus": {"tree.height_m": "x"}}`
	rep := plan.Evaluate([]byte(raw))
	require.NotEmpty(t, rep.Problems)
	words.Locale{}.Tell(&rep, &units.KN)
	form := formOf(t, raw, &units.KN)
	shown := map[string]bool{}
	total := 0
	for _, s := range form {
		total += s.Problems
	}
	sectionsOf(form, func(s *parts.Section) {
		for _, n := range s.Notes {
			shown[n.Message] = true
		}
		for _, f := range s.Fields {
			shown[f.Problem] = true
		}
	})
	for _, p := range rep.Problems {
		if top := draft.ParsePath(p.Path); top != nil && p.Path != "tree" {
			assert.True(t, shown[p.Message], "%s: %s", p.Path, p.Message)
		}
	}
	assert.Positive(t, total)
	assert.Equal(t, "tall", drafttest.Fields(form)["tree.height_m"].Text)
	assert.NotEmpty(t, drafttest.Fields(form)["tree.height_m"].Problem)
}

// What is suggested can be typed: it is read as the number its label gives.
func TestSuggestionsCanBeTyped(t *testing.T) {
	n := 0
	for _, f := range drafttest.Fields(formOf(t, drafttest.Full, &units.US)) {
		spec, ok := fields.At(f.Path)
		if !ok {
			continue
		}
		for _, o := range f.Suggest {
			n++
			v, ok := units.US.Parse(o.Value, spec.Dim)
			assert.True(t, ok, "%s: %s", f.Path, o.Value)
			assert.Positive(t, v)
			assert.Contains(t, o.Label, o.Value)
		}
	}
	assert.Greater(t, n, 50)
	assert.Greater(t, len(offer.Species.In(words.Locale{})), 10)
}

// Beside a figure that the species gives stands how well it is founded, in
// the words for it; beside one that is typed, nothing.
func TestSpeciesFiguresSayHowWellTheyAreFounded(t *testing.T) {
	form := drafttest.Fields(formOf(t, `{"version": 1, "tree": {"species": "radiata_pine", "height_m": 25, "diameter_cm": 50, "lean_deg": 0, "green_density_kgm3": 900}}`, &units.KN))
	pine, _ := rigging.FindSpecies("radiata_pine")
	assert.Equal(t, pine.Strength.Source.Basis.Words(), form["tree.bending_strength_MPa"].Founded)
	assert.Equal(t, rigging.CommonPractice.Words(), form["tree.form_factor"].Founded)
	assert.Equal(t, rigging.CommonPractice.Words(), form["tree.crown_fraction"].Founded)
	assert.Empty(t, form["tree.green_density_kgm3"].Founded)
	assert.Equal(t, "in the open", form["tree.grown"].Default)
}
