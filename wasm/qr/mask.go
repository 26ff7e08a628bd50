package qr

// masks turn over the modules for which they are true (ISO/IEC 18004, table 10).
var masks = [...]func(i, j int) bool{
	func(i, j int) bool { return (i+j)%2 == 0 },
	func(i, j int) bool { return i%2 == 0 },
	func(i, j int) bool { return j%3 == 0 },
	func(i, j int) bool { return (i+j)%3 == 0 },
	func(i, j int) bool { return (i/2+j/3)%2 == 0 },
	func(i, j int) bool { return i*j%2+i*j%3 == 0 },
	func(i, j int) bool { return (i*j%2+i*j%3)%2 == 0 },
	func(i, j int) bool { return ((i+j)%2+i*j%3)%2 == 0 },
}

// mask turns over what a mask takes; doing it again undoes it.
func (s *Symbol) mask(n int) {
	for row := range s.Size {
		for column := range s.Size {
			if at := row*s.Size + column; !s.fixed[at] && masks[n](row, column) {
				s.dark[at] = !s.dark[at]
			}
		}
	}
}

// penalty tells how hard a masked symbol is to read (ISO/IEC 18004, 7.8.3.1).
func (s *Symbol) penalty() int {
	total, dark := 0, 0
	for i := range s.Size {
		total += penaltyAlong(s.Size, func(j int) bool { return s.Dark(i, j) })
		total += penaltyAlong(s.Size, func(j int) bool { return s.Dark(j, i) })
		for j := range s.Size {
			d := s.Dark(i, j)
			if d {
				dark++
			}
			if i > 0 && j > 0 && d == s.Dark(i-1, j) && d == s.Dark(i, j-1) && d == s.Dark(i-1, j-1) {
				total += 3
			}
		}
	}
	all := s.Size * s.Size
	return total + 10*(abs(20*dark-10*all)/all) // 10 for each 5 % away from one half
}

// penaltyAlong is that of one row or column: runs of five and more of a colour,
// and what looks like a finder beside four light modules.
func penaltyAlong(size int, dark func(int) bool) int {
	const finder = 0b1011101
	total, run, seen := 0, 0, 0
	for j := range size {
		if j > 0 && dark(j) == dark(j-1) {
			run++
		} else {
			run = 1
		}
		switch {
		case run == 5:
			total += 3
		case run > 5:
			total++
		}
		seen = seen << 1 & (1<<11 - 1)
		if dark(j) {
			seen |= 1
		}
		if j >= 10 && (seen == finder<<4 || seen == finder) {
			total += 40
		}
	}
	return total
}
