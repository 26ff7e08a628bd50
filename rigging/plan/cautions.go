package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// Sources of cautions. A source is a citation, or the key of one that package
// text has in words.
const (
	sourcePractice    = "practice"
	sourceMemory      = "practice_memory"
	sourceStatics     = "statics_of_plan"
	sourceBeam        = "beam"
	sourceEquilibrium = "equilibrium"
	sourceCatenary    = "catenary"
	sourcePlan        = "plan"
	sourceModel       = "model"
	sourceOSHA        = "29 CFR 1910.266(h)(1)"
	sourceMGN308      = "UK MCA MGN 308 (M+F), 2.1"
)

// findCautions looks for what a crew should be warned of though it does not
// keep the plan from being judged.
func (e *evaluation) findCautions(rep *Report) {
	if e.solved {
		e.cautionAtMost(rep)
		e.cautionTree()
		e.cautionStem(rep)
		e.cautionSide()
		for i := range e.m.lines {
			e.cautionLine(i)
		}
		e.cautionSnatch()
		e.cautionPoints()
	}
	e.cautionEscapes()
	e.cautionCleared()
	e.cautionFork()
	e.cautionBrief(rep)
	e.cautionAfter()
	e.standingCautions()
}

func (e *evaluation) cautionTree() {
	m, p := e.m, e.pull
	if p.Peak == 0 {
		e.caution("steers_only", "lines", sourceStatics)
	}
	if m.setup.Wind > 0 {
		e.caution("wind", "site.wind_mps", "OAR 437-007-0810(2)", text.Amount{Value: m.setup.Wind, Unit: "m/s", Round: text.Up})
	}
	if m.setup.Tree.Cavity > 0 {
		e.caution("cavity", "tree.cavity_cm", sourcePractice)
	}
	if m.strangeSpecies != "" {
		e.caution("species", "tree.species", sourcePlan, quote(m.strangeSpecies))
	}
	h, d := m.setup.Hinge, m.setup.Tree.Diameter
	if thin := math.Min(h.Left, h.Right); thin < field.HingeThicknessShare*d*(1-1e-9) {
		e.caution("hinge_thin", "cut", field.HingeGuide.Text, centimetres(thin, text.Down))
	}
	if h.Length < field.HingeLengthShare*d-1*rigging.CM { // to the centimetre that it is measured to
		e.caution("hinge_short", "cut.hinge_length_cm", field.HingeGuide.Text, centimetres(h.Length, text.Down))
	}
	if m.setup.FaceOpening < 45*rigging.Deg*(1-1e-9) {
		e.caution("face_narrow", "cut.face_opening_deg", "US OSHA Logging eTool; OSHA CPL 2-1.22")
	}
	if p.Commit > m.setup.FaceOpening {
		e.caution("closes_first", "cut.face_opening_deg", sourceStatics, degrees(m.setup.FaceOpening), degreesUp(p.Commit))
	}
}

func (e *evaluation) cautionSide() {
	m, p := e.m, e.pull
	use := e.sideHold(p.Side)
	held := e.holdsLines()
	switch {
	case use > 1 && held:
		e.caution("side_hold.over_held", "cut", sourceBeam, text.Percent(use))
	case use > 1:
		e.caution("side_hold.over", "cut", sourceBeam, text.Percent(use))
	case use > rigging.NearFrom && held:
		e.caution("side_hold.near_held", "cut", sourceBeam, text.Percent(use))
	case use > rigging.NearFrom:
		e.caution("side_hold.near", "cut", sourceBeam, text.Percent(use))
	}
	if slack := e.sideHold(p.SideSlack); slack > rigging.NearFrom && slack > use {
		e.caution("hold_slack", "lines", sourceBeam, text.Percent(slack))
	}
	switch {
	case p.Drift > 5*rigging.Deg:
		e.caution("drift.left", "lines", sourceStatics, degreesUp(p.Drift))
	case p.Drift < -5*rigging.Deg:
		e.caution("drift.right", "lines", sourceStatics, degreesUp(-p.Drift))
	}
	for i, l := range m.lines {
		switch {
		case !l.hold:
		case !l.tended && p.Stretch[i] > 0 && math.IsNaN(p.Stretched[i]):
			e.caution("hold_stretches.unknown", l.path, sourceStatics,
				quote(l.id), metres(p.Stretch[i], text.Up))
		case !l.tended && p.Stretch[i] > 0:
			e.caution("hold_stretches", l.path, sourceStatics,
				quote(l.id), metres(p.Stretch[i], text.Up), kilonewtons(p.Stretched[i]))
		case p.PayOut[i] > 0.05:
			e.caution("pay_out", l.path, sourceStatics, quote(l.id), metres(p.PayOut[i], text.Up))
		}
	}
}

func (e *evaluation) cautionLine(i int) {
	m := e.m
	l, ll, st := &m.lines[i], &e.loads[i], &e.pull.Standing[i]
	height := m.setup.Tree.Height
	for _, g := range m.gear {
		if g.line != i || !g.rope() {
			continue
		}
		e.cautionRope(i, g)
		if len(g.factors) == 0 {
			e.caution("termination", g.path, sourceMemory, quote(g.id))
		}
	}
	for k, s := range l.stations {
		if !s.onStem {
			continue
		}
		if s.stem > height*2/3 {
			e.caution("attachment_high", s.path, sourceMemory)
		}
		if k+1 < len(l.stations) && !l.hold && st.Units[k].Elevation() < -30*rigging.Deg {
			e.caution("line_steep", s.path, sourceMemory, degreesUp(-st.Units[k].Elevation()))
		}
	}
	if !math.IsNaN(l.mass) && ll.tension > 0 && l.mass*rigging.G*st.Length > ll.tension/rigging.SagCounts {
		e.caution("sag", l.path+".rope", sourceCatenary, quote(l.id))
	}
}

// cautionRope holds a pull line's rope against the published rule that its
// breaking load be at least twice the puller's greatest pull.
func (e *evaluation) cautionRope(i int, g piece) {
	l := &e.m.lines[i]
	greatest := e.mostHighest(i)
	if l.hold || math.IsNaN(greatest) {
		return
	}
	switch {
	case math.IsNaN(g.breaking):
		e.caution("rope_twice.unknown", g.path, sourceMGN308, quote(g.id), kilonewtons(2*greatest))
	case g.breaking < 2*greatest:
		e.caution("rope_twice", g.path, sourceMGN308, quote(g.id), heldKilonewtons(g.breaking), kilonewtons(2*greatest))
	}
}

// mostHighest is the greatest tension (N) in any part of line i at most.
func (e *evaluation) mostHighest(i int) float64 {
	var most peak
	tensions := e.tensionsAtMost(e.mostHauls())
	for k := range e.atMost {
		a := &e.atMost[k]
		most.take(a.lines[i].highest*tensions(a)[i], a.turn)
	}
	return most.value
}

func (e *evaluation) cautionAtMost(rep *Report) {
	main := e.mainLine()
	path := e.m.lines[main].path + ".puller"
	switch {
	case rep.AtMostVerdict != rigging.Over:
	case math.IsNaN(e.holdTo) || e.noRoom:
		e.caution("at_most_over", path, sourceMGN308, quote(rep.AtMostGoverning), text.Percent(rep.AtMostUse))
	default:
		key := "at_most_over.hold"
		for i, l := range e.m.lines {
			if i != main && !l.hold { // a number for one puller stops no other
				key = "at_most_over.hold_all"
			}
		}
		e.caution(key, path, sourceMGN308, quote(e.m.lines[main].id), heldKilonewtons(e.holdTo), quote(rep.AtMostGoverning), text.Percent(rep.AtMostUse))
	}
	if e.noRoom {
		e.caution("no_room", path, sourceStatics,
			kilonewtons(e.mainHaul()), heldKilonewtons(e.holdTo))
	}
}

func (e *evaluation) cautionPoints() {
	m := e.m
	height := m.setup.Tree.Height
	for i := range m.points {
		p, h := &m.points[i], &e.held[i]
		if !h.used {
			e.caution("unused", p.path, sourcePractice, quote(p.id))
			continue
		}
		if p.kind != field.NoAnchor && p.kind != field.Bridle {
			e.caution("anchor_estimate", p.path+".anchor", sourcePractice, quote(p.id))
		}
		if p.slender {
			e.caution("log_slender", p.path+".anchor", "TM 5-5420-278-10, work package 0035", quote(p.id))
		}
		if p.lowSling {
			e.caution("sling_low", p.path+".anchor", "K. Byrne, MSc thesis, UBC 2005; our reading of it", quote(p.id))
		}
		if p.kind == field.Stump {
			e.caution("stump", p.path+".anchor", sourceMemory, quote(p.id))
		}
		e.cautionLog(i)
		if !math.IsNaN(h.included) {
			e.caution("bight", p.path, "UK MCA MGN 308 (M+F), 2.2", quote(p.id))
		}
	}
	e.cautionCancel()
	seen := map[int]bool{}
	for _, l := range m.lines {
		stations := l.stations
		if l.tackle != nil && len(l.tackle.haul) > 0 {
			stations = l.tackle.haul
		}
		i := stations[len(stations)-1].point
		if i < 0 || seen[i] {
			continue
		}
		seen[i] = true
		p := &m.points[i]
		switch {
		case p.distance < height:
			e.caution("within_reach", p.path, sourceOSHA, quote(p.id), metres(p.distance, text.Down), metres(height, text.Nearest))
		case p.distance < 2*height:
			e.caution("two_lengths", p.path, sourceOSHA, quote(p.id), metres(2*height, text.Nearest))
		}
	}
}

// cautionLog tells of a buried log that would let go before its rope breaks: the
// manual sizes the log for the rope's breaking load.
func (e *evaluation) cautionLog(i int) {
	p, h := &e.m.points[i], &e.held[i]
	log, ok := p.anchor.(rigging.BuriedLogAnchor)
	if !ok || math.IsNaN(h.capacity) {
		return
	}
	strongest := 0.0
	for _, part := range e.standing.parts {
		for _, g := range e.m.gear {
			if part.point == i && g.line == part.line && !g.atStem && g.breaking > strongest {
				strongest = g.breaking
			}
		}
	}
	if lets := h.capacity * log.Factor; lets < strongest {
		e.caution("log_below_rope", p.path+".anchor", "TM 5-5420-278-10, work package 0035",
			quote(p.id), heldKilonewtons(lets), kilonewtons(strongest))
	}
}

// cautionCancel tells of points where lines pull against each other: what
// holds one carries more when one of its lines hangs slack.
func (e *evaluation) cautionCancel() {
	standing := e.tally(e.turning[:1], e.plannedTensions)
	for i := range e.held {
		h := &e.held[i]
		if alone := standing.points[i].load.value; alone > 1.01*h.pull.Norm() {
			e.caution("pulls_cancel", e.m.points[i].path, sourceStatics, quote(e.m.points[i].id), kilonewtons(alone))
		}
	}
}

// RecoilSource is that of the caution about a line that parts, text.Recoil.
const RecoilSource = "Safety Alert SA 015, Snap-back zones; NAVEDTRA 14067"

// standingCautions hold for every plan.
func (e *evaluation) standingCautions() {
	if e.m.uncertain {
		e.caution("plus_minus", "plus_minus", sourcePractice)
	}
	e.caution("competent", "", sourcePractice)
	e.caution("distance", "", sourceOSHA+"; UK MCA MGN 308 (M+F), 2.2")
	e.caution("recoil", "", RecoilSource)
	e.caution("power_lines", "", sourcePractice)
	e.caution("signals", "", "UK HSE, Winches in directional felling")
	e.caution("statics", "", sourceModel)
}
