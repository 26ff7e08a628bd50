package plan

import (
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
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

	memo    *memo                  // of the variation read before, nil for a plan by itself
	planned float64                // N in place of the plan's own planned tension, above 0
	ranges  map[string]field.Range // of the numbers asked for, where it is set (Numbers)

	objects []object // room for more of them
	keys    []string // room for what they tick off
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
func (r *reader) assume(path string, value any, why string, source rigging.Source, args ...any) {
	if r.assumed == nil {
		r.assumed = make([]Assumed, 0, 32)
	}
	r.assumed = append(r.assumed, Assumed{Path: path, Value: value, Saying: text.Saying{Key: "assumed." + why, Args: args}, Source: source.Text, Basis: string(source.Basis)})
}

// assumeField lists what is taken for a field by its row of the table.
func (r *reader) assumeField(path string, f field.Field, value any) {
	d := &f.Row().Default
	r.assume(path, value, d.Why, d.Source, d.Args...)
}

// accepted says what a range accepts.
func accepted(s field.Range) text.Saying { return takes(s.Sentence("number"), s.Least(), s.Most()) }

// An object is a JSON object at a path. Every key that is there and is asked for
// is ticked off; done reports the others. A field is asked for by its row of the
// table; its path is put together only where it is told: most plans have hundreds
// of fields and few problems.
type object struct {
	r      *reader
	path   string
	fields map[string]any
	seen   []string // each once
	vital  bool     // a problem here breaks the mechanics
}

func (o *object) at(f field.Field) string { return o.sub(f.Key()) }

func (o *object) sub(key string) string {
	if o.path == "" {
		return key
	}
	return o.path + "." + key
}

func (o *object) problem(code Code, f field.Field, takes text.Saying, given any, wrong string, args ...any) {
	o.problemAt(code, f.Key(), takes, given, wrong, args...)
}

// problemAt adds a problem of what stands under a key.
func (o *object) problemAt(code Code, key string, takes text.Saying, given any, wrong string, args ...any) {
	o.r.problem(code, o.sub(key), takes, given, wrong, args...)
	o.r.broken = o.r.broken || o.vital
}

// item is the path of an entry of a list in the object.
func (o *object) item(f field.Field, i int) string { return item(o.at(f), i) }

func item(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }

func (o *object) take(f field.Field) (any, bool) { return o.tick(f.Key()) }

func (o *object) tick(key string) (any, bool) {
	v, ok := o.fields[key]
	if ok && !slices.Contains(o.seen, key) {
		o.seen = append(o.seen, key)
	}
	return v, ok
}

func (o *object) has(f field.Field) bool {
	_, ok := o.take(f)
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
		o.r.problem(CodeUnknownField, o.sub(shorten(key)), takes(of+"_field"), nil, "unknown_field."+of, quote(key))
	}
}

func (r *reader) object(path string, v any, vital bool) *object {
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
func (o *object) child(f field.Field) *object {
	v, ok := o.take(f)
	if !ok {
		return nil
	}
	return o.r.object(o.at(f), v, f.Row().Vital)
}

// part is an object that reads as an empty one where it is left out.
func (o *object) part(f field.Field) *object {
	if c := o.child(f); c != nil {
		return c
	}
	return o.r.newObject(o.at(f), nil, f.Row().Vital)
}

// entry is an object in a list.
func (o *object) entry(f field.Field, i int, v any) *object {
	return o.r.object(o.item(f, i), v, f.Row().Vital)
}

// list is an array that may be left out, cut at its most entries.
func (o *object) list(f field.Field) []any {
	row := f.Row()
	v, ok := o.tick(row.Key)
	if !ok {
		return nil
	}
	return o.listIn(row.Key, v, row.Most)
}

// listIn reads an array that stands under a key.
func (o *object) listIn(key string, v any, most int) []any {
	l, ok := v.([]any)
	switch {
	case !ok:
		o.problemAt(CodeType, key, takes("list"), shown(v), "list", text.Field(o.sub(key)))
	case len(l) > most:
		o.problemAt(CodeTooLong, key, takes("entries", most), len(l), "list_long", text.Field(o.sub(key)), len(l), most)
		l = l[:most]
	}
	return l
}

// given reads a number where it is given, and takes nothing for it where it is
// not; NaN then, and when it is not accepted, which is a problem.
func (o *object) given(f field.Field) float64 {
	v, _ := o.ask(f)
	return v
}

// ask reads a number; given is false where it is left out, and v then NaN.
func (o *object) ask(f field.Field) (v float64, given bool) {
	row := f.Row()
	raw, given := o.tick(row.Key)
	if o.r.ranges != nil {
		o.r.ranges[o.at(f)] = row.Range
	}
	if !given {
		return math.NaN(), false
	}
	return o.value(row.Key, raw, &row.Range), true
}

// number reads a number. Left out it is a problem or its default, by its row of
// the table, or NaN.
func (o *object) number(f field.Field) float64 {
	v, given := o.ask(f)
	if given {
		return v
	}
	row := f.Row()
	switch {
	case row.Required:
		o.missingNumber(f)
	case row.Default.Value != nil:
		o.r.assumeField(o.at(f), f, row.Default.Value)
		return row.Default.Number()
	}
	return v
}

// missingNumber is the problem of a number that is needed, where it is left out.
func (o *object) missingNumber(f field.Field) {
	if s := f.Row().Range; !o.has(f) {
		o.problem(CodeMissing, f, accepted(s), nil, s.Sentence("missing.number"), text.Field(o.at(f)), s.Least(), s.Most())
	}
}

// numberOr is a number whose default is worked out from others.
func (o *object) numberOr(f field.Field, value float64) float64 {
	v, given := o.ask(f)
	if !given {
		o.r.assumeField(o.at(f), f, value)
		return value
	}
	return v
}

// optional is a number with a default that is not its row's.
func (o *object) optional(f field.Field, value float64, why string, source rigging.Source, args ...any) float64 {
	v, given := o.ask(f)
	if !given {
		o.r.assume(o.at(f), value, why, source, args...)
		return value
	}
	return v
}

// value reads a number that stands under a key.
func (o *object) value(key string, raw any, s *field.Range) float64 {
	if v, ok := numberIn(raw, s); ok {
		return v
	}
	return o.r.value(o.sub(key), raw, s, o.vital)
}

// numberIn gives a value that is a number of the range, as package jsontext reads
// it or as a variation has it.
func numberIn(raw any, s *field.Range) (float64, bool) {
	if v, ok := raw.(float64); ok {
		return v, s.Holds(v)
	}
	n, ok := raw.(jsontext.Number)
	if !ok {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(n), 64)
	return v, err == nil && s.Holds(v)
}

func isNumber(raw any) bool {
	switch raw.(type) {
	case jsontext.Number, float64:
		return true
	}
	return false
}

func (r *reader) value(path string, raw any, s *field.Range, vital bool) float64 {
	if r.ranges != nil {
		r.ranges[path] = *s
	}
	if v, ok := numberIn(raw, s); ok {
		return v
	}
	code, key := CodeType, s.Sentence("number")
	switch {
	case isNumber(raw):
		code = CodeRange
	case raw == "":
		code, key = CodeMissing, s.Sentence("missing.number")
	}
	r.problem(code, path, accepted(*s), shown(raw), key, text.Field(path), s.Least(), s.Most())
	r.broken = r.broken || vital
	return math.NaN()
}

// text is a string, "" when left out.
func (o *object) text(f field.Field) string {
	row := f.Row()
	v, ok := o.tick(row.Key)
	if !ok {
		return ""
	}
	return o.textIn(row.Key, v, row.Most)
}

// textIn reads a string that stands under a key.
func (o *object) textIn(key string, v any, most int) string {
	s, ok := v.(string)
	switch {
	case !ok:
		o.problemAt(CodeType, key, takes("text"), shown(v), "text", text.Field(o.sub(key)))
	case len(s) > most && utf8.RuneCountInString(s) > most:
		o.problemAt(CodeTooLong, key, takes("characters", most), nil, "text_long", text.Field(o.sub(key)), most)
	}
	return s
}

// name is a text that must be there.
func (o *object) name(f field.Field) string {
	s := o.text(f)
	if strings.TrimSpace(s) == "" {
		if v, given := o.fields[f.Key()]; !given || v == "" || s != "" {
			o.problem(CodeMissing, f, takes("name"), nil, "missing.name", text.Field(o.at(f)))
		}
		return ""
	}
	return s
}

// choice is one of several words; left out it is its default, if it has one. It
// is "" without one, and when it is none of the words.
func (o *object) choice(f field.Field) string {
	row := f.Row()
	v, ok := o.tick(row.Key)
	if !ok {
		word, _ := row.Default.Value.(string)
		if word != "" {
			o.r.assumeField(o.at(f), f, word)
		}
		return word
	}
	s, _ := v.(string)
	if s != "" && slices.Contains(row.Words, s) {
		return s
	}
	o.problem(CodeChoice, f, oneOf(row.Words...), shown(v), "choice", text.Field(o.at(f)), joined(row.Words))
	return ""
}

// kind is a choice that must be there.
func (o *object) kind(f field.Field) string {
	words := f.Row().Words
	if !o.has(f) {
		o.problem(CodeMissing, f, oneOf(words...), nil, "missing.choice", text.Field(f.Key()), joined(words))
	}
	return o.choice(f)
}

// flag is true or false, false when left out.
func (o *object) flag(f field.Field) bool {
	v, ok := o.take(f)
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		o.problem(CodeType, f, takes("flag"), shown(v), "flag", text.Field(o.at(f)))
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
