package jsontext

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"unicode/utf8"
)

// AppendFloat writes the shortest text that reads back as v; what is not
// finite becomes null.
func AppendFloat(out []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(out, "null"...)
	}
	// Whole numbers and tenths are common, and quicker to write as integers.
	// A tenth that is the quotient is also the nearest number to its text.
	if t := math.Round(v * 10); t/10 == v && math.Abs(t) < 1e15 && (v != 0 || !math.Signbit(v)) {
		tenths := int64(t)
		if tenths < 0 {
			out = append(out, '-')
			tenths = -tenths
		}
		out = strconv.AppendInt(out, tenths/10, 10)
		if digit := tenths % 10; digit != 0 {
			out = append(out, '.', '0'+byte(digit))
		}
		return out
	}
	format := byte('f')
	if a := math.Abs(v); v != 0 && a < 1e-6 || a >= 1e21 {
		format = 'e'
	}
	return strconv.AppendFloat(out, v, format, -1, 64)
}

const hexDigits = "0123456789abcdef"

// plain says of every ASCII byte whether it stands for itself in a string.
var plain = func() (t [utf8.RuneSelf]bool) {
	for c := ' '; c < utf8.RuneSelf; c++ {
		t[c] = c != '"' && c != '\\'
	}
	return t
}()

// AppendString writes a string in quotes. Bytes that are not UTF-8 become
// U+FFFD; the line separators U+2028 and U+2029 are escaped, so that the text
// is also a script's.
func AppendString(out []byte, s string) []byte {
	out = append(out, '"')
	start := 0 // of what is not written yet
	for i := 0; i < len(s); {
		c := s[i]
		if c < utf8.RuneSelf {
			if plain[c] {
				i++
				continue
			}
			out = append(out, s[start:i]...)
			switch c {
			case '"', '\\':
				out = append(out, '\\', c)
			case '\b':
				out = append(out, '\\', 'b')
			case '\f':
				out = append(out, '\\', 'f')
			case '\n':
				out = append(out, '\\', 'n')
			case '\r':
				out = append(out, '\\', 'r')
			case '\t':
				out = append(out, '\\', 't')
			default:
				out = append(out, '\\', 'u', '0', '0', hexDigits[c>>4], hexDigits[c&15])
			}
			i++
			start = i
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			out = append(append(out, s[start:i]...), `\ufffd`...)
			start = i + size
		case r == '\u2028' || r == '\u2029':
			out = append(append(out, s[start:i]...), '\\', 'u', '2', '0', '2', hexDigits[r&15])
			start = i + size
		}
		i += size
	}
	out = append(out, s[start:]...)
	return append(out, '"')
}

// A Writer writes one JSON text, piece by piece in the text's order; it puts
// the commas. Opening and closing in pairs, and a key before every value of
// an object, is the caller's part. Keys are written as they are, so they are
// words of the program that need no escape; whatever comes from outside goes
// through a value.
//
// Some of its methods are kept from being written out at each of their many
// calls, which would make the program larger for nothing.
type Writer struct{ out []byte }

// NewWriter makes a writer with room for so many bytes.
func NewWriter(size int) *Writer { return &Writer{out: make([]byte, 0, size)} }

// Bytes is the text written so far. It is the writer's own.
func (w *Writer) Bytes() []byte { return w.out }

// comma separates what follows from what was written. The last byte tells
// whether that is needed: a string's inner bytes are never the last.
//
//go:noinline
func (w *Writer) comma() {
	if n := len(w.out); n > 0 {
		switch w.out[n-1] {
		case '{', '[', ':':
		default:
			w.out = append(w.out, ',')
		}
	}
}

// Open begins an object, Close ends it.
func (w *Writer) Open() {
	w.comma()
	w.out = append(w.out, '{')
}

// Close ends an object.
func (w *Writer) Close() { w.out = append(w.out, '}') }

// OpenList begins a list, CloseList ends it.
func (w *Writer) OpenList() {
	w.comma()
	w.out = append(w.out, '[')
}

// CloseList ends a list.
func (w *Writer) CloseList() { w.out = append(w.out, ']') }

// Key names the value that is written next.
//
//go:noinline
func (w *Writer) Key(key string) {
	w.comma()
	w.out = append(w.out, '"')
	w.out = append(w.out, key...)
	w.out = append(w.out, '"', ':')
}

// String writes a string as a value.
func (w *Writer) String(s string) {
	w.comma()
	w.out = AppendString(w.out, s)
}

// Float writes a number as a value, null if it is not finite.
func (w *Writer) Float(v float64) {
	w.comma()
	w.out = AppendFloat(w.out, v)
}

// Null writes null as a value.
func (w *Writer) Null() {
	w.comma()
	w.out = append(w.out, "null"...)
}

// Text writes a member that is a string.
func (w *Writer) Text(key, s string) {
	w.Key(key)
	w.out = AppendString(w.out, s)
}

// TextIf writes a member that is a string, unless it is empty.
func (w *Writer) TextIf(key, s string) {
	if s != "" {
		w.Text(key, s)
	}
}

// Num writes a member that is a number, null if it is not finite.
func (w *Writer) Num(key string, v float64) {
	w.Key(key)
	w.out = AppendFloat(w.out, v)
}

// NumIf writes a member that is a number, unless it is nought.
func (w *Writer) NumIf(key string, v float64) {
	if v != 0 {
		w.Num(key, v)
	}
}

// Int writes a member that is a whole number.
func (w *Writer) Int(key string, v int) {
	w.Key(key)
	w.out = strconv.AppendInt(w.out, int64(v), 10)
}

// IntIf writes a member that is a whole number, unless it is nought.
func (w *Writer) IntIf(key string, v int) {
	if v != 0 {
		w.Int(key, v)
	}
}

// Bool writes a member that is true or false.
func (w *Writer) Bool(key string, v bool) {
	w.Key(key)
	w.out = strconv.AppendBool(w.out, v)
}

// BoolIf writes a member that is true, and nothing where it is not.
func (w *Writer) BoolIf(key string, v bool) {
	if v {
		w.Bool(key, v)
	}
}

// Value writes a member of any of the types that Any takes.
func (w *Writer) Value(key string, v any) {
	w.Key(key)
	w.Any(v)
}

// Any writes a value of the types that Parse gives, and float64, int,
// []string, []float64 and []int besides; the members of a map in the order
// of their keys. A value of another type has no text and becomes null.
func (w *Writer) Any(v any) {
	w.comma()
	switch x := v.(type) {
	case string:
		w.out = AppendString(w.out, x)
	case bool:
		w.out = strconv.AppendBool(w.out, x)
	case Number:
		w.out = append(w.out, x...)
	case float64:
		w.out = AppendFloat(w.out, x)
	case int:
		w.out = strconv.AppendInt(w.out, int64(x), 10)
	case map[string]any:
		w.out = append(w.out, '{')
		for _, key := range slices.Sorted(maps.Keys(x)) {
			w.String(key)
			w.out = append(w.out, ':')
			w.Any(x[key])
		}
		w.out = append(w.out, '}')
	case []any:
		if x == nil {
			w.out = append(w.out, "null"...)
			return
		}
		w.list(len(x), func(i int) { w.Any(x[i]) })
	case []string:
		w.list(len(x), func(i int) { w.String(x[i]) })
	case []float64:
		w.list(len(x), func(i int) { w.Float(x[i]) })
	case []int:
		w.list(len(x), func(i int) { w.Any(x[i]) })
	default:
		w.out = append(w.out, "null"...)
	}
}

func (w *Writer) list(n int, item func(i int)) {
	w.out = append(w.out, '[')
	for i := range n {
		item(i)
	}
	w.out = append(w.out, ']')
}

// Encode writes a whole text, of a few kilobytes.
func Encode(v interface{ AppendJSON(*Writer) }) []byte {
	w := NewWriter(4 << 10)
	v.AppendJSON(w)
	return w.Bytes()
}

// Texts writes a member that is a list of strings; one that is nil is null.
func (w *Writer) Texts(key string, items []string) {
	if w.begin(key, items != nil) {
		for _, s := range items {
			w.String(s)
		}
		w.CloseList()
	}
}

// TextsIf writes a member that is a list of strings, unless it is empty.
func (w *Writer) TextsIf(key string, items []string) {
	if len(items) > 0 {
		w.Texts(key, items)
	}
}

// TextMap writes a member that is an object of strings, in the order of their
// keys; one that is nil is empty.
func (w *Writer) TextMap(key string, items map[string]string) {
	w.Key(key)
	w.Open()
	for _, name := range slices.Sorted(maps.Keys(items)) {
		w.String(name)
		w.out = append(w.out, ':')
		w.String(items[name])
	}
	w.Close()
}

// Objects writes a member that is a list, each item by its own method; a list that
// is nil is null.
func Objects[T any](w *Writer, key string, items []T, item func(*T, *Writer)) {
	if w.begin(key, items != nil) {
		for i := range items {
			item(&items[i], w)
		}
		w.CloseList()
	}
}

// ObjectsIf writes a member that is a list, unless it is empty.
func ObjectsIf[T any](w *Writer, key string, items []T, item func(*T, *Writer)) {
	if len(items) > 0 {
		Objects(w, key, items, item)
	}
}

// Nums writes a member that is a list of numbers; one that is nil is null.
func Nums[F ~float64](w *Writer, key string, items []F) {
	w.Key(key)
	NumList(w, items)
}

// NumsIf writes a member that is a list of numbers, unless it is empty.
func NumsIf[F ~float64](w *Writer, key string, items []F) {
	if len(items) > 0 {
		Nums(w, key, items)
	}
}

// NumList writes a list of numbers as a value; one that is nil is null.
func NumList[F ~float64](w *Writer, items []F) {
	if items == nil {
		w.Null()
		return
	}
	w.OpenList()
	for _, v := range items {
		w.Float(float64(v))
	}
	w.CloseList()
}

// begin opens a list, or writes null where there is none. It stays out of
// List, of which the program has a copy for every type.
//
//go:noinline
func (w *Writer) begin(key string, there bool) bool {
	w.Key(key)
	if there {
		w.out = append(w.out, '[')
	} else {
		w.out = append(w.out, "null"...)
	}
	return there
}
