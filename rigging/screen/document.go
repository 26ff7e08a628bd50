package screen

import (
	"errors"
	"strconv"
	"strings"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/words"
)

// A document is a plan as it was written, rubbish and all: the tree that
// package jsontext makes of it, with numbers kept as their text. A document
// that could not be read has an empty object for its root, so every look-up
// on it simply finds nothing.
//
// A path names a place in it the way problems and assumed values do:
// "lines[0].path[1].efficiency". Keys hold no dots or brackets, with one
// exception: whatever follows "plus_minus." is a single key, itself the path
// of the field the give-or-take belongs to.
//
// It is told in the words of a region.
type document struct {
	root any
	err  error // why the text could not be read, nil if it could
	words.Region
	letters bool // the drawings name what they measure by the letters of the formulas
}

var errNotObject = errors.New("the plan is not a JSON object")

// documentOf makes a document of a plan as package jsontext reads it. It
// never fails: err says what was wrong.
func documentOf(tree any) *document {
	if _, ok := tree.(map[string]any); !ok {
		return &document{root: map[string]any{}, err: errNotObject}
	}
	return &document{root: tree}
}

// largestIndex bounds the indexes of a path: a plan has a handful of points,
// and a mistyped index must not make a huge list.
const largestIndex = 9999

// nextPart takes the first key or index off a path; ok is false where the
// path is malformed. A part that is an index has no key.
func nextPart(path string) (key string, index int, rest string, ok bool) {
	if path != "" && path[0] == '[' {
		end := strings.IndexByte(path, ']')
		if end < 0 {
			return "", 0, "", false
		}
		i, err := strconv.Atoi(path[1:end])
		if err != nil || i < 0 || i > largestIndex {
			return "", 0, "", false
		}
		rest = path[end+1:]
		index = i
	} else {
		end := strings.IndexAny(path, ".[")
		if end < 0 {
			end = len(path)
		}
		key, rest = path[:end], path[end:]
		if key == "" || strings.IndexByte(key, ']') >= 0 {
			return "", 0, "", false
		}
	}
	if rest == "" || rest[0] == '[' {
		return key, index, rest, true
	}
	// A dot leads to a key, and so does nothing else after an index.
	if rest[0] != '.' || len(rest) == 1 || rest[1] == '[' {
		return "", 0, "", false
	}
	return key, index, rest[1:], true
}

// parsePath splits a path into keys (string) and indexes (int); nil if it is
// not a path.
func parsePath(path string) []any {
	if key, ok := strings.CutPrefix(path, plusMinus); ok {
		return []any{"plus_minus", key}
	}
	if path == "" || path[0] == '[' {
		return nil
	}
	var parts []any
	for rest := path; rest != ""; {
		key, index, after, ok := nextPart(rest)
		switch {
		case !ok:
			return nil
		case key != "":
			parts = append(parts, key)
		default:
			parts = append(parts, index)
		}
		rest = after
	}
	return parts
}

// at finds the value at a path. It reads the path as it goes down, since the
// form asks for some hundreds of them.
func (d *document) at(path string) (any, bool) {
	if d == nil || path == "" || path[0] == '[' {
		return nil, false
	}
	v := d.root
	if key, ok := strings.CutPrefix(path, plusMinus); ok {
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

// dig finds the value that keys and indexes lead to.
func dig(v any, parts []any) (any, bool) {
	for _, part := range parts {
		switch p := part.(type) {
		case string:
			m, _ := v.(map[string]any)
			w, ok := m[p]
			if !ok {
				return nil, false
			}
			v = w
		case int:
			l, _ := v.([]any)
			if p < 0 || p >= len(l) {
				return nil, false
			}
			v = l[p]
		}
	}
	return v, true
}

// has says whether anything but null stands at a path.
func (d *document) has(path string) bool {
	v, ok := d.at(path)
	return ok && v != nil
}

// number reads a finite number at a path; anything else is not ok.
func (d *document) number(path string) (float64, bool) {
	v, _ := d.at(path)
	return asNumber(v)
}

func asNumber(v any) (float64, bool) {
	n, ok := v.(jsontext.Number)
	if !ok {
		return 0, false
	}
	return n.Finite()
}

// text reads a string at a path, "" if there is none.
func (d *document) text(path string) string {
	v, _ := d.at(path)
	s, _ := v.(string)
	return s
}

// flag reads true or false at a path, false if there is neither.
func (d *document) flag(path string) bool {
	v, _ := d.at(path)
	b, _ := v.(bool)
	return b
}

// mostShown bounds what is shown of a list. No list of a plan may be as long,
// and what is wrong with a longer one is said in one sentence.
const mostShown = 200

// list reads an array at a path, nil if there is none, of a hostile length
// only its beginning.
func (d *document) list(path string) []any {
	v, _ := d.at(path)
	l, _ := v.([]any)
	most := mostShown
	if path == "pieces" { // of a gear list
		most = plan.MaxInventoryPieces
	}
	return l[:min(len(l), most)]
}

// object reads an object at a path, nil if there is none.
func (d *document) object(path string) map[string]any {
	v, _ := d.at(path)
	m, _ := v.(map[string]any)
	return m
}

// size is the length of the array at a path.
func (d *document) size(path string) int { return len(d.list(path)) }

// pointIndex finds the point of an id, -1 if there is none.
func (d *document) pointIndex(id string) int { return d.indexByID("points", id) }

// lineIndex finds the line of an id, -1 if there is none.
func (d *document) lineIndex(id string) int { return d.indexByID("lines", id) }

// gearIndex finds the piece of an id, -1 if there is none.
func (d *document) gearIndex(id string) int { return d.indexByID("gear", id) }

func (d *document) indexByID(list, id string) int {
	for i := range d.list(list) {
		if v, ok := d.at(elem(list, i) + ".id"); ok && v == id {
			return i
		}
	}
	return -1
}

// elem is the path of an array's element.
func elem(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// sub is the path of a key below a path.
func sub(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// splitElem takes "points[2]" apart into "points" and 2.
func splitElem(path string) (list string, i int, ok bool) {
	open := strings.LastIndexByte(path, '[')
	if open <= 0 || !strings.HasSuffix(path, "]") {
		return "", 0, false
	}
	i, err := strconv.Atoi(path[open+1 : len(path)-1])
	return path[:open], i, err == nil && i >= 0
}

// within says whether a path lies in a section: is it, or is below it.
func within(path, section string) bool {
	if !strings.HasPrefix(path, section) {
		return false
	}
	rest := path[len(section):]
	return rest == "" || rest[0] == '.' || rest[0] == '['
}

// pattern is a path with its indexes left out: "points[].distance_m".
func pattern(path string) string {
	if strings.IndexByte(path, '[') < 0 {
		return path
	}
	var b strings.Builder
	b.Grow(len(path))
	inside := false
	for i := 0; i < len(path); i++ {
		switch c := path[i]; {
		case c == '[':
			inside = true
			b.WriteByte(c)
		case c == ']':
			inside = false
			b.WriteByte(c)
		case !inside:
			b.WriteByte(c)
		}
	}
	return b.String()
}

// written shows any value the way it stands in the file, for text that is
// not what the field asks for.
func written(v any) string {
	switch x := v.(type) {
	case nil:
		return ""
	case string:
		return x
	case jsontext.Number:
		return x.String()
	case bool:
		return strconv.FormatBool(x)
	case plan.Num:
		v = float64(x)
	}
	return jsonOf(v)
}

// jsonOf is the JSON text of a value.
func jsonOf(v any) string {
	w := jsontext.NewWriter(64)
	w.Any(v)
	return string(w.Bytes())
}
