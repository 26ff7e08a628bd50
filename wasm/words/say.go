package words

import (
	"strconv"
	"strings"
)

// A Text is a text of the page as it stands in English, which is its key in
// every other language as well. %s stands for an argument, %[2]s for the
// second one; {block} for a word of the trade, as the region has it, {Block}
// for the same with a capital. A percent sign before anything else is one.
//
// A Text is whole: no other text is put before or after it to complete it.
// Every one is a constant, or a field of a table of constants, so that a
// language can have a table of them all.
type Text string

// A Locale is what texts are said in: a language, in the words of a region.
// The zero value is English as in New Zealand and Australia.
type Locale struct {
	Region
	*language // nil for English
}

// Say says a text in the language, with the region's words. The arguments
// are whole by themselves: a number with its unit, an id, what somebody typed,
// or a text that was said. Of an argument that is not there it says nothing.
func (l Locale) Say(t Text, args ...string) string {
	text := string(t)
	if l.language != nil {
		text = l.translate(t)
	}
	at := strings.IndexAny(text, "{%")
	if at < 0 {
		return text
	}
	size := len(text)
	for _, a := range args {
		size += len(a)
	}
	var b strings.Builder
	b.Grow(size)
	for next := 0; at >= 0; at = strings.IndexAny(text, "{%") {
		b.WriteString(text[:at])
		mark := text[at]
		text = text[at+1:]
		if mark == '{' {
			key, after, ok := strings.Cut(text, "}")
			word, known := l.tradeWord(key)
			if !ok || !known {
				b.WriteByte(mark) // not one of ours
				continue
			}
			b.WriteString(word)
			text = after
			continue
		}
		n, after := argument(text, next)
		if n < 0 {
			b.WriteByte(mark)
			continue
		}
		if n < len(args) {
			b.WriteString(args[n])
		}
		next, text = n+1, after
	}
	b.WriteString(text)
	return b.String()
}

// argument reads which argument is meant after a percent sign, next if none
// is named, and gives what follows; -1 where it is a mere percent sign.
func argument(text string, next int) (n int, after string) {
	if after, ok := strings.CutPrefix(text, "s"); ok {
		return next, after
	}
	if len(text) > 3 && text[0] == '[' && '1' <= text[1] && text[1] <= '9' && text[2:4] == "]s" {
		return int(text[1] - '1'), text[4:]
	}
	return -1, text
}

// Count says a number of things: one of them, or n of them, which many takes
// as its argument.
func (l Locale) Count(n int, one, many Text) string {
	if n == 1 {
		return l.Say(one)
	}
	return l.Say(many, strconv.Itoa(n))
}
