package fall

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext/jsontest"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
)

// example is the text of the example plan.
func example(t testing.TB) []byte {
	raw, err := os.ReadFile("../../../testdata/demo.json")
	require.NoError(t, err)
	return raw
}

func askFor(t testing.TB, plan string, more map[string]any) *View {
	t.Helper()
	req := map[string]any{"plan": json.RawMessage(plan), "settings": map[string]any{"units": "kN", "words": "nz"}, "box": map[string]any{"w": 360, "h": 300},
		"curve_box": map[string]any{"w": 340, "h": 220}, "course_box": map[string]any{"w": 340, "h": 220}}
	for k, v := range more {
		req[k] = v
	}
	raw, err := json.Marshal(req)
	require.NoError(t, err)
	var out View
	require.NoError(t, json.Unmarshal(JSON(raw), &out))
	return &out
}

func factOf(t testing.TB, list []parts.Fact, id string) parts.Fact {
	t.Helper()
	for _, f := range list {
		if f.ID == id {
			return f
		}
	}
	require.Fail(t, "no fact "+id)
	return parts.Fact{}
}

func TestFallOfTheExample(t *testing.T) {
	plan := string(example(t))
	stand := askFor(t, plan, nil)
	require.True(t, stand.Fresh, stand.Message)
	require.NotNil(t, stand.Picture)
	require.NotNil(t, stand.Curve)
	require.NotNil(t, stand.Course)
	assert.Zero(t, stand.TurnDeg)
	assert.Zero(t, stand.TimeS)
	assert.Positive(t, stand.DurationS)
	ids := []string{}
	last := -1.0
	for _, e := range stand.Events {
		ids = append(ids, e.ID)
		assert.GreaterOrEqual(t, e.Deg, last)
		assert.NotEmpty(t, e.Label)
		last = e.Deg
	}
	assert.Equal(t, []string{"stand", "commit", "face", "land"}, ids)
	assert.InDelta(t, stand.EndDeg, last, 1e-9)
	assert.InDelta(t, stand.DurationS, stand.Events[len(ids)-1].TimeS, 1e-9)
	assert.NotEmpty(t, stand.Notes)
	assert.NotEmpty(t, stand.Working)

	// By time and by turn it is the same tree, and no other shapes than before.
	for _, e := range stand.Events {
		byTurn := askFor(t, plan, map[string]any{"turn_deg": e.Deg, "light": true})
		byTime := askFor(t, plan, map[string]any{"time_s": e.TimeS, "light": true})
		assert.InDelta(t, byTurn.TurnDeg, byTime.TurnDeg, 1e-4, e.ID)
		assert.InDelta(t, e.TimeS, byTurn.TimeS, 1e-9, e.ID)
		assert.Len(t, byTurn.Picture.Shapes, len(stand.Picture.Shapes), e.ID)
		assert.Empty(t, byTurn.Notes, "a light answer")
		assert.Empty(t, byTurn.Working)
		assert.Equal(t, stand.DurationS, byTurn.DurationS)
		for _, s := range byTurn.Picture.Shapes {
			assert.NotContains(t, s.D, "NaN")
		}
	}
	land := askFor(t, plan, map[string]any{"turn_deg": 180})
	assert.Equal(t, "0.0\u00a0s", factOf(t, land.Facts, "left").Value)
	assert.Equal(t, land.EndDeg, land.TurnDeg, "no farther than the ground")
	assert.Equal(t, "none", factOf(t, land.Facts, "need").Value)
	assert.Equal(t, factOf(t, land.Whole, "impact").Value, factOf(t, land.Facts, "speed").Value)
	beyond := askFor(t, plan, map[string]any{"time_s": 1e9})
	assert.Equal(t, land.TurnDeg, beyond.TurnDeg)
	before := askFor(t, plan, map[string]any{"turn_deg": -5})
	assert.Zero(t, before.TurnDeg)
}

// A hold line is let go when the tree goes by itself or, where the face closes
// first, when the hinge breaks: from there nothing of it is left in the balance.
func TestFallLetsHoldLinesGo(t *testing.T) {
	for _, opening := range []string{"70", "3"} {
		text := strings.Replace(string(example(t)), `"face_opening_deg": 70`, `"face_opening_deg": `+opening, 1)
		stand := askFor(t, text, nil)
		var free float64
		for _, e := range stand.Events {
			if e.ID == "commit" || e.ID == "face" {
				free = e.Deg
				break
			}
		}
		require.Positive(t, free)
		held := func(deg float64) (note, moment string) {
			f := askFor(t, text, map[string]any{"turn_deg": deg})
			for _, s := range f.Working {
				if s.Path == "need" {
					moment = s.Values[3]
				}
			}
			return factOf(t, f.Facts, "hold:hold").Note, moment
		}
		before, moment := held(free - 0.5)
		assert.Empty(t, before, opening)
		assert.NotContains(t, moment, "M_s = 0", opening)
		after, moment := held(free + 0.5)
		assert.Contains(t, after, "Let go", opening)
		if opening == "3" { // else no pull is needed any more
			assert.Contains(t, moment, "M_s = 0\u00a0", opening)
		}
	}
}

// The handle is where the top of the tree is, and taken to where it is at
// another turn it gives that turn.
// Every number of the fall opens a step that ends in it, at any turn.
func TestEveryNumberOfTheFallHasItsWorking(t *testing.T) {
	for _, turn := range []float64{0, 4, 30, 71, 90} {
		f := askFor(t, string(example(t)), map[string]any{"turn_deg": turn})
		results := map[string]string{}
		for _, s := range f.Working {
			assert.NotEmpty(t, s.Source, s.Path)
			results[s.Path] = s.Result
		}
		for _, list := range [][]parts.Fact{f.Facts, f.Whole} {
			for _, fact := range list {
				if fact.ID == "turn" || fact.Value == units.None || fact.Value == "none" {
					assert.Empty(t, fact.Working)
					continue
				}
				require.Contains(t, results, fact.Working, "%v° %s", turn, fact.ID)
				if fact.Value != "no change" {
					assert.Contains(t, fact.Value, results[fact.Working], "%v° %s", turn, fact.ID)
				}
			}
		}
	}
}

func TestTheTopCanBeDragged(t *testing.T) {
	plan := string(example(t))
	for _, deg := range []float64{0, 5, 30, 60, 90} {
		at := askFor(t, plan, map[string]any{"turn_deg": deg})
		require.Len(t, at.Picture.Handles, 1)
		h := at.Picture.Handles[0]
		assert.Equal(t, scene.TopHandle, h.ID)
		moved := askFor(t, plan, map[string]any{"x": h.X, "y": h.Y})
		// A handle stands on a tenth of a pixel, of a stem of some hundred.
		assert.InDelta(t, deg, moved.TurnDeg, 0.1)
		assert.True(t, h.X >= 0 && h.X <= 360 && h.Y >= 0 && h.Y <= 300)
	}
}

func TestArrowKeysTurnTheTree(t *testing.T) {
	plan := string(example(t))
	deg := func(more map[string]any) float64 { return askFor(t, plan, more).TurnDeg }
	assert.InDelta(t, 8.0, deg(map[string]any{"turn_deg": 7.24, "step": 1}), 1e-9, "to whole degrees")
	assert.InDelta(t, 7.3, deg(map[string]any{"turn_deg": 7.24, "step": 1, "fine": true}), 1e-9)
	assert.InDelta(t, 17.0, deg(map[string]any{"turn_deg": 7.24, "step": 10}), 1e-9)
	assert.Zero(t, deg(map[string]any{"turn_deg": 0.4, "step": -3}))
}

func TestSlowerLineLeavesMoreTime(t *testing.T) {
	plan := string(example(t))
	usual := askFor(t, plan, nil)
	slow := askFor(t, plan, map[string]any{"speed": "0.3"})
	assert.Greater(t, slow.DurationS, usual.DurationS)
	for _, text := range []string{"0", "-1", "fast", "1e9", "NaN", "6"} {
		wrong := askFor(t, plan, map[string]any{"speed": text})
		assert.False(t, wrong.Fresh, text)
		assert.Nil(t, wrong.Picture)
		assert.Empty(t, wrong.Facts)
		require.Len(t, wrong.Fields, 1)
		assert.NotEmpty(t, wrong.Fields[0].Problem)
		assert.Equal(t, text, wrong.Fields[0].Text, "it stays where it was typed")
	}
}

func TestNoFallIsSaidPlainly(t *testing.T) {
	plan := string(example(t))
	for name, raw := range map[string]string{
		"empty": `{}`, "number": `3`, "null": `null`,
		"no height":  strings.Replace(plan, `"height_m": 29, `, "", 1),
		"no lines":   `{"tree":{"height_m":20,"diameter_cm":40,"lean_deg":0,"lean_bearing_deg":0}}`,
		"wrong way":  strings.Replace(plan, `"bearing_deg": 4, "distance_m": 44`, `"bearing_deg": 184, "distance_m": 44`, 1),
		"bare pull":  strings.Replace(plan, `"allowance": 1.5`, `"allowance": 1`, 1),
		"too little": strings.Replace(plan, `"allowance": 1.5`, `"allowance": 1.5, "planned_kN": 1`, 1),
	} {
		require.NotEqual(t, plan, raw, name)
		out := askFor(t, raw, nil)
		assert.False(t, out.Fresh, name)
		assert.NotEmpty(t, out.Message, name)
		assert.Nil(t, out.Picture, name)
		assert.Empty(t, out.Facts, name)
		assert.Empty(t, out.Whole, name)
		assert.Empty(t, out.Events, name)
		assert.Zero(t, out.DurationS, name)
		assert.NotEmpty(t, out.Notes, name)
	}
	for _, raw := range []string{"", "x", "[]", `{"plan":{}`, `{"box":3}`} {
		var out View
		require.NoError(t, json.Unmarshal(JSON([]byte(raw)), &out))
		assert.False(t, out.Fresh)
		assert.NotEmpty(t, out.Message)
	}
}

// A plan with a piece missing still falls, with its problem beside it.
func TestFallNamesTheProblemsOfThePlan(t *testing.T) {
	plan := strings.Replace(string(example(t)), `{"id": "pull rope", "kind": "wire_rope", "line": "pull", "mbl_kN": 190, "design_factor": 3, "reductions": [{"why": "hand-made eye splice with thimble", "factor": 0.86}]},`, "", 1)
	out := askFor(t, plan, nil)
	assert.True(t, out.Fresh)
	assert.NotEmpty(t, out.Problems)
}

func TestFallIsWrittenAsItsTagsSay(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 7))
	for range 20 {
		var f View
		jsontest.Fill(&f, r, r.Float64(), "text", 7)
		jsontest.SameAsTags(t, f, f.AppendJSON)
	}
	jsontest.SameAsTags(t, View{}, (&View{}).AppendJSON)
}

// Whatever is asked, no number that is none comes out.
func TestFallOfAnySettings(t *testing.T) {
	plan := string(example(t))
	for _, system := range []string{"kN", "tf", "us"} {
		for _, words := range []string{"nz", "uk", "us"} {
			for _, deg := range []float64{0, 20, 80} {
				out := askFor(t, plan, map[string]any{"turn_deg": deg, "settings": map[string]any{"units": system, "words": words}})
				require.True(t, out.Fresh)
				for _, f := range append(out.Facts, out.Whole...) {
					assert.NotEqual(t, units.None, f.Value, f.ID)
					assert.NotContains(t, f.Label+f.Value+f.Note, "{")
				}
				for _, n := range out.Notes {
					assert.NotContains(t, n.Message, "{")
					assert.NotEmpty(t, n.Source)
				}
				for _, s := range out.Working {
					assert.NotContains(t, s.Name+strings.Join(s.Values, ""), "{")
					assert.NotContains(t, s.Result, "NaN")
				}
			}
		}
	}
	out := askFor(t, plan, map[string]any{"turn_deg": math.MaxFloat64, "box": map[string]any{"w": 1, "h": 1}})
	assert.True(t, out.Fresh)
	assert.Nil(t, out.Picture)
}

func BenchmarkFallFrame(b *testing.B) {
	raw, err := json.Marshal(map[string]any{"plan": json.RawMessage(example(b)), "turn_deg": 40, "light": true, "box": map[string]any{"w": 700, "h": 500},
		"curve_box": map[string]any{"w": 500, "h": 220}, "course_box": map[string]any{"w": 500, "h": 220}})
	require.NoError(b, err)
	for b.Loop() {
		JSON(raw)
	}
}
