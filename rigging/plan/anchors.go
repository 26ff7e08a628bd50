package plan

import (
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// HoldsLevel says whether the kind of anchor that a plan calls so holds against the
// level part of a pull; the others hold against the whole of it.
func HoldsLevel(kind string) bool { return field.AnchorNamed(kind).Row().Level }

// An anchorKind is what a kind of anchor needs of this package besides its row of
// the table of fields.
type anchorKind struct {
	read func(r *reader, a *object, m *model, p *point)
	work func(e *evaluation, w *workings, rep *Report, point int) // what it holds
}

// anchorKinds has each kind of anchor; TestEveryAnchorKindIsWhole walks them.
var anchorKinds = [field.Anchors]anchorKind{
	field.Rated:        {(*reader).ratedAnchor, (*evaluation).workRated},
	field.Machine:      {(*reader).machineAnchor, (*evaluation).workMachine},
	field.StandingTree: {(*reader).treeAnchor, (*evaluation).workTreeAnchor},
	field.Stump:        {(*reader).treeAnchor, (*evaluation).workTreeAnchor},
	field.BuriedLog:    {(*reader).buriedLog, (*evaluation).workBuriedLog},
	field.Pickets:      {(*reader).pickets, (*evaluation).workPickets},
	field.Bridle:       {(*reader).bridle, (*evaluation).workBridle},
}

// anchor reads what holds a point. A value missing or not accepted leaves
// the capacity NaN, so that the point is unknown.
func (r *reader) anchor(o *object, m *model, p *point) {
	a := o.child(field.PointAnchor)
	if a == nil {
		return
	}
	p.kind = field.AnchorNamed(a.kind(field.AnchorKind))
	if p.kind != field.NoAnchor {
		anchorKinds[p.kind].read(r, a, m, p)
	}
	a.done()
}

func (r *reader) ratedAnchor(a *object, _ *model, p *point) {
	p.anchor = rigging.RatedAnchor{Capacity: a.number(field.RatedCapacity) * rigging.KN}
}

func (r *reader) machineAnchor(a *object, _ *model, p *point) {
	p.anchor = rigging.MachineAnchor{
		Mass:     a.number(field.MachineMass),
		Traction: a.number(field.MachineTraction),
		Slope:    a.number(field.MachineSlope) * rigging.Deg,
		Rated:    a.number(field.MachineRated) * rigging.KN,
	}
}

func (r *reader) treeAnchor(a *object, _ *model, p *point) {
	factor := field.AnchorFactor
	if p.kind == field.Stump {
		factor = field.StumpFactor
	}
	t := rigging.TreeAnchor{
		Diameter:    a.number(field.AnchorDiameter) * rigging.CM,
		Height:      a.number(field.AnchorHeight),
		FormFactor:  a.number(field.AnchorForm),
		Density:     a.number(field.AnchorDensity),
		Turning:     a.number(field.AnchorTurning),
		SlingHeight: a.number(field.AnchorSling),
		Factor:      a.number(factor),
	}
	if t.SlingHeight > t.Height {
		a.problem(CodeRange, field.AnchorSling, takes("below_top"), t.SlingHeight, "sling_above_top")
	}
	p.lowSling = t.SlingHeight < rigging.LeastArm
	p.anchor = t
}

func (r *reader) buriedLog(a *object, _ *model, p *point) {
	b := rigging.BuriedLogAnchor{
		Depth:      a.number(field.LogDepth),
		Length:     a.number(field.LogLength),
		Diameter:   a.number(field.LogDiameter) * rigging.CM,
		Slot:       a.number(field.LogSlot),
		SoilFactor: a.number(field.LogSoil),
		Factor:     a.number(field.GroundFactor),
	}
	p.slender = b.Length > 5*b.Diameter
	p.anchor = b
}

func (r *reader) pickets(a *object, _ *model, p *point) {
	k := rigging.PicketAnchor{SoilFactor: a.number(field.PicketSoil), Factor: a.number(field.GroundFactor)}
	given := a.has(field.PicketRows)
	ok := given
	for i, raw := range a.list(field.PicketRows) {
		n := r.value(a.item(field.PicketRows, i), raw, &field.PicketRows.Row().Range, false)
		ok = ok && !math.IsNaN(n)
		k.Rows = append(k.Rows, int(orZero(n)))
	}
	switch {
	case !given, ok && len(k.Rows) == 0:
		a.problem(CodeMissing, field.PicketRows, takes("rows_of_pickets"), nil, "rows_missing")
	case ok:
		p.anchor = k
	}
}

func (r *reader) bridle(a *object, m *model, p *point) {
	p.bridle = &bridle{selfAdjusting: a.flag(field.BridleSelfAdjusting)}
	for i, raw := range a.list(field.BridleLegs) {
		lo := a.entry(field.BridleLegs, i, raw)
		leg := lo.pointNamed(m, field.BridleLegPoint)
		if leg >= 0 && slices.Contains(p.bridle.legs, leg) {
			lo.problem(CodeTwice, field.BridleLegPoint, takes("other_leg"), shorten(m.points[leg].id), "two_legs", quote(m.points[leg].id))
		}
		p.bridle.legs = append(p.bridle.legs, leg)
		lo.done()
	}
	if len(p.bridle.legs) < 2 {
		a.problem(CodeAnchor, field.BridleLegs, takes("legs"), len(p.bridle.legs), "legs")
	}
}
