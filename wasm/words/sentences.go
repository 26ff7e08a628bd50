package words

import (
	"math"
	"strconv"
	"strings"

	"pullline/wasm/units"
)

// Listed joins what is there with commas.
func Listed(parts ...string) string {
	out := ""
	for _, p := range parts {
		if p == "" {
			continue
		}
		if out != "" {
			out += ", "
		}
		out += p
	}
	return out
}

// Around puts words before and after a text, if there is a text.
func Around(before, text, after string) string {
	if text == "" {
		return ""
	}
	return before + text + after
}

// CountOf is a number of things: "none", "1 point", "3 points".
func CountOf(n int, one, many string) string {
	switch n {
	case 0:
		return "none"
	case 1:
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// Shortened cuts a text of a hostile length.
func Shortened(s string, most int) string {
	for i := range s {
		if most--; most < 0 {
			return s[:i] + "…"
		}
	}
	return s
}

// Ended puts a full stop behind a sentence without an end.
func Ended(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?") {
		return text
	}
	return text + "."
}

// Join puts two sentences one after the other.
func Join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

// Sided puts a signed quantity into words: so much one way or the other.
func Sided(text func(float64) string, v float64, positive, negative, nought string) string {
	shown := text(math.Abs(v))
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return units.None
	case shown == text(0):
		return nought
	case v > 0:
		return shown + " " + positive
	}
	return shown + " " + negative
}

// Capital makes the first letter of a sentence a capital.
func Capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// longestQuote is how many bytes of a text are said back to whoever sent it.
const longestQuote = 24

// Quoted is what somebody sent, between quotation marks, cut where it is long.
func Quoted(text string) string {
	if len(text) > longestQuote {
		text = strings.ToValidUTF8(text[:longestQuote], "") + "…"
	}
	return strconv.Quote(text)
}

// NotANumber is what a field for a number in a unit says of a text that it
// cannot read.
func NotANumber(text, unit string) string {
	say := "“" + text + "” is not a number it can be worked out from. Type a number such as 12.5"
	if unit != "" && unit != "°" {
		say += ", in " + unit + " or with its unit after it"
	}
	return say + "."
}
