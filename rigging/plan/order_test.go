package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every row of the table is a point of the curve, with the hold lines' tensions; the
// turns where one comes tight or slack are all there.
func TestStopsAreTheCurves(t *testing.T) {
	for _, base := range []func(testing.TB) document{straightPull, roundTheCorner, heldToTheSide, demoDocument} {
		rep := base(t).evaluate(t)
		require.NotEmpty(t, rep.Order.Stops)
		points := map[Num]CurvePoint{}
		for _, c := range rep.Pull.Curve {
			if _, twice := points[c.Deg]; !twice {
				points[c.Deg] = c
			}
		}
		stops := map[Num]bool{}
		last := Num(-1)
		for _, s := range rep.Order.Stops {
			c, known := points[s.Deg]
			require.True(t, known, s.Deg)
			assert.Greater(t, s.Deg, last)
			last, stops[s.Deg] = s.Deg, true
			assert.Equal(t, c.KN, s.KN)
			assert.InDelta(t, float64(c.HaulM)*float64(rep.Lines[0].IdealAdvantage), float64(s.RopeM), 1e-9)
			most := Num(0)
			for _, h := range s.Holds {
				most = max(most, h.KN)
			}
			if s.Deg < 70 {
				assert.Equal(t, c.HoldKN, most)
			}
		}
		assert.True(t, stops[0] && last >= rep.Pull.CommitDeg)
		assert.InDelta(t, float64(rep.Pull.StartKN)/float64(rep.Pull.PlannedKN)*float64(rep.Lines[0].HaulKN), float64(rep.Order.Stops[0].HaulKN), 1e-9)
		for k := 1; k < len(rep.Pull.Curve); k++ {
			a, b := rep.Pull.Curve[k-1], rep.Pull.Curve[k]
			if b.Deg <= last && b.Deg < 70 && (a.HoldKN > 0) != (b.HoldKN > 0) {
				assert.True(t, stops[b.Deg], "a hold line changes at %v", b.Deg)
			}
		}
		steps := []string{}
		for _, s := range rep.Order.Steps {
			steps = append(steps, s.Step)
			assert.NotEmpty(t, s.Message)
		}
		assert.Equal(t, []string{"pretension", "face", "back_cut", "pull", "most"}, steps)
		assert.LessOrEqual(t, rep.Order.Steps[0].KN, rep.Pull.StartKN)
		assert.Equal(t, rep.Pull.PlannedKN, rep.Order.Steps[4].KN)
	}
	assert.Empty(t, straightPull(t).drop("points[0].anchor").evaluate(t).Order.Stops, "nothing to go by while something is missing")
}

// The straight pull by hand: 14 t at 1 m/s on 5 MN over about 61 m of rope.
func TestSnatchOfTheStraightPull(t *testing.T) {
	found := 0
	for _, c := range straightPull(t).evaluate(t).Cautions {
		if c.Code == "snatch" {
			found++
			assert.Regexp(t, `rises by 33\.[67]\d* kN`, c.Message) // √(5·10⁶/61.8·14000) = 33.7 kN
		}
	}
	assert.Equal(t, 1, found)
	none := straightPull(t).set("lines[0].rope", fields{}).evaluate(t)
	for _, c := range none.Cautions {
		if c.Code == "snatch" {
			assert.Contains(t, c.Message, "not known")
		}
	}
}
