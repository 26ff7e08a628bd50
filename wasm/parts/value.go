package parts

import (
	"strings"

	"pullline/wasm/words"
)

// A Value is what is put in for a letter of a formula.
type Value struct {
	letter, text string // no letter where the formula says it in words
	name         words.Text
	args         []string // of the name
}

// Let puts a number in for a letter, "" for none.
func Let(letter, text string) Value { return Value{letter: letter, text: text} }

// Of says what of.
func (v Value) Of(name words.Text, args ...string) Value {
	v.name, v.args = name, args
	return v
}

// String is the value without what it is of: "T = 10 kN".
func (v Value) String() string {
	if v.letter == "" {
		return v.text
	}
	return v.letter + " = " + v.text
}

// In writes a value down: "T = 10 kN (tension of the rope)".
func (v Value) In(l words.Locale) string {
	if v.name == "" {
		return v.String()
	}
	return l.Say("%s (%s)", v.String(), l.Say(v.name, v.args...))
}

// From is the path of the step so far that gives the value, "" for none: its
// letter stands before an equals sign there, and it comes to the same.
func (v Value) From(steps []Step) string {
	for i := range steps {
		s := &steps[i]
		if strings.Contains(s.Formula, v.letter+" = ") && strings.HasPrefix(v.text, s.Result) {
			return s.Path
		}
	}
	return ""
}
