package show

import (
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

const estimateNote = "An estimate."

// Facts are the main numbers.
func Facts(d *draft.Plan, u *units.System, rep *plan.Report) []parts.Fact {
	p, t := &rep.Pull, &rep.Tree
	moments := func(v float64) string { return u.Quantity(v, units.KilonewtonMetres, units.Up) }
	degreesOf := func(v float64) string { return u.Quantity(v, units.Degrees, units.Up) }

	allowance := ""
	switch {
	case d.Has("planned_kN"):
		allowance = "The crew's own."
	case p.Allowance.Known():
		allowance = "Allowance " + units.Significant(float64(p.Allowance), 3) + " times the largest pull needed."
	}
	peak := ""
	if p.PeakDeg.Known() {
		peak = "With the tree turned " + u.Result("pull.peak_deg", float64(p.PeakDeg)) + "."
	}
	out := []parts.Fact{
		{ID: "planned", Label: "Planned tension", Value: u.Load(float64(p.PlannedKN)), Note: allowance, Working: "pull.planned_kN"},
		{ID: "start", Label: "Pull needed to start", Value: u.Load(float64(p.StartKN)), Working: "pull.start_kN"},
		{ID: "peak", Label: "Largest pull needed", Value: u.Load(float64(p.PeakKN)), Note: peak, Working: "pull.peak_kN"},
		{ID: "hold-puller", Label: d.Say("Hold the {puller} to"), Value: u.Capacity(float64(p.HoldPullTo)), Note: d.Say("The most at the {puller} that overloads nothing, with friction or without, and no more than it is rated."), Working: "pull.hold_puller_to_kN"},
		{ID: "commit", Label: "Falls by itself from", Value: u.Result("pull.commit_deg", float64(p.CommitDeg)), Note: "Turn from standing; until then the line has to pull.", Working: "pull.commit_deg"},
	}
	var pulls int
	for _, l := range rep.Lines {
		if l.Role != "hold" {
			pulls++
		}
	}
	for i, l := range rep.Lines {
		of := ""
		at := func(field string) string { return draft.Elem("lines", i) + "." + field }
		if l.Role == "hold" {
			name := d.Say("{hold line}")
			if l.ID != l.Role {
				name += " " + l.ID
			}
			out = append(out, parts.Fact{ID: "hold-tension:" + l.ID, Label: "Tension of " + name, Value: u.Load(float64(l.TensionKN)), Working: at("tension_kN")},
				parts.Fact{ID: "hold-length:" + l.ID, Label: "Rope of " + name, Note: d.Say("Until the {scarf} closes. A line that comes tight pulls the tree off its {lay}."),
					Value: words.Sided(func(v float64) string { return u.Quantity(v, units.Metres, units.Up) }, float64(l.LengthChangeM), "to pay out", "goes slack", "stays as it is"), Working: at("length_change_m")})
			continue
		}
		if pulls > 1 {
			of = ", line " + l.ID
		}
		out = append(out,
			parts.Fact{ID: "haul:" + l.ID, Label: d.Say("Haul at the {puller}") + of, Value: u.Load(float64(l.HaulKN)), Note: advantageNote(d, &l), Working: at("haul_kN")},
			parts.Fact{ID: "travel:" + l.ID, Label: "Line comes in by" + of, Value: u.Result("haul_m", float64(l.HaulM)), Note: "Until the tree falls by itself.", Working: at("haul_m")},
			parts.Fact{ID: "rope:" + l.ID, Label: d.Say("Rope to haul at the {puller}") + of, Value: u.Result("rope_to_haul_m", float64(l.RopeToHaulM)), Note: stretchFact(u, rep, &l), Working: at("rope_to_haul_m")})
	}
	out = append(out,
		parts.Fact{ID: "drift", Label: "Drift", Value: words.Sided(degreesOf, float64(p.DriftDeg), "to the left", "to the right", d.Say("straight along the {lay}")), Note: d.Say("Which way weight and lines together push it, before the {hinge} steers. ") + estimateNote, Working: "pull.drift_deg"},
		parts.Fact{ID: "side-hold", Label: d.Say("Side hold of the {hinge}"), Value: words.Around("", units.Percent(float64(t.SideHoldUse)), usedOf(t.SideHoldUse)), Note: "An estimate: it counts on sound wood and an even cut." + words.Around(" With the hold lines slack ", knownUse(t.SideHoldSlackUse), "."), Working: "tree.side_hold_use"},
		parts.Fact{ID: "mass", Label: d.Say("Mass above the {hinge}"), Value: u.Quantity(float64(t.MassKg), units.Kilograms, units.Up), Note: massNote(d), Working: "tree.mass_kg"},
		parts.Fact{ID: "centre", Label: d.Say("Mass {centre}"), Value: u.Quantity(float64(t.MassCentreM), units.Metres, units.Nearest), Note: "Along the stem from the ground. " + estimateNote, Working: "tree.mass_centre_m"},
		parts.Fact{ID: "forward", Label: d.Say("Moment of the weight along the {lay}"), Value: words.Sided(moments, float64(t.ForwardMomentKNm), d.Say("toward the {lay}"), d.Say("against the {lay}"), "none"), Working: "tree.forward_moment_kNm"},
		parts.Fact{ID: "side", Label: "Moment of the weight sideways", Value: words.Sided(moments, float64(t.SideMomentKNm), "to the left", "to the right", "none"), Working: "tree.side_moment_kNm"},
		parts.Fact{ID: "hinge", Label: d.Say("Moment to bend the {hinge}"), Value: moments(float64(t.HingeMomentKNm)), Note: estimateNote, Working: "tree.hinge_moment_kNm"},
	)
	out = append(out, people(d, u, rep)...)
	has := scene.StepsByPath(rep)
	for i := range out {
		if has[out[i].Working] == nil {
			out[i].Working = ""
		}
	}
	return out
}

// people are who and what is about, and the ways out, once anybody is placed.
func people(d *draft.Plan, u *units.System, rep *plan.Report) (out []parts.Fact) {
	for i := range rep.People {
		p := &rep.People[i]
		out = append(out, parts.Fact{ID: "person:" + p.ID, Label: fields.PersonTitle(d, i), Value: words.Verdict[p.Verdict], Note: words.Join(p.Message, fields.ClearPlace(d, u, p))})
	}
	if len(out) == 0 {
		return nil
	}
	for _, x := range rep.Escapes {
		value := d.Say("nothing in the way")
		if x.Blocked != "" {
			value = d.Say("blocked by %s", x.By)
		}
		out = append(out, parts.Fact{ID: "escape:" + u.Quantity(float64(x.BearingDeg), units.Degrees, units.Nearest), Value: value,
			Label: d.Say("Way out for the {saw operator} at a bearing of %s", u.Quantity(float64(x.BearingDeg), units.Degrees, units.Nearest)),
			Note:  d.Say("At least %s from the stump, 45° back to the side.", u.Quantity(float64(x.DistanceM), units.Metres, units.Up))})
	}
	return out
}

// stretchFact says beside the rope to haul what the stretch of the line adds.
func stretchFact(u *units.System, rep *plan.Report, l *plan.LineReport) string {
	switch {
	case !rep.Brief.StopRopeM.Known() || l.ID != firstPull(rep):
		return ""
	case rep.Brief.StretchKnown:
		return u.Result("stop_rope_m", float64(rep.Brief.StopRopeM)) + " with the stretch of the line."
	}
	return "The stretch of the line is not counted in: its stiffness is not given."
}

func firstPull(rep *plan.Report) string {
	for i := range rep.Lines {
		if rep.Lines[i].Role != "hold" {
			return rep.Lines[i].ID
		}
	}
	return ""
}

// knownUse is a use as a percentage, "" where there is none.
func knownUse(n plan.Num) string {
	if !n.Known() {
		return ""
	}
	return units.Percent(float64(n))
}

func usedOf(n plan.Num) string {
	if n.Known() {
		return " used"
	}
	return ""
}

func massNote(d *draft.Plan) string {
	if d.Has("tree.mass_kg") {
		return "As given."
	}
	return estimateNote
}

func advantageNote(d *draft.Plan, l *plan.LineReport) string {
	if l.Tackle == nil || !l.IdealAdvantage.Known() || !l.ActualAdvantage.Known() {
		return ""
	}
	actual := units.Decimal(units.Round(float64(l.ActualAdvantage), 0.01, units.Down), -1)
	return d.Say("{Tackle} ") + units.Significant(float64(l.IdealAdvantage), 3) + " to 1, with friction " + actual + " to 1."
}
