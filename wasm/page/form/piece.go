package form

import (
	"strconv"

	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// limitKeys are the bases of a limit: which field of the plan holds it.
var limitKeys = func() (keys []string) {
	for _, f := range field.Limits {
		keys = append(keys, f.Key())
	}
	return keys
}()

// limitKey is the field that holds a piece's limit, the first if there are
// several, "" if there is none.
func limitKey(d *draft.Plan, path string) string {
	for _, key := range limitKeys {
		if _, ok := d.At(path + "." + key); ok {
			return key
		}
	}
	return ""
}

func (b *Builder) bases() []parts.Option {
	return []parts.Option{
		{Value: "wll_kN", Label: b.d.Say("working load limit in %s", b.u.Units[units.Kilonewtons].Name)},
		{Value: "wll_t", Label: b.d.Say("working load limit in tonnes (t), as stamped on the tag")},
		{Value: "mbl_kN", Label: b.d.Say("minimum breaking load and a design factor")},
	}
}

// Limit asks for what a piece may carry.
func (b *Builder) Limit(path string) []parts.Field {
	offered := limitKey(b.d, path)
	if offered == "" {
		offered = limitKeys[0]
		if b.u.Key == units.TF.Key {
			offered = limitKeys[1]
		}
	}
	out := []parts.Field{{
		Path: path + ".@basis", Label: b.d.Say("Limit given as"), Kind: fields.Choice, Text: offered, Options: b.bases(),
		Help: b.d.Say("As the tag or certificate gives it. Switching between force and tonnes converts the number; for a breaking load, type the number again."),
	}, b.Field(path + "." + offered)}
	for _, key := range limitKeys {
		if _, ok := b.d.At(path + "." + key); ok && key != offered {
			out = append(out, b.Field(path+"."+key))
		}
	}
	if offered == "mbl_kN" || b.d.Has(path+".design_factor") {
		out = append(out, b.Field(path+".design_factor"))
	}
	return out
}

// LimitWords is a piece's limit as it is given, "" without one.
func (b *Builder) LimitWords(path string) string {
	basis := limitKey(b.d, path)
	if basis == "mbl_kN" {
		return b.d.Given("%s breaking load", b.Shown(path+"."+basis))
	}
	return b.Shown(path + "." + basis)
}

// Inspection asks for a piece's dates.
func (b *Builder) Inspection(path string, keys ...string) parts.Section {
	retired := ""
	if b.d.Flag(path + ".retired") {
		retired = b.d.Say("retired")
	}
	return parts.Section{
		ID: path + "#inspection", Title: b.d.Say("Inspection"), Fields: b.Fields(path, keys...),
		Help:    b.d.Say("If empty, no date is checked."),
		Summary: words.Listed(retired, b.d.Given("again by %s", b.Written(path+".next_inspection")), b.d.Given("last on %s", b.Written(path+".last_inspection"))),
	}
}

// Reductions lists what takes strength off a piece.
func (b *Builder) Reductions(path string) parts.Section {
	reductions := parts.Section{
		ID: path + ".reductions", Title: b.d.Say("Reductions"),
		Help:    b.d.Say("Each takes strength off: knots, splices, tight bends, side load, wear."),
		Actions: []parts.Action{{Do: "add", Path: path + ".reductions", Label: b.d.Say("Add a reduction")}},
		Summary: b.d.HowMany(b.d.Size(path+".reductions"), "1 reduction", "%s reductions"),
	}
	for k := range b.d.List(path + ".reductions") {
		red := draft.Elem(path+".reductions", k)
		reductions.Sections = append(reductions.Sections, parts.Section{
			ID: red, Title: b.d.Say("Reduction %s", strconv.Itoa(k+1)), Fields: b.Fields(red, "why", "factor"),
			Summary: words.Listed(b.Written(red+".why"), b.Shown(red+".factor")),
			Actions: []parts.Action{{Do: "remove", Path: red, Label: b.d.Say("Remove this reduction")}},
		})
	}
	return reductions
}
