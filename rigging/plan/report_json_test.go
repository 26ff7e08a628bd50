package plan

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
)

// tree is what encoding/json reads in a text; numbers as they are compared.
func tree(t testing.TB, raw []byte) any {
	t.Helper()
	var v any
	require.NoError(t, json.Unmarshal(raw, &v), "%.2000s", raw)
	return v
}

// written holds the report's own text against the one encoding/json makes of
// its struct tags.
func written(t testing.TB, rep *Report) {
	t.Helper()
	w := jsontext.NewWriter(0)
	rep.AppendJSON(w)
	reference, err := json.Marshal(rep)
	require.NoError(t, err)
	require.Equal(t, tree(t, reference), tree(t, w.Bytes()))
}

// fill puts something of its own into everything that can hold it, so that
// no field is left out for being empty.
func fill(v reflect.Value, r *rand.Rand) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), r)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1+r.IntN(3), 3))
		for i := range v.Len() {
			fill(v.Index(i), r)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), r)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), r)
	case reflect.String:
		v.SetString("“<text>” " + strconv.FormatUint(r.Uint64(), 36) + "\n\t\\\"")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		if v.Type() == reflect.TypeFor[rigging.Verdict]() {
			v.SetInt(r.Int64N(4))
		} else {
			v.SetInt(1 + r.Int64N(1000))
		}
	case reflect.Float64:
		v.SetFloat(r.NormFloat64() * math.Pow(10, float64(r.IntN(12)-6)))
	case reflect.Interface:
		some := []any{r.Float64(), "text", true, 7, Num(2.5), None()}
		v.Set(reflect.ValueOf(some[r.IntN(len(some))]))
	default:
		panic("a kind of value that no report holds: " + v.Kind().String())
	}
}

// Every field of every part is written: a field added to a struct and
// forgotten in AppendJSON fails here.
func TestEveryFieldOfTheReportIsWritten(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 1))
	for range 50 {
		var rep Report
		fill(reflect.ValueOf(&rep).Elem(), r)
		written(t, &rep)
	}
	written(t, &Report{}) // lists that are nil
}

func TestReportsAreWrittenAsTheirTagsSay(t *testing.T) {
	for _, raw := range []string{string(demo(t)), `{}`, `[`, `[]`, `3`, `{"x": 1e999, "allowance": 1e999, "version": 7, "points": [null, 3, {"id": []}]}`} {
		rep := Evaluate([]byte(raw))
		written(t, &rep)
	}
	r := rand.New(rand.NewPCG(31, 2))
	for range 30 {
		rep := Evaluate(randomPlan(t, r).raw(t))
		written(t, &rep)
		// One that somebody has cut short.
		raw := randomPlan(t, r).raw(t)
		rep = Evaluate(bytes.Replace(raw, []byte(`1`), []byte(`"x"`), 1+r.IntN(5)))
		written(t, &rep)
	}
}

// A plan that somebody else has read is computed all the same, and left as
// it was.
func TestEvaluateTree(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 3))
	plans := [][]byte{demo(t), []byte(`{}`), []byte(`[]`), []byte(`null`), []byte(`{"version": 0, "tree": {"height_m": "x"}}`)}
	for range 10 {
		plans = append(plans, randomPlan(t, r).raw(t))
	}
	for _, raw := range plans {
		v, err := jsontext.Parse(raw)
		require.NoError(t, err)
		before := jsontext.NewWriter(0)
		before.Any(v)
		rep := EvaluateTree(v, len(raw))
		after := jsontext.NewWriter(0)
		after.Any(v)
		require.Equal(t, string(before.Bytes()), string(after.Bytes()))
		w := jsontext.NewWriter(0)
		rep.AppendJSON(w)
		require.Equal(t, string(EvaluateJSON(raw)), string(w.Bytes()))
	}
	rep := EvaluateTree(map[string]any{}, MaxBytes+1)
	require.Len(t, rep.Problems, 1)
	require.Contains(t, rep.Problems[0].Message, "bytes long")
}
