package pulls

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
)

// pulled is the example with a measured peak of so many times the computed one.
func pulled(t *testing.T, ratio float64) string {
	raw := string(drafttest.Demo(t))
	rep := plan.Evaluate([]byte(raw))
	return strings.Replace(raw, "{", fmt.Sprintf(`{"after": {"peak_kN": %.6f},`, ratio*float64(rep.Pull.PeakKN)), 1)
}

func ask(t *testing.T, now string, plans ...string) View {
	var v View
	require.NoError(t, json.Unmarshal(JSON([]byte(`{"plan": `+now+`, "plans": [`+strings.Join(plans, ",")+`]}`)), &v))
	return v
}

const work = `{"version": 1, "tree": {"species": "radiata_pine", "height_m": 28, "diameter_cm": 60}}`

func TestTooFew(t *testing.T) {
	v := ask(t, work)
	assert.Empty(t, v.Rows)
	assert.Len(t, v.Words, 1)
	v = ask(t, work, pulled(t, 1.1), pulled(t, 1.1), pulled(t, 1.2), string(drafttest.Demo(t)))
	assert.Len(t, v.Rows, 2, "a copy is the same pull; a plan without one is none")
	assert.Empty(t, v.Facts)
	assert.Empty(t, v.Offers)
}

// Only what makes the pull needed heavier, or less sure, is ever offered.
func TestOffersOnlyTheHeavier(t *testing.T) {
	v := ask(t, work, pulled(t, 1.1), pulled(t, 1.2), pulled(t, 1.15))
	require.Len(t, v.Facts, 2)
	assert.Equal(t, "115\u00a0%", v.Facts[0].Value)
	require.Len(t, v.Offers, 1)
	require.Len(t, v.Offers[0].Changes, 1)
	assert.Equal(t, []any{"tree", "green_density_kgm3"}, v.Offers[0].Changes[0].At)
	var assumed float64
	rep := plan.Evaluate([]byte(work))
	for _, a := range rep.Assumed {
		if n, ok := a.Number(); ok && a.Path == density {
			assumed = n
		}
	}
	raised, _ := v.Offers[0].Changes[0].Value.(float64)
	assert.InDelta(t, 1.1493*assumed, raised, 10)
	assert.GreaterOrEqual(t, raised, 1.1493*assumed)

	v = ask(t, work, pulled(t, 0.7), pulled(t, 0.8), pulled(t, 0.75))
	assert.Empty(t, v.Offers)
	v = ask(t, strings.Replace(work, `"height_m"`, `"green_density_kgm3": 900, "height_m"`, 1), pulled(t, 1.1), pulled(t, 1.2), pulled(t, 1.15))
	assert.Empty(t, v.Offers, "what was typed stays as it is")
	v = ask(t, strings.Replace(work, `"height_m"`, `"mass_kg": 2000, "height_m"`, 1), pulled(t, 1.1), pulled(t, 1.2), pulled(t, 1.15))
	assert.Empty(t, v.Offers)
}

// Pulls that were computed with a corrected density speak for the table all the same:
// a correction that fits stays, and is not taken back step by step.
func TestACorrectionStays(t *testing.T) {
	corrected := func(ratio float64) string {
		heavier := strings.Replace(pulled(t, ratio), `"species"`, `"green_density_kgm3": 1200, "species"`, 1)
		require.Contains(t, heavier, "1200")
		return heavier
	}
	before := ask(t, work, pulled(t, 1.1), pulled(t, 1.2), pulled(t, 1.15))
	after := ask(t, work, corrected(1.1), corrected(1.2), corrected(1.15))
	require.Len(t, before.Offers, 1)
	require.Len(t, after.Offers, 1)
	assert.Equal(t, before.Offers[0].Changes, after.Offers[0].Changes)
	assert.NotEqual(t, before.Rows[0].Ratio, after.Rows[0].Ratio)

	v := ask(t, work, pulled(t, 2), pulled(t, 2.1), pulled(t, 2.2))
	assert.Empty(t, v.Offers, "no wood is as heavy")
	assert.Len(t, v.Words, 1)
}

func TestOffersAWiderRange(t *testing.T) {
	spread := []string{pulled(t, 0.6), pulled(t, 0.9), pulled(t, 1), pulled(t, 1.1), pulled(t, 0.7)}
	v := ask(t, work, spread...)
	require.Len(t, v.Offers, 1)
	assert.Equal(t, []any{"plus_minus", density}, v.Offers[0].Changes[0].At)
	wide, _ := v.Offers[0].Changes[0].Value.(float64)
	assert.Greater(t, wide, 0.0)
	v = ask(t, strings.Replace(work, `"version": 1`, fmt.Sprintf(`"version": 1, "plus_minus": {"%s": %g}`, density, wide), 1), spread...)
	assert.Empty(t, v.Offers, "it is as wide already")
}

func FuzzJSON(f *testing.F) {
	f.Add([]byte(`{"plan": {}, "plans": [{}, 1, null]}`))
	f.Add([]byte(`nonsense`))
	f.Fuzz(func(t *testing.T, raw []byte) { assert.True(t, json.Valid(JSON(raw))) })
}
