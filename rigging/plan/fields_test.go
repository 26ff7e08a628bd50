package plan

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// exact is the path of a field of the first entry of every list; a key that is
// not fixed is that of a height.
func exact(f field.Field) string {
	path := strings.ReplaceAll(f.Path(), "[]", "[0]")
	for in := f; strings.Contains(path, "*"); in = in.Row().In {
		if in.Key() == "*" {
			i := strings.LastIndexByte(path, '*')
			path = path[:i] + anyKey(in) + path[i+1:]
		}
	}
	return path
}

// anyKey is a key for a field whose key is not fixed.
func anyKey(f field.Field) string {
	switch f {
	case field.AnyReadingPlusMinus:
		return "distance_m"
	case field.Answer:
		return "kink"
	}
	return "tree.height_m"
}

func keyOf(f field.Field) string {
	if f.Key() == "*" {
		return anyKey(f)
	}
	return f.Key()
}

// holder is a plan, or a gear list, in which every part on the way to a field is
// there and otherwise empty; the object that the field lies in has a value under
// its key where has is set.
func holder(t testing.TB, f field.Field, kind field.Anchor, has bool, value any) map[string]any {
	t.Helper()
	object := map[string]any{}
	if has {
		object[keyOf(f)] = value
	}
	for in := f.Row().In; in != field.Plan && in != field.GearList; in = in.Row().In {
		switch in {
		case field.PointAnchor:
			if _, there := object["kind"]; !there {
				object["kind"] = kind.Row().Word
			}
		case field.Reading:
			if _, there := object["method"]; !there {
				object["method"] = "height_angles"
			}
		}
		var v any = object
		if in.Row().Kind == field.Objects {
			v = []any{object}
		}
		object = map[string]any{keyOf(in): v}
	}
	raw, err := json.Marshal(object)
	require.NoError(t, err)
	tree, err := jsontext.Parse(raw)
	require.NoError(t, err)
	return tree.(map[string]any)
}

// kindsWith are the kinds of anchor that have a field; NoAnchor for a field of no
// anchor.
func kindsWith(f field.Field) (kinds []field.Anchor) {
	for _, kind := range field.AnchorKinds() {
		for _, own := range kind.Row().Fields {
			if own == f || f.Row().In == own {
				kinds = append(kinds, kind)
			}
		}
	}
	if kinds == nil {
		kinds = []field.Anchor{field.NoAnchor}
	}
	return kinds
}

// read reads a plan, or a gear list, and gives the problems at a path and what is
// taken for it.
func read(tree map[string]any, inList bool, path string) (at []Problem, taken []Assumed) {
	r := &reader{}
	if inList {
		_, r.problems = ReadInventory(tree)
	} else {
		root := r.object("", tree, true)
		r.model(root)
	}
	for _, p := range r.problems {
		if p.Path == path || strings.HasPrefix(p.Path, path+"[") {
			at = append(at, p)
		}
	}
	for _, a := range r.assumed {
		if a.Path == path {
			taken = append(taken, a)
		}
	}
	return at, taken
}

// every visits each field with the kinds of anchor that have it.
func every(visit func(f field.Field, kind field.Anchor)) {
	for f := field.Plan + 1; f < field.Fields; f++ {
		if f == field.GearList || f == field.Version { // the version is read before all else
			continue
		}
		for _, kind := range kindsWith(f) {
			visit(f, kind)
		}
	}
}

// The reader asks for every field of the table, as what the table says it is:
// what is of no kind at all is a problem there, and never a field that nobody
// knows.
func TestReaderAsksForEveryField(t *testing.T) {
	every(func(f field.Field, kind field.Anchor) {
		var wrong any = true
		if f.Row().Kind == field.Flag {
			wrong = "perhaps"
		}
		at, _ := read(holder(t, f, kind, true, wrong), f.InGearList(), exact(f))
		if assert.NotEmpty(t, at, "%s of %q is not read", f.Path(), kind.Row().Word) {
			for _, p := range at {
				assert.NotEqual(t, CodeUnknownField, p.Code, "%s of %q is not read", f.Path(), kind.Row().Word)
			}
		}
	})
}

// Every number is accepted from one end of its range to the other, and neither
// below nor above; every word of a choice is.
func TestReaderKeepsToTheTable(t *testing.T) {
	refused := func(f field.Field, kind field.Anchor, v any) bool {
		at, _ := read(holder(t, f, kind, true, v), f.InGearList(), exact(f))
		for _, p := range at {
			least, ranged := text.Number{}, p.Takes.Key == accepted(f.Row().Range).Key
			if ranged { // a problem of this range, and not of what else it is held to
				least, ranged = p.Takes.Args[0].(text.Number)
			}
			if ranged && least.Value == f.Row().Range.Min || p.Code == CodeChoice || p.Code == CodeUnknownField || p.Code == CodeType {
				return true
			}
		}
		return false
	}
	every(func(f field.Field, kind field.Anchor) {
		row := f.Row()
		name := f.Path() + " " + kind.Row().Word
		switch row.Kind {
		case field.Numbers, field.Number:
			as := func(v float64) any {
				if row.Kind == field.Numbers {
					return []any{v}
				}
				return v
			}
			assert.Less(t, row.Range.Min, row.Range.Max+0.5, name)
			assert.Equal(t, row.Range.Above, refused(f, kind, as(row.Range.Min)), name)
			assert.False(t, refused(f, kind, as(row.Range.Max)), name)
			assert.True(t, refused(f, kind, as(row.Range.Min-1)), name)
			assert.True(t, refused(f, kind, as(row.Range.Max+1)), name)
			if row.Range.Whole && row.Range.Max > row.Range.Min {
				assert.True(t, refused(f, kind, as(row.Range.Min+0.5)), name)
			}
		case field.Choice:
			assert.NotEmpty(t, row.Words, name)
			for _, word := range row.Words {
				assert.False(t, refused(f, kind, word), "%s %s", name, word)
			}
		case field.Texts, field.Objects, field.Text:
			assert.Positive(t, row.Most, name)
		}
	})
}

// What is required is a problem where it is left out; what has a default by
// itself is taken, and said why, with the table's source.
func TestWhatIsLeftOut(t *testing.T) {
	taken := 0
	every(func(f field.Field, kind field.Anchor) {
		row := f.Row()
		tree := holder(t, f, kind, false, nil)
		if f == field.AnchorKind {
			delete(tree["points"].([]any)[0].(map[string]any)["anchor"].(map[string]any), "kind")
		}
		at, got := read(tree, f.InGearList(), exact(f))
		if row.Required && row.In != field.GearList {
			assert.NotEmpty(t, at, "%s of %q is missed", f.Path(), kind.Row().Word)
		}
		if len(got) == 0 || row.Default.Why == "" {
			return
		}
		taken++
		assert.Equal(t, row.Default.Saying(), got[0].Saying, f.Path())
		assert.Equal(t, row.Default.Source.Text, got[0].Source, f.Path())
		assert.Equal(t, string(row.Default.Source.Basis), got[0].Basis, f.Path())
		if row.Default.Value != nil {
			assert.Equal(t, row.Default.Value, got[0].Value, f.Path())
		}
	})
	assert.Greater(t, taken, 20)
}

// Every field is told by a name, and every reason of the table is a sentence that
// takes just what stands there. A key that is not fixed has no name of its own.
func TestFieldsHaveNames(t *testing.T) {
	known := map[string]bool{}
	for _, key := range text.Keys() {
		known[key] = true
	}
	for f := field.Plan + 1; f < field.Fields; f++ {
		row := f.Row()
		if row.Key == "*" || f == field.GearList {
			continue
		}
		assert.True(t, known["field."+row.Key], f.Path())
		if why := row.Default.Saying(); why.Key != "" {
			assert.True(t, known[why.Key], "%s: %s has no sentence", f.Path(), why.Key)
			assert.Equal(t, asked(why.Key), len(why.Args), "%s: arguments of %s", f.Path(), why.Key)
		}
	}
}

// Every kind of anchor has a row with its fields, a reader and a working; made up
// without one of them it would not pass.
func TestEveryAnchorKindIsWhole(t *testing.T) {
	lacks := func(row field.AnchorRow, of anchorKind) bool {
		return row.Word == "" || len(row.Fields) == 0 || of.read == nil || of.work == nil
	}
	require.Len(t, field.AnchorKinds(), len(field.AnchorKind.Row().Words))
	for _, kind := range field.AnchorKinds() {
		assert.False(t, lacks(*kind.Row(), anchorKinds[kind]), "kind %d, %q", kind, kind.Row().Word)
		assert.Equal(t, kind, field.AnchorNamed(kind.Row().Word), "each word once")
	}
	whole := anchorKinds[field.Rated]
	row := field.AnchorRow{Word: "made_up", Fields: []field.Field{field.RatedCapacity}}
	assert.False(t, lacks(row, whole))
	assert.True(t, lacks(row, anchorKind{read: whole.read}))
	assert.True(t, lacks(row, anchorKind{work: whole.work}))
	assert.True(t, lacks(field.AnchorRow{Word: "made_up"}, whole))
}

// heldBy is a plan with one point that a kind of anchor holds, each of its fields given
// that has to be, in the middle of what is accepted.
func heldBy(kind field.Anchor) map[string]any {
	anchor := fields{"kind": kind.Row().Word}
	for _, f := range kind.Row().Fields {
		switch row := f.Row(); {
		case !row.Required:
		case row.Kind == field.Numbers:
			anchor[row.Key] = []any{row.Range.Min}
		case row.Kind == field.Objects:
			anchor[row.Key] = []any{fields{"point": "T1"}, fields{"point": "T2"}}
		case f == field.LogLength:
			anchor[row.Key] = 1.5 // no more than five diameters
		default:
			anchor[row.Key] = math.Sqrt(math.Max(row.Range.Min, row.Range.Max/100) * row.Range.Max)
		}
	}
	rated := fields{"kind": "rated", "capacity_kN": 500}
	return fields{
		"version": 1, "tree": fields{"species": "radiata_pine", "height_m": 20, "diameter_cm": 40, "lean_deg": 0},
		"points": []any{
			fields{"id": "A", "bearing_deg": 0, "distance_m": 40, "anchor": anchor},
			fields{"id": "T1", "bearing_deg": 10, "distance_m": 60, "anchor": rated}, fields{"id": "T2", "bearing_deg": -10, "distance_m": 60, "anchor": rated}},
		"lines": []any{fields{"id": "pull", "path": []any{fields{"stem_m": 8}, fields{"point": "A"}}}},
	}
}

// Whatever kind of anchor holds a point, what it holds is known, and the working
// shows how.
func TestEveryAnchorKindShowsItsWorking(t *testing.T) {
	for _, kind := range field.AnchorKinds() {
		raw, err := json.Marshal(heldBy(kind))
		require.NoError(t, err)
		word := kind.Row().Word
		rep := Evaluate(raw)
		require.NotEmpty(t, rep.Points, word)
		assert.True(t, rep.Points[0].CapacityKN.Known(), word)
		assert.True(t, slices.ContainsFunc(rep.Working, func(w Working) bool { return w.Path == "points[0].capacity_kN" }), "%s has no working", word)
		for _, p := range rep.Problems {
			assert.NotContains(t, p.Path, "anchor", "%s: %s", word, say(p.Saying))
		}
	}
}

// A range, a default or an accepted word is typed in the table only: the reader
// makes no range of its own but of one that is there, and of readings kept.
func TestRangesStandInTheTable(t *testing.T) {
	fset := token.NewFileSet()
	packages, err := parser.ParseDir(fset, ".", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	require.NoError(t, err)
	ast.Inspect(packages["plan"], func(n ast.Node) bool {
		lit, ok := n.(*ast.CompositeLit)
		if !ok {
			return true
		}
		if of, ok := lit.Type.(*ast.SelectorExpr); ok && of.Sel.Name == "Range" && !strings.HasSuffix(fset.Position(n.Pos()).Filename, "readings.go") {
			t.Errorf("%s: a range beside the table", fset.Position(n.Pos()))
		}
		return true
	})
}
