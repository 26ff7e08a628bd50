package model

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext/jsontest"
	"pullline/rigging/plan"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

func modelIn(t *testing.T, settings string) (View, string) {
	t.Helper()
	raw := JSON([]byte(`{"settings": ` + settings + `}`))
	var m View
	require.NoError(t, json.Unmarshal(raw, &m))
	return m, string(raw)
}

func section(t *testing.T, m *View, id string) Section {
	t.Helper()
	for _, s := range m.Sections {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("there is no section %s", id)
	return Section{}
}

func said(s Section) string {
	var b strings.Builder
	for _, n := range s.Items {
		b.WriteString(n.Message + "|" + n.Source + "\n")
	}
	return strings.Join(s.Paragraphs, "\n") + "\n" + b.String()
}

// The model's numbers are those the program computes with.
func TestModelTellsTheProgramsNumbers(t *testing.T) {
	m, _ := modelIn(t, `{"units": "kN", "words": "nz"}`)
	for id, texts := range map[string][]string{
		"assumed":  {units.Significant(rigging.G, 6), units.Significant(rigging.AirDensity, 4), "5.0\u00a0m/s"},
		"verdict":  {units.Percent(rigging.NearFrom), "1.1 heights", "within 45°"},
		"at-most":  {"100\u00a0% of the machine's weight"},
		"steering": {"factor " + units.Significant(rigging.HingePlastic, 3), "factor " + units.Significant(rigging.HingeElastic, 3), "0.74 of the mean"},
		"anchors":  {"at least 1 m", "factor of 2 "},
		"unusual":  {"below 2", "15\u00a0%", "5\u00a0%", "above 20°", "above 5°", "30° off", "less than 8", "more than 150"},
	} {
		for _, text := range texts {
			assert.Contains(t, said(section(t, &m, id)), text, id)
		}
	}

	// Every default that a plan is given is told, with its reason and source.
	rep := plan.Evaluate([]byte(barePlan))
	words.Locale{}.Tell(&rep, &units.KN)
	told := said(section(t, &m, "defaults"))
	assert.Greater(t, len(rep.Assumed), 25)
	for _, a := range rep.Assumed {
		assert.Contains(t, told, a.Source, a.Path)
		assert.Contains(t, told, a.Why, a.Path)
	}
	for path, text := range map[string]string{"allowance": "Allowance on the pull needed: 1.5", "efficiency": "Efficiency of the block: 0.9", "turning": "77.4\u00a0N·m/kg"} {
		assert.Contains(t, told, text, path)
	}
	assert.Contains(t, told, "Hinge length: 80 % of the diameter", "what follows from the tree is told by its rule")

	species := section(t, &m, "species")
	for _, s := range rigging.SpeciesTable() {
		assert.Contains(t, said(species), s.Name+": "+units.KN.Quantity(s.Density.Value, units.KilogramsPerCubicMetre, units.Up))
	}
	assert.Contains(t, said(section(t, &m, "sheaves")), "Field rule: a tenth lost at each sheave: 0.9")
	assert.Contains(t, said(section(t, &m, "design")), "Hoisting wire rope: 5")
}

func TestModelSaysWhenNotToTrustIt(t *testing.T) {
	m, _ := modelIn(t, `{}`)
	trust, out := said(section(t, &m, "trust")), said(section(t, &m, "left-out"))
	for _, word := range []string{"Decay", "dead or frozen", "species that is not known", "snatches", "jerk", "Gusts", "wind from the side", "Roots", "barber chair", "slides", "worn", "wet or icy"} {
		assert.Contains(t, trust, word)
	}
	assert.Contains(t, out, "jerk, shock and swing")
	what := said(section(t, &m, "what"))
	assert.Contains(t, what, "Local codes")
	assert.Contains(t, what, "competent, licensed person")
	assert.NotEmpty(t, section(t, &m, "always").Items)
}

// Every formula has its letters explained and a source, and none is left out.
func TestModelHasEveryFormula(t *testing.T) {
	m, _ := modelIn(t, `{}`)
	formulas := map[string]bool{}
	for _, s := range m.Sections {
		for _, step := range s.Steps {
			formulas[strings.NewReplacer("T₂", "T", "T₁", "T", "Tₕ", "T", "S₁", "T", "S₂", "T", "B₁", "T", "B₂", "T").Replace(step.Formula)] = true
			assert.NotEmpty(t, step.Source, step.Name)
			assert.NotEmpty(t, step.Name, step.Formula)
			for _, v := range step.Values {
				assert.Regexp(t, `^\S+ = \S`, v, step.Name)
				assert.NotContains(t, v, "$")
			}
		}
	}
	assert.Greater(t, len(formulas), 40)
}

func TestModelInTheWordsOfTheRegion(t *testing.T) {
	_, nz := modelIn(t, `{"words": "nz"}`)
	m, uk := modelIn(t, `{"words": "uk"}`)
	us, _ := modelIn(t, `{"words": "us"}`)
	assert.Contains(t, nz, "scarf")
	assert.Contains(t, uk, "gob")
	assert.Contains(t, said(section(t, &us, "assumed")), "in lbf")
	for _, s := range m.Sections {
		for _, step := range s.Steps {
			assert.NotContains(t, step.Name, "tackle")
			assert.NotContains(t, strings.Join(step.Values, " "), "the lay")
		}
		assert.NotContains(t, s.Title+said(s), "{", "no word is left unsaid")
	}
}

func TestModelAnswersToAnything(t *testing.T) {
	for _, raw := range []string{``, `3`, `{"settings": 5}`, `{"settings": {"units": 3}}`} {
		var m View
		require.NoError(t, json.Unmarshal(JSON([]byte(raw)), &m), raw)
		assert.True(t, len(m.Sections) > 5 || m.Message != "", raw)
	}
	r := rand.New(rand.NewPCG(43, 1))
	for range 20 {
		var m View
		jsontest.Fill(&m, r, r.Float64(), "text", 7)
		jsontest.SameAsTags(t, m, m.AppendJSON)
	}
	jsontest.SameAsTags(t, View{}, (&View{}).AppendJSON)
}

// A log has no face cut: words of the trade are not put where the plain word
// is meant.
func TestModelWordsOfABuriedLog(t *testing.T) {
	for _, words := range []string{"nz", "uk", "us"} {
		text := string(JSON([]byte(`{"settings":{"words":"` + words + `"}}`)))
		assert.Contains(t, text, "to the middle of the log", words)
		assert.NotContains(t, text, "of its scarf", words)
		assert.NotContains(t, text, "of its sink", words)
	}
}
