package scene_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/scene"
	"pullline/wasm/units"
)

func labels(d *draw.Drawing) []string {
	out := []string{}
	for _, item := range d.Legend {
		out = append(out, item.Label)
	}
	return out
}

// The legend tells of what is drawn, and of nothing else.
func TestLegendTellsWhatIsDrawn(t *testing.T) {
	box := draw.Box{W: 600, H: 300}
	doc := drafttest.Parse([]byte(drafttest.Leaning))
	side, above, _ := scene.Drawings(scene.Boxes{Side: box, Plan: box}, doc, drawnReport(doc), &units.KN)
	require.Equal(t, []string{"pull line", "hold line", "hauling part", "pull on the stem", "weight"}, labels(side))
	require.Equal(t, []string{"pull line", "hold line", "hauling part", "load on a point", "keep out", "two tree lengths"}, labels(above))
	for _, d := range []*draw.Drawing{side, above} {
		for _, item := range d.Legend {
			require.NotEmpty(t, item.Shapes, item.Label)
			for _, s := range item.Shapes {
				require.NotEmpty(t, s.D, item.Label)
			}
		}
	}

	bare := drafttest.Parse([]byte(`{"tree":{"height_m":20}}`))
	side, above, _ = scene.Drawings(scene.Boxes{Side: box, Plan: box}, bare, nil, &units.KN)
	require.Empty(t, side.Legend)
	require.Equal(t, []string{"two tree lengths"}, labels(above))
}
