package rigging

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every ready-made tackle can be written in words, and is the same tackle
// when it is read back.
func TestReadyReevingsInWords(t *testing.T) {
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

// What is typed otherwise says the same.
func TestReevingTextIsReadLeniently(t *testing.T) {
	for text, others := range map[string][]string{
		"load-anchor-load-haul":                        {"Load, anchor, load, haul on", " load anchor 1 load haul ", ";load-anchor-load-haul;", "load-ANCHOR-load-haul;;", "load -anchor- load,haulon"},
		"load-anchor-block2;load-block2-load-haulback": {"load, anchor, block 2; load, block 2, load, haul back", "load-anchor-block-2 ;load block2 load haul-back"},
	} {
		want, err := ParseReeving(text)
		require.NoError(t, err)
		assert.Greater(t, solved(t, want, 1).Ideal, 2.0)
		for _, other := range others {
			got, err := ParseReeving(other)
			require.NoError(t, err, other)
			assert.Equal(t, want, got, other)
		}
	}
	for _, text := range []string{"", ";", " ; "} {
		empty, err := ParseReeving(text)
		require.NoError(t, err)
		assert.Empty(t, empty.Ropes)
		_, err = empty.Solve(1)
		assert.Error(t, err)
	}
}

func TestReevingTextRefuses(t *testing.T) {
	var wrong *ReevingError
	for text, name := range map[string]string{"load-anker-haul": "anker", "2-load": "2", "load-block-haul": "block", "load-block5": "block5", "load.anchor": "load.anchor"} {
		_, err := ParseReeving(text)
		require.ErrorAs(t, err, &wrong, text)
		assert.Contains(t, wrong.Message, `"`+name+`"`)
		for _, n := range ReevingPlaces() {
			assert.Contains(t, wrong.Message, n.ID)
		}
	}
	_, err := ParseReeving(strings.Repeat("anchor-load-", MaxReevingText/12+1))
	assert.ErrorAs(t, err, &wrong)
}

// The places lie in the order of their names along the axis, apart, between
// the hauls.
func TestReevingPlacesInOrder(t *testing.T) {
	places := ReevingPlaces()
	for i, n := range places {
		if i > 0 && n.Kind != HaulNode {
			assert.Greater(t, n.At, places[i-1].At)
		}
		assert.GreaterOrEqual(t, n.At, nearHaulAt)
		assert.LessOrEqual(t, n.At, farHaulAt)
		r, err := ParseReeving(n.ID)
		require.NoError(t, err)
		assert.Equal(t, []ReevingNode{n}, r.Nodes)
	}
	places[0].ID = "changed"
	assert.Equal(t, "anchor", ReevingPlaces()[0].ID)
}

// US Navy, Steelworker 2: a twofold purchase, four parts hauled back, has an
// advantage of 4. The third order of pulleys, four ropes tied to the load:
// 2⁴ − 1 (Khurmi, Engineering Mechanics, example 11.19).
func TestPublishedReevingsInWords(t *testing.T) {
	for text, want := range map[string]float64{
		"anchor-load-anchor-load-anchor-haulback":                                       4,
		"load-anchor-block1;load-block1-block2;load-block2-block3;load-block3-haulback": 15,
	} {
		r, err := ParseReeving(text)
		require.NoError(t, err)
		assert.InEpsilon(t, want, solved(t, r, 1).Ideal, tackleTolerance, text)
	}
}

func TestMoreBlocksThanNames(t *testing.T) {
	r := thirdOrder()
	r.Nodes = append(r.Nodes, ReevingNode{"M4", MovingNode, 4})
	r.Ropes[3].Path = []string{"L", "M3", "M4", "H"}
	_, ok := ReevingText(r)
	assert.False(t, ok)
}

// Whatever is typed is refused or is a reeving that, written out, is read as
// the same.
func FuzzParseReeving(f *testing.F) {
	for _, ready := range ReadyReevings() {
		text, _ := ReevingText(ready.Reeving)
		f.Add(text)
	}
	f.Add("Load, anchor 1, block 2; haul on")
	f.Add("haul back;;anchor2")
	f.Fuzz(func(t *testing.T, text string) {
		read, err := ParseReeving(text)
		if err != nil {
			assert.Empty(t, read)
			return
		}
		written, ok := ReevingText(read)
		require.True(t, ok, text)
		again, err := ParseReeving(written)
		require.NoError(t, err)
		assert.Equal(t, read, again)
	})
}
