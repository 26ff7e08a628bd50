package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

// crown reads the crown's share of the stem's mass, or takes what is usual
// for where the tree grew. Not said to be in a stand, it is taken as open-grown:
// more crown makes the pull harder that a tree leaning back needs.
func (r *reader) crown(t *object, diameter float64, conifer bool) float64 {
	stand := false
	if t.has(field.Grown) || !t.has(field.CrownFraction) { // a share that is given stands for itself
		stand = t.choice(field.Grown) == field.InForest
	}
	why := "crown_broadleaf"
	if conifer {
		why = "crown_conifer"
	}
	if stand {
		why += ".stand"
	}
	share := math.NaN()
	figure, err := rigging.CrownShare(conifer, stand, diameter)
	if err == nil {
		share = math.Ceil(figure.Value*1000-1e-9) / 1000 // as it is shown
	}
	return t.optional(field.CrownFraction, share, why, figure.Source)
}
