package text

import (
	"math"
	"strconv"
	"strings"
	"sync"
)

// A Voice says sayings. The zero Voice speaks English, in words read alike
// everywhere and in the units of the plan.
type Voice struct {
	// Translate gives the sentence of a key in another language; english is the one
	// to fall back on.
	Translate func(key, english string) string
	// Word is the region's word of the trade for a key; ok is false for what is none.
	Word func(key string) (word string, ok bool)
	// Write writes an amount in the user's units, bare without its unit.
	Write func(a Amount, bare bool) string
}

// A row is one sentence.
type row struct{ key, sentence string }

// english finds sentences by their keys. It is put up when the first is said.
var english = sync.OnceValue(func() map[string]string {
	n := 0
	for _, table := range tables {
		n += len(table)
	}
	out := make(map[string]string, n)
	for _, table := range tables {
		for _, r := range table {
			out[r.key] = r.sentence
		}
	}
	return out
})

// tables are all sentences in English.
var tables = [...][]row{cautions, unusual, reasons, problems, taken, fields, sources, assumed, steps, letters, names, groups, changes, order}

// Keys lists the keys of all sentences, for whoever translates them.
func Keys() []string {
	var out []string
	for _, table := range tables {
		for _, r := range table {
			out = append(out, r.key)
		}
	}
	return out
}

// sentence is that of a key in the language of the voice; ok is false where there
// is none.
func (v *Voice) sentence(key string) (s string, ok bool) {
	s, ok = english()[key]
	if ok && v.Translate != nil {
		s = v.Translate(key, s)
	}
	return s, ok
}

// Say makes the sentence.
func (v *Voice) Say(s Saying) string {
	if s.Key == "" {
		return ""
	}
	sentence, ok := v.sentence(s.Key)
	if !ok {
		return s.Key
	}
	return v.fill(sentence, s.Args)
}

// SayKnown says what has a sentence; anything else stands as it is.
func (v *Voice) SayKnown(kind, key string) string {
	sentence, ok := v.sentence(kind + "." + key)
	if !ok {
		return key
	}
	return v.fill(sentence, nil)
}

// fill puts arguments and words of the trade into a sentence.
func (v *Voice) fill(sentence string, args []any) string {
	at := strings.IndexAny(sentence, "{%")
	if at < 0 {
		return sentence
	}
	var b strings.Builder
	b.Grow(len(sentence) + 16*len(args))
	for next := 0; at >= 0; at = strings.IndexAny(sentence, "{%") {
		b.WriteString(sentence[:at])
		mark := sentence[at]
		sentence = sentence[at+1:]
		if mark == '{' {
			key, after, closed := strings.Cut(sentence, "}")
			word, known := v.word(key)
			if !closed || !known {
				b.WriteByte(mark)
				continue
			}
			b.WriteString(word)
			sentence = after
			continue
		}
		n, after := argument(sentence, next)
		if n < 0 {
			b.WriteByte(mark)
			continue
		}
		if n < len(args) {
			b.WriteString(v.argument(args[n]))
		}
		next, sentence = n+1, after
	}
	b.WriteString(sentence)
	return b.String()
}

// argument reads which argument is meant after a percent sign, next if none is
// named, and gives what follows; −1 where it is a mere percent sign.
func argument(text string, next int) (n int, after string) {
	if after, ok := strings.CutPrefix(text, "s"); ok {
		return next, after
	}
	if len(text) > 3 && text[0] == '[' && '1' <= text[1] && text[1] <= '9' && text[2:4] == "]s" {
		return int(text[1] - '1'), text[4:]
	}
	return -1, text
}

func (v *Voice) word(key string) (string, bool) {
	if v.Word != nil {
		return v.Word(key)
	}
	return plainWord(key)
}

// plainWords are the words of the trade that are read alike everywhere, where
// they are not the keys themselves.
var plainWords = [...]struct{ key, word string }{{"scarf", "face"}, {"strop", "sling"}}

func plainWord(key string) (string, bool) {
	if key == "" || key[0]|0x20 < 'a' || key[0]|0x20 > 'z' {
		return "", false
	}
	small := string(key[0]|0x20) + key[1:]
	word := small
	for _, p := range plainWords {
		if p.key == small {
			word = p.word
		}
	}
	if small != key {
		word = string(word[0]&^0x20) + word[1:]
	}
	return word, true
}

// argument writes what goes into a sentence.
func (v *Voice) argument(arg any) string {
	switch a := arg.(type) {
	case Amount:
		return v.write(a, false)
	case Number:
		return v.write(Amount(a), true)
	case Percent:
		return a.String()
	case Name:
		return "“" + Shorten(string(a)) + "”"
	case Words:
		return string(a)
	case Field:
		return v.field(string(a))
	case int:
		return strconv.Itoa(a)
	case Saying:
		return v.Say(a)
	case interface{ String() string }:
		return a.String()
	}
	return ""
}

func (v *Voice) write(a Amount, bare bool) string {
	if v.Write != nil {
		return v.Write(a, bare)
	}
	if bare {
		a.Unit = ""
	}
	return a.String()
}

// field names a field of the plan by the last step of its path.
func (v *Voice) field(path string) string {
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		path = path[i+1:]
	}
	path, _, _ = strings.Cut(path, "[")
	return v.SayKnown("field", path)
}

// String writes an amount in the unit of the plan, "–" where it is no number.
func (a Amount) String() string {
	if math.IsNaN(a.Value) || math.IsInf(a.Value, 0) {
		return "–"
	}
	text := strconv.FormatFloat(a.rounded(), 'g', 6, 64)
	switch a.Unit {
	case "", "°":
		return text + a.Unit
	}
	return text + " " + a.Unit
}

// rounded keeps four significant digits of a load or capacity.
func (a Amount) rounded() float64 {
	if a.Value == 0 || math.IsNaN(a.Value) || math.IsInf(a.Value, 0) || a.Round != Up && a.Round != Down {
		return Round(a.Value)
	}
	scale := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(a.Value))))
	if math.IsInf(scale, 0) || math.IsInf(a.Value*scale, 0) { // smaller or greater than anything a person would write
		return a.Value
	}
	// What is left after a dozen digits is the noise of the computation.
	const slack = 1e-12
	if a.Round == Up {
		return math.Ceil(a.Value*scale*(1-slack)) / scale
	}
	return math.Floor(a.Value*scale*(1+slack)) / scale
}

// Round keeps six significant digits, so that a number reads as a person would
// write it.
func Round(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	scale := math.Pow(10, 5-math.Floor(math.Log10(math.Abs(v))))
	if math.IsInf(scale, 0) || math.IsInf(v*scale, 0) { // smaller or greater than anything a person would write
		return v
	}
	return math.Round(v*scale) / scale
}

// String writes a share in percent, rounded up.
func (p Percent) String() string {
	if math.IsNaN(float64(p)) {
		return "–"
	}
	if p > 99.99 {
		return "> 9999 %"
	}
	return strconv.FormatFloat(math.Ceil(float64(p)*100-1e-9), 'g', 6, 64) + " %"
}

// Shorten keeps hostile lengths out of sentences.
func Shorten(s string) string {
	const most = 60
	r := []rune(s)
	if len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
