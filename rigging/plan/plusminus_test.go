package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/rigging"
)

// A ± belongs to a number of the plan, given or assumed; one for anything
// else is misspelt and keeps the plan from being judged.
func TestPlusMinusNamesANumber(t *testing.T) {
	for _, path := range []string{"tree.height_m", "points[0].distance_m", "tree.cavity_cm", "lines[0].path[0].stem_m"} {
		rep := demoDocument(t).set("plus_minus", fields{path: 1.0}).evaluate(t)
		assert.Empty(t, rep.Problems, path)
		assert.Equal(t, rigging.Within, rep.Verdict, path)
	}
	for _, path := range []string{"tree.heigth_m", "points[9].distance_m", "points[x].distance_m", "points", "tree", "", "tree.species", "[", "tree."} {
		rep := demoDocument(t).set("plus_minus", fields{path: 1.0}).evaluate(t)
		assert.NotEmpty(t, rep.Problems, path)
		assert.Equal(t, rigging.Unknown, rep.Verdict, path)
	}
}
