package plan

import (
	"math"

	"pullline/rigging"
)

// Sources named by more than one caution.
const (
	sourcePractice = "common practice, no source"
	sourceMemory   = "common practice, from memory"
	sourceOSHA     = "29 CFR 1910.266(h)(1)"
	sourceMGN308   = "UK MCA MGN 308 (M+F), 2.1"
	sourceStatics  = "statics of this plan"
)

// findCautions looks at a plan that was solved for what a crew should be
// warned of though it does not keep the plan from being judged.
func (e *evaluation) findCautions() {
	e.cautionTree()
	e.cautionSide()
	for i := range e.m.lines {
		e.cautionLine(i)
	}
	e.cautionStall()
	e.cautionPoints()
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
	if thin := math.Min(h.Left, h.Right); thin < 0.1*d*(1-1e-9) {
		e.caution("hinge_thin", "cut", "The hinge is %s thick at its thinner end, less than 10 %% of the diameter.", hingeGuide, Amount{thin / rigging.CM, "cm", Down})
	}
	if h.Length < 0.8*d-1*rigging.CM { // to the centimetre that it is measured to
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
	use := p.SideStress / m.setup.Tree.Strength
	holds := false
	for _, l := range m.lines {
		holds = holds || l.hold
	}
	more := " A second line to the other side, or a new lay, takes it off."
	if holds {
		more = " The hold lines there are do not take it off."
	}
	switch {
	case use > 1:
		e.caution("side_hold", "cut", "The side moment left on the hinge is more than the wood is estimated to hold (%s %% of its bending strength): the tree may tear off to the side."+more, "beam theory, an estimate", percentUp(use))
	case use > rigging.NearFrom:
		e.caution("side_hold", "cut", "The side moment left on the hinge comes near what the wood is estimated to hold (%s %% of its bending strength)."+more, "beam theory, an estimate", percentUp(use))
	}
	if drift := math.Abs(p.Drift); drift > 5*rigging.Deg {
		side := "left"
		if p.Drift < 0 {
			side = "right"
		}
		e.caution("drift", "lines", "Before the hinge takes any of it, weight and lines together pull the tree %s to the %s of the lay.", sourceStatics, degreesUp(drift), side)
	}
	for i, l := range m.lines {
		if l.hold && p.PayOut[i] > 0.05 {
			e.caution("pay_out", l.path, "The hold line %s gets longer by up to %s as the tree turns: it comes tight and must be paid out, or it stops or swings the tree.", sourceStatics, quote(l.id), Amount{p.PayOut[i], "m", Up})
		}
	}
}

func (e *evaluation) cautionLine(i int) {
	m := e.m
	l, ll, st := &m.lines[i], &e.loads[i], &e.pull.Standing[i]
	height := m.setup.Tree.Height
	fixedAtStem, rope := false, false
	for _, g := range m.gear {
		if g.line != i {
			continue
		}
		fixedAtStem = fixedAtStem || g.atStem
		if g.atStem || (g.kind != "wire_rope" && g.kind != "fibre_rope") {
			continue
		}
		rope = true
		e.cautionRope(i, g)
	}
	if rope && !fixedAtStem {
		e.caution("stem_gear", l.path, "Nothing in the gear fixes line %s to the stem. The sling, shackle or block there carries %s.", sourcePractice, quote(l.id), kilonewtons(ll.stem*ll.tension))
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
	if l.tackle != nil && l.tackle.usable {
		e.cautionTackle(i)
	}
}

// cautionRope holds a pull line's rope against the published rule that its
// breaking load be at least twice the puller's greatest pull.
func (e *evaluation) cautionRope(i int, g piece) {
	l, ll := &e.m.lines[i], &e.loads[i]
	if l.hold || math.IsNaN(ll.stall) {
		return
	}
	greatest := ll.highest * ll.stall
	switch {
	case math.IsNaN(g.breaking):
		e.caution("rope_twice", g.path, "The breaking load of %s is not given, so the pulling rule could not be checked: it should break at no less than twice the greatest pull, %s.", sourceMGN308, quote(g.id), kilonewtons(2*greatest))
	case g.breaking < 2*greatest:
		e.caution("rope_twice", g.path, "%s breaks at %s. The pulling rule asks for at least twice the greatest pull the machine can put on it, %s.", sourceMGN308, quote(g.id), heldKilonewtons(g.breaking), kilonewtons(2*greatest))
	}
}

func (e *evaluation) cautionTackle(i int) {
	l, ll := &e.m.lines[i], &e.loads[i]
	t := &l.tackle.result
	block, part := 0.0, 0.0
	for _, n := range t.NodeLoads {
		block = math.Max(block, n.Load)
	}
	for _, parts := range t.PartTensions {
		for _, v := range parts {
			part = math.Max(part, v)
		}
	}
	fixed, moving := false, false
	last := l.stations[len(l.stations)-1].point
	for _, g := range e.m.gear {
		fixed = fixed || g.kind == "block" && g.point == last
		moving = moving || g.kind == "block" && g.line == i && !g.atStem
	}
	if !fixed || !moving {
		e.caution("tackle_gear", l.tackle.path, "The gear does not list both blocks of the tackle of line %s: its fixed block at the anchor and its moving block on the line. Its rope carries up to %s and its blocks up to %s.", sourceStatics,
			quote(l.id), kilonewtons(part*ll.end*ll.tension), kilonewtons(block*ll.end*ll.tension))
	}
}

func (e *evaluation) cautionStall() {
	for i, l := range e.m.lines {
		if l.hold {
			continue
		}
		if math.IsNaN(l.stall) {
			e.caution("stall_unknown", l.path+".puller.stall_kN", "How hard the puller of line %s can really pull is not given, so nothing is known of what happens if it keeps pulling.", sourceMGN308, quote(l.id))
		} else if ll := &e.loads[i]; l.stall < ll.haul*ll.tension {
			e.caution("stalls_early", l.path+".puller.stall_kN", "The puller of line %s stalls at %s, below the haul planned, %s.", sourceStatics, quote(l.id), heldKilonewtons(l.stall), kilonewtons(ll.haul*ll.tension))
		}
	}
	overAtStall := ""
	for i, g := range e.pieces {
		if i < len(e.m.gear) && g.Verdict != rigging.Over && g.StallVerdict == rigging.Over && overAtStall == "" {
			overAtStall = g.ID
		}
	}
	for i := range e.held {
		if h := &e.held[i]; h.used && h.verdict != rigging.Over && h.stallState == rigging.Over && overAtStall == "" {
			overAtStall = e.m.points[i].id
		}
	}
	if overAtStall == "" {
		return
	}
	if main := e.mainLine(); !math.IsNaN(e.holdTo) && main >= 0 {
		e.caution("stall_over", e.m.lines[main].path+".puller", "If the puller keeps pulling until it stalls, %s and perhaps more is over its limit. Hold the puller of line %s to %s and stop there.", sourceMGN308,
			quote(overAtStall), quote(e.m.lines[main].id), heldKilonewtons(e.holdTo))
		return
	}
	e.caution("stall_over", "lines", "If the puller keeps pulling until it stalls, %s and perhaps more is over its limit.", sourceMGN308, quote(overAtStall))
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
			e.caution("sling_low", p.path+".anchor", "The sling at %s sits less than a metre up. The turning figures come from trees pulled high on the stem; so low, the roots shear and slide, and the tree holds less than computed.", "K. Byrne, MSc thesis, UBC 2005; our reading of it", quote(p.id))
		}
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

// cautionCancel tells of points where lines pull against each other: what
// holds one carries more when one of its lines hangs slack.
func (e *evaluation) cautionCancel() {
	pulls := make([]rigging.Vec, len(e.loads))
	for i := range e.held {
		clear(pulls)
		for _, p := range e.parts {
			if p.point == i {
				pulls[p.line] = pulls[p.line].Add(p.per.Scale(e.loads[p.line].tension))
			}
		}
		alone := []rigging.Vec{{}} // every choice of lines that pull while the others hang slack
		greatest := 0.0
		for _, v := range pulls {
			if v == (rigging.Vec{}) {
				continue
			}
			for _, others := range alone {
				sum := others.Add(v)
				greatest = math.Max(greatest, sum.Norm())
				alone = append(alone, sum)
			}
		}
		var together rigging.Vec
		for _, v := range pulls {
			together = together.Add(v)
		}
		if greatest > 1.01*together.Norm() {
			e.caution("pulls_cancel", e.m.points[i].path, "The pulls of the lines at %s partly cancel. When one of them is slack, what holds it carries up to %s.", sourceStatics, quote(e.m.points[i].id), kilonewtons(greatest))
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
