package plan

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// report writes down what an evaluation found; e is nil where there was
// nothing to evaluate. Every number not computed is None.
func (r *reader) report(e *evaluation) Report {
	none := None()
	rep := Report{
		Version: Version, GoverningUse: none, AtMostUse: none,
		Tree:  TreeReport{none, none, none, none, none, none, none, none, none, none, none, none, none, none, none, none, none, none},
		Stem:  StemReport{HeightM: none, Deg: none, DiameterCm: none, MomentKNm: none, StressMPa: none, StrengthMPa: none, Use: none, AtMostHeightM: none, AtMostUse: none},
		Pull:  PullReport{none, none, none, none, none, none, none, none, none, none, Curve{}, 0},
		Brief: BriefReport{StopHaulKN: none, StopRopeM: none, KeepOutM: none},
		// Lists are never null in the file.
		Lines: []LineReport{}, Points: []PointReport{}, Gear: []GearReport{},
		People: []PersonReport{}, Escapes: []EscapeReport{}, Zones: []ZoneReport{}, Order: OrderReport{[]OrderStep{}, []StopReport{}}, Why: []Why{}, Assumed: []Assumed{}, Problems: []Problem{}, Cautions: []Caution{}, Working: []Working{},
	}
	if e == nil {
		rep.Why = append(rep.Why, r.whyProblems()...)
	} else {
		e.writeTo(&rep)
	}
	rep.Problems = append(rep.Problems, r.problems[:min(len(r.problems), maxProblems)]...)
	if more := len(r.problems) - maxProblems; more > 0 {
		rep.Problems = append(rep.Problems, Problem{Saying: text.Saying{Key: "problem.more", Args: []any{more}}, Takes: takes("plan")})
	}
	if e != nil && e.depth < ToReport {
		return rep
	}
	rep.Assumed = append(rep.Assumed, r.assumed...)
	slices.SortStableFunc(rep.Assumed, func(a, b Assumed) int { return strings.Compare(a.Path, b.Path) })
	for i := range rep.Assumed {
		if v, ok := rep.Assumed[i].Value.(float64); ok && !Num(v).Known() {
			rep.Assumed[i].Value = nil
		}
	}
	return rep
}

// writeTo writes an evaluation down as far as it goes.
func (e *evaluation) writeTo(rep *Report) {
	e.writeTree(rep)
	e.writePull(rep)
	if e.depth < ToVerdict {
		e.notJudged(rep)
		return
	}
	e.writeLines(rep)
	e.writePoints(rep)
	rep.Gear = append(rep.Gear, e.pieces...)
	e.writeStem(rep)
	e.verdict(rep)
	e.writePeople(rep)
	rep.Escapes = append(rep.Escapes, e.ways...)
	if e.depth < ToReport {
		return
	}
	e.writeZones(rep)
	e.writeOrder(rep)
	e.writeBrief(rep)
	e.writeAfter(rep)
	e.findCautions(rep)
	rep.Cautions = append(rep.Cautions, e.cautions...)
	if e.depth >= ToWorking {
		rep.Working = append(rep.Working, e.working(rep)...)
	}
}

func (e *evaluation) writeTree(rep *Report) {
	if e.r.broken || e.pull == nil {
		return
	}
	p, b := e.pull, &e.pull.Body
	t := &rep.Tree
	t.VolumeM3 = Num(e.m.volume)
	t.StemMassKg, t.CrownMassKg, t.MassKg = Num(b.StemMass), Num(b.CrownMass), Num(b.Mass)
	t.WeightKN = Num(b.Weight / rigging.KN)
	t.MassCentreM, t.CentreHeightM = Num(b.CentreHeight), Num(b.Centre.Z)
	t.ForwardM, t.LeftM = Num(b.Centre.X), Num(b.Centre.Y)
	t.ForwardMomentKNm = Num(b.Weight * b.Centre.X / rigging.KNm)
	t.SideMomentKNm = Num(b.Weight * b.Centre.Y / rigging.KNm)
	t.WindMomentKNm = Num(p.WindMoment / rigging.KNm)
	t.HingeMomentKNm = Num(p.HingeMoment / rigging.KNm)
	if e.solved {
		t.HingeSideMomentKNm, t.HingeSideDeg = Num(p.Side.Moment/rigging.KNm), Num(p.Side.Turn/rigging.Deg)
		t.SideHoldUse, t.ClosingUse = Num(e.sideHold(p.Side)), Num(e.closingUse())
		if e.holdsLines() {
			t.SideHoldSlackUse = Num(e.sideHold(p.SideSlack))
		}
	}
}

func (e *evaluation) writePull(rep *Report) {
	out := &rep.Pull
	out.Allowance = Num(e.m.allowance)
	out.HoldPullTo = Num(e.holdTo / rigging.KN)
	p := e.pull
	if p == nil {
		return
	}
	out.LeverM = Num(p.Lever)
	main := e.mainLine()
	if e.depth >= ToReport {
		out.Curve = curveOf(p, main)
	}
	if !e.solved {
		return
	}
	out.StartKN, out.PeakKN, out.PlannedKN = Num(p.Start/rigging.KN), Num(p.Peak/rigging.KN), Num(p.Planned/rigging.KN)
	out.PeakDeg, out.CommitDeg, out.DriftDeg = Num(p.PeakTurn/rigging.Deg), Num(p.Commit/rigging.Deg), Num(p.Drift/rigging.Deg)
	out.HaulM = Num(p.Haul[main])
}

// curveOf is the pull needed, with the rope that the main line (−1 without one)
// has hauled.
func curveOf(p *rigging.Pull, main int) Curve {
	out := make(Curve, len(p.Curve))
	for k, c := range p.Curve {
		hold := 0.0
		for _, t := range c.Hold {
			hold = math.Max(hold, t)
		}
		haul := math.NaN()
		if main >= 0 {
			haul = p.Standing[main].Length - c.Length[main]
		}
		out[k] = CurvePoint{Deg: Num(c.Turn / rigging.Deg), KN: Num(c.Tension / rigging.KN), HaulM: Num(haul), HoldKN: Num(hold / rigging.KN)}
	}
	return out
}

// holdsLines says whether the plan has a hold line.
func (e *evaluation) holdsLines() bool {
	for _, l := range e.m.lines {
		if l.hold {
			return true
		}
	}
	return false
}

// mainLine is the first pull line, −1 without one.
func (e *evaluation) mainLine() int {
	for i, l := range e.m.lines {
		if !l.hold {
			return i
		}
	}
	return -1
}

func (e *evaluation) writeLines(rep *Report) {
	none := None()
	for i := range e.m.lines {
		l := &e.m.lines[i]
		role := "pull"
		if l.hold {
			role = "hold"
		}
		out := LineReport{ID: l.id, Role: role, TensionKN: none, HaulKN: none, AtMostHaulKN: none, AtMostKN: none, IdealAdvantage: 1, ActualAdvantage: 1,
			HaulM: none, RopeToHaulM: none, LengthChangeM: none, PayOutM: none, GrowsM: none, StretchedKN: none, StretchM: none, StemLoadKN: none, TurningShare: none, WeightKN: none, EnergyKJ: none, Legs: []LegReport{}}
		if l.tackle != nil {
			out.IdealAdvantage, out.ActualAdvantage = none, none
			if l.tackle.usable {
				out.IdealAdvantage, out.ActualAdvantage = Num(l.tackle.result.Ideal), Num(l.tackle.result.Actual)
			}
		}
		if e.pull != nil && len(e.pull.Standing) > i && len(e.pull.Standing[i].Units) > 0 {
			e.writeLine(i, &out)
		}
		rep.Lines = append(rep.Lines, out)
	}
}

func (e *evaluation) writeLine(i int, out *LineReport) {
	l, ll, st, p := &e.m.lines[i], &e.loads[i], &e.pull.Standing[i], e.pull
	tension := math.NaN()
	if e.solved {
		tension = ll.tension
		out.TensionKN = Num(tension / rigging.KN)
		out.AtMostHaulKN, out.AtMostKN = Num(ll.mostHaul/rigging.KN), Num(ll.mostTension/rigging.KN)
		out.StemLoadKN = Num(ll.stem * tension / rigging.KN)
		out.HaulM, out.LengthChangeM, out.PayOutM = Num(p.Haul[i]), Num(p.AtClosing[i]), Num(p.PayOut[i])
		out.RopeToHaulM = out.HaulM * out.IdealAdvantage
		out.GrowsM, out.StretchedKN = Num(p.Stretch[i]), Num(p.Stretched[i]/rigging.KN)
		out.HaulKN = Num(ll.haul * tension / rigging.KN)
	}
	highest := 0.0
	for k, s := range l.stations {
		if s.onStem {
			highest = math.Max(highest, st.Places[k].Norm())
		}
	}
	out.TurningShare = Num(st.Forward / highest)
	if !math.IsNaN(l.mass) {
		out.WeightKN = Num(l.mass * st.Length * rigging.G / rigging.KN)
	}
	if e.depth >= ToReport {
		e.writeLegs(i, tension, out)
	}
}

// writeLegs adds the legs of a line at a tension (N), and what its rope and
// tackle carry.
func (e *evaluation) writeLegs(i int, tension float64, out *LineReport) {
	l, ll, st := &e.m.lines[i], &e.loads[i], &e.pull.Standing[i]
	energy := 0.0
	stump := e.m.setup.Stump
	leg := func(from, to string, a, b rigging.Vec, unit rigging.Vec, length, tension float64, hauling bool) {
		chord := unit.Scale(length)
		sag := rigging.Catenary(chord, l.mass, tension)
		stored := rigging.StoredEnergy(tension, length, l.stiff)
		energy += stored
		out.Legs = append(out.Legs, LegReport{
			From: from, To: to, LengthM: Num(length), Hauling: hauling,
			ElevationDeg: Num(unit.Elevation() / rigging.Deg), BearingDeg: Num(unit.Bearing() / rigging.Deg),
			TensionKN: Num(tension / rigging.KN), SagM: Num(sag.Mid), EndAngleDeg: Num(sag.EndAngle / rigging.Deg),
			StretchM: Num(rigging.Stretch(tension, length, l.stiff)), EnergyKJ: Num(stored / 1000),
			FromXYZ: [3]Num{Num(a.X), Num(a.Y), Num(a.Z + stump)}, ToXYZ: [3]Num{Num(b.X), Num(b.Y), Num(b.Z + stump)},
		})
	}
	for k, u := range st.Units {
		leg(e.placeName(l.stations[k]), e.placeName(l.stations[k+1]), st.Places[k], st.Places[k+1], u, st.Lengths[k], st.Multiple[k]*tension, false)
	}
	if l.tackle != nil && e.solved {
		from := l.stations[len(l.stations)-1]
		run := &e.runs[i]
		for k, u := range run.units {
			to := l.tackle.haul[k]
			leg(e.placeName(from), e.placeName(to), e.m.points[from.point].at, e.m.points[to.point].at, u, run.lengths[k], ll.hauls[k]*tension, true)
			from = to
		}
		if l.tackle.usable {
			out.Tackle = tackleReport(&l.tackle.result, ll.end*tension)
		}
	}
	out.EnergyKJ = Num(energy / 1000)
	stretch := Num(0)
	for _, leg := range out.Legs {
		stretch += leg.StretchM
	}
	out.StretchM = stretch
}

func (e *evaluation) placeName(s station) string {
	if s.onStem {
		return "stem"
	}
	if s.point < 0 {
		return ""
	}
	return e.m.points[s.point].id
}

func tackleReport(t *rigging.TackleResult, load float64) *TackleReport {
	out := &TackleReport{Parts: make([][]Num, len(t.PartTensions))}
	for i, parts := range t.PartTensions {
		for _, v := range parts {
			out.Parts[i] = append(out.Parts[i], Num(v*load/rigging.KN))
		}
	}
	for _, n := range t.NodeLoads {
		out.Blocks = append(out.Blocks, TackleBlock{Node: n.ID, Kind: string(n.Kind), Sheaves: n.Sheaves, LoadKN: Num(n.Load * load / rigging.KN)})
	}
	return out
}

// writePoints lists every point that carries something, and, where nothing
// could be computed, every point.
func (e *evaluation) writePoints(rep *Report) {
	none := None()
	for i := range e.m.points {
		p, h := &e.m.points[i], &e.held[i]
		at := p.at
		out := PointReport{ID: p.id, LoadKN: none, HorizontalKN: none, UpliftKN: none, BearingDeg: none, IncludedDeg: none,
			CapacityKN: none, Use: none, GreatestKN: none, GreatestDeg: none, CountsKN: none, AtMostKN: none, AtMostUse: none, XYZ: [3]Num{Num(at.X), Num(at.Y), Num(p.rise)}}
		if e.solved {
			if !h.used {
				continue
			}
			out.LoadKN, out.HorizontalKN = Num(h.pull.Norm()/rigging.KN), Num(h.pull.Horizontal()/rigging.KN)
			out.UpliftKN, out.BearingDeg = Num(h.pull.Z/rigging.KN), Num(h.pull.Bearing()/rigging.Deg)
			out.IncludedDeg = Num(h.included / rigging.Deg)
			out.CapacityKN, out.Use, out.Verdict = Num(h.capacity/rigging.KN), Num(h.use), h.verdict
			out.GreatestKN, out.GreatestDeg = Num(h.greatest.value/rigging.KN), Num(h.greatest.degrees())
			out.CountsKN = Num(h.counts / rigging.KN)
			out.AtMostKN, out.AtMostUse, out.AtMostVerdict = Num(h.most.value/rigging.KN), Num(h.mostUse), h.mostVerdict
		}
		rep.Points = append(rep.Points, out)
	}
}
