package plan

import (
	"pullline/rigging"
	"pullline/rigging/jsontext"
)

// AppendJSON writes the report, field by field under the names of the struct
// tags.
func (r *Report) AppendJSON(w *jsontext.Writer) {
	e := encoder{w}
	e.Open()
	e.Int("version", r.Version)
	r.give(e)
	jsontext.List(w, "why", r.Why, appendWhy)
	e.tree("tree", &r.Tree)
	e.pull("pull", &r.Pull)
	jsontext.List(w, "lines", r.Lines, appendLine)
	jsontext.List(w, "points", r.Points, appendPoint)
	jsontext.List(w, "gear", r.Gear, appendGear)
	jsontext.List(w, "assumed", r.Assumed, appendAssumed)
	jsontext.List(w, "problems", r.Problems, appendProblem)
	jsontext.List(w, "cautions", r.Cautions, appendCaution)
	jsontext.List(w, "working", r.Working, appendWorking)
	e.brief("brief", &r.Brief)
	if r.After != nil {
		e.after("after", r.After)
	}
	e.Close()
}

// A taker is whoever is shown the single values of a part of a report, in the order
// in which they are written: an encoder, or a picker that wants one of them.
type taker interface {
	Text(key, s string)
	Bool(key string, v bool)
	num(key string, n Num)
	verdict(key string, v rigging.Verdict)
}

func (r *Report) give(to taker) {
	to.verdict("verdict", r.Verdict)
	to.Text("governing", r.Governing)
	to.num("governing_use", r.GoverningUse)
	to.verdict("at_most_verdict", r.AtMostVerdict)
	to.Text("at_most_governing", r.AtMostGoverning)
	to.num("at_most_use", r.AtMostUse)
	to.Bool("only_if_held", r.OnlyIfHeld)
	to.Bool("no_room", r.NoRoom)
}

// An encoder writes what a report holds besides plain values.
type encoder struct{ *jsontext.Writer }

func (e encoder) num(key string, n Num) { e.Num(key, float64(n)) }

func (e encoder) verdict(key string, v rigging.Verdict) { e.Text(key, v.String()) }

func (e encoder) xyz(key string, v [3]Num) {
	e.Key(key)
	e.nums(v[:])
}

func (e encoder) nums(list []Num) {
	if list == nil {
		e.Null()
		return
	}
	e.OpenList()
	for _, n := range list {
		e.Float(float64(n))
	}
	e.CloseList()
}

// value writes what a plan gave or what was assumed.
func (e encoder) value(key string, v any) {
	if n, ok := v.(Num); ok {
		v = float64(n)
	}
	e.Value(key, v)
}

func appendWhy(w *jsontext.Writer, y *Why) {
	w.Open()
	w.Text("code", y.Code)
	w.Text("path", y.Path)
	w.Text("message", y.Message)
	w.Text("verdict", y.Verdict.String())
	w.Close()
}

func (t *TreeReport) give(to taker) {
	to.num("volume_m3", t.VolumeM3)
	to.num("stem_mass_kg", t.StemMassKg)
	to.num("crown_mass_kg", t.CrownMassKg)
	to.num("mass_kg", t.MassKg)
	to.num("weight_kN", t.WeightKN)
	to.num("mass_centre_m", t.MassCentreM)
	to.num("centre_height_m", t.CentreHeightM)
	to.num("forward_m", t.ForwardM)
	to.num("left_m", t.LeftM)
	to.num("forward_moment_kNm", t.ForwardMomentKNm)
	to.num("side_moment_kNm", t.SideMomentKNm)
	to.num("wind_moment_kNm", t.WindMomentKNm)
	to.num("hinge_moment_kNm", t.HingeMomentKNm)
	to.num("hinge_side_moment_kNm", t.HingeSideMomentKNm)
	to.num("hinge_side_deg", t.HingeSideDeg)
	to.num("side_hold_use", t.SideHoldUse)
	to.num("side_hold_slack_use", t.SideHoldSlackUse)
	to.num("closing_use", t.ClosingUse)
}

func (e encoder) tree(key string, t *TreeReport) {
	e.Key(key)
	e.Open()
	t.give(e)
	e.Close()
}

func (p *PullReport) give(to taker) {
	to.num("start_kN", p.StartKN)
	to.num("peak_kN", p.PeakKN)
	to.num("peak_deg", p.PeakDeg)
	to.num("commit_deg", p.CommitDeg)
	to.num("haul_m", p.HaulM)
	to.num("planned_kN", p.PlannedKN)
	to.num("allowance", p.Allowance)
	to.num("drift_deg", p.DriftDeg)
	to.num("lever_m", p.LeverM)
	to.num("hold_puller_to_kN", p.HoldPullTo)
}

func (e encoder) pull(key string, p *PullReport) {
	e.Key(key)
	e.Open()
	p.give(e)
	jsontext.List(e.Writer, "curve", p.Curve, appendCurvePoint)
	e.Close()
}

func appendCurvePoint(w *jsontext.Writer, p *CurvePoint) {
	e := encoder{w}
	e.Open()
	e.num("deg", p.Deg)
	e.num("kN", p.KN)
	e.num("haul_m", p.HaulM)
	e.num("hold_kN", p.HoldKN)
	e.Close()
}

func (l *LineReport) give(to taker) {
	to.Text("id", l.ID)
	to.Text("role", l.Role)
	to.num("tension_kN", l.TensionKN)
	to.num("haul_kN", l.HaulKN)
	to.num("at_most_haul_kN", l.AtMostHaulKN)
	to.num("at_most_kN", l.AtMostKN)
	to.num("ideal_advantage", l.IdealAdvantage)
	to.num("actual_advantage", l.ActualAdvantage)
	to.num("haul_m", l.HaulM)
	to.num("rope_to_haul_m", l.RopeToHaulM)
	to.num("length_change_m", l.LengthChangeM)
	to.num("pay_out_m", l.PayOutM)
	to.num("grows_m", l.GrowsM)
	to.num("stretched_kN", l.StretchedKN)
	to.num("stretch_m", l.StretchM)
	to.num("stem_load_kN", l.StemLoadKN)
	to.num("turning_share", l.TurningShare)
	to.num("weight_kN", l.WeightKN)
	to.num("energy_kJ", l.EnergyKJ)
}

func appendLine(w *jsontext.Writer, l *LineReport) {
	e := encoder{w}
	e.Open()
	l.give(e)
	jsontext.List(w, "legs", l.Legs, appendLeg)
	if l.Tackle != nil {
		e.tackle("tackle", l.Tackle)
	}
	e.Close()
}

func appendLeg(w *jsontext.Writer, l *LegReport) {
	e := encoder{w}
	e.Open()
	e.Text("from", l.From)
	e.Text("to", l.To)
	e.num("length_m", l.LengthM)
	e.num("elevation_deg", l.ElevationDeg)
	e.num("bearing_deg", l.BearingDeg)
	e.num("tension_kN", l.TensionKN)
	e.Bool("hauling", l.Hauling)
	e.num("sag_m", l.SagM)
	e.num("end_angle_deg", l.EndAngleDeg)
	e.num("stretch_m", l.StretchM)
	e.num("energy_kJ", l.EnergyKJ)
	e.xyz("from_xyz_m", l.FromXYZ)
	e.xyz("to_xyz_m", l.ToXYZ)
	e.Close()
}

func (e encoder) tackle(key string, t *TackleReport) {
	e.Key(key)
	e.Open()
	jsontext.List(e.Writer, "part_tensions_kN", t.Parts, func(w *jsontext.Writer, parts *[]Num) { encoder{w}.nums(*parts) })
	jsontext.List(e.Writer, "blocks", t.Blocks, appendTackleBlock)
	e.Close()
}

func appendTackleBlock(w *jsontext.Writer, b *TackleBlock) {
	e := encoder{w}
	e.Open()
	e.Text("node", b.Node)
	e.Text("kind", b.Kind)
	e.Int("sheaves", b.Sheaves)
	e.num("load_kN", b.LoadKN)
	e.Close()
}

func (p *PointReport) give(to taker) {
	to.Text("id", p.ID)
	to.num("load_kN", p.LoadKN)
	to.num("horizontal_kN", p.HorizontalKN)
	to.num("uplift_kN", p.UpliftKN)
	to.num("bearing_deg", p.BearingDeg)
	to.num("included_deg", p.IncludedDeg)
	to.num("capacity_kN", p.CapacityKN)
	to.num("use", p.Use)
	to.verdict("verdict", p.Verdict)
	to.num("greatest_kN", p.GreatestKN)
	to.num("greatest_deg", p.GreatestDeg)
	to.num("counts_kN", p.CountsKN)
	to.num("at_most_kN", p.AtMostKN)
	to.num("at_most_use", p.AtMostUse)
	to.verdict("at_most_verdict", p.AtMostVerdict)
}

func appendPoint(w *jsontext.Writer, p *PointReport) {
	e := encoder{w}
	e.Open()
	p.give(e)
	e.xyz("xyz_m", p.XYZ)
	e.Close()
}

func (g *GearReport) give(to taker) {
	to.Text("id", g.ID)
	to.Text("kind", g.Kind)
	to.num("load_kN", g.LoadKN)
	to.num("greatest_kN", g.GreatestKN)
	to.num("greatest_deg", g.GreatestDeg)
	to.num("at_most_kN", g.AtMostKN)
	to.num("capacity_kN", g.CapacityKN)
	to.num("use", g.Use)
	to.num("at_most_use", g.AtMostUse)
	to.num("margin_kN", g.MarginKN)
	to.verdict("verdict", g.Verdict)
	to.verdict("at_most_verdict", g.AtMostVerdict)
}

func appendGear(w *jsontext.Writer, g *GearReport) {
	e := encoder{w}
	e.Open()
	g.give(e)
	e.Close()
}

func appendAssumed(w *jsontext.Writer, a *Assumed) {
	e := encoder{w}
	e.Open()
	e.Text("path", a.Path)
	e.value("value", a.Value)
	e.Text("why", a.Why)
	e.TextIf("source", a.Source)
	e.TextIf("basis", a.Basis)
	e.Close()
}

func appendProblem(w *jsontext.Writer, p *Problem) {
	e := encoder{w}
	e.Open()
	e.Text("code", string(p.Code))
	e.Text("path", p.Path)
	e.Text("message", p.Message)
	if p.Given != nil {
		e.value("given", p.Given)
	}
	e.TextIf("accepted", p.Accepted)
	e.Close()
}

func appendCaution(w *jsontext.Writer, c *Caution) {
	e := encoder{w}
	e.Open()
	e.Text("code", c.Code)
	e.TextIf("path", c.Path)
	e.Text("message", c.Message)
	e.Text("source", c.Source)
	e.Close()
}

func appendWorking(w *jsontext.Writer, s *Working) {
	e := encoder{w}
	e.Open()
	e.Text("path", s.Path)
	e.Text("name", s.Name)
	e.Text("formula", s.Formula)
	jsontext.List(w, "values", s.Values, appendWorkingValue)
	e.num("result", s.Result)
	e.Text("unit", s.Unit)
	e.Text("source", s.Source)
	e.Close()
}

func appendWorkingValue(w *jsontext.Writer, v *WorkingValue) {
	e := encoder{w}
	e.Open()
	e.Text("symbol", v.Symbol)
	e.Text("name", v.Name)
	e.num("value", v.Value)
	e.Text("unit", v.Unit)
	e.TextIf("from", v.From)
	e.Close()
}

func (b *BriefReport) give(to taker) {
	to.num("stop_haul_kN", b.StopHaulKN)
	to.num("stop_rope_m", b.StopRopeM)
	to.Bool("stretch_known", b.StretchKnown)
	to.num("keep_out_m", b.KeepOutM)
}

func (e encoder) brief(key string, b *BriefReport) {
	e.Key(key)
	e.Open()
	b.give(e)
	e.Close()
}

func (a *AfterReport) give(to taker) {
	to.num("peak_kN", a.PeakKN)
	to.num("computed_peak_kN", a.ComputedKN)
	to.num("planned_kN", a.PlannedKN)
	to.num("peak_to_computed", a.PeakToComputed)
	to.num("haul_kN", a.HaulKN)
	to.num("planned_haul_kN", a.PlannedHaulKN)
	to.num("computed_haul_kN", a.ComputedHaulKN)
	to.num("haul_to_computed", a.HaulToComputed)
	to.num("measured_over_plan", a.MeasuredOverPlan)
}

func (e encoder) after(key string, a *AfterReport) {
	e.Key(key)
	e.Open()
	a.give(e)
	e.Close()
}
