package brief

import (
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/units"
	"pullline/wasm/words"
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

const suggestedMark words.Text = "suggested"

const signalRule words.Text = "UK HSE, Winches in directional felling"

// Sequence is what is suggested: the usual order of a pull (common practice, no
// source), with the numbers of this one.
func Sequence(d *draft.Plan, u *units.System, rep *plan.Report) []string {
	hold, lines := false, rep.Lines
	for i := range lines {
		hold = hold || lines[i].Role == "hold"
	}
	out := []string{
		d.Say("Everyone in place, everyone else out: say distances, signals and stop conditions aloud and have them repeated back."),
		d.Say("Light tension on the {pull line}: take out the slack, no more. Check every piece and anchor."),
	}
	if haul, ok := ordered(u, rep, "pretension"); ok {
		out = append(out, d.Say("About %s at the {puller} holds weight and wind; no more before the {back cut}, or the {stem} may split.", haul))
	}
	if hold {
		out = append(out, d.Say("{Hold line} snug, with someone on it who can pay it out."))
	}
	out = append(out,
		d.Say("Cut the {scarf} and check it against the {lay}."),
		d.Say("{Back cut} until the {hinge} is as planned and even; wedge if it helps."),
		d.Say("{Feller} walks clear by the escape route, looks, and gives the signal. Nobody pulls before that."),
		d.Say("Pull steadily, without jerks. Watch the tree, the {hinge} and the anchors, not the rope."))
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
		out = append(out, d.Say("%s at the {puller}: stop. Stop too if anything moves that should not.", u.Capacity(float64(rep.Brief.StopHaulKN))))
	}
	commit := d.Say("Once the tree falls by itself, stop hauling and let it go.")
	if rep.Pull.CommitDeg.Known() {
		commit = d.Say("Once the tree falls by itself (turned about %s), stop hauling and let it go.", u.Result("pull.commit_deg", float64(rep.Pull.CommitDeg)))
	}
	return append(out, commit, d.Say("Slack off before anyone walks in: the rope may still be holding the tree."))
}

// Signals are those suggested: they name what has to be agreed. The signs themselves are the
// crew's own: nobody can agree on them but those who give and see them.
func Signals(d *draft.Plan) []Signal {
	saw, anyone := d.Say("{saw operator}"), d.Say("anyone")
	return []Signal{
		{Means: d.Say("Take up the slack"), By: saw}, {Means: d.Say("Pull"), By: saw}, {Means: d.Say("Slack off"), By: saw}, {Means: d.Say("Stop"), By: anyone},
	}
}

// Roles are those suggested: the tasks to name somebody for.
func Roles(d *draft.Plan, rep *plan.Report) []string {
	out := []string{d.Say("Saw, in charge"), d.Say("{Puller}"), d.Say("Signals"), d.Say("Keeping others out")}
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
	b := &Briefing{Sequence: []Line{}, Signals: []Signal{}, Stop: []Line{}, Distances: []Line{}, Roles: []Role{}, Notes: d.Text("brief.notes"), Mark: d.Say(suggestedMark)}
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
		b.Stop = append(b.Stop, Line{Text: d.Say("Haul at the {puller} reaches %s", u.Capacity(haul)), Suggested: !own})
	} else {
		b.Stop = append(b.Stop, Line{Text: d.Say("No haul to stop at: there is no room between the haul needed and what the gear may carry. Do not pull like this.")})
	}
	own = false
	if v, ok := d.Number("brief.stop_rope_m"); ok {
		rope, own = v, true
	}
	b.Stop = append(b.Stop,
		Line{Text: d.Say(stopRope(rep, own), u.Quantity(rope, units.Metres, units.Up)), Suggested: !own},
		Line{Text: d.Say("An anchor, the machine, the stump or the {hinge} moves, creaks or splits")},
		Line{Text: d.Say("A signal is unclear or nobody answers"), Source: d.Say(signalRule)},
		Line{Text: d.Say("Anyone comes inside the distances")})
}

// stopRope says at what rope hauled to stop, and whether that counts its
// stretch.
func stopRope(rep *plan.Report, own bool) words.Text {
	switch {
	case own || !rep.Brief.StopRopeM.Known():
		return "Rope hauled in reaches %s and the tree does not fall by itself"
	case rep.Brief.StretchKnown:
		return "Rope hauled in reaches %s (with stretch of the line) and the tree does not fall by itself"
	}
	return "Rope hauled in reaches %s (without stretch: give the rope's stiffness) and the tree does not fall by itself"
}

func (b *Briefing) distances(d *draft.Plan, u *units.System, rep *plan.Report) {
	out := u.Result("keep_out_m", float64(rep.Brief.KeepOutM))
	b.Distances = append(b.Distances, Line{
		Text: d.Say("Within two tree lengths, %s, of the tree: only those the pull needs, with the {saw operator}'s permission.", out), Source: plan.SourceTwoLengths,
	})
	for i := range rep.Points {
		p := &rep.Points[i]
		if !p.IncludedDeg.Known() || float64(p.IncludedDeg) > 179.5 {
			continue
		}
		b.Distances = append(b.Distances, Line{
			Text:   d.Say("Nobody in the bight at point %s: inside its angle of %s, and as far behind it as the legs are long.", p.ID, u.Result("included_deg", float64(p.IncludedDeg))),
			Source: d.Say("UK MCA MGN 308 (M+F), 2.2"),
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
	along := d.Say("Nobody beside or in line with a loaded rope.")
	if longest > 0 {
		along = d.Say("Nobody beside or in line with a loaded rope: the longest leg, %s, recoils about as far.", u.Quantity(longest, units.Metres, units.Up))
	}
	b.Distances = append(b.Distances, Line{Text: along, Source: d.Say("Safety Alert SA 015, Snap-back zones")})
}
