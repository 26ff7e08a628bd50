package screen

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
)

// figures says where the values come from that are published ones: what they
// are published for, and by whom. What somebody else typed is their own.
func (b *benchWork) figures() {
	for i := range b.spec.inputs {
		in := &b.spec.inputs[i]
		shown := slices.ContainsFunc(b.out.Fields, func(f Field) bool { return f.Path == in.key })
		if in.suggest == nil || !shown {
			continue
		}
		sources := sourcesOf(in.suggest)
		var what, from []string
		for k, o := range in.suggest.options() {
			v, ok := b.u.parseTyped(o.Value, in.dim)
			if !ok || math.Abs(v-b.in[in.key]) > 1e-9*v || k >= len(sources) {
				continue
			}
			what = append(what, o.Label)
			if !slices.Contains(from, sources[k].Text) {
				from = append(from, sources[k].Text)
			}
		}
		if what != nil {
			b.note("figure-"+in.key, in.label+" as published. "+strings.TrimSuffix(strings.Join(what, "; or "), ".")+".", strings.Join(from, "; "))
		}
	}
}

// sourcesOf are the sources of an offer's options, in their order.
func sourcesOf(o *offer) []rigging.Source {
	switch o {
	case &sheaveOptions:
		return entrySources(rigging.SheaveTable())
	case &factorOptions:
		return entrySources(rigging.DesignFactors())
	case &tractions:
		return entrySources(rigging.TractionTable())
	case &logSoils:
		return entrySources(rigging.BuriedLogSoils())
	case &picketSoils:
		return entrySources(rigging.PicketSoils())
	case &ropeFrictions:
		return entrySources(rigging.RopeFrictions())
	case &ropeMasses:
		return wireSources()
	case &allStiffness:
		out := wireSources()
		for _, r := range rigging.FibreRopes() {
			if r.Stiffness > 0 {
				out = append(out, r.Source)
			}
		}
		return out
	}
	return nil
}

func entrySources(table []rigging.Entry) []rigging.Source {
	out := make([]rigging.Source, len(table))
	for i, e := range table {
		out[i] = e.Source
	}
	return out
}

// wireSources are those of wireRopes.
func wireSources() []rigging.Source {
	var out []rigging.Source
	for _, key := range wireKeys {
		r, ok := rigging.FindWireRope(key)
		for range wireSizes {
			if ok {
				out = append(out, r.Source)
			}
		}
	}
	return out
}
