package jsontext

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reference reads a text with encoding/json.
func reference(raw []byte) (any, error) {
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		return nil, err
	}
	if _, err := dec.Token(); err != io.EOF {
		return nil, errors.New("something follows")
	}
	return v, nil
}

// standard turns a tree of this package into one of encoding/json.
func standard(v any) any {
	switch x := v.(type) {
	case Number:
		return json.Number(x)
	case []any:
		l := make([]any, len(x))
		for i, item := range x {
			l[i] = standard(item)
		}
		return l
	case map[string]any:
		m := map[string]any{}
		for key, item := range x {
			m[key] = standard(item)
		}
		return m
	}
	return v
}

func depth(v any) int {
	deepest := -1
	switch x := v.(type) {
	case []any:
		for _, item := range x {
			deepest = max(deepest, depth(item))
		}
		deepest = max(deepest, 0)
	case map[string]any:
		for _, item := range x {
			deepest = max(deepest, depth(item))
		}
		deepest = max(deepest, 0)
	}
	return deepest + 1
}

var texts = []string{
	``, ` `, `null`, ` true `, `false`, `nul`, `truefalse`, `True`, `"a"`, `"`, `"a`, `"\`, `"\u12`, `"\x"`, `'a'`,
	`0`, `-0`, `01`, `-`, `1.`, `.5`, `1.5`, `1e`, `1e5`, `1E+5`, `1e-5`, `+1`, `1e999`, `-1.0e-999`, `0x1`, `NaN`, `Infinity`, `1 2`,
	`12345678901234567890.123`, `{`, `}`, `{}`, `{ }`, `{"a"}`, `{"a":}`, `{"a":1`, `{"a":1,}`, `{"a":1}}`, `{,}`, `{"a":1 "b":2}`, `{a:1}`,
	`{"a":1,"a":2}`, `{"":{"":""}}`, `[`, `]`, `[]`, `[ ]`, `[1,]`, `[,1]`, `[1 2]`, `[1,[2,[3,{}],"x"],null]`, `[1]]`, `[}`, "[1]\x00", "\ufeff1",
	`"\"\\\/\b\f\n\r\t\u00e9\u20ac"`, `"\ud83c\udf32"`, `"\ud83c"`, `"\ud83cx"`, `"\ud83c\n"`, `"\ud83c\u0041"`, `"\ud83c\ud83c\udf32"`, `"\udf32\ud83c"`, `"\ud83c\u00"`,
	"\"\xff\"", "\"a\xc3\"", "\"\xed\xa0\x80\"", "\"\xf0\x9f\x8c\xb2\"", "\"\xf0\x9f\x8c\"", "\"\t\"", "\"\x00\"", "\"\x7f\"", "\"\u2028\"", "{\"\xff\":1}",
	"\t\r\n[\n1\t,\r2 ]\v", `"` + strings.Repeat("long ", 100) + `\n"`,
}

func FuzzParse(f *testing.F) {
	for _, text := range texts {
		f.Add([]byte(text))
	}
	if demo, err := os.ReadFile("../../testdata/demo.json"); err == nil {
		f.Add(demo)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		got, err := Parse(raw)
		want, wantErr := reference(raw)
		if err != nil {
			var e *Error
			require.ErrorAs(t, err, &e)
			require.NotEmpty(t, e.Message)
			require.True(t, e.Offset >= 0 && e.Offset <= len(raw))
			if e.Fault == Deep {
				return // the one difference: encoding/json goes deeper
			}
			require.Error(t, wantErr, "%q: %s", raw, err)
			return
		}
		require.NoError(t, wantErr, "%q", raw)
		require.Equal(t, want, standard(got), "%q", raw)

		// Written and read again it is the same tree, for both readers.
		w := NewWriter(0)
		w.Any(got)
		again, err := Parse(w.Bytes())
		require.NoError(t, err)
		require.Equal(t, got, again)
		want, wantErr = reference(w.Bytes())
		require.NoError(t, wantErr)
		require.Equal(t, want, standard(got))
	})
}

func TestErrors(t *testing.T) {
	for text, want := range map[string]Error{
		``:            {Fault: Short, Offset: 0},
		`{"a": tru`:   {Fault: Short, Offset: 9},
		`{"a": trux}`: {Fault: Malformed, Offset: 9},
		`{"a": [1, ]`: {Fault: Malformed, Offset: 10},
		`{"a": 1} x`:  {Fault: Trailing, Offset: 9},
		`["\q"]`:      {Fault: Malformed, Offset: 3},
		`{"a" 1}`:     {Fault: Malformed, Offset: 5},
	} {
		_, err := Parse([]byte(text))
		var e *Error
		require.ErrorAs(t, err, &e, text)
		assert.Equal(t, want.Fault, e.Fault, text)
		assert.Equal(t, want.Offset, e.Offset, text)
		assert.Contains(t, err.Error(), e.Message)
	}
}

func TestDepth(t *testing.T) {
	nested := func(n int) []byte { return []byte(strings.Repeat(`[`, n) + strings.Repeat(`]`, n)) }
	v, err := Parse(nested(MaxDepth))
	require.NoError(t, err)
	assert.Equal(t, MaxDepth, depth(v))
	for _, raw := range [][]byte{nested(MaxDepth + 1), nested(1 << 20), []byte(strings.Repeat(`{"a":`, 1<<20))} {
		_, err = Parse(raw)
		var e *Error
		require.ErrorAs(t, err, &e)
		assert.Equal(t, Deep, e.Fault)
	}
	// What lies beside each other does not count.
	_, err = Parse([]byte(`[` + strings.Repeat(`{"a":[]},`, 1000) + `0]`))
	require.NoError(t, err)
}

func TestMembers(t *testing.T) {
	type member struct {
		key   string
		value any
		size  int
	}
	read := func(raw string) (out []member, err error) {
		err = Members([]byte(raw), func(key string, value any, size int) { out = append(out, member{key, value, size}) })
		return out, err
	}
	got, err := read(` { "a" : {"b": [1, 2]} , "c":"x","a": null } `)
	require.NoError(t, err)
	assert.Equal(t, []member{{"a", map[string]any{"b": []any{Number("1"), Number("2")}}, 13}, {"c", "x", 3}, {"a", nil, 4}}, got)
	for _, raw := range []string{`3`, `[{"a":1}]`, `null`, `{}`} {
		got, err = read(raw)
		require.NoError(t, err, raw)
		assert.Empty(t, got, raw)
	}
	for _, text := range texts {
		_, err := read(text)
		_, want := Parse([]byte(text))
		assert.Equal(t, want == nil, err == nil, text)
	}
}

func TestNumber(t *testing.T) {
	for text, want := range map[Number]bool{"1": true, "-1.5e-3": true, "1e999": false, "": false, "1e-999": true} {
		_, ok := text.Finite()
		assert.Equal(t, want, ok, text)
	}
	out, err := json.Marshal(map[string]any{"a": Number("1.50")})
	require.NoError(t, err)
	assert.Equal(t, `{"a":1.50}`, string(out))
}

func BenchmarkParse(b *testing.B) {
	demo, err := os.ReadFile("../../testdata/demo.json")
	require.NoError(b, err)
	b.Run("here", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = Parse(demo)
		}
	})
	b.Run("encoding/json", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = reference(demo)
		}
	})
}
