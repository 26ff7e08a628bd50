package fields

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging/plan/field"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Every field of the plan is called and explained: in the form by its label and
// help, a part of the plan by what it is. What is kept of a measurement and a ±
// are told by the field that they belong to.
func TestEveryFieldHasItsWords(t *testing.T) {
	for _, f := range field.All() {
		row := f.Row()
		if row.In == field.Readings || row.In == field.Reading || row.In == field.ReadingPlusMinus || row.In == field.PlusMinus {
			continue
		}
		spec, inForm := Catalogue[f.Path()]
		if !inForm {
			assert.NotEmpty(t, said[f].Help, f.Path())
			assert.False(t, row.Kind.Scalar(), "%s has a label", f.Path())
			continue
		}
		assert.True(t, spec.Hidden || spec.Help != "", f.Path())
		first := spec.Field.Row()
		assert.Equal(t, first.Kind, row.Kind, "%s is one thing whatever the kind of anchor", f.Path())
		assert.Equal(t, first.Range.Unit, row.Range.Unit, f.Path())
		assert.Equal(t, first.Round, row.Round, f.Path())
		if f != spec.Field {
			assert.Empty(t, said[f].Label, "%s is called by its first row", f.Path())
		}
		if row.Range.Unit != "" {
			assert.NotEqual(t, units.Plain, spec.Dim, "%s: no unit system knows %s", f.Path(), row.Range.Unit)
		}
	}
}

// A choice offers just the words of the table, in the form's own order, each with a
// label; besides them at most that nothing is chosen.
func TestChoicesAreThoseOfTheTable(t *testing.T) {
	for _, f := range field.All() {
		row := f.Row()
		if row.Kind != field.Choice || said[f].Hidden {
			continue
		}
		var offered []string
		for _, c := range said[f].Options {
			assert.NotEmpty(t, c.Label, "%s %s", f.Path(), c.Value)
			assert.NotContains(t, words.Locale{}.Say(c.Label), "{", f.Path())
			if c.Value != "" {
				offered = append(offered, c.Value)
			}
		}
		assert.ElementsMatch(t, row.Words, offered, f.Path())
	}
}

// Every kind of anchor and of gear is called something.
func TestEveryKindHasItsName(t *testing.T) {
	for _, kind := range field.AnchorKinds() {
		assert.NotEmpty(t, anchorLabels[kind], kind.Row().Word)
		for _, f := range kind.Row().Fields {
			_, inForm := Catalogue[f.Path()]
			assert.True(t, inForm || f.Row().Kind == field.Objects, "%s of %s", f.Path(), kind.Row().Word)
		}
	}
	assert.Len(t, GearKinds, len(field.PieceKind.Row().Words))
}
