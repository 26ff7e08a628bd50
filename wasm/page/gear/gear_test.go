package gear

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/jsontext/jsontest"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
)

// storeOf is an invented gear list.
const storeOf = `{"kind": "pull-line gear", "version": 1, "pieces": [
  {"id": "rope 1", "kind": "wire_rope", "mbl_kN": 190, "design_factor": 3, "size": "14 mm", "next_inspection": "2026-07-10"},
  {"id": "shackle 4", "kind": "shackle", "wll_t": 4.75, "retired": true},
  {"id": "strop", "kind": "sling", "wll_kN": 40, "hitch_factor": 0.8, "reductions": [{"why": "edge", "factor": 0.9}]},
  {"id": "odd", "kind": "sling", "wll_t": "four"}
]}`

// called sends a call about the gear list.
func called(t testing.TB, list string, more map[string]any) View {
	t.Helper()
	req := map[string]any{"today": "2026-05-01", "settings": map[string]any{"units": "kN", "words": "nz"}}
	if list != "" {
		req["list"] = json.RawMessage(list)
	}
	for key, v := range more {
		if raw, ok := v.(json.RawMessage); ok {
			req[key] = raw
			continue
		}
		req[key] = v
	}
	raw, err := json.Marshal(req)
	require.NoError(t, err)
	var out View
	require.NoError(t, json.Unmarshal(JSON(raw), &out))
	return out
}

func TestEveryFieldOfTheGearListIsWritten(t *testing.T) {
	r := rand.New(rand.NewPCG(43, 1))
	for range 20 {
		var v View
		jsontest.Fill(&v, r, r.Float64(), "text", 7, true, map[string]any{"a": []string{"b"}})
		jsontest.SameAsTags(t, &v, v.AppendJSON)
	}
	jsontest.SameAsTags(t, &View{}, (&View{}).AppendJSON)
	jsontest.SameAsTags(t, &View{Sheet: &Worksheet{}}, (&View{Sheet: &Worksheet{}}).AppendJSON)
}

func TestGearListStates(t *testing.T) {
	out := called(t, storeOf, map[string]any{"do": "view"})
	require.Len(t, out.Rows, 4)
	var states []string
	for _, r := range out.Rows {
		states = append(states, r.State)
		assert.NotEmpty(t, r.Word)
		assert.NotEmpty(t, r.Sentence)
		assert.Equal(t, strings.ToLower(r.Find), r.Find)
	}
	assert.Equal(t, []string{"in_date", "retired", "undated", "unknown"}, states)
	assert.Equal(t, "190\u00a0kN breaking load, 14 mm", out.Rows[0].Line)
	assert.Equal(t, 1, out.Rows[3].Problems)
	assert.Contains(t, out.Day, "2026-05-01")
	// The plan's day goes before the page's.
	out = called(t, storeOf, map[string]any{"do": "view", "plan": json.RawMessage(`{"pull_date": "2026-07-11", "points": [{"id": "A"}], "lines": [{"id": "pull"}]}`)})
	assert.Equal(t, "past", out.Rows[0].State)
	assert.Equal(t, []parts.Option{{Value: "line/pull", Label: "on line pull"}, {Value: "stem/pull", Label: "at the stem, line pull"}, {Value: "point/A", Label: "at point A"}}, out.Places)
	// Without a day nothing is in date.
	out = called(t, storeOf, map[string]any{"do": "view", "today": "today"})
	assert.Equal(t, "unknown", out.Rows[0].State)
	for f := plan.Fitness(0); f.Word() != "in_date"; f++ {
		assert.NotEmpty(t, fitnessWords[f])
	}
}

func TestGearListForm(t *testing.T) {
	out := called(t, storeOf, map[string]any{"do": "view", "path": "pieces[3]"})
	form := drafttest.Fields(out.Form)
	for _, path := range []string{"id", "kind", "@basis", "wll_t", "hitch_factor", "size", "terminations", "notes", "last_inspection", "next_inspection", "retired"} {
		assert.Contains(t, form, "pieces[3]."+path)
	}
	assert.NotEmpty(t, form["pieces[3].wll_t"].Problem)
	assert.NotContains(t, form, "pieces[3].cleared", "that is for one plan to say")
	for path, f := range form {
		assert.NotContains(t, f.Label, "pieces[", path)
	}
	for _, c := range []struct{ path, text, key, want string }{
		{"pieces[3].wll_t", "4,5", "wll_t", "4.5"},
		{"pieces[3].next_inspection", "2026/7/1", "next_inspection", "2026-07-01"},
		{"pieces[3].next_inspection", "1/7/2026", "next_inspection", "1/7/2026"},
		{"pieces[3].retired", "true", "retired", "true"},
		{"pieces[3].id", "new name", "id", "new name"},
	} {
		out := called(t, storeOf, map[string]any{"do": "edit", "path": c.path, "text": c.text})
		after := drafttest.Apply(t, []byte(storeOf), parts.Changes{Changes: out.Changes})
		v, _ := drafttest.Parse(after).At(c.path)
		assert.Equal(t, c.want, draft.Written(v), c.path)
	}
	for _, path := range []string{"kind", "version", "pieces", "pieces[9].id", "gear[0].id", "pieces[0].nothing", ""} {
		out := called(t, storeOf, map[string]any{"do": "edit", "path": path, "text": "x"})
		assert.Empty(t, out.Changes, path)
		assert.NotEmpty(t, out.Message, path)
	}
}

func TestGearListActs(t *testing.T) {
	list := storeOf
	do := func(act, path string) {
		out := called(t, list, map[string]any{"do": "act", "act": act, "path": path})
		require.Empty(t, out.Message)
		list = string(drafttest.Apply(t, []byte(list), parts.Changes{Changes: out.Changes}))
	}
	do("add", "pieces")
	do("retire", "pieces[0]")
	do("unretire", "pieces[1]")
	do("add", "pieces[4].reductions")
	do("remove", "pieces[3]")
	d := drafttest.Parse([]byte(list))
	assert.Equal(t, 4, d.Size("pieces"))
	assert.Equal(t, "piece 5", d.Text("pieces[3].id"))
	assert.True(t, d.Flag("pieces[0].retired"))
	assert.False(t, d.Has("pieces[1].retired"))
	assert.Equal(t, 1, d.Size("pieces[3].reductions"))
	for _, bad := range [][2]string{{"explode", "pieces[0]"}, {"remove", "pieces"}, {"remove", "kind"}, {"remove", "pieces[9]"}, {"retire", ""}, {"add", "gear"}} {
		out := called(t, list, map[string]any{"do": "act", "act": bad[0], "path": bad[1]})
		assert.Empty(t, out.Changes)
		assert.NotEmpty(t, out.Message)
	}
	out := called(t, "", map[string]any{"do": "new"})
	assert.Equal(t, map[string]any{"kind": field.GearListKind, "version": 1.0, "pieces": []any{}}, out.List)
}

// A picked piece brings its limit and its dates with it: what is retired or
// past makes the plan unknown, by name.
func TestPick(t *testing.T) {
	base := drafttest.Parse(drafttest.Demo(t))
	base.Tree.(map[string]any)["pull_date"] = "2026-05-01"
	raw := draft.JSON(base.Tree)
	last := base.Size("gear")
	require.Equal(t, rigging.Within, plan.Evaluate([]byte(raw)).Verdict)
	pick := func(path, place string) (View, plan.Report) {
		out := called(t, storeOf, map[string]any{"do": "pick", "path": path, "text": place, "plan": json.RawMessage(raw)})
		assert.Empty(t, out.Changes, "the list stays")
		return out, plan.Evaluate(drafttest.Apply(t, []byte(raw), parts.Changes{Changes: out.Plan}))
	}
	out, rep := pick("pieces[0]", "line/pull")
	assert.Equal(t, rigging.Within, rep.Verdict)
	assert.Equal(t, "rope 1", rep.Gear[last].ID)
	assert.Equal(t, draft.Elem("gear", last), out.Focus)
	_, rep = pick("pieces[2]", "point/R")
	assert.NotEqual(t, rigging.Unknown, rep.Verdict)
	assert.InDelta(t, 40*0.8*0.9, float64(rep.Gear[last].CapacityKN), 1e-9) // limit × hitch × reduction, exact but for rounding
	out, rep = pick("pieces[1]", "stem/pull")
	assert.Equal(t, rigging.Unknown, rep.Verdict)
	require.NotEmpty(t, rep.Problems)
	assert.Equal(t, "problem.retired", rep.Problems[0].Saying.Key)
	assert.Contains(t, strings.ToLower(out.Message), "retired")
	_, rep = pick("pieces[3]", "stem/pull")
	assert.Equal(t, rigging.Unknown, rep.Verdict)
	for _, bad := range [][2]string{{"pieces[0]", ""}, {"pieces[0]", "choose"}, {"pieces[0]", "line/none"}, {"pieces[9]", "line/pull"}, {"", "line/pull"}, {"pieces[0].id", "line/pull"}} {
		out, _ := pick(bad[0], bad[1])
		assert.Empty(t, out.Plan, bad)
		assert.NotEmpty(t, out.Message, bad)
	}
	// Picked twice it gets another name and a question.
	out, _ = pick("pieces[0]", "line/pull")
	twice := string(drafttest.Apply(t, []byte(raw), parts.Changes{Changes: out.Plan}))
	again := called(t, storeOf, map[string]any{"do": "pick", "path": "pieces[0]", "text": "line/pull", "plan": json.RawMessage(twice)})
	assert.Contains(t, again.Message, "rope 1 2")
}

func TestTablesOfGear(t *testing.T) {
	out := called(t, storeOf, map[string]any{"do": "export-csv"})
	assert.Contains(t, out.File, "rope 1,wire_rope")
	in := called(t, `{"kind": "pull-line gear", "version": 1, "pieces": []}`, map[string]any{"do": "import-csv", "text": out.File})
	assert.Len(t, in.Changes, 3)
	assert.Contains(t, in.Rest, "four")
	require.Len(t, in.Notes, 1)
	assert.Contains(t, in.Notes[0].Message, "Row 5, column wll_t")
	assert.Contains(t, in.Message, "3 pieces added")
	assert.Contains(t, in.Message, "1 row is not taken")

	in = called(t, storeOf, map[string]any{"do": "import-json", "text": storeOf})
	assert.Empty(t, in.Changes)
	assert.Contains(t, in.Message, "4 were already in the list")
	in = called(t, storeOf, map[string]any{"do": "import-json", "text": `{"version": 1, "tree": {}}`})
	assert.Empty(t, in.Changes)
	assert.Contains(t, in.Message, "Nothing was added")
}

func TestWorksheetCall(t *testing.T) {
	answers := map[string]any{}
	ask := func(do string, more map[string]any) View {
		req := map[string]any{"do": do, "path": "pieces[0]", "answers": answers, "date": "2026-5-1", "by": "invented"}
		for k, v := range more {
			req[k] = v
		}
		return called(t, storeOf, req)
	}
	out := ask("sheet", nil)
	require.NotNil(t, out.Sheet)
	assert.Equal(t, "open", out.Sheet.Outcome)
	assert.False(t, out.Sheet.Ready)
	out = ask("record", nil)
	assert.Empty(t, out.Changes, "nothing is recorded with a question open")
	require.NotNil(t, out.Sheet)
	for _, f := range out.Sheet.Form[0].Fields {
		key := strings.TrimPrefix(f.Path, "answers.")
		switch {
		case f.Kind == fields.Number && f.Unit != "":
			answers[key] = "14"
		case f.Kind == fields.Number:
			answers[key] = "0"
		case f.Options[1].Value == rigging.No:
			answers[key] = rigging.No
		default:
			answers[key] = f.Options[1].Value
		}
	}
	out = ask("sheet", nil)
	assert.Equal(t, "keep", out.Sheet.Outcome)
	assert.True(t, out.Sheet.Ready)
	assert.False(t, ask("sheet", map[string]any{"date": ""}).Sheet.Ready)

	answers["kink"] = rigging.Yes
	out = ask("record", map[string]any{"retire": true})
	after := drafttest.Parse(drafttest.Apply(t, []byte(storeOf), parts.Changes{Changes: out.Changes}))
	assert.Equal(t, "retire", after.Text("pieces[0].worksheet.outcome"))
	assert.Equal(t, "2026-05-01", after.Text("pieces[0].worksheet.date"))
	assert.Equal(t, "invented", after.Text("pieces[0].worksheet.by"))
	assert.Equal(t, "14 mm", after.Text("pieces[0].worksheet.answers.nominal_diameter"))
	assert.True(t, after.Flag("pieces[0].retired"))
	_, problems := plan.ReadInventory(after.Tree)
	assert.Len(t, problems, 1, "only what was wrong before")

	// Found wanting and not retired, it is not put into a plan.
	out = ask("record", nil)
	list := string(drafttest.Apply(t, []byte(storeOf), parts.Changes{Changes: out.Changes}))
	assert.Equal(t, "found", called(t, list, map[string]any{"do": "view"}).Rows[0].State)
	picked := called(t, list, map[string]any{"do": "pick", "path": "pieces[0]", "text": "line/pull", "plan": json.RawMessage(drafttest.Demo(t))})
	assert.Empty(t, picked.Plan)
	assert.NotEmpty(t, picked.Message)

	// A length that cannot be read is no answer; in inches it is the same one.
	delete(answers, "kink")
	answers["diameter_now"] = "thin"
	out = ask("sheet", nil)
	assert.Equal(t, "open", out.Sheet.Outcome)
	assert.NotEmpty(t, drafttest.Fields(out.Sheet.Form)["answers.diameter_now"].Problem)
	answers["nominal_diameter"], answers["diameter_now"] = "5/8 in", "0.57 in" // loses 0.055 in, more than 3/64
	assert.Equal(t, "retire", ask("sheet", nil).Sheet.Outcome)
}

func FuzzInventory(f *testing.F) {
	f.Add([]byte(`{"do": "view", "list": ` + storeOf + `, "path": "pieces[0]"}`))
	f.Add([]byte(`{"do": "sheet", "list": ` + storeOf + `, "path": "pieces[1]", "answers": {"bent": 7}}`))
	f.Add([]byte(`{"do": "pick", "list": {"pieces": [null, 3, {"id": []}]}, "path": "pieces[2]", "plan": {"lines": 3}}`))
	f.Add([]byte(`{"do": "import-csv", "list": {}, "text": "id;kind\n\"", "plan": 7}`))
	f.Add([]byte(`{`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		out := JSON(raw)
		v, err := jsontext.Parse(out)
		require.NoError(t, err)
		require.NotContains(t, string(out), "fault in the program", "%s", raw)
		for _, key := range []string{"changes", "rows", "places", "problems"} {
			_, isList := draft.Member(v, key).([]any)
			require.True(t, isList, key)
		}
	})
}

// What is too long, too wide or too many of a table is refused with a sentence,
// and what is shown of it stays small.
func TestHostileTables(t *testing.T) {
	for name, text := range map[string]string{
		"columns":   strings.Repeat("a,", 500_000),
		"no names":  "id,kind" + strings.Repeat(",", 500_000) + "\nA,sling",
		"rows":      "id,kind\n" + strings.Repeat("\n", 1_900_000),
		"bad rows":  "id,kind\n" + strings.Repeat("a\n", 900_000),
		"wide row":  "id,kind\n" + strings.Repeat("a,", 900_000),
		"long cell": "id,kind\n" + strings.Repeat("a", 1_900_000) + ",sling",
	} {
		im := plan.ImportCSV(text, nil)
		assert.Empty(t, im.Pieces, name)
		assert.NotEmpty(t, im.Problems, name)
		assert.LessOrEqual(t, len(im.Problems), 10_000, name)
		req, err := json.Marshal(map[string]any{"do": "import-csv", "list": json.RawMessage(storeOf), "text": text})
		require.NoError(t, err)
		out := JSON(req)
		assert.Less(t, len(out), 200_000, name)
		assert.Contains(t, string(out), "fix them in the file", name)
	}
}
