package job

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/parts"
	"pullline/wasm/units"
)

func acting(t *testing.T, raw, do, path string) (*draft.Plan, parts.Changes) {
	t.Helper()
	c := act(drafttest.Parse([]byte(raw)), &units.KN, do, path)
	return drafttest.Parse(drafttest.Apply(t, []byte(raw), c)), c
}

func text(t *testing.T, d *draft.Plan) string {
	raw, err := json.Marshal(d.Tree)
	require.NoError(t, err)
	return string(raw)
}

func TestAddPointTakesTheNextLetter(t *testing.T) {
	d, c := acting(t, drafttest.Full, "add", "points")
	assert.Equal(t, "G", d.Text("points[6].id"))
	assert.Equal(t, "points[6].bearing_deg", c.Focus)
	d, _ = acting(t, `{}`, "add", "points")
	assert.Equal(t, "A", d.Text("points[0].id"))
	d, _ = acting(t, `{"points": "rubbish"}`, "add", "points")
	assert.Equal(t, "A", d.Text("points[0].id"))
	raw := `{}`
	for range 30 {
		d, _ = acting(t, raw, "add", "points")
		raw = text(t, d)
	}
	assert.Equal(t, 30, d.Size("points"))
	seen := map[string]bool{}
	for i := range 30 {
		seen[d.Text(draft.Elem("points", i)+".id")] = true
	}
	assert.Len(t, seen, 30)
}

func TestAddLines(t *testing.T) {
	d, c := acting(t, `{}`, "add-pull", "lines")
	assert.Equal(t, "pull", d.Text("lines[0].id"))
	assert.Equal(t, "pull", d.Text("lines[0].role"))
	assert.Equal(t, "A", d.Text("lines[0].path[1].point"))
	assert.Equal(t, "A", d.Text("points[0].id"))
	assert.Equal(t, "lines[0].path[0].stem_m", c.Focus)
	assert.False(t, d.Has("lines[0].puller"))
	d, _ = acting(t, drafttest.Full, "add-hold", "lines")
	assert.Equal(t, "hold 2", d.Text("lines[2].id"))
	assert.Equal(t, "E", d.Text("lines[2].path[1].point"), "the first point that nothing goes to")
}

func TestStationsAddMoveRemove(t *testing.T) {
	d, c := acting(t, drafttest.Full, "add", "lines[0].path")
	require.Equal(t, 4, d.Size("lines[0].path"))
	assert.Equal(t, "F", d.Text("lines[0].path[3].point"), "the hauling end stays last")
	assert.Equal(t, "lines[0].path[2].@at", c.Focus)
	d, _ = acting(t, drafttest.Full, "down", "lines[0].path[0]")
	assert.Equal(t, "A", d.Text("lines[0].path[0].point"))
	assert.True(t, d.Has("lines[0].path[1].stem_m"))
	assert.True(t, d.Has("plus_minus.lines[0].path[1].stem_m"), "its give or take goes with it")
	assert.False(t, d.Has("plus_minus.lines[0].path[0].stem_m"))
	_, c = acting(t, drafttest.Full, "up", "lines[0].path[0]")
	assert.NotEmpty(t, c.Message)
	d, _ = acting(t, drafttest.Full, "remove", "lines[0].path[1]")
	assert.Equal(t, "F", d.Text("lines[0].path[1].point"))
}

func TestTackleActions(t *testing.T) {
	d, _ := acting(t, drafttest.Full, "remove", "lines[0].tackle")
	assert.False(t, d.Has("lines[0].tackle"))
	d, c := acting(t, text(t, d), "add-tackle", "lines[0].tackle")
	assert.Equal(t, 1, d.Size("lines[0].tackle.stages"))
	assert.False(t, d.Has("lines[0].tackle.stages[0].parts"), "how many parts is counted, not supposed")
	assert.Equal(t, "lines[0].tackle.stages[0].parts", c.Focus)
	d, _ = acting(t, drafttest.Full, "add", "lines[0].tackle.stages")
	assert.Equal(t, 2, d.Size("lines[0].tackle.stages"))
	d, _ = acting(t, drafttest.Full, "add", "lines[0].tackle.haul_path")
	assert.Equal(t, 3, d.Size("lines[0].tackle.haul_path"))
	d, _ = acting(t, drafttest.Full, "stages", "lines[1].tackle")
	assert.False(t, d.Has("lines[1].tackle.reeving"))
	assert.Equal(t, 1, d.Size("lines[1].tackle.stages"))
}

// A ready-made tackle that stages cannot say is taken, and a place and a rope
// are added to it and taken away through the form's own fields.
func TestReevingIsEdited(t *testing.T) {
	d, _ := acting(t, drafttest.Full, "remove", "lines[0].tackle")
	d, _ = acting(t, text(t, d), "add-tackle", "lines[0].tackle")
	reeving := "lines[0].tackle.reeving"
	for _, r := range rigging.ReadyReevings() {
		if r.Stages == nil && !d.Has(reeving) {
			d, _ = typing(t, text(t, d), &units.KN, "lines[0].tackle.@ready", r.Key)
		}
	}
	require.True(t, d.Has(reeving))
	nodes, ropes := d.Size(reeving+".nodes"), d.Size(reeving+".ropes")
	d, c := acting(t, text(t, d), "add", reeving+".nodes")
	require.Equal(t, nodes+1, d.Size(reeving+".nodes"))
	assert.Equal(t, "moving", d.Text(draft.Elem(reeving+".nodes", nodes)+".kind"))
	d, _ = typing(t, text(t, d), &units.KN, c.Focus, "extra")
	d, _ = typing(t, text(t, d), &units.KN, draft.Elem(reeving+".nodes", nodes)+".at", "0.25")
	d, c = acting(t, text(t, d), "add", reeving+".ropes")
	require.Equal(t, ropes+1, d.Size(reeving+".ropes"))
	d, _ = typing(t, text(t, d), &units.KN, c.Focus, "extra\nload")
	assert.Equal(t, 2, d.Size(draft.Elem(reeving+".ropes", ropes)+".path"))
	d, _ = acting(t, text(t, d), "remove", draft.Elem(reeving+".nodes", nodes))
	assert.Equal(t, nodes, d.Size(reeving+".nodes"))
	fields := 0
	form := Form(d, &units.KN, &plan.Report{})
	var count func([]parts.Section)
	count = func(sections []parts.Section) {
		for _, s := range sections {
			for _, f := range s.Fields {
				if strings.HasPrefix(f.Path, reeving) {
					fields++
				}
			}
			count(s.Sections)
		}
	}
	count(form)
	assert.Equal(t, 3*nodes+2*(ropes+1), fields, "every value of the reeving has its field")
}

func TestGearActions(t *testing.T) {
	d, _ := acting(t, drafttest.Full, "add-rope", "lines[0]")
	assert.Equal(t, "rope pull", d.Text("gear[3].id"))
	assert.Equal(t, "line/pull", d.GearPlace("gear[3]"))
	d, _ = acting(t, drafttest.Full, "add-stem", "lines[1]")
	assert.Equal(t, "stem/hold", d.GearPlace("gear[3]"))
	for _, do := range []string{"add-block", "add-sling", "add-shackle"} {
		d, _ = acting(t, drafttest.Full, do, "points[1]")
		assert.Equal(t, "point/B", d.GearPlace("gear[3]"))
		for _, limit := range []string{"wll_kN", "wll_t", "mbl_kN"} {
			assert.False(t, d.Has("gear[3]."+limit), "no limit is invented")
		}
	}
	d, _ = acting(t, drafttest.Full, "add", "gear[0].reductions")
	assert.Equal(t, 2, d.Size("gear[0].reductions"))
	assert.False(t, d.Has("gear[0].reductions[1].factor"))
	_, c := acting(t, `{"points": [{}]}`, "add-block", "points[0]")
	assert.NotEmpty(t, c.Message)
}

func TestRemovingAPointSaysWhoStillNamesIt(t *testing.T) {
	d, c := acting(t, drafttest.Full, "remove", "points[0]")
	assert.Equal(t, 5, d.Size("points"))
	assert.Equal(t, "A", d.Text("lines[0].path[1].point"), "nothing else is changed")
	for _, name := range []string{"Pull line, station 2", "Point F, leg 1", "Block"} {
		assert.Contains(t, c.Message, name)
	}
	assert.True(t, d.Has("plus_minus.points[0].distance_m"), "the give or take of point B moves up with it")
	assert.False(t, d.Has("plus_minus.points[1].distance_m"))
	rep := plan.Evaluate([]byte(text(t, d)))
	assert.NotEmpty(t, rep.Problems)
	d, c = acting(t, drafttest.Full, "remove", "points[1]")
	assert.False(t, d.Has("plus_minus.points[1].distance_m"))
	assert.NotEmpty(t, c.Message)
	_, c = acting(t, drafttest.Full, "remove", "points[4]")
	assert.Empty(t, c.Message, "nothing names E")
	_, c = acting(t, drafttest.Full, "remove", "points[40]")
	assert.NotEmpty(t, c.Message)
}

// Every action the form offers can be applied, and none of them, however
// many are done, turns a plan into one that looks better known than before.
func TestEveryOfferedAction(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(7, 8))
	for _, start := range []string{`{}`, drafttest.Full, string(drafttest.Demo(t))} {
		raw := start
		for range 40 {
			var actions []parts.Action
			sectionsOf(formOf(t, raw, &units.KN), func(s *parts.Section) { actions = append(actions, s.Actions...) })
			require.NotEmpty(t, actions)
			a := actions[rng.IntN(len(actions))]
			before := plan.Evaluate([]byte(raw)).Verdict
			d, c := acting(t, raw, a.Do, a.Path)
			require.NoError(t, d.Err)
			require.NotEmpty(t, a.Label)
			if a.Do != "remove" && a.Do != "up" && a.Do != "down" && a.Do != "stages" && before == rigging.Unknown {
				assert.NotEqual(t, rigging.Within, plan.Evaluate([]byte(text(t, d))).Verdict, "%s %s", a.Do, a.Path)
			}
			require.NotNil(t, append([]parts.Change{}, c.Changes...))
			raw = text(t, d)
		}
	}
}

func TestActRefusesWhatItDoesNotKnow(t *testing.T) {
	for _, c := range []struct{ do, path string }{
		{"explode", "points[0]"}, {"add", "tree"}, {"remove", "tree.height_m"}, {"", ""}, {"add", "points["}, {"up", "tree"}, {"remove", "lines[9]"},
	} {
		got := act(drafttest.Parse([]byte(drafttest.Full)), &units.KN, c.do, c.path)
		assert.Empty(t, got.Changes, c)
		assert.NotEmpty(t, got.Message, c)
	}
}
