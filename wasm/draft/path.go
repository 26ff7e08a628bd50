package draft

import (
	"strconv"
	"strings"
)

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

// ParsePath splits a path into keys (string) and indexes (int); nil if it is
// not a path.
func ParsePath(path string) []any {
	if key, ok := strings.CutPrefix(path, PlusMinus); ok {
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

// Elem is the path of an array's element.
func Elem(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// Sub is the path of a key below a path.
func Sub(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// SplitElem takes "points[2]" apart into "points" and 2.
func SplitElem(path string) (list string, i int, ok bool) {
	open := strings.LastIndexByte(path, '[')
	if open <= 0 || !strings.HasSuffix(path, "]") {
		return "", 0, false
	}
	i, err := strconv.Atoi(path[open+1 : len(path)-1])
	return path[:open], i, err == nil && i >= 0
}

// Within says whether a path lies in a section: is it, or is below it.
func Within(path, section string) bool {
	if !strings.HasPrefix(path, section) {
		return false
	}
	rest := path[len(section):]
	return rest == "" || rest[0] == '.' || rest[0] == '['
}

// Pattern is a path with its indexes left out: "points[].distance_m".
func Pattern(path string) string {
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

// PlusMinus begins the path of a field's give-or-take.
const PlusMinus = "plus_minus."

// LastKey splits "gear[0].@place" into "gear[0]" and "@place".
func LastKey(path string) (owner, key string) {
	if strings.HasPrefix(path, PlusMinus) {
		return "plus_minus", path[len(PlusMinus):]
	}
	i := strings.LastIndexByte(path, '.')
	if i < 0 {
		return "", path
	}
	return path[:i], path[i+1:]
}
