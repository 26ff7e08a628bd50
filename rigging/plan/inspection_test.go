package plan

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

// Package time is the reference for every day of four centuries' worth of
// leap years, and for the days around each of them.
func TestDatesAreThoseOfTheCalendar(t *testing.T) {
	day := time.Date(firstYear, 1, 1, 0, 0, 0, 0, time.UTC)
	first, ok := ParseDate("1900-01-01")
	require.True(t, ok)
	previous := Date{}
	for n := 0; day.Year() <= lastYear; n++ {
		text := day.Format("2006-01-02")
		d, ok := ParseDate(text)
		require.True(t, ok, text)
		require.Equal(t, text, d.String())
		require.Equal(t, n, first.DaysTo(d), text)
		require.True(t, previous.Before(d), text)
		require.False(t, d.Before(previous), text)
		require.False(t, d.Before(d), text)
		previous, day = d, day.AddDate(0, 0, 1)
	}
}

func TestDatesThatAreNone(t *testing.T) {
	for _, text := range []string{
		"", "2026", "2026-1-1", "2026-01-1", "26-01-01", "2026/01/01", "01-01-2026", "2026-13-01", "2026-00-10", "2026-04-31", "2026-06-00", "2026-01-32",
		"2023-02-29", "1900-02-29", "2100-02-29", "2024-02-30", "1899-12-31", "2200-01-01", "2026-01-01 ", " 2026-01-01", "2026-01-01T00:00", "2026-0a-01", "+026-01-01", "２０２６-01", "2026-01-01\n",
	} {
		d, ok := ParseDate(text)
		assert.False(t, ok, text)
		assert.False(t, d.Known(), text)
		assert.Empty(t, d.String())
	}
	for _, text := range []string{"2024-02-29", "2000-02-29", "2026-12-31"} { // the leap years between
		_, ok := ParseDate(text)
		assert.True(t, ok, text)
	}
}

// with sets fields of the first piece of the demonstration plan.
func withPiece(t *testing.T, day any, set fields) document {
	d := demoDocument(t)
	if day != nil {
		d.set("pull_date", day)
	}
	for key, v := range set {
		d.set("gear[0]."+key, v)
	}
	return d
}

func codes(rep Report) (out []string) {
	for _, c := range rep.Cautions {
		out = append(out, c.Code)
	}
	return out
}

func TestInspectionOnTheDay(t *testing.T) {
	for _, c := range []struct{ pull, next string }{
		{"2026-05-01", "2026-05-01"}, // the same day is still in date
		{"2026-05-01", "2026-05-02"}, {"2026-04-30", "2026-05-01"}, {"2025-12-31", "2026-01-01"}, {"2024-02-28", "2024-02-29"}, {"2026-05-01", "2100-01-01"},
	} {
		rep := withPiece(t, c.pull, fields{"next_inspection": c.next, "last_inspection": "2020-01-01", "size": "14 mm", "terminations": "hand-made eye"}).evaluate(t)
		assert.Equal(t, rigging.Within, rep.Verdict, c)
		assert.Empty(t, rep.Problems, c)
	}
	for _, c := range []struct{ pull, next string }{
		{"2026-05-02", "2026-05-01"}, {"2026-05-01", "2026-04-30"}, {"2026-01-01", "2025-12-31"}, {"2024-03-01", "2024-02-29"}, {"2026-05-01", "1900-01-01"},
	} {
		rep := withPiece(t, c.pull, fields{"next_inspection": c.next}).evaluate(t)
		refused(t, c.pull+" past "+c.next, rep, "gear[0].next_inspection", true)
		assert.Contains(t, rep.Problems[0].Message, "“pull rope”")
		assert.Contains(t, rep.Problems[0].Message, c.next)
		assert.Equal(t, rigging.Unknown, rep.Verdict)
		assert.Equal(t, rigging.Unknown, rep.Gear[0].Verdict)
		assert.False(t, rep.Pull.HoldPullTo.Known(), "nothing is said to hold")
	}
}

func TestRetiredPiece(t *testing.T) {
	for _, day := range []any{nil, "2026-05-01"} {
		rep := withPiece(t, day, fields{"retired": true}).evaluate(t)
		refused(t, "retired", rep, "gear[0].retired", true)
		assert.Contains(t, rep.Problems[0].Message, "“pull rope”")
		assert.Equal(t, rigging.Unknown, rep.Gear[0].Verdict)
	}
	rep := withPiece(t, nil, fields{"retired": false}).evaluate(t)
	assert.Equal(t, rigging.Within, rep.Verdict)

	// Too much on a retired piece is still too much.
	rep = withPiece(t, nil, fields{"retired": true, "mbl_kN": 10}).evaluate(t)
	assert.Equal(t, rigging.Over, rep.Verdict)
	assert.Equal(t, rigging.Over, rep.Gear[0].Verdict)
}

func TestClearedPiece(t *testing.T) {
	for _, blank := range []string{"", "  ", "\n\t"} {
		rep := withPiece(t, "2026-05-01", fields{"retired": true, "next_inspection": "2026-04-30", "cleared": blank}).evaluate(t)
		refused(t, "blank reason", rep, "gear[0].retired", true)
		refused(t, "blank reason", rep, "gear[0].next_inspection", true)
		assert.NotContains(t, codes(rep), "cleared")
	}
	for _, set := range []fields{
		{"retired": true}, {"next_inspection": "2026-04-30"}, {"retired": true, "next_inspection": "2026-04-30"},
	} {
		set["cleared"] = "seen by the rigging inspector this morning, 100 % sound"
		rep := withPiece(t, "2026-05-01", set).evaluate(t)
		assert.Equal(t, rigging.Within, rep.Verdict)
		found := false
		for _, c := range rep.Cautions {
			if c.Code == "cleared" {
				found = true
				assert.Equal(t, "gear[0].cleared", c.Path)
				assert.Contains(t, c.Message, "“pull rope”")
				assert.Contains(t, c.Message, "seen by the rigging inspector this morning, 100 % sound.")
			}
		}
		assert.True(t, found)
	}
	// A reason that nothing needs is no caution; nor does it clear what is wrong.
	rep := withPiece(t, "2026-05-01", fields{"next_inspection": "2026-05-01", "cleared": "looked at"}).evaluate(t)
	assert.NotContains(t, codes(rep), "cleared")
	rep = withPiece(t, "2026-05-01", fields{"next_inspection": "soon", "cleared": "looked at"}).evaluate(t)
	refused(t, "no date", rep, "gear[0].next_inspection", true)
	rep = withPiece(t, "2026-05-01", fields{"retired": true, "cleared": true}).evaluate(t)
	refused(t, "no text", rep, "gear[0].cleared", true)
	// The reason stands in the report of a plan that cannot be worked out, too.
	rep = withPiece(t, "2026-05-01", fields{"retired": true, "cleared": "looked at"}).drop("tree").evaluate(t)
	assert.Contains(t, codes(rep), "cleared")
}

func TestDayOfThePull(t *testing.T) {
	rep := withPiece(t, nil, fields{"next_inspection": "2026-05-01"}).evaluate(t)
	refused(t, "no day", rep, "pull_date", false)
	assert.Equal(t, rigging.Unknown, rep.Gear[0].Verdict)
	rep = withPiece(t, nil, fields{"next_inspection": "2026-05-01"}).set("gear[1].next_inspection", "2026-05-01").evaluate(t)
	assert.Len(t, rep.Problems, 1, "asked for once")
	rep = withPiece(t, nil, fields{"last_inspection": "2026-05-01"}).evaluate(t)
	assert.Equal(t, rigging.Within, rep.Verdict, "nothing to hold to the day")
	rep = withPiece(t, "2026-05-01", nil).evaluate(t)
	assert.Equal(t, rigging.Within, rep.Verdict)
	for _, day := range []any{"", "today", "2026-02-30", 20260501, nil, true, []any{}, "2026-5-1"} {
		rep = demoDocument(t).set("pull_date", day).set("gear[0].next_inspection", "2026-05-01").evaluate(t)
		refused(t, "day", rep, "pull_date", true)
		assert.Len(t, rep.Problems, 1, "once")
		assert.Equal(t, rigging.Unknown, rep.Gear[0].Verdict)
	}
}

func TestInspectionFieldsThatAreWrong(t *testing.T) {
	for _, key := range []string{"last_inspection", "next_inspection"} {
		for _, v := range []any{"", "2026-02-29", "1.5.2026", 7, true, nil, fields{}} {
			rep := withPiece(t, "2026-05-01", fields{key: v}).evaluate(t)
			refused(t, key, rep, "gear[0]."+key, true)
		}
	}
	for _, key := range []string{"size", "terminations", "cleared"} {
		refused(t, key, withPiece(t, nil, fields{key: 7}).evaluate(t), "gear[0]."+key, true)
	}
	for _, v := range []any{"true", "", 1, nil} {
		refused(t, "retired", withPiece(t, nil, fields{"retired": v}).evaluate(t), "gear[0].retired", true)
	}
	rep := withPiece(t, "2026-05-01", fields{"last_inspection": "2026-05-02"}).evaluate(t)
	refused(t, "inspected after the pull", rep, "gear[0].last_inspection", true)
	rep = withPiece(t, "2026-05-01", fields{"last_inspection": "2026-05-01"}).evaluate(t)
	assert.Equal(t, rigging.Within, rep.Verdict, "the same day")
	rep = withPiece(t, "2026-05-01", fields{"last_inspection": "2026-04-01", "next_inspection": "2026-03-01"}).evaluate(t)
	refused(t, "due before it was done", rep, "gear[0].next_inspection", true)
	assert.LessOrEqual(t, len([]rune(ended(strings.Repeat("why ", 1000)))), 601)
}
