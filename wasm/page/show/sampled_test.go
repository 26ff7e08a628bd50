package show

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
	"pullline/wasm/draft"
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
