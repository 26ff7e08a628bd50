package text

// What would make a plan right.
var changes = []row{
	{"change.planned", "Plan a tension of %s instead of %s."},
	{"change.limit", "Set what stops the {puller} of line %s at %s instead of %s."},
	{"change.device", "Limit the {puller} of line %s by a device set to %s."},
	{"change.hinge", "Cut the {hinge} %s thick on the left and %s on the right, instead of %s and %s."},
	{"change.face", "Open the {scarf} %s instead of %s."},
	{"change.tie", "Make line %s fast at %s on the stem instead of %s."},
	{"change.part", "Rig the tackle of line %s with %s parts instead of %s, with {block}s as strong."},
	{"change.piece", "Use %s in place of %s."},
	{"change.rating", "In place of %s use one for at least %s."},
	{"change.move_distance", "Move %s to %s from the stump instead of %s, if the ground and what holds it are as good there."},
	{"change.move_bearing", "Move %s to a bearing of %s instead of %s, if the ground and what holds it are as good there."},
	{"change.anchor", "At %s use something that holds at least %s instead of %s."},
}
