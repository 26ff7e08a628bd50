package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAfterComparesWithWhatWasComputed(t *testing.T) {
	plain := Evaluate(demo(t))
	assert.Nil(t, plain.After)
	peak, haul := float64(plain.Pull.PeakKN), float64(plain.Lines[0].HaulKN)
	rep := withPart(t, "after", map[string]any{"date": "2024-02-29", "peak_kN": 1.2 * peak, "peak_deg": 2, "haul_kN": haul / 2, "happened": "x", "photos": []any{"stump 1.jpg"}})
	assert.Empty(t, rep.Problems)
	assert.Equal(t, plain.Verdict, rep.Verdict, "what was measured judges nothing")
	require.NotNil(t, rep.After)
	// By hand: 1.2 of the peak, and with an allowance of 1.5 that is 1.2/1.5
	// = 0.8 of what was planned; half the planned haul is 0.75 of the one at
	// the peak. Tolerance: rounding of a few products.
	assert.InDelta(t, 1.2, float64(rep.After.PeakToComputed), 1e-9)
	assert.InDelta(t, 1.2*peak/float64(plain.Pull.PlannedKN), float64(rep.After.MeasuredOverPlan), 1e-9)
	assert.InDelta(t, 0.5*float64(plain.Pull.PlannedKN)/peak, float64(rep.After.HaulToComputed), 1e-9)
	assert.NotContains(t, codes(rep), "measured_more")
	rep = withPart(t, "after", map[string]any{"haul_kN": 1.01 * haul})
	assert.Contains(t, codes(rep), "measured_more")
	assert.False(t, rep.After.PeakToComputed.Known())
	rep = withPart(t, "after", map[string]any{"peak_kN": 1.01 * float64(plain.Pull.PlannedKN)})
	assert.Contains(t, codes(rep), "measured_more")
	rep = withPart(t, "after", map[string]any{"happened": "nothing was measured"})
	assert.NotContains(t, codes(rep), "measured_more")
	assert.False(t, rep.After.MeasuredOverPlan.Known())
	rep = Evaluate([]byte(`{"after": {"peak_kN": 900}}`))
	require.NotNil(t, rep.After)
	assert.False(t, rep.After.PeakToComputed.Known(), "nothing was computed")
}

func TestAfterRefusesWhatItCannotRead(t *testing.T) {
	rep := withPart(t, "after", map[string]any{"date": "2023-02-29", "peak_kN": -1, "peak_deg": 200, "haul_kN": "x", "happened": 3, "photos": []any{"a/b.jpg", 4}, "more": 1})
	assert.ElementsMatch(t, []string{"after.date", "after.peak_kN", "after.peak_deg", "after.haul_kN", "after.happened", "after.photos[0]", "after.photos[1]", "after.more"}, problemPaths(&rep))
	assert.Equal(t, "unknown", rep.Verdict.String())
}
