package text

// The pull as it is done, step by step.
var order = []row{
	{"order.pretension", "Pre-tension: take up the line to %s, %s at the {puller}. That holds weight and wind and does not yet bend the {hinge}. Stop and look along every rope, {block}, {strop} and anchor."},
	{"order.pretension.hand", "Pre-tension: take up the slack by hand. The tree does not lean on the line. Stop and look along every rope, {block}, {strop} and anchor."},
	{"order.face", "Cut the {scarf}. The pull stays as it is."},
	{"order.back_cut", "{Back cut}: to the {hinge}, with no more pull than that, or the {stem} may split upward."},
	{"order.back_cut.hold", "{Back cut}: {hold line}s tight first. Then to the {hinge}, with no more pull than that, or the {stem} may split upward."},
	{"order.pull", "Pull, with the {saw operator} clear: the tree starts at %s, %s at the {puller}. If it has not moved by then, stop and look. The most it takes is %s, at a turn of %s; from %s on it falls by itself."},
	{"order.most", "Never above %s, %s at the {puller}: stop there, and find out why."},
}
