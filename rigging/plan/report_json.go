package plan

import "pullline/rigging/jsontext"

// AppendJSON writes the report, field by field under the names of the struct
// tags.
func (r *Report) AppendJSON(w *jsontext.Writer) {
	e := encoder{w}
	e.Open()
	e.Int("version", r.Version)
	e.Text("verdict", r.Verdict.String())
	e.Text("governing", r.Governing)
	e.num("governing_use", r.GoverningUse)
	e.Text("at_most_verdict", r.AtMostVerdict.String())
	e.Text("at_most_governing", r.AtMostGoverning)
	e.num("at_most_use", r.AtMostUse)
	e.Bool("only_if_held", r.OnlyIfHeld)
	e.Bool("no_room", r.NoRoom)
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

// An encoder writes what a report holds besides plain values.
type encoder struct{ *jsontext.Writer }

func (e encoder) num(key string, n Num) { e.Num(key, float64(n)) }

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

func (e encoder) tree(key string, t *TreeReport) {
	e.Key(key)
	e.Open()
	e.num("volume_m3", t.VolumeM3)
	e.num("stem_mass_kg", t.StemMassKg)
	e.num("crown_mass_kg", t.CrownMassKg)
	e.num("mass_kg", t.MassKg)
	e.num("weight_kN", t.WeightKN)
	e.num("mass_centre_m", t.MassCentreM)
	e.num("centre_height_m", t.CentreHeightM)
	e.num("forward_m", t.ForwardM)
	e.num("left_m", t.LeftM)
	e.num("forward_moment_kNm", t.ForwardMomentKNm)
	e.num("side_moment_kNm", t.SideMomentKNm)
	e.num("wind_moment_kNm", t.WindMomentKNm)
	e.num("hinge_moment_kNm", t.HingeMomentKNm)
	e.num("hinge_side_moment_kNm", t.HingeSideMomentKNm)
	e.num("hinge_side_deg", t.HingeSideDeg)
	e.num("side_hold_use", t.SideHoldUse)
	e.num("side_hold_slack_use", t.SideHoldSlackUse)
	e.num("closing_use", t.ClosingUse)
	e.Close()
}

func (e encoder) pull(key string, p *PullReport) {
	e.Key(key)
	e.Open()
	e.num("start_kN", p.StartKN)
	e.num("peak_kN", p.PeakKN)
	e.num("peak_deg", p.PeakDeg)
	e.num("commit_deg", p.CommitDeg)
	e.num("haul_m", p.HaulM)
	e.num("planned_kN", p.PlannedKN)
	e.num("allowance", p.Allowance)
	e.num("drift_deg", p.DriftDeg)
	e.num("lever_m", p.LeverM)
	e.num("hold_puller_to_kN", p.HoldPullTo)
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

func appendLine(w *jsontext.Writer, l *LineReport) {
	e := encoder{w}
	e.Open()
	e.Text("id", l.ID)
	e.Text("role", l.Role)
	e.num("tension_kN", l.TensionKN)
	e.num("haul_kN", l.HaulKN)
	e.num("at_most_haul_kN", l.AtMostHaulKN)
	e.num("at_most_kN", l.AtMostKN)
	e.num("ideal_advantage", l.IdealAdvantage)
	e.num("actual_advantage", l.ActualAdvantage)
	e.num("haul_m", l.HaulM)
	e.num("rope_to_haul_m", l.RopeToHaulM)
	e.num("length_change_m", l.LengthChangeM)
	e.num("pay_out_m", l.PayOutM)
	e.num("grows_m", l.GrowsM)
	e.num("stretched_kN", l.StretchedKN)
	e.num("stretch_m", l.StretchM)
	e.num("stem_load_kN", l.StemLoadKN)
	e.num("turning_share", l.TurningShare)
	e.num("weight_kN", l.WeightKN)
	e.num("energy_kJ", l.EnergyKJ)
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

func appendPoint(w *jsontext.Writer, p *PointReport) {
	e := encoder{w}
	e.Open()
	e.Text("id", p.ID)
	e.num("load_kN", p.LoadKN)
	e.num("horizontal_kN", p.HorizontalKN)
	e.num("uplift_kN", p.UpliftKN)
	e.num("bearing_deg", p.BearingDeg)
	e.num("included_deg", p.IncludedDeg)
	e.num("capacity_kN", p.CapacityKN)
	e.num("use", p.Use)
	e.Text("verdict", p.Verdict.String())
	e.num("greatest_kN", p.GreatestKN)
	e.num("greatest_deg", p.GreatestDeg)
	e.num("counts_kN", p.CountsKN)
	e.num("at_most_kN", p.AtMostKN)
	e.num("at_most_use", p.AtMostUse)
	e.Text("at_most_verdict", p.AtMostVerdict.String())
	e.xyz("xyz_m", p.XYZ)
	e.Close()
}

func appendGear(w *jsontext.Writer, g *GearReport) {
	e := encoder{w}
	e.Open()
	e.Text("id", g.ID)
	e.Text("kind", g.Kind)
	e.num("load_kN", g.LoadKN)
	e.num("greatest_kN", g.GreatestKN)
	e.num("greatest_deg", g.GreatestDeg)
	e.num("at_most_kN", g.AtMostKN)
	e.num("capacity_kN", g.CapacityKN)
	e.num("use", g.Use)
	e.num("at_most_use", g.AtMostUse)
	e.num("margin_kN", g.MarginKN)
	e.Text("verdict", g.Verdict.String())
	e.Text("at_most_verdict", g.AtMostVerdict.String())
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

func (e encoder) brief(key string, b *BriefReport) {
	e.Key(key)
	e.Open()
	e.num("stop_haul_kN", b.StopHaulKN)
	e.num("stop_rope_m", b.StopRopeM)
	e.Bool("stretch_known", b.StretchKnown)
	e.num("keep_out_m", b.KeepOutM)
	e.Close()
}

func (e encoder) after(key string, a *AfterReport) {
	e.Key(key)
	e.Open()
	e.num("peak_kN", a.PeakKN)
	e.num("computed_peak_kN", a.ComputedKN)
	e.num("planned_kN", a.PlannedKN)
	e.num("peak_to_computed", a.PeakToComputed)
	e.num("haul_kN", a.HaulKN)
	e.num("planned_haul_kN", a.PlannedHaulKN)
	e.num("computed_haul_kN", a.ComputedHaulKN)
	e.num("haul_to_computed", a.HaulToComputed)
	e.num("measured_over_plan", a.MeasuredOverPlan)
	e.Close()
}
