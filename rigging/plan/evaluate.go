package plan

import (
	"errors"
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// workOut works a plan out to a depth; e is nil where there is nothing to work
// out.
func workOut(r *reader, tree any, size int, depth Depth) (_ *reader, e *evaluation) {
	if size > MaxBytes {
		r.problem(CodeTooLong, "", takes("bytes", MaxBytes), size, "plan_long", size, MaxBytes)
		return r, nil
	}
	if _, ok := tree.(map[string]any); !ok {
		r.problem(CodeUnreadable, "", takes("json"), shown(tree), "no_plan")
		return r, nil
	}
	root := r.object("", tree, true)
	root.fields = r.migrate(root.fields)
	e = &evaluation{r: r, m: r.model(root), depth: depth}
	e.run()
	return r, e
}

// An evaluation is the work on one plan.
type evaluation struct {
	r        *reader
	m        *model
	depth    Depth
	pull     *rigging.Pull
	solved   bool
	loads    []lineLoad
	held     []held
	pieces   []GearReport
	cautions []Caution
	reasons  []Why

	runs     []haulRun
	bridles  []bridleAt
	groups   []group
	standing *attitude
	turning  []attitude // from standing to commit
	atMost   []attitude // the same with the friction given, then without
	planned  *tally
	most     *tally
	stem     stemBending
	zones    []hazard // once they are asked for
	people   []judgedBeing
	ways     []EscapeReport
	holdTo   float64 // N of haul on the first pull line, NaN where unknown or the plan has a problem
	noRoom   bool    // the haul planned is more than the puller may be held to

	mostUnknown string // a piece or point of which it is not known what it carries or holds at most
}

// A lineLoad is what one line carries as planned and at most, in N.
type lineLoad struct {
	*lineAt             // standing
	tension     float64 // planned
	mostHaul    float64 // what its puller can make, 0 for a hold line without one; NaN where not known
	mostTension float64 // the line's tension then, without friction
}

// caution warns, by the key of a sentence whose code is what stands before its
// first dot.
func (e *evaluation) caution(key, path, source string, args ...any) {
	e.cautions = append(e.cautions, Caution{Code: codeOf(key), Path: path, Source: source, Saying: text.Saying{Key: "caution." + key, Args: args}})
}

func (e *evaluation) run() {
	e.holdTo = math.NaN()
	e.held = make([]held, len(e.m.points))
	e.loads = make([]lineLoad, len(e.m.lines))
	if !e.r.broken {
		e.solve()
	}
	if e.depth < ToVerdict {
		return
	}
	if e.solved {
		e.load()
		e.hold()
		e.bendStem()
		e.limitHaul()
	}
	e.judgeGear()
	e.missingLinks()
	if e.solved {
		e.findUnusual()
		e.ways = e.escapes()
	}
	if len(e.r.problems) > 0 { // nothing is said to hold where something is missing
		e.holdTo, e.noRoom = math.NaN(), false
	}
}

// solve builds the set-up and has it solved; what cannot be solved is a
// problem.
func (e *evaluation) solve() {
	m := e.m
	s := &m.setup
	s.Lines = make([]rigging.Line, 0, len(m.lines))
	for i := range m.lines {
		l := &m.lines[i]
		path := make([]rigging.Station, len(l.stations))
		for k := range l.stations {
			st := &l.stations[k]
			if st.onStem {
				path[k] = rigging.StemStation(s.Tree, s.Stump, st.stem, st.efficiency)
			} else {
				path[k] = rigging.Station{At: m.points[st.point].at, Efficiency: st.efficiency}
			}
		}
		s.Lines = append(s.Lines, rigging.Line{Path: path, Share: l.share, Hold: l.hold, Tended: l.tended, Stiffness: l.stiff})
	}
	var err error
	e.pull, err = s.Solve()
	var lineError *rigging.SetupLineError
	switch {
	case err == nil:
		e.solved = true
	case errors.As(err, &lineError):
		path := m.lines[lineError.Line].path + ".path"
		var at *rigging.LineError
		if errors.As(err, &at) && at.Station >= 0 {
			path = item(path, at.Station)
		}
		l := &m.lines[lineError.Line]
		key, args := lineFault(err, l.id, len(l.stations))
		e.r.problem(CodeLine, path, takes("line_path"), nil, key, args...)
	case errors.Is(err, rigging.ErrNoPullLine):
		e.r.problem(CodeCannotPull, "lines", takes("pull_line"), nil, "no_pull_line")
	default:
		key, args := pullFault(err)
		e.r.problem(CodeCannotPull, "lines", takes("pulling_line"), nil, key, args...)
	}
	if e.solved && m.planned > 0 && e.r.planned == 0 {
		least := m.allowance * e.pull.Peak
		if m.planned < least*(1-1e-9) {
			e.r.problem(CodePlanned, "planned_kN", takes("at_least", kilonewtons(least)), m.planned/rigging.KN, "planned_low", givenKilonewtons(m.planned), kilonewtons(least))
		}
	}
}

// load follows the lines from standing to commit.
func (e *evaluation) load() {
	e.layHaul()
	turns := rigging.Degrees(e.pull.Commit)
	e.atMost = e.attitudesAt(turns)
	e.turning = e.atMost[:len(turns)]
	e.standing = &e.turning[0]
	for i := range e.m.lines {
		e.loads[i] = lineLoad{lineAt: &e.standing.lines[i], tension: e.pull.Tension[i], mostHaul: e.m.haulAtMost(i)}
	}
	tensions := e.tensionsAtMost(e.mostHauls())(&e.atMost[len(turns)])
	for i := range e.loads {
		e.loads[i].mostTension = tensions[i]
	}
}

// plannedTensions are those of every line, in any attitude.
func (e *evaluation) plannedTensions(*attitude) []float64 { return e.pull.Tension }

// judgeGear sets every piece, and every line's puller, against its limit.
func (e *evaluation) judgeGear() {
	for i, g := range e.m.gear {
		load, greatest, most := math.NaN(), peak{math.NaN(), 0}, math.NaN()
		if e.solved {
			greatest, most = e.planned.pieces[i], e.most.pieces[i].value
			switch {
			case g.point >= 0:
				load = e.held[g.point].pull.Norm()
				if g.kind == "block" { // pulls of several lines may cancel in what holds the point, but not in the block of each
					load = math.Max(load, e.held[g.point].block)
				}
			case g.line >= 0:
				ll := &e.loads[g.line]
				load = ll.on(&g) * ll.tension
			}
		}
		capacity := g.capacity
		if g.barred && rigging.Judge(greatest.value, capacity) != rigging.Over {
			capacity = math.NaN()
		}
		e.piece(g.id, g.kind, load, greatest, most, capacity, capacity)
	}
	for i, l := range e.m.lines {
		if !l.puller && l.hold {
			continue
		}
		load, greatest, most := math.NaN(), peak{math.NaN(), 0}, math.NaN()
		if e.solved {
			ll := &e.loads[i]
			load, greatest, most = ll.haul*ll.tension, e.planned.pullers[i], ll.mostHaul
		}
		e.piece(l.id+"/puller", "puller", load, greatest, most, l.pullerHolds(), l.rated)
	}
}

// piece adds a row. At most a puller is held against its rated pull: what it is
// set to is what it makes then.
func (e *evaluation) piece(id, kind string, load float64, greatest peak, most, capacity, mostCapacity float64) {
	e.pieces = append(e.pieces, GearReport{
		ID: id, Kind: kind,
		LoadKN: Num(load / rigging.KN), GreatestKN: Num(greatest.value / rigging.KN), GreatestDeg: Num(greatest.degrees()), AtMostKN: Num(most / rigging.KN),
		CapacityKN: Num(capacity / rigging.KN),
		Use:        Num(rigging.Use(greatest.value, capacity)), AtMostUse: Num(rigging.Use(most, mostCapacity)),
		MarginKN: Num((capacity - greatest.value) / rigging.KN),
		Verdict:  rigging.Judge(greatest.value, capacity), AtMostVerdict: rigging.Judge(most, mostCapacity),
	})
}
