package screen

// The legend tells what the kinds of line in a drawing mean. Each has a mark
// of its own kind, drawn in a box of legendW × legendH pixels.
const (
	legendW = 34.0
	legendH = 14.0
)

// legendEntries are told in this order, as far as the drawing has them.
var legendEntries = [...]struct {
	class, label string
	arrow        bool
}{
	{class: "rope", label: "pull line"},
	{class: "rope-hold", label: "hold line"},
	{class: "haul", label: "hauling part"},
	{class: "force", label: "pull on the stem", arrow: true},
	{class: "weight", label: "weight", arrow: true},
	{class: "load", label: "load on a point", arrow: true},
	{class: "bight", label: "nobody stands here"},
	{class: "far", label: "two tree lengths"},
}

// legend explains the kinds of line among shapes.
func legend(shapes []Shape) []LegendItem {
	drawn := func(class string) bool {
		for i := range shapes {
			if s := &shapes[i]; s.Class == class && (s.D != "" || s.R > 0) {
				return true
			}
		}
		return false
	}
	var items []LegendItem
	for _, e := range legendEntries {
		if !drawn(e.class) {
			continue
		}
		c := newCanvas(Box{W: legendW, H: legendH})
		a, b := pt{2, legendH / 2}, pt{legendW - 2, legendH / 2}
		switch {
		case e.class == "bight":
			t := [3]pt{{2, legendH - 1}, {legendW / 2, 1}, {legendW - 2, legendH - 1}}
			c.polygon("bight", "", t[:]...)
			c.hatch("hatch", t, 5)
			c.path("hatch", "")
		case e.arrow:
			c.arrow(e.class, "", a, b)
		default:
			c.segment(e.class, "", a, b)
		}
		items = append(items, LegendItem{Label: e.label, W: legendW, H: legendH, Shapes: c.shapes})
	}
	return items
}
