package bench

import (
	"math"
	"slices"
	"strings"

	"pullline/wasm/parts"
)

// figures says where the values come from that are published ones: what they
// are published for, and by whom. What somebody else typed is their own.
func (b *work) figures() {
	for i := range b.spec.inputs {
		in := &b.spec.inputs[i]
		shown := slices.ContainsFunc(b.out.Fields, func(f parts.Field) bool { return f.Path == in.key })
		if in.suggest == nil || in.suggest.Sources == nil || !shown {
			continue
		}
		sources := in.suggest.Sources()
		var what, from []string
		for k, o := range in.suggest.In(b.Locale) {
			v, ok := b.u.Parse(o.Value, in.dim)
			if !ok || math.Abs(v-b.in[in.key]) > 1e-9*v || k >= len(sources) {
				continue
			}
			what = append(what, o.Label)
			if !slices.Contains(from, sources[k].Text) {
				from = append(from, sources[k].Text)
			}
		}
		if what != nil {
			b.out.Notes = append(b.out.Notes, parts.Note{Code: "figure-" + in.key, Source: strings.Join(from, "; "),
				Message: b.Say("%s, as published: %s.", b.Say(in.label), strings.TrimSuffix(strings.Join(what, "; "), "."))})
		}
	}
}
