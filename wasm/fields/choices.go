package fields

import (
	"pullline/wasm/draft"
	"pullline/wasm/parts"
)

var notChosen = parts.Option{Value: "", Label: "choose"}

// Points are the points of a plan to choose from.
func Points(d *draft.Plan) []parts.Option {
	return append([]parts.Option{notChosen}, eachPoint(d, "", "point ")...)
}

// Stations are the places of a plan where a station of a line can be.
func Stations(d *draft.Plan) []parts.Option {
	return append([]parts.Option{notChosen, {Value: "stem", Label: d.Say("on the {stem}")}}, eachPoint(d, "point/", "at point ")...)
}

// GearPlaces are the places of a plan where a piece of gear can sit.
func GearPlaces(d *draft.Plan) []parts.Option {
	out := []parts.Option{notChosen}
	for i := range d.List("lines") {
		if id := d.Text(draft.Elem("lines", i) + ".id"); id != "" {
			out = append(out,
				parts.Option{Value: "line/" + id, Label: "on line " + id},
				parts.Option{Value: "stem/" + id, Label: d.Say("at the {stem}, line ") + id})
		}
	}
	return append(out, eachPoint(d, "point/", "at point ")...)
}

// eachPoint offers the points that have a name.
func eachPoint(d *draft.Plan, value, label string) (out []parts.Option) {
	for i := range d.List("points") {
		if id := d.Text(draft.Elem("points", i) + ".id"); id != "" {
			out = append(out, parts.Option{Value: value + id, Label: label + id})
		}
	}
	return out
}
