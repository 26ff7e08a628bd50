package build

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The memory is the same whatever segments it is cut into.
func TestSegmentsKeepTheMemory(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 9))
	for range 50 {
		image := make([]byte, 1+r.IntN(40000))
		for range r.IntN(60) {
			image[r.IntN(len(image))] = byte(r.IntN(256))
		}
		again, err := readSegments(writeSegments(split(image)))
		require.NoError(t, err)
		back := make([]byte, len(image))
		copy(back, joined(again))
		require.Equal(t, image, back)
	}
}

// Whole numbers as the WebAssembly core specification (5.2.2) writes them,
// with the example of DWARF 5, table 7.8: −2, 127, −127, 128, −128.
func TestSignedNumbers(t *testing.T) {
	for v, want := range map[int64][]byte{2: {2}, -2: {0x7e}, 127: {0xff, 0}, -127: {0x81, 0x7f}, 128: {0x80, 1}, -128: {0x80, 0x7f}} {
		assert.Equal(t, want, appendSigned(nil, v))
		r := &wasmReader{rest: want}
		assert.Equal(t, v, r.signed())
		assert.False(t, r.bad)
	}
}

func TestSlimRefusesRubbish(t *testing.T) {
	for _, rubbish := range []string{"", "\x00asm", "\x00asm\x01\x00\x00\x00\x0b\x7f", "\x00asm\x01\x00\x00\x00\x0b\x01\x01"} {
		_, err := slim([]byte(rubbish))
		assert.Error(t, err, "%q", rubbish)
	}
}

// Of the real program nothing changes but how its memory is cut: every other
// section stays byte for byte, and the memory it starts with is the same.
func TestSlimChangesOnlyTheLayout(t *testing.T) {
	root, err := Root()
	require.NoError(t, err)
	linked, err := link(root)
	require.NoError(t, err)
	small, err := slim(linked)
	require.NoError(t, err)
	packed := pack(small)
	assert.Equal(t, built(t).Parts[programFile], packed, "it is what is shipped")
	assert.Less(t, len(packed), len(pack(linked)))

	before, after := sections(t, linked), sections(t, small)
	require.Len(t, after, len(before))
	for i, s := range before {
		require.Equal(t, s.id, after[i].id)
		if s.id != dataSection {
			assert.True(t, bytes.Equal(s.body, after[i].body), "section %d", s.id)
			continue
		}
		many, err := readSegments(s.body)
		require.NoError(t, err)
		few, err := readSegments(after[i].body)
		require.NoError(t, err)
		assert.Less(t, len(few), 100)
		assert.True(t, bytes.Equal(joined(many), joined(few)))
		end := 0
		for _, s := range few { // none writes over another
			assert.GreaterOrEqual(t, s.at, end)
			end = s.at + len(s.body)
		}
	}
}

type section struct {
	id   byte
	body []byte
}

func sections(t *testing.T, program []byte) (list []section) {
	t.Helper()
	r := &wasmReader{rest: program[8:]}
	for len(r.rest) > 0 {
		id, size := r.byte(), r.unsigned()
		list = append(list, section{id, r.take(int(size))})
	}
	require.False(t, r.bad)
	return list
}
