// Package jsontest helps tests to hold a text written field by field against
// the one encoding/json makes of the struct tags. No other code uses it.
package jsontest

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strconv"
	"testing"

	"pullline/rigging/jsontext"
)

// Fill puts something of its own into everything that v points to, so that
// no field is left out for being empty. Whole numbers are 1 to 3. A field of
// type any gets one of the values some.
func Fill(v any, r *rand.Rand, some ...any) { fill(reflect.ValueOf(v).Elem(), r, some, 4) }

func fill(v reflect.Value, r *rand.Rand, some []any, depth int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), r, some, depth)
		}
	case reflect.Slice:
		if depth == 0 {
			return // a part that holds its like
		}
		v.Set(reflect.MakeSlice(v.Type(), 1+r.IntN(2), 2))
		for i := range v.Len() {
			fill(v.Index(i), r, some, depth-1)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), r, some, depth)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), r, some, depth)
	case reflect.String:
		v.SetString("“<text>” " + strconv.FormatUint(r.Uint64(), 36) + "\n\t\\\"")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		v.SetInt(1 + r.Int64N(3))
	case reflect.Float64:
		v.SetFloat(r.NormFloat64() * math.Pow(10, float64(r.IntN(12)-6)))
	case reflect.Interface:
		v.Set(reflect.ValueOf(some[r.IntN(len(some))]))
	default:
		panic("no JSON is written of a " + v.Kind().String())
	}
}

// SameAsTags fails where the text that write makes is not, read again, what
// encoding/json makes of v.
func SameAsTags(t testing.TB, v any, write func(*jsontext.Writer)) {
	t.Helper()
	w := jsontext.NewWriter(0)
	write(w)
	var want, got any
	reference, err := json.Marshal(v)
	if err == nil {
		err = json.Unmarshal(reference, &want)
	}
	if err == nil {
		err = json.Unmarshal(w.Bytes(), &got)
	}
	if err != nil {
		t.Fatalf("%s\n%.2000s", err, w.Bytes())
	}
	if where := difference("", want, got); where != "" {
		t.Fatal(where)
	}
}

// difference says where two trees differ, "" if they do not.
func difference(path string, want, got any) string {
	w, isObject := want.(map[string]any)
	g, alsoObject := got.(map[string]any)
	if isObject && alsoObject {
		for key := range g {
			if _, there := w[key]; !there {
				return path + "." + key + " is written and has no field"
			}
		}
		for key := range w {
			if _, there := g[key]; !there {
				return path + "." + key + " is not written"
			}
			if where := difference(path+"."+key, w[key], g[key]); where != "" {
				return where
			}
		}
		return ""
	}
	wl, isList := want.([]any)
	gl, alsoList := got.([]any)
	if isList && alsoList && len(wl) == len(gl) {
		for i := range wl {
			if where := difference(path+"["+strconv.Itoa(i)+"]", wl[i], gl[i]); where != "" {
				return where
			}
		}
		return ""
	}
	if !reflect.DeepEqual(want, got) {
		return fmt.Sprintf("%s is written as %.200v, not %.200v", path, got, want)
	}
	return ""
}
