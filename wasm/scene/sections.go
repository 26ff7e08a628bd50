package scene

import (
	"slices"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
)

// readSections reads the stem's diameters by height for its outline; what
// makes no stem is drawn as if it were not there.
func (s *Scene) readSections(tree map[string]any) {
	list, _ := tree["sections"].([]any)
	stem := &rigging.StemSections{Height: s.Height}
	for _, item := range list {
		h, okH := draft.Number(draft.Member(item, "height_m"))
		d, okD := draft.Number(draft.Member(item, "diameter_cm"))
		if !okH || !okD {
			return
		}
		stem.Points = append(stem.Points, rigging.DiameterAt{Height: h, Diameter: d * rigging.CM})
	}
	if _, _, err := stem.Volume(0); err == nil {
		s.sections = stem
	}
}

// outline is the stem above the stump: up the one side, over the tip, down the
// other. edge gives the place at a height on a side.
func (s *Scene) outline(edge func(h, side float64) draw.Pt, tip draw.Pt) []draw.Pt {
	heights := []float64{s.Stump}
	if s.sections != nil {
		for _, p := range s.sections.Points {
			if p.Height > s.Stump {
				heights = append(heights, p.Height)
			}
		}
		slices.Sort(heights)
	}
	var line []draw.Pt
	for _, h := range heights {
		line = append(line, edge(h, -1))
	}
	line = append(line, tip)
	for i := len(heights) - 1; i >= 0; i-- {
		line = append(line, edge(heights[i], 1))
	}
	return line
}
