package plan

import "pullline/rigging/plan/field"

// Stems of one stool or fork are planned one by one, a plan for each:
//
//	"fork": {"tree": "name the stems share", "stem": 1, "of": 3, "order": 1}
//
// Stem is the stem's number, order its turn in the felling. Nothing is
// computed from it: a plan of one stem knows nothing of the others' weight,
// which is why its cautions are.

type fork struct {
	given           bool
	tree            string
	stem, of, order int // 0 where not given
}

func (r *reader) fork(root *object, m *model) {
	o := root.child(field.Fork)
	if o == nil {
		return
	}
	f := &m.fork
	f.given = true
	f.tree = o.name(field.ForkTree)
	read := func(f field.Field) int { return int(orZero(o.number(f))) }
	f.of, f.stem, f.order = read(field.ForkOf), read(field.ForkStem), read(field.ForkOrder)
	within := func(key field.Field, wrong string, v int) {
		if f.of > 0 && v > f.of {
			o.problem(CodeRange, key, accepted(key.Row().Range.Within(1, float64(f.of))), v, wrong, v, f.of)
		}
	}
	within(field.ForkStem, "fork_stem", f.stem)
	within(field.ForkOrder, "fork_order", f.order)
	o.done()
}

func (e *evaluation) cautionFork() {
	f := &e.m.fork
	if !f.given {
		return
	}
	e.caution("fork_union", "fork", sourcePractice)
	if f.order > 1 {
		e.caution("fork_changed", "fork.order", sourcePractice)
	}
	if f.of > 0 && f.order < f.of {
		e.caution("fork_standing", "fork.order", sourcePractice)
	}
}
