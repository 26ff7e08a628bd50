package rigging

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func randomStages(random *rand.Rand) []TackleStage {
	stages := make([]TackleStage, 1+random.IntN(MaxStages))
	for i := range stages {
		stages[i] = TackleStage{1 + random.IntN(MaxStageParts), HaulFixed}
		if random.IntN(2) == 0 {
			stages[i] = TackleStage{2 + random.IntN(MaxStageParts-1), HaulMoving}
		}
	}
	return stages
}

// TestStagesGiveTheClosedForms: the general solver, the closed forms and the
// count of parts agree for simple and compound tackles.
func TestStagesGiveTheClosedForms(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	for range 300 {
		stages := randomStages(random)
		efficiency := 0.7 + 0.3*random.Float64()
		r, err := StagesReeving(stages)
		require.NoError(t, err)
		require.NoError(t, r.Validate())
		result := solved(t, r, efficiency)
		checkTackle(t, r, efficiency, result)

		ideal := 1.0
		for _, s := range stages {
			ideal *= float64(s.Parts)
		}
		require.InEpsilon(t, ideal, result.Ideal, tackleTolerance, "%+v", stages)
		want, err := CompoundAdvantage(stages, efficiency)
		require.NoError(t, err)
		require.InEpsilon(t, want, result.Actual, tackleTolerance, "%+v", stages)
		for _, n := range result.NodeLoads {
			require.Zero(t, n.Straight, "%+v: %s", stages, n.ID)
		}
	}
}

// TestEverySimpleTackle also looks at the anchor: it holds the load and the
// haul where the rope comes back, the load less the haul where it goes on.
func TestEverySimpleTackle(t *testing.T) {
	const efficiency = 0.92
	for parts := 1; parts <= MaxStageParts; parts++ {
		for _, from := range []string{HaulFixed, HaulMoving} {
			if parts == 1 && from == HaulMoving {
				continue
			}
			stages := []TackleStage{{parts, from}}
			r, err := StagesReeving(stages)
			require.NoError(t, err)
			result := solved(t, r, efficiency)
			want, err := SimpleAdvantage(parts, from, efficiency)
			require.NoError(t, err)
			require.InEpsilon(t, want, result.Actual, tackleTolerance)
			anchor, sheaves := 1+result.HaulTension, parts
			if from == HaulMoving {
				anchor, sheaves = 1-result.HaulTension, parts-1
			}
			require.InEpsilon(t, anchor, nodeLoad(t, result, "anchor 1").Load, tackleTolerance)
			require.InEpsilon(t, anchor, nodeLoad(t, result, "anchor 1").Net, tackleTolerance)
			require.Equal(t, sheaves, r.Sheaves())
		}
	}
}

func TestStagesInOrderFromTheLoad(t *testing.T) {
	// A 3:1 hauling a 2:1: the rope at the load carries the halves of it.
	r, err := StagesReeving([]TackleStage{{2, HaulMoving}, {3, HaulMoving}})
	require.NoError(t, err)
	result := solved(t, r, 1)
	assert.InDeltaSlice(t, []float64{0.5, 0.5}, result.PartTensions[0], tackleTolerance)
	assert.InDeltaSlice(t, []float64{1. / 6, 1. / 6, 1. / 6}, result.PartTensions[1], tackleTolerance)
	assert.InEpsilon(t, 0.5, nodeLoad(t, result, "anchor 1").Load, tackleTolerance)
	assert.InEpsilon(t, 0.5, nodeLoad(t, result, "block 1").Load, tackleTolerance)
	assert.InEpsilon(t, 1./3, nodeLoad(t, result, "anchor 2").Load, tackleTolerance)
}

func TestStagesSayWhatIsWrong(t *testing.T) {
	for name, c := range map[string]struct {
		stages []TackleStage
		where  string
	}{
		"none":              {nil, "stages"},
		"five":              {make([]TackleStage, 5), "stages"},
		"no parts":          {[]TackleStage{{0, HaulFixed}}, "stages[0].parts"},
		"one, from moving":  {[]TackleStage{{2, HaulFixed}, {1, HaulMoving}}, "stages[1].parts"},
		"thirteen":          {[]TackleStage{{13, HaulFixed}}, "stages[0].parts"},
		"from nowhere":      {[]TackleStage{{2, ""}}, "stages[0].haul_from"},
		"from another word": {[]TackleStage{{2, "top"}}, "stages[0].haul_from"},
	} {
		_, err := StagesReeving(c.stages)
		var wrong *ReevingError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, c.where, wrong.Where, name)
		_, err = CompoundAdvantage(c.stages, 0.9)
		require.ErrorAs(t, err, &wrong, name)
	}
}
