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

const estimateNote words.Text = "An estimate."

// Facts are the main numbers.
func Facts(d *draft.Plan, u *units.System, rep *plan.Report) []parts.Fact {
	p, t := &rep.Pull, &rep.Tree
	moments := func(v float64) string { return u.Quantity(v, units.KilonewtonMetres, units.Up) }
	degreesOf := func(v float64) string { return u.Quantity(v, units.Degrees, units.Up) }

	allowance := ""
	switch {
	case d.Has("planned_kN"):
		allowance = d.Say("Set by the crew.")
	case p.Allowance.Known():
		allowance = d.Say("%s times the largest pull needed (allowance).", units.Significant(float64(p.Allowance), 3))
	}
	peak := ""
	if p.PeakDeg.Known() {
		peak = d.Say("At a turn of %s.", u.Result("pull.peak_deg", float64(p.PeakDeg)))
	}
	hold := parts.Fact{ID: "hold-puller", Label: d.Say("Hold the {puller} to"), Value: u.Capacity(float64(p.HoldPullTo)), Note: d.Say("Largest pull at the {puller} that overloads nothing, with friction or without, and no more than its rating."), Working: "pull.hold_puller_to_kN"}
	if p.ComputedHold > 0 {
		hold.Note, hold.Working = d.Say("To be sure, with what is not known exactly counted in. Computed: %s.", u.Capacity(float64(p.ComputedHold))), ""
	}
	out := []parts.Fact{
		{ID: "planned", Label: d.Say("Planned tension"), Value: u.Load(float64(p.PlannedKN)), Note: allowance, Working: "pull.planned_kN"},
		{ID: "start", Label: d.Say("Pull needed to start"), Value: u.Load(float64(p.StartKN)), Working: "pull.start_kN"},
		{ID: "peak", Label: d.Say("Largest pull needed"), Value: u.Load(float64(p.PeakKN)), Note: peak, Working: "pull.peak_kN"},
		hold,
		{ID: "commit", Label: d.Say("Falls by itself from"), Value: u.Result("pull.commit_deg", float64(p.CommitDeg)), Note: d.Say("Turn from standing. Until then the line must pull."), Working: "pull.commit_deg"},
	}
	var pulls int
	for _, l := range rep.Lines {
		if l.Role != "hold" {
			pulls++
		}
	}
	for i, l := range rep.Lines {
		at := func(field string) string { return draft.Elem("lines", i) + "." + field }
		if l.Role == "hold" {
			name := d.Say("{hold line}")
			if l.ID != l.Role {
				name = d.Say("{hold line} %s", l.ID)
			}
			out = append(out, parts.Fact{ID: "hold-tension:" + l.ID, Label: d.Say("Tension of %s", name), Value: u.Load(float64(l.TensionKN)), Working: at("tension_kN")},
				parts.Fact{ID: "hold-length:" + l.ID, Label: d.Say("Rope of %s", name), Note: d.Say("Until the {scarf} closes. A line that comes tight pulls the tree off the {lay}."),
					Value: d.Sided(func(v float64) string { return u.Quantity(v, units.Metres, units.Up) }, float64(l.LengthChangeM), "%s to pay out", "%s slack", "no change"), Working: at("length_change_m")})
			continue
		}
		of := func(one, ofLine words.Text) string {
			if pulls > 1 {
				return d.Say(ofLine, l.ID)
			}
			return d.Say(one)
		}
		out = append(out,
			parts.Fact{ID: "haul:" + l.ID, Label: of("Haul at the {puller}", "Haul at the {puller}, line %s"), Value: u.Load(float64(l.HaulKN)), Note: advantageNote(d, &l), Working: at("haul_kN")},
			parts.Fact{ID: "travel:" + l.ID, Label: of("Line comes in by", "Line comes in by, line %s"), Value: u.Result("haul_m", float64(l.HaulM)), Note: d.Say("Until the tree falls by itself."), Working: at("haul_m")},
			parts.Fact{ID: "rope:" + l.ID, Label: of("Rope to haul at the {puller}", "Rope to haul at the {puller}, line %s"), Value: u.Result("rope_to_haul_m", float64(l.RopeToHaulM)), Note: stretchFact(d, u, rep, &l), Working: at("rope_to_haul_m")})
	}
	out = append(out,
		parts.Fact{ID: "drift", Label: d.Say("Drift"), Value: d.Sided(degreesOf, float64(p.DriftDeg), "%s to the left", "%s to the right", "straight along the {lay}"), Note: d.Say("Direction in which weight and lines together push the tree, before the {hinge} steers. An estimate."), Working: "pull.drift_deg"},
		parts.Fact{ID: "side-hold", Label: d.Say("Side hold of the {hinge}"), Value: usedOf(d, t.SideHoldUse), Note: words.Join(d.Say("An estimate: it relies on sound wood and an even cut."), d.Given("With the {hold line}s slack: %s.", knownUse(t.SideHoldSlackUse))), Working: "tree.side_hold_use"},
		parts.Fact{ID: "mass", Label: d.Say("Mass above the {hinge}"), Value: u.Quantity(float64(t.MassKg), units.Kilograms, units.Up), Note: massNote(d), Working: "tree.mass_kg"},
		parts.Fact{ID: "centre", Label: d.Say("{Centre} of mass"), Value: u.Quantity(float64(t.MassCentreM), units.Metres, units.Nearest), Note: d.Say("Along the stem from the ground. An estimate."), Working: "tree.mass_centre_m"},
		parts.Fact{ID: "forward", Label: d.Say("Moment of the weight along the {lay}"), Value: d.Sided(moments, float64(t.ForwardMomentKNm), "%s toward the {lay}", "%s against the {lay}", "none"), Working: "tree.forward_moment_kNm"},
		parts.Fact{ID: "side", Label: d.Say("Side moment of the weight"), Value: d.Sided(moments, float64(t.SideMomentKNm), "%s to the left", "%s to the right", "none"), Working: "tree.side_moment_kNm"},
		parts.Fact{ID: "hinge", Label: d.Say("Moment to bend the {hinge}"), Value: moments(float64(t.HingeMomentKNm)), Note: d.Say(estimateNote), Working: "tree.hinge_moment_kNm"},
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
		out = append(out, parts.Fact{ID: "person:" + p.ID, Label: fields.PersonTitle(d, i), Value: d.Say(words.Verdict[p.Verdict]), Note: words.Join(p.Message, fields.ClearPlace(d, u, p))})
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
func stretchFact(d *draft.Plan, u *units.System, rep *plan.Report, l *plan.LineReport) string {
	switch {
	case !rep.Brief.StopRopeM.Known() || l.ID != firstPull(rep):
		return ""
	case rep.Brief.StretchKnown:
		return d.Say("%s with the stretch of the line.", u.Result("stop_rope_m", float64(rep.Brief.StopRopeM)))
	}
	return d.Say("Without the stretch of the line: its stiffness is not given.")
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

func usedOf(d *draft.Plan, n plan.Num) string {
	if n.Known() {
		return d.Say("%s used", d.Use(float64(n)))
	}
	return units.Percent(float64(n))
}

func massNote(d *draft.Plan) string {
	if d.Has("tree.mass_kg") {
		return d.Say("As given.")
	}
	return d.Say(estimateNote)
}

func advantageNote(d *draft.Plan, l *plan.LineReport) string {
	if l.Tackle == nil || !l.IdealAdvantage.Known() || !l.ActualAdvantage.Known() {
		return ""
	}
	actual := units.Decimal(units.Round(float64(l.ActualAdvantage), 0.01, units.Down), -1)
	return d.Say("{Tackle} %s to 1, with friction %s to 1.", units.Significant(float64(l.IdealAdvantage), 3), actual)
}
