package plan

import (
	"strconv"
	"strings"

	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// A Date is a day of the calendar in use since 1582, without a time or a
// time zone. The zero Date is no day.
type Date struct{ Year, Month, Day int }

// Years accepted in a plan: what lies outside is a slip of the finger.
const (
	firstYear = 1900
	lastYear  = 2199
)

// ParseDate reads "YYYY-MM-DD"; not ok for anything else and for days that
// do not exist.
func ParseDate(text string) (d Date, ok bool) {
	if len(text) != len("2006-01-02") || text[4] != '-' || text[7] != '-' {
		return Date{}, false
	}
	for i := range len(text) {
		if c := text[i]; i != 4 && i != 7 && (c < '0' || c > '9') {
			return Date{}, false
		}
	}
	d.Year, _ = strconv.Atoi(text[:4])
	d.Month, _ = strconv.Atoi(text[5:7])
	d.Day, _ = strconv.Atoi(text[8:])
	if d.Year < firstYear || d.Year > lastYear || d.Month < 1 || d.Month > 12 || d.Day < 1 || d.Day > d.monthLength() {
		return Date{}, false
	}
	return d, true
}

// monthLength is the number of days of the date's month.
func (d Date) monthLength() int {
	switch d.Month {
	case 2:
		if d.Year%4 == 0 && (d.Year%100 != 0 || d.Year%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// Known says whether there is a day at all.
func (d Date) Known() bool { return d != Date{} }

// Before says whether the day lies before another.
func (d Date) Before(other Date) bool {
	if d.Year != other.Year {
		return d.Year < other.Year
	}
	if d.Month != other.Month {
		return d.Month < other.Month
	}
	return d.Day < other.Day
}

// DaysTo counts the days to another date, negative where that lies before.
func (d Date) DaysTo(other Date) int { return other.number() - d.number() }

// number counts the days from the first of March of the year 0.
func (d Date) number() int {
	y, m := d.Year, d.Month-3 // with years that begin in March the leap day comes last
	if m < 0 {
		y, m = y-1, m+12
	}
	return 365*y + y/4 - y/100 + y/400 + (153*m+2)/5 + d.Day - 1
}

// String writes the date as a plan does, "" for no day.
func (d Date) String() string {
	if !d.Known() {
		return ""
	}
	two := func(n int) string {
		if n < 10 {
			return "0" + strconv.Itoa(n)
		}
		return strconv.Itoa(n)
	}
	return strconv.Itoa(d.Year) + "-" + two(d.Month) + "-" + two(d.Day)
}

// An inspection is what a piece of gear says of its fitness.
type inspection struct {
	last, next Date // no day where left out or not accepted
	retired    bool
	cleared    string // why it may be used all the same
}

// date is a day, none when left out or not accepted. What is not accepted is
// a problem.
func (o *object) date(f field.Field) Date {
	v, ok := o.take(f)
	if !ok {
		return Date{}
	}
	s, _ := v.(string)
	d, ok := ParseDate(s)
	if !ok {
		o.problem(CodeType, f, takes("date"), shown(v), "date", text.Field(o.at(f)))
	}
	return d
}

// inspection reads what a piece says of its fitness.
func (r *reader) inspection(o *object) (in inspection) {
	o.text(field.PieceSize)
	o.text(field.Terminations)
	in.last, in.next = o.date(field.LastInspection), o.date(field.NextInspection)
	if in.last.Known() && in.next.Known() && in.next.Before(in.last) {
		o.problem(CodeRange, field.NextInspection, takes("after_last"), in.next.String(), "next_before_last", in.next, in.last)
	}
	in.retired = o.flag(field.Retired)
	return in
}

// pullDate reads the day the plan is judged for.
func (r *reader) pullDate(root *object, m *model) {
	m.pullDate = root.date(field.PullDate)
	m.dated = root.has(field.PullDate)
}

// fit holds a piece to the day of the pull. A piece that is retired or past
// its inspection is barred: the plan is not judged with it, unless somebody
// says why it may be used all the same.
func (r *reader) fit(m *model, g *piece) {
	in := &g.inspection
	cleared := strings.TrimSpace(in.cleared) != ""
	if in.retired && !cleared {
		g.barred = true
		r.problem(CodeInspection, g.path+".retired", takes("other_piece"), true, "retired", quote(g.id))
	}
	if in.next.Known() && !m.dated && !r.askedForDate {
		r.askedForDate = true
		r.problem(CodeMissing, "pull_date", takes("date"), nil, "pull_date_missing", quote(g.id))
	}
	if !m.pullDate.Known() {
		g.barred = g.barred || in.next.Known()
		return
	}
	if m.pullDate.Before(in.last) {
		g.barred = true
		r.problem(CodeRange, g.path+".last_inspection", takes("before_pull"), in.last.String(), "last_after_pull", quote(g.id), in.last, m.pullDate)
	}
	if in.next.Known() && in.next.Before(m.pullDate) && !cleared {
		g.barred = true
		r.problem(CodeInspection, g.path+".next_inspection", takes("after_pull"), in.next.String(), "past_inspection", quote(g.id), in.next, m.pullDate)
	}
}

// cautionCleared repeats the reason of every piece that is only used because
// somebody says it may be.
func (e *evaluation) cautionCleared() {
	for _, g := range e.m.gear {
		in := &g.inspection
		reason := strings.TrimSpace(in.cleared)
		if reason == "" {
			continue
		}
		past := in.next.Known() && e.m.pullDate.Known() && in.next.Before(e.m.pullDate)
		path, said := g.path+".cleared", text.Words(ended(reason))
		switch {
		case in.retired && past:
			e.caution("cleared.retired_past", path, sourcePlan, quote(g.id), in.next, said)
		case in.retired:
			e.caution("cleared.retired", path, sourcePlan, quote(g.id), said)
		case past:
			e.caution("cleared.past", path, sourcePlan, quote(g.id), in.next, said)
		}
	}
}

// ended keeps a reason to a length that can be read, with its full stop.
func ended(s string) string {
	const most = 600
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	if strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") {
		return s
	}
	return s + "."
}
