package job

import (
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
)

// asked is what the page sends besides the plan and the settings.
//
//codec:request
type asked struct {
	Path string `json:"path"` // of the field or part
	Text string `json:"text"` // typed into the field, or said with the action
	Do   string `json:"do"`   // what an Action's Do said
	From any    `json:"from"` // another plan that something is taken from
}

// EditJSON answers what was typed into a field of the form with Changes.
//
//codec:call request.Common asked parts.Changes
func EditJSON(raw []byte) []byte {
	var a asked
	return request.Change(raw, a.Take, func(_ *request.Common, d *draft.Plan, u *units.System) parts.Changes {
		return edit(d, u, a.Path, a.Text)
	})
}

// ActJSON answers an action of the form with Changes.
//
//codec:call request.Common asked parts.Changes
func ActJSON(raw []byte) []byte {
	var a asked
	return request.Change(raw, a.Take, func(w *request.Common, d *draft.Plan, u *units.System) parts.Changes {
		switch a.Do {
		case "suggest":
			rep := w.Report()
			return suggest(d, u, &rep, a.Path)
		case "rig":
			e := begin(d, u)
			e.rig(a.From)
			return e.Out
		case "next-stem":
			e := begin(d, u)
			e.nextStem(a.Text)
			return e.Out
		}
		return act(d, u, a.Do, a.Path)
	})
}
