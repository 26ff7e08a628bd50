package jsontext

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAppendFloat(t *testing.T) {
	check := func(v float64) {
		t.Helper()
		out := AppendFloat(nil, v)
		var back float64
		require.NoError(t, json.Unmarshal(out, &back), "%s", out)
		require.Equal(t, math.Float64bits(v), math.Float64bits(back), "%s", out)
		want, err := json.Marshal(v)
		require.NoError(t, err)
		require.LessOrEqual(t, len(out), len(want)+1, "%s", out) // e-09 for e-9
	}
	for _, v := range []float64{0, math.Copysign(0, -1), 1, -1, 0.1, 1e-6, 9.99e-7, 1e-9, 1e15, 123456789012345678, 1e20, 1e21, 1e22, math.MaxFloat64, math.SmallestNonzeroFloat64, 1 << 53} {
		check(v)
		check(-v)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		if v := math.Float64frombits(rng.Uint64()); !math.IsNaN(v) && !math.IsInf(v, 0) {
			check(v)
		}
		check(math.Round(rng.NormFloat64()*1e5) / 100)
		check(math.Round(rng.NormFloat64()*1e5) / 10)
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.Equal(t, "null", string(AppendFloat(nil, v)))
	}
}

// encode is encoding/json's text of a value, markup left as it is.
func encode(t testing.TB, v any) string {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	require.NoError(t, enc.Encode(v))
	return string(bytes.TrimSuffix(out.Bytes(), []byte("\n")))
}

func FuzzAppendString(f *testing.F) {
	for _, s := range []string{"", "plain", "\"\\/\b\f\n\r\t\x00\x1f\x7f", "<a href='&'>", "é€🌲", "\u2027\u2028\u2029\u202a", "a\xffb\xed\xa0\x80", "\xe2\x80"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		require.Equal(t, encode(t, s), string(AppendString(nil, s)))
	})
}

// randomTree makes a tree of all that can be written.
func randomTree(rng *rand.Rand, depth int) any {
	kinds := 11
	if depth == 0 {
		kinds = 6
	}
	switch rng.IntN(kinds) {
	case 0:
		return nil
	case 1:
		return rng.IntN(2) == 0
	case 2:
		return randomText(rng)
	case 3:
		return rng.NormFloat64() * math.Pow(10, float64(rng.IntN(40)-20))
	case 4:
		return rng.IntN(1000) - 500
	case 5:
		return Number(strconv.Itoa(rng.IntN(100)))
	case 6:
		return []string{randomText(rng), randomText(rng)}[:rng.IntN(3)]
	case 7:
		return []float64{rng.Float64(), 0, -2}[:rng.IntN(4)]
	case 8:
		return []int{rng.IntN(9), 0, -2}[:rng.IntN(4)]
	case 9:
		l := make([]any, rng.IntN(5))
		for i := range l {
			l[i] = randomTree(rng, depth-1)
		}
		return l
	default:
		m := map[string]any{}
		for range rng.IntN(5) {
			m[randomText(rng)] = randomTree(rng, depth-1)
		}
		return m
	}
}

func randomText(rng *rand.Rand) string {
	some := []rune("ab{}[]:,\"\\ \n\x01é€\u2028🌲<&>")
	out := make([]rune, rng.IntN(8))
	for i := range out {
		out[i] = some[rng.IntN(len(some))]
	}
	return string(out)
}

func TestTreesRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		v := randomTree(rng, 5)
		w := NewWriter(0)
		w.Any(v)
		got, err := reference(w.Bytes())
		require.NoError(t, err, "%s", w.Bytes())
		want, err := reference([]byte(encode(t, v)))
		require.NoError(t, err)
		want = values(want)
		require.Equal(t, want, values(got), "%s", w.Bytes())
		own, err := Parse(w.Bytes())
		require.NoError(t, err)
		require.Equal(t, want, values(standard(own)))
	}
}

// values replaces the texts of numbers by what they are.
func values(v any) any {
	switch x := v.(type) {
	case json.Number:
		f, _ := x.Float64()
		return f
	case []any:
		for i := range x {
			x[i] = values(x[i])
		}
	case map[string]any:
		for key := range x {
			x[key] = values(x[key])
		}
	}
	return v
}

func TestWriter(t *testing.T) {
	type pair struct{ a, b int }
	item := func(p *pair, w *Writer) {
		w.Open()
		w.Int("a", p.a)
		w.Int("b", p.b)
		w.Close()
	}
	w := NewWriter(16)
	w.Open()
	w.Text("text", "ends in {")
	w.TextIf("none", "")
	w.Num("num", 1.5)
	w.NumIf("none", 0)
	w.NumIf("some", 2)
	w.Bool("bool", true)
	w.Key("inner")
	w.Open()
	w.Close()
	Objects(w, "list", []pair{{1, 2}, {3, 4}}, item)
	Objects(w, "empty", []pair{}, item)
	Objects(w, "nil", nil, item)
	ObjectsIf(w, "none", []pair{}, item)
	ObjectsIf(w, "full", []pair{{5, 6}}, item)
	w.Key("mixed")
	w.OpenList()
	w.Null()
	w.String("[")
	w.Float(math.NaN())
	w.CloseList()
	w.Value("value", struct{}{})
	w.Close()
	assert.Equal(t, `{"text":"ends in {","num":1.5,"some":2,"bool":true,"inner":{},"list":[{"a":1,"b":2},{"a":3,"b":4}],"empty":[],"nil":null,`+
		`"full":[{"a":5,"b":6}],"mixed":[null,"[",null],"value":null}`, string(w.Bytes()))
	assert.True(t, json.Valid(w.Bytes()))
}
