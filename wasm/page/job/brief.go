package job

import (
	"strconv"

	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/page/brief"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// brief is the form's section of the briefing.
func (b *builder) brief() parts.Section {
	s := parts.Section{
		ID: "brief", Title: b.d.Say("Briefing"),
		Help:   b.d.Say("Printed on the pull sheet. What you leave empty is suggested there, and marked as suggested."),
		Fields: b.Fields("", "brief.sequence", "brief.stop_haul_kN", "brief.stop_rope_m", "brief.notes"),
	}
	suggestion := func(i int, v plan.Num, dim units.Dimension, way units.Direction) {
		if v.Known() && s.Fields[i].Text == "" {
			s.Fields[i].Default = b.u.Number(float64(v), dim, way)
		}
	}
	suggestion(1, b.rep.Brief.StopHaulKN, units.Kilonewtons, units.Down)
	suggestion(2, b.rep.Brief.StopRopeM, units.Metres, units.Up)
	if b.d.Size("brief.sequence") == 0 {
		s.Actions = append(s.Actions, parts.Action{Do: "suggest", Path: "brief.sequence", Label: b.d.Say("Use the suggested sequence")})
	}
	steps := ""
	if n := b.d.Size("brief.sequence"); n > 0 {
		steps = b.d.Count(n, "1 step", "%s steps")
	}
	s.Summary = words.Listed(steps, b.d.Given("stop at %s", b.Shown("brief.stop_haul_kN")))
	list := func(path string, title, help, one, many, name, add, remove, suggest words.Text, keys ...string) {
		n := b.d.Size(path)
		l := parts.Section{ID: path, Title: b.d.Say(title), Help: b.d.Say(help), Actions: []parts.Action{{Do: "add", Path: path, Label: b.d.Say(add)}}, Summary: b.d.HowMany(n, one, many)}
		if n == 0 {
			l.Actions = append(l.Actions, parts.Action{Do: "suggest", Path: path, Label: b.d.Say(suggest)})
		}
		for i := range n {
			at := draft.Elem(path, i)
			l.Sections = append(l.Sections, parts.Section{
				ID: at, Title: b.d.Say(name, strconv.Itoa(i+1)), Fields: b.Fields(at, keys...),
				Summary: words.Listed(b.Written(at+"."+keys[0]), b.Written(at+"."+keys[1])), Actions: b.moves(at, i, n, b.d.Say(remove)),
			})
		}
		s.Sections = append(s.Sections, l)
	}
	list("brief.signals", "Signals", "Agreed before the cut. The {saw operator} is in charge; an unclear signal means stop.", "1 signal", "%s signals", "Signal %s", "Add a signal", "Remove this signal", "Use the usual signals", "sign", "means", "by")
	list("brief.roles", "Who does what", "Everyone in the pull, by name.", "1 task", "%s tasks", "Task %s", "Add a task", "Remove this task", "Use the usual tasks", "role", "name")
	return s
}

// suggest puts what is suggested into the plan, as the crew's own to change.
func suggest(d *draft.Plan, u *units.System, rep *plan.Report, path string) parts.Changes {
	e := begin(d, u)
	e.Out.Focus = path
	switch path {
	case "brief.sequence":
		e.Set(path, brief.Sequence(d, u, rep))
	case "brief.signals":
		var list []any
		for _, s := range brief.Signals(d) {
			list = append(list, map[string]any{"sign": s.Sign, "means": s.Means, "by": s.By})
		}
		e.Set(path, list)
	case "brief.roles":
		var list []any
		for _, role := range brief.Roles(d, rep) {
			list = append(list, map[string]any{"role": role, "name": ""})
		}
		e.Set(path, list)
	default:
		e.Refuse(d.Say("There is nothing to suggest for “%s”.", path))
	}
	return e.Out
}
