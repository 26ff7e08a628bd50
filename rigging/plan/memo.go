package plan

import "pullline/rigging/plan/field"

import "slices"

// A memo keeps what was read of the lines and the gear for the next variation of a
// plan: where all that they are read from is the same, so is what comes of it.
type memo struct {
	points        []point // of the plan read last
	stump, height float64
	pullDate      Date
	dated         bool
	lines         remembered[line]
	gear          remembered[piece]
}

// remembered is one list of a plan as it was read.
type remembered[T any] struct {
	known    bool
	raw      []any
	list     []T
	problems []Problem
	assumed  []Assumed
	broken   bool
	asked    bool // for the day of the pull
}

// recall reads a list of the plan, or has it again where it is the one read last
// and nothing else it is read from has changed.
func recall[T any](r *reader, root *object, f field.Field, last *remembered[T], same bool, read func() []T) []T {
	v, _ := root.take(f)
	raw, ok := v.([]any)
	if same && last.known && ok && len(raw) == len(last.raw) && (len(raw) == 0 || &raw[0] == &last.raw[0]) {
		r.problems, r.assumed = append(r.problems, last.problems...), append(r.assumed, last.assumed...)
		r.broken, r.askedForDate = r.broken || last.broken, r.askedForDate || last.asked
		return slices.Clone(last.list)
	}
	problems, assumed, broken := len(r.problems), len(r.assumed), r.broken
	r.broken = false
	list := read()
	*last = remembered[T]{ok, raw, slices.Clone(list), slices.Clone(r.problems[problems:]), slices.Clone(r.assumed[assumed:]), r.broken, r.askedForDate}
	r.broken = r.broken || broken
	return list
}

// linesAndGear reads the lines and the gear.
func (r *reader) linesAndGear(root *object, m *model) {
	k := r.memo
	if k == nil {
		r.lines(root, m)
		r.pullDate(root, m)
		r.gear(root, m)
		return
	}
	named := slices.EqualFunc(k.points, m.points, func(a, b point) bool { return a.id == b.id && a.kind == b.kind })
	stump, height := m.setup.Stump, m.setup.Tree.Height
	before := k.lines.list
	m.lines = recall(r, root, field.Lines, &k.lines, named && stump == k.stump && height == k.height, func() []line {
		r.lines(root, m)
		return m.lines
	})
	r.pullDate(root, m)
	same := named && slices.EqualFunc(before, m.lines, func(a, b line) bool { return a.id == b.id }) && m.pullDate == k.pullDate && m.dated == k.dated
	m.gear = recall(r, root, field.Gear, &k.gear, same, func() []piece {
		r.gear(root, m)
		return m.gear
	})
	k.points, k.stump, k.height, k.pullDate, k.dated = m.points, stump, height, m.pullDate, m.dated
}
