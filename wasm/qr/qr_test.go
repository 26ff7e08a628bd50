package qr

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Annex I.2 of ISO/IEC 18004 writes 01234567 in version 1-M: its data and its
// correction codewords are printed there.
func TestPublishedCodewords(t *testing.T) {
	bits, ok := data("", "01234567", 1, 8*dataCodewords(1, LevelM))
	require.True(t, ok)
	assert.Equal(t, []byte{0x10, 0x20, 0x0c, 0x56, 0x61, 0x80, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11}, bits)
	assert.Equal(t, []byte{0xa5, 0x24, 0xd4, 0xc1, 0xed, 0x36, 0xc7, 0x87, 0x2c, 0x55}, corrected(bits, 1, LevelM)[16:])
}

// Annex C of the standard: level M, mask 5 gives 100000011001110; annex D:
// version 7 gives 000111110010010100.
func TestPublishedInformation(t *testing.T) {
	data := LevelM.bits()<<3 | 5
	assert.Equal(t, 0b100000011001110, (data<<10|remainder(data, 10, 0x537))^0x5412)
	assert.Equal(t, 0b000111110010010100, 7<<12|remainder(7, 12, 0x1f25))
}

// Annex E and table 1 of the standard, at versions picked over their ranges.
func TestPublishedSizes(t *testing.T) {
	assert.Equal(t, []int{6, 18}, alignmentCentres(2))
	assert.Equal(t, []int{6, 22, 38}, alignmentCentres(7))
	assert.Equal(t, []int{6, 26, 50, 74}, alignmentCentres(16))
	assert.Equal(t, []int{6, 34, 60, 86, 112, 138}, alignmentCentres(32))
	assert.Equal(t, []int{6, 30, 58, 86, 114, 142, 170}, alignmentCentres(40))
	for version, n := range map[int]int{1: 26, 2: 44, 6: 172, 7: 196, 14: 581, 27: 1828, 40: 3706} {
		assert.Equal(t, n, codewords(version), version)
	}
	for version := 1; version <= MaxVersion; version++ {
		free := 0
		for _, fixed := range newSymbol(version).fixed {
			if !fixed {
				free++
			}
		}
		assert.Equal(t, codewords(version), free/8, version)
	}
}

// A general-purpose decoder reads back what was written, in each version.
func TestReadBack(t *testing.T) {
	reader, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("the Debian package zbar-tools is not installed; make test installs it")
	}
	random := rand.New(rand.NewPCG(1, 2))
	for _, level := range []Level{LevelL, LevelM} {
		for version := 1; version <= MaxVersion; version++ {
			room := dataCodewords(version, level) - 3
			text := letters(random, room)
			if version%2 == 0 {
				bytes := min(room/2, 40)
				text = letters(random, bytes) + digits(random, (room-bytes-2)*12/5)
			}
			s, err := Encode(text, level, MaxVersion)
			require.NoError(t, err)
			assert.LessOrEqual(t, s.Version, version)
			assert.GreaterOrEqual(t, s.Version, version-1)
			command := exec.Command(reader, "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", "-")
			command.Stdin = picture(s)
			out, err := command.Output()
			require.NoError(t, err, "version %d, level %d", s.Version, level)
			assert.Equal(t, text, strings.TrimSuffix(string(out), "\n"))
		}
	}
}

func TestTooLong(t *testing.T) {
	// Table 7: version 40 holds 2,953 bytes or 7,089 digits at L.
	_, err := Encode(strings.Repeat("a", 2953), LevelL, MaxVersion)
	assert.NoError(t, err)
	_, err = Encode(strings.Repeat("a", 2954), LevelL, MaxVersion)
	assert.ErrorIs(t, err, ErrTooLong)
	_, err = Encode(strings.Repeat("7", 7089), LevelL, MaxVersion)
	assert.NoError(t, err)
	_, err = Encode(strings.Repeat("7", 7090), LevelL, MaxVersion)
	assert.ErrorIs(t, err, ErrTooLong)
	_, err = Encode(strings.Repeat("a", 200), LevelM, 5)
	assert.ErrorIs(t, err, ErrTooLong)
}

func letters(random *rand.Rand, n int) string {
	const of = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_"
	b := make([]byte, max(n, 1))
	for i := range b {
		b[i] = of[random.IntN(len(of))]
	}
	return string(b)
}

func digits(random *rand.Rand, n int) string {
	b := make([]byte, max(n, 0))
	for i := range b {
		b[i] = byte('0' + random.IntN(10))
	}
	return string(b)
}

func picture(s *Symbol) *bytes.Buffer {
	const scale = 4
	side := scale * (s.Size + 2*QuietZone)
	img := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			if s.Dark(y/scale-QuietZone, x/scale-QuietZone) {
				img.SetGray(x, y, color.Gray{})
			} else {
				img.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err)
	}
	return &b
}
