package draft

import (
	"errors"
	"strconv"
	"strings"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
	"pullline/wasm/words"
)

// A Plan is a plan as it was written, rubbish and all: the tree that
// package jsontext makes of it, with numbers kept as their text. One that
// could not be read has an empty object for its tree, so every look-up on it
// simply finds nothing.
//
// It is told in a language and the words of a region.
type Plan struct {
	Tree any
	Err  error // why the text could not be read, nil if it could
	words.Locale
}

const notObject words.Text = "the plan is not a JSON object"

var errNotObject = errors.New(string(notObject))

// Of makes a Plan of one as package jsontext reads it. It never fails: Err
// says what was wrong.
func Of(tree any) *Plan {
	if _, ok := tree.(map[string]any); !ok {
		return &Plan{Tree: map[string]any{}, Err: errNotObject}
	}
	return &Plan{Tree: tree}
}

// At finds the value at a path. It reads the path as it goes down, since the
// form asks for some hundreds of them.
func (d *Plan) At(path string) (any, bool) {
	if d == nil || path == "" || path[0] == '[' {
		return nil, false
	}
	v := d.Tree
	if key, ok := strings.CutPrefix(path, PlusMinus); ok {
		m, _ := v.(map[string]any)
		m, _ = m["plus_minus"].(map[string]any)
		v, ok = m[key]
		return v, ok
	}
	for rest := path; rest != ""; {
		key, index, after, ok := nextPart(rest)
		if !ok {
			return nil, false
		}
		if key != "" {
			m, _ := v.(map[string]any)
			if v, ok = m[key]; !ok {
				return nil, false
			}
		} else {
			l, _ := v.([]any)
			if index >= len(l) {
				return nil, false
			}
			v = l[index]
		}
		rest = after
	}
	return v, true
}

// Has says whether anything but null stands at a path.
func (d *Plan) Has(path string) bool {
	v, ok := d.At(path)
	return ok && v != nil
}

// Number reads a finite number at a path; anything else is not ok.
func (d *Plan) Number(path string) (float64, bool) {
	v, _ := d.At(path)
	return Number(v)
}

// Number is the finite number that a value of the tree is; anything else is
// not ok.
func Number(v any) (float64, bool) {
	n, ok := v.(jsontext.Number)
	if !ok {
		return 0, false
	}
	return n.Finite()
}

// Text reads a string at a path, "" if there is none.
func (d *Plan) Text(path string) string {
	v, _ := d.At(path)
	s, _ := v.(string)
	return s
}

// Flag reads true or false at a path, false if there is neither.
func (d *Plan) Flag(path string) bool {
	v, _ := d.At(path)
	b, _ := v.(bool)
	return b
}

// mostShown bounds what is shown of a list. No list of a plan may be as long,
// and what is wrong with a longer one is said in one sentence.
const mostShown = 200

// List reads an array at a path, nil if there is none, of a hostile length
// only its beginning.
func (d *Plan) List(path string) []any {
	v, _ := d.At(path)
	l, _ := v.([]any)
	most := mostShown
	if path == "pieces" { // of a gear list
		most = field.Pieces.Row().Most
	}
	return l[:min(len(l), most)]
}

// Object reads an object at a path, nil if there is none.
func (d *Plan) Object(path string) map[string]any {
	v, _ := d.At(path)
	m, _ := v.(map[string]any)
	return m
}

// Size is the length of the array at a path.
func (d *Plan) Size(path string) int { return len(d.List(path)) }

// PointIndex finds the point of an id, -1 if there is none.
func (d *Plan) PointIndex(id string) int { return d.IndexByID("points", id) }

// LineIndex finds the line of an id, -1 if there is none.
func (d *Plan) LineIndex(id string) int { return d.IndexByID("lines", id) }

// GearIndex finds the piece of an id, -1 if there is none.
func (d *Plan) GearIndex(id string) int { return d.IndexByID("gear", id) }

// IndexByID finds the element of a list that has an id, -1 if there is none.
func (d *Plan) IndexByID(list, id string) int {
	for i := range d.List(list) {
		if v, ok := d.At(Elem(list, i) + ".id"); ok && v == id {
			return i
		}
	}
	return -1
}

// Written shows any value the way it stands in the file, for text that is
// not what the field asks for.
func Written(v any) string {
	switch x := v.(type) {
	case nil:
		return ""
	case string:
		return x
	case jsontext.Number:
		return x.String()
	case bool:
		return strconv.FormatBool(x)
	}
	return JSON(v)
}

// JSON is the JSON text of a value.
func JSON(v any) string {
	w := jsontext.NewWriter(64)
	w.Any(v)
	return string(w.Bytes())
}

// Member is a value's member of that name, nil if there is none.
func Member(v any, key string) any {
	m, _ := v.(map[string]any)
	return m[key]
}
