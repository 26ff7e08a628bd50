package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// An OrderReport is the pull as it is done: its steps, and how it runs by the curve.
// Empty where the pull could not be worked out, or the plan has a problem.
type OrderReport struct {
	Steps []OrderStep  `json:"steps"`
	Stops []StopReport `json:"stops"`
}

// An OrderStep is one step of the pull, with the tension and haul of the first pull
// line at which to stop and look; null where nothing is hauled.
type OrderStep struct {
	Step    string `json:"step"` // pretension, face, back_cut, pull or most
	KN      Num    `json:"kN"`
	HaulKN  Num    `json:"haul_kN"`
	Message string `json:"message"`

	Saying text.Saying `json:"-"` // what Message says
}

// A StopReport is one turn of the tree: the pull it takes there, what has been hauled by
// then, and what the hold lines do.
type StopReport struct {
	Deg    Num          `json:"deg"`
	KN     Num          `json:"kN"`      // of the curve
	HaulKN Num          `json:"haul_kN"` // at the puller of the first pull line; null where it is not known
	RopeM  Num          `json:"rope_m"`  // hauled at that puller, without its stretch
	Holds  []HoldReport `json:"holds"`
}

// A HoldReport is one hold line at a turn.
type HoldReport struct {
	ID      string `json:"id"`
	KN      Num    `json:"kN"`        // what keeps the side moment off the hinge there; 0: it may hang slack
	LetOutM Num    `json:"let_out_m"` // since the tree stood; below 0 it is taken in, or goes slack
}

// stopEvery is how far apart the turns of the table are; our own choice.
const stopEvery = 5 * rigging.Deg

func (e *evaluation) writeOrder(rep *Report) {
	if !e.solved || len(e.r.problems) > 0 {
		return
	}
	e.writeSteps(&rep.Order)
	last := math.Max(e.pull.Commit, math.Min(e.m.setup.FaceOpening, math.Pi/2))
	if !e.holdsLines() {
		last = e.pull.Commit
	}
	before := math.Inf(-1)
	for k := range e.pull.Curve {
		c := &e.pull.Curve[k]
		ends := c.Turn >= last-1e-9
		if c.Turn-before >= stopEvery-1e-9 || ends || k > 0 && e.holdsChange(k) || before < e.pull.Commit && c.Turn >= e.pull.Commit {
			rep.Order.Stops = append(rep.Order.Stops, e.stop(k))
			before = c.Turn
		}
		if ends {
			return
		}
	}
}

// holdsChange says whether a hold line comes tight or slack at sample k of the curve.
func (e *evaluation) holdsChange(k int) bool {
	for i, tension := range e.pull.Curve[k].Hold {
		if (tension > 0) != (e.pull.Curve[k-1].Hold[i] > 0) {
			return true
		}
	}
	return false
}

// stop is sample k of the curve.
func (e *evaluation) stop(k int) StopReport {
	p, main := e.pull, e.mainLine()
	c := &p.Curve[k]
	out := StopReport{Deg: Num(c.Turn / rigging.Deg), KN: Num(c.Tension / rigging.KN), Holds: []HoldReport{},
		RopeM: Num((p.Standing[main].Length - c.Length[main]) * e.idealAdvantage(main))}
	out.HaulKN = Num(math.NaN())
	for i := range e.turning {
		if e.turning[i].turn == c.Turn {
			out.HaulKN = Num(c.Tension * e.m.lines[main].share * e.turning[i].lines[main].haul / rigging.KN)
		}
	}
	if c.Tension == 0 {
		out.HaulKN = 0
	}
	for i := range e.m.lines {
		if l := &e.m.lines[i]; l.hold {
			out.Holds = append(out.Holds, HoldReport{l.id, Num(c.Hold[i] / rigging.KN), Num(c.Length[i] - p.Standing[i].Length)})
		}
	}
	return out
}

func (e *evaluation) idealAdvantage(i int) float64 {
	switch t := e.m.lines[i].tackle; {
	case t == nil:
		return 1
	case t.usable:
		return t.result.Ideal
	}
	return math.NaN()
}

// writeSteps lists the steps. The pre-tension is our own rule: what holds the weight
// and the wind, so that the tree does not sit back, and not yet bends the hinge.
func (e *evaluation) writeSteps(o *OrderReport) {
	p, main := e.pull, e.mainLine()
	haul := e.standing.lines[main].haul * e.m.lines[main].share
	m := e.toward(0, 0)
	light := math.Max(0, math.Min(p.Start, (m[1]-m[2])*rigging.KNm/p.Lever))
	add := func(step string, tension float64, key string, args ...any) {
		o.Steps = append(o.Steps, OrderStep{Step: step, KN: Num(tension / rigging.KN), HaulKN: Num(tension * haul / rigging.KN), Saying: text.Saying{Key: key, Args: args}})
	}
	nan := math.NaN()
	if light > 0 {
		add("pretension", light, "order.pretension", kilonewtons(light), kilonewtons(light*haul))
	} else {
		add("pretension", nan, "order.pretension.hand")
	}
	add("face", nan, "order.face")
	if e.holdsLines() {
		add("back_cut", nan, "order.back_cut.hold")
	} else {
		add("back_cut", nan, "order.back_cut")
	}
	if p.Peak > 0 {
		add("pull", p.Start, "order.pull", kilonewtons(p.Start), kilonewtons(p.Start*haul), kilonewtons(p.Peak), tenth(p.PeakTurn), tenth(p.Commit))
		add("most", p.Planned, "order.most", kilonewtons(p.Planned), kilonewtons(p.Planned*haul))
	}
}

// cautionSnatch tells what a machine does that takes up slack at a walk, and how slow
// it has to be so that nothing is over: every use taken to grow with the line's tension.
func (e *evaluation) cautionSnatch() {
	for i := range e.m.lines {
		l, la := &e.m.lines[i], &e.loads[i]
		machine, ok := e.m.machineOf(l)
		if !ok || l.hold || !(la.tension > 0) {
			continue
		}
		length := la.state.Length
		for _, more := range e.runs[i].lengths {
			length += more
		}
		rise := rigging.Snatch(machine.Mass, rigging.SnatchSpeed, l.stiff, length)
		if math.IsNaN(rise) {
			e.caution("snatch.unknown", l.path+".rope.stiffness_kN", sourceSnatch, quote(l.id))
			continue
		}
		first, use := e.firstOver(i)
		speed := math.Max(0, la.tension*(1/use-1)/rise) * rigging.SnatchSpeed
		args := []any{quote(l.id), text.Amount{Value: rigging.SnatchSpeed, Unit: "m/s", Round: text.Up}, kilonewtons(rise), quote(first), text.Amount{Value: speed, Unit: "m/s", Round: text.Down}}
		e.caution("snatch", l.path, sourceSnatch, args...)
	}
}

const sourceSnatch = "snatch"

// firstOver is the piece, point or stem that a line's tension would have over first.
func (e *evaluation) firstOver(i int) (id string, use float64) {
	take := func(name string, u float64) {
		if u > use {
			id, use = name, u
		}
	}
	take(StemRow, e.stemUse(e.stem.planned))
	at := make([]bool, len(e.m.points))
	for _, part := range e.standing.parts {
		if part.line == i {
			at[part.point] = true
		}
	}
	for k := range e.held {
		if at[k] {
			take(e.m.points[k].id, e.held[k].use)
		}
	}
	for k := range e.m.gear {
		if g := &e.m.gear[k]; g.line == i || g.point >= 0 && at[g.point] {
			take(g.id, rigging.Use(e.planned.pieces[k].value, g.capacity))
		}
	}
	return id, use
}
