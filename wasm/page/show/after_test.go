package show

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

func TestAfterwardsInWords(t *testing.T) {
	raw := string(drafttest.Demo(t))
	rep := plan.Evaluate([]byte(raw))
	assert.Nil(t, Afterwards(drafttest.Parse([]byte(raw)), &units.KN, &rep))
	peak := float64(rep.Pull.PeakKN)
	state := func(part string) (string, string) {
		raw := []byte(strings.Replace(raw, "{", `{"after": `+part+`,`, 1))
		pulled := plan.Evaluate(raw)
		assert.Equal(t, rep.Verdict, pulled.Verdict)
		a := Afterwards(drafttest.Parse(raw), &units.KN, &pulled)
		return a.State, a.Words
	}
	for share, want := range map[float64]string{0.5: "less", 1: "as", 1.2: "more", 3: "over"} {
		got, words := state(fmt.Sprintf(`{"peak_kN": %g}`, share*peak))
		assert.Equal(t, want, got, words)
	}
	got, words := state(`{"happened": "x"}`)
	assert.Equal(t, "unknown", got, words)
	got, _ = state(fmt.Sprintf(`{"haul_kN": %g}`, 2*float64(rep.Lines[0].HaulKN)))
	assert.Equal(t, "over", got)
}
