package rigging

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ISO 4309:2010, visible broken wires, ordinary lay, one layer, M1 to M4: the
// rows as others reproduce them (two agree up to 220 wires, one has the
// rest), and the three constructions worked out beside them: 6x19 Seale 3 and
// 6, 6x25 filler 5 and 10, 6x36 Warrington-Seale 9 and 18.
func TestBrokenWireRows(t *testing.T) {
	from := 1
	for _, row := range []struct{ to, in6, in30 int }{
		{50, 2, 4}, {75, 3, 6}, {100, 4, 8}, {120, 5, 10}, {140, 6, 11}, {160, 6, 13}, {180, 7, 14}, {200, 8, 16},
		{220, 9, 18}, {240, 10, 19}, {260, 10, 21}, {280, 11, 22}, {300, 12, 24},
	} {
		for _, n := range []int{from, row.to} {
			in6, in30, err := BrokenWireLimits(n, false, false)
			require.NoError(t, err)
			assert.Equal(t, [2]int{row.in6, row.in30}, [2]int{in6, in30}, "%d wires", n)
		}
		from = row.to + 1
	}
	for how, want := range map[string][2]int{rope6x19S: {3, 6}, rope6x25F: {5, 10}, rope6x36WS: {9, 18}} {
		made, ok := findEntry(ropeConstructions, how)
		require.True(t, ok)
		in6, in30, err := BrokenWireLimits(int(made.Value), how == rope6x19S, false)
		require.NoError(t, err)
		assert.Equal(t, want, [2]int{in6, in30}, how)
	}
	// Lang lay about half; never more, never none.
	for n := 1; n <= 300; n++ {
		o6, o30, _ := BrokenWireLimits(n, false, false)
		l6, l30, _ := BrokenWireLimits(n, false, true)
		s6, s30, _ := BrokenWireLimits(n, true, false)
		assert.True(t, l6 >= 1 && 2*l6 <= o6 && l30 >= 1 && 2*l30 <= o30, n)
		assert.True(t, s6 <= o6 && s30 <= o30, n)
	}
	for _, n := range []int{0, -1, 301} {
		_, _, err := BrokenWireLimits(n, false, false)
		var e *TableError
		assert.ErrorAs(t, err, &e)
	}
	table := BrokenWireTable()
	table[0].In6 = 99
	assert.Equal(t, 2, BrokenWireTable()[0].In6)
}

// US Army crane manual TM 10-3950-672-10: loss of diameter over 1/64 in (rope
// up to 5/16 in), 1/32 (3/8 to 1/2), 3/64 (9/16 to 3/4), 1/16 (7/8 to 1 1/8),
// 3/32 (1 1/4 to 1 1/2).
func TestDiameterLossRows(t *testing.T) {
	for _, row := range []struct{ from, to, loss float64 }{
		{0.01, 5.0 / 16, 1.0 / 64}, {3.0 / 8, 1.0 / 2, 1.0 / 32}, {9.0 / 16, 3.0 / 4, 3.0 / 64}, {7.0 / 8, 9.0 / 8, 1.0 / 16}, {1.25, 1.5, 3.0 / 32},
	} {
		for _, d := range []float64{row.from, row.to} {
			got, err := DiameterLossLimit(d * Inch)
			require.NoError(t, err)
			assert.InDelta(t, row.loss*Inch, got, 1e-12, "%v in", d) // exact but for the conversion
		}
	}
	// Between two printed ranges the stricter holds; so does it for metric
	// sizes a little under an inch size.
	for d, loss := range map[float64]float64{9 * MM: 1.0 / 64, 9.5 * MM: 1.0 / 64, 13.5 * MM: 1.0 / 32, 20 * MM: 3.0 / 64, 30 * MM: 1.0 / 16, 38 * MM: 3.0 / 32} {
		got, err := DiameterLossLimit(d)
		require.NoError(t, err)
		assert.InDelta(t, loss*Inch, got, 1e-12, "%v m", d)
	}
	for _, d := range []float64{0, -1, math.NaN(), math.Inf(1), 39 * MM} {
		_, err := DiameterLossLimit(d)
		var e *TableError
		assert.ErrorAs(t, err, &e, d)
	}
}

// clean answers every question so that nothing is found.
func clean(kind string, more map[string]string) map[string]string {
	a := map[string]string{}
	for key, v := range more {
		a[key] = v
	}
	for _, q := range DiscardQuestions(kind) {
		if _, given := a[q.Key]; given {
			continue
		}
		switch q.Answer {
		case AnswerYesNo:
			a[q.Key] = No
		case AnswerCount:
			a[q.Key] = "0"
		case AnswerLength:
			a[q.Key] = "0.016"
		case AnswerChoice:
			a[q.Key] = q.Choices[0].Key
		}
	}
	return a
}

var discardKinds = []string{"wire_rope", "fibre_rope", "sling", "shackle", "block", "chain", "winch", "other", "", "who knows"}

func TestNeverKeepWithAQuestionOpen(t *testing.T) {
	for _, kind := range discardKinds {
		for _, made := range slingKinds {
			more := map[string]string{askMadeOf: made.Key}
			o, reasons, unread := Discard(kind, clean(kind, more))
			assert.Equal(t, Keep, o, kind)
			assert.Empty(t, reasons, kind)
			assert.Empty(t, unread, kind)
			for _, q := range DiscardQuestions(kind) {
				if !q.Asked(clean(kind, more)) {
					continue
				}
				for _, bad := range []string{"", " ", "maybe", "-1", "1.5e999", "NaN", "Inf", "YES", "99999999999999999999"} {
					a := clean(kind, more)
					a[q.Key] = bad
					o, _, unread := Discard(kind, a)
					assert.Equal(t, Open, o, "%s: %s %q", kind, q.Key, bad)
					assert.Contains(t, unread, q.Key)
				}
				a := clean(kind, more)
				delete(a, q.Key)
				o, _, _ := Discard(kind, a)
				assert.Equal(t, Open, o, "%s without %s", kind, q.Key)
			}
		}
		o, _, _ := Discard(kind, nil)
		assert.Equal(t, Open, o, kind)
	}
}

func TestYesAndUnsure(t *testing.T) {
	for _, kind := range discardKinds {
		for _, q := range DiscardQuestions(kind) {
			if q.Answer != AnswerYesNo {
				continue
			}
			more := map[string]string{q.Key: Yes}
			if q.When != "" {
				more[q.When] = q.Is[0]
			}
			want := Retire
			if q.Judge {
				want = Judged
			}
			o, reasons, _ := Discard(kind, clean(kind, more))
			assert.Equal(t, want, o, "%s %s", kind, q.Key)
			require.NotEmpty(t, reasons)
			assert.Equal(t, q.Key, reasons[0].Key)
			more[q.Key] = Unsure
			o, _, _ = Discard(kind, clean(kind, more))
			assert.Equal(t, Judged, o, "%s %s", kind, q.Key)
			// What retires a piece does so with all else unanswered.
			if want == Retire && q.When == "" {
				o, _, _ = Discard(kind, map[string]string{q.Key: Yes})
				assert.Equal(t, Retire, o)
			}
		}
	}
}

// The published numbers at their edges, through the whole worksheet.
func TestPublishedEdges(t *testing.T) {
	mm := func(v float64) string { return fmt.Sprint(v * MM) }
	for _, c := range []struct {
		kind    string
		answers map[string]string
		want    Outcome
	}{
		{"wire_rope", map[string]string{askConstruction: rope6x19S, askBreaks6: "2", askBreaks30: "5"}, Keep},
		{"wire_rope", map[string]string{askConstruction: rope6x19S, askBreaks6: "3", askBreaks30: "5"}, Retire},
		{"wire_rope", map[string]string{askConstruction: rope6x19S, askBreaks6: "0", askBreaks30: "6"}, Retire},
		{"wire_rope", map[string]string{askConstruction: rope6x25F, askBreaks6: "4", askBreaks30: "9"}, Keep},
		{"wire_rope", map[string]string{askConstruction: rope6x25F, askBreaks6: "5", askBreaks30: "9"}, Retire},
		{"wire_rope", map[string]string{askConstruction: rope6x36WS, askBreaks6: "8", askBreaks30: "17"}, Keep},
		{"wire_rope", map[string]string{askConstruction: rope6x36WS, askBreaks6: "8", askBreaks30: "18"}, Retire},
		{"wire_rope", map[string]string{askConstruction: rope6x36WS, askLay: layLang, askBreaks6: "4", askBreaks30: "4"}, Retire},
		{"wire_rope", map[string]string{askConstruction: rope6x36WS, askLay: layUnknown, askBreaks6: "3", askBreaks30: "8"}, Keep},
		{"wire_rope", map[string]string{askConstruction: ropeOther, askBreaks6: "1", askBreaks30: "3"}, Keep},
		{"wire_rope", map[string]string{askConstruction: ropeOther, askBreaks6: "2", askBreaks30: "3"}, Retire},
		{"wire_rope", map[string]string{askConstruction: rope6x36WS, askBreaks6: "4", askBreaks30: "3"}, Judged},
		{"wire_rope", map[string]string{askEndBreaks: "1"}, Keep},
		{"wire_rope", map[string]string{askEndBreaks: "2"}, Retire},
		// 5/8 in = 15.875 mm may lose 3/64 in = 1.19 mm.
		{"wire_rope", map[string]string{askNominal: mm(15.875), askDiameter: mm(15.875 - 1.19)}, Keep},
		{"wire_rope", map[string]string{askNominal: mm(15.875), askDiameter: mm(15.875 - 1.20)}, Retire},
		{"wire_rope", map[string]string{askNominal: mm(15.875), askDiameter: mm(16.6)}, Keep},
		{"wire_rope", map[string]string{askNominal: mm(15.875), askDiameter: mm(20)}, Judged},
		{"wire_rope", map[string]string{askNominal: mm(40), askDiameter: mm(40)}, Judged},
		// WAC 296-24-29425(5): 10 random breaks in a lay, 5 in one strand.
		{"sling", map[string]string{askLayBreaks: "9", askStrandBreaks: "4"}, Keep},
		{"sling", map[string]string{askLayBreaks: "10", askStrandBreaks: "4"}, Retire},
		{"sling", map[string]string{askLayBreaks: "9", askStrandBreaks: "5"}, Retire},
		{"sling", map[string]string{askMadeOf: ofChain, askLayBreaks: "10"}, Keep}, // not asked of a chain
	} {
		o, reasons, _ := Discard(c.kind, clean(c.kind, c.answers))
		assert.Equal(t, c.want, o, "%v: %v", c.answers, reasons)
	}
}

func TestDiscardQuestionsAreSpelledOut(t *testing.T) {
	for _, kind := range discardKinds {
		for made := range slingKinds {
			seen := map[string]bool{}
			a := map[string]string{askMadeOf: slingKinds[made].Key}
			for _, q := range DiscardQuestions(kind) {
				assert.NotEmpty(t, q.Text, q.Key)
				assert.NotEmpty(t, q.Help, q.Key)
				assert.NotEmpty(t, q.Source.Basis, q.Key)
				assert.False(t, q.Source.Basis == Published && q.Source.Text == "", q.Key)
				if q.Asked(a) {
					assert.False(t, seen[q.Key], "%s asks %s twice", kind, q.Key)
					seen[q.Key] = true
				}
				if q.Answer == AnswerYesNo {
					assert.True(t, strings.HasSuffix(q.Text, "?"), q.Text)
				}
			}
		}
	}
	for _, o := range []Outcome{Open, Keep, Judged, Retire} {
		got, ok := OutcomeNamed(o.String())
		assert.True(t, ok)
		assert.Equal(t, o, got)
	}
	_, ok := OutcomeNamed("fine")
	assert.False(t, ok)
}
