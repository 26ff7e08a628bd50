package rigging

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadyReevings(t *testing.T) {
	ready := ReadyReevings()
	require.GreaterOrEqual(t, len(ready), 12)
	keys, names := map[string]bool{}, map[string]bool{}
	ideals := map[float64]bool{}
	for _, r := range ready {
		require.NotEmpty(t, r.Description, r.Key)
		require.False(t, keys[r.Key], r.Key)
		require.False(t, names[r.Name], r.Name)
		keys[r.Key], names[r.Name], ideals[r.Ideal] = true, true, true
		for _, eta := range []float64{1, 0.95, 0.9, 0.8, 0.5} {
			result := solved(t, r.Reeving, eta)
			checkTackle(t, r.Reeving, eta, result)
			assert.InEpsilon(t, r.Ideal, result.Ideal, tackleTolerance, r.Key)
			for _, n := range result.NodeLoads {
				assert.Zero(t, n.Straight, "%s: %s", r.Key, n.ID)
			}
			if r.Stages != nil {
				want, err := CompoundAdvantage(r.Stages, eta)
				require.NoError(t, err)
				assert.InEpsilon(t, want, result.Actual, tackleTolerance, r.Key)
			}
		}
	}
	for _, want := range []float64{2, 3, 4, 5, 6, 7, 8, 9} {
		assert.True(t, ideals[want], "no %g:1", want)
	}
}

// TestComplexFiveToOneByHand works the tensions out on paper, block by
// block, with the haul's tension 1.
func TestComplexFiveToOneByHand(t *testing.T) {
	const eta = 0.9
	for _, r := range ReadyReevings() {
		if r.Key != "complex-5-on" {
			continue
		}
		// The second rope: 1 at the haul, then η round the load's block,
		// then η² round the tie's. The tie pulls with η + η² on the first
		// rope, which runs from the load over the anchor to the tie: the
		// part at the load has η of that.
		tie := eta + eta*eta
		load := eta*tie + 1 + eta + eta*eta
		assert.InEpsilon(t, load, solved(t, r.Reeving, eta).Actual, tackleTolerance)
		return
	}
	require.Fail(t, "no complex 5:1")
}

func TestReadyReevingsAreFresh(t *testing.T) {
	one := ReadyReevings()
	for _, r := range one {
		r.Reeving.Nodes[0].ID = "changed"
		for _, rope := range r.Reeving.Ropes {
			rope.Path[0] = "changed"
		}
	}
	for _, r := range ReadyReevings() {
		assert.NoError(t, r.Reeving.Validate())
	}
}
