package brief

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

func briefing(raw string) *Briefing {
	d, rep := drafttest.Parse([]byte(raw)), plan.Evaluate([]byte(raw))
	return Of(d, &units.KN, &rep)
}

func joinedText(b *Briefing) string {
	var out []string
	for _, list := range [][]Line{b.Sequence, b.Stop, b.Distances} {
		for _, l := range list {
			out = append(out, l.Text)
		}
	}
	return strings.ReplaceAll(strings.Join(out, "\n"), "\u00a0", " ")
}

// What is suggested is marked, and holds the report's numbers rounded the
// safe way: two lengths of a 29 m tree are 58 m.
func TestBriefingSuggests(t *testing.T) {
	b := briefing(string(drafttest.Demo(t)))
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
	assert.Contains(t, text, "The tree starts at "+strings.ReplaceAll(units.KN.Load(float64(rep.Order.Stops[0].HaulKN)), "\u00a0", " "))
	assert.Contains(t, text, "Let out of line hold")
	assert.Contains(t, text, "out for the saw operator")
	assert.Equal(t, "suggested", b.Mark)
}

// What the plan says itself stands as it is and is marked as nobody's else.
func TestBriefingKeepsTheCrewsWords(t *testing.T) {
	b := briefing(drafttest.Full)
	assert.Equal(t, []Line{{Text: "light tension"}, {Text: "cut"}}, b.Sequence)
	assert.Equal(t, []Signal{{Sign: "arm up", Means: "stop", By: "anyone"}}, b.Signals)
	assert.Equal(t, []Role{{"saw", "invented"}}, b.Roles)
	assert.False(t, b.Stop[0].Suggested)
	assert.Contains(t, b.Stop[0].Text, "20")
}

// Nothing known is shown as not known, never as nought.
func TestBriefingOfNothing(t *testing.T) {
	b := briefing(`{}`)
	assert.Contains(t, b.Stop[0].Text, units.None)
	assert.Contains(t, b.Distances[0].Text, units.None)
}
