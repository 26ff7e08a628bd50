package screen

import (
	"encoding/json"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

func askedFor(t testing.TB, raw []byte, units string) []byte {
	req, err := json.Marshal(map[string]any{"plan": json.RawMessage(raw), "settings": request.Settings{Units: units}})
	require.NoError(t, err)
	return req
}

func viewed(t testing.TB, req []byte) View {
	var v View
	require.NoError(t, json.Unmarshal(ViewJSON(req), &v))
	return v
}

// sound is a report in which everything is known and within.
func sound() plan.Report {
	return plan.Report{
		Verdict: rigging.Within, Governing: "rope", GoverningUse: 0.5, AtMostVerdict: rigging.Near, AtMostGoverning: "rope",
		Pull:   plan.PullReport{StartKN: 8, PeakKN: 10, PlannedKN: 15, CommitDeg: 5, HoldPullTo: 30, DriftDeg: -2.31},
		Lines:  []plan.LineReport{{ID: "pull", Role: "pull", TensionKN: 15, HaulKN: 15.01}},
		Gear:   []plan.GearReport{{ID: "rope", Kind: "wire_rope", LoadKN: 15.01, GreatestKN: 15.01, AtMostKN: 27, CapacityKN: 30.09, Use: 0.5, Verdict: rigging.Within, AtMostVerdict: rigging.Near}},
		Points: []plan.PointReport{{ID: "A", LoadKN: 15, HorizontalKN: 14.5, GreatestKN: 15, CountsKN: 15, AtMostKN: 20, CapacityKN: 60, Use: 0.25, Verdict: rigging.Within, AtMostVerdict: rigging.Within}},
	}
}

func headlineOf(rep plan.Report) Headline {
	d := drafttest.Parse([]byte(`{}`))
	return viewOf(d, &units.KN, &rep, false).Headline
}

func TestHeadlineOfASoundReport(t *testing.T) {
	h := headlineOf(sound())
	assert.Equal(t, "within", h.Verdict)
	assert.Equal(t, "Within limits as computed", h.Word)
	assert.Contains(t, h.Sentence, "15.1\u00a0kN of 30.0\u00a0kN, 50\u00a0% used")
	assert.Equal(t, "near", h.AtMost)
}

// What somebody has to stop in time is not within limits.
func TestHeadlineOfAWatchedPuller(t *testing.T) {
	rep := sound()
	rep.Verdict, rep.OnlyIfHeld, rep.AtMostVerdict = rigging.Near, true, rigging.Within
	rep.Why = []plan.Why{{Code: plan.WhyWatched, Path: "lines[0].puller", Message: "only a person watching stops it", Verdict: rigging.Near}}
	h := headlineOf(rep)
	assert.Equal(t, "near", h.AtMost)
	assert.Contains(t, h.AtMostText, "if stopped in time")
	assert.NotContains(t, h.AtMostText, "within")
	rep.AtMostVerdict = rigging.Over
	assert.Equal(t, "over", headlineOf(rep).AtMost)
	rep.AtMostVerdict = rigging.Unknown
	assert.Equal(t, "unknown", headlineOf(rep).AtMost)
}

// Whatever is missing, the page's headline does not reassure, even where a
// report should claim so.
func TestHeadlineNeverReassuresOverAnythingMissing(t *testing.T) {
	nan := plan.None()
	for name, spoil := range map[string]func(*plan.Report){
		"a problem": func(r *plan.Report) {
			r.Problems = []plan.Problem{{Path: "tree.height_m", Message: "the height is missing"}}
		},
		"no gear":              func(r *plan.Report) { r.Gear = nil },
		"unknown use":          func(r *plan.Report) { r.GoverningUse = nan },
		"infinite use":         func(r *plan.Report) { r.GoverningUse = plan.Num(math.Inf(1)) },
		"unknown tension":      func(r *plan.Report) { r.Pull.PlannedKN = nan },
		"negative tension":     func(r *plan.Report) { r.Pull.PlannedKN = -1 },
		"unknown verdict":      func(r *plan.Report) { r.Verdict = rigging.Unknown },
		"unknown piece":        func(r *plan.Report) { r.Gear[0].Verdict = rigging.Unknown },
		"piece without load":   func(r *plan.Report) { r.Gear[0].LoadKN = nan },
		"piece without limit":  func(r *plan.Report) { r.Gear[0].CapacityKN = nan },
		"unknown point":        func(r *plan.Report) { r.Points[0].Verdict = rigging.Unknown },
		"point without a load": func(r *plan.Report) { r.Points[0].LoadKN = nan },
		"piece over":           func(r *plan.Report) { r.Gear[0].Verdict = rigging.Over },
		"use over 1":           func(r *plan.Report) { r.GoverningUse = 1.01 },
	} {
		for _, verdict := range []rigging.Verdict{rigging.Within, rigging.Near} {
			rep := sound()
			rep.Verdict = verdict
			spoil(&rep)
			h := headlineOf(rep)
			assert.Contains(t, []string{"unknown", "over"}, h.Verdict, name)
			assert.NotEqual(t, words.Headline[rigging.Within], h.Word, name)
			assert.NotEmpty(t, h.Sentence, name)
		}
	}
	assert.Equal(t, "unknown", headlineOf(plan.Report{}).Verdict)
	assert.NotContains(t, []string{"within", "near"}, headlineOf(plan.Report{}).AtMost)
}

// No word of the page says that anything is safe, no number is written out
// that is none, and no word of the trade is left in braces.
func TestNothingIsCalledSafe(t *testing.T) {
	for _, raw := range []string{string(drafttest.Demo(t)), drafttest.Full, `{}`} {
		var v any
		require.NoError(t, json.Unmarshal(ViewJSON(askedFor(t, []byte(raw), "kN")), &v))
		drafttest.Walk("", v, func(path string, v any) {
			said, _ := v.(string)
			for _, word := range strings.FieldsFunc(strings.ToLower(said), func(r rune) bool { return strings.ContainsRune(" .,;:–!?()\u00a0", r) }) {
				assert.NotContains(t, []string{"safe", "safely", "ok", "okay", "approved", "guaranteed", "nan", "+inf", "null", "undefined"}, word, path)
				assert.NotContains(t, word, "{", path)
			}
		})
	}
}

func TestPiecesWorstFirst(t *testing.T) {
	rep := plan.Report{}
	add := func(id string, v rigging.Verdict, use float64) {
		rep.Gear = append(rep.Gear, plan.GearReport{ID: id, LoadKN: plan.Num(use * 10), CapacityKN: 10, Use: plan.Num(use), Verdict: v})
	}
	add("w", rigging.Within, 0.2)
	add("w2", rigging.Within, 0.7)
	add("n", rigging.Near, 0.9)
	add("u", rigging.Unknown, math.NaN())
	add("o", rigging.Over, 1.2)
	add("o2", rigging.Over, 1.5)
	add("same", rigging.Within, 0.2)
	var order []string
	for _, p := range pieces(drafttest.Parse([]byte(`{}`)), &units.KN, &rep) {
		order = append(order, p.ID)
		assert.LessOrEqual(t, p.UseShare, 1.0)
		assert.GreaterOrEqual(t, p.UseShare, 0.0)
	}
	assert.Equal(t, []string{"o2", "o", "u", "n", "w2", "w", "same"}, order)
}

// Rated 14 kN and set to 9 kN: the limit in its row is not what it is judged by
// at most, so the share says so.
func TestPullerAtMostSaysOfWhat(t *testing.T) {
	for limit, want := range map[float64]string{9: "65\u00a0% of rated", 14: "65\u00a0%"} {
		rep := plan.Report{Gear: []plan.GearReport{{ID: "pull/puller", Kind: "puller", GreatestKN: 7, CapacityKN: plan.Num(limit), AtMostKN: 9, AtMostUse: 9.0 / 14}}}
		p := pieces(drafttest.Parse([]byte(`{}`)), &units.KN, &rep)
		assert.Equal(t, want, p[0].AtMostUse, limit)
	}
}

func TestPiecesOfTheDemo(t *testing.T) {
	v := viewed(t, askedFor(t, drafttest.Demo(t), "kN"))
	require.NotEmpty(t, v.Pieces)
	for _, p := range v.Pieces {
		assert.NotEmpty(t, p.Path, p.ID)
		assert.NotEmpty(t, p.Title, p.ID)
		assert.NotEmpty(t, p.Where, p.ID)
		if strings.HasPrefix(p.Path, "points[") {
			assert.NotEmpty(t, p.Estimate, p.ID)
		}
	}
	for _, f := range v.Facts {
		assert.NotEmpty(t, f.Value, f.ID)
	}
	assert.NotEmpty(t, v.Standing)
	assert.NotEmpty(t, v.Working)
	assert.True(t, v.Fresh)
	assert.Nil(t, v.Report)
}

func TestFactsOfNothingAreDashes(t *testing.T) {
	rep := plan.Evaluate([]byte(`{}`))
	for _, f := range facts(drafttest.Parse([]byte(`{}`)), &units.KN, &rep) {
		assert.Equal(t, units.None, f.Value, f.ID)
	}
}

func TestDriftInWords(t *testing.T) {
	rep := sound()
	value := func(id string) string {
		for _, f := range facts(drafttest.Parse([]byte(`{}`)), &units.KN, &rep) {
			if f.ID == id {
				return f.Value
			}
		}
		return ""
	}
	assert.Equal(t, "2.4° to the right", value("drift"))
	rep.Pull.DriftDeg = 2.31
	assert.Equal(t, "2.4° to the left", value("drift"))
	rep.Pull.DriftDeg = 0
	assert.Equal(t, "straight along the lay", value("drift"))
}

func TestLightViewAndReport(t *testing.T) {
	var req map[string]any
	require.NoError(t, json.Unmarshal(askedFor(t, drafttest.Demo(t), "kN"), &req))
	req["light"], req["report"] = true, true
	text, _ := json.Marshal(req)
	v := viewed(t, text)
	assert.Empty(t, v.Form)
	assert.Empty(t, v.Working)
	assert.NotEmpty(t, v.Pieces)
	require.NotNil(t, v.Report)
	assert.Equal(t, v.Headline.Verdict, v.Report.Verdict.String())
}

// Lists are never null for the page.
func TestNoListIsNull(t *testing.T) {
	for _, req := range []string{string(askedFor(t, []byte(`{}`), "us")), ``, `[]`, `{"plan": 3}`, `null`} {
		var m map[string]json.RawMessage
		require.NoError(t, json.Unmarshal(ViewJSON([]byte(req)), &m), req)
		for _, key := range []string{"facts", "form", "pieces", "problems", "cautions", "standing", "assumed", "working", "units"} {
			assert.NotEqual(t, "null", string(m[key]), "%s of %s", key, req)
			assert.NotEmpty(t, m[key], key)
		}
		for _, call := range []func([]byte) []byte{EditJSON, ActJSON, DragJSON} {
			require.NoError(t, json.Unmarshal(call([]byte(req)), &m), req)
			assert.Equal(t, byte('['), m["changes"][0], req)
		}
	}
}

func TestRubbishIsUnknown(t *testing.T) {
	for _, req := range []string{
		``, `x`, `[]`, `null`, `3`, `{}`, `{"plan": null}`, `{"plan": []}`, `{"plan": {}}`, `{"plan": {"tree": 3, "points": {}, "lines": "x", "gear": [1, [], null]}}`,
		`{"plan": {"lines": [{"path": [null, 3, {"stem_m": {}}], "tackle": {"stages": [3], "haul_path": {}}, "puller": []}]}}`,
		`{"plan": {"gear": [{"reductions": [1, {"factor": "x"}], "line": {}, "point": [], "wll_t": {}}], "plus_minus": {"": 1, "x[": 2, "gear[0].@place": 3, "points": {}}}}`,
		`{"plan": {"points": [{"anchor": {"kind": 3, "legs": 5, "rows": [null, {}, "x"]}}]}, "settings": 7, "boxes": "x"}`,
		`{"plan": {"tree": {"height_m": 1e999}}, "boxes": {"side": {"w": 1e300, "h": -5}}}`,
	} {
		v := viewed(t, []byte(req))
		assert.Equal(t, "unknown", v.Headline.Verdict, req)
		assert.NotEmpty(t, v.Headline.Sentence, req)
		assert.NotEmpty(t, v.Problems, req)
	}
}

// Plans spoiled at random never break the view, and where the report has a
// problem the headline does not reassure.
func TestSpoiledPlans(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	rubbish := []any{nil, "x", "", -1, 0, 1e300, true, []any{}, map[string]any{}, []any{nil}, map[string]any{"id": "A"}, "pull", "A"}
	for range 150 {
		d := drafttest.Parse([]byte(drafttest.Full))
		if rng.IntN(2) == 0 {
			d = drafttest.Parse(drafttest.Demo(t))
		}
		spoil(d.Tree, rng, rubbish)
		raw := text(t, d)
		rep := plan.Evaluate([]byte(raw))
		req := askedFor(t, []byte(raw), []string{"kN", "tf", "us"}[rng.IntN(3)])
		v := viewed(t, req)
		if len(rep.Problems) > 0 || rep.Verdict == rigging.Unknown {
			require.Contains(t, []string{"unknown", "over"}, v.Headline.Verdict, raw)
		} else {
			require.Equal(t, rep.Verdict.String(), v.Headline.Verdict, raw)
		}
	}
}

func spoil(v any, rng *rand.Rand, rubbish []any) {
	switch x := v.(type) {
	case map[string]any:
		keys := slices.Sorted(maps.Keys(x))
		if len(keys) == 0 {
			return
		}
		key := keys[rng.IntN(len(keys))]
		if rng.IntN(3) == 0 {
			x[key] = rubbish[rng.IntN(len(rubbish))]
		} else {
			spoil(x[key], rng, rubbish)
		}
	case []any:
		if len(x) == 0 {
			return
		}
		i := rng.IntN(len(x))
		if rng.IntN(4) == 0 {
			x[i] = rubbish[rng.IntN(len(rubbish))]
		} else {
			spoil(x[i], rng, rubbish)
		}
	}
}

func FuzzCalls(f *testing.F) {
	f.Add([]byte(`{"plan": ` + drafttest.Full + `, "path": "tree.height_m", "text": "3", "do": "add", "handle": "side/stem"}`))
	f.Add([]byte(`{"plan": {"lines": [{"path": [1]}]}, "path": "lines[0].path[0].@at", "text": "stem", "do": "remove"}`))
	f.Add([]byte(`{"plan": {"plus_minus": {"gear[": 1}}, "path": "plus_minus.gear[", "text": "2", "do": "up"}`))
	f.Fuzz(func(t *testing.T, req []byte) {
		for _, call := range []func([]byte) []byte{ViewJSON, EditJSON, ActJSON, DragJSON} {
			if out := call(req); !json.Valid(out) || strings.Contains(string(out), "fault in the program") {
				t.Fatalf("%s", out)
			}
		}
	})
}

func BenchmarkView(b *testing.B) {
	raw := drafttest.Demo(b)
	rep := plan.Evaluate(raw)
	b.Run("without report and drawings", func(b *testing.B) {
		for b.Loop() {
			viewOf(drafttest.Parse(raw), &units.US, &rep, false)
		}
	})
	b.Run("whole call", func(b *testing.B) {
		req := askedFor(b, raw, "us")
		for b.Loop() {
			ViewJSON(req)
		}
	})
	// A frame of a drag.
	b.Run("light with drawings", func(b *testing.B) {
		var m map[string]any
		require.NoError(b, json.Unmarshal(askedFor(b, raw, "kN"), &m))
		box := map[string]any{"w": 700, "h": 400}
		m["light"], m["boxes"] = true, map[string]any{"side": box, "plan": box, "curve": box}
		req, err := json.Marshal(m)
		require.NoError(b, err)
		for b.Loop() {
			ViewJSON(req)
		}
	})
}

// Out of its place in the form, a problem says which part it lies in.
func TestProblemsSayWhere(t *testing.T) {
	v := viewed(t, askedFor(t, []byte(`{"tree": {"height_m": 28, "diameter_cm": 60, "lean_deg": 0}, "points": [{"id": "A", "bearing_deg": 0}, {"id": "B", "bearing_deg": 0}]}`), "kN"))
	var said []string
	for _, p := range v.Problems {
		said = append(said, p.Message)
	}
	all := strings.Join(said, "\n")
	assert.Contains(t, all, "Point A: ")
	assert.Contains(t, all, "Point B: ")
	assert.True(t, strings.HasPrefix(v.Headline.Sentence, "Point A: "), v.Headline.Sentence)
}

// A tree that goes by itself leaves the line with nothing to carry: the
// headline says so and gives no use that could reassure.
func TestHeadlineOfALineThatOnlySteers(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/demo.json")
	require.NoError(t, err)
	text := strings.Replace(string(raw), `"lean_deg": 4, "lean_bearing_deg": 155`, `"lean_deg": 15, "lean_bearing_deg": 0`, 1)
	var v View
	require.NoError(t, json.Unmarshal(ViewJSON([]byte(`{"plan":`+text+`}`)), &v))
	assert.Contains(t, v.Headline.Sentence, "only steers")
	assert.Equal(t, units.None, v.Headline.Use)
}

// A hinge that is not estimated to hold the side moment is over, and said so
// though every piece is within.
func TestHeadlineNamesTheHinge(t *testing.T) {
	h := viewed(t, askedFor(t, drafttest.Demo(t), "kN")).Headline
	assert.NotContains(t, h.Sentence, "to the side")
	thin := strings.NewReplacer(`"hinge_length_cm": 62`, `"hinge_length_cm": 20`, `"hinge_left_cm": 8`, `"hinge_left_cm": 4`, `"hinge_right_cm": 8`, `"hinge_right_cm": 4`,
		`"role": "hold"`, `"role": "pull"`).Replace(string(drafttest.Demo(t)))
	h = viewed(t, askedFor(t, []byte(thin), "kN")).Headline
	var codes []string
	for _, y := range h.Why {
		codes = append(codes, y.Code)
	}
	assert.Contains(t, codes, "side_hold")
	assert.Equal(t, "over", h.Verdict)
}
