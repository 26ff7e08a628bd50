package text

// Why a value was taken that the plan leaves out.
var assumed = []row{
	{"assumed.version", "the plan names no version"},
	{"assumed.allowance", "1.5 times the greatest pull needed"},

	{"assumed.wind", "a gentle breeze against the {lay}, Beaufort 3"},
	{"assumed.species", "no species given: the heaviest of the unknown kinds"},
	{"assumed.figure", "figure for %s"},
	{"assumed.grown_open", "not stated as grown in a stand: an open-grown {crown} is heavier, and the pull is sized for that"},
	{"assumed.crown_broadleaf", "the {crown} of a broadleaf of this diameter grown in the open"},
	{"assumed.crown_broadleaf.stand", "the {crown} of a broadleaf of this diameter grown in a stand"},
	{"assumed.crown_conifer", "the {crown} of a conifer of this diameter grown in the open"},
	{"assumed.crown_conifer.stand", "the {crown} of a conifer of this diameter grown in a stand"},
	{"assumed.crown_centre", "0.65 of the height"},
	{"assumed.crown_even", "the {crown} hangs evenly round the {stem}"},
	{"assumed.crown_area", "0.14 × height²: an ellipse 0.7 of the height deep and a quarter of it wide"},
	{"assumed.drag", "above the wind tunnel's 0.47, since the {crown} folds less in light wind"},
	{"assumed.defect_cavity", "what is wrong with the {stem} there is a cavity"},
	{"assumed.cavity", "the {hinge} is sound wood"},

	{"assumed.stump", "a usual stump"},
	{"assumed.face_opening", "an open {scarf}: a wider one keeps the {hinge} working longer, and the pull is sized for that"},
	{"assumed.hinge_length", "%s of the diameter"},
	{"assumed.hinge_thickness", "%s of the diameter"},

	{"assumed.level_point", "level with the base of the tree"},
	{"assumed.level_machine", "level ground under the machine"},
	{"assumed.anchor_form", "the low end of forest {stem}s"},
	{"assumed.anchor_density", "light wood: less {stem} holds less"},
	{"assumed.anchor_turning", "the lowest of four conifers winched over"},
	{"assumed.anchor_factor", "a third of what would pull it over"},
	{"assumed.stump_factor", "a third of what would have pulled the tree over; no table here covers stumps"},
	{"assumed.log_slot", "1 ft for the rope slot"},
	{"assumed.log_loam", "loam, undisturbed and dry"},
	{"assumed.picket_loam", "undisturbed loam"},
	{"assumed.ground_factor", "half the load at which it lets go by the table"},

	{"assumed.pulls", "a line pulls unless it is said to hold"},
	{"assumed.sheave", "field rule: a tenth lost at each sheave"},
	{"assumed.haul_from_fixed", "the hauling part leaves the fixed {block}, which loads the anchor most"},
	{"assumed.haul_back", "where the hauling part leads is not given: led back along the line, the worst direction for the anchor"},
	{"assumed.stiffness", "from the breaking load, high on purpose: a stiffer line loads up more as the tree turns"},
	{"assumed.choked", "a {strop} on a {stem} is taken as choked"},
	{"assumed.straight", "a straight pull on the piece"},
	{"assumed.no_reduction", "no knot or termination is given: nothing is taken off for it"},
}
