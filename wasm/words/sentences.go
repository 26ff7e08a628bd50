package words

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"pullline/rigging"
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

// Given says a text whose arguments are all given, and nothing where one is
// empty.
func (l Locale) Given(t Text, args ...string) string {
	for _, a := range args {
		if a == "" {
			return ""
		}
	}
	return l.Say(t, args...)
}

// HowMany says how many things there are: none, one of them, or n.
func (l Locale) HowMany(n int, one, many Text) string {
	if n == 0 {
		return l.Say("none")
	}
	return l.Count(n, one, many)
}

// Sided says a signed quantity: so much one way or the other, or nought.
func (l Locale) Sided(text func(float64) string, v float64, positive, negative, nought Text) string {
	shown := text(math.Abs(v))
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return units.None
	case shown == text(0):
		return l.Say(nought)
	case v > 0:
		return l.Say(positive, shown)
	}
	return l.Say(negative, shown)
}

// Use is the use of a limit, in percent; a load on a limit of 0 has none.
func (l Locale) Use(share float64) string {
	if text := units.Percent(share); text != units.Percent(math.Inf(1)) {
		return text
	}
	return l.Say("holds nothing")
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
func (l Locale) NotANumber(text, unit string) string {
	if unit == "" || unit == "°" {
		return l.Say("“%s” is not a number. Type one such as 12.5.", text)
	}
	return l.Say("“%s” is not a number. Type one such as 12.5, in %s or with its unit.", text, unit)
}

// Of says a text with what it belongs to before it.
func (l Locale) Of(owner, text string) string { return l.Say("%s: %s", owner, text) }

// Error is an error of package rigging as the crew reads it.
func (l Locale) Error(err error) string {
	var table *rigging.TableError
	var reading *rigging.ReadingError
	var reeving *rigging.ReevingError
	switch {
	case errors.As(err, &table):
		return l.refused(table.What, table.Given, table.Accepted)
	case errors.As(err, &reading):
		return l.refused(reading.What, reading.Given, reading.Accepted)
	case errors.As(err, &reeving):
		args := make([]string, len(reeving.Values))
		for i, v := range reeving.Values {
			args[i] = fmt.Sprint(v)
		}
		return l.Say(Text(sayable.Replace(reeving.Format)), args...)
	}
	return l.Say(Text(err.Error()))
}

// sayable makes the verbs of fmt those of a Text.
var sayable = strings.NewReplacer("%q", "“%s”", "%d", "%s", "%g", "%s", "%v", "%s")

func (l Locale) refused(what, given, accepted string) string {
	return l.Say("%s is %s; accepted: %s", l.Say(Text(what)), given, l.Say(Text(accepted)))
}

// Source is a source as the crew reads it, with how well it is founded where
// that is not by the publication named.
func (l Locale) Source(s rigging.Source) string {
	if s.Basis == rigging.Published {
		return s.Text
	}
	return l.Say("%s, %s", s.Text, l.Say(Text(s.Basis.Words())))
}
