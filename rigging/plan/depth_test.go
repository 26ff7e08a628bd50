package plan

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
)

var depths = []Depth{ToPull, ToVerdict, ToReport, ToWorking}

// upTo leaves of a report what a depth comes to.
func upTo(rep Report, depth Depth) Report {
	if depth < ToWorking {
		rep.Working = []Working{}
	}
	none := None()
	if depth < ToReport {
		rep.Pull.Curve = Curve{}
		rep.Assumed, rep.Cautions, rep.After = []Assumed{}, []Caution{}, nil
		rep.Brief = BriefReport{none, none, false, none}
		rep.Zones, rep.Order = []ZoneReport{}, OrderReport{[]OrderStep{}, []StopReport{}}
		rep.Lines = append([]LineReport{}, rep.Lines...)
		for i := range rep.Lines {
			l := &rep.Lines[i]
			l.EnergyKJ, l.StretchM, l.Legs, l.Tackle = none, none, []LegReport{}, nil
		}
	}
	return rep
}

func textOf(rep Report) string {
	w := jsontext.NewWriter(0)
	rep.AppendJSON(w)
	return string(w.Bytes())
}

// Less depth is less of the same report: no number, verdict, reason or problem
// differs.
func TestDepths(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 2))
	plans := []document{demoDocument(t), {}, {"tree": fields{"height_m": 20}}}
	for range 60 {
		plans = append(plans, anyPlan(t, r))
	}
	for _, d := range plans {
		raw := d.raw(t)
		tree, err := jsontext.Parse(raw)
		require.NoError(t, err)
		whole := EvaluateTree(tree, len(raw))
		for _, depth := range depths[1:] {
			assert.Equal(t, textOf(upTo(whole, depth)), textOf(EvaluateTo(tree, len(raw), depth)), "to %s: %s", depth, raw)
		}
		assert.Equal(t, textOf(said(upTo(whole, ToReport))), string(EvaluateJSON(raw)))
		assert.Equal(t, textOf(said(whole)), string(WorkingJSON(raw)))

		pull := EvaluateTo(tree, len(raw), ToPull)
		assert.Equal(t, textOf(Report{Tree: whole.Tree}), textOf(Report{Tree: pull.Tree}))
		want := whole.Pull
		want.HoldPullTo, want.Curve = None(), Curve{}
		assert.Equal(t, textOf(Report{Pull: want}), textOf(Report{Pull: pull.Pull}))
	}
}

// A report that judges nothing does not reassure, and says why.
func TestPullAloneIsNoVerdict(t *testing.T) {
	tree, err := jsontext.Parse(demo(t))
	require.NoError(t, err)
	require.Equal(t, rigging.Within, EvaluateTo(tree, 0, ToVerdict).Verdict)
	rep := EvaluateTo(tree, 0, ToPull)
	assert.Equal(t, rigging.Unknown, rep.Verdict)
	assert.Equal(t, rigging.Unknown, rep.AtMostVerdict)
	require.NotEmpty(t, rep.Why)
	assert.Equal(t, whyNotJudged, rep.Why[0].Code)
	assert.True(t, rep.Pull.PeakKN.Known())
	assert.False(t, rep.Pull.HoldPullTo.Known())
	assert.False(t, rep.GoverningUse.Known())
}

// What each depth costs, without reading and writing JSON.
func BenchmarkDepth(b *testing.B) {
	tree, err := jsontext.Parse(demo(b))
	require.NoError(b, err)
	for _, depth := range depths {
		b.Run(depth.String(), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				EvaluateTo(tree, 0, depth)
			}
		})
	}
}
