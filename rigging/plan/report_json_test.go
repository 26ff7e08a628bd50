package plan

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext"
	"pullline/rigging/jsontext/jsontest"
)

// written holds the report's own text against the one encoding/json makes of
// its struct tags.
func written(t testing.TB, rep *Report) {
	t.Helper()
	jsontest.SameAsTags(t, rep, rep.AppendJSON)
}

// Every field of every part is written.
func TestEveryFieldOfTheReportIsWritten(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 1))
	for range 50 {
		var rep Report
		jsontest.Fill(&rep, r, r.Float64(), "text", true, 7)
		written(t, &rep)
	}
	written(t, &Report{}) // lists that are nil
}

func TestReportsAreWrittenAsTheirTagsSay(t *testing.T) {
	for _, raw := range []string{string(demo(t)), `{}`, `[`, `[]`, `3`, `{"x": 1e999, "allowance": 1e999, "version": 7, "points": [null, 3, {"id": []}]}`} {
		rep := Evaluate([]byte(raw))
		written(t, &rep)
	}
	r := rand.New(rand.NewPCG(31, 2))
	for range 30 {
		rep := Evaluate(randomPlan(t, r).raw(t))
		written(t, &rep)
		// One that somebody has cut short.
		raw := randomPlan(t, r).raw(t)
		rep = Evaluate(bytes.Replace(raw, []byte(`1`), []byte(`"x"`), 1+r.IntN(5)))
		written(t, &rep)
	}
}

// A plan that somebody else has read is computed all the same, and left as
// it was.
func TestEvaluateTree(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 3))
	plans := [][]byte{demo(t), []byte(`{}`), []byte(`[]`), []byte(`null`), []byte(`{"version": 0, "tree": {"height_m": "x"}}`)}
	for range 10 {
		plans = append(plans, randomPlan(t, r).raw(t))
	}
	for _, raw := range plans {
		v, err := jsontext.Parse(raw)
		require.NoError(t, err)
		before := jsontext.NewWriter(0)
		before.Any(v)
		rep := said(EvaluateTree(v, len(raw)))
		after := jsontext.NewWriter(0)
		after.Any(v)
		require.Equal(t, string(before.Bytes()), string(after.Bytes()))
		w := jsontext.NewWriter(0)
		rep.AppendJSON(w)
		require.Equal(t, string(WorkingJSON(raw)), string(w.Bytes()))
	}
	rep := said(EvaluateTree(map[string]any{}, MaxBytes+1))
	require.Len(t, rep.Problems, 1)
	require.Contains(t, rep.Problems[0].Message, "bytes long")
}
