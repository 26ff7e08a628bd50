package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// with is the example with one more part.
func withPart(t testing.TB, key string, part any) Report {
	d := demoDocument(t)
	d[key] = part
	return Evaluate(d.raw(t))
}

func problemPaths(rep *Report) (out []string) {
	for _, p := range rep.Problems {
		out = append(out, p.Path)
	}
	return out
}

func TestBriefIsKeptAndRead(t *testing.T) {
	before := Evaluate(demo(t))
	rep := withPart(t, "brief", map[string]any{
		"sequence": []any{"light tension", "face cut"},
		"signals":  []any{map[string]any{"sign": "arm up", "means": "stop", "by": "saw operator"}, map[string]any{}},
		"roles":    []any{map[string]any{"role": "winch", "name": "invented name"}},
		"notes":    "x",
	})
	assert.Empty(t, rep.Problems)
	assert.Equal(t, before.Verdict, rep.Verdict)
	assert.NotContains(t, codes(rep), "stop_above_limit", "nothing said of numbers that were not given")
}

func TestBriefRefusesWhatItCannotRead(t *testing.T) {
	rep := withPart(t, "brief", map[string]any{
		"sequence": []any{"x", 7}, "signals": []any{"x", map[string]any{"sign": 1, "other": "x"}},
		"roles": map[string]any{}, "stop_haul_kN": -1, "stop_rope_m": "x", "extra": 1,
	})
	assert.Equal(t, "unknown", rep.Verdict.String())
	assert.ElementsMatch(t, []string{"brief.sequence[1]", "brief.signals[0]", "brief.signals[1].sign", "brief.signals[1].other",
		"brief.roles", "brief.stop_haul_kN", "brief.stop_rope_m", "brief.extra"}, problemPaths(&rep))
	assert.False(t, rep.Brief.StopHaulKN.Known(), "nothing is suggested from a plan with problems")
	rep = withPart(t, "brief", []any{})
	assert.Equal(t, []string{"brief"}, problemPaths(&rep))
}

// What is suggested are the numbers of the report itself: the haul to hold the
// puller to, which is not below the haul planned, and the rope to haul with what
// the rope stretches: three times that of the line and once that of the hauling
// part behind a 3:1 (Hooke's law, and the travel of a tackle).
func TestBriefSuggests(t *testing.T) {
	rep := Evaluate(demo(t))
	require.NotEmpty(t, rep.Lines)
	assert.Equal(t, rep.Pull.HoldPullTo, rep.Brief.StopHaulKN)
	assert.GreaterOrEqual(t, float64(rep.Brief.StopHaulKN), float64(rep.Lines[0].HaulKN))
	want, ea := 0.0, 5500.0
	for _, leg := range rep.Lines[0].Legs {
		times := 3.0
		if leg.Hauling {
			times = 1
		}
		want += times * float64(leg.TensionKN*leg.LengthM) / ea
	}
	assert.InDelta(t, float64(rep.Lines[0].RopeToHaulM)+want, float64(rep.Brief.StopRopeM), 1e-9)
	assert.True(t, rep.Brief.StretchKnown)
	loose := Evaluate(demoDocument(t).drop("lines[0].rope.stiffness_kN").raw(t))
	assert.Equal(t, loose.Lines[0].RopeToHaulM, loose.Brief.StopRopeM)
	assert.False(t, loose.Brief.StretchKnown)
	assert.Equal(t, Num(2*29), rep.Brief.KeepOutM, "two tree lengths, 29 CFR 1910.266(h)(1)")
	rep = Evaluate([]byte(`{}`))
	assert.False(t, rep.Brief.StopHaulKN.Known() || rep.Brief.StopRopeM.Known() || rep.Brief.KeepOutM.Known())
}

// Where a piece gives way before the planned haul there is no haul to stop at,
// and the report says that there is no room.
func TestNoStopBelowThePlannedHaul(t *testing.T) {
	d := demoDocument(t)
	d["gear"].([]any)[0].(map[string]any)["design_factor"] = 20
	rep := Evaluate(d.raw(t))
	require.Equal(t, "over", rep.Verdict.String())
	assert.Less(t, float64(rep.Pull.HoldPullTo), float64(rep.Lines[0].HaulKN))
	assert.True(t, rep.NoRoom)
	assert.False(t, rep.Brief.StopHaulKN.Known())
	assert.Contains(t, codes(rep), "no_room")
}

func TestBriefStopConditionsAreHeldAgainstThePlan(t *testing.T) {
	rep := withPart(t, "brief", map[string]any{"stop_haul_kN": 500, "stop_rope_m": 900})
	assert.Contains(t, codes(rep), "stop_above_limit")
	assert.NotContains(t, codes(rep), "stop_rope_short")
	rep = withPart(t, "brief", map[string]any{"stop_haul_kN": 0.1, "stop_rope_m": 0.1})
	assert.Contains(t, codes(rep), "stop_below_need")
	assert.Contains(t, codes(rep), "stop_rope_short")
	own := Evaluate(demo(t)).Brief
	rep = withPart(t, "brief", map[string]any{"stop_haul_kN": float64(own.StopHaulKN), "stop_rope_m": float64(own.StopRopeM)})
	for _, code := range []string{"stop_above_limit", "stop_below_need", "stop_rope_short"} {
		assert.NotContains(t, codes(rep), code, "what is suggested is not warned of")
	}
}
