package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// What the moments at one turn are called in several steps.
var momentQuantities = []quantity{{"Mₕ", "letter.hinge", "kN·m", "tree.hinge_moment_kNm"}, {"M_w", "letter.wind", "kN·m", "tree.wind_moment_kNm"},
	{"M_g", "letter.weight_toward_the_lay", "kN·m", "tree.forward_moment_kNm"}, {"M_s", "letter.hold_lines_toward_the_lay", "kN·m", ""}, {"k", "letter.lever_of_the_pull_lines", "m", "pull.lever_m"}}

// The steps of the pull.
var (
	// stepLever takes its quantities once for each attachment.
	stepLever = step{"lever", "", "k = Σ (a_z·qₓ − aₓ·q_z)", "m",
		[]quantity{{"aₓ", "letter.attachment_ahead_of_the_hinge", "m", ""}, {"a_z", "letter.attachment_above_the_hinge", "m", ""},
			{"qₓ", "letter.rope_toward_the_lay_per_unit", "", ""}, {"q_z", "letter.rope_upward_per_unit_of_tension", "", ""}}}
	stepAttachAhead  = step{"attach_ahead", "", "aₓ = (h − s)·sin λ·cos β", "m", attachQuantities}
	stepAttachAbove  = step{"attach_above", "", "a_z = (h − s)·cos λ", "m", attachQuantities}
	attachQuantities = []quantity{{"h", "letter.height_on_the_stem", "m", ""}, {"s", "letter.height_of_the_cut", "m", "cut.stump_m"}, {"λ", "letter.lean", "°", ""}, {"β", "letter.bearing_of_the_lean", "°", ""}}
	// stepLevers takes its quantities once for each pull line.
	stepLevers = step{"levers", "pull.lever_m", "k = Σ p·kᵢ", "m",
		[]quantity{{"p", "letter.share_of_the_pull", "", ""}, {"kᵢ", "letter.lever_of_the_line", "m", ""}}}
	stepStart = step{"start", "pull.start_kN", "T = (Mₕ + M_w − M_g − M_s) / k, at least 0", "kN", momentQuantities}
	stepPeak  = step{"peak", "pull.peak_kN", "T_peak = (Mₕ + M_w − M_g − M_s) / k", "kN",
		append(momentQuantities[:5:5], quantity{"φ", "letter.turn_where_it_is_needed", "°", ""})}
	stepCommit = step{"commit", "pull.commit_deg", "φ_c: from here on M_g + M_s ≥ Mₕ + M_w", "°",
		append(momentQuantities[:4:4], quantity{"φ_c", "letter.the_first_such_turn", "°", ""})}
	stepOwnTension = step{"own_tension", "pull.planned_kN", "T = T_own", "kN",
		[]quantity{{"T_own", "letter.the_crew_own", "kN", ""}, {"a", "letter.allowance", "", "allowance"}, {"T_peak", "letter.greatest_pull_needed", "kN", "pull.peak_kN"}}}
	stepPlanned = step{"planned", "pull.planned_kN", "T = a·T_peak", "kN",
		[]quantity{{"a", "letter.allowance", "", "allowance"}, {"T_peak", "letter.greatest_pull_needed", "kN", "pull.peak_kN"}}}
	sideQuantities = []quantity{{"M_y", "letter.weight_to_the_left", "kN·m", "tree.side_moment_kNm"}, {"T", "letter.tension_of_the_pull_lines", "kN", "pull.planned_kN"},
		{"j", "letter.side_lever_of_the_pull_lines", "m", ""}, {"N_y", "letter.hold_lines_to_the_left", "kN·m", ""}}
	stepDrift = step{"drift", "pull.drift_deg", "δ = atan2(M_y + T·j + N_y, M_g + T·k + M_s)", "°",
		append(sideQuantities[:4:4], momentQuantities[2:]...)}
	stepHingeSide = step{"hinge_side", "tree.hinge_side_moment_kNm", "M = M_y + T·j + N_y", "kN·m",
		append(sideQuantities[:4:4], quantity{"φ", "letter.turn_of_the_tree", "°", ""})}
	stepSideHold = step{"side_hold", "tree.side_hold_use", "u = |M|·e/(I·σ_r), I = (l + r)/2·b·(b²/12 − ȳ²)·(b − c_v)/b", "",
		[]quantity{{"M", "letter.side_moment_left_on_the_hinge", "kN·m", "tree.hinge_side_moment_kNm"}, {"e", "letter.from_the_strip_centroid_to_its", "m", ""},
			{"I", "letter.second_moment_of_area", "m⁴", ""}, {"σ_r", "letter.bending_strength_that_is_relied_on", "MPa", "tree.strength_relied_on_MPa"}, {"b", "letter.hinge_length", "m", "cut.hinge_length_cm"},
			{"l", "letter.thickness_at_the_left", "m", "cut.hinge_left_cm"}, {"r", "letter.thickness_at_the_right", "m", "cut.hinge_right_cm"}, {"ȳ", "letter.centroid_left_of_the_middle", "m", ""}, {"c_v", "letter.cavity", "m", "tree.cavity_cm"}}}
	stepReliedOn = step{"relied_on", "tree.strength_relied_on_MPa", "σ_r = n·σ", "MPa",
		[]quantity{{"n", "letter.part_that_19_of_20_pieces", "", ""}, {"σ", "letter.green_bending_strength", "MPa", "tree.bending_strength_MPa"}}}
	stepClosing = step{"closing", "tree.closing_use", "u = φ_c/φ_f", "",
		[]quantity{{"φ_c", "letter.turn_from_which_the_tree_falls", "°", "pull.commit_deg"}, {"φ_f", "letter.turn_at_which_the_face_closes", "°", "cut.face_opening_deg"}}}
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
		e.workLever(w, i)
		if !l.hold {
			levers = append(levers, l.share, st.Forward)
			one = i
		}
	}
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
	id := text.Words(l.id)
	for k, s := range l.stations {
		if !s.onStem {
			continue
		}
		a, f := st.Places[k], st.Force(k)
		ahead, above := s.path+".ahead_m", s.path+".above_m"
		w.addFor(ahead, named("name.attach_ahead", id), &stepAttachAhead, Num(a.X), s.stem, e.m.setup.Stump, t.Lean/rigging.Deg, t.LeanBearing/rigging.Deg)
		w.addFor(above, named("name.attach_above", id), &stepAttachAbove, Num(a.Z), s.stem, e.m.setup.Stump, t.Lean/rigging.Deg)
		values = append(values, a.X, a.Z, f.X, f.Z)
		from = append(from, ahead, above, "", "")
	}
	x := w.addFor(numbered("lines", i, "lever_m"), named("name.lever", id), &stepLever, Num(st.Forward), values...)
	for k := range from {
		x.from(k, from[k])
	}
}
