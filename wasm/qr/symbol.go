package qr

import "math"

// A Symbol is a QR code: a square of dark and light modules, without the
// quiet zone of QuietZone light modules that has to be left around it.
type Symbol struct {
	Version int
	Size    int // modules along a side

	dark  []bool
	fixed []bool // part of a pattern: holds no data and is not masked
}

// QuietZone is how many light modules are left on each side of a symbol
// (ISO/IEC 18004, 5.3.8).
const QuietZone = 4

// Dark tells whether a module is dark; those outside the symbol are light.
func (s *Symbol) Dark(row, column int) bool {
	return row >= 0 && row < s.Size && column >= 0 && column < s.Size && s.dark[row*s.Size+column]
}

func newSymbol(version int) *Symbol {
	size := 17 + 4*version
	s := &Symbol{Version: version, Size: size, dark: make([]bool, size*size), fixed: make([]bool, size*size)}
	s.timing()
	s.finder(3, 3)
	s.finder(3, size-4)
	s.finder(size-4, 3)
	s.alignment()
	s.format(LevelL, 0) // holds the place
	s.version()
	return s
}

func (s *Symbol) set(row, column int, dark bool) {
	s.dark[row*s.Size+column] = dark
	s.fixed[row*s.Size+column] = true
}

func (s *Symbol) timing() {
	for i := range s.Size {
		s.set(6, i, i%2 == 0)
		s.set(i, 6, i%2 == 0)
	}
}

// finder draws a finder pattern about a module, with its separator.
func (s *Symbol) finder(row, column int) {
	for dr := -4; dr <= 4; dr++ {
		for dc := -4; dc <= 4; dc++ {
			r, c := row+dr, column+dc
			if r < 0 || c < 0 || r >= s.Size || c >= s.Size {
				continue
			}
			ring := max(abs(dr), abs(dc))
			s.set(r, c, ring != 2 && ring != 4)
		}
	}
}

// alignment draws the alignment patterns where they do not meet a finder.
func (s *Symbol) alignment() {
	at := alignmentCentres(s.Version)
	last := len(at) - 1
	for i, row := range at {
		for j, column := range at {
			if i == 0 && (j == 0 || j == last) || i == last && j == 0 {
				continue
			}
			for dr := -2; dr <= 2; dr++ {
				for dc := -2; dc <= 2; dc++ {
					s.set(row+dr, column+dc, max(abs(dr), abs(dc)) != 1)
				}
			}
		}
	}
}

// alignmentCentres are the rows, and columns, of the alignment patterns'
// centres (ISO/IEC 18004, annex E): evenly spaced from the last backwards, what
// is left over standing between the first two.
func alignmentCentres(version int) []int {
	if version == 1 {
		return nil
	}
	n := version/7 + 2
	last := 4*version + 10
	step := int(math.Ceil(float64(last-6)/float64(2*(n-1)))) * 2
	if version == 32 {
		step = 26 // annex E's one exception
	}
	at := make([]int, n)
	at[0] = 6
	for i := n - 1; i > 0; i-- {
		at[i] = last - (n-1-i)*step
	}
	return at
}

// format writes the level and the mask, twice (ISO/IEC 18004, 7.9): five bits
// with a BCH(15,5) remainder.
func (s *Symbol) format(level Level, mask int) {
	data := level.bits()<<3 | mask
	bits := (data<<10 | remainder(data, 10, 0x537)) ^ 0x5412
	bit := func(i int) bool { return bits>>i&1 == 1 }
	for i := range 15 {
		switch row := i; {
		case i < 6:
			s.set(row, 8, bit(i))
		case i < 8:
			s.set(row+1, 8, bit(i)) // past the timing pattern
		default:
			s.set(s.Size-15+i, 8, bit(i))
		}
		switch {
		case i < 8:
			s.set(8, s.Size-1-i, bit(i))
		case i == 8:
			s.set(8, 7, bit(i))
		default:
			s.set(8, 14-i, bit(i))
		}
	}
	s.set(s.Size-8, 8, true)
}

// version writes the version, twice, from version 7 on (ISO/IEC 18004, 7.10):
// six bits with a BCH(18,6) remainder.
func (s *Symbol) version() {
	if s.Version < 7 {
		return
	}
	bits := s.Version<<12 | remainder(s.Version, 12, 0x1f25)
	for i := range 18 {
		near, far := i/3, s.Size-11+i%3
		s.set(near, far, bits>>i&1 == 1)
		s.set(far, near, bits>>i&1 == 1)
	}
}

// remainder is that of the data, followed by n zeros, by a binary polynomial of
// degree n.
func remainder(data, n, polynomial int) int {
	rest := data
	for range n {
		rest = rest<<1 ^ rest>>(n-1)*polynomial
	}
	return rest
}

// place lays the codewords' bits in two-column strips from the right, up and
// down by turns, around what is fixed (ISO/IEC 18004, 7.7.3).
func (s *Symbol) place(codewords []byte) {
	at := 0
	up := true
	for right := s.Size - 1; right > 0; right -= 2 {
		if right == 6 {
			right-- // the timing pattern's column
		}
		for i := range s.Size {
			row := i
			if up {
				row = s.Size - 1 - i
			}
			for column := right; column > right-2; column-- {
				if s.fixed[row*s.Size+column] {
					continue
				}
				if at < 8*len(codewords) { // what is left over stays light
					s.dark[row*s.Size+column] = codewords[at/8]>>(7-at%8)&1 == 1
				}
				at++
			}
		}
		up = !up
	}
}

func abs(n int) int { return max(n, -n) }
