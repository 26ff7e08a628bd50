package job

import (
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
)

// asked is what the page sends besides the plan and the settings.
type asked struct {
	path string // of the field or part
	text string // typed into the field, or said with the action
	do   string // what an Action's Do said
}

func (a *asked) take(key string, v any) {
	switch key {
	case "path":
		a.path = request.Text(v)
	case "text":
		a.text = request.Text(v)
	case "do":
		a.do = request.Text(v)
	}
}

// EditJSON answers what was typed into a field of the form with Changes.
func EditJSON(raw []byte) []byte {
	var a asked
	return request.Change(raw, a.take, func(_ *request.Common, d *draft.Plan, u *units.System) parts.Changes {
		return edit(d, u, a.path, a.text)
	})
}

// ActJSON answers an action of the form with Changes.
func ActJSON(raw []byte) []byte {
	var a asked
	return request.Change(raw, a.take, func(w *request.Common, d *draft.Plan, u *units.System) parts.Changes {
		switch a.do {
		case "suggest":
			rep := w.Report()
			return suggest(d, u, &rep, a.path)
		case "next-stem":
			e := begin(d, u)
			e.nextStem(a.text)
			return e.Out
		}
		return act(d, u, a.do, a.path)
	})
}
