package rigging

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A crew reads plainly how well a figure is founded: every basis has words of
// its own, and only what was read in print is called published outright.
func TestBasesInWords(t *testing.T) {
	seen := map[string]Basis{}
	for _, b := range []Basis{Published, GroupFigure, Derived, FromMemory, CommonPractice} {
		assert.NotEmpty(t, b.Words())
		assert.NotContains(t, seen, b.Words())
		seen[b.Words()] = b
	}
	assert.Equal(t, Published, seen["published"])
	assert.Contains(t, FromMemory.Words(), "not yet checked against the publication")
	assert.Contains(t, CommonPractice.Words(), "no published source")
	assert.Equal(t, "A book", Source{"A book", Published}.Words())
	assert.Equal(t, "A book, "+FromMemory.Words(), Source{"A book", FromMemory}.Words())
}
