package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Jenkins, Chojnacky, Heath and Birdsey (2003), Forest Science 49(1):12-35:
// at 50 cm the ratios leave a crown of 0.267 of the stem for hardwoods and
// 0.276 for softwoods, worked out from the printed coefficients (those of the
// bark from memory).
func TestForestCrownShareAgainstTheComponentRatios(t *testing.T) {
	for conifer, want := range map[bool]float64{false: 0.267, true: 0.276} {
		share, err := ForestCrownShare(conifer, 0.50)
		require.NoError(t, err)
		assert.InDelta(t, want, share, 0.0005)
	}
	// By hand at 25 cm, hardwood: wood exp(−0.52346) = 0.59247, bark
	// exp(−2.08012) = 0.12492, crown 0.28261 over 0.71739.
	share, err := ForestCrownShare(false, 0.25)
	require.NoError(t, err)
	assert.InDelta(t, 0.39394, share, 0.0001)
}

// The thicker the stem the smaller the crown's share, down to what the first
// coefficients alone leave; it is never negative.
func TestForestCrownShareFallsWithDiameter(t *testing.T) {
	for conifer, b0 := range map[bool][2]float64{false: {-0.3065, -2.0129}, true: {-0.3737, -2.0980}} {
		stem := math.Exp(b0[0]) + math.Exp(b0[1])
		last := math.Inf(1)
		for d := ForestCrownLeast; d < 12; d *= 1.05 {
			share, err := ForestCrownShare(conifer, d)
			require.NoError(t, err)
			assert.Less(t, share, last)
			assert.Greater(t, share, (1-stem)/stem)
			last = share
		}
		share, err := ForestCrownShare(conifer, 1e6)
		require.NoError(t, err)
		assert.InEpsilon(t, (1-stem)/stem, share, 1e-4)
	}
}

func TestForestCrownShareRefusesWhatItDoesNotCover(t *testing.T) {
	for _, d := range []float64{0, -1, 2.4 * CM, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := ForestCrownShare(true, d)
		var table *TableError
		require.ErrorAs(t, err, &table, "%v", d)
		assert.Contains(t, table.Accepted, "2.5 cm")
		_, err = CrownShare(false, false, d)
		assert.ErrorAs(t, err, &table, "%v", d)
	}
	_, err := ForestCrownShare(true, 2.5*CM)
	assert.NoError(t, err)
}

// Where it is not known that a tree grew in a stand, no diameter makes its
// crown lighter than if it had.
func TestOpenCrownIsNeverTheLighter(t *testing.T) {
	for _, conifer := range []bool{true, false} {
		for d := ForestCrownLeast; d < 10; d *= 1.1 {
			forest, err := CrownShare(conifer, true, d)
			require.NoError(t, err)
			open, err := CrownShare(conifer, false, d)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, open.Value, forest.Value, "%v cm", d/CM)
		}
	}
}

// Westfall et al. (2024), USDA Forest Service GTR-WO-104, Examples 1 and 2:
// the crowns of two trees by the national equations, dry lb. Each figure taken
// stands above its tree's.
func TestCrownShareAboveTwoWholeTrees(t *testing.T) {
	for _, tree := range []struct {
		conifer                      bool
		inches                       float64
		wood, bark, branches, leaves float64
	}{
		{true, 20.0, 2483.7, 361.8, 277.5, 83.6},  // Douglas-fir
		{false, 11.1, 288.24, 52.95, 135.0, 22.8}, // red maple, wide for its height
	} {
		crown := (tree.branches + tree.leaves) / (tree.wood + tree.bark)
		open, err := CrownShare(tree.conifer, false, tree.inches*Inch)
		require.NoError(t, err)
		assert.Greater(t, open.Value, crown)
		if tree.conifer {
			forest, err := CrownShare(tree.conifer, true, tree.inches*Inch)
			require.NoError(t, err)
			assert.Greater(t, forest.Value, crown)
		}
	}
}
