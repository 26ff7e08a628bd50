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
	within := func(key string, v int) {
		if f.of > 0 && v > f.of {
			o.problem(CodeRange, key, Range{Min: 1, Max: float64(f.of), Whole: true}.String(), v, "%s is %d, but the tree has %d stems", name(key), v, f.of)
		}
	}
	within("stem", f.stem)
	within("order", f.order)
	o.done()
}

func (e *evaluation) cautionFork() {
	f := &e.m.fork
	if !f.given {
		return
	}
	e.caution("fork_union", "fork", "This stem shares its foot with others. The union may split or tear off before the hinge has done its work, and bark grown in between holds nothing. A competent person judges the union first; where it cannot be trusted, bind the stems together or take the tree down another way.", sourcePractice)
	if f.order > 1 {
		e.caution("fork_changed", "fork.order", "By the time this stem is pulled, others are off: what leaned on them or sheltered them leans and sways otherwise, the stump is cut away in part, and the union is weaker. Measure lean, hinge and anchor afresh after every stem.", sourcePractice)
	}
	if f.of > 0 && f.order < f.of {
		e.caution("fork_standing", "fork.order", "Other stems still stand while this one is pulled. The rope and the crown can catch on them, and they may come along or come back: stand clear of all of them.", sourcePractice)
	}
}
