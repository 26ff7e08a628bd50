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
		ID: "brief", Title: "The briefing",
		Help:   "Printed on the pull sheet. What is left empty is suggested there, and marked so.",
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
		s.Actions = append(s.Actions, parts.Action{Do: "suggest", Path: "brief.sequence", Label: "Take the suggested sequence, to change it"})
	}
	s.Summary = words.Listed(countIf(b.d.Size("brief.sequence"), "step", "steps"), words.Around("stop at ", b.Shown("brief.stop_haul_kN"), ""))
	list := func(path, title, help, one, many, add, suggest string, keys ...string) {
		n := b.d.Size(path)
		l := parts.Section{ID: path, Title: title, Help: help, Actions: []parts.Action{{Do: "add", Path: path, Label: add}}, Summary: words.CountOf(n, one, many)}
		if n == 0 {
			l.Actions = append(l.Actions, parts.Action{Do: "suggest", Path: path, Label: suggest})
		}
		for i := range n {
			at := draft.Elem(path, i)
			l.Sections = append(l.Sections, parts.Section{
				ID: at, Title: words.Capital(one) + " " + strconv.Itoa(i+1), Fields: b.Fields(at, keys...),
				Summary: words.Listed(b.Written(at+"."+keys[0]), b.Written(at+"."+keys[1])), Actions: moves(at, i, n, "Remove this "+one),
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
		e.Refuse("There is nothing to suggest for “" + path + "”.")
	}
	return e.Out
}
