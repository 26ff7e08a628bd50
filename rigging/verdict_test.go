package rigging

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestJudge(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		load, capacity float64
		want           Verdict
	}{
		{0, 10, Within}, {7.9, 10, Within}, {8, 10, Within}, {8.0001, 10, Near}, {10, 10, Near}, {10.0001, 10, Over}, {1, 0, Over}, {1, -5, Over}, {1e300, 1e-300, Over},
		{0, 0, Unknown}, {0, -1, Unknown}, {-1, 10, Unknown}, {nan, 10, Unknown}, {1, nan, Unknown}, {nan, nan, Unknown},
		{inf, 10, Unknown}, {-inf, 10, Unknown}, {1, inf, Unknown}, {1, -inf, Unknown}, {inf, inf, Unknown}, {0, inf, Unknown},
	} {
		assert.Equal(t, c.want, Judge(c.load, c.capacity), "%v on %v", c.load, c.capacity)
	}
	var zero Verdict
	assert.Equal(t, "unknown", zero.String(), "a verdict nobody worked out")
	assert.Equal(t, "unknown", Verdict(99).String())
}

func TestWorse(t *testing.T) {
	order := []Verdict{Within, Near, Unknown, Over}
	for i, v := range order {
		for j, w := range order {
			assert.Equal(t, order[max(i, j)], v.Worse(w), "%s and %s", v, w)
		}
	}
	// A verdict out of range is unknown too, and never beats over.
	assert.Equal(t, "unknown", Within.Worse(Verdict(99)).String())
	assert.Equal(t, Over, Verdict(99).Worse(Over))
}

func TestVerdictWords(t *testing.T) {
	for _, v := range []Verdict{Unknown, Within, Near, Over} {
		text, err := json.Marshal(v)
		require.NoError(t, err)
		var back Verdict
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, v, back)
	}
	back := Within
	require.NoError(t, json.Unmarshal([]byte(`"fine"`), &back))
	assert.Equal(t, Unknown, back)
}

func TestCapacity(t *testing.T) {
	assert.InEpsilon(t, 100*0.8*0.9*0.86, Capacity(100, 0.8, 0.9, 0.86), exactly)
	assert.InEpsilon(t, 200.0, Capacity(100, 2), exactly)
	assert.InEpsilon(t, 190.0/3, WorkingLimit(190, 3), exactly)
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range [][]float64{{0, 1}, {-1, 1}, {nan, 1}, {inf, 1}, {1, 0}, {1, nan}, {1, inf}, {1, 1, 0}, {1, 1, -1}, {-1, 1, -1}, {1, 1, nan}, {1, -1, -1}} {
		assert.True(t, math.IsNaN(Capacity(c[0], c[1], c[2:]...)), "%v", c)
	}
	for _, c := range [][2]float64{{0, 5}, {-1, 5}, {nan, 5}, {1, 0.99}, {1, 0}, {1, nan}} {
		assert.True(t, math.IsNaN(WorkingLimit(c[0], c[1])), "%v", c)
	}
}
