package plan

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/jsontext"
)

// EvaluateJSON reads a plan and writes its report. It answers to any input
// with a report; what is wrong is in its problems.
func EvaluateJSON(raw []byte) []byte {
	rep := Evaluate(raw)
	w := jsontext.NewWriter(96 << 10)
	rep.AppendJSON(w)
	return w.Bytes()
}

// Evaluate reads a plan and computes its report.
func Evaluate(raw []byte) Report {
	if len(raw) > MaxBytes {
		return EvaluateTree(nil, len(raw))
	}
	tree, err := jsontext.Parse(raw)
	if err != nil {
		r := &reader{}
		r.problem("", "one JSON object", nil, "%s", unreadable(err))
		return r.report(nil)
	}
	return EvaluateTree(tree, len(raw))
}

// EvaluateTree computes the report of a plan that package jsontext has read
// from a text of so many bytes. The tree is left as it is.
func EvaluateTree(tree any, size int) Report {
	r, e := workOut(tree, size, false)
	return r.report(e)
}

// workOut works a plan out, a light one without cautions and working; e is
// nil where there is nothing to work out.
func workOut(tree any, size int, light bool) (r *reader, e *evaluation) {
	r = &reader{}
	if size > MaxBytes {
		r.problem("", fmt.Sprintf("at most %d bytes", MaxBytes), size, "the plan is %d bytes long; at most %d are read", size, MaxBytes)
		return r, nil
	}
	if _, ok := tree.(map[string]any); !ok {
		r.problem("", "one JSON object", shown(tree), "this is %s, not a plan; a plan is one JSON object { … }", describe(tree))
		return r, nil
	}
	root := r.object("", tree, true)
	root.fields = r.migrate(root.fields)
	e = &evaluation{r: r, m: r.model(root), light: light}
	e.run()
	return r, e
}

// unreadable says in a sentence why a text is not a plan.
func unreadable(err error) string {
	var at *jsontext.Error
	if !errors.As(err, &at) {
		return "this is not a plan"
	}
	switch at.Fault {
	case jsontext.Short:
		return "this is not a plan: the text is empty or ends too early"
	case jsontext.Trailing:
		return "there is something after the end of the plan"
	case jsontext.Many:
		return fmt.Sprintf("this is not a plan: it holds more than %d values", jsontext.MaxValues)
	case jsontext.Deep:
		return "this is not a plan: lists and objects lie too deep in each other"
	}
	return "this is not a plan: the text is not JSON from character " + strconv.Itoa(at.Offset+1) + " on"
}

// An evaluation is the work on one plan.
type evaluation struct {
	r        *reader
	m        *model
	light    bool // without cautions and working
	pull     *rigging.Pull
	solved   bool
	loads    []lineLoad
	held     []held
	pieces   []GearReport
	cautions []Caution
	parts    []part
	holdTo   float64 // N of haul on the first pull line, NaN where unknown
}

// A part is what one line puts on one point, per newton of its tension.
type part struct {
	point, line int
	per         rigging.Vec
}

// A lineLoad is what one line carries, in N.
type lineLoad struct {
	known      bool
	tension    float64
	stall      float64 // NaN where the puller's stall is not known
	end        float64 // last leg, per newton of tension
	first      float64 // haul leaving the tackle, per newton of tension
	haul       float64 // haul at the puller, per newton of tension
	highest    float64 // greatest leg or part of rope in the tackle, per newton of tension
	block      float64 // greatest load on a block that travels in the tackle, not below highest, per newton of tension
	stem       float64 // greatest resultant at a place on the stem, per newton of tension
	haulUnits  []rigging.Vec
	haulLength []float64
	haulMult   []float64 // tension of each hauling leg, per newton of tension
	haulAngles []float64 // included angle at each hauling block
}

// on is what a piece on this line carries, per newton of tension.
func (ll *lineLoad) on(g *piece) float64 {
	switch {
	case g.atStem:
		return ll.stem
	case g.kind == "block":
		return ll.block
	}
	return ll.highest
}

func (e *evaluation) caution(code, path, format, source string, args ...any) {
	e.cautions = append(e.cautions, Caution{Code: code, Path: path, Message: fmt.Sprintf(format, args...), Source: source, Format: format, Args: args})
}

func (e *evaluation) run() {
	e.holdTo = math.NaN()
	e.held = make([]held, len(e.m.points))
	e.loads = make([]lineLoad, len(e.m.lines))
	if !e.r.broken {
		e.solve()
	}
	if e.solved {
		e.loadLines()
		e.loadPoints()
		e.hold()
	}
	e.judgeGear()
	e.missingLinks()
	if e.light {
		return
	}
	if e.solved {
		e.limitHaul()
		e.findCautions()
	}
	e.cautionCleared()
	e.cautionFork()
	e.cautionBrief()
	e.cautionAfter()
	e.standingCautions()
}

// solve builds the set-up and has it solved; what cannot be solved is a
// problem.
func (e *evaluation) solve() {
	m := e.m
	s := &m.setup
	for _, l := range m.lines {
		path := make([]rigging.Station, len(l.stations))
		for k, st := range l.stations {
			if st.onStem {
				path[k] = rigging.StemStation(s.Tree, s.Stump, st.stem, st.efficiency)
			} else {
				path[k] = rigging.Station{At: m.points[st.point].at, Efficiency: st.efficiency}
			}
		}
		s.Lines = append(s.Lines, rigging.Line{Path: path, Share: l.share, Hold: l.hold})
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
			path += fmt.Sprintf("[%d]", at.Station)
		}
		e.r.problem(path, "a path from its dead end over the stem to a point", nil, "line %s: %s", quote(m.lines[lineError.Line].id), err)
	case errors.Is(err, rigging.ErrNoPullLine):
		e.r.problem("lines", "at least one line with role pull", nil, "there is no pull line; add one")
	default:
		e.r.problem("lines", "a line that pulls toward the lay until the tree falls by itself", nil, "%s", err)
	}
	if e.solved && m.planned > 0 {
		least := m.allowance * e.pull.Peak
		if m.planned < least*(1-1e-9) {
			e.r.problem("planned_kN", "at least "+kilonewtons(least).String(), m.planned/rigging.KN,
				"the planned tension of %s is below the allowance times the greatest pull needed, %s; plan for at least that", Amount{m.planned / rigging.KN, "kN", Nearest}, kilonewtons(least))
		}
	}
}

func (e *evaluation) loadLines() {
	m, p := e.m, e.pull
	for i := range m.lines {
		l, ll, st := &m.lines[i], &e.loads[i], &p.Standing[i]
		ll.tension = p.Tension[i]
		ll.end, ll.highest = st.End(), st.Highest()
		for k, s := range l.stations {
			if s.onStem {
				ll.stem = math.Max(ll.stem, st.Force(k).Norm())
			}
		}
		ll.first = ll.end
		if l.tackle != nil {
			ll.first = math.NaN()
			if l.tackle.usable {
				ll.first = ll.end / l.tackle.result.Actual
			}
		}
		ll.haul = ll.first
		ll.known = e.haulLegs(l, ll) && !math.IsNaN(ll.haul)
		if !ll.known { // half a hauling part loads nothing that could be judged
			ll.first, ll.haul = math.NaN(), math.NaN()
			for k := range ll.haulMult {
				ll.haulMult[k] = math.NaN()
			}
		}
		if ll.known && l.stall > 0 {
			ll.stall = l.stall / ll.haul
		} else {
			ll.stall = math.NaN()
		}
		ll.highest = math.Max(ll.highest, ll.haul)
		ll.block = ll.highest
		if l.tackle != nil && l.tackle.usable {
			part, travelling := l.tackle.result.Greatest()
			ll.highest = math.Max(ll.highest, ll.end*part)
			ll.block = math.Max(ll.highest, ll.end*travelling)
		}
	}
	e.stallHolds()
}

// haulLegs follows the hauling part of a tackle to the puller.
func (e *evaluation) haulLegs(l *line, ll *lineLoad) bool {
	if l.tackle == nil || len(l.tackle.haul) == 0 {
		return true
	}
	at := e.m.points[l.stations[len(l.stations)-1].point].at
	for k, s := range l.tackle.haul {
		leg := e.m.points[s.point].at.Sub(at)
		u, err := leg.Unit()
		if err != nil {
			e.r.problem(s.path, "a place of its own", nil, "line %s: this station of the hauling part is at the same place as the one before it", quote(l.id))
			return false
		}
		if k > 0 {
			angle := math.Acos(math.Max(-1, math.Min(1, -ll.haulUnits[k-1].Dot(u))))
			ll.haulAngles = append(ll.haulAngles, angle)
			ll.haul *= rigging.SheaveRatio(l.tackle.haul[k-1].efficiency, angle)
		}
		ll.haulUnits = append(ll.haulUnits, u)
		ll.haulLength = append(ll.haulLength, leg.Norm())
		ll.haulMult = append(ll.haulMult, ll.haul)
		at = e.m.points[s.point].at
	}
	return true
}

// stallHolds gives the hold lines' tension when the pullers pull all they
// can: scaled like everything else, and not less than what then keeps the
// hinge free of side moment, nor than what a hold line's own puller can make.
func (e *evaluation) stallHolds() {
	tensions := make([]float64, len(e.loads))
	scale := 0.0
	for i, l := range e.m.lines {
		ll := &e.loads[i]
		if l.hold {
			continue
		}
		tensions[i] = ll.stall
		if ll.tension > 0 {
			scale = math.Max(scale, ll.stall/ll.tension) // math.Max keeps a NaN
		} else {
			scale += 0 * ll.stall
		}
	}
	holds := e.m.setup.HoldAt(e.pull, tensions)
	for i, l := range e.m.lines {
		if !l.hold {
			continue
		}
		ll := &e.loads[i]
		own := 0.0
		if ll.stall > 0 {
			own = ll.stall
		}
		ll.stall = math.Max(own, math.Max(ll.tension*scale, holds[i]))
		if math.IsNaN(scale) {
			ll.stall = math.NaN()
		}
	}
}

// loadPoints adds up what every line does to every point.
func (e *evaluation) loadPoints() {
	for i := range e.held {
		e.held[i].stallKnown = true
		e.held[i].included = math.NaN()
	}
	add := func(point, line int, perNewton rigging.Vec) {
		h, ll := &e.held[point], &e.loads[line]
		e.parts = append(e.parts, part{point, line, perNewton})
		h.used = true
		h.pull = h.pull.Add(perNewton.Scale(ll.tension))
		if math.IsNaN(ll.stall) {
			h.stallKnown = false
		} else {
			h.stall = h.stall.Add(perNewton.Scale(ll.stall))
		}
	}
	block := func(point int, ll *lineLoad, perNewton float64) {
		h := &e.held[point]
		h.block = math.Max(h.block, perNewton*ll.tension)
		h.blockStall = math.Max(h.blockStall, perNewton*ll.stall) // math.Max keeps a NaN
	}
	include := func(point int, angle float64) {
		h := &e.held[point]
		if !(h.included <= angle) {
			h.included = angle
		}
	}
	for i := range e.m.lines {
		l, ll, st := &e.m.lines[i], &e.loads[i], &e.pull.Standing[i]
		last := len(l.stations) - 1
		for k, s := range l.stations {
			if s.onStem {
				continue
			}
			f := st.Force(k)
			if k == last && l.tackle != nil {
				if len(ll.haulUnits) > 0 {
					f = f.Add(ll.haulUnits[0].Scale(ll.first))
				} else {
					f = f.Add(st.Units[k-1].Scale(-ll.first)) // back along the line, the worst for the anchor
				}
				block(s.point, ll, f.Norm())
			}
			add(s.point, i, f)
			if k > 0 && k < last {
				block(s.point, ll, f.Norm())
				include(s.point, st.Included(k))
			}
		}
		if l.tackle == nil {
			continue
		}
		for k := range ll.haulUnits {
			f := ll.haulUnits[k].Scale(-ll.haulMult[k])
			if k+1 < len(ll.haulUnits) {
				f = f.Add(ll.haulUnits[k+1].Scale(ll.haulMult[k+1]))
				include(l.tackle.haul[k].point, ll.haulAngles[k])
				block(l.tackle.haul[k].point, ll, f.Norm())
			}
			add(l.tackle.haul[k].point, i, f)
		}
	}
}

// judgeGear sets every piece, and every line's puller, against its limit.
func (e *evaluation) judgeGear() {
	for _, g := range e.m.gear {
		load, stall := math.NaN(), math.NaN()
		switch {
		case !e.solved:
		case g.point >= 0:
			h := &e.held[g.point]
			load = h.pull.Norm()
			if h.stallKnown {
				stall = h.stall.Norm()
			}
			if g.kind == "block" {
				// Pulls of several lines may cancel in what holds the point,
				// but not in the block of each.
				load, stall = math.Max(load, h.block), math.Max(stall, h.blockStall)
			}
		case g.line >= 0 && e.loads[g.line].known:
			ll := &e.loads[g.line]
			per := ll.on(&g)
			load, stall = per*ll.tension, per*ll.stall
		}
		capacity := g.capacity
		if g.barred && rigging.Judge(load, capacity) != rigging.Over {
			capacity = math.NaN()
		}
		e.piece(g.id, g.kind, load, stall, capacity)
	}
	for i, l := range e.m.lines {
		if !l.puller && l.hold {
			continue
		}
		load := math.NaN()
		if e.solved && e.loads[i].known {
			load = e.loads[i].haul * e.loads[i].tension
		}
		e.piece(l.id+"/puller", "puller", load, l.stall, l.rated)
	}
}

func (e *evaluation) piece(id, kind string, load, stall, capacity float64) {
	e.pieces = append(e.pieces, GearReport{
		ID: id, Kind: kind,
		LoadKN: Num(load / rigging.KN), StallLoadKN: Num(stall / rigging.KN), CapacityKN: Num(capacity / rigging.KN),
		Use: Num(rigging.Use(load, capacity)), MarginKN: Num((capacity - load) / rigging.KN),
		Verdict: rigging.Judge(load, capacity), StallVerdict: rigging.Judge(stall, capacity),
	})
}

// missingLinks names what the chain from tree to anchor lacks.
func (e *evaluation) missingLinks() {
	m := e.m
	rope := make([]bool, len(m.lines))
	stemBlock := make([]bool, len(m.lines))
	pointBlock := make([]bool, len(m.points))
	for _, g := range m.gear {
		switch {
		case g.line >= 0 && !g.atStem && (g.kind == "wire_rope" || g.kind == "fibre_rope"):
			rope[g.line] = true
		case g.line >= 0 && g.atStem && g.kind == "block":
			stemBlock[g.line] = true
		case g.point >= 0 && g.kind == "block":
			pointBlock[g.point] = true
		}
	}
	for i, l := range m.lines {
		if !rope[i] {
			e.r.problem(l.path, "a wire rope or fibre rope among the gear on this line", nil, "line %s has no rope among the gear; add the rope with its limit", quote(l.id))
		}
		blocks := func(stations []station, from int) {
			for k := from; k < len(stations)-1; k++ {
				s := stations[k]
				switch {
				case s.onStem && !stemBlock[i]:
					stemBlock[i] = true // name it once
					e.r.problem(s.path, "a block among the gear at the stem on this line", nil, "line %s runs over a block on the stem, but the gear has no block there; add it with its limit", quote(l.id))
				case !s.onStem && s.point >= 0 && !pointBlock[s.point]:
					pointBlock[s.point] = true
					e.r.problem(s.path, "a block among the gear at this point", nil, "line %s runs over a block at %s, but the gear has no block there; add it with its limit", quote(l.id), quote(m.points[s.point].id))
				}
			}
		}
		blocks(l.stations, 1)
		if l.tackle != nil {
			blocks(l.tackle.haul, 0)
		}
		if (!l.hold || l.puller) && math.IsNaN(l.rated) && len(e.r.problemsAt(l.path+".puller")) == 0 {
			e.r.problem(l.path+".puller.rated_kN", spanForce.String(), nil, "the puller of line %s has no rated pull; give it", quote(l.id))
		}
	}
}

// limitHaul finds the haul at which the first piece or point reaches its
// capacity, were everything scaled alike.
func (e *evaluation) limitHaul() {
	first := -1
	for i, l := range e.m.lines {
		if !l.hold && first < 0 {
			first = i
		}
	}
	ll := &e.loads[first]
	if !ll.known || !(ll.tension > 0) {
		return
	}
	for _, g := range e.m.gear {
		if g.barred {
			return
		}
	}
	greatest := 0.0
	for _, g := range e.pieces {
		greatest = math.Max(greatest, float64(g.Use)) // math.Max keeps a NaN: with a piece unknown there is no such haul
	}
	for i := range e.held {
		if e.held[i].used {
			greatest = math.Max(greatest, e.held[i].use)
		}
	}
	if !(greatest > 0) || math.IsInf(greatest, 0) {
		return
	}
	// Were everything in proportion, the haul could grow by 1/greatest. It is
	// not: uplift takes a machine's grip, and a hold line takes up what
	// gravity no longer balances.
	scale := 1 / greatest
	if !e.holdsAt(scale) {
		if !e.holdsAt(0) {
			return
		}
		low := 0.0
		for range 40 {
			if mid := (low + scale) / 2; e.holdsAt(mid) {
				low = mid
			} else {
				scale = mid
			}
		}
		scale = low
	}
	e.holdTo = scale * ll.haul * ll.tension
}

// holdsAt says whether every piece and point is within its capacity with
// all pulls at scale times the planned ones.
func (e *evaluation) holdsAt(scale float64) bool {
	const slack = 1 + 1e-9 // of rounding
	tensions := make([]float64, len(e.loads))
	for i := range e.loads {
		tensions[i] = scale * e.loads[i].tension
	}
	holds := e.m.setup.HoldAt(e.pull, tensions)
	for i, l := range e.m.lines {
		if l.hold {
			tensions[i] = math.Max(tensions[i], holds[i])
		}
	}
	pulls := make([]rigging.Vec, len(e.held))
	for _, p := range e.parts {
		pulls[p.point] = pulls[p.point].Add(p.per.Scale(tensions[p.line]))
	}
	order, circular := e.bridleOrder()
	for _, i := range order {
		if e.m.points[i].bridle != nil && e.held[i].used && (circular[i] || !e.m.shareInto(i, pulls)) {
			return false
		}
	}
	for i := range e.held {
		if anchor := e.m.points[i].anchor; anchor != nil && e.held[i].used {
			load, capacity, err := anchor.Hold(pulls[i])
			if err != nil || !(load <= capacity*slack) {
				return false
			}
		}
	}
	for _, g := range e.m.gear {
		load := 0.0
		switch {
		case g.point >= 0:
			load = pulls[g.point].Norm()
			if g.kind == "block" {
				load = math.Max(load, scale*e.held[g.point].block)
			}
		case g.line >= 0:
			load = e.loads[g.line].on(&g) * tensions[g.line]
		}
		if !(load <= g.capacity*slack) {
			return false
		}
	}
	for i, l := range e.m.lines {
		if (l.puller || !l.hold) && !(e.loads[i].haul*tensions[i] <= l.rated*slack) {
			return false
		}
	}
	return true
}

// kilonewtons is a load, or whatever else must not be understated.
func kilonewtons(newtons float64) Amount { return Amount{newtons / rigging.KN, "kN", Up} }

// heldKilonewtons is a capacity, or whatever else must not be overstated.
func heldKilonewtons(newtons float64) Amount { return Amount{newtons / rigging.KN, "kN", Down} }
