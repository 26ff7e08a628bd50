package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// What is out of the ordinary: a plan beyond one of these is near its limits at
// best. Common practice, no source, but for the share of a hinge, which is the
// published guide of 10 % with half as much again either way.
const (
	LeastDesignFactor = 2.0
	ThickHinge        = 0.15 // of the diameter
	ThinHinge         = 0.05
	GreatLean         = 20 * rigging.Deg
	LeastSlenderness  = 8.0 // height over diameter
	MostSlenderness   = 150.0
	GreatSideLean     = 5 * rigging.Deg
	LargeCavity       = 1.0 / 3 // of the hinge's length
	FarOffLay         = 30 * rigging.Deg
	TopOfTree         = 0.85 // of the height
)

// unusual is a caution that also keeps the plan near its limits at best.
func (e *evaluation) unusual(key, path, source string, args ...any) {
	said := text.Saying{Key: "caution." + key, Args: args}
	e.because(rigging.Near, key, path, said)
	if e.depth >= ToReport {
		e.cautions = append(e.cautions, Caution{Code: codeOf(key), Path: path, Source: source, Saying: said})
	}
}

func (e *evaluation) findUnusual() {
	m := e.m
	for i := range m.gear {
		if g := &m.gear[i]; g.designFactor < LeastDesignFactor {
			e.unusual("design_factor", g.path, sourcePractice, quote(g.id), plain(g.designFactor))
		}
	}
	t, h := &m.setup.Tree, &m.setup.Hinge
	if thick := math.Max(h.Left, h.Right); thick > ThickHinge*t.Diameter*(1+1e-9) {
		e.unusual("hinge_thick", "cut", sourcePractice, centimetres(thick, text.Up))
	}
	if thin := math.Min(h.Left, h.Right); thin < ThinHinge*t.Diameter*(1-1e-9) {
		e.unusual("hinge_very_thin", "cut", sourcePractice, centimetres(thin, text.Down))
	}
	if t.Lean > GreatLean*(1+1e-9) {
		e.unusual("lean_great", "tree.lean_deg", sourcePractice, degreesUp(t.Lean))
	}
	if s := t.Height / t.Diameter; s < LeastSlenderness || s > MostSlenderness {
		e.unusual("slenderness", "tree.height_m", sourcePractice, plain(s))
	}
	if t.Cavity > LargeCavity*h.Length*(1+1e-9) {
		e.unusual("cavity_large", "tree.cavity_cm", sourcePractice)
	}
	axis := t.Axis()
	if side := math.Atan2(math.Abs(axis.Y), axis.Z); side > GreatSideLean*(1+1e-9) && !e.heldAgainst(axis.Y) {
		e.unusual("side_lean", "lines", sourcePractice, degreesUp(side))
	}
	if off := e.offLay(); off > FarOffLay*(1+1e-9) {
		e.unusual("off_lay", "lines", sourcePractice, degreesUp(off))
	}
	for i := range m.lines {
		for _, s := range m.lines[i].stations {
			if s.onStem && s.stem > TopOfTree*t.Height*(1+1e-9) {
				e.unusual("tie_in_top", s.path, sourcePractice)
			}
		}
	}
}

// heldAgainst says whether a hold line draws the standing stem away from the side
// (above 0 left, below 0 right) that it leans to.
func (e *evaluation) heldAgainst(side float64) bool {
	for i, l := range e.m.lines {
		if l.hold && e.pull.Standing[i].Side*side < 0 {
			return true
		}
	}
	return false
}

// offLay is how far off the lay (rad) the level pull of all lines together is,
// standing at planned tension, the hold lines at what the tree then asks of them.
// Lines that only steer, with no tension planned, count by their shares.
func (e *evaluation) offLay() float64 {
	tensions, holds := make([]float64, len(e.loads)), make([]float64, len(e.loads))
	for i, l := range e.m.lines {
		if !l.hold {
			tensions[i] = l.share * e.pull.Planned
			if e.pull.Planned == 0 {
				tensions[i] = l.share
			}
		}
	}
	if e.pull.Planned > 0 {
		holds = e.m.setup.HoldAt(e.pull, e.pull.Standing, tensions)
	}
	var on rigging.Vec
	for i, l := range e.m.lines {
		st := &e.pull.Standing[i]
		for k, s := range l.stations {
			if s.onStem {
				on = on.Add(st.Force(k).Scale(tensions[i] + holds[i]))
			}
		}
	}
	if on.Horizontal() == 0 {
		return 0
	}
	return math.Abs(math.Atan2(on.Y, on.X))
}
