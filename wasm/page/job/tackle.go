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
		s.Summary = b.d.Say("none")
		s.Help = b.d.Say("Between the line and its last station, to multiply the pull.")
		s.Actions = []parts.Action{{Do: "add-tackle", Path: path, Label: b.d.Say("Add a {tackle}")}}
		return s
	}
	s.Fields = append([]parts.Field{{
		Path: path + ".@ready", Label: b.d.Say("Ready-made {tackle}"), Kind: fields.Choice, Text: readyKey(b.d, path), Options: readyOptions.In(b.d.Locale),
		Help: b.d.Say("Choosing one replaces the stages or the reeving. Check the parts against what is rigged."),
	}}, b.Fields(path, "efficiency")...)
	if b.d.Has(path + ".reeving") {
		s.Sections = append(s.Sections, b.reeving(path))
	}
	if n := b.d.Size(path + ".stages"); n > 0 || !b.d.Has(path+".reeving") {
		stages := parts.Section{
			ID: path + ".stages", Title: b.d.Say("Stages"),
			Help:    b.d.Say("One stage is a simple {tackle}. With several, in order from the load, the haul of one is the load of the next."),
			Actions: []parts.Action{{Do: "add", Path: path + ".stages", Label: b.d.Say("Add a stage")}}, Summary: b.d.HowMany(n, "1 stage", "%s stages"),
		}
		for k := range n {
			st := draft.Elem(path+".stages", k)
			stages.Sections = append(stages.Sections, parts.Section{
				ID: st, Title: b.d.Say("Stage %s", strconv.Itoa(k+1)), Fields: b.Fields(st, "parts", "haul_from"),
				Summary: words.Listed(b.d.Given("%s parts", b.Shown(st+".parts")), b.d.Given("hauled from %s", parts.LabelOf(b.d.Locale, fields.HaulFrom, b.d.Text(st+".haul_from")))),
				Actions: b.moves(st, k, n, b.d.Say("Remove this stage")),
			})
		}
		s.Sections = append(s.Sections, stages)
	}
	haul := path + ".haul_path"
	n := b.d.Size(haul)
	h := parts.Section{
		ID: haul, Title: b.d.Say("Route of the hauling part"),
		Help:    b.d.Say("From the {tackle} to the {puller}, in order. The last one is the {puller}, each before it a {block}."),
		Actions: []parts.Action{{Do: "add", Path: haul, Label: b.d.Say("Add a station")}},
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
		name := b.d.Given("point %s", b.Written(st+".point"))
		names = append(names, name)
		h.Sections = append(h.Sections, parts.Section{
			ID: st, Title: b.d.Say("%s. %s", strconv.Itoa(j+1), role), Summary: name,
			Fields: b.Fields(st, keys...), Actions: b.moves(st, j, n, b.d.Say("Remove this station")),
		})
	}
	h.Summary = strings.Join(names, " → ")
	s.Sections = append(s.Sections, h)
	s.Actions = []parts.Action{{Do: "remove", Path: path, Label: b.d.Say("Remove the {tackle}")}}
	s.Summary = b.d.Say("hauled via %s", h.Summary)
	if h.Summary == "" {
		s.Summary = b.d.Say("route of the hauling part not given")
	}
	return s
}

// reeving is a tackle that stages cannot say: its places and its ropes.
func (b *builder) reeving(tackle string) parts.Section {
	path := tackle + ".reeving"
	list := func(key string, title, one, many, name, add, remove words.Text, fields ...string) parts.Section {
		at := path + "." + key
		n := b.d.Size(at)
		s := parts.Section{ID: at, Title: b.d.Say(title), Summary: b.d.HowMany(n, one, many), Actions: []parts.Action{{Do: "add", Path: at, Label: b.d.Say(add)}}}
		for k := range n {
			item := draft.Elem(at, k)
			first, _ := b.d.At(item + "." + fields[0])
			s.Sections = append(s.Sections, parts.Section{
				ID: item, Title: b.d.Say(name, strconv.Itoa(k+1)), Summary: strings.ReplaceAll(form.JoinLines(first), "\n", " → "),
				Fields: b.Fields(item, fields...), Actions: b.moves(item, k, n, b.d.Say(remove)),
			})
		}
		return s
	}
	return parts.Section{
		ID: path, Title: b.d.Say("Custom reeving"),
		Help: b.d.Say("Any {tackle} on one axis: name its places, then list those each rope runs over. It takes one rope more than there are moving places."),
		Sections: []parts.Section{
			list("nodes", "Places", "1 place", "%s places", "Place %s", "Add a place", "Remove this place", "id", "kind", "at"),
			list("ropes", "Ropes", "1 rope", "%s ropes", "Rope %s", "Add a rope", "Remove this rope", "path", "efficiency"),
		},
		Actions: []parts.Action{{Do: "stages", Path: tackle, Label: b.d.Say("Replace it with stages")}},
	}
}
