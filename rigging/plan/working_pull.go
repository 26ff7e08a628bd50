package plan

import (
	"math"

	"pullline/rigging"
)

// What the moments at one turn are called in several steps.
var momentQuantities = []quantity{{"Mₕ", "hinge", "kN·m", "tree.hinge_moment_kNm"}, {"M_w", "wind", "kN·m", "tree.wind_moment_kNm"},
	{"M_g", "weight toward the lay", "kN·m", "tree.forward_moment_kNm"}, {"M_s", "hold lines toward the lay", "kN·m", ""}, {"k", "lever of the pull lines", "m", "pull.lever_m"}}

// The steps of the pull.
var (
	// stepLever takes its quantities once for each attachment.
	stepLever = step{"", "Lever of a line toward the lay", "k = Σ (a_z·qₓ − aₓ·q_z)", "m", "statics: moment per unit of tension about the hinge",
		[]quantity{{"aₓ", "attachment ahead of the hinge", "m", ""}, {"a_z", "attachment above the hinge", "m", ""},
			{"qₓ", "rope toward the lay, per unit of tension", "", ""}, {"q_z", "rope upward, per unit of tension", "", ""}}}
	stepAttachAhead  = step{"", "Attachment ahead of the hinge", "aₓ = (h − s)·sin λ·cos β", "m", geometry, attachQuantities}
	stepAttachAbove  = step{"", "Attachment above the hinge", "a_z = (h − s)·cos λ", "m", geometry, attachQuantities}
	attachQuantities = []quantity{{"h", "height on the stem", "m", ""}, {"s", "height of the cut", "m", "cut.stump_m"}, {"λ", "lean", "°", ""}, {"β", "bearing of the lean", "°", ""}}
	// stepLevers takes its quantities once for each pull line.
	stepLevers = step{"pull.lever_m", "Lever of all pull lines toward the lay", "k = Σ p·kᵢ", "m", statics,
		[]quantity{{"p", "share of the pull", "", ""}, {"kᵢ", "lever of the line", "m", ""}}}
	stepStart = step{"pull.start_kN", "Pull needed with the tree standing", "T = (Mₕ + M_w − M_g − M_s) / k, at least 0", "kN", balance, momentQuantities}
	stepPeak  = step{"pull.peak_kN", "Greatest pull needed, at the turn φ", "T_peak = (Mₕ + M_w − M_g − M_s) / k", "kN", "the same balance at every turn until the tree falls by itself; this is the largest",
		append(momentQuantities[:5:5], quantity{"φ", "turn where it is needed", "°", ""})}
	stepCommit = step{"pull.commit_deg", "Turn from which the tree falls by itself", "φ_c: from here on M_g + M_s ≥ Mₕ + M_w", "°", "the same balance, without pull",
		append(momentQuantities[:4:4], quantity{"φ_c", "the first such turn", "°", ""})}
	stepOwnTension = step{"pull.planned_kN", "Planned tension", "T = T_own", "kN", "the plan: the crew's own; to be at least a·T_peak",
		[]quantity{{"T_own", "the crew's own", "kN", ""}, {"a", "allowance", "", "allowance"}, {"T_peak", "greatest pull needed", "kN", "pull.peak_kN"}}}
	stepPlanned = step{"pull.planned_kN", "Planned tension", "T = a·T_peak", "kN", "the allowance is the plan's",
		[]quantity{{"a", "allowance", "", "allowance"}, {"T_peak", "greatest pull needed", "kN", "pull.peak_kN"}}}
	sideQuantities = []quantity{{"M_y", "weight to the left", "kN·m", "tree.side_moment_kNm"}, {"T", "tension of the pull lines", "kN", "pull.planned_kN"},
		{"j", "side lever of the pull lines", "m", ""}, {"N_y", "hold lines to the left", "kN·m", ""}}
	stepDrift = step{"pull.drift_deg", "Drift, positive to the left", "δ = atan2(M_y + T·j + N_y, M_g + T·k + M_s)", "°", "direction of the moment of weight and lines together",
		append(sideQuantities[:4:4], momentQuantities[2:]...)}
	stepHingeSide = step{"tree.hinge_side_moment_kNm", "Side moment left on the hinge, positive to the left", "M = M_y + T·j + N_y", "kN·m", "statics about the middle of the bent hinge; of all turns until the tree falls by itself or the face closes, that which works it hardest",
		append(sideQuantities[:4:4], quantity{"φ", "turn of the tree", "°", ""})}
	stepSideHold = step{"tree.side_hold_use", "Side hold of the hinge, an estimate", "u = |M|·e/(I·σ_r), I = (l + r)/2·b·(b²/12 − ȳ²)·(b − c_v)/b", "", "beam theory, elastic, the hinge as a beam on edge; 1 MPa is 1000 kN/m²",
		[]quantity{{"M", "side moment left on the hinge", "kN·m", "tree.hinge_side_moment_kNm"}, {"e", "from the strip's centroid to its end in tension", "m", ""},
			{"I", "second moment of area", "m⁴", ""}, {"σ_r", "bending strength that is relied on", "MPa", "tree.strength_relied_on_MPa"}, {"b", "hinge length", "m", "cut.hinge_length_cm"},
			{"l", "thickness at the left", "m", "cut.hinge_left_cm"}, {"r", "thickness at the right", "m", "cut.hinge_right_cm"}, {"ȳ", "centroid left of the middle", "m", ""}, {"c_v", "cavity", "m", "tree.cavity_cm"}}}
	stepReliedOn = step{"tree.strength_relied_on_MPa", "Bending strength that is relied on", "σ_r = n·σ", "MPa", "mean less 1.65 standard deviations at a scatter of 16 %, from those of green clear wood in ASTM D2555",
		[]quantity{{"n", "part that 19 of 20 pieces reach", "", ""}, {"σ", "green bending strength", "MPa", "tree.bending_strength_MPa"}}}
	stepClosing = step{"tree.closing_use", "Closing of the face", "u = φ_c/φ_f", "", "the hinge is to bend until the tree falls by itself",
		[]quantity{{"φ_c", "turn from which the tree falls by itself", "°", "pull.commit_deg"}, {"φ_f", "turn at which the face closes", "°", "cut.face_opening_deg"}}}
)

// toward lists the moments at a turn in the order of momentQuantities.
func (e *evaluation) toward(turn, tension float64) []float64 {
	m, _ := e.m.setup.MomentsAt(e.pull, turn, tension) // what was solved has them at every turn
	return []float64{m.Hinge / rigging.KNm, m.Wind / rigging.KNm, m.Weight / rigging.KNm, m.Hold / rigging.KNm, m.Lever}
}

func (e *evaluation) workPull(w *workings, rep *Report) {
	p, tr := e.pull, &rep.Tree
	var levers []float64
	one := -1
	for i := range e.m.lines {
		l, st := &e.m.lines[i], &p.Standing[i]
		w.of = l.id
		e.workLever(w, i)
		if !l.hold {
			levers = append(levers, l.share, st.Forward)
			one = i
		}
	}
	w.of = ""
	x := w.add(&stepLevers, rep.Pull.LeverM, levers...)
	if len(levers) == 2 {
		x.from(1, numbered("lines", one, "lever_m"))
	}
	turned := func(x *Working) {
		for i := range x.Values { // away from the start these are not the moments worked out above
			x.Values[i].From = ""
		}
		if x.Values[0].Value == tr.HingeMomentKNm {
			x.from(0, "tree.hinge_moment_kNm")
		}
	}
	w.add(&stepStart, rep.Pull.StartKN, e.toward(0, p.Start)...)
	x = w.add(&stepPeak, rep.Pull.PeakKN, append(e.toward(p.PeakTurn, p.Peak), p.PeakTurn/rigging.Deg)...)
	if p.PeakTurn > 0 {
		turned(x)
	}
	turned(w.add(&stepCommit, rep.Pull.CommitDeg, append(e.toward(p.Commit, 0)[:4], p.Commit/rigging.Deg)...))
	if e.m.planned > 0 {
		w.add(&stepOwnTension, rep.Pull.PlannedKN, e.m.planned/rigging.KN, e.m.allowance, p.Peak/rigging.KN)
	} else {
		w.add(&stepPlanned, rep.Pull.PlannedKN, e.m.allowance, p.Peak/rigging.KN)
	}
	side := func(turn, tension float64) []float64 {
		m, _ := e.m.setup.MomentsAt(p, turn, tension)
		return []float64{m.WeightSide / rigging.KNm, tension / rigging.KN, m.SideLever, m.HoldSide / rigging.KNm}
	}
	w.add(&stepDrift, rep.Pull.DriftDeg, append(side(0, p.Planned), e.toward(0, p.Planned)[2:]...)...)
	x = w.add(&stepHingeSide, tr.HingeSideMomentKNm, append(side(p.Side.Turn, p.Side.Tension), p.Side.Turn/rigging.Deg)...)
	switch {
	case p.Side.Turn > 0: // neither the moments nor the tension are those worked out above
		x.from(0, "")
		x.from(1, "")
	case p.Side.Tension == p.Start:
		x.from(1, "pull.start_kN")
	case p.Side.Tension != p.Planned: // nothing is left on it
		x.from(1, "")
	}
	t, h := &e.m.setup.Tree, &e.m.setup.Hinge
	w.add(&stepReliedOn, Num(e.m.strengthLow/rigging.MPa), e.m.strengthLow/t.Strength, t.Strength/rigging.MPa)
	second, centroid := h.SideSection(t.Cavity)
	w.add(&stepSideHold, tr.SideHoldUse, p.Side.Moment/rigging.KNm, h.Length/2+math.Copysign(centroid, p.Side.Moment*centroid), second,
		e.m.strengthLow/rigging.MPa, h.Length, h.Left, h.Right, centroid, t.Cavity)
	w.add(&stepClosing, tr.ClosingUse, p.Commit/rigging.Deg, e.m.setup.FaceOpening/rigging.Deg)
}

// workLever shows the lever of line i by its attachments and the direction of
// the rope there.
func (e *evaluation) workLever(w *workings, i int) {
	l, st, t := &e.m.lines[i], &e.pull.Standing[i], &e.m.setup.Tree
	var values []float64
	var from []string
	for k, s := range l.stations {
		if !s.onStem {
			continue
		}
		a, f := st.Places[k], st.Force(k)
		ahead, above := s.path+".ahead_m", s.path+".above_m"
		w.addFor(ahead, "Line "+l.id+" on the stem, ahead of the hinge", &stepAttachAhead, Num(a.X), s.stem, e.m.setup.Stump, t.Lean/rigging.Deg, t.LeanBearing/rigging.Deg)
		w.addFor(above, "Line "+l.id+" on the stem, above the hinge", &stepAttachAbove, Num(a.Z), s.stem, e.m.setup.Stump, t.Lean/rigging.Deg)
		values = append(values, a.X, a.Z, f.X, f.Z)
		from = append(from, ahead, above, "", "")
	}
	x := w.addFor(numbered("lines", i, "lever_m"), "Lever of line "+l.id+" toward the lay", &stepLever, Num(st.Forward), values...)
	for k := range from {
		x.from(k, from[k])
	}
}
