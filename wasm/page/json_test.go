package page

import (
	"math/rand/v2"
	"testing"

	"pullline/rigging/jsontext"
	"pullline/rigging/jsontext/jsontest"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/scene"
	"pullline/wasm/units"
)

// Every field of every part is written: a field added to a struct and
// forgotten where the struct is written fails here.
func TestEveryFieldOfTheAnswersIsWritten(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 1))
	for range 30 {
		var v View
		jsontest.Fill(&v, r, r.Float64(), "text", 7)
		jsontest.SameAsTags(t, v, v.AppendJSON)
		var c parts.Changes
		jsontest.Fill(&c, r, r.Float64(), "text", 7, true, jsontext.Number("1.5"), []any{1, "x"}, map[string]any{"a": []string{"b"}})
		jsontest.SameAsTags(t, c, c.AppendJSON)
	}
	// And what is empty is left out, or null, alike.
	jsontest.SameAsTags(t, View{}, (&View{}).AppendJSON)
	jsontest.SameAsTags(t, View{Side: &draw.Drawing{}}, (&View{Side: &draw.Drawing{}}).AppendJSON)
	jsontest.SameAsTags(t, parts.Changes{Changes: []parts.Change{{}}}, (&parts.Changes{Changes: []parts.Change{{}}}).AppendJSON)
}

func TestViewsAreWrittenAsTheirTagsSay(t *testing.T) {
	for _, raw := range []string{string(drafttest.Demo(t)), drafttest.Full, `{}`, `3`} {
		v, err := jsontext.Parse([]byte(raw))
		if err != nil {
			t.Fatal(err)
		}
		box := draw.Box{W: 600, H: 400}
		seen := view(&asked{Common: request.Common{Plan: v, Size: len(raw), Settings: request.Settings{Units: "tf"}}, Boxes: scene.Boxes{Side: box, Plan: box, Curve: box}, Report: true})
		jsontest.SameAsTags(t, seen, seen.AppendJSON)
	}
	rep := plan.Evaluate([]byte(`{"tree": {"height_m": 25}}`))
	seen := viewOf(draft.Of(nil), &units.KN, &rep, false)
	jsontest.SameAsTags(t, seen, seen.AppendJSON)
}
