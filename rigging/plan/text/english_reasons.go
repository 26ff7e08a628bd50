package text

// The reasons for a verdict, besides problems and what is out of the ordinary.
var reasons = []row{
	{"why.not_judged", "Only the pull was worked out. Nothing was judged."},
	{"why.nothing_judged", "There is nothing here to judge yet."},
	{"why.piece_over", "%s: %s of %s (%s), over its limit."},
	{"why.piece_near", "%s: %s of %s (%s), near its limit."},
	{"why.piece_unknown", "%s cannot be judged."},
	{"why.puller_over", "%s: a haul of %s of %s (%s), over its limit."},
	{"why.puller_near", "%s: a haul of %s of %s (%s), near its limit."},
	{"why.puller_unknown", "%s cannot be judged."},
	{"why.point_over", "%s: %s of %s (%s), over what holds it."},
	{"why.point_near", "%s: %s of %s (%s), near what holds it."},
	{"why.point_unknown", "%s cannot be judged."},
	{"why.side_hold", "The side moment on the {hinge} is %s of what its wood is relied on to hold."},
	{"why.side_hold.unknown", "What the {hinge} holds to the side is not known."},
	{"why.closing.over", "The {scarf} closes and the {hinge} breaks at %s, before the tree falls by itself at %s."},
	{"why.closing.near", "The {scarf} closes at %s, soon after the tree falls by itself at %s."},
	{"why.puller_where_it_lands", "The tree lands where the {puller} of line %s stands: %s is %s from the stump and within 45° of the {lay}, and the tree reaches %s."},
	{"why.puller_in_reach", "The {puller} of line %s stands at %s, %s from the stump. A tree that goes astray reaches %s."},
	{"why.at_most_over", "If the {puller}s pull all they can, %s reaches %s of its limit."},
	{"why.at_most_unknown", "If the {puller}s pull all they can, it is not known what %s carries or whether it holds."},
	{"why.no_room", "No room: the haul planned is %s, and the {puller} of line %s may be held to no more than %s."},
	{"why.pull_too_weak", "The {puller} of line %s makes at most %s, and the haul planned is %s."},
	{"why.watched", "Only a person watching stops the {puller} of line %s. If nobody does, the worst piece or point reaches %s of its limit."},
	{"why.watched.unknown", "Only a person watching stops the {puller} of line %s. What it puts on the gear if nobody does is not known."},
}
