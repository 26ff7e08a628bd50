package plan

import (
	"math"

	"pullline/rigging"
)

// Sources named by more than one caution.
var sourcePractice = rigging.CommonPractice.Words()

const (
	sourceMemory  = "common practice, from memory"
	sourceOSHA    = "29 CFR 1910.266(h)(1)"
	sourceMGN308  = "UK MCA MGN 308 (M+F), 2.1"
	sourceStatics = "statics of this plan"
)

// findCautions looks for what a crew should be warned of though it does not
// keep the plan from being judged.
func (e *evaluation) findCautions(rep *Report) {
	if e.solved {
		e.cautionAtMost(rep)
		e.cautionTree()
		e.cautionSide()
		for i := range e.m.lines {
			e.cautionLine(i)
		}
		e.cautionPoints()
	}
	e.cautionCleared()
	e.cautionFork()
	e.cautionBrief(rep)
	e.cautionAfter()
	e.standingCautions()
}

func (e *evaluation) cautionTree() {
	m, p := e.m, e.pull
	if p.Peak == 0 {
		e.caution("steers_only", "lines", "The tree needs no pull to go over: gravity takes it toward the lay. The line only steers, and the tree may go before anyone is ready.", sourceStatics)
	}
	if m.setup.Wind > 0 {
		e.caution("wind", "site.wind_mps", "Wind of %s against the lay is in the pull, but gusts and turns of the wind are not. Do not fell when the wind can defeat the intended direction.", "OAR 437-007-0810(2)", Amount{m.setup.Wind, "m/s", Up})
	}
	if m.setup.Tree.Cavity > 0 {
		e.caution("cavity", "tree.cavity_cm", "There is a cavity in the hinge. Decay is seldom only where it is seen: the hinge, the stem at the attachment and the roots may be weaker than computed. A competent person judges whether this tree may be pulled at all.", sourcePractice)
	}
	if m.strangeSpecies != "" {
		e.caution("species", "tree.species", "Species %s is not in the table; the figures given in the plan are used.", "the plan", quote(m.strangeSpecies))
	}
	h, d := m.setup.Hinge, m.setup.Tree.Diameter
	if thin := math.Min(h.Left, h.Right); thin < guideThickness.Value*d*(1-1e-9) {
		e.caution("hinge_thin", "cut", "The hinge is %s thick at its thinner end, less than 10 %% of the diameter.", hingeGuide, Amount{thin / rigging.CM, "cm", Down})
	}
	if h.Length < guideLength.Value*d-1*rigging.CM { // to the centimetre that it is measured to
		e.caution("hinge_short", "cut.hinge_length_cm", "The hinge is %s long, less than 80 %% of the diameter: it steers and holds to the side less.", hingeGuide, Amount{h.Length / rigging.CM, "cm", Down})
	}
	if m.setup.FaceOpening < 45*rigging.Deg*(1-1e-9) {
		e.caution("face_narrow", "cut.face_opening_deg", "The face opens less than 45°: it closes early and the hinge breaks before the tree has committed.", "US OSHA Logging eTool; OSHA CPL 2-1.22")
	}
	if p.Commit > m.setup.FaceOpening {
		e.caution("closes_first", "cut.face_opening_deg", "The face closes at %s and the hinge is taken as broken, but the tree only commits at %s: from there on nothing but the lines steers it.", sourceStatics, degrees(m.setup.FaceOpening), degreesUp(p.Commit))
	}
}

func (e *evaluation) cautionSide() {
	m, p := e.m, e.pull
	use := e.sideHold(p.Side)
	more := " A second line to the other side, or a new lay, takes it off."
	if e.holdsLines() {
		more = " The hold lines there are do not take it off."
	}
	switch {
	case use > 1:
		e.caution("side_hold", "cut", "The side moment left on the hinge is more than its wood is relied on to hold (%s %%): the tree may tear off to the side."+more, "beam theory, an estimate", percentUp(use))
	case use > rigging.NearFrom:
		e.caution("side_hold", "cut", "The side moment left on the hinge comes near what its wood is relied on to hold (%s %%)."+more, "beam theory, an estimate", percentUp(use))
	}
	if slack := e.sideHold(p.SideSlack); slack > rigging.NearFrom && slack > use {
		e.caution("hold_slack", "lines", "With the hold lines slack the hinge would have to hold %s %% of what its wood is relied on to hold to the side. They must be tight before the back cut.", "beam theory, an estimate", percentUp(slack))
	}
	if drift := math.Abs(p.Drift); drift > 5*rigging.Deg {
		side := "left"
		if p.Drift < 0 {
			side = "right"
		}
		e.caution("drift", "lines", "Before the hinge takes any of it, weight and lines together pull the tree %s to the %s of the lay.", sourceStatics, degreesUp(drift), side)
	}
	for i, l := range m.lines {
		switch {
		case !l.hold:
		case !l.tended && p.Stretch[i] > 0 && math.IsNaN(p.Stretched[i]):
			e.caution("hold_stretches", l.path, "The hold line %s is made fast and has to grow by %s before the tree goes; what that puts on it is not known. Where it cannot grow, the line stops or swings the tree. Have someone let it out under control.", sourceStatics,
				quote(l.id), Amount{p.Stretch[i], "m", Up})
		case !l.tended && p.Stretch[i] > 0:
			e.caution("hold_stretches", l.path, "The hold line %s is made fast and has to grow by %s before the tree goes: that alone puts %s on it. Where it cannot, the line stops or swings the tree. Have someone let it out under control.", sourceStatics,
				quote(l.id), Amount{p.Stretch[i], "m", Up}, kilonewtons(p.Stretched[i]))
		case p.PayOut[i] > 0.05:
			e.caution("pay_out", l.path, "The hold line %s gets longer by up to %s as the tree turns: it comes tight and must be paid out, or it stops or swings the tree.", sourceStatics, quote(l.id), Amount{p.PayOut[i], "m", Up})
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
			e.caution("termination", g.path, "Say how the ends of %s are made: a knot can take half of its strength, and nothing is taken off for one. Give 1 where the tag holds for the rope with its ends.", sourceMemory, quote(g.id))
		}
	}
	for k, s := range l.stations {
		if !s.onStem {
			continue
		}
		if s.stem > height*2/3 {
			e.caution("attachment_high", s.path, "The line sits above two thirds of the height: the stem is thin there. Attach only where it is sound and stiff.", sourceMemory)
		}
		if k+1 < len(l.stations) && !l.hold && st.Units[k].Elevation() < -30*rigging.Deg {
			e.caution("line_steep", s.path, "The line runs down at %s from level: much of its pull only presses the stem down. Go farther out or lower on the stem.", sourceMemory, degreesUp(-st.Units[k].Elevation()))
		}
	}
	if !math.IsNaN(l.mass) && ll.tension > 0 && l.mass*rigging.G*st.Length > ll.tension/rigging.SagCounts {
		e.caution("sag", l.path+".rope", "Line %s weighs more than a twentieth of its tension, so it sags and its ends pull at other angles than computed; these statics leave that out.", "catenary", quote(l.id))
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
		e.caution("rope_twice", g.path, "The breaking load of %s is not given, so the pulling rule could not be checked: it should break at no less than twice the greatest pull, %s.", sourceMGN308, quote(g.id), kilonewtons(2*greatest))
	case g.breaking < 2*greatest:
		e.caution("rope_twice", g.path, "%s breaks at %s. The pulling rule asks for at least twice the greatest pull the machine can put on it, %s.", sourceMGN308, quote(g.id), heldKilonewtons(g.breaking), kilonewtons(2*greatest))
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
	others := "" // a number for one puller stops no other
	for i, l := range e.m.lines {
		if i != main && !l.hold {
			others = ", and those of the other pull lines in proportion to their hauls,"
		}
	}
	friction := " Friction is not counted on here: a dry rope over a good block may have next to none."
	switch {
	case rep.AtMostVerdict != rigging.Over:
	case math.IsNaN(e.holdTo) || e.noRoom:
		e.caution("at_most_over", path, "If the puller keeps pulling, %s comes to %s %% of its limit."+friction, sourceMGN308, quote(rep.AtMostGoverning), percentUp(float64(rep.AtMostUse)))
	default:
		e.caution("at_most_over", path, "Hold the puller of line %s to %s"+others+" and stop there. If it keeps pulling, %s comes to %s %% of its limit."+friction, sourceMGN308,
			quote(e.m.lines[main].id), heldKilonewtons(e.holdTo), quote(rep.AtMostGoverning), percentUp(float64(rep.AtMostUse)))
	}
	if e.noRoom {
		e.caution("no_room", path, "There is no room between the haul planned, %s, and what the puller may be held to, %s. A smaller pull, stronger gear or a better angle makes room; a puller that cannot make more does too.", sourceStatics,
			kilonewtons(e.mainHaul()), heldKilonewtons(e.holdTo))
	}
}

func (e *evaluation) cautionPoints() {
	m := e.m
	height := m.setup.Tree.Height
	for i := range m.points {
		p, h := &m.points[i], &e.held[i]
		if !h.used {
			e.caution("unused", p.path, "Point %s is not used by any line.", sourcePractice, quote(p.id))
			continue
		}
		if p.kind != "" && p.kind != "bridle" {
			e.caution("anchor_estimate", p.path+".anchor", "What holds %s is an estimate until a competent person has judged it in place.", sourcePractice, quote(p.id))
		}
		if p.slender {
			e.caution("log_slender", p.path+".anchor", "The buried log at %s is more than 5 times as long as it is thick: it bends before the ground gives.", "TM 5-5420-278-10, work package 0035", quote(p.id))
		}
		if p.lowSling {
			e.caution("sling_low", p.path+".anchor", "The sling at %s sits less than a metre up; it is counted as a metre. The turning figures come from trees pulled high on the stem; so low, the roots shear and slide.", "K. Byrne, MSc thesis, UBC 2005; our reading of it", quote(p.id))
		}
		if p.kind == "stump" {
			e.caution("stump", p.path+".anchor", "The stump at %s is counted as the tree it was. No table of ours covers stumps: age, rot and loosened roots take from it.", sourceMemory, quote(p.id))
		}
		e.cautionLog(i)
		if !math.IsNaN(h.included) {
			e.caution("bight", p.path, "Nobody stands inside the angle of the rope at %s, nor in line with it: if the block or what holds it gives way, it flies there.", "UK MCA MGN 308 (M+F), 2.2", quote(p.id))
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
			e.caution("within_reach", p.path, "Point %s, where the line ends, is %s from the tree: within its height of %s. A tree that goes astray reaches it.", sourceOSHA, quote(p.id), Amount{p.distance, "m", Down}, Amount{height, "m", Nearest})
		case p.distance < 2*height:
			e.caution("two_lengths", p.path, "Point %s, where the line ends, is within two tree lengths (%s). Whoever works there must be part of the pull, with the saw operator's word; everyone else stays outside. Or redirect the line.", sourceOSHA, quote(p.id), Amount{2 * height, "m", Nearest})
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
		e.caution("log_below_rope", p.path+".anchor", "The buried log at %s lets go at %s by the table, before its rope breaks at %s. The manual sizes the log for the breaking load of the rope.", "TM 5-5420-278-10, work package 0035",
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
			e.caution("pulls_cancel", e.m.points[i].path, "The pulls of the lines at %s partly cancel. When one of them is slack, what holds it carries up to %s, and it is judged by that.", sourceStatics, quote(e.m.points[i].id), kilonewtons(alone))
		}
	}
}

// Recoil is the caution about a line that parts, with its source.
const (
	Recoil       = "A loaded line that parts flies back along itself, about as far as it is long, and sweeps wide where it ran over a block. Rope gives no warning."
	RecoilSource = "Safety Alert SA 015, Snap-back zones; NAVEDTRA 14067"
)

// standingCautions hold for every plan.
func (e *evaluation) standingCautions() {
	if e.m.uncertain {
		e.caution("plus_minus", "plus_minus", "The ± given for measured values is kept, but it is not yet in these numbers: they are those of the values as typed.", sourcePractice)
	}
	e.caution("competent", "", "These numbers are estimates. The anchor, the soundness of the tree and the go-ahead are a competent person's; local codes and licensed practice come first.", sourcePractice)
	e.caution("distance", "", "Everyone not needed for the pull stays two tree lengths away, out of the bight of the line and out of line with its ends.", sourceOSHA+"; UK MCA MGN 308 (M+F), 2.2")
	e.caution("recoil", "", Recoil, RecoilSource)
	e.caution("power_lines", "", "Look for power lines within reach of the tree, the line and the machine. If there are any, stop and ask their owner.", sourcePractice)
	e.caution("signals", "", "One person gives the signals, the saw operator is in charge, and any unclear signal means stop.", "UK HSE, Winches in directional felling")
	e.caution("statics", "", "Left out: shock when a line snatches, a stem that slips, splits or breaks at the attachment, roots that lift, branches that catch, and decay other than the cavity given.", "what this model covers")
}

func degrees(rad float64) Amount   { return Amount{rad / rigging.Deg, "°", Nearest} }
func degreesUp(rad float64) Amount { return Amount{rad / rigging.Deg, "°", Up} }

func percentUp(use float64) string {
	if math.IsInf(use, 0) || use > 99.99 {
		return "more than 9999"
	}
	return short(math.Ceil(use*100 - 1e-9))
}
