package bench

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Load factors of a redirect without friction, as rigging handbooks print
// them: 2.00 at 0°, 1.73 at 60°, 1.41 at 90°, 1.00 at 120°. The same values
// are checked against their source in package rigging.
func TestRedirectBenchFactors(t *testing.T) {
	for angle, factor := range map[string]string{"0": "2.00", "60": "1.74", "90": "1.42", "120": "1.00", "180": "0.00"} {
		b := askFor(t, map[string]any{"bench": "redirect", "values": map[string]string{"included_deg": angle}})
		assert.Equal(t, factor, b.fact("factor"), angle) // rounded up: a load is never shown smaller
	}
}

// However close the legs, the name of the load stands clear of them, above
// the rings of their handles.
func TestRedirectBenchNamesItsLoadClear(t *testing.T) {
	for angle := 0; angle <= 40; angle += 5 {
		b := askFor(t, map[string]any{"bench": "redirect", "values": map[string]string{"included_deg": strconv.Itoa(angle)}, "box": boxes})
		seen := false
		for _, s := range b.Picture.Shapes {
			if s.Kind == "text" && strings.HasPrefix(s.Text, "R = ") {
				seen = true
				assert.Less(t, s.Y, b.Picture.Handles[0].Y-11, "%d°", angle)
				assert.Greater(t, s.Y, 8.0, "%d°", angle)
			}
		}
		require.True(t, seen, "%d°", angle)
	}
}
