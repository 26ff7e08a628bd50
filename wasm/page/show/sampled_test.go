package show

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// What is not known exactly only worsens a headline, whatever is said of it.
func TestSampledOnlyWorsens(t *testing.T) {
	all := []rigging.Verdict{rigging.Within, rigging.Near, rigging.Unknown, rigging.Over} // the worse the later
	for own, v := range all {
		for sampled, w := range all {
			h := Headline{Verdict: v.String(), Word: "as it is", Sentence: "as it is"}
			h.Worsen(&draft.Plan{}, w.String())
			assert.Equal(t, all[max(own, sampled)].String(), h.Verdict)
			assert.Equal(t, sampled > own, h.Word != "as it is")
		}
		for _, rubbish := range []string{"", "safe", "Within"} {
			h := Headline{Verdict: v.String()}
			h.Worsen(&draft.Plan{}, rubbish)
			assert.Equal(t, v.String(), h.Verdict)
		}
	}
}

// The safe number stands before the one computed, and is never more.
func TestHoldSurely(t *testing.T) {
	told := func(safe float64) Headline {
		h := Headline{Word: words.Locale{}.Say(words.OnlyIfHeld, "12.6 kN"), Held: true, Hold: "12.6 kN", HoldWorking: "pull.hold_puller_to_kN",
			AtMostParts: []Part{{Text: "Hold the puller to "}, {"12.6 kN", "pull.hold_puller_to_kN"}, {Text: "."}}}
		h.HoldSurely(&draft.Plan{}, &units.KN, &plan.Report{Pull: plan.PullReport{HoldPullTo: 12.61}}, safe)
		return h
	}
	h := told(11.27)
	assert.Equal(t, "11.2\u00a0kN", h.Hold)
	assert.Contains(t, h.Word, h.Hold)
	assert.Equal(t, "To be sure hold the puller to 11.2\u00a0kN, computed 12.6 kN.", h.AtMostText)
	for _, no := range []float64{0, 12.61, 13, math.NaN(), -1} {
		assert.Equal(t, "12.6 kN", told(no).Hold)
	}
}
