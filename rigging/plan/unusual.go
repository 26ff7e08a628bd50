package plan

import (
	"math"

	"pullline/rigging"
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
func (e *evaluation) unusual(code, path, format, source string, args ...any) {
	e.reason(rigging.Near, code, path, format, args...)
	if e.depth >= ToReport {
		e.caution(code, path, format, source, args...)
	}
}

func (e *evaluation) findUnusual() {
	m := e.m
	for i := range m.gear {
		if g := &m.gear[i]; g.designFactor < LeastDesignFactor {
			e.unusual("design_factor", g.path, "The design factor of %s is %s: out of the ordinary below 2.", sourcePractice, quote(g.id), Amount{g.designFactor, "", Nearest})
		}
	}
	t, h := &m.setup.Tree, &m.setup.Hinge
	if thick := math.Max(h.Left, h.Right); thick > ThickHinge*t.Diameter*(1+1e-9) {
		e.unusual("hinge_thick", "cut", "The hinge is %s thick at its thicker end, more than 15 %% of the diameter: it takes much more pull, and the stem may split upward before it bends.", sourcePractice, Amount{thick / rigging.CM, "cm", Up})
	}
	if thin := math.Min(h.Left, h.Right); thin < ThinHinge*t.Diameter*(1-1e-9) {
		e.unusual("hinge_very_thin", "cut", "The hinge is %s thick at its thinner end, less than 5 %% of the diameter: it may break before it has steered the tree.", sourcePractice, Amount{thin / rigging.CM, "cm", Down})
	}
	if t.Lean > GreatLean*(1+1e-9) {
		e.unusual("lean_great", "tree.lean_deg", "The tree leans %s: out of the ordinary above 20°.", sourcePractice, degreesUp(t.Lean))
	}
	if s := t.Height / t.Diameter; s < LeastSlenderness || s > MostSlenderness {
		e.unusual("slenderness", "tree.height_m", "The tree is %s times as high as it is thick: out of the ordinary below 8 and above 150. Look at both numbers again.", sourcePractice, Amount{s, "", Nearest})
	}
	if t.Cavity > LargeCavity*h.Length*(1+1e-9) {
		e.unusual("cavity_large", "tree.cavity_cm", "The cavity takes more than a third of the hinge's length: what is left may not steer the tree.", sourcePractice)
	}
	axis := t.Axis()
	if side := math.Atan2(math.Abs(axis.Y), axis.Z); side > GreatSideLean*(1+1e-9) && !e.heldAgainst(axis.Y) {
		e.unusual("side_lean", "lines", "The tree leans %s to the side and no hold line takes it: out of the ordinary above 5°.", sourcePractice, degreesUp(side))
	}
	if off := e.offLay(); off > FarOffLay*(1+1e-9) {
		e.unusual("off_lay", "lines", "The lines together pull %s off the lay: out of the ordinary above 30°.", sourcePractice, degreesUp(off))
	}
	for i := range m.lines {
		for _, s := range m.lines[i].stations {
			if s.onStem && s.stem > TopOfTree*t.Height*(1+1e-9) {
				e.unusual("tie_in_top", s.path, "The line is tied in the top 15 %% of the tree, where the stem is thin.", sourcePractice)
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
