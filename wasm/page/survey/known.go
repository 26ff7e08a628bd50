package survey

import (
	"strconv"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/words"
)

// Known points of the ways that find a place from others.
var knownPrefixes = []string{"a", "b", "from"}

// knownPoints offers the plan's points where a known point is asked for, and
// fills in those chosen.
func (s *measuring) knownPoints() map[string]*Reading {
	rows := map[string]*Reading{}
	self, _ := draft.LastKey(s.req.Field)
	for _, prefix := range knownPrefixes {
		for _, r := range s.helper.Readings {
			if r.Key != prefix+"_distance" {
				continue
			}
			name := map[string]words.Text{"a": "First known point", "b": "Second known point", "from": "Known point"}[prefix]
			row := &Reading{Key: prefix + "_point", Label: s.d.Say(name), Kind: fields.Choice, Text: s.req.Texts[prefix+"_point"],
				Options: []parts.Option{{Value: "", Label: s.d.Say("typed below")}, {Value: "stem", Label: s.d.Say("the {stem} itself")}}}
			for i := range s.d.List("points") {
				path := draft.Elem("points", i)
				bearing, okB := s.d.Number(path + ".bearing_deg")
				distance, okD := s.d.Number(path + ".distance_m")
				if path == self || !okB || !okD {
					continue
				}
				value := "point/" + strconv.Itoa(i)
				row.Options = append(row.Options, parts.Option{Value: value, Label: fields.PointTitle(s.d, i)})
				if row.Text == value {
					s.fill(prefix+"_bearing", bearing*rigging.Deg, path+".bearing_deg", rigging.Deg)
					s.fill(prefix+"_distance", distance, path+".distance_m", 1)
				}
			}
			if row.Text == "stem" {
				s.given[prefix+"_bearing"], s.given[prefix+"_distance"] = rigging.Measured{}, rigging.Measured{}
			}
			rows[prefix] = row
		}
	}
	return rows
}

// fill takes a reading from the plan, with the ± it has there.
func (s *measuring) fill(key string, v float64, path string, size float64) {
	for _, r := range s.helper.Readings {
		if r.Key == key && v >= r.Least && v <= r.Most {
			m := r.Read(v)
			if pm, ok := s.d.Number(draft.PlusMinus + path); ok && pm >= 0 {
				m.PlusMinus = pm * size
			}
			s.given[key] = m
		}
	}
}
