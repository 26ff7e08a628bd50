package draft

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging/jsontext"
)

// read makes a plan of its text.
func read(raw []byte) *Plan {
	v, err := jsontext.Parse(raw)
	d := Of(v)
	if err != nil {
		d.Err = err
	}
	return d
}

func TestParsePath(t *testing.T) {
	for path, want := range map[string][]any{
		"name":                               {"name"},
		"tree.height_m":                      {"tree", "height_m"},
		"points[0].distance_m":               {"points", 0, "distance_m"},
		"lines[0].path[12].efficiency":       {"lines", 0, "path", 12, "efficiency"},
		"points[0].anchor.rows[1]":           {"points", 0, "anchor", "rows", 1},
		"plus_minus.tree.height_m":           {"plus_minus", "tree.height_m"},
		"plus_minus.lines[0].path[0].stem_m": {"plus_minus", "lines[0].path[0].stem_m"},
		"plus_minus":                         {"plus_minus"},
		"gear[0].@place":                     {"gear", 0, "@place"},
	} {
		assert.Equal(t, want, ParsePath(path), path)
	}
	for _, path := range []string{"", ".", "a.", ".a", "a..b", "a[", "a[]", "a[x]", "a[-1]", "a[0", "a]", "[0]", "a[0]b", "a[99999]"} {
		assert.Nil(t, ParsePath(path), path)
	}
}

func TestDocumentLookUps(t *testing.T) {
	d := read([]byte(`{"a": {"n": 1.5, "s": "x", "f": true, "l": [1, {"k": null}], "big": 1e999}, "plus_minus": {"tree.height_m": 2},
		"points": [{"id": "A"}, {"id": 7}, 3]}`))
	assert.NoError(t, d.Err)
	n, ok := d.Number("a.n")
	assert.True(t, ok)
	assert.Equal(t, 1.5, n)
	for _, path := range []string{"a.s", "a.big", "a.l", "a.nothing", "b.n", "a.n.n", "a.l[7]", "a.l.n", "", "a.l[1].k"} {
		_, ok := d.Number(path)
		assert.False(t, ok, path)
	}
	assert.Equal(t, "x", d.Text("a.s"))
	assert.Equal(t, "", d.Text("a.n"))
	assert.True(t, d.Flag("a.f"))
	assert.False(t, d.Has("a.l[1].k"))
	assert.Equal(t, 2, d.Size("a.l"))
	assert.Equal(t, 0, d.Size("a.s"))
	n, ok = d.Number("plus_minus.tree.height_m")
	assert.True(t, ok)
	assert.Equal(t, 2.0, n)
	assert.Equal(t, 0, d.PointIndex("A"))
	assert.Equal(t, -1, d.PointIndex("7"))
}

func TestDocumentTakesRubbish(t *testing.T) {
	for _, raw := range []string{"", "null", "[]", "3", `"x"`, "{", `{"a":1} x`, "\xff", `{"a":1}{"b":2}`} {
		d := read([]byte(raw))
		assert.Error(t, d.Err, raw)
		_, ok := d.Number("tree.height_m")
		assert.False(t, ok)
	}
}

func TestWithin(t *testing.T) {
	assert.True(t, Within("points[1].anchor", "points"))
	assert.True(t, Within("points[1].anchor", "points[1]"))
	assert.True(t, Within("points[1]", "points[1]"))
	assert.False(t, Within("points[10]", "points[1"))
	assert.False(t, Within("pointsmore", "points"))
	assert.False(t, Within("points[10].id", "points[1]"))
	assert.Equal(t, "lines[].path[].stem_m", Pattern("lines[0].path[12].stem_m"))
}
