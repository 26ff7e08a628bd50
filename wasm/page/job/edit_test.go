package job

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

// typing edits a plan and gives the document that comes of it.
func typing(t *testing.T, raw string, u *units.System, path, text string) (*draft.Plan, parts.Changes) {
	t.Helper()
	c := edit(drafttest.Parse([]byte(raw)), u, path, text)
	return drafttest.Parse(drafttest.Apply(t, []byte(raw), c)), c
}

func TestEditKeepsWhatWasTyped(t *testing.T) {
	d, _ := typing(t, drafttest.Full, &units.KN, "tree.height_m", "about 30")
	assert.Equal(t, "about 30", d.Text("tree.height_m"))
	d, _ = typing(t, drafttest.Full, &units.KN, "gear[0].wll_t", "1,200")
	assert.Equal(t, "1,200", d.Text("gear[0].wll_t"))
	d, _ = typing(t, drafttest.Full, &units.KN, "points[4].anchor.rows", "three")
	assert.Equal(t, "three", d.Text("points[4].anchor.rows"))
	form := drafttest.Fields(formOf(t, string(drafttest.Apply(t, []byte(drafttest.Full), edit(drafttest.Parse([]byte(drafttest.Full)), &units.KN, "tree.height_m", "12 tons"))), &units.KN))
	assert.Equal(t, "12 tons", form["tree.height_m"].Text)
	assert.NotEmpty(t, form["tree.height_m"].Problem)
}

func TestEditSetsNumbersInTheFilesUnit(t *testing.T) {
	for _, c := range []struct {
		u          *units.System
		path, text string
		want       float64
	}{
		{&units.US, "tree.height_m", "10", 3.048},
		{&units.US, "tree.height_m", "10 m", 10},
		{&units.KN, "tree.height_m", "92 ft", 28.0416},
		{&units.KN, "site.wind_mps", "36 km/h", 10},
		{&units.TF, "lines[0].puller.rated_kN", "3", 29.41995},
		{&units.US, "gear[0].wll_t", "3.25", 3.25},
		{&units.US, "plus_minus.tree.height_m", "1", 0.3048},
		{&units.US, "plus_minus.points[1].distance_m", "10", 3.048},
		{&units.KN, "cut.stump_m", "0,4", 0.4},
		{&units.KN, "tree.lean_deg", "-4°", -4},
	} {
		d, changes := typing(t, drafttest.Full, c.u, c.path, c.text)
		require.Empty(t, changes.Message)
		got, ok := d.Number(c.path)
		require.True(t, ok, c.path)
		assert.InDelta(t, c.want, got, 1e-12*c.want*c.want+1e-12, c.path)
	}
	d, _ := typing(t, drafttest.Full, &units.KN, "points[4].anchor.rows", "2-1")
	assert.Equal(t, []any{jsontext.Number("2"), jsontext.Number("1")}, d.List("points[4].anchor.rows"))
	d, _ = typing(t, drafttest.Full, &units.KN, "points[5].anchor.self_adjusting", "false")
	v, _ := d.At("points[5].anchor.self_adjusting")
	assert.Equal(t, false, v)
	d, _ = typing(t, `{}`, &units.KN, "tree.height_m", "28")
	got, _ := d.Number("tree.height_m")
	assert.Equal(t, 28.0, got, "objects are made on the way")
}

func TestEditEmptyDeletes(t *testing.T) {
	d, _ := typing(t, drafttest.Full, &units.KN, "tree.height_m", "  ")
	_, there := d.At("tree.height_m")
	assert.False(t, there)
	d, c := typing(t, drafttest.Full, &units.KN, "tree.nothing_like_it", "")
	assert.NotEmpty(t, c.Message)
	assert.NoError(t, d.Err)
	// A limit and a height on the stem stay as empty texts, since which of
	// several fields is there says what is meant.
	d, _ = typing(t, drafttest.Full, &units.KN, "lines[0].path[0].stem_m", "")
	assert.Equal(t, "stem", d.Station("lines[0].path[0]"))
	d, _ = typing(t, drafttest.Full, &units.KN, "gear[2].mbl_kN", "")
	assert.True(t, d.Has("gear[2].mbl_kN"))
	raw, _ := json.Marshal(d.Tree)
	assert.NotEqual(t, rigging.Within, plan.Evaluate(raw).Verdict)
	d, _ = typing(t, drafttest.Full, &units.KN, "plus_minus.tree.height_m", "")
	assert.False(t, d.Has("plus_minus.tree.height_m"))
}

func TestEditStation(t *testing.T) {
	d, _ := typing(t, drafttest.Full, &units.KN, "lines[0].path[1].@at", "stem")
	assert.Equal(t, "stem", d.Station("lines[0].path[1]"))
	assert.False(t, d.Has("lines[0].path[1].point"))
	d, _ = typing(t, drafttest.Full, &units.KN, "lines[0].path[0].@at", "point/C")
	assert.Equal(t, "C", d.Text("lines[0].path[0].point"))
	assert.False(t, d.Has("lines[0].path[0].stem_m"))
	d, _ = typing(t, drafttest.Full, &units.KN, "lines[0].path[0].@at", "")
	assert.Equal(t, "", d.Station("lines[0].path[0]"))
	_, c := typing(t, drafttest.Full, &units.KN, "lines[0].path[0].@at", "moon")
	assert.NotEmpty(t, c.Message)
}

func TestEditPlace(t *testing.T) {
	for at, want := range map[string][3]string{
		"line/hold": {"hold", "", ""}, "stem/hold": {"hold", "stem", ""}, "point/B": {"", "", "B"}, "": {"", "", ""},
	} {
		for _, gear := range []string{"gear[0]", "gear[1]", "gear[2]"} {
			d, _ := typing(t, drafttest.Full, &units.KN, gear+".@place", at)
			assert.Equal(t, want, [3]string{d.Text(gear + ".line"), d.Text(gear + ".place"), d.Text(gear + ".point")})
			assert.Equal(t, at, d.GearPlace(gear))
		}
	}
}

func TestEditBasis(t *testing.T) {
	d, _ := typing(t, drafttest.Full, &units.KN, "gear[0].@basis", "wll_kN")
	got, _ := d.Number("gear[0].wll_kN")
	assert.InDelta(t, 3.2*9.80665, got, 1e-12)
	assert.False(t, d.Has("gear[0].wll_t"))
	d, _ = typing(t, drafttest.Full, &units.KN, "gear[1].@basis", "wll_t")
	got, _ = d.Number("gear[1].wll_t")
	assert.InDelta(t, 40/9.80665, got, 1e-12)
	// A working load limit is no breaking load: no number is carried over.
	d, _ = typing(t, drafttest.Full, &units.KN, "gear[0].@basis", "mbl_kN")
	_, ok := d.Number("gear[0].mbl_kN")
	assert.False(t, ok)
	assert.True(t, d.Has("gear[0].mbl_kN"))
	d, _ = typing(t, drafttest.Full, &units.KN, "gear[2].@basis", "wll_t")
	_, ok = d.Number("gear[2].wll_t")
	assert.False(t, ok)
	assert.False(t, d.Has("gear[2].design_factor"))
}

func TestEditAnchorKind(t *testing.T) {
	for _, a := range field.AnchorKinds() {
		kind, allowed := a.Row().Word, []string{"kind"}
		for _, f := range a.Row().Fields {
			allowed = append(allowed, f.Key())
		}
		for i := range 6 {
			path := draft.Elem("points", i) + ".anchor"
			d, _ := typing(t, drafttest.Full, &units.KN, path+".kind", kind)
			for key := range d.Object(path) {
				assert.Contains(t, allowed, key, "%s to %s", path, kind)
			}
			assert.Equal(t, kind, d.Text(path+".kind"))
		}
	}
	d, _ := typing(t, drafttest.Full, &units.KN, "points[0].anchor.kind", "")
	assert.False(t, d.Has("points[0].anchor"))
	d, _ = typing(t, `{"points": [{"id": "A"}]}`, &units.KN, "points[0].anchor.kind", "rated")
	assert.Equal(t, "rated", d.Text("points[0].anchor.kind"))
	assert.False(t, d.Has("points[0].anchor.capacity_kN"), "no capacity is invented")
}

func TestRenameTakesReferencesAlong(t *testing.T) {
	d, _ := typing(t, drafttest.Full, &units.KN, "points[0].id", "Old stump")
	assert.Equal(t, "Old stump", d.Text("points[0].id"))
	assert.Equal(t, "Old stump", d.Text("lines[0].path[1].point"))
	assert.Equal(t, "Old stump", d.Text("points[5].anchor.legs[0].point"))
	assert.Equal(t, "Old stump", d.Text("gear[2].point"))
	assert.Empty(t, references(d, "point", "A"))
	d, _ = typing(t, drafttest.Full, &units.KN, "points[2].id", "M")
	assert.Equal(t, "M", d.Text("lines[0].tackle.haul_path[1].point"))
	d, _ = typing(t, drafttest.Full, &units.KN, "lines[0].id", "main")
	assert.Equal(t, "main", d.Text("gear[0].line"))
	assert.Equal(t, "main", d.Text("gear[1].line"))
	for _, name := range []string{"B", "", "stem", "a/b"} {
		_, c := typing(t, drafttest.Full, &units.KN, "points[0].id", name)
		assert.Empty(t, c.Changes, name)
		assert.NotEmpty(t, c.Message, name)
	}
	_, c := typing(t, drafttest.Full, &units.KN, "points[0].id", "A")
	assert.Empty(t, c.Changes)
	assert.Empty(t, c.Message)
	// Of two points of one name nobody knows which the rest means.
	twice := `{"points": [{"id": "A"}, {"id": "A"}], "gear": [{"point": "A"}]}`
	d, _ = typing(t, twice, &units.KN, "points[1].id", "B")
	assert.Equal(t, "A", d.Text("gear[0].point"))
}

// Typing what the form shows changes nothing in what the plan computes.
func TestEditWithWhatIsShown(t *testing.T) {
	t.Parallel()
	for _, u := range units.Systems {
		for path, f := range drafttest.Fields(formOf(t, drafttest.Full, u)) {
			d, c := typing(t, drafttest.Full, u, path, f.Text)
			if f.Text == "" {
				continue
			}
			require.Empty(t, c.Message, path)
			before, okBefore := drafttest.Parse([]byte(drafttest.Full)).Number(path)
			after, okAfter := d.Number(path)
			assert.Equal(t, okBefore, okAfter, path)
			if okBefore && before != 0 {
				assert.InEpsilon(t, before, after, 1e-5, path) // six digits are shown
			}
		}
	}
}

// Every ready-made tackle can be chosen, is known again, and is one that the
// plan's report can work out.
func TestEditReadyTackle(t *testing.T) {
	require.Greater(t, len(readyTackles()), 10)
	raw := string(drafttest.Demo(t))
	for _, r := range readyTackles() {
		d, c := typing(t, raw, &units.KN, "lines[0].tackle.@ready", r.key)
		require.Empty(t, c.Message)
		assert.Equal(t, r.key, readyKey(d, "lines[0].tackle"))
		assert.False(t, d.Has("lines[0].tackle.stages") && d.Has("lines[0].tackle.reeving"))
		rep := plan.Evaluate([]byte(text(t, d)))
		for _, p := range rep.Problems {
			assert.NotContains(t, p.Path, "tackle", "%s: %s", r.key, p.Message)
		}
	}
	_, c := typing(t, raw, &units.KN, "lines[0].tackle.@ready", "perpetual motion")
	assert.NotEmpty(t, c.Message)
}
