package screen

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Load factors of a redirect without friction, as rigging handbooks print
// them: 2.00 at 0°, 1.73 at 60°, 1.41 at 90°, 1.00 at 120°. The same values
// are checked against their source in package rigging.
func TestRedirectBenchFactors(t *testing.T) {
	for angle, factor := range map[string]string{"0": "2.00", "60": "1.74", "90": "1.42", "120": "1.00", "180": "0.00"} {
		b := askBench(t, map[string]any{"bench": "redirect", "values": map[string]string{"included_deg": angle}})
		assert.Equal(t, factor, b.fact("factor"), angle) // rounded up: a load is never shown smaller
	}
}
