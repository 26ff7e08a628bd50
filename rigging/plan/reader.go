package plan

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"pullline/rigging/jsontext"
)

// A reader walks a decoded plan and gathers problems and assumptions. It
// never fails: a value it cannot take is NaN or empty, with a problem.
type reader struct {
	problems []Problem
	assumed  []Assumed
	// broken is set when what is wrong keeps the mechanics from running at
	// all; other problems only keep the plan from being judged.
	broken bool
	of     string // what is read, "" for a plan
	// askedForDate is set once the day of the pull has been asked for.
	askedForDate bool
	// watch, where it is set, is told of every field asked for (Format).
	watch func(path string, f FormatField)

	memo  *memo // of the variation read before, nil for a plan by itself
	quiet bool  // nobody reads a sentence

	objects []object // room for more of them
	keys    []string // room for what they tick off
}

// asked tells that a field is asked for. Its path is put together only where
// somebody watches: most plans have hundreds of fields and few problems.
func (o *object) asked(key string, f FormatField) {
	if o.r.watch != nil {
		o.r.watch(o.at(key), f)
	}
}

func (r *reader) problem(code Code, path, accepted string, given any, format string, args ...any) {
	r.problems = append(r.problems, Problem{Code: code, Path: path, Message: r.sentence(format, args), Given: given, Accepted: accepted, Format: format, Args: args})
}

func (r *reader) sentence(format string, args []any) string {
	if r.quiet {
		return ""
	}
	return fmt.Sprintf(format, args...)
}

func (r *reader) assume(path string, value any, why, source, basis string) {
	if r.assumed == nil {
		r.assumed = make([]Assumed, 0, 32)
	}
	r.assumed = append(r.assumed, Assumed{Path: path, Value: value, Why: why, Source: source, Basis: basis})
}

// An object is a JSON object at a path. Every key that is there and is asked for
// is ticked off; done reports the others.
type object struct {
	r      *reader
	path   string
	fields map[string]any
	seen   []string // each once
	vital  bool     // a problem here breaks the mechanics
}

func (o *object) at(key string) string {
	if o.path == "" {
		return key
	}
	return o.path + "." + key
}

func (o *object) problem(code Code, key, accepted string, given any, format string, args ...any) {
	o.r.problem(code, o.at(key), accepted, given, format, args...)
	if o.vital {
		o.r.broken = true
	}
}

// item is the path of an entry of a list in the object.
func (o *object) item(key string, i int) string { return item(o.at(key), i) }

func item(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }

func (o *object) take(key string) (any, bool) {
	v, ok := o.fields[key]
	if ok && !slices.Contains(o.seen, key) {
		o.seen = append(o.seen, key)
	}
	return v, ok
}

func (o *object) has(key string) bool {
	_, ok := o.take(key)
	return ok
}

// done reports keys nobody asked for.
func (o *object) done() {
	if len(o.seen) == len(o.fields) {
		return
	}
	var rest []string
	for key := range o.fields {
		if !slices.Contains(o.seen, key) {
			rest = append(rest, key)
		}
	}
	sort.Strings(rest)
	for _, key := range rest {
		of := o.r.of
		if of == "" {
			of = "plan"
		}
		o.r.problem(CodeUnknownField, o.at(shorten(key)), "a field of the "+of+" format", nil,
			"the %s has no field %s: it is kept but not used. If it is misspelt, the value meant is missing.", of, quote(key))
	}
}

func (r *reader) object(path string, v any, vital bool) *object {
	if r.watch != nil {
		r.watch(path, FormatField{Kind: KindObject})
	}
	m, ok := v.(map[string]any)
	if !ok {
		r.problem(CodeType, path, "an object { … }", shown(v), "this part is %s; an object { … } is needed", describe(v))
		r.broken = r.broken || vital
		m = nil
	}
	return r.newObject(path, m, vital)
}

// newObject has the reader hand out objects and the room for their keys many at
// a time.
func (r *reader) newObject(path string, fields map[string]any, vital bool) *object {
	if len(r.objects) == cap(r.objects) {
		r.objects = make([]object, 0, 32)
	}
	n := len(fields)
	if n > cap(r.keys) {
		r.keys = make([]string, 0, max(n, 128))
	}
	r.objects = append(r.objects, object{r: r, path: path, fields: fields, vital: vital, seen: r.keys[:0:n]})
	r.keys = r.keys[n:n:cap(r.keys)]
	return &r.objects[len(r.objects)-1]
}

// child is an object that may be left out; nil when it is.
func (o *object) child(key string, vital bool) *object {
	v, ok := o.take(key)
	if !ok {
		o.asked(key, FormatField{Kind: KindObject})
		return nil
	}
	return o.r.object(o.at(key), v, vital)
}

// list is an array that may be left out, cut at most elements.
func (o *object) list(key string, most int) []any {
	o.asked(key, FormatField{Kind: KindList, Most: most})
	v, ok := o.take(key)
	if !ok {
		return nil
	}
	l, ok := v.([]any)
	if !ok {
		o.problem(CodeType, key, "a list [ … ]", shown(v), "this is %s; a list [ … ] is needed", describe(v))
		return nil
	}
	if len(l) > most {
		o.problem(CodeTooLong, key, fmt.Sprintf("at most %d entries", most), len(l), "there are %d entries here; at most %d are read", len(l), most)
		l = l[:most]
	}
	return l
}

// number reads a number; ok is false, and v NaN, when it is left out or not
// accepted. A value not accepted is a problem.
func (o *object) number(key string, s Range) (v float64, ok bool) {
	raw, given := o.take(key)
	if !given {
		o.asked(key, FormatField{Kind: KindNumber, Range: s})
		return math.NaN(), false
	}
	if v, ok := s.accepts(raw); ok && o.r.watch == nil {
		return v, true
	}
	return o.r.value(o.at(key), raw, s, o.vital)
}

// accepts gives a value that is a number of the range.
func (s Range) accepts(raw any) (float64, bool) {
	n, ok := raw.(jsontext.Number)
	if !ok {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(n), 64)
	return v, err == nil && s.holds(v)
}

func (r *reader) value(path string, raw any, s Range, vital bool) (float64, bool) {
	if r.watch != nil {
		r.watch(path, FormatField{Kind: KindNumber, Range: s})
	}
	if v, ok := s.accepts(raw); ok {
		return v, true
	}
	n, isNumber := raw.(jsontext.Number)
	if raw == "" {
		r.problem(CodeMissing, path, s.String(), "", "%s is missing; give %s", name(path), s)
		r.broken = r.broken || vital
		return math.NaN(), false
	}
	if !isNumber {
		r.problem(CodeType, path, s.String(), shown(raw), "%s must be %s, not %s", name(path), s, describe(raw))
		r.broken = r.broken || vital
		return math.NaN(), false
	}
	var given any = shorten(string(n))
	if v, err := n.Float64(); err == nil {
		given = Amount{v, s.Unit, Nearest}
	}
	r.problem(CodeRange, path, s.String(), shown(raw), "%s must be %s, not %s", name(path), s, given)
	r.broken = r.broken || vital
	return math.NaN(), false
}

// required is a number that has no default.
func (o *object) required(key string, s Range) float64 {
	v, ok := o.number(key, s)
	if !ok && !o.has(key) {
		o.problem(CodeMissing, key, s.String(), nil, "%s is missing; give %s", name(o.at(key)), s)
	}
	return v
}

// optional is a number with a default, which is then listed as assumed.
func (o *object) optional(key string, s Range, value float64, why, source, basis string) float64 {
	v, ok := o.number(key, s)
	if ok || o.has(key) {
		return v
	}
	o.r.assume(o.at(key), value, why, source, basis)
	return value
}

// text is a string, "" when left out.
func (o *object) text(key string) string { return o.textUpTo(key, maxText) }

// textUpTo is a string of at most so many characters.
func (o *object) textUpTo(key string, most int) string {
	o.asked(key, FormatField{Kind: KindText, Most: most})
	v, ok := o.take(key)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		o.problem(CodeType, key, "text", shown(v), "%s is %s; give text", name(o.at(key)), describe(v))
		return ""
	}
	if len(s) > most && utf8.RuneCountInString(s) > most {
		o.problem(CodeTooLong, key, fmt.Sprintf("at most %d characters", most), nil, "%s is longer than %d characters", name(o.at(key)), most)
	}
	return s
}

// identifier is a text that must be there.
func (o *object) identifier(key string) string {
	s := o.textUpTo(key, maxName)
	if strings.TrimSpace(s) == "" {
		if v, given := o.fields[key]; !given || v == "" || s != "" {
			o.problem(CodeMissing, key, "a short name of its own", nil, "%s is missing; give a short name", name(o.at(key)))
		}
		return ""
	}
	return s
}

// choice is one of several words, "" when left out or not one of them.
func (o *object) choice(key string, words ...string) string {
	o.asked(key, FormatField{Kind: KindChoice, Words: words})
	v, ok := o.take(key)
	if !ok {
		return ""
	}
	s, _ := v.(string)
	for _, w := range words {
		if s == w {
			return s
		}
	}
	o.problem(CodeChoice, key, "one of "+strings.Join(words, ", "), shown(v), "%s is %s; give one of %s", name(o.at(key)), describe(v), strings.Join(words, ", "))
	return ""
}

// flag is true or false, false when left out.
func (o *object) flag(key string) bool {
	o.asked(key, FormatField{Kind: KindFlag})
	v, ok := o.take(key)
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		o.problem(CodeType, key, "true or false", shown(v), "%s is %s; give true or false", name(o.at(key)), describe(v))
	}
	return b
}

// describe says in words what a JSON value is.
func describe(v any) string {
	switch x := v.(type) {
	case nil:
		return "empty (null)"
	case bool:
		return strconv.FormatBool(x)
	case jsontext.Number:
		return shorten(string(x))
	case string:
		if x == "" {
			return "empty text"
		}
		return "the text " + quote(x)
	case []any:
		return "a list"
	case map[string]any:
		return "an object"
	}
	return "something else"
}

// shown is the value as the problem carries it: itself if it is small.
func shown(v any) any {
	switch x := v.(type) {
	case jsontext.Number:
		if f, err := strconv.ParseFloat(string(x), 64); err == nil && len(x) <= 40 {
			return f
		}
		return shorten(string(x))
	case string:
		return shorten(x)
	case bool:
		return x
	case nil:
		return "null"
	}
	return describe(v)
}

func quote(s string) string { return "“" + shorten(s) + "”" }

// shorten keeps hostile lengths out of messages.
func shorten(s string) string {
	const most = 60
	r := []rune(s)
	if len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// name turns the last part of a path into words: "tree.height_m" gives
// "height".
func name(path string) string {
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		path = path[i+1:]
	}
	for _, unit := range []string{"_m", "_cm", "_deg", "_kg", "_kN", "_t", "_m2", "_kgm3", "_MPa", "_mps", "_kgpm", "_Nm_per_kg"} {
		if strings.HasSuffix(path, unit) {
			path = strings.TrimSuffix(path, unit)
			break
		}
	}
	switch path {
	case "stem":
		return "height on the stem"
	case "wll":
		return "working load limit"
	case "mbl":
		return "breaking load"
	}
	return strings.ReplaceAll(path, "_", " ")
}
