package job

import (
	"strconv"
	"strings"

	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func (b *builder) tackle(path string) parts.Section {
	s := parts.Section{ID: path, Title: b.d.Say("{Tackle}")}
	if !b.d.Has(path) {
		s.Summary = "none"
		s.Help = b.d.Say("Hangs between the line and its last station, to multiply the pull.")
		s.Actions = []parts.Action{{Do: "add-tackle", Path: path, Label: b.d.Say("Add a {tackle}")}}
		return s
	}
	s.Fields = append([]parts.Field{{
		Path: path + ".@ready", Label: b.d.Say("Ready-made {tackle}"), Kind: fields.Choice, Text: readyKey(b.d, path), Options: readyOptions.In(b.d.Locale),
		Help: "Choosing one replaces the stages or the reeving. Count the parts against what hangs there.",
	}}, b.Fields(path, "efficiency")...)
	if b.d.Has(path + ".reeving") {
		s.Sections = append(s.Sections, b.reeving(path))
	}
	if n := b.d.Size(path + ".stages"); n > 0 || !b.d.Has(path+".reeving") {
		stages := parts.Section{
			ID: path + ".stages", Title: "Stages",
			Help:    b.d.Say("One stage is a simple {tackle}. Of several, the haul of one is the load of the next, in order from the load."),
			Actions: []parts.Action{{Do: "add", Path: path + ".stages", Label: "Add a stage"}}, Summary: words.CountOf(n, "stage", "stages"),
		}
		for k := range n {
			st := draft.Elem(path+".stages", k)
			stages.Sections = append(stages.Sections, parts.Section{
				ID: st, Title: "Stage " + strconv.Itoa(k+1), Fields: b.Fields(st, "parts", "haul_from"),
				Summary: words.Listed(words.Around("", b.Shown(st+".parts"), " parts"), words.Around("hauled from ", parts.LabelOf(b.d.Locale, fields.HaulFrom, b.d.Text(st+".haul_from")), "")),
				Actions: moves(st, k, n, "Remove this stage"),
			})
		}
		s.Sections = append(s.Sections, stages)
	}
	haul := path + ".haul_path"
	n := b.d.Size(haul)
	h := parts.Section{
		ID: haul, Title: "Way of the hauling part",
		Help:    b.d.Say("From the {tackle} to the {puller}, in order; the last one is the {puller}, every one before it a {block}."),
		Actions: []parts.Action{{Do: "add", Path: haul, Label: "Add a station"}},
	}
	var names []string
	for j := range n {
		st := draft.Elem(haul, j)
		role, keys := b.d.Say("Through a {block}"), []string{"point", "efficiency"}
		if j == n-1 {
			role = b.d.Say("{Puller}")
			if !b.d.Has(st + ".efficiency") {
				keys = keys[:1]
			}
		}
		name := words.Around("point ", b.Written(st+".point"), "")
		names = append(names, name)
		h.Sections = append(h.Sections, parts.Section{
			ID: st, Title: strconv.Itoa(j+1) + ". " + role, Summary: name,
			Fields: b.Fields(st, keys...), Actions: moves(st, j, n, "Remove this station"),
		})
	}
	h.Summary = strings.Join(names, " → ")
	s.Sections = append(s.Sections, h)
	s.Actions = []parts.Action{{Do: "remove", Path: path, Label: b.d.Say("Remove the {tackle}")}}
	s.Summary = "hauled by way of " + h.Summary
	if h.Summary == "" {
		s.Summary = "way of the hauling part not given"
	}
	return s
}

// reeving is a tackle that stages cannot say: its places and its ropes.
func (b *builder) reeving(tackle string) parts.Section {
	path := tackle + ".reeving"
	list := func(key, title, one, add string, fields ...string) parts.Section {
		at := path + "." + key
		n := b.d.Size(at)
		s := parts.Section{ID: at, Title: title, Summary: words.CountOf(n, one, one+"s"), Actions: []parts.Action{{Do: "add", Path: at, Label: add}}}
		for k := range n {
			item := draft.Elem(at, k)
			first, _ := b.d.At(item + "." + fields[0])
			s.Sections = append(s.Sections, parts.Section{
				ID: item, Title: words.Capital(one) + " " + strconv.Itoa(k+1), Summary: strings.ReplaceAll(form.JoinLines(first), "\n", " → "),
				Fields: b.Fields(item, fields...), Actions: moves(item, k, n, "Remove this "+one),
			})
		}
		return s
	}
	return parts.Section{
		ID: path, Title: "Reeving of its own",
		Help: b.d.Say("Any {tackle} on one axis: name its places, then say which of them each rope runs over. It takes one rope more than there are moving places."),
		Sections: []parts.Section{
			list("nodes", "Places", "place", "Add a place", "id", "kind", "at"),
			list("ropes", "Ropes", "rope", "Add a rope", "path", "efficiency"),
		},
		Actions: []parts.Action{{Do: "stages", Path: tackle, Label: "Replace it with stages"}},
	}
}
