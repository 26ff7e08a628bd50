package practice

// dice are numbers that look random and follow from a seed: the same on every
// machine and for every release of Go, since all of it is written here and
// works on whole numbers. The generator is SplitMix64 (G. L. Steele, D. Lea,
// C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).
type dice uint64

// diceOf are the dice of a text and a number that tells apart what one text
// is the seed of. The text is taken into a whole number by FNV-1a (Fowler,
// Noll and Vo; RFC 9923).
func diceOf(seed string, use int) dice {
	const offset, prime = 0xcbf29ce484222325, 0x100000001b3
	h := uint64(offset)
	for i := range len(seed) {
		h = (h ^ uint64(seed[i])) * prime
	}
	return dice((h ^ uint64(use)) * prime)
}

func (d *dice) next() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below gives a whole number from 0 to n − 1. That the low ones come up more
// often by one part in 2³³ does not matter here.
func (d *dice) below(n int) int { return int(d.next() >> 31 % uint64(n)) }

// shuffled gives the numbers 0 to n − 1 in some order.
func (d *dice) shuffled(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	for i := n - 1; i > 0; i-- {
		j := d.below(i + 1)
		out[i], out[j] = out[j], out[i]
	}
	return out
}
