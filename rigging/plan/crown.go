package plan

import (
	"math"

	"pullline/rigging"
)

// crown reads the crown's share of the stem's mass, or takes what is usual
// for where the tree grew. Not said to be in a stand, it is taken as open-grown:
// more crown makes the pull harder that a tree leaning back needs.
func (r *reader) crown(t *object, diameter float64, conifer bool) float64 {
	grown := t.choice("grown", "forest", "open")
	if !t.has("grown") && !t.has("crown_fraction") {
		r.assume(t.at("grown"), "open", "grown_open", "", "")
	}
	why := "crown_broadleaf"
	if conifer {
		why = "crown_conifer"
	}
	if grown == "forest" {
		why += ".stand"
	}
	share := math.NaN()
	figure, err := rigging.CrownShare(conifer, grown == "forest", diameter)
	if err == nil {
		share = math.Ceil(figure.Value*1000-1e-9) / 1000 // as it is shown
	}
	return t.optional("crown_fraction", Range{Min: 0, Max: 3}, share, why, figure.Source.Text, string(figure.Source.Basis))
}
