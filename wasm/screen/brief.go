package screen

import (
	"strconv"
	"strings"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Brief is what the crew is told before the cut. What the plan does not
// say itself is suggested, and marked so.
type Brief struct {
	Sequence  []BriefLine `json:"sequence"`
	Signals   []Signal    `json:"signals"`
	Stop      []BriefLine `json:"stop"`      // when to stop
	Distances []BriefLine `json:"distances"` // who stays where
	Roles     []Role      `json:"roles"`
	Notes     string      `json:"notes,omitempty"`
	Mark      string      `json:"mark"` // what is said beside a suggestion
}

// A BriefLine is one sentence of the briefing.
type BriefLine struct {
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

// joinLines writes a list of texts a line each, and anything else as it is.
func joinLines(v any) string {
	list, ok := v.([]any)
	if !ok {
		return draft.Written(v)
	}
	lines := make([]string, len(list))
	for i, item := range list {
		lines[i] = draft.Written(item)
	}
	return strings.Join(lines, "\n")
}

// splitLines makes a list of the lines that hold something.
func splitLines(text string) []string {
	out := []string{}
	for _, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	return out
}

// suggestedSequence is the usual order of a pull (common practice, no
// source), with the numbers of this one.
func suggestedSequence(d *draft.Plan, u *units.System, rep *plan.Report) []string {
	hold, lines := false, rep.Lines
	for i := range lines {
		hold = hold || lines[i].Role == "hold"
	}
	out := []string{
		"Everyone at their place, everyone else out: distances, signals and stop conditions said aloud and repeated back.",
		d.Say("Light tension on the {pull line}: slack out, no more. Look over every piece and anchor."),
	}
	if hold {
		out = append(out, d.Say("{Hold line} snug, with somebody at it who can pay it out."))
	}
	out = append(out,
		d.Say("{Scarf} cut, and checked against the {lay}."),
		d.Say("{Back cut} until the {hinge} is as planned, left standing evenly; wedge where it helps."),
		d.Say("{Feller} walks clear by the escape route, looks, and gives the signal. Nobody pulls before that."),
		d.Say("Pull steadily, without jerks, and watch the tree, the {hinge} and the anchors, not the rope."))
	if hold {
		out = append(out, d.Say("Pay out the {hold line} as it comes tight: it steers and must not stop the tree."))
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

// suggestedSignals name what has to be agreed. The signs themselves are the
// crew's own: nobody can agree on them but those who give and see them.
func suggestedSignals(d *draft.Plan) []Signal {
	saw, anyone := d.Say("{saw operator}"), "anyone"
	return []Signal{
		{Means: "Take up the slack", By: saw}, {Means: "Pull", By: saw}, {Means: "Slack off", By: saw}, {Means: "Stop", By: anyone},
	}
}

// suggestedRoles are the tasks to name somebody for.
func suggestedRoles(d *draft.Plan, rep *plan.Report) []string {
	out := []string{d.Say("Saw, in charge"), d.Say("{Puller}"), "Signals", "Keeping others out"}
	for i := range rep.Lines {
		if rep.Lines[i].Role == "hold" {
			out = append(out, d.Say("{Hold line}"))
			break
		}
	}
	return out
}

// suggest puts what is suggested into the plan, as the crew's own to change.
func suggest(d *draft.Plan, u *units.System, rep *plan.Report, path string) parts.Changes {
	e := &editor{d: d, u: u}
	e.out.Focus = path
	switch path {
	case "brief.sequence":
		e.set(path, suggestedSequence(d, u, rep))
	case "brief.signals":
		var list []any
		for _, s := range suggestedSignals(d) {
			list = append(list, map[string]any{"sign": s.Sign, "means": s.Means, "by": s.By})
		}
		e.set(path, list)
	case "brief.roles":
		var list []any
		for _, role := range suggestedRoles(d, rep) {
			list = append(list, map[string]any{"role": role, "name": ""})
		}
		e.set(path, list)
	default:
		e.refuse("There is nothing to suggest for “" + path + "”.")
	}
	return e.out
}

// briefing gathers the plan's own words and fills in what is suggested.
func briefing(d *draft.Plan, u *units.System, rep *plan.Report) *Brief {
	b := &Brief{Sequence: []BriefLine{}, Signals: []Signal{}, Stop: []BriefLine{}, Distances: []BriefLine{}, Roles: []Role{}, Notes: d.Text("brief.notes"), Mark: suggestedMark}
	for _, v := range d.List("brief.sequence") {
		b.Sequence = append(b.Sequence, BriefLine{Text: draft.Written(v)})
	}
	if len(b.Sequence) == 0 {
		for _, text := range suggestedSequence(d, u, rep) {
			b.Sequence = append(b.Sequence, BriefLine{Text: text, Suggested: true})
		}
	}
	for i := range d.List("brief.signals") {
		at := draft.Elem("brief.signals", i)
		b.Signals = append(b.Signals, Signal{Sign: d.Text(at + ".sign"), Means: d.Text(at + ".means"), By: d.Text(at + ".by")})
	}
	if len(b.Signals) == 0 {
		for _, s := range suggestedSignals(d) {
			s.Suggested = true
			b.Signals = append(b.Signals, s)
		}
	}
	for i := range d.List("brief.roles") {
		at := draft.Elem("brief.roles", i)
		b.Roles = append(b.Roles, Role{d.Text(at + ".role"), d.Text(at + ".name")})
	}
	if len(b.Roles) == 0 {
		for _, role := range suggestedRoles(d, rep) {
			b.Roles = append(b.Roles, Role{Role: role})
		}
	}
	b.stop(d, u, rep)
	b.distances(d, u, rep)
	return b
}

func (b *Brief) stop(d *draft.Plan, u *units.System, rep *plan.Report) {
	haul, rope, own := float64(rep.Brief.StopHaulKN), float64(rep.Brief.StopRopeM), false
	if v, ok := d.Number("brief.stop_haul_kN"); ok {
		haul, own = v, true
	}
	if own || !rep.NoRoom {
		b.Stop = append(b.Stop, BriefLine{Text: d.Say("Haul at the {puller} reaches ") + u.Capacity(haul), Suggested: !own})
	} else {
		b.Stop = append(b.Stop, BriefLine{Text: d.Say("No haul to stop at: there is no room between what the pull may need and what the gear may bear. Not to be pulled like this.")})
	}
	own = false
	if v, ok := d.Number("brief.stop_rope_m"); ok {
		rope, own = v, true
	}
	b.Stop = append(b.Stop,
		BriefLine{Text: "Rope hauled reaches " + u.Quantity(rope, units.Metres, units.Up) + stretchNote(rep, own) + " and the tree does not fall by itself", Suggested: !own},
		BriefLine{Text: d.Say("An anchor, the machine, the stump or the {hinge} moves, creaks or splits")},
		BriefLine{Text: "A signal is unclear or nobody answers", Source: signalRule},
		BriefLine{Text: "Anyone steps inside the distances"})
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

func (b *Brief) distances(d *draft.Plan, u *units.System, rep *plan.Report) {
	out := u.Result("keep_out_m", float64(rep.Brief.KeepOutM))
	b.Distances = append(b.Distances, BriefLine{
		Text: "Two tree lengths, " + out + ", around the tree: only those the pull needs, with the " + d.Say("{saw operator}") + "'s word.", Source: plan.SourceTwoLengths,
	})
	for i := range rep.Points {
		p := &rep.Points[i]
		if !p.IncludedDeg.Known() || float64(p.IncludedDeg) > 179.5 {
			continue
		}
		b.Distances = append(b.Distances, BriefLine{
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
	b.Distances = append(b.Distances, BriefLine{Text: along + ".", Source: "Safety Alert SA 015, Snap-back zones"})
}

// brief is the form's section of the briefing.
func (b *formBuilder) brief() parts.Section {
	s := parts.Section{
		ID: "brief", Title: "The briefing",
		Help:   "Printed on the pull sheet. What is left empty is suggested there, and marked so.",
		Fields: b.fieldsOf("", "brief.sequence", "brief.stop_haul_kN", "brief.stop_rope_m", "brief.notes"),
	}
	suggestion := func(i int, v plan.Num, dim units.Dimension, way units.Direction) {
		if v.Known() && s.Fields[i].Text == "" {
			s.Fields[i].Default = b.u.Number(float64(v), dim, way)
		}
	}
	suggestion(1, b.rep.Brief.StopHaulKN, units.Kilonewtons, units.Down)
	suggestion(2, b.rep.Brief.StopRopeM, units.Metres, units.Up)
	if b.d.Size("brief.sequence") == 0 {
		s.Actions = append(s.Actions, parts.Action{Do: "suggest", Path: "brief.sequence", Label: "Take the suggested sequence, to change it"})
	}
	s.Summary = words.Listed(countIf(b.d.Size("brief.sequence"), "step", "steps"), words.Around("stop at ", b.shown("brief.stop_haul_kN"), ""))
	list := func(path, title, help, one, many, add, suggest string, keys ...string) {
		n := b.d.Size(path)
		l := parts.Section{ID: path, Title: title, Help: help, Actions: []parts.Action{{Do: "add", Path: path, Label: add}}, Summary: words.CountOf(n, one, many)}
		if n == 0 {
			l.Actions = append(l.Actions, parts.Action{Do: "suggest", Path: path, Label: suggest})
		}
		for i := range n {
			at := draft.Elem(path, i)
			l.Sections = append(l.Sections, parts.Section{
				ID: at, Title: words.Capital(one) + " " + strconv.Itoa(i+1), Fields: b.fieldsOf(at, keys...),
				Summary: words.Listed(b.written(at+"."+keys[0]), b.written(at+"."+keys[1])), Actions: moves(at, i, n, "Remove this "+one),
			})
		}
		s.Sections = append(s.Sections, l)
	}
	list("brief.signals", "Signals", b.d.Say("Agreed before the cut. The {saw operator} is in charge; an unclear signal means stop."), "signal", "signals", "Add a signal", "Take the usual signals", "sign", "means", "by")
	list("brief.roles", "Who does what", "Everyone in the pull, by name.", "task", "tasks", "Add a task", "Take the usual tasks", "role", "name")
	return s
}

// countIf counts, and says nothing of none.
func countIf(n int, one, many string) string {
	if n == 0 {
		return ""
	}
	return words.CountOf(n, one, many)
}

// fork is the form's section of a stem among several.
func (b *formBuilder) fork() parts.Section {
	return parts.Section{
		ID: "fork", Title: "One of several stems",
		Help:    "For a forked tree: a plan for each stem. Left empty, the tree has one stem.",
		Fields:  b.fieldsOf("fork", "tree", "stem", "of", "order"),
		Summary: words.Listed(b.written("fork.tree"), words.Around("stem ", b.shown("fork.stem"), words.Around(" of ", b.shown("fork.of"), ""))),
	}
}

func (b *Brief) AppendJSON(w *jsontext.Writer, key string) {
	if b == nil {
		return
	}
	w.Key(key)
	w.Open()
	jsontext.List(w, "sequence", b.Sequence, appendBriefLine)
	jsontext.List(w, "signals", b.Signals, appendSignal)
	jsontext.List(w, "stop", b.Stop, appendBriefLine)
	jsontext.List(w, "distances", b.Distances, appendBriefLine)
	jsontext.List(w, "roles", b.Roles, appendRole)
	w.TextIf("notes", b.Notes)
	w.Text("mark", b.Mark)
	w.Close()
}

func appendBriefLine(w *jsontext.Writer, l *BriefLine) {
	w.Open()
	w.Text("text", l.Text)
	w.TextIf("source", l.Source)
	w.BoolIf("suggested", l.Suggested)
	w.Close()
}

func appendSignal(w *jsontext.Writer, s *Signal) {
	w.Open()
	w.Text("sign", s.Sign)
	w.Text("means", s.Means)
	w.Text("by", s.By)
	w.BoolIf("suggested", s.Suggested)
	w.Close()
}

func appendRole(w *jsontext.Writer, r *Role) {
	w.Open()
	w.Text("role", r.Role)
	w.Text("name", r.Name)
	w.Close()
}
