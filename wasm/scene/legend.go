package scene

import (
	"pullline/wasm/draw"
	"pullline/wasm/words"
)

// The legend tells what the kinds of line in a drawing mean. Each has a mark
// of its own kind, drawn in a box of legendW × legendH pixels.
const (
	legendW = 34.0
	legendH = 14.0
)

// legendEntries are told in this order, as far as the drawing has them.
var legendEntries = [...]struct {
	class string
	label words.Text
	arrow bool
}{
	{class: "rope", label: "{pull line}"},
	{class: "rope-hold", label: "{hold line}"},
	{class: "haul", label: "hauling part"},
	{class: "force", label: "pull on the {stem}", arrow: true},
	{class: "weight", label: "weight", arrow: true},
	{class: "load", label: "load on a point", arrow: true},
	{class: "bend", label: "bent the hardest here"},
	{class: "bight", label: "keep out"},
	{class: "lands", label: "the tree lands here"},
	{class: "recoil", label: "a rope that parts flies here"},
	{class: "escape", label: "way out", arrow: true},
	{class: "far", label: "two tree lengths"},
}

// legend explains the kinds of line among shapes.
func (s *Scene) legend(shapes []draw.Shape) []draw.LegendItem {
	drawn := func(class string) bool {
		for i := range shapes {
			if s := &shapes[i]; s.Class == class && (s.D != "" || s.R > 0) {
				return true
			}
		}
		return false
	}
	var items []draw.LegendItem
	for _, e := range legendEntries {
		if !drawn(e.class) {
			continue
		}
		c := draw.New(draw.Box{W: legendW, H: legendH})
		a, b := draw.Pt{X: 2, Y: legendH / 2}, draw.Pt{X: legendW - 2, Y: legendH / 2}
		switch {
		case e.class == "bight":
			t := [3]draw.Pt{{X: 2, Y: legendH - 1}, {X: legendW / 2, Y: 1}, {X: legendW - 2, Y: legendH - 1}}
			c.Polygon("bight", "", t[:]...)
			c.Hatch("hatch", t, 5)
			c.Path("hatch", "")
		case e.arrow:
			c.Arrow(e.class, "", a, b)
		default:
			c.Segment(e.class, "", a, b)
		}
		items = append(items, draw.LegendItem{Label: s.doc.Say(e.label), W: legendW, H: legendH, Shapes: c.Shapes})
	}
	return items
}
