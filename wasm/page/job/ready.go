package job

import (
	"sync"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

// A readyTackle is a ready-made tackle as it stands in a plan: its stages, or
// its reeving where stages cannot say it.
type readyTackle struct {
	key, text string // text is the JSON of the value, to know it again
	field     string // stages or reeving
	value     any
}

var readyTackles = sync.OnceValue(func() []readyTackle {
	var out []readyTackle
	for _, r := range rigging.ReadyReevings() {
		t := readyTackle{key: r.Key}
		if len(r.Stages) > 0 {
			stages := make([]any, len(r.Stages))
			for i, s := range r.Stages {
				stages[i] = map[string]any{"parts": s.Parts, "haul_from": s.HaulFrom}
			}
			t.field, t.value = "stages", stages
		} else {
			nodes := make([]any, len(r.Reeving.Nodes))
			for i, n := range r.Reeving.Nodes {
				nodes[i] = map[string]any{"id": n.ID, "kind": string(n.Kind), "at": n.At}
			}
			ropes := make([]any, len(r.Reeving.Ropes))
			for i, rope := range r.Reeving.Ropes {
				one := map[string]any{"path": rope.Path}
				if rope.Efficiency > 0 {
					one["efficiency"] = rope.Efficiency
				}
				ropes[i] = one
			}
			t.field, t.value = "reeving", map[string]any{"nodes": nodes, "ropes": ropes}
		}
		t.text = draft.JSON(t.value)
		out = append(out, t)
	}
	return out
})

// readyOptions are the ready-made tackles to choose from.
var readyOptions = offer.List{Write: func(l words.Locale) []parts.Option {
	out := []parts.Option{{Value: "", Label: l.Say("as counted below")}}
	for _, r := range rigging.ReadyReevings() {
		out = append(out, parts.Option{Value: r.Key, Label: l.Say(words.Text(r.Name))})
	}
	return out
}}

// readyKey finds the ready-made tackle that stands at a path, "" if it is of
// another arrangement.
func readyKey(d *draft.Plan, tackle string) string {
	for _, field := range []string{"stages", "reeving"} {
		v, there := d.At(tackle + "." + field)
		if !there {
			continue
		}
		text := draft.JSON(v)
		for _, r := range readyTackles() {
			if r.field == field && r.text == text {
				return r.key
			}
		}
	}
	return ""
}

// ready rigs a ready-made tackle in place of what is there.
func (e *editor) ready(tackle, key string) {
	if key == "" {
		return // as it is
	}
	for _, r := range readyTackles() {
		if r.key != key {
			continue
		}
		other := map[string]string{"stages": "reeving", "reeving": "stages"}[r.field]
		e.Remove(tackle + "." + other)
		e.Set(tackle+"."+r.field, r.value)
		return
	}
	e.Refuse(e.d.Say("There is no ready-made {tackle} “%s”.", key))
}
