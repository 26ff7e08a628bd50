package bench

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// askTackle shows the bench of tackles with values, the action do first.
func askTackle(t *testing.T, values map[string]string, do string) *View {
	t.Helper()
	return askFor(t, map[string]any{"bench": "tackle", "values": values, "do": do, "box": boxes, "curve_box": boxes,
		"settings": map[string]string{"units": "us"}})
}

// US Navy training course, Steelworker 2, allowance for friction: 1,000 lb on
// a twofold purchase of four sheaves takes 350 lb on the hauling part.
func TestTackleBenchNavyExample(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "tackle", "values": map[string]string{"tackle": "simple-4-fixed"}, "set": "load_kN", "text": "1000 lbf",
		"settings": map[string]string{"units": "us"}})
	assert.Equal(t, "350\u00a0lbf", b.fact("field"))
	assert.Equal(t, "4 : 1", b.fact("ideal"))
	assert.Equal(t, "4", b.fact("rope"))
	// A tenth lost at every sheave: 1000/(0.9 + 0.81 + 0.729 + 0.6561), rounded up.
	assert.Equal(t, "324\u00a0lbf", b.fact("pull"))
}

// Builder 2 & 3, ch. 4, without friction: 200 lb on a gun tackle takes 100,
// 600 lb on a single luff 200. Nicholls's Seamanship: a 3:1 on a twofold
// purchase multiplies by 12; 10 tons by the field rule take 1⅓.
func TestTackleBenchPublished(t *testing.T) {
	for _, c := range []struct{ key, load, fact, want string }{
		{"simple-2-moving", "200 lbf", "pull", "100\u00a0lbf"},
		{"simple-3-moving", "600 lbf", "pull", "200\u00a0lbf"},
		{"compound-4-fixed-3", "20000 lbf", "ideal", "12 : 1"},
		{"compound-4-fixed-3", "20000 lbf", "field", "2670\u00a0lbf"}, // 2 666⅔, rounded up
		{"complex-15-third-order", "20000 lbf", "ideal", "15 : 1"},    // Khurmi, example 11.19
	} {
		b := askFor(t, map[string]any{"bench": "tackle", "values": map[string]string{"tackle": c.key, "efficiency": "1"}, "set": "load_kN", "text": c.load,
			"settings": map[string]string{"units": "us"}})
		assert.Equal(t, c.want, b.fact(c.fact), "%s %s", c.key, c.fact)
	}
}

// Without friction the advantage of the tensions is that of the velocities,
// whatever the tackle; with friction it is less. There are twelve and more.
func TestTackleBenchAdvantages(t *testing.T) {
	options := tackle.inputs[0].options
	require.GreaterOrEqual(t, len(options), 13)
	for _, o := range options {
		if o.Value == ownReeving {
			continue
		}
		b := askTackle(t, map[string]string{"tackle": o.Value, "efficiency": "1"}, "")
		assert.Equal(t, b.fact("ideal"), b.fact("actual"), o.Value)
		assert.Equal(t, strings.TrimSuffix(b.fact("ideal"), " : 1"), b.fact("rope"), o.Value)
		less := askTackle(t, map[string]string{"tackle": o.Value, "efficiency": "0.9"}, "")
		assert.NotEqual(t, less.fact("ideal"), less.fact("actual"), o.Value)
		for _, step := range b.Working {
			assert.NotContains(t, step.Formula, "+ −", o.Value)
			assert.NotContains(t, step.Formula, "− −", o.Value)
		}
	}
}

// The working of a 3:1: L is the load, A the anchor, H the haul.
func TestTackleBenchWorking(t *testing.T) {
	b := askTackle(t, map[string]string{"tackle": ownReeving, "reeving": "load-anchor-load-haul"}, "")
	var formulas []string
	for _, step := range b.Working {
		formulas = append(formulas, step.Formula)
	}
	assert.Equal(t, []string{"3·v(L) − v(H) = 0", "S₂ = S₁/η; F = S₂/η", "S₁ + S₂ + F = W", "W·(1 + n/10)/A", "W/F", "S₁ + S₂", "S₁ + S₂ + F", "F·m", "F·m",
		"v(H), with that of the load as 1", "rope/A"}, formulas)
	b = askTackle(t, map[string]string{"tackle": ownReeving, "reeving": "load-anchor-block1;load-block1-load-haul"}, "")
	assert.Equal(t, "S₁ + S₃ + S₄ + F = W; S₂ = S₃ + S₄", b.Working[2].Formula)
}

// A 3:1, reeved step by step, shows no number until it is whole, and is the
// ready-made one then.
func TestTackleReevedByHand(t *testing.T) {
	b := askTackle(t, map[string]string{}, doReeveAnew)
	assert.Equal(t, "", b.Values["reeving"])
	for _, letter := range []string{"load", "anchor", "load", "haul"} {
		require.Empty(t, b.Facts)
		require.Empty(t, b.Working)
		require.Nil(t, b.Curve)
		require.Nil(t, b.Guess)
		require.NotEmpty(t, b.Lacks)
		require.NotNil(t, b.Picture)
		require.Empty(t, b.Picture.Handles)
		b = askTackle(t, b.Values, doReeveTo+letter)
	}
	require.Equal(t, "load-anchor-load-haul", b.Values["reeving"])
	require.Empty(t, b.Lacks)
	ready := askTackle(t, map[string]string{"tackle": "simple-3-moving"}, "")
	for _, f := range ready.Facts {
		if !strings.HasPrefix(f.ID, "node-") {
			assert.Equal(t, f.Value, b.fact(f.ID), f.ID)
		}
	}

	b = askTackle(t, b.Values, doUndo)
	assert.Equal(t, "load-anchor-load", b.Values["reeving"])
	assert.Empty(t, b.Facts)
	for range 3 {
		b = askTackle(t, b.Values, doUndo)
	}
	assert.Equal(t, "", b.Values["reeving"])
	assert.Contains(t, b.Lacks, "Nothing is reeved yet")
	// What is not offered is not done.
	b = askTackle(t, b.Values, doReeveTo+"haul")
	assert.Equal(t, "", b.Values["reeving"])
	assert.Contains(t, b.Message, "cannot")
}

// A complex one of two ropes: the first ends at a block that travels.
func TestTackleReevedOfTwoRopes(t *testing.T) {
	b := askTackle(t, map[string]string{}, doReeveAnew)
	for _, do := range []string{"load", "anchor", "block2", "", "load", "block2", "load", "haul"} {
		if do == "" {
			b = askTackle(t, b.Values, doNextRope)
			continue
		}
		b = askTackle(t, b.Values, doReeveTo+do)
	}
	assert.Equal(t, "load-anchor-block2;load-block2-load-haul", b.Values["reeving"])
	assert.Equal(t, "5 : 1", b.fact("ideal"))
	assert.Equal(t, "0.2 × the rope hauled", b.fact("travel-B₂"))
	assert.Contains(t, factLabel(b, "travel-B₂"), "toward the load")
}

func factLabel(b *View, id string) string {
	for _, f := range b.Facts {
		if f.ID == id {
			return f.Label
		}
	}
	return ""
}

// Every ready-made tackle can be taken to change, and is the same then.
func TestReadyTacklesCanBeChanged(t *testing.T) {
	for _, o := range tackle.inputs[0].options {
		if o.Value == ownReeving {
			continue
		}
		b := askTackle(t, map[string]string{"tackle": o.Value}, "")
		c := askTackle(t, map[string]string{"tackle": o.Value}, doChange)
		assert.Equal(t, ownReeving, c.Values["tackle"])
		assert.Equal(t, b.fact("pull"), c.fact("pull"), o.Value)
		assert.Equal(t, b.fact("ideal"), c.fact("ideal"), o.Value)
	}
}

// What does not work says why, and shows no number.
func TestTackleThatDoesNotWork(t *testing.T) {
	for text, says := range map[string]string{
		"":                                  "Nothing is reeved yet",
		";":                                 "Nothing is reeved yet",
		"anchor":                            "made fast at A",
		"anchor-block1":                     "no rope reaches the load",
		"anchor-load-anchor":                "haul it",
		"anchor-haul":                       "no rope reaches the load",
		"load-anchor-block1-load-haul":      "Each moving block takes one more rope: 2 here",
		"load-anchor-load-haul;anchor-load": "Too many ropes",
		"anchor-haul-load":                  "not the last",
		"load-anchor-anchor-load-haul":      "no length",
		"anchor-load-haulback":              "stands still",
		"anchor-load-anchor-load-haulback;load-block1-anchor-block1": "cannot be worked out",
		"load-anchor-load-haul;load-haulback":                        "Too many ropes",
	} {
		b := askTackle(t, map[string]string{"tackle": ownReeving, "reeving": text}, "")
		assert.True(t, b.Fresh, text)
		assert.Empty(t, b.Facts, text)
		assert.Empty(t, b.Working, text)
		assert.Nil(t, b.Curve, text)
		assert.Contains(t, b.Lacks, says, text)
	}
	b := askTackle(t, map[string]string{"tackle": ownReeving, "reeving": "load-anker-haul"}, "")
	assert.False(t, b.Fresh)
	assert.Empty(t, b.Facts)
}

// Whatever is reeved: a number only where the solver has one, and every
// picture can be drawn.
func TestTackleReevedAtRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	b := askTackle(t, map[string]string{}, doReeveAnew)
	worked := 0
	for range 400 {
		require.NotEmpty(t, b.Actions)
		do := b.Actions[r.IntN(len(b.Actions))].Do
		if want := doReeveTo + [...]string{"load", "load", "anchor", "anchor", "haul", "haul", "haulback", "block2"}[r.IntN(8)]; slices.ContainsFunc(b.Actions, func(a parts.Action) bool { return a.Do == want }) {
			do = want
		}
		if (do == doUndo || do == doReeveAnew) && r.IntN(3) > 0 && len(b.Facts) == 0 {
			continue
		}
		b = askTackle(t, b.Values, do)
		read, err := rigging.ParseReeving(b.Values["reeving"])
		require.NoError(t, err)
		_, err = read.Solve(0.9)
		assert.Equal(t, err == nil, len(b.Facts) > 0, b.Values["reeving"])
		assert.Equal(t, err != nil, b.Lacks != "", b.Values["reeving"])
		if err == nil {
			worked++
		}
		for _, h := range b.Picture.Handles {
			assert.True(t, h.X >= 0 && h.X <= 360 && h.Y >= 0 && h.Y <= 300, "%s: %+v", b.Values["reeving"], h)
		}
	}
	assert.Greater(t, worked, 10)
}

// Every ready tackle says where it is from, or that nothing says so.
func TestTacklesHaveSources(t *testing.T) {
	for _, o := range tackleOptions() {
		for _, n := range askFor(t, map[string]any{"bench": "tackle", "values": map[string]string{"tackle": o.Value}}).Notes {
			assert.NotEmpty(t, n.Source, "%s %s", o.Value, n.Code)
		}
	}
}

// What is hauled moves the load by the ideal advantage less.
func TestTackleTravel(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "tackle", "values": map[string]string{"tackle": "simple-4-fixed", "hauled_m": "8"}})
	assert.Equal(t, "2.00\u00a0m", b.fact("come"))
}

// The places in the picture that can be pressed are those of the buttons, in
// columns that do not overlap; pressing them one after the other reeves.
func TestTackleReevedInThePicture(t *testing.T) {
	b := askTackle(t, map[string]string{}, doReeveAnew)
	for _, place := range []string{"load", "anchor", "block1", "", "load", "block1", "load", "haul"} {
		var places []string
		for _, a := range b.Actions {
			if strings.HasPrefix(a.Do, doReeveTo) {
				places = append(places, a.Do+a.Label)
			}
		}
		edge := 0.0
		var spots []string
		do := doNextRope
		byPlace := slices.SortedFunc(slices.Values(b.Picture.Spots), func(s, r draw.Spot) int { return int(s.X - r.X) })
		for _, s := range byPlace {
			assert.GreaterOrEqual(t, s.X-s.W/2, edge-0.2, s.Label) // tenths of a pixel
			edge = s.X + s.W/2
			assert.GreaterOrEqual(t, s.W, 24.0, "room for a finger")
			assert.True(t, s.Y > 0 && s.Y < b.Picture.H, s.Label)
			spots = append(spots, s.Do+s.Label)
			if s.Do == doReeveTo+place {
				do = s.Do
			}
		}
		assert.LessOrEqual(t, edge, b.Picture.W+0.2)
		assert.ElementsMatch(t, places, spots)
		b = askTackle(t, b.Values, do)
	}
	assert.Equal(t, "load-anchor-block1;load-block1-load-haul", b.Values["reeving"])
	assert.Equal(t, "5 : 1", b.fact("ideal"))
	assert.Empty(t, b.Picture.Spots)
}

// Every part of every tackle is named in the picture of a phone, its tension
// stands there or below it, and the load of every place beside its name; the
// rows keep a line of text apart.
func TestTacklesCanBeReadOnAPhone(t *testing.T) {
	for _, o := range tackle.inputs[0].options {
		b := askFor(t, map[string]any{"bench": "tackle", "values": map[string]string{"tackle": o.Value, "reeving": "load-anchor-load-anchor-load-anchor-load-anchor-load-anchor-load-haul"},
			"box": map[string]any{"w": 312, "h": 267}})
		require.NotEmpty(t, b.Parts, o.Value)
		var texts []string
		for _, s := range b.Picture.Shapes {
			if s.Kind == "text" {
				texts = append(texts, s.Text)
			}
		}
		for _, p := range b.Parts {
			assert.True(t, slices.ContainsFunc(texts, func(s string) bool { return s == p.Label || strings.HasPrefix(s, p.Label+" ") }), "%s: %s among %q", o.Value, p.Label, texts)
			assert.Equal(t, "pull", p.Working)
			assert.True(t, slices.ContainsFunc(b.Working, func(s parts.Step) bool { return s.Path == "pull" && slices.Contains(s.Values, p.Label+" = "+p.Value) }), o.Value)
		}
		for _, f := range b.Facts {
			if strings.HasPrefix(f.ID, "node-") && !strings.Contains(f.Label, "at the load") {
				assert.True(t, slices.ContainsFunc(texts, func(s string) bool { return strings.HasSuffix(s, " "+f.Value) }), "%s: %s among %q", o.Value, f.Value, texts)
			}
		}
		assert.GreaterOrEqual(t, b.Picture.H, b.Height, o.Value)
		held := askFor(t, map[string]any{"bench": "tackle", "values": map[string]string{"tackle": o.Value}, "guess": true})
		assert.Empty(t, held.Parts, o.Value)
	}
}

// A plan with the same tackle, hauled on past its anchor along the line: the
// haul that may be needed, the anchor then, and what that haul can put on line
// and anchor where nothing rubs.
func TestTackleIsThePlans(t *testing.T) {
	const tension, efficiency = 20.0, 0.85
	haul := tension / (1 + efficiency + efficiency*efficiency)
	p := plumbPlan(14, 0, 40, tension)
	p["tree"].(map[string]any)["lean_deg"], p["tree"].(map[string]any)["lean_bearing_deg"] = 15, 0 // it goes by itself: all loads are standing
	sin, cos := math.Sincos(15 * math.Pi / 180)
	p["points"] = append(p["points"].([]any), map[string]any{"id": "M", "bearing_deg": 0, "distance_m": 40 + (40-14*sin)/2, "rise_m": -14 * cos / 2, "anchor": map[string]any{"kind": "rated", "capacity_kN": 90}})
	line := p["lines"].([]any)[0].(map[string]any)
	line["tackle"] = map[string]any{"stages": []any{map[string]any{"parts": 3, "haul_from": "moving"}}, "efficiency": efficiency, "haul_path": []any{map[string]any{"point": "M"}}}
	line["puller"] = map[string]any{"rated_kN": 30, "limited_by": "device", "setting_kN": haul}
	rep := equalPlan(t, p)
	b := askFor(t, map[string]any{"bench": "tackle", "values": map[string]string{"tackle": "simple-3-moving", "load_kN": "20", "efficiency": "0.85"}})
	shows := func(n plan.Num, id string) {
		assert.Equal(t, units.KN.Exact().Load(float64(n)), b.fact(id), id)
	}
	shows(rep.Lines[0].HaulKN, "pull")
	for _, f := range b.Facts {
		if f.Label == "Anchor A carries" {
			shows(rep.Points[0].LoadKN, f.ID)
		}
	}
	shows(rep.Lines[0].AtMostKN, "most-load")
	shows(rep.Points[0].AtMostKN, "most-A")
}
