package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func advantage(t *testing.T, parts int, haulFrom string, efficiency float64) float64 {
	t.Helper()
	a, err := SimpleAdvantage(parts, haulFrom, efficiency)
	require.NoError(t, err)
	return a
}

func simpleSolved(t *testing.T, efficiency float64, stages ...TackleStage) TackleResult {
	t.Helper()
	r, err := StagesReeving(stages)
	require.NoError(t, err)
	return solved(t, r, efficiency)
}

// TestPublishedIdealTackles: worked examples without friction, on the solver.
func TestPublishedIdealTackles(t *testing.T) {
	// Gun tackle and single luff.
	c := publishedExample(t, "tack-i-01")
	for _, from := range []string{HaulFixed, HaulMoving} {
		for _, name := range []string{"gun", "luff"} {
			result := simpleSolved(t, 1, TackleStage{int(c.In("MA_" + name)), from})
			assertPrinted(t, c, "pull_"+name, c.In("load_"+name)*result.HaulTension)
		}
	}

	// Four parts hauled upward: the ceiling supplies the load less the haul.
	c = publishedExample(t, "tack-i-02")
	weight := (c.In("engine") + c.In("pulleys")) * c.In("g")
	result := simpleSolved(t, 1, TackleStage{int(c.In("parts_at_load")), HaulMoving})
	assertPrinted(t, c, "tension", weight*result.HaulTension)
	assertPrinted(t, c, "ceiling", weight*nodeLoad(t, result, "anchor 1").Load)

	// One moving pulley, both sides up and over fixed sheaves.
	c = publishedExample(t, "tack-i-03")
	assertPrinted(t, c, "MA", simpleSolved(t, 1, TackleStage{int(c.In("parts")), HaulFixed}).Actual)

	c = publishedExample(t, "tack-i-05")
	result = simpleSolved(t, 1, TackleStage{3, HaulMoving})
	assertPrinted(t, c, "pull", c.In("load")*result.HaulTension)
	assert.InEpsilon(t, c.Answer("rope_per_lift").Value, result.RopePerMetre, tackleTolerance)

	// A 2:1 on a 2:1; printed as "4:1".
	c = publishedExample(t, "tack-i-07")
	var stages []TackleStage
	for _, parts := range c.InList("stages") {
		stages = append(stages, TackleStage{int(parts), HaulMoving})
	}
	assert.InEpsilon(t, c.Answer("MA").Value, simpleSolved(t, 1, stages...).Actual, tackleTolerance)

	// Wire Rope Users Manual, 4th edition, figure 63: 6,000 lb at rest on
	// four parts is 1,500 lb in each.
	assert.InEpsilon(t, 1500, 6000*simpleSolved(t, 1, TackleStage{4, HaulFixed}).HaulTension, tackleTolerance)
}

func TestPublishedLeadLine(t *testing.T) {
	c := publishedExample(t, "tack-f-03")
	result := simpleSolved(t, c.In("E"), TackleStage{int(c.In("n")), HaulFixed})
	const why = "0.917 × 0.293 ÷ 0.083 is 3.237, the book rounds it to 3.25"
	assertPrintedWithin(t, c, "MA", result.Actual, 0.005, why)
	assertPrintedWithin(t, c, "pull", c.In("load")*result.HaulTension, 0.005, why)
	e := c.In("E") // the book's own formula, E(1 − Eⁿ)/(1 − E)
	assert.InEpsilon(t, e*(1-math.Pow(e, 4))/(1-e), result.Actual, tackleTolerance)
}

// TestLeadLineTable: the lead-line factors of the Wire Rope Users Manual
// with one lead sheave, f = kᴺ(k − 1)/(kᴺ − 1), for tension ratios of 1.09
// (plain bearings) and 1.04 (rolling). The k are from memory; the table is
// computed from them, and its 0.568, 0.530, 0.395 and 0.360 agree with the
// printed figures from memory.
func TestLeadLineTable(t *testing.T) {
	for i, row := range [][2]float64{
		{1.090, 1.040}, {0.568, 0.530}, {0.395, 0.360}, {0.309, 0.275},
		{0.257, 0.225}, {0.223, 0.191}, {0.199, 0.167}, {0.181, 0.149},
	} {
		for j, k := range []float64{1.09, 1.04} {
			result := simpleSolved(t, 1/k, TackleStage{i + 1, HaulFixed})
			assert.InDelta(t, row[j], result.HaulTension, 0.0005, "%d parts, k = %g", i+1, k) // half the last digit
		}
	}
}

// TestTackleEfficiencyOfTheCraneStandard: (1/n)(1 − eⁿ)/(1 − e), times e for
// a lead sheave (DIN 15020-1, from memory), with its 0.96 and 0.98.
func TestTackleEfficiencyOfTheCraneStandard(t *testing.T) {
	for _, e := range []float64{0.96, 0.98} {
		for n := 2; n <= MaxStageParts; n++ {
			want := (1 - math.Pow(e, float64(n))) / (1 - e) / float64(n)
			assert.InEpsilon(t, want, simpleSolved(t, e, TackleStage{n, HaulMoving}).Efficiency(), tackleTolerance)
			assert.InEpsilon(t, want*e, simpleSolved(t, e, TackleStage{n, HaulFixed}).Efficiency(), tackleTolerance)
		}
	}
}

func fieldPull(t *testing.T, load float64, sheaves int, advantage, loss float64) float64 {
	t.Helper()
	pull, err := FieldRulePull(load, sheaves, advantage, loss)
	require.NoError(t, err)
	return pull
}

func TestPublishedFieldRule(t *testing.T) {
	c := publishedExample(t, "tack-f-01")
	stage := TackleStage{int(c.In("MA")), HaulFixed}
	r, err := StagesReeving([]TackleStage{stage})
	require.NoError(t, err)
	require.EqualValues(t, c.In("sheaves"), r.Sheaves())
	result := solved(t, r, 1)
	pull := fieldPull(t, c.In("load"), r.Sheaves(), result.Ideal, c.In("loss_per_sheave"))
	assertPrinted(t, c, "pull", pull)
	assertPrinted(t, c, "total", pull*result.Ideal)
	assert.Equal(t, c.In("loss_per_sheave"), FieldLossPerSheave)

	// A purchase of four with a gun tackle of three on its hauling part.
	c = publishedExample(t, "tack-f-04")
	ma := c.InList("MA")
	result = simpleSolved(t, 1, TackleStage{int(ma[0]), HaulFixed}, TackleStage{int(ma[1]), HaulMoving})
	assertPrinted(t, c, "power", result.Ideal)
	assertPrinted(t, c, "pull", fieldPull(t, c.In("load"), int(c.In("sheaves")), result.Ideal, FieldLossPerSheave))
}

// TestFieldRuleAgainstTheRatioAtEachSheave: the field rule is linear and
// charges each sheave with a tenth of the whole load; the ratio at each
// sheave charges it with a tenth of what its own rope carries. With n parts
// hauled from the fixed block the extra pull is, for a small loss, n·loss by
// the rule and (n + 1)/2·loss by the ratio, so the rule asks for more.
func TestFieldRuleAgainstTheRatioAtEachSheave(t *testing.T) {
	// For the printed example: 350 lb against 315 lb.
	assert.InDelta(t, 350, fieldPull(t, 1000, 4, 4, 0.1), 1e-9)
	assert.InDelta(t, 315, 1000*simpleSolved(t, 1/1.1, TackleStage{4, HaulFixed}).HaulTension, 0.5)

	const small = 1e-5
	for n := 1; n <= MaxStageParts; n++ {
		ideal := 1 / float64(n)
		rule := fieldPull(t, 1, n, float64(n), small)/ideal - 1
		ratio := 1/advantage(t, n, HaulFixed, 1/(1+small))/ideal - 1
		assert.InEpsilon(t, float64(n)*small, rule, 1e-6)
		// Second order in the loss: about n·small relative.
		assert.InEpsilon(t, float64(n+1)/2*small, ratio, 1e-3)

		rule = fieldPull(t, 1, n, float64(n), FieldLossPerSheave)
		ratio = 1 / advantage(t, n, HaulFixed, 1/(1+FieldLossPerSheave))
		assert.GreaterOrEqual(t, rule, ratio-1e-12, "%d parts", n)
	}
}

// sheaveEfficiencyFor finds by halving the sheave efficiency that gives the
// tackle an efficiency as a whole.
func sheaveEfficiencyFor(t *testing.T, r Reeving, whole float64) float64 {
	t.Helper()
	low, high := 0.3, 1.0
	for range 60 {
		mid := (low + high) / 2
		if solved(t, r, mid).Efficiency() < whole {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// TestPublishedTackleEfficiencies: textbook examples that give the whole
// tackle's efficiency, or load and effort; the arrangement is ours to solve.
func TestPublishedTackleEfficiencies(t *testing.T) {
	simple := func(parts int) Reeving {
		r, err := StagesReeving([]TackleStage{{parts, HaulMoving}})
		require.NoError(t, err)
		return r
	}
	c := publishedExample(t, "tack-f-06")
	r := simple(int(c.In("VR")))
	result := solved(t, r, sheaveEfficiencyFor(t, r, c.In("eff")))
	assertPrinted(t, c, "effort", c.In("load")*result.HaulTension)

	// First order: every moving pulley hangs in a rope of its own.
	c = publishedExample(t, "tack-f-07")
	var stages []TackleStage
	for range int(c.In("moving_pulleys")) {
		stages = append(stages, TackleStage{2, HaulMoving})
	}
	assertLost(t, c, simpleSolved(t, 1, stages...).Ideal)

	// Five sheaves in each block.
	c = publishedExample(t, "tack-f-09")
	assertLost(t, c, solved(t, simple(10), 1).Ideal)
	assert.EqualValues(t, c.In("VR"), 10)

	// Third order: every rope is tied to the load and goes over a pulley
	// that hangs in the one before: 2⁴ − 1, a complex tackle.
	c = publishedExample(t, "tack-f-10")
	r = thirdOrder()
	assert.InEpsilon(t, c.In("VR"), solved(t, r, 1).Ideal, tackleTolerance)
	result = solved(t, r, sheaveEfficiencyFor(t, r, c.In("eff")))
	checkTackle(t, r, sheaveEfficiencyFor(t, r, c.In("eff")), result)
	effort := c.In("load") * result.HaulTension
	assertPrinted(t, c, "effort", effort)
	assertPrinted(t, c, "effort_lost", effort-c.In("load")/result.Ideal)
}

func thirdOrder() Reeving {
	return Reeving{
		Nodes: []ReevingNode{
			{"A", AnchorNode, 0}, {"M1", MovingNode, 1}, {"M2", MovingNode, 2}, {"M3", MovingNode, 3},
			{"L", LoadNode, 10}, {"H", HaulNode, 11},
		},
		Ropes: []ReevingRope{
			{Path: []string{"L", "A", "M1"}}, {Path: []string{"L", "M1", "M2"}},
			{Path: []string{"L", "M2", "M3"}}, {Path: []string{"L", "M3", "H"}},
		},
	}
}

// assertLost checks what friction takes of effort and load, given both.
func assertLost(t *testing.T, c publishedCase, ideal float64) {
	t.Helper()
	assertPrinted(t, c, "effort_lost", c.In("effort")-c.In("load")/ideal)
	assertPrinted(t, c, "load_lost", c.In("effort")*ideal-c.In("load"))
}

func TestClosedFormsSayWhatIsWrong(t *testing.T) {
	var wrong *ReevingError
	for _, eta := range []float64{0, -1, 1.1, math.NaN(), math.Inf(1)} {
		_, err := SimpleAdvantage(2, HaulFixed, eta)
		assert.ErrorAs(t, err, &wrong)
		_, err = CompoundAdvantage([]TackleStage{{2, HaulFixed}}, eta)
		assert.ErrorAs(t, err, &wrong)
	}
	_, err := SimpleAdvantage(1, HaulMoving, 0.9)
	assert.ErrorAs(t, err, &wrong)
	nan, inf := math.NaN(), math.Inf(1)
	for _, v := range [][4]float64{{nan, 1, 2, 0.1}, {inf, 1, 2, 0.1}, {-1, 1, 2, 0.1}, {1, -1, 2, 0.1}, {1, 1, 0, 0.1}, {1, 1, inf, 0.1}, {1, 1, nan, 0.1}, {1, 1, 2, -0.1}, {1, 1, 2, nan}, {1, 1, 2, 2}} {
		_, err := FieldRulePull(v[0], int(v[1]), v[2], v[3])
		assert.ErrorAs(t, err, &wrong, "%v", v)
	}
}
