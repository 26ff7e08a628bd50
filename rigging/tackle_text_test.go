package rigging

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every ready-made tackle can be written in letters, and is the same tackle
// when it is read back.
func TestReadyReevingsInLetters(t *testing.T) {
	for _, ready := range ReadyReevings() {
		text, ok := ReevingText(ready.Reeving)
		require.True(t, ok, ready.Key)
		read, err := ParseReeving(text)
		require.NoError(t, err, ready.Key)
		again, ok := ReevingText(read)
		require.True(t, ok)
		assert.Equal(t, text, again)
		for _, eta := range []float64{1, 0.9, 0.7} {
			want, got := solved(t, ready.Reeving, eta), solved(t, read, eta)
			assert.InEpsilon(t, want.Ideal, got.Ideal, tackleTolerance, text)
			assert.InEpsilon(t, want.Actual, got.Actual, tackleTolerance, text)
			for i := range want.PartTensions {
				assert.InEpsilonSlice(t, want.PartTensions[i], got.PartTensions[i], 1e-9, text)
			}
		}
	}
}

// Small letters, hyphens and empty ropes say the same.
func TestReevingTextIsReadLeniently(t *testing.T) {
	want, err := ParseReeving("LALH")
	require.NoError(t, err)
	assert.InEpsilon(t, 3, solved(t, want, 1).Ideal, tackleTolerance)
	for _, text := range []string{"l-a-l-h", " L A L H ", ".LALH.", "LALH.."} {
		got, err := ParseReeving(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	empty, err := ParseReeving(".")
	require.NoError(t, err)
	assert.Empty(t, empty.Ropes)
	_, err = empty.Solve(1)
	assert.Error(t, err)
}

func TestReevingTextRefuses(t *testing.T) {
	var wrong *ReevingError
	_, err := ParseReeving("LAXH")
	require.ErrorAs(t, err, &wrong)
	assert.Contains(t, wrong.Message, `"X"`)
	assert.Contains(t, wrong.Message, ReevingLetters)
	_, err = ParseReeving(strings.Repeat("AL", 40))
	assert.ErrorAs(t, err, &wrong)
	for _, letter := range []byte(ReevingLetters + "HR") {
		n, ok := LetterNode(letter)
		require.True(t, ok)
		assert.Equal(t, string(letter), n.ID)
	}
	_, ok := LetterNode('x')
	assert.False(t, ok)
}

// US Navy, Steelworker 2: a twofold purchase, four parts hauled back, has an
// advantage of 4. The third order of pulleys, four ropes tied to the load:
// 2⁴ − 1 (Khurmi, Engineering Mechanics, example 11.19).
func TestPublishedReevingsInLetters(t *testing.T) {
	for text, want := range map[string]float64{"ALALAR": 4, "LAB.LBC.LCD.LDR": 15} {
		r, err := ParseReeving(text)
		require.NoError(t, err)
		assert.InEpsilon(t, want, solved(t, r, 1).Ideal, tackleTolerance, text)
	}
}

func TestMoreBlocksThanLetters(t *testing.T) {
	r := thirdOrder()
	r.Nodes = append(r.Nodes, ReevingNode{"M4", MovingNode, 4})
	r.Ropes[3].Path = []string{"L", "M3", "M4", "H"}
	_, ok := ReevingText(r)
	assert.False(t, ok)
}
