package job

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func (b *builder) lineList() parts.Section {
	n := b.d.Size("lines")
	s := parts.Section{
		ID: "lines", Title: b.d.Say("Lines"),
		Help:    b.d.Say("From where the rope is made fast to where it is hauled."),
		Actions: []parts.Action{{Do: "add-pull", Path: "lines", Label: b.d.Say("Add a {pull line}")}, {Do: "add-hold", Path: "lines", Label: b.d.Say("Add a {hold line}")}},
		Summary: b.d.HowMany(n, "1 line", "%s lines"),
	}
	for i := range n {
		s.Sections = append(s.Sections, b.line(i))
	}
	return s
}

func (b *builder) line(i int) parts.Section {
	path := draft.Elem("lines", i)
	id := b.d.Text(path + ".id")
	state, use := b.stated(b.pieces[id+"/puller"])
	keys := []string{"id", "role"}
	if b.d.Text(path+".role") == "hold" || b.d.Has(path+".tended") {
		keys = append(keys, "tended")
	}
	if b.d.Text(path+".role") != "hold" || b.d.Has(path+".share") {
		keys = append(keys, "share")
	}
	way := b.way(path)
	return parts.Section{
		ID: path, Title: fields.LineTitle(b.d, i), Fields: b.Fields(path, keys...),
		Summary: way.Summary,
		Sections: []parts.Section{
			way,
			b.tackle(path + ".tackle"),
			b.puller(path+".puller", state, use),
			{ID: path + ".rope", Title: b.d.Say("Rope sag and stretch"), Fields: b.Fields(path+".rope", "mass_kgpm", "stiffness_kN"),
				Help:    b.d.Say("Only for sag, stretch and stored energy. The strength of the rope goes under gear."),
				Summary: words.Listed(b.Shown(path+".rope.mass_kgpm"), b.Shown(path+".rope.stiffness_kN"))},
		},
		Actions: []parts.Action{
			{Do: "add-rope", Path: path, Label: b.d.Say("Add its rope to the gear")}, {Do: "add-stem", Path: path, Label: b.d.Say("Add its {strop} on the {stem} to the gear")},
			{Do: "remove", Path: path, Label: b.d.Say("Remove this line")},
		},
	}
}

// limitFields are the fields that go with each answer to what limits a puller.
var limitFields = []keyed.Row[[]string]{
	{Key: "stall", Value: []string{"stall_kN"}},
	{Key: "device", Value: []string{"setting_kN"}},
	{Key: "grip", Value: []string{"stall_kN"}},
	{Key: "watched", Value: []string{"setting_kN", "stall_kN"}},
}

// puller is the section of what hauls a line. A value given that the answer
// does not ask for stays in sight: nothing typed is lost.
func (b *builder) puller(path, state, use string) parts.Section {
	keys := []string{"rated_kN", "limited_by"}
	asked, _ := keyed.Find(limitFields, b.d.Text(path+".limited_by"))
	keys = append(keys, asked...)
	for _, key := range []string{"setting_kN", "stall_kN"} {
		if b.d.Has(path+"."+key) && !slices.Contains(keys, key) {
			keys = append(keys, key)
		}
	}
	return parts.Section{
		ID: path, Title: b.d.Say("{Puller}"), State: state, Fields: b.Fields(path, keys...),
		Help:    b.d.Say("{Machines} or hand winch at the hauling end."),
		Summary: words.Listed(b.d.Given("rated %s", b.Shown(path+".rated_kN")), b.d.Given("stops at %s", b.Shown(path+".setting_kN")), b.d.Given("stalls at %s", b.Shown(path+".stall_kN")), use),
	}
}

// way is the section of a line's path.
func (b *builder) way(line string) parts.Section {
	path := line + ".path"
	n := b.d.Size(path)
	s := parts.Section{
		ID: path, Title: b.d.Say("Route of the rope"),
		Help:    b.d.Say("In order from its {dead end} to the hauling end. Every station between the first and the last is a {block}."),
		Actions: []parts.Action{{Do: "add", Path: path, Label: b.d.Say("Add a station")}},
	}
	tackle := b.d.Has(line + ".tackle")
	var names []string
	for j := range n {
		st := draft.Elem(path, j)
		name := b.stationName(st)
		names = append(names, name)
		role := b.d.Say("Through a {block}")
		switch {
		case j == 0:
			role = b.d.Say("Made fast")
		case j == n-1 && tackle:
			role = b.d.Say("{Tackle} anchored")
		case j == n-1:
			role = b.d.Say("Hauled from")
		}
		at := b.d.Station(st)
		f := []parts.Field{{
			Path: st + ".@at", Label: b.d.Say("Where"), Kind: fields.Choice, Text: at, Options: parts.WithValue(b.d.Locale, b.stations, at),
			Help:    b.d.Say("On the {stem}, or one of the points."),
			Problem: b.Problem(st+".point", st),
		}}
		if at == "stem" || at == "" || b.d.Has(st+".stem_m") {
			f = append(f, b.Field(st+".stem_m"))
		}
		if j > 0 && j < n-1 || b.d.Has(st+".efficiency") {
			f = append(f, b.Field(st+".efficiency"))
		}
		if name := tieName(b.d, line, j); name != "" {
			f = append(f, b.tied(st, line, name))
		}
		s.Sections = append(s.Sections, parts.Section{
			ID: st, Title: b.d.Say("%s. %s", strconv.Itoa(j+1), role), Summary: name, Fields: f, Actions: b.moves(st, j, n, b.d.Say("Remove this station")),
		})
	}
	s.Summary = strings.Join(names, " → ")
	return s
}

// stationName says where a station is in words.
func (b *builder) stationName(path string) string {
	switch at := b.d.Station(path); at {
	case "":
		return b.d.Say("not chosen yet")
	case "stem":
		return cmp.Or(b.d.Given("on the {stem} at %s", b.Shown(path+".stem_m")), b.d.Say("on the {stem}"))
	default:
		return b.d.Say("point %s", at[len("point/"):])
	}
}

// tieName is what an end of a line is called among those the rope is tied at, ""
// for a station between the ends or not chosen yet.
func tieName(d *draft.Plan, line string, station int) string {
	path := line + ".path"
	at := d.Station(draft.Elem(path, station))
	switch {
	case station == 0 && at == "stem":
		return "stem"
	case station == 0:
		return strings.TrimPrefix(at, "point/")
	case station == d.Size(path)-1:
		return "end"
	}
	return ""
}

// tied asks whether the rope itself is made fast at an end.
func (b *builder) tied(station, line, name string) parts.Field {
	text := ""
	point := strings.TrimPrefix(b.d.Station(station), "point/")
	for _, v := range b.d.List(line + ".tied") {
		if v == name || v == point {
			text = "true"
		}
	}
	return parts.Field{
		Path: station + ".@tied", Label: b.d.Say("The rope itself is tied here"), Kind: fields.Flag, Text: text,
		Help:    b.d.Say("No piece is then needed at this end, and the rope needs a reduction for the knot or termination."),
		Problem: b.Problem(line + ".tied"),
	}
}

// moves are the actions on one of n elements.
func (b *builder) moves(path string, j, n int, remove string) []parts.Action {
	var a []parts.Action
	if j > 0 {
		a = append(a, parts.Action{Do: "up", Path: path, Label: b.d.Say("Move up")})
	}
	if j < n-1 {
		a = append(a, parts.Action{Do: "down", Path: path, Label: b.d.Say("Move down")})
	}
	return append(a, parts.Action{Do: "remove", Path: path, Label: remove})
}
