package plan

import (
	"maps"
	"math"
	"slices"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// A Request is what a call is asked that works on a plan: the plan and a few
// values beside it. What is wrong with those is in Problems, under their own paths.
type Request struct {
	Tree     any // the plan, as package jsontext reads it
	Size     int // bytes of its text
	Problems []Problem

	of *object
}

// ReadRequest reads one JSON object with a plan and the fields named, all of which
// may be left out.
func ReadRequest(raw []byte, fields ...string) *Request {
	q, values := &Request{}, map[string]any{}
	r := &reader{of: ofRequest}
	err := jsontext.Members(raw, func(key string, value any, n int) {
		if key == "plan" {
			q.Tree, q.Size = value, n
		} else {
			values[key] = value
		}
	})
	if err != nil {
		key, args := unreadable(err)
		r.problem(CodeUnreadable, "", takes("json"), nil, key, args...)
	}
	for _, key := range slices.Sorted(maps.Keys(values)) {
		if !slices.Contains(fields, key) {
			r.problem(CodeUnknownField, shorten(key), oneOf(append([]string{"plan"}, fields...)...), nil, "unknown_field.request", quote(key))
		}
	}
	q.of = &object{r: r, fields: values}
	q.Problems = r.problems
	return q
}

// Number is a number of the request, value where it is left out or not accepted.
func (q *Request) Number(key string, s field.Range, value float64) float64 {
	if raw, given := q.of.tick(key); given {
		if v := q.of.value(key, raw, &s); !math.IsNaN(v) {
			return v
		}
		q.Problems = q.of.r.problems
	}
	return value
}

// Numbers is a list of just so many numbers.
func (q *Request) Numbers(key string, n int, s field.Range) (list []float64, ok bool) {
	var raw []any
	if v, given := q.of.tick(key); given {
		raw = q.of.listIn(key, v, n)
	}
	ok = len(raw) == n
	if !ok && len(q.of.r.problems) == len(q.Problems) {
		q.of.problemAt(CodeMissing, key, takes("numbers", n), len(raw), "numbers_missing", text.Field(key), n)
	}
	for i, v := range raw {
		value := q.of.value(item(key, i), v, &s)
		list, ok = append(list, value), ok && !math.IsNaN(value)
	}
	q.Problems = q.of.r.problems
	return list, ok
}

// Text is a text of the request, "" where it is left out or not accepted.
func (q *Request) Text(key string) string {
	v, given := q.of.tick(key)
	if !given {
		return ""
	}
	s := q.of.textIn(key, v, field.Name.Row().Most)
	q.Problems = q.of.r.problems
	return s
}

// Object is an object of the request, nil where it is left out or none.
func (q *Request) Object(key string) map[string]any {
	v, given := q.of.tick(key)
	if !given {
		return nil
	}
	o := q.of.r.object(q.of.sub(key), v, false)
	q.Problems = q.of.r.problems
	return o.fields
}

// NoSuch adds that a text of the request is the name of no point of the plan.
func (q *Request) NoSuch(key, id string) {
	q.of.problemAt(CodeNoSuch, key, takes("point"), shorten(id), "no_point", quote(id))
	q.Problems = q.of.r.problems
}

// TooMany adds that a request asks for nothing, or for more than is answered at once.
func (q *Request) TooMany(key string, n, most int) {
	q.of.problemAt(CodeTooLong, key, takes("entries", most), n, "request_many", n, most)
	q.Problems = q.of.r.problems
}
