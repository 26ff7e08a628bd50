package plan

import (
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// What weakens the stem is entered by its height:
//
//	"tree": {"defects": [{"kind": "cavity", "height_m": 8, "cavity_cm": 20}]}
//
// The kind is a cavity (the default), a wound or a fork; cavity_cm is how wide the
// cavity or how deep the wound is, and of a fork a cavity in it, if any.

func (r *reader) defects(t *object, m *model) {
	stump, height := m.setup.Stump, m.setup.Tree.Height
	for i, raw := range t.list(field.Defects) {
		o := t.entry(field.Defects, i, raw)
		kind := rigging.DefectKind(o.choice(field.DefectKind))
		if kind == "" {
			kind = rigging.HollowDefect
		}
		d := rigging.StemDefect{Kind: kind, Height: o.number(field.DefectHeight)}
		if d.Height < stump || d.Height > height {
			s := field.DefectHeight.Row().Range.Within(stump, height)
			s.Above = false
			o.problem(CodeRange, field.DefectHeight, accepted(s), d.Height, "defect_off",
				metres(d.Height, text.Nearest), metres(stump, text.Nearest), metres(height, text.Nearest))
		}
		d.Size = orZero(o.number(field.DefectCavity)) * rigging.CM
		if kind != rigging.ForkDefect {
			o.missingNumber(field.DefectCavity)
		}
		o.done()
		m.defects = append(m.defects, d)
	}
}

// A stemBending is how hard the stem is bent, as planned and at most.
type stemBending struct {
	bending       *rigging.Bending // nil where it is not known
	planned, most rigging.StemStress
}

// bendStem works the stem out.
func (e *evaluation) bendStem() {
	s := &e.m.setup
	defects := e.m.defects
	if s.Tree.Cavity > 0 { // seen in the hinge, it is in the stem on it
		defects = append(slices.Clone(defects), rigging.StemDefect{Kind: rigging.HollowDefect, Height: s.Stump, Size: s.Tree.Cavity})
	}
	e.stem.bending, _ = s.Bending(e.pull.Body, defects)
	e.stem.planned = e.bent(e.turning, e.plannedTensions)
	e.stem.most = e.bent(e.atMost, e.tensionsAtMost(e.mostHauls()))
}

// bent is the greatest stress in the stem over attitudes with the lines at
// tensions (N).
func (e *evaluation) bent(attitudes []attitude, tensions func(*attitude) []float64) rigging.StemStress {
	if e.stem.bending == nil {
		return rigging.StemStress{Stress: math.NaN()}
	}
	states := make([]*rigging.LineState, len(e.m.lines))
	return e.stem.bending.Greatest(len(attitudes), func(k int) (float64, []*rigging.LineState, []float64) {
		a := &attitudes[k]
		for i := range states {
			states[i] = a.lines[i].state
		}
		return a.turn, states, tensions(a)
	})
}

// stemUse is a stress over what the stem's wood is relied on to bear, infinite
// where nothing is left of the section.
func (e *evaluation) stemUse(s rigging.StemStress) float64 { return s.Stress / e.m.strengthLow }

// A StemReport is where the pull works the stem hardest: from the hinge up to the
// highest place a line is tied at, from standing to commit.
//
//codec:members
type StemReport struct {
	HeightM       Num             `json:"height_m"` // along the stem from the ground
	Deg           Num             `json:"deg"`      // turn of the tree then
	DiameterCm    Num             `json:"diameter_cm"`
	MomentKNm     Num             `json:"moment_kNm"`   // square to the stem
	StressMPa     Num             `json:"stress_MPa"`   // in the outer fibre
	StrengthMPa   Num             `json:"strength_MPa"` // that is relied on
	Use           Num             `json:"use"`
	Verdict       rigging.Verdict `json:"verdict"`
	AtMostHeightM Num             `json:"at_most_height_m"`
	AtMostUse     Num             `json:"at_most_use"`
	AtMostVerdict rigging.Verdict `json:"at_most_verdict"`
}

// StemRow names the stem among the rows of a report.
const StemRow = "stem"

func (e *evaluation) writeStem(rep *Report) {
	if !e.solved {
		return
	}
	s, most := &e.stem.planned, &e.stem.most
	use, mostUse := e.stemUse(*s), e.stemUse(*most)
	rep.Stem = StemReport{
		HeightM: Num(s.Height), Deg: Num(s.Turn / rigging.Deg), DiameterCm: Num(s.Diameter / rigging.CM), MomentKNm: Num(s.Moment / rigging.KNm),
		StressMPa: Num(s.Stress / rigging.MPa), StrengthMPa: Num(e.m.strengthLow / rigging.MPa), Use: Num(use), Verdict: judgeUse(use),
		AtMostHeightM: Num(most.Height), AtMostUse: Num(mostUse), AtMostVerdict: judgeUse(mostUse),
	}
}

// judgeStem says why the stem keeps the plan from being better.
func (e *evaluation) judgeStem(rep *Report) {
	const path = "tree"
	switch s := &rep.Stem; s.Verdict {
	case rigging.Over:
		e.reason(s.Verdict, "stem_over", path, metres(float64(s.HeightM), text.Nearest), text.Percent(s.Use))
	case rigging.Near:
		e.reason(s.Verdict, "stem_near", path, metres(float64(s.HeightM), text.Nearest), text.Percent(s.Use))
	case rigging.Unknown:
		e.reason(s.Verdict, "stem_unknown", path)
	}
}

// Species known for splitting up the stem when they are pulled or lean hard:
// felling courses name ash, alder, poplar, willow and the like. From memory.
var splitting = []string{"european_ash", "white_ash", "black_alder", "lombardy_poplar", "eastern_cottonwood", "black_cottonwood",
	"european_aspen", "quaking_aspen", "white_willow", "black_willow", "wych_elm", "american_elm", "sweet_chestnut", "robinia", "mountain_ash", "shining_gum"}

func (e *evaluation) cautionStem(rep *Report) {
	if s := &rep.Stem; s.Use.Known() {
		e.caution("stem_sound", "tree.defects", sourceBeam, text.Percent(s.Use), metres(float64(s.HeightM), text.Nearest))
	}
	for i, d := range e.m.defects {
		e.caution("stem_defect."+string(d.Kind), item("tree.defects", i), sourcePractice, metres(d.Height, text.Nearest))
	}
	e.caution("splits", "cut", sourceMemory)
	if slices.Contains(splitting, e.m.species) {
		e.caution("splits.species", "tree.species", sourceMemory)
	}
}

// The steps of the stem.
var (
	stepStemMoment = step{"stem_moment", "stem.moment_kNm", "M = √((L_f + G_f)² + (L_y + G_y)²)", "kN·m",
		[]quantity{{"L_f", "letter.lines_bend_it_to_the_lay", "kN·m", ""}, {"G_f", "letter.weight_above_bends_it_to_the_lay", "kN·m", ""},
			{"L_y", "letter.lines_bend_it_left", "kN·m", ""}, {"G_y", "letter.weight_above_bends_it_left", "kN·m", ""},
			{"z", "letter.height_looked_at", "m", ""}, {"φ", "letter.turn_of_the_tree", "°", ""}}}
	stepStemStress = step{"stem_stress", "stem.stress_MPa", "σ = 32·M/(π·d³·n)", "MPa",
		[]quantity{{"M", "letter.moment_on_the_stem", "kN·m", "stem.moment_kNm"}, {"d", "letter.stem_diameter_there", "m", ""}, {"n", "letter.part_a_defect_leaves", "", ""}}}
	stepStemMost = step{"stem_most", "stem.at_most_MPa", "σ = 32·M/(π·d³·n)", "MPa",
		[]quantity{{"M", "letter.moment_on_the_stem", "kN·m", ""}, {"d", "letter.stem_diameter_there", "m", ""}, {"n", "letter.part_a_defect_leaves", "", ""},
			{"z", "letter.height_looked_at", "m", ""}, {"φ", "letter.turn_of_the_tree", "°", ""}}}
	stepStemUse = step{"stem_use", "stem.use", "u = σ/σ_r", "",
		[]quantity{{"σ", "letter.bending_stress", "MPa", "stem.stress_MPa"}, {"σ_r", "letter.bending_strength_that_is_relied_on", "MPa", "tree.strength_relied_on_MPa"}}}
)

func (e *evaluation) workStem(w *workings, rep *Report) {
	s := &e.stem.planned
	w.add(&stepStemMoment, rep.Stem.MomentKNm, s.Lines.Forward/rigging.KNm, s.Weight.Forward/rigging.KNm, s.Lines.Left/rigging.KNm, s.Weight.Left/rigging.KNm,
		s.Height, s.Turn/rigging.Deg)
	w.add(&stepStemStress, rep.Stem.StressMPa, s.Moment/rigging.KNm, s.Diameter, s.Left)
	if s := &e.stem.most; !math.IsNaN(s.Stress) {
		w.add(&stepStemMost, Num(s.Stress/rigging.MPa), s.Moment/rigging.KNm, s.Diameter, s.Left, s.Height, s.Turn/rigging.Deg)
	}
	w.add(&stepStemUse, rep.Stem.Use, s.Stress/rigging.MPa, e.m.strengthLow/rigging.MPa)
}
