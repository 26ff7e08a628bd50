package changes

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
)

type fields = map[string]any

func demo(t testing.TB) (d fields) {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/demo.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &d))
	return d
}

func treeOf(t testing.TB, v any) (tree any, size int) {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	tree, err = jsontext.Parse(text)
	require.NoError(t, err)
	return tree, len(text)
}

func entry(d fields, list string, i int) fields { return d[list].([]any)[i].(fields) }

func of(t testing.TB, d fields, o Options) Answer {
	t.Helper()
	tree, size := treeOf(t, d)
	a := Of(tree, size, o)
	hold(t, d, &a)
	return a
}

// hold holds an answer to what it promises: every change, made in the plan by hand,
// brings it within its limits with just the use said, none worsens a row, and they come
// by effort.
func hold(t testing.TB, d fields, a *Answer) {
	t.Helper()
	before := plan.Evaluate(must(json.Marshal(d)))
	assert.Equal(t, before.Verdict, a.Verdict)
	assert.Equal(t, len(a.Changes) == 0, a.None != "")
	was := map[string]rigging.Verdict{}
	for _, g := range before.Gear {
		was[g.ID] = g.Verdict
	}
	effort := 0
	for _, c := range a.Changes {
		var made fields
		require.NoError(t, json.Unmarshal(must(json.Marshal(d)), &made))
		for _, s := range c.Set {
			put(made, s.Path, s.To)
		}
		after := plan.Evaluate(must(json.Marshal(made)))
		require.Equal(t, rigging.Within, after.Verdict, "%v: %v", c.Set, after.Why)
		require.Equal(t, rigging.Within, c.Verdict)
		require.Equal(t, after.GoverningUse, c.Use)
		require.GreaterOrEqual(t, c.Effort, effort)
		effort = c.Effort
		for _, g := range after.Gear {
			if old, known := was[g.ID]; known {
				assert.Equal(t, old, old.Worse(g.Verdict), "%s after %v", g.ID, c.Set)
			}
		}
	}
}

func must(text []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return text
}

func put(d fields, path string, value any) {
	var at any = d
	steps := strings.FieldsFunc(path, func(r rune) bool { return strings.ContainsRune(".[]", r) })
	for i, step := range steps {
		switch o := at.(type) {
		case []any:
			k := 0
			fmt.Sscan(step, &k)
			if i == len(steps)-1 {
				o[k] = value
				return
			}
			at = o[k]
		case fields:
			if i == len(steps)-1 {
				o[step] = value
				return
			}
			if o[step] == nil {
				o[step] = fields{}
			}
			at = o[step]
		}
	}
}

func codes(a Answer) (out []string) {
	for _, c := range a.Changes {
		out = append(out, c.Code)
	}
	return out
}

func TestNothingToChange(t *testing.T) {
	t.Parallel()
	assert.Equal(t, NoneWithin, of(t, demo(t), Options{}).None)
	d := demo(t)
	delete(d["tree"].(fields), "height_m")
	assert.Equal(t, NoneIncomplete, of(t, d, Options{}).None)
	d = demo(t)
	d["tree"].(fields)["lean_deg"], d["tree"].(fields)["lean_bearing_deg"] = 25, 180 // out of the ordinary, whatever one does
	a := of(t, d, Options{})
	assert.Equal(t, NoneServes, a.None)
	assert.NotEqual(t, rigging.Within, a.Verdict)
}

// A sling that is too small: one from the gear list, named, and the least rating that
// serves, to two digits, a hair below which does not.
func TestStrongerPiece(t *testing.T) {
	t.Parallel()
	d := demo(t)
	entry(d, "gear", 1)["wll_t"] = 1.5
	list := fields{"kind": "pull-line gear", "version": 1, "pieces": []any{
		fields{"id": "thin sling", "kind": "sling", "wll_t": 1.6},
		fields{"id": "huge sling", "kind": "sling", "wll_t": 12},
		fields{"id": "right sling", "kind": "sling", "wll_t": 4},
		fields{"id": "retired sling", "kind": "sling", "wll_t": 3, "inspection": fields{"retired": true}},
		fields{"id": "good shackle", "kind": "shackle", "wll_t": 8},
	}}
	gear, _ := treeOf(t, list)
	a := of(t, d, Options{GearList: gear.(fields)})
	assert.Contains(t, codes(a), "piece")
	assert.Contains(t, codes(a), "rating")
	for _, c := range a.Changes {
		switch c.Code {
		case "piece":
			assert.Equal(t, "right sling", c.Set[0].To.(fields)["id"])
		case "rating":
			least := c.Set[0].To.(float64)
			entry(d, "gear", 1)["wll_t"] = least - 0.1
			assert.NotEqual(t, rigging.Within, plan.Evaluate(must(json.Marshal(d))).Verdict, "%v t would serve too", least-0.1)
		}
	}
}

// A device set too high is set lower; a puller that only stalls gets one.
func TestHeldToLess(t *testing.T) {
	t.Parallel()
	d := demo(t)
	puller := entry(d, "lines", 0)["puller"].(fields)
	puller["setting_kN"] = 13.5
	entry(d, "gear", 1)["wll_t"] = 3.3
	a := of(t, d, Options{})
	require.NotEmpty(t, a.Changes, "%v %v", a.Verdict, a.None)
	assert.Equal(t, "limit", a.Changes[0].Code)
	delete(puller, "setting_kN")
	puller["limited_by"], puller["stall_kN"] = "stall", 30
	a = of(t, d, Options{})
	assert.Contains(t, codes(a), "device")
}

// A tie too low is raised, and no higher than the leader allows.
func TestHigherTie(t *testing.T) {
	t.Parallel()
	d := demo(t)
	entry(d, "lines", 0)["path"].([]any)[0].(fields)["stem_m"] = 11
	d["tree"].(fields)["lean_deg"] = 4.5
	a := of(t, d, Options{})
	require.NotEqual(t, rigging.Within, a.Verdict)
	var to float64
	for _, c := range a.Changes {
		if c.Code == "tie" && c.Set[0].Path == "lines[0].path[0].stem_m" {
			to = c.Set[0].To.(float64)
		}
	}
	require.Greater(t, to, 11.0, "%v", codes(a))
	for _, c := range of(t, d, Options{TieUpTo: to - 0.5}).Changes {
		assert.False(t, c.Code == "tie" && c.Set[0].Path == "lines[0].path[0].stem_m")
	}
}

// Whatever the plan, what is offered holds what it promises.
func TestChangesServe(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 7))
	found, kinds := map[string]int{}, map[string]int{}
	for range 30 {
		d := demo(t)
		tree := d["tree"].(fields)
		tree["lean_deg"] = 2 + 5*r.Float64()
		entry(d, "lines", 0)["path"].([]any)[0].(fields)["stem_m"] = 9 + 6*r.Float64()
		entry(d, "lines", 0)["puller"].(fields)["setting_kN"] = 7 + 6*r.Float64()
		for range r.IntN(3) {
			g := entry(d, "gear", r.IntN(10))
			for _, limit := range []string{"wll_t", "mbl_kN"} {
				if v, ok := g[limit].(float64); ok {
					g[limit] = v * (0.2 + 0.6*r.Float64())
				}
			}
		}
		if r.IntN(3) == 0 {
			entry(d, "points", 4)["distance_m"] = 15 + 60*r.Float64()
		}
		a := of(t, d, Options{})
		found[a.None]++
		for _, c := range codes(a) {
			kinds[c]++
		}
	}
	assert.Greater(t, found[""], 10, "%v", found)
	assert.Greater(t, len(kinds), 5, "%v", kinds)
}

func TestRequests(t *testing.T) {
	t.Parallel()
	d := demo(t)
	entry(d, "gear", 1)["wll_t"] = 1.5
	text := string(must(json.Marshal(d)))
	ask := func(rest string) (a Answer) {
		require.NoError(t, json.Unmarshal(JSON([]byte(`{"plan": `+text+rest+`}`)), &a))
		return a
	}
	a := ask(`, "gear_list": {"kind": "pull-line gear", "version": 1, "pieces": [{"id": "right sling", "kind": "sling", "wll_t": 4}]}, "tie_up_to_m": 16`)
	require.NotEmpty(t, a.Changes)
	for _, c := range a.Changes {
		assert.NotEmpty(t, c.Message)
		assert.NotContains(t, c.Message, "%")
		assert.NotContains(t, c.Message, "{")
	}
	for _, rest := range []string{`, "tie_up_to_m": -1`, `, "gear_list": 3`, `, "more": 1`} {
		a := ask(rest)
		assert.NotEmpty(t, a.Problems, rest)
		assert.Empty(t, a.Changes)
		assert.Contains(t, []rigging.Verdict{rigging.Unknown, rigging.Over}, a.Verdict)
	}
	require.NoError(t, json.Unmarshal(JSON([]byte(`{}`)), &a))
	assert.Equal(t, NoneIncomplete, a.None)
}

// BenchmarkChanges looks for what would make the example right with a sling too small,
// and where only two changes together could.
func BenchmarkChanges(b *testing.B) {
	d := demo(b)
	entry(d, "gear", 1)["wll_t"] = 1.5
	one, size := treeOf(b, d)
	entry(d, "gear", 4)["wll_t"] = 0.8
	d["tree"].(fields)["lean_deg"] = 8
	two, _ := treeOf(b, d)
	for name, tree := range map[string]any{"one": one, "two": two} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Of(tree, size, Options{})
			}
		})
	}
}
