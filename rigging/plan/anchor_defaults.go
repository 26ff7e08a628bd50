package plan

import "pullline/rigging"

// What is taken of an anchor tree that nothing is said of.
var (
	anchorForm, _    = rigging.FindTreeAnchorGuide("form_factor")
	anchorDensity, _ = rigging.FindTreeAnchorGuide("green_density")
	anyTurning, _    = rigging.FindTreeAnchorTurning("unknown_tree")
)
