package plan

import (
	"encoding/csv"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/field"
)

// gearList is an invented list with every field in it.
const gearList = `{"kind": "pull-line gear", "version": 1, "pieces": [
  {"id": "rope 1", "kind": "wire_rope", "mbl_kN": 190, "design_factor": 3, "reductions": [{"why": "hand-made eye", "factor": 0.86}, {"why": "a; b: c\\", "factor": 0.5}],
   "size": "14 mm, 60 m", "terminations": "eye with thimble", "last_inspection": "2026-01-10", "next_inspection": "2026-07-10", "notes": "=SUM(A1)\nsecond \"line\"",
   "worksheet": {"date": "2026-01-10", "by": "A. N. Other", "outcome": "keep", "answers": {"kink": "no"}, "notes": ""}},
  {"id": "shackle", "kind": "shackle", "wll_t": 4.75},
  {"id": "strop", "kind": "sling", "wll_kN": 40, "hitch_factor": 0.8, "retired": true}
]}`

func listTree(t testing.TB, raw string) map[string]any {
	t.Helper()
	tree, why := ParseInventory([]byte(raw))
	require.Empty(t, why)
	return tree
}

func TestReadInventory(t *testing.T) {
	pieces, problems := ReadInventory(listTree(t, gearList))
	assert.Empty(t, problems)
	require.Len(t, pieces, 3)
	assert.Equal(t, InventoryPiece{ID: "rope 1", Kind: "wire_rope", Last: Date{2026, 1, 10}, Next: Date{2026, 7, 10}, Outcome: rigging.Keep, Looked: Date{2026, 1, 10}, Sound: true}, pieces[0])
	assert.True(t, pieces[2].Retired)
	pieces, problems = ReadInventory(any(NewInventory()))
	assert.Empty(t, pieces)
	assert.Empty(t, problems)
}

func TestWrongInventories(t *testing.T) {
	with := func(piece string) string {
		return `{"kind": "pull-line gear", "version": 1, "pieces": [{"id": "ok", "kind": "other", "wll_t": 1}, ` + piece + `]}`
	}
	for raw, path := range map[string]string{
		`[]`:                           "",
		`null`:                         "",
		`{"version": 1, "pieces": []}`: "kind",
		`{"kind": "plan", "version": 1, "pieces": []}`:                      "kind",
		`{"kind": "pull-line gear", "pieces": []}`:                          "version",
		`{"kind": "pull-line gear", "version": 2}`:                          "version",
		`{"kind": "pull-line gear", "version": "1"}`:                        "version",
		`{"kind": "pull-line gear", "version": 1, "pieces": {}}`:            "pieces",
		`{"kind": "pull-line gear", "version": 1, "pieces": [], "more": 1}`: "more",
		with(`7`):                                                                                                                     "pieces[1]",
		with(`{"kind": "other", "wll_t": 1}`):                                                                                         "pieces[1].id",
		with(`{"id": "x", "wll_t": 1}`):                                                                                               "pieces[1].kind",
		with(`{"id": "x", "kind": "other"}`):                                                                                          "pieces[1].wll_kN",
		with(`{"id": "x", "kind": "rope", "wll_t": 1}`):                                                                               "pieces[1].kind",
		with(`{"id": "x", "kind": "other", "wll_t": "1"}`):                                                                            "pieces[1].wll_t",
		with(`{"id": "x", "kind": "other", "wll_t": -1}`):                                                                             "pieces[1].wll_t",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "wll_kN": 1}`):                                                                 "pieces[1].wll_t",
		with(`{"id": "x", "kind": "other", "mbl_kN": 100}`):                                                                           "pieces[1].design_factor",
		with(`{"id": "ok", "kind": "other", "wll_t": 1}`):                                                                             "pieces[1].id",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "line": "pull"}`):                                                              "pieces[1].line",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "cleared": "fine"}`):                                                           "pieces[1].cleared",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "next_inspection": "2026-02-29"}`):                                             "pieces[1].next_inspection",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "reductions": [{"factor": 2}]}`):                                               "pieces[1].reductions[0].factor",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "worksheet": 1}`):                                                              "pieces[1].worksheet",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "worksheet": {"outcome": "keep"}}`):                                            "pieces[1].worksheet.date",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "worksheet": {"date": "2026-01-01"}}`):                                         "pieces[1].worksheet.outcome",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "worksheet": {"date": "2026-01-01", "outcome": "open"}}`):                      "pieces[1].worksheet.outcome",
		with(`{"id": "x", "kind": "other", "wll_t": 1, "worksheet": {"date": "2026-01-01", "outcome": "keep", "answers": {"a": 1}}}`): "pieces[1].worksheet.answers.a",
	} {
		tree, err := jsontext.Parse([]byte(raw))
		require.NoError(t, err, raw)
		pieces, problems := ReadInventory(tree)
		paths := []string{}
		for _, p := range problems {
			paths = append(paths, p.Path)
			assert.NotEmpty(t, say(p.Saying))
		}
		assert.Contains(t, paths, path, raw)
		if len(pieces) == 2 {
			assert.True(t, pieces[0].Sound, raw)
			assert.False(t, pieces[1].Sound, raw)
			assert.Contains(t, []Fitness{FitUnknown, FitRetired}, pieces[1].On(Date{2026, 1, 1}), raw)
		}
	}
	for _, raw := range []string{``, `{`, `[]`, `7`, `{}`, `{"kind": "pull-line gear"}`, `{"kind": 7, "pieces": []}`, strings.Repeat("[", 1000), strings.Repeat(" ", MaxInventoryBytes+1)} {
		tree, why := ParseInventory([]byte(raw))
		assert.Nil(t, tree)
		assert.NotEmpty(t, say(why))
		assert.NotContains(t, say(why), "plan")
	}
}

func TestFitness(t *testing.T) {
	day := Date{2026, 5, 1}
	due := func(y, m, d int) InventoryPiece { return InventoryPiece{Sound: true, Next: Date{y, m, d}} }
	for _, c := range []struct {
		p    InventoryPiece
		want Fitness
	}{
		{due(2026, 4, 30), FitPast}, {due(2026, 5, 1), FitDue}, {due(2026, 5, 31), FitDue}, {due(2026, 6, 1), FitInDate},
		{InventoryPiece{Sound: true}, FitUndated}, {InventoryPiece{}, FitUnknown}, {InventoryPiece{Retired: true}, FitRetired},
		{InventoryPiece{Sound: true, Last: Date{2026, 5, 2}}, FitUnknown},
		{InventoryPiece{Sound: true, Next: Date{2027, 1, 1}, Outcome: rigging.Retire}, FitFound},
		{InventoryPiece{Sound: true, Next: Date{2027, 1, 1}, Outcome: rigging.Judged}, FitFound},
		{InventoryPiece{Sound: true, Next: Date{2027, 1, 1}, Outcome: rigging.Keep}, FitInDate},
	} {
		assert.Equal(t, c.want, c.p.On(day), c.p)
		if c.want != FitRetired {
			assert.Equal(t, FitUnknown, c.p.On(Date{}), "no day")
		}
	}
	words := map[string]bool{}
	for f := range fitnessEnds {
		words[f.Word()] = true
	}
	assert.Len(t, words, int(fitnessEnds))
}

func TestCSVRoundTrip(t *testing.T) {
	have := listTree(t, gearList)["pieces"].([]any)
	text, left := InventoryCSV(have)
	assert.Equal(t, []string{"worksheet"}, left)
	assert.Contains(t, text, "'=SUM", "no formula")
	im := ImportCSV(text, nil)
	assert.Empty(t, im.Problems)
	assert.Empty(t, im.Rest)
	require.Len(t, im.Pieces, 3)
	delete(have[0].(map[string]any), "worksheet")
	assert.Equal(t, have, im.Pieces)

	// Read again into the same list, nothing is there twice.
	im = ImportCSV(text, have)
	assert.Empty(t, im.Pieces)
	assert.Empty(t, im.Problems)
	assert.Equal(t, 3, im.Same)
}

func TestCSVTyped(t *testing.T) {
	for name, text := range map[string]string{
		"semicolons, decimal commas": "id;kind;wll_t;hitch_factor;reductions;retired\r\nA;sling;3,2;0,8;\"knot:0,5; bend:0,9\";no\r\n",
		"tabs":                       "kind\tid\twll_t\thitch_factor\treductions\nsling\tA\t3.2\t0.8\tknot:0.5; bend:0.9\n",
		"mark of the order of bytes": "\ufeffID,Kind,WLL_t,hitch_factor,reductions\rA,sling,3.2,.8,knot:0.5;bend:0.9",
		"quotes, blank rows":         "\n\"id\",\"kind\",\"wll_t\",\"hitch_factor\",\"reductions\",\n\n\"A\",\"sling\",\"3,2\",\"0,8\",\"knot:0,5; bend:0,9\",\n,,,,,\n",
	} {
		im := ImportCSV(text, nil)
		assert.Empty(t, im.Problems, name)
		require.Len(t, im.Pieces, 1, name)
		assert.Equal(t, map[string]any{"id": "A", "kind": "sling", "wll_t": jsontext.Number("3.2"), "hitch_factor": jsontext.Number("0.8"),
			"reductions": []any{map[string]any{"why": "knot", "factor": jsontext.Number("0.5")}, map[string]any{"why": "bend", "factor": jsontext.Number("0.9")}}}, im.Pieces[0], name)
	}
}

func TestCSVBadRowsComeBack(t *testing.T) {
	head := "id,kind,wll_t,design_factor,next_inspection,retired,reductions,notes"
	for row, column := range map[string]string{
		`,sling,1,,,,,`:               "id",
		`B,,1,,,,,`:                   "kind",
		`B,rope,1,,,,,`:               "kind",
		`B,sling,,,,,,`:               "wll_kN",
		`B,sling,one,,,,,`:            "wll_t",
		`B,sling,"1,200",,,,,`:        "wll_t",
		`B,sling,NaN,,,,,`:            "wll_t",
		`B,sling,-1,,,,,`:             "wll_t",
		`B,sling,1e999,,,,,`:          "wll_t",
		`B,sling,1,0.5,,,,`:           "design_factor",
		`B,sling,1,,31.3.2026,,,`:     "next_inspection",
		`B,sling,1,,2026-02-29,,,`:    "next_inspection",
		`B,sling,1,,,perhaps,,`:       "retired",
		`B,sling,1,,,,knot,`:          "reductions",
		`B,sling,1,,,,knot:2,`:        "reductions",
		`A,sling,1,,,,,`:              "id", // there already, with another limit
		`B,sling,1`:                   "",
		`B,sling,1,,,,,,`:             "",
		`"B"x,sling,1,,,,,`:           "",
		`B,sling,1,,,,,"never closed`: "",
		`B,sling,1,,,,,"two lines` + "\r\n" + `of it"x`: "",
	} {
		im := ImportCSV(head+"\r\nA,sling,2,,,,,\r\n"+row+"\r\n", nil)
		assert.Len(t, im.Pieces, 1, row)
		if assert.NotEmpty(t, im.Problems, row) {
			p := im.Problems[0]
			assert.Equal(t, 3, p.Row, row)
			assert.Equal(t, column, p.Column, row)
			assert.NotEmpty(t, say(p.Saying), row)
		}
		assert.Equal(t, head+"\r\n"+row, strings.TrimSuffix(im.Rest, "\r\n"), row)
	}
	// Where the columns cannot be told, nothing is taken and all comes back.
	for _, text := range []string{"", "\n\n", "id\nA", "id,kind,wll\nA,sling,1", "id,id,kind,wll_t\nA,A,sling,1", "A,sling,2\nB,sling,3", "id,,kind,wll_t\nA,,sling,1", "\"id,kind,wll_t\nA,sling,1", strings.Repeat("x", MaxInventoryBytes+1)} {
		im := ImportCSV(text, nil)
		assert.Empty(t, im.Pieces, text)
		assert.NotEmpty(t, im.Problems, text)
		assert.Equal(t, text, im.Rest)
	}
	// A list that is full takes no more.
	im := ImportCSV("id,kind,wll_t\nA,sling,2\n", make([]any, field.Pieces.Row().Most))
	assert.Empty(t, im.Pieces)
	assert.NotEmpty(t, im.Rest)
}

// A text never leaves as a formula, and comes back as it was.
func TestNoFormulas(t *testing.T) {
	for _, s := range []string{"=1+1", "+1", "-1", "@x", "\t=1", "\r", "'=1", "''-x", " =1", "＝1", "\u00a0=1",
		"\ufeff=1", "\ufeff\ufeff +1", "\u2003=1", "\u200b@x", "\u2060-1", "\u3000＝1", "\v=1", "\x00=1", "'\ufeff'=1", "\u202e=1"} {
		text, _ := InventoryCSV([]any{map[string]any{"id": s, "notes": s}})
		cells := readCSV(text).rows[1].cells
		for _, c := range []string{cells[0], cells[len(cells)-1]} {
			assert.Equal(t, "'"+s, c)
			assert.Equal(t, s, unguarded(c))
		}
	}
	for _, s := range []string{"", "x", "'", "'x", "''", "a=1", "1-2", "≥"} {
		assert.Equal(t, s, guarded(s))
		assert.Equal(t, s, unguarded(s))
	}
}

// Against encoding/csv, which reads the same format strictly.
func FuzzCSV(f *testing.F) {
	text, _ := InventoryCSV(listTree(f, gearList)["pieces"].([]any))
	for _, s := range []string{text, "", "a,b\r\n1,2", "\"a\"\"b\",c\n", "a;b\n1;2", "\"", "\"a\"b,c\n", "a\rb\r\n", ",\n,", "\ufeffid,kind,wll_t\nA,sling,1\n", "id,kind,reductions\nA,sling,\"a:1; b\\;:2;\"\n", "'=1,'\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		table := readCSV(text)
		well := !strings.Contains(text, "\r") && !table.cut
		for _, r := range table.rows {
			well = well && !r.open && !r.after && r.more == 0
		}
		reference := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
		reference.Comma, reference.FieldsPerRecord = table.comma, -1
		if want, err := reference.ReadAll(); err == nil && well {
			var got [][]string
			for _, r := range table.rows {
				if len(r.cells) > 1 || r.text != "" { // the reference leaves empty lines out
					got = append(got, r.cells)
				}
			}
			require.Equal(t, want, got, "%q", text)
		}
		// Every row's text is of the file, and all of them are there in order.
		rest := text
		for _, r := range table.rows {
			i := strings.Index(rest, r.text)
			require.GreaterOrEqual(t, i, 0)
			rest = rest[i+len(r.text):]
		}
		im := ImportCSV(text, nil)
		if im.Rest != "" {
			require.NotEmpty(t, im.Problems)
		}
		// What was taken is sound, and the same again when written and read.
		_, problems := ReadInventory(map[string]any{"kind": field.GearListKind, "version": jsontext.Number("1"), "pieces": append([]any{}, im.Pieces...)})
		require.Empty(t, problems, "%q", text)
		out, left := InventoryCSV(im.Pieces)
		require.Empty(t, left)
		again := ImportCSV(out, nil)
		require.Empty(t, again.Problems, "%q", out)
		require.Equal(t, im.Pieces, again.Pieces, "%q", out)
	})
}

// Any cells, however odd, are read as they were written.
func TestCSVCells(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 1))
	alphabet := []rune("a, ;\"'\n\r\t=é\u00a0")
	for range 500 {
		rows := make([][]string, 1+r.IntN(4))
		w := csvWriter{}
		w.row([]string{"first", "row"})
		for i := range rows {
			rows[i] = make([]string, 1+r.IntN(4))
			for k := range rows[i] {
				for range r.IntN(6) {
					rows[i][k] += string(alphabet[r.IntN(len(alphabet))])
				}
			}
			w.row(rows[i])
		}
		table := readCSV(string(w.out))
		require.Len(t, table.rows, len(rows)+1)
		for i := range rows {
			require.Equal(t, rows[i], table.rows[i+1].cells, "%q", w.out)
		}
	}
}
