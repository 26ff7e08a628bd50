package bench

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The pictures keep to their boxes at the sizes of a phone, a tablet and a
// projector, and what a picture is of is named in the words of the region.
func TestPicturesOfTreeBenches(t *testing.T) {
	for _, spec := range []*bench{&slopeOfLine, &pullOffLay, &lean, &hinge, &pullerAtMost} {
		for _, box := range [][2]int{{320, 260}, {360, 300}, {760, 420}, {1240, 560}} {
			b := askFor(t, map[string]any{"bench": spec.id, "box": map[string]any{"w": box[0], "h": box[1]}, "settings": map[string]string{"words": "uk", "units": "us"}})
			for _, s := range b.Picture.Shapes {
				if s.Kind == "text" && s.Text != "" {
					assert.NotContains(t, s.Text, "{", spec.id)
					assert.GreaterOrEqual(t, s.X, 0.0, spec.id)
					assert.LessOrEqual(t, s.X, float64(box[0]), spec.id)
				}
			}
			for _, h := range b.Picture.Handles {
				assert.NotContains(t, h.Label, "{", spec.id)
			}
		}
	}
}
