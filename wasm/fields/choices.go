package fields

import (
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

func notChosen(d *draft.Plan) parts.Option { return parts.Option{Value: "", Label: d.Say("choose")} }

// Points are the points of a plan to choose from.
func Points(d *draft.Plan) []parts.Option {
	return append([]parts.Option{notChosen(d)}, eachPoint(d, "", "point %s")...)
}

// Stations are the places of a plan where a station of a line can be.
func Stations(d *draft.Plan) []parts.Option {
	return append([]parts.Option{notChosen(d), {Value: "stem", Label: d.Say("on the {stem}")}}, eachPoint(d, "point/", "at point %s")...)
}

// GearPlaces are the places of a plan where a piece of gear can sit.
func GearPlaces(d *draft.Plan) []parts.Option {
	out := []parts.Option{notChosen(d)}
	for i := range d.List("lines") {
		if id := d.Text(draft.Elem("lines", i) + ".id"); id != "" {
			out = append(out,
				parts.Option{Value: "line/" + id, Label: d.Say("on line %s", id)},
				parts.Option{Value: "stem/" + id, Label: d.Say("at the {stem}, line %s", id)})
		}
	}
	return append(out, eachPoint(d, "point/", "at point %s")...)
}

// eachPoint offers the points that have a name.
func eachPoint(d *draft.Plan, value string, label words.Text) (out []parts.Option) {
	for i := range d.List("points") {
		if id := d.Text(draft.Elem("points", i) + ".id"); id != "" {
			out = append(out, parts.Option{Value: value + id, Label: d.Say(label, id)})
		}
	}
	return out
}
