package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

// assumedAt is what was taken at a path, nil where nothing was.
func assumedAt(rep *Report, path string) *Assumed {
	for i := range rep.Assumed {
		if rep.Assumed[i].Path == path {
			return &rep.Assumed[i]
		}
	}
	return nil
}

// Where the tree grew decides its crown: not said, the open is assumed and
// listed; a stand's is that of the component ratios (Jenkins et al. 2003,
// Forest Science 49(1):12-35), 0.267 and 0.276 of the stem at 50 cm.
func TestCrownByWhereTheTreeGrew(t *testing.T) {
	of := func(species string, grown any) (Report, float64) {
		d := demoDocument(t).set("tree.species", species).set("tree.diameter_cm", 50.0).drop("tree.crown_fraction").drop("tree.grown")
		if grown != nil {
			d = d.set("tree.grown", grown)
		}
		rep := d.evaluate(t)
		a := assumedAt(&rep, "tree.crown_fraction")
		require.NotNil(t, a)
		assert.NotEmpty(t, a.Source)
		return rep, a.Value.(float64)
	}
	for species, stand := range map[string]float64{"english_oak": 0.267, "scots_pine": 0.276} {
		unsaid, crown := of(species, nil)
		a := assumedAt(&unsaid, "tree.grown")
		require.NotNil(t, a)
		assert.Equal(t, "open", a.Value)
		assert.NotEmpty(t, a.Why)
		open, same := of(species, "open")
		assert.Equal(t, crown, same)
		assert.Nil(t, assumedAt(&open, "tree.grown"))
		forest, lighter := of(species, "forest")
		assert.InDelta(t, stand, lighter, 0.001, species)
		assert.GreaterOrEqual(t, lighter, stand, "rounded up")
		assert.Greater(t, crown, lighter)
		// The demo's tree leans back: the heavier crown asks for more.
		assert.Greater(t, float64(open.Pull.PeakKN), float64(forest.Pull.PeakKN))
		assert.Equal(t, open.Pull.PeakKN, unsaid.Pull.PeakKN)
	}
	// Neither is assumed where the crown's share is given.
	rep := demoDocument(t).drop("tree.grown").set("tree.crown_fraction", 0.3).evaluate(t)
	assert.Nil(t, assumedAt(&rep, "tree.grown"))
	assert.Nil(t, assumedAt(&rep, "tree.crown_fraction"))
	// Anything else is a problem, and no mass is worked out from it.
	rep = demoDocument(t).set("tree.grown", "woods").drop("tree.crown_fraction").evaluate(t)
	assert.NotEmpty(t, rep.Problems)
	assert.False(t, rep.Tree.MassKg.Known())
	assert.Equal(t, rigging.Unknown, rep.Verdict)
	// Without a diameter there is no share, and no number in its place.
	rep = demoDocument(t).drop("tree.diameter_cm").drop("tree.crown_fraction").evaluate(t)
	a := assumedAt(&rep, "tree.crown_fraction")
	require.NotNil(t, a)
	assert.Nil(t, a.Value)
	assert.Equal(t, rigging.Unknown, rep.Verdict)
}
