package screen

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

func joinedText(b *Brief) string {
	var out []string
	for _, list := range [][]BriefLine{b.Sequence, b.Stop, b.Distances} {
		for _, l := range list {
			out = append(out, l.Text)
		}
	}
	return strings.ReplaceAll(strings.Join(out, "\n"), "\u00a0", " ")
}

// What is suggested is marked, and holds the report's numbers rounded the
// safe way: two lengths of a 29 m tree are 58 m.
func TestBriefingSuggests(t *testing.T) {
	b := viewOfPlan(t, string(drafttest.Demo(t))).Brief
	require.NotNil(t, b)
	for _, l := range b.Sequence {
		assert.True(t, l.Suggested)
	}
	for _, s := range b.Signals {
		assert.True(t, s.Suggested)
		assert.Empty(t, s.Sign, "signs are agreed on the spot")
	}
	rep := plan.Evaluate(drafttest.Demo(t))
	text := joinedText(b)
	assert.Contains(t, text, "58.0 m")
	assert.Contains(t, text, strings.ReplaceAll(units.KN.Capacity(float64(rep.Brief.StopHaulKN)), "\u00a0", " "))
	assert.Contains(t, text, "Pay out the hold line")
	assert.Contains(t, text, "bight at point R")
	assert.Equal(t, "suggested", b.Mark)
}

// What the plan says itself stands as it is and is marked as nobody's else.
func TestBriefingKeepsTheCrewsWords(t *testing.T) {
	b := viewOfPlan(t, drafttest.Full).Brief
	assert.Equal(t, []BriefLine{{Text: "light tension"}, {Text: "cut"}}, b.Sequence)
	assert.Equal(t, []Signal{{Sign: "arm up", Means: "stop", By: "anyone"}}, b.Signals)
	assert.Equal(t, []Role{{"saw", "invented"}}, b.Roles)
	assert.False(t, b.Stop[0].Suggested)
	assert.Contains(t, b.Stop[0].Text, "20")
}

// Nothing known is shown as not known, never as nought.
func TestBriefingOfNothing(t *testing.T) {
	b := viewOfPlan(t, `{}`).Brief
	assert.Contains(t, b.Stop[0].Text, units.None)
	assert.Contains(t, b.Distances[0].Text, units.None)
}

func TestSuggestionsAreTakenIntoThePlan(t *testing.T) {
	raw := drafttest.Demo(t)
	d := drafttest.Parse(raw)
	rep := plan.Evaluate(raw)
	for _, path := range []string{"brief.sequence", "brief.signals", "brief.roles"} {
		raw = drafttest.Apply(t, raw, suggest(d, &units.KN, &rep, path))
	}
	after := plan.Evaluate(raw)
	assert.Empty(t, after.Problems)
	assert.Equal(t, rep.Verdict, after.Verdict)
	v := viewOfPlan(t, string(raw))
	assert.False(t, v.Brief.Sequence[0].Suggested)
	assert.Equal(t, "brief.roles", stepOfView(t, v, "brief").Path, "names are still missing")
	assert.NotEmpty(t, suggest(d, &units.KN, &rep, "tree").Message)
}

func TestLinesOfText(t *testing.T) {
	assert.Equal(t, []string{"a", "b c"}, splitLines(" a \n\n b c\n"))
	assert.Equal(t, "a\nb", joinLines([]any{"a", "b"}))
	assert.Equal(t, "x", joinLines("x"))
	d := drafttest.Parse([]byte(`{}`))
	raw := drafttest.Apply(t, []byte(`{}`), edit(d, &units.KN, "brief.sequence", "one\ntwo"))
	assert.JSONEq(t, `{"brief": {"sequence": ["one", "two"]}}`, string(raw))
}
