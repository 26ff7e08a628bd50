package plan

import (
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/text"
)

// What else than a plan is read.
const (
	ofPlan     = "plan"
	ofGearList = "gear_list"
	ofRequest  = "request"
)

// A reader walks a decoded plan and gathers problems and assumptions. It
// never fails: a value it cannot take is NaN or empty, with a problem.
type reader struct {
	problems []Problem
	assumed  []Assumed
	// broken is set when what is wrong keeps the mechanics from running at
	// all; other problems only keep the plan from being judged.
	broken bool
	of     string // what is read, as sentences are keyed; "" for a plan
	// askedForDate is set once the day of the pull has been asked for.
	askedForDate bool
	// watch, where it is set, is told of every field asked for (Format).
	watch func(path string, f FormatField)

	memo    *memo   // of the variation read before, nil for a plan by itself
	planned float64 // N in place of the plan's own planned tension, above 0

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

// problem adds a problem by the key of its sentence. What it takes is what would
// be accepted.
func (r *reader) problem(code Code, path string, takes text.Saying, given any, key string, args ...any) {
	r.problems = append(r.problems, Problem{Code: code, Path: path, Given: given, Saying: text.Saying{Key: "problem." + key, Args: args}, Takes: takes})
}

// takes says what would be accepted.
func takes(key string, args ...any) text.Saying { return text.Saying{Key: "takes." + key, Args: args} }

func oneOf(words ...string) text.Saying { return takes("one_of", joined(words)) }

func joined(words []string) text.Words { return text.Words(strings.Join(words, ", ")) }

// assume lists what is taken by the key of the sentence that says why.
func (r *reader) assume(path string, value any, why, source, basis string, args ...any) {
	if r.assumed == nil {
		r.assumed = make([]Assumed, 0, 32)
	}
	r.assumed = append(r.assumed, Assumed{Path: path, Value: value, Saying: text.Saying{Key: "assumed." + why, Args: args}, Source: source, Basis: basis})
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

func (o *object) problem(code Code, key string, takes text.Saying, given any, wrong string, args ...any) {
	o.r.problem(code, o.at(key), takes, given, wrong, args...)
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
			of = ofPlan
		}
		o.r.problem(CodeUnknownField, o.at(shorten(key)), takes(of+"_field"), nil, "unknown_field."+of, quote(key))
	}
}

func (r *reader) object(path string, v any, vital bool) *object {
	if r.watch != nil {
		r.watch(path, FormatField{Kind: KindObject})
	}
	m, ok := v.(map[string]any)
	if !ok {
		r.problem(CodeType, path, takes("object"), shown(v), "object")
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
		o.problem(CodeType, key, takes("list"), shown(v), "list", text.Field(o.at(key)))
		return nil
	}
	if len(l) > most {
		o.problem(CodeTooLong, key, takes("entries", most), len(l), "list_long", text.Field(o.at(key)), len(l), most)
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

// accepts gives a value that is a number of the range, as package jsontext reads it
// or as a variation has it.
func (s Range) accepts(raw any) (float64, bool) {
	if v, ok := raw.(float64); ok {
		return v, s.holds(v)
	}
	n, ok := raw.(jsontext.Number)
	if !ok {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(n), 64)
	return v, err == nil && s.holds(v)
}

func isNumber(raw any) bool {
	switch raw.(type) {
	case jsontext.Number, float64:
		return true
	}
	return false
}

func (r *reader) value(path string, raw any, s Range, vital bool) (float64, bool) {
	if r.watch != nil {
		r.watch(path, FormatField{Kind: KindNumber, Range: s})
	}
	if v, ok := s.accepts(raw); ok {
		return v, true
	}
	code, key := CodeType, s.key("number")
	switch {
	case isNumber(raw):
		code = CodeRange
	case raw == "":
		code, key = CodeMissing, s.key("missing.number")
	}
	r.problem(code, path, s.takes(), shown(raw), key, text.Field(path), s.least(), s.most())
	r.broken = r.broken || vital
	return math.NaN(), false
}

// required is a number that has no default.
func (o *object) required(key string, s Range) float64 {
	v, ok := o.number(key, s)
	if !ok && !o.has(key) {
		o.problem(CodeMissing, key, s.takes(), nil, s.key("missing.number"), text.Field(o.at(key)), s.least(), s.most())
	}
	return v
}

// optional is a number with a default, which is then listed as assumed.
func (o *object) optional(key string, s Range, value float64, why, source, basis string, args ...any) float64 {
	v, ok := o.number(key, s)
	if ok || o.has(key) {
		return v
	}
	o.r.assume(o.at(key), value, why, source, basis, args...)
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
		o.problem(CodeType, key, takes("text"), shown(v), "text", text.Field(o.at(key)))
		return ""
	}
	if len(s) > most && utf8.RuneCountInString(s) > most {
		o.problem(CodeTooLong, key, takes("characters", most), nil, "text_long", text.Field(o.at(key)), most)
	}
	return s
}

// identifier is a text that must be there.
func (o *object) identifier(key string) string {
	s := o.textUpTo(key, maxName)
	if strings.TrimSpace(s) == "" {
		if v, given := o.fields[key]; !given || v == "" || s != "" {
			o.problem(CodeMissing, key, takes("name"), nil, "missing.name", text.Field(o.at(key)))
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
	o.problem(CodeChoice, key, oneOf(words...), shown(v), "choice", text.Field(o.at(key)), joined(words))
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
		o.problem(CodeType, key, takes("flag"), shown(v), "flag", text.Field(o.at(key)))
	}
	return b
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
	case float64:
		if Num(x).Known() {
			return x
		}
		return strconv.FormatFloat(x, 'g', -1, 64)
	case nil:
		return "null"
	case []any:
		return "[ … ]"
	}
	return "{ … }"
}

// shorten keeps hostile lengths out of a report.
func shorten(s string) string { return text.Shorten(s) }
