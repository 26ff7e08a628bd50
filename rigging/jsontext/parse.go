package jsontext

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// MaxDepth is how many lists and objects may lie in each other. A plan needs
// eight; the limit keeps a hostile text from using up the stack.
const MaxDepth = 64

// MaxValues is how many values one text may hold: the fullest gear list and
// plan together hold fewer. More would only take time to be refused.
const MaxValues = 250_000

// A Number is a number as it is written in the text.
type Number string

// Float64 is the number's value. A number too large is infinite, with an
// error.
func (n Number) Float64() (float64, error) { return strconv.ParseFloat(string(n), 64) }

// Finite is the number's value; nought and not ok where it is too large to
// have one.
func (n Number) Finite() (v float64, ok bool) {
	v, err := n.Float64()
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, false
	}
	return v, true
}

func (n Number) String() string { return string(n) }

// MarshalJSON lets encoding/json write the number as one.
func (n Number) MarshalJSON() ([]byte, error) { return []byte(n), nil }

// A Fault is the kind of thing that is wrong with a text.
type Fault int

// What can be wrong.
const (
	Malformed Fault = iota // something stands where it cannot
	Short                  // the text ends before its value does
	Trailing               // something follows the value
	Deep                   // more than MaxDepth lists and objects in each other
	Many                   // more than MaxValues values
)

// An Error says what is wrong with a text, and where.
type Error struct {
	Fault   Fault
	Offset  int // bytes before the place
	Message string
}

func (e *Error) Error() string {
	return e.Message + " at byte " + strconv.Itoa(e.Offset)
}

// Parse reads a text that holds one JSON value. Objects become
// map[string]any (of equal keys the last one counts), lists []any, numbers
// Number; the rest is string, bool or nil. Bytes that are not UTF-8 and
// halves of surrogate pairs become U+FFFD. The error is an *Error.
func Parse(raw []byte) (any, error) {
	p := parser{text: string(raw)}
	v, ok := p.value()
	if ok {
		ok = p.end()
	}
	if !ok {
		return nil, p.err
	}
	return v, nil
}

// Members reads a text that holds one JSON object and hands over its members
// in order, each with the length of its value's text in bytes. A text with
// another value than an object has no members. The error, an *Error, may
// come after some members were handed over.
func Members(raw []byte, each func(key string, value any, size int)) error {
	p := parser{text: string(raw), member: each}
	_, ok := p.value()
	if ok {
		ok = p.end()
	}
	if !ok {
		return p.err
	}
	return nil
}

// A parser goes through a text once. Its strings, keys and numbers are parts
// of the text itself where that is possible.
type parser struct {
	text   string
	at     int
	depth  int
	values int   // so far
	items  []any // of the lists still open
	member func(key string, value any, size int)
	err    *Error
}

func (p *parser) fail(f Fault, message string) bool {
	if p.err == nil {
		p.err = &Error{Fault: f, Offset: p.at, Message: message}
	}
	return false
}

// unexpected is the error for what stands at p.at, or for nothing there.
func (p *parser) unexpected(message string) bool {
	if p.at >= len(p.text) {
		return p.fail(Short, "the text ends too early")
	}
	return p.fail(Malformed, message)
}

// next skips white space and looks at the byte after it, 0 at the end.
func (p *parser) next() byte {
	for p.at < len(p.text) {
		switch c := p.text[p.at]; c {
		case ' ', '\n', '\t', '\r':
			p.at++
		default:
			return c
		}
	}
	return 0
}

func (p *parser) end() bool {
	p.next()
	if p.at < len(p.text) {
		return p.fail(Trailing, "there is something after the end")
	}
	return true
}

func (p *parser) value() (v any, ok bool) {
	if p.values++; p.values > MaxValues {
		return nil, p.fail(Many, "there are too many values")
	}
	switch c := p.next(); {
	case c == '"':
		return p.quoted()
	case c == '{':
		return p.object()
	case c == '[':
		return p.list()
	case c == '-' || c >= '0' && c <= '9':
		return p.number()
	case c == 't':
		return true, p.word("true")
	case c == 'f':
		return false, p.word("false")
	case c == 'n':
		return nil, p.word("null")
	}
	return nil, p.unexpected("a value is missing")
}

func (p *parser) quoted() (any, bool) {
	s, ok := p.str()
	return s, ok
}

// word reads one of the three words of JSON.
func (p *parser) word(w string) bool {
	for i := 0; i < len(w); i, p.at = i+1, p.at+1 {
		if p.at >= len(p.text) || p.text[p.at] != w[i] {
			return p.unexpected("this is not a value")
		}
	}
	return true
}

func (p *parser) enter() bool {
	p.depth++
	if p.depth > MaxDepth {
		return p.fail(Deep, "lists and objects lie too deep in each other")
	}
	p.at++
	return true
}

func (p *parser) object() (any, bool) {
	if !p.enter() {
		return nil, false
	}
	m := map[string]any{}
	each := p.member
	p.member = nil // only the outermost hands its members over
	for c := p.next(); c != '}'; {
		if c != '"' {
			return nil, p.unexpected("a name in quotes is missing")
		}
		key, ok := p.str()
		if !ok {
			return nil, false
		}
		if p.next() != ':' {
			return nil, p.unexpected("a colon is missing")
		}
		p.at++
		p.next()
		start := p.at
		v, ok := p.value()
		if !ok {
			return nil, false
		}
		if each != nil {
			each(key, v, p.at-start)
		} else {
			m[key] = v
		}
		switch c = p.next(); c {
		case ',':
			p.at++
			if c = p.next(); c == '}' {
				return nil, p.unexpected("a name is missing after the comma")
			}
		case '}':
		default:
			return nil, p.unexpected("a comma or the end of the object is missing")
		}
	}
	p.at++
	p.depth--
	return m, true
}

func (p *parser) list() (any, bool) {
	if !p.enter() {
		return nil, false
	}
	p.member = nil
	first := len(p.items)
	for c := p.next(); c != ']'; {
		v, ok := p.value()
		if !ok {
			return nil, false
		}
		p.items = append(p.items, v)
		switch c = p.next(); c {
		case ',':
			p.at++
			if c = p.next(); c == ']' {
				return nil, p.unexpected("a value is missing after the comma")
			}
		case ']':
		default:
			return nil, p.unexpected("a comma or the end of the list is missing")
		}
	}
	p.at++
	p.depth--
	l := append(make([]any, 0, len(p.items)-first), p.items[first:]...)
	p.items = p.items[:first]
	return l, true
}

func (p *parser) number() (any, bool) {
	start := p.at
	if p.text[p.at] == '-' {
		p.at++
	}
	if p.at < len(p.text) && p.text[p.at] == '0' {
		p.at++
	} else if !p.digits() {
		return nil, false
	}
	if p.at < len(p.text) && p.text[p.at] == '.' {
		p.at++
		if !p.digits() {
			return nil, false
		}
	}
	if p.at < len(p.text) && p.text[p.at]|0x20 == 'e' {
		p.at++
		if p.at < len(p.text) && (p.text[p.at] == '+' || p.text[p.at] == '-') {
			p.at++
		}
		if !p.digits() {
			return nil, false
		}
	}
	return Number(p.text[start:p.at]), true
}

// digits skips digits, of which there must be one.
func (p *parser) digits() bool {
	start := p.at
	for p.at < len(p.text) && p.text[p.at] >= '0' && p.text[p.at] <= '9' {
		p.at++
	}
	return p.at > start || p.unexpected("a digit is missing")
}

// str reads a string whose opening quote is at p.at.
func (p *parser) str() (string, bool) {
	p.at++
	start, ascii := p.at, true
	for ; p.at < len(p.text); p.at++ {
		switch c := p.text[p.at]; {
		case c == '"':
			s := p.text[start:p.at]
			if !ascii && !utf8.ValidString(s) {
				return p.unescape(start)
			}
			p.at++
			return s, true
		case c == '\\':
			return p.unescape(start)
		case c < ' ':
			return "", p.unexpected("a control character stands in a string")
		case c >= utf8.RuneSelf:
			ascii = false
		}
	}
	return "", p.unexpected("")
}

// unescape reads the string that begins at start, its quote left out, and
// holds escapes or bytes that are not UTF-8.
func (p *parser) unescape(start int) (string, bool) {
	out := make([]byte, 0, p.at-start+16)
	p.at = start
	for p.at < len(p.text) {
		switch c := p.text[p.at]; {
		case c == '"':
			p.at++
			return string(out), true
		case c == '\\':
			r, ok := p.escape()
			if !ok {
				return "", false
			}
			out = utf8.AppendRune(out, r)
		case c < ' ':
			return "", p.unexpected("a control character stands in a string")
		case c < utf8.RuneSelf:
			out = append(out, c)
			p.at++
		default:
			r, size := utf8.DecodeRuneInString(p.text[p.at:])
			out = utf8.AppendRune(out, r)
			p.at += size
		}
	}
	return "", p.unexpected("")
}

// escape reads what a backslash stands before.
func (p *parser) escape() (rune, bool) {
	p.at++
	if p.at >= len(p.text) {
		return 0, p.unexpected("")
	}
	c := p.text[p.at]
	switch c {
	case '"', '\\', '/':
		p.at++
		return rune(c), true
	case 'b':
		c = '\b'
	case 'f':
		c = '\f'
	case 'n':
		c = '\n'
	case 'r':
		c = '\r'
	case 't':
		c = '\t'
	case 'u':
		p.at++
		r, ok := p.hex()
		if !ok {
			return 0, false
		}
		if r < 0xD800 || r > 0xDFFF {
			return r, true
		}
		// A character beyond U+FFFF is written as two halves, high and low.
		if r <= 0xDBFF && p.at+1 < len(p.text) && p.text[p.at] == '\\' && p.text[p.at+1] == 'u' {
			back := p.at
			p.at += 2
			low, ok := p.hex()
			if !ok {
				return 0, false
			}
			if low >= 0xDC00 && low <= 0xDFFF {
				return (r-0xD800)<<10 + (low - 0xDC00) + 0x10000, true
			}
			p.at = back
		}
		return utf8.RuneError, true
	default:
		return 0, p.unexpected("there is no such escape")
	}
	p.at++
	return rune(c), true
}

// hex reads the four digits after \u.
func (p *parser) hex() (r rune, ok bool) {
	for range 4 {
		if p.at >= len(p.text) {
			return 0, p.unexpected("")
		}
		c := p.text[p.at]
		switch {
		case c >= '0' && c <= '9':
			r = r<<4 | rune(c-'0')
		case c|0x20 >= 'a' && c|0x20 <= 'f':
			r = r<<4 | rune(c|0x20-'a'+10)
		default:
			return 0, p.unexpected("four hexadecimal digits are missing")
		}
		p.at++
	}
	return r, true
}
