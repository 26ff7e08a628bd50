package plan

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
)

// everyWant is all that can be wanted of a report, and its value there, found by the
// struct tags: the names and values encoding/json would write.
func everyWant(t testing.TB, rep *Report) map[string]any {
	t.Helper()
	out := map[string]any{}
	single := func(prefix string, v reflect.Value) {
		for i := range v.NumField() {
			key, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			if key == "-" {
				continue
			}
			switch x := v.Field(i).Interface().(type) {
			case Num:
				out[prefix+key] = nil
				if x.Known() {
					out[prefix+key] = float64(x)
				}
			case rigging.Verdict:
				out[prefix+key] = x.String()
			case string, bool:
				out[prefix+key] = x
			}
		}
	}
	single("", reflect.ValueOf(*rep))
	single("tree.", reflect.ValueOf(rep.Tree))
	single("pull.", reflect.ValueOf(rep.Pull))
	single("brief.", reflect.ValueOf(rep.Brief))
	for i := len(rep.Lines) - 1; i >= 0; i-- { // of two with one name the first counts
		single("lines["+rep.Lines[i].ID+"].", reflect.ValueOf(rep.Lines[i]))
	}
	for i := len(rep.Points) - 1; i >= 0; i-- {
		single("points["+rep.Points[i].ID+"].", reflect.ValueOf(rep.Points[i]))
	}
	for i := len(rep.Gear) - 1; i >= 0; i-- {
		single("gear["+rep.Gear[i].ID+"].", reflect.ValueOf(rep.Gear[i]))
	}
	out["why"], out["why_path"] = "", ""
	if len(rep.Why) > 0 {
		out["why"], out["why_path"] = rep.Why[0].Code, rep.Why[0].Path
	}
	return out
}

// paths lists the path of every value of a document, and one beside it that is not
// there.
func paths(v any, at string, out *[]string) {
	switch v := v.(type) {
	case map[string]any:
		for _, key := range slices.Sorted(maps.Keys(v)) {
			if strings.ContainsAny(key, ".[]") {
				continue // the ± of a field
			}
			path := strings.TrimPrefix(at+"."+key, ".")
			*out = append(*out, path)
			paths(v[key], path, out)
		}
	case []any:
		for i := range v {
			path := fmt.Sprintf("%s[%d]", at, i)
			*out = append(*out, path)
			paths(v[i], path, out)
		}
	}
}

func treeOf(t testing.TB, v any) any {
	t.Helper()
	raw, err := json.Marshal(v)
	require.NoError(t, err)
	tree, err := jsontext.Parse(raw)
	require.NoError(t, err)
	return tree
}

// Every variation is what the plan itself evaluates to with those values in it,
// whatever is varied and however wrong the values are.
func TestVariationsAreEvaluations(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(91, 4))
	values := []any{nil, "", "A", "T1", true, -1.0, 0.0, 0.5, 2.5, 12.0, 90.0, 1e9, []any{}, fields{}, fields{"kind": "rated", "capacity_kN": 20.0}}
	verdicts := map[string]int{}
	for range 60 {
		d := anyPlan(t, r)
		var all []string
		paths(map[string]any(d), "", &all)
		all = append(all, "site.wind_mps", "planned_kN", "cut.stump_m", "tree.crown_fraction")
		v := Variations{Want: nil}
		for range 1 + r.IntN(3) {
			v.Paths = append(v.Paths, all[r.IntN(len(all))])
		}
		var plain []Report
		for range 4 {
			row, changed := make([]any, len(v.Paths)), parse(t, d.raw(t))
			for i, path := range v.Paths {
				row[i] = values[r.IntN(len(values))]
				if old, ok := d.at(path).(float64); ok && r.IntN(3) > 0 {
					row[i] = old * (0.9 + 0.2*r.Float64())
				}
			}
			if slices.ContainsFunc(v.Paths, func(path string) bool { return strings.Count(path, "[") > 0 }) && slices.Contains(row, any(nil)) {
				continue // a place in a list may be gone
			}
			ok := true
			for i, path := range v.Paths {
				ok = ok && setIn(changed, path, row[i])
			}
			if !ok {
				continue
			}
			v.Values = append(v.Values, row)
			plain = append(plain, Evaluate(changed.raw(t)))
		}
		if len(plain) == 0 {
			continue
		}
		want := everyWant(t, &plain[0])
		for k := range want {
			v.Want = append(v.Want, k)
		}
		slices.Sort(v.Want)
		tree := treeOf(t, d)
		for i := range v.Values {
			v.Values[i] = treeOf(t, v.Values[i]).([]any)
		}
		varied := Vary(tree, 0, &v)
		require.Len(t, varied.Rows, len(plain), "%v", varied.Problems)
		require.Empty(t, varied.Problems)
		assert.Equal(t, treeOf(t, d), tree, "the plan is as it was")
		for i := range plain {
			want := everyWant(t, &plain[i])
			verdicts[plain[i].Verdict.String()]++
			for k, name := range v.Want {
				require.Equal(t, want[name], varied.Rows[i][k], "%s of %v = %v in %s", name, v.Paths, v.Values[i], d.raw(t))
			}
		}
	}
	assert.Len(t, verdicts, 4, "%v", verdicts)
}

// setIn sets a value as a person would in the file; false where there is no such
// place any more.
func setIn(v any, path string, value any) bool {
	all := steps(path)
	for i, s := range all {
		last := i == len(all)-1
		switch s := s.(type) {
		case string:
			m, ok := v.(map[string]any)
			if d, is := v.(document); is {
				m, ok = d, true
			}
			if !ok {
				return false
			}
			switch {
			case last && value == nil:
				delete(m, s)
			case last:
				m[s] = value
			case m[s] == nil:
				m[s] = map[string]any{}
			}
			v = m[s]
		case int:
			l, ok := v.([]any)
			if !ok || s >= len(l) {
				return false
			}
			if last {
				l[s] = value
			}
			v = l[s]
		}
	}
	return true
}

// Less is worked out for less, and the numbers stay the same.
func TestWhatIsWantedSaysHowDeep(t *testing.T) {
	for want, depth := range map[string]Depth{
		"pull.peak_kN": ToPull, "tree.mass_kg": ToPull, "tree.side_hold_use": ToPull, "pull.hold_puller_to_kN": ToVerdict, "verdict": ToVerdict, "why": ToVerdict,
		"gear[pull rope].use": ToVerdict, "points[R].load_kN": ToVerdict, "lines[pull].haul_kN": ToVerdict, "lines[pull].energy_kJ": ToReport, "brief.keep_out_m": ToReport,
	} {
		w, ok := wantedOf(want)
		assert.True(t, ok, want)
		assert.Equal(t, depth, w.depth, want)
	}
	for _, none := range []string{"", ".", "pull", "pull.", "pull.curve", "pull.peak", "gear.use", "gear[].", "gear[x]", "gear[x].used", "pull[x].peak_kN", "[x].use", "verdict.", "working"} {
		_, ok := wantedOf(none)
		assert.False(t, ok, none)
	}
	w, ok := wantedOf("gear[a].use].use") // a name may hold what it likes
	assert.True(t, ok)
	assert.Equal(t, "a].use", w.id)
}

func vary(t testing.TB, request string) (rows [][]any, problems []Problem) {
	t.Helper()
	var out struct {
		Rows     [][]any
		Problems []Problem
	}
	require.NoError(t, json.Unmarshal(VaryJSON([]byte(request)), &out), request)
	return out.Rows, out.Problems
}

func TestVaryJSON(t *testing.T) {
	rows, problems := vary(t, `{"plan": `+string(demo(t))+`, "paths": ["tree.lean_deg", "allowance"], "values": [[4, 1.5], [6, null], [4, 0.5], [70, 1.5]],
		"want": ["verdict", "pull.peak_kN", "gear[pull/puller].use", "why", "why_path", "no_room"]}`)
	require.Empty(t, problems)
	require.Len(t, rows, 4)
	rep := Evaluate(demo(t))
	assert.Equal(t, []any{"within", float64(rep.Pull.PeakKN), float64(rep.GoverningUse), "", "", false}, rows[0])
	rep = Evaluate(demoDocument(t).set("tree.lean_deg", 6).raw(t)) // the allowance left out is 1.5
	assert.Equal(t, []any{rep.Verdict.String(), float64(rep.Pull.PeakKN), float64(rep.GoverningUse), rep.Why[0].Code, rep.Why[0].Path, rep.NoRoom}, rows[1])
	assert.Equal(t, "unknown", rows[2][0])
	assert.Equal(t, []any{"range", "allowance"}, rows[2][3:5])
	assert.Equal(t, []any{"unknown", nil}, rows[3][:2])
	assert.Equal(t, "tree.lean_deg", rows[3][4])

	// A place that a variation has not is a problem of that one alone.
	rows, problems = vary(t, `{"plan": {"points": [{}]}, "paths": ["points", "points[0].distance_m"], "values": [[[], 30], [[{}], 30], [4, 30]], "want": ["verdict", "why", "why_path"]}`)
	require.Empty(t, problems)
	assert.Equal(t, []any{"unknown", "no_such", "points[0]"}, rows[0])
	assert.NotEqual(t, "no_such", rows[1][1])
	assert.Equal(t, []any{"unknown", "no_such", "points[0]"}, rows[2])

	for request, path := range map[string]string{
		`{"plan": {}, "paths": ["a"], "values": [[1], [1, 2]], "want": []}`:          "values[1]",
		`{"plan": {}, "paths": ["a..b"], "values": [], "want": []}`:                  "paths[0]",
		`{"plan": {}, "paths": ["a", "[0]"], "values": [], "want": []}`:              "paths[1]",
		`{"plan": {}, "paths": ["a[-1]"], "values": [], "want": []}`:                 "paths[0]",
		`{"plan": {}, "paths": [""], "values": [], "want": []}`:                      "paths[0]",
		`{"plan": {}, "paths": [3], "values": [], "want": []}`:                       "paths[0]",
		`{"plan": {}, "paths": 3, "values": [], "want": []}`:                         "paths",
		`{"plan": {}, "paths": [], "values": [3], "want": []}`:                       "values[0]",
		`{"plan": {}, "paths": [], "values": {}, "want": []}`:                        "values",
		`{"plan": {}, "paths": [], "values": [[]], "want": ["verdict", "use"]}`:      "want[1]",
		`{"plan": {}, "paths": [], "values": [[]], "want": [null]}`:                  "want[0]",
		`{"plan": {}, "paths": [], "values": [[]], "want": ["gear[main rope].use"]}`: "want[0]",
		`{"plan": {}, "path": [], "values": [[]], "want": ["verdict"]}`:              "path",
		`{"plan": `: "",
	} {
		rows, problems := vary(t, request)
		require.NotEmpty(t, problems, request)
		assert.Equal(t, path, problems[0].Path, request)
		for _, row := range rows {
			assert.NotContains(t, row, "within")
		}
	}
	// What is no plan gives no verdict.
	for _, plan := range []string{`null`, `[1]`, `"x"`} {
		rows, problems := vary(t, `{"plan": `+plan+`, "paths": [], "values": [[]], "want": ["verdict", "why"]}`)
		assert.Empty(t, problems)
		assert.Equal(t, [][]any{{"unknown", "unreadable"}}, rows)
	}
	rows, problems = vary(t, `{}`)
	assert.Empty(t, problems)
	assert.Empty(t, rows)
}

func TestTooManyVariations(t *testing.T) {
	out := Vary(map[string]any{}, 0, &Variations{Values: make([][]any, MaxVariations+1)})
	require.NotEmpty(t, out.Problems)
	assert.Equal(t, CodeTooLong, out.Problems[0].Code)
	assert.Empty(t, out.Rows)
}

// varyDemo is the example plan in so many variations, of where the machine stands, the
// lean and a limit; it is the request of the page's benchmark too.
func varyDemo(t testing.TB, n int) []byte {
	var values []string
	for i := range n {
		values = append(values, fmt.Sprintf("[%g, %g, %g]", 30+float64(i%40), 50+float64(i/40%20), 3+float64(i%7)/3))
	}
	return []byte(`{"plan": ` + string(demo(t)) + `, "paths": ["points[4].bearing_deg", "points[4].distance_m", "tree.lean_deg"], "values": [` + strings.Join(values, ", ") + `],
		"want": ["verdict", "governing_use", "pull.peak_kN", "pull.hold_puller_to_kN", "points[M].use", "gear[pull/puller].use"]}`)
}

// BenchmarkVary works out two thousand variations of the example, JSON in and out.
func BenchmarkVary(b *testing.B) {
	request := varyDemo(b, 2000)
	b.ReportAllocs()
	for b.Loop() {
		VaryJSON(request)
	}
}
