package brief

import (
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/units"
)

// A Briefing is what the crew is told before the cut. What the plan does not
// say itself is suggested, and marked so.
type Briefing struct {
	Sequence  []Line   `json:"sequence"`
	Signals   []Signal `json:"signals"`
	Stop      []Line   `json:"stop"`      // when to stop
	Distances []Line   `json:"distances"` // who stays where
	Roles     []Role   `json:"roles"`
	Notes     string   `json:"notes,omitempty"`
	Mark      string   `json:"mark"` // what is said beside a suggestion
}

// A Line is one sentence of the briefing.
type Line struct {
	Text      string `json:"text"`
	Source    string `json:"source,omitempty"`
	Suggested bool   `json:"suggested,omitempty"` // not the crew's own yet
}

// A Signal is a sign, what it means and who gives it.
type Signal struct {
	Sign      string `json:"sign"`
	Means     string `json:"means"`
	By        string `json:"by"`
	Suggested bool   `json:"suggested,omitempty"`
}

// A Role is a task and who does it; the name is empty where nobody is named.
type Role struct {
	Role string `json:"role"`
	Name string `json:"name"`
}

const suggestedMark = "suggested"

const signalRule = "UK HSE, Winches in directional felling"

// Sequence is what is suggested: the usual order of a pull (common practice, no
// source), with the numbers of this one.
func Sequence(d *draft.Plan, u *units.System, rep *plan.Report) []string {
	hold, lines := false, rep.Lines
	for i := range lines {
		hold = hold || lines[i].Role == "hold"
	}
	out := []string{
		"Everyone at their place, everyone else out: distances, signals and stop conditions said aloud and repeated back.",
		d.Say("Light tension on the {pull line}: slack out, no more. Look over every piece and anchor."),
	}
	if haul, ok := ordered(u, rep, "pretension"); ok {
		out = append(out, d.Say("About %s at the {puller} holds weight and wind; no more before the {back cut}, or the {stem} may split.", haul))
	}
	if hold {
		out = append(out, d.Say("{Hold line} snug, with somebody at it who can pay it out."))
	}
	out = append(out,
		d.Say("{Scarf} cut, and checked against the {lay}."),
		d.Say("{Back cut} until the {hinge} is as planned, left standing evenly; wedge where it helps."),
		d.Say("{Feller} walks clear by the escape route, looks, and gives the signal. Nobody pulls before that."),
		d.Say("Pull steadily, without jerks, and watch the tree, the {hinge} and the anchors, not the rope."))
	if haul, ok := ordered(u, rep, "pull"); ok {
		out = append(out, d.Say("The tree starts at %s at the {puller}. If it has not moved by then, stop and look.", haul))
	}
	if hold {
		out = append(out, d.Say("Pay out the {hold line} as it comes tight: it steers and must not stop the tree."))
	}
	for i := range lines { // the hold lines are some of them
		if let := paidOut(d, u, rep, i); let != "" {
			out = append(out, let)
		}
	}
	if rep.Brief.StopHaulKN.Known() {
		out = append(out, u.Capacity(float64(rep.Brief.StopHaulKN))+d.Say(" at the {puller}: stop. Stop too at anything that moves and should not."))
	}
	commit := "Once the tree falls by itself, stop hauling and let it go."
	if rep.Pull.CommitDeg.Known() {
		commit = "Once the tree falls by itself (turned about " + u.Result("pull.commit_deg", float64(rep.Pull.CommitDeg)) + "), stop hauling and let it go."
	}
	return append(out, commit, "Slack off before anyone walks in; the rope may still hold the tree.")
}

// Signals are those suggested: they name what has to be agreed. The signs themselves are the
// crew's own: nobody can agree on them but those who give and see them.
func Signals(d *draft.Plan) []Signal {
	saw, anyone := d.Say("{saw operator}"), "anyone"
	return []Signal{
		{Means: "Take up the slack", By: saw}, {Means: "Pull", By: saw}, {Means: "Slack off", By: saw}, {Means: "Stop", By: anyone},
	}
}

// Roles are those suggested: the tasks to name somebody for.
func Roles(d *draft.Plan, rep *plan.Report) []string {
	out := []string{d.Say("Saw, in charge"), d.Say("{Puller}"), "Signals", "Keeping others out"}
	for i := range rep.Lines {
		if rep.Lines[i].Role == "hold" {
			out = append(out, d.Say("{Hold line}"))
			break
		}
	}
	return out
}

// Of gathers the plan's own words and fills in what is suggested.
func Of(d *draft.Plan, u *units.System, rep *plan.Report) *Briefing {
	b := &Briefing{Sequence: []Line{}, Signals: []Signal{}, Stop: []Line{}, Distances: []Line{}, Roles: []Role{}, Notes: d.Text("brief.notes"), Mark: suggestedMark}
	for _, v := range d.List("brief.sequence") {
		b.Sequence = append(b.Sequence, Line{Text: draft.Written(v)})
	}
	if len(b.Sequence) == 0 {
		for _, text := range Sequence(d, u, rep) {
			b.Sequence = append(b.Sequence, Line{Text: text, Suggested: true})
		}
	}
	for i := range d.List("brief.signals") {
		at := draft.Elem("brief.signals", i)
		b.Signals = append(b.Signals, Signal{Sign: d.Text(at + ".sign"), Means: d.Text(at + ".means"), By: d.Text(at + ".by")})
	}
	if len(b.Signals) == 0 {
		for _, s := range Signals(d) {
			s.Suggested = true
			b.Signals = append(b.Signals, s)
		}
	}
	for i := range d.List("brief.roles") {
		at := draft.Elem("brief.roles", i)
		b.Roles = append(b.Roles, Role{d.Text(at + ".role"), d.Text(at + ".name")})
	}
	if len(b.Roles) == 0 {
		for _, role := range Roles(d, rep) {
			b.Roles = append(b.Roles, Role{Role: role})
		}
	}
	b.stop(d, u, rep)
	b.distances(d, u, rep)
	b.people(d, u, rep)
	return b
}

func (b *Briefing) stop(d *draft.Plan, u *units.System, rep *plan.Report) {
	haul, rope, own := float64(rep.Brief.StopHaulKN), float64(rep.Brief.StopRopeM), false
	if v, ok := d.Number("brief.stop_haul_kN"); ok {
		haul, own = v, true
	}
	if own || !rep.NoRoom {
		b.Stop = append(b.Stop, Line{Text: d.Say("Haul at the {puller} reaches ") + u.Capacity(haul), Suggested: !own})
	} else {
		b.Stop = append(b.Stop, Line{Text: d.Say("No haul to stop at: there is no room between what the pull may need and what the gear may bear. Not to be pulled like this.")})
	}
	own = false
	if v, ok := d.Number("brief.stop_rope_m"); ok {
		rope, own = v, true
	}
	b.Stop = append(b.Stop,
		Line{Text: "Rope hauled reaches " + u.Quantity(rope, units.Metres, units.Up) + stretchNote(rep, own) + " and the tree does not fall by itself", Suggested: !own},
		Line{Text: d.Say("An anchor, the machine, the stump or the {hinge} moves, creaks or splits")},
		Line{Text: "A signal is unclear or nobody answers", Source: signalRule},
		Line{Text: "Anyone steps inside the distances"})
}

// stretchNote says whether the rope to haul counts its stretch.
func stretchNote(rep *plan.Report, own bool) string {
	switch {
	case own || !rep.Brief.StopRopeM.Known():
		return ""
	case rep.Brief.StretchKnown:
		return " (stretch of the line counted in)"
	}
	return " (stretch not counted in: give the rope's stiffness)"
}

func (b *Briefing) distances(d *draft.Plan, u *units.System, rep *plan.Report) {
	out := u.Result("keep_out_m", float64(rep.Brief.KeepOutM))
	b.Distances = append(b.Distances, Line{
		Text: "Two tree lengths, " + out + ", around the tree: only those the pull needs, with the " + d.Say("{saw operator}") + "'s word.", Source: plan.SourceTwoLengths,
	})
	for i := range rep.Points {
		p := &rep.Points[i]
		if !p.IncludedDeg.Known() || float64(p.IncludedDeg) > 179.5 {
			continue
		}
		b.Distances = append(b.Distances, Line{
			Text:   "Nobody in the bight at point " + p.ID + ": inside its angle of " + u.Result("included_deg", float64(p.IncludedDeg)) + " and as far behind as the legs are long.",
			Source: "UK MCA MGN 308 (M+F), 2.2",
		})
	}
	longest := -1.0
	for i := range rep.Lines {
		for _, leg := range rep.Lines[i].Legs {
			if float64(leg.LengthM) > longest {
				longest = float64(leg.LengthM)
			}
		}
	}
	along := "Nobody beside or in line with a loaded rope"
	if longest > 0 {
		along += "; the longest leg, " + u.Quantity(longest, units.Metres, units.Up) + ", flies back about as far"
	}
	b.Distances = append(b.Distances, Line{Text: along + ".", Source: "Safety Alert SA 015, Snap-back zones"})
}
