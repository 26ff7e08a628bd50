package qr

// A Level is how much of a symbol may be damaged: about 7 % (L) or 15 % (M).
type Level int

// The levels of error correction in use.
const (
	LevelL Level = iota
	LevelM
)

// bits is a level as the format information has it (ISO/IEC 18004, table 12).
func (l Level) bits() int { return [...]int{1, 0}[l] }

// blocks is how a version's codewords are divided (ISO/IEC 18004, table 9): the
// number of blocks, and the error correction codewords in each.
type blocks struct{ n, correction int }

var division = [...][41]blocks{
	LevelL: {{},
		{1, 7}, {1, 10}, {1, 15}, {1, 20}, {1, 26}, {2, 18}, {2, 20}, {2, 24}, {2, 30}, {4, 18},
		{4, 20}, {4, 24}, {4, 26}, {4, 30}, {6, 22}, {6, 24}, {6, 28}, {6, 30}, {7, 28}, {8, 28},
		{8, 28}, {9, 28}, {9, 30}, {10, 30}, {12, 26}, {12, 28}, {12, 30}, {13, 30}, {14, 30}, {15, 30},
		{16, 30}, {17, 30}, {18, 30}, {19, 30}, {19, 30}, {20, 30}, {21, 30}, {22, 30}, {24, 30}, {25, 30}},
	LevelM: {{},
		{1, 10}, {1, 16}, {1, 26}, {2, 18}, {2, 24}, {4, 16}, {4, 18}, {4, 22}, {5, 22}, {5, 26},
		{5, 30}, {8, 22}, {9, 22}, {9, 24}, {10, 24}, {10, 28}, {11, 28}, {13, 26}, {14, 26}, {16, 26},
		{17, 26}, {17, 28}, {18, 28}, {20, 28}, {21, 28}, {23, 28}, {25, 28}, {26, 28}, {28, 28}, {29, 28},
		{31, 28}, {33, 28}, {35, 28}, {37, 28}, {38, 28}, {40, 28}, {43, 28}, {45, 28}, {47, 28}, {49, 28}},
}

// codewords is how many a version holds, data and correction together: what its
// patterns leave free, in whole bytes (ISO/IEC 18004, table 1).
func codewords(version int) int {
	size := 17 + 4*version
	free := size*size - 3*64 - 2*15 - 1 - 2*(size-16) // finders, format, one dark module, timing
	if n := len(alignmentCentres(version)); n > 0 {
		free -= 25*(n*n-3) - 2*5*(n-2) // those on the timing patterns share five modules
	}
	if version >= 7 {
		free -= 2 * 18
	}
	return free / 8
}

// dataCodewords is how many of them are left for data.
func dataCodewords(version int, level Level) int {
	b := division[level][version]
	return codewords(version) - b.n*b.correction
}

// corrected divides the data into blocks, adds to each its correction codewords,
// and takes one of each by turns (ISO/IEC 18004, 7.6). The last blocks are longer
// by one where the data do not divide evenly.
func corrected(data []byte, version int, level Level) []byte {
	b := division[level][version]
	short := len(data) / b.n
	longer := b.n - len(data)%b.n // the first that is
	divisor := generator(b.correction)
	var parts, corrections [][]byte
	for i, at := 0, 0; i < b.n; i++ {
		n := short
		if i >= longer {
			n++
		}
		part := data[at : at+n]
		parts, corrections = append(parts, part), append(corrections, divide(part, divisor))
		at += n
	}
	return append(byTurns(parts), byTurns(corrections)...)
}

func byTurns(parts [][]byte) []byte {
	var out []byte
	for i := range parts[len(parts)-1] {
		for _, part := range parts {
			if i < len(part) {
				out = append(out, part[i])
			}
		}
	}
	return out
}

// power and log are those of 2 in GF(256) with the polynomial x⁸+x⁴+x³+x²+1
// (ISO/IEC 18004, 7.5.2).
var power, log = func() (power [255]byte, log [256]int) {
	x := 1
	for i := range power {
		power[i], log[x] = byte(x), i
		if x <<= 1; x > 255 {
			x ^= 0x11d
		}
	}
	return
}()

func times(a, b byte) byte {
	if a == 0 || b == 0 {
		return 0
	}
	return power[(log[a]+log[b])%255]
}

// generator is the product of (x − 2ⁱ) for i from 0 to n − 1, from the power n − 1
// down; the leading 1 is left out (ISO/IEC 18004, annex A).
func generator(n int) []byte {
	g := make([]byte, n)
	g[n-1] = 1
	for i := range n {
		for j := range g {
			g[j] = times(g[j], power[i])
			if j+1 < n {
				g[j] ^= g[j+1]
			}
		}
	}
	return g
}

// divide is the remainder of the data, followed by as many zeros, by a generator.
func divide(data, divisor []byte) []byte {
	rest := make([]byte, len(divisor))
	for _, b := range data {
		factor := b ^ rest[0]
		copy(rest, rest[1:])
		rest[len(rest)-1] = 0
		for i, d := range divisor {
			rest[i] ^= times(d, factor)
		}
	}
	return rest
}
