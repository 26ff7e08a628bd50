package scene

import (
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Person is who or what is about.
type Person struct {
	ID    string
	Index int // in the plan's list
	At    rigging.Vec
	Known bool
	thing bool
	state string
}

// peopleInView (tree heights) is how far out the drawing makes room for them.
const peopleInView = 2.2

func (s *Scene) readPeople(list []any) {
	for i, raw := range list[:min(len(list), maxDrawn)] {
		m, _ := raw.(map[string]any)
		p := Person{Index: i}
		p.ID, _ = m["id"].(string)
		kind, _ := m["kind"].(string)
		p.thing = kind == "road" || kind == "building" || kind == "tree" || kind == plan.PowerLine
		bearing, okB := draft.Number(m["bearing_deg"])
		distance, okD := draft.Number(m["distance_m"])
		if p.Known = okB && okD && math.Abs(bearing) <= 1e6 && distance >= 0 && distance <= maxDistanceM; p.Known {
			p.At = rigging.AtBearing(bearing*rigging.Deg, distance, 0)
		}
		if i < len(s.rep.People) {
			p.state = s.rep.People[i].Verdict.String()
		}
		s.People = append(s.People, p)
	}
}

// zones are where nobody should stand, once anybody is placed: where the tree lands,
// where ropes fly, the ways out.
func (s *Scene) zones(c *draw.Canvas, l draw.Layout) {
	if len(s.People) == 0 {
		return
	}
	for _, z := range s.rep.Zones {
		if z.HalfDeg >= 180 || z.Danger == "person_bight" { // circles and bights are drawn anyway
			continue
		}
		class := "recoil"
		if z.Line == "" {
			class = "lands"
		}
		s.sector(c, l, class, &z)
	}
	for _, x := range s.rep.Escapes {
		state := ""
		if x.Blocked != "" {
			state = "over"
		}
		way := rigging.AtBearing(float64(x.BearingDeg)*rigging.Deg, 1, 0)
		c.Arrow("escape", state, l.Plan(way.Scale(1)), l.Plan(way.Scale(float64(x.DistanceM))))
	}
}

func (s *Scene) sector(c *draw.Canvas, l draw.Layout, class string, z *plan.ZoneReport) {
	apex := rigging.Vec{X: float64(z.XM), Y: float64(z.YM)}
	corners := []draw.Pt{l.Plan(apex)}
	const steps = 12
	for k := range steps + 1 {
		bearing := float64(z.BearingDeg) + float64(z.HalfDeg)*(2*float64(k)/steps-1)
		corners = append(corners, l.Plan(apex.Add(rigging.AtBearing(bearing*rigging.Deg, float64(z.ReachM), 0))))
	}
	c.Polygon(class, "", corners...)
}

// drawPeople marks them, with their names.
func (s *Scene) drawPeople(c *draw.Canvas, l draw.Layout) {
	for i := range s.People {
		p := &s.People[i]
		if !p.Known {
			continue
		}
		at, r := l.Plan(p.At), c.Grow(6)
		if p.thing {
			c.Polygon("person", p.state, at.Plus(draw.Pt{X: -r, Y: -r}), at.Plus(draw.Pt{X: r, Y: -r}), at.Plus(draw.Pt{X: r, Y: r}), at.Plus(draw.Pt{X: -r, Y: r}))
		} else {
			c.Circle("person", p.state, at, r)
		}
		c.Label(draw.Label{Text: p.ID, Class: "label-id", State: p.state, At: at, Toward: at.Minus(l.ToPx(0, 0)), Gap: c.Grow(9), Prio: draw.PrioMust})
		base := draft.Elem("people", i)
		c.Handle(draw.Handle{ID: PlanIDs + "person/" + strconv.Itoa(i), Label: s.doc.Say("%s: bearing %s, distance %s", p.ID, s.degrees(p.At.Bearing()/rigging.Deg), s.metres(p.At.Horizontal())),
			X: at.X, Y: at.Y, Axes: "xy", Paths: []string{base + ".bearing_deg", base + ".distance_m"}})
	}
}

// peopleWords tells of them.
func (s *Scene) peopleWords(say func(t words.Text, args ...string)) {
	for i := range s.People {
		p := &s.People[i]
		if !p.Known {
			say("The place of %s is not known.", p.ID)
			continue
		}
		say("%s: bearing %s, distance %s.", p.ID, s.degrees(p.At.Bearing()/rigging.Deg), s.metres(p.At.Horizontal()))
		if i < len(s.rep.People) {
			r := &s.rep.People[i]
			if r.MoveM > 0 {
				say("It has to move %s to be clear.", s.u.Quantity(float64(r.MoveM), units.Metres, units.Up))
			}
		}
	}
}
