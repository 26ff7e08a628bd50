package plan

import "pullline/rigging"

// What is taken of an anchor that nothing is said of.
var (
	anchorForm, _    = rigging.FindTreeAnchorGuide("form_factor")
	anchorDensity, _ = rigging.FindTreeAnchorGuide("green_density")
	anchorFactor, _  = rigging.FindTreeAnchorGuide("factor")
	anyTurning, _    = rigging.FindTreeAnchorTurning("unknown_tree")
	logLoam, _       = rigging.BuriedLogSoil("loam")
	picketLoam, _    = rigging.PicketSoil("loam")
)
