package plan

// Stems of one stool or fork are planned one by one, a plan for each:
//
//	"fork": {"tree": "name the stems share", "stem": 1, "of": 3, "order": 1}
//
// Stem is the stem's number, order its turn in the felling. Nothing is
// computed from it: a plan of one stem knows nothing of the others' weight,
// which is why its cautions are.

const maxStems = 20

type fork struct {
	given           bool
	tree            string
	stem, of, order int // 0 where not given
}

func (r *reader) fork(root *object, m *model) {
	o := root.child("fork", false)
	if o == nil {
		return
	}
	f := &m.fork
	f.given = true
	f.tree = o.identifier("tree")
	whole := Range{Min: 1, Max: maxStems, Whole: true}
	read := func(key string, s Range) int {
		v := o.required(key, s)
		return int(orZero(v))
	}
	f.of = read("of", Range{Min: 2, Max: maxStems, Whole: true})
	f.stem = read("stem", whole)
	f.order = read("order", whole)
	within := func(key, wrong string, v int) {
		if f.of > 0 && v > f.of {
			o.problem(CodeRange, key, Range{Min: 1, Max: float64(f.of), Whole: true}.takes(), v, wrong, v, f.of)
		}
	}
	within("stem", "fork_stem", f.stem)
	within("order", "fork_order", f.order)
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
