package qr

import "errors"

// ErrTooLong is given where a text does not fit the largest version asked for.
var ErrTooLong = errors.New("qr: the text is too long for one code")

// MaxVersion is the largest there is.
const MaxVersion = 40

// Encode gives the smallest symbol that holds a text at a level, of at most a
// version (1 to MaxVersion). Digits at its end are written three in ten bits, what
// comes before them as bytes.
func Encode(text string, level Level, most int) (*Symbol, error) {
	digits := len(text)
	for digits > 0 && text[digits-1] >= '0' && text[digits-1] <= '9' {
		digits--
	}
	if len(text)-digits < 16 {
		digits = len(text) // a change of mode costs more than it gains
	}
	for version := 1; version <= min(most, MaxVersion); version++ {
		if bits, ok := data(text[:digits], text[digits:], version, 8*dataCodewords(version, level)); ok {
			return draw(corrected(bits, version, level), version, level), nil
		}
	}
	return nil, ErrTooLong
}

// draw makes the symbol with the mask that is easiest to read.
func draw(codewords []byte, version int, level Level) *Symbol {
	s := newSymbol(version)
	s.place(codewords)
	best, least := 0, -1
	for n := range masks {
		s.format(level, n)
		s.mask(n)
		if p := s.penalty(); least < 0 || p < least {
			best, least = n, p
		}
		s.mask(n)
	}
	s.format(level, best)
	s.mask(best)
	return s
}

// data is the text's bits, one segment for its bytes and one for its digits, made
// up to the room there is (ISO/IEC 18004, 7.4); false where it does not fit.
func data(text, digits string, version, room int) ([]byte, bool) {
	long := 0 // of the character counts (table 3): version 1 to 9, 10 to 26, 27 and more
	if version > 9 {
		long = 1
	}
	if version > 26 {
		long = 2
	}
	if 8*len(text)+10*len(digits)/3 > room {
		return nil, false
	}
	var b bits
	if text != "" || digits == "" {
		b.add(4, 4)
		b.add(len(text), [...]int{8, 16, 16}[long])
		for i := range len(text) {
			b.add(int(text[i]), 8)
		}
	}
	if digits != "" {
		b.add(1, 4)
		b.add(len(digits), [...]int{10, 12, 14}[long])
		for ; digits != ""; digits = digits[min(3, len(digits)):] {
			n, group := 0, digits[:min(3, len(digits))]
			for i := range len(group) {
				n = 10*n + int(group[i]-'0')
			}
			b.add(n, 3*len(group)+1)
		}
	}
	if b.n > room {
		return nil, false
	}
	b.add(0, min(4, room-b.n)) // the end
	b.add(0, -b.n&7)
	for pad := 0xec; b.n < room; pad ^= 0xec ^ 0x11 {
		b.add(pad, 8)
	}
	return b.bytes, true
}

// bits are written from the highest of each byte.
type bits struct {
	bytes []byte
	n     int
}

func (b *bits) add(value, width int) {
	for i := width - 1; i >= 0; i-- {
		if b.n%8 == 0 {
			b.bytes = append(b.bytes, 0)
		}
		b.bytes[b.n/8] |= byte(value>>i&1) << (7 - b.n%8)
		b.n++
	}
}
