package request

import (
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Why nothing was changed.
const (
	nothingChanged words.Text = "Nothing was changed: %s"
	faulty         words.Text = "Nothing was changed: there is a fault in the program."
)

// Report is what the plan comes to, without its working.
func (c *Common) Report() plan.Report { return plan.EvaluateTo(c.Plan, c.Size, plan.ToReport) }

// Change answers a request to change a plan. It answers to any input: where
// nothing can be done the changes are none, and the message says so. What a
// request has besides the plan and the settings is handed to other first.
func Change(raw []byte, other func(key string, v any), do func(*Common, *draft.Plan, *units.System) parts.Changes) (out []byte) {
	var c Common
	refused := func(t words.Text, args ...string) []byte {
		return jsontext.Encode(&parts.Changes{Changes: []parts.Change{}, Message: c.Settings.Locale().Say(t, args...)})
	}
	defer func() {
		if fault := recover(); fault != nil {
			out = refused(faulty)
		}
	}()
	err := c.Read(raw, func(key string, v any) {
		c.Take(key, v)
		other(key, v)
	})
	if err != nil {
		return refused(nothingChanged, err.Error())
	}
	d, u := c.Settings.Told(c.Plan)
	if d.Err != nil {
		return refused(nothingChanged, d.Error(d.Err))
	}
	changes := do(&c, d, u)
	if changes.Changes == nil {
		changes.Changes = []parts.Change{}
	}
	return jsontext.Encode(&changes)
}
