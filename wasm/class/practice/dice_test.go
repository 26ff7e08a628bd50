package practice

import (
	"hash/fnv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The first numbers of SplitMix64 from the seed 1234567, as its reference
// implementation gives them (from memory).
func TestDiceAgainstTheReference(t *testing.T) {
	d := dice(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821} {
		assert.Equal(t, want, d.next())
	}
}

// The seed is the FNV-1a hash of the text and one byte more; checked against
// the standard library's.
func TestDiceOfAText(t *testing.T) {
	for _, text := range []string{"", "1", "kauri", "tōtara 7"} {
		h := fnv.New64a()
		_, err := h.Write(append([]byte(text), 5))
		require.NoError(t, err)
		assert.Equal(t, dice(h.Sum64()), diceOf(text, 5))
	}
}

func TestDiceInTheirRange(t *testing.T) {
	d := diceOf("range", 0)
	var seen [7]int
	for range 7000 {
		seen[d.below(7)]++
	}
	for i, n := range seen {
		assert.InDelta(t, 1000, n, 200, i) // some six standard deviations
	}
	order := d.shuffled(20)
	assert.ElementsMatch(t, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19}, order)
}
