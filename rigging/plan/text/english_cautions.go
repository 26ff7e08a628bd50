package text

// Recoil is the caution about a line that parts.
const Recoil = "A loaded line that parts recoils along itself, about as far as it is long, and sweeps wide where it ran over a {block}. Rope gives no warning."

// The cautions, in the order in which package plan looks for them.
var cautions = []row{
	// The puller at most.
	{"caution.at_most_over", "At most, %s reaches %s of its limit if the {puller} keeps pulling. Friction is left out: a dry rope over a good {block} may have almost none."},
	{"caution.at_most_over.hold", "Hold the {puller} of line %s to %s and stop there. If it keeps pulling, %s reaches %s of its limit. Friction is left out: a dry rope over a good {block} may have almost none."},
	{"caution.at_most_over.hold_all", "Hold the {puller} of line %s to %s, those of the other {pull line}s in proportion to their hauls, and stop there. If they keep pulling, %s reaches %s of its limit. Friction is left out: a dry rope over a good {block} may have almost none."},
	{"caution.no_room", "No room: the planned haul is %s, and the {puller} must be held to %s. Make room with a smaller pull, stronger gear, a better angle, or a {puller} that cannot pull more."},

	// The tree and the cut.
	{"caution.steers_only", "The tree needs no pull: gravity takes it toward the {lay}. The line only steers, and the tree may go before anyone is ready."},
	{"caution.wind", "A wind of %s against the {lay} is included; gusts and wind shifts are not. Do not fell when wind could defeat the intended direction."},
	{"caution.cavity", "There is a cavity in the {hinge}. Decay seldom stops where it is seen: the {hinge}, the {stem} at the attachment and the roots may be weaker than computed. A competent person decides whether this tree may be pulled at all."},
	{"caution.species", "Species %s is not in the table. The figures in the plan are used."},
	{"caution.stem_sound", "Up to where the line is tied the {stem} counts as sound wood, but for what is entered. At planned tension it is bent to %s of what its wood is relied on to bear, most at %s up. A cavity, a fork, an old wound or decay there bears less: enter it."},
	{"caution.stem_defect.cavity", "There is a cavity in the {stem} at %s. Decay is seldom only where it is seen. A competent person decides whether this tree may be pulled at all."},
	{"caution.stem_defect.wound", "There is an old wound in the {stem} at %s. Decay behind it is seldom seen from outside. A competent person decides whether this tree may be pulled at all."},
	{"caution.stem_defect.fork", "The {stem} forks at %s. The line is taken as tied to one of two equal {stem}s. What holds the union together is not in it: bark grown in between holds nothing."},
	{"caution.splits", "The {stem} may split upward when it is pulled before the {back cut} is far enough. No more than a light pull until then, and the {saw operator} clear of it before the full pull."},
	{"caution.splits.species", "This species is known for splitting up the {stem}. Keep the {hinge} thin enough to bend and the pull light until the {back cut} is far enough."},
	{"caution.hinge_thin", "The {hinge} is %s thick at its thinner end: less than 10 % of the diameter."},
	{"caution.hinge_short", "The {hinge} is %s long: less than 80 % of the diameter. It steers less and holds less to the side."},
	{"caution.face_narrow", "The {scarf} opens less than 45°. It closes early, and the {hinge} breaks before the tree has committed."},
	{"caution.closes_first", "The {scarf} closes at %s and the {hinge} is taken as broken, but the tree only commits at %s. From there on only the lines steer it."},

	// The hinge to the side, and the hold lines.
	{"caution.side_hold.over", "The side moment on the {hinge} is %s of what its wood is relied on to hold: the tree may tear off to the side. Take it off with a second line to the other side or a new {lay}."},
	{"caution.side_hold.over_held", "The side moment on the {hinge} is %s of what its wood is relied on to hold: the tree may tear off to the side. The {hold line}s rigged do not take it off."},
	{"caution.side_hold.near", "The side moment on the {hinge} is %s of what its wood is relied on to hold. Take it off with a second line to the other side or a new {lay}."},
	{"caution.side_hold.near_held", "The side moment on the {hinge} is %s of what its wood is relied on to hold. The {hold line}s rigged do not take it off."},
	{"caution.hold_slack", "With the {hold line}s slack the side moment on the {hinge} is %s of what its wood is relied on to hold. They must be tight before the {back cut}."},
	{"caution.drift.left", "Before the {hinge} takes any of it, weight and lines together pull the tree %s left of the {lay}."},
	{"caution.drift.right", "Before the {hinge} takes any of it, weight and lines together pull the tree %s right of the {lay}."},
	{"caution.hold_stretches", "{Hold line} %s is made fast and has to stretch by %s before the tree goes: that alone puts %s on it. If it cannot, it stops or swings the tree. Have someone pay it out under control."},
	{"caution.hold_stretches.unknown", "{Hold line} %s is made fast and has to stretch by %s before the tree goes: what that puts on it is not known. If it cannot, it stops or swings the tree. Have someone pay it out under control."},
	{"caution.pay_out", "{Hold line} %s gets longer by up to %s as the tree turns. Pay it out, or it comes tight and stops or swings the tree."},

	// The lines.
	{"caution.rope_twice", "%s breaks at %s. The pulling rule asks for at least twice the greatest pull the machine can put on it: %s."},
	{"caution.rope_twice.unknown", "The breaking load of %s is not given, so the pulling rule could not be checked: it should break at no less than twice the greatest pull, %s."},
	{"caution.snatch", "If the machine on line %s takes up slack at %s, the tension rises by %s above what the line carries. From planned tension %s is over at %s already. Take up slack slowly and drive off under load."},
	{"caution.snatch.unknown", "What a machine that takes up slack puts on line %s is not known: the stiffness of its rope is not given. Take up slack slowly and drive off under load."},
	{"caution.termination", "Say how the ends of %s are made: a knot can take half the strength, and nothing is taken off for one. Give 1 if the tag covers the rope with its ends."},
	{"caution.attachment_high", "The line is tied above two thirds of the height, where the {stem} is thin. Attach only where it is sound and stiff."},
	{"caution.line_steep", "The line runs %s below level: much of its pull only presses the {stem} down. Go farther out, or lower on the {stem}."},
	{"caution.sag", "Line %s weighs more than a twentieth of its tension, so it sags and its ends pull at angles other than computed. The statics leave that out."},

	// The points.
	{"caution.unused", "No line uses point %s."},
	{"caution.anchor_estimate", "The limit of %s is an estimate until a competent person has judged the anchor in place."},
	{"caution.log_slender", "The {buried log} at %s is more than 5 times as long as thick: it bends before the ground gives."},
	{"caution.sling_low", "The {strop} at %s is less than 1 m up and is counted as 1 m. The overturning figures come from trees pulled high on the {stem}; this low, the roots shear and slide."},
	{"caution.stump", "The stump at %s is counted as the tree it was. No table here covers stumps: age, rot and loosened roots weaken it."},
	{"caution.log_below_rope", "The {buried log} at %s lets go at %s by the table, before its rope breaks at %s. The manual sizes the log for the breaking load of the rope."},
	{"caution.bight", "Nobody stands inside the angle of the rope at %s, or in line with it: if the {block} or its anchor gives way, it flies there."},
	{"caution.pulls_cancel", "The pulls of the lines at %s partly cancel. If one of them is slack, the anchor carries up to %s: it is judged by that."},
	{"caution.bridle_slack", "The leg of the shared anchor %s to %s is slack: it would have to push, so the other legs carry everything."},
	{"caution.bridle_moves", "The pull on the shared anchor %s is %s off what its legs can hold in place: the junction moves until they are in line. The legs are computed for the full pull."},
	{"caution.within_reach", "Point %s, where the line ends, is %s from the tree, which is %s high. A tree that goes off line reaches it."},
	{"caution.two_lengths", "Point %s, where the line ends, is within two tree lengths (%s). Only those needed for the pull work there, with the {saw operator}'s permission; everyone else stays outside. Or redirect the line."},

	// The gear and the stems.
	{"caution.cleared.retired", "%s is retired but cleared for use. Reason given: %s"},
	{"caution.cleared.past", "%s was due for inspection on %s but is cleared for use. Reason given: %s"},
	{"caution.cleared.retired_past", "%s is retired and was due for inspection on %s, but is cleared for use. Reason given: %s"},
	{"caution.fork_union", "This {stem} shares its base with others. The union may split or tear off before the {hinge} has done its work, and included bark holds nothing. A competent person judges the union first; if it cannot be trusted, bind the {stem}s together or take the tree down another way."},
	{"caution.fork_changed", "When this {stem} is pulled, others are already off: what leaned on them or was sheltered by them leans and sways differently, the stump is partly cut away, and the union is weaker. Measure {lean}, {hinge} and anchor again after every {stem}."},
	{"caution.fork_standing", "Other {stem}s still stand while this one is pulled. The rope and the {crown} can catch on them, and they may be pulled along or spring back. Stand clear of all of them."},

	// The briefing, and what came of the pull.
	{"caution.stop_above_limit", "The plan says to stop at a haul of %s: more than every piece and point can carry, %s."},
	{"caution.stop_below_need", "The plan says to stop at a haul of %s: less than the pull through the fall takes at the {puller}, %s. The crew would stop with the tree cut but still standing."},
	{"caution.stop_rope_short", "The plan says to stop after %s of rope: less than is hauled until the tree falls by itself, %s."},
	{"caution.measured_more", "The measured pull was %s of the planned one: the tree took more than planned. Inspect every piece before it is used again, and find out why before the next pull."},

	{"caution.no_escape", "Both ways out for the {saw operator}, 45° back to either side, are blocked. Clear one, or choose and clear another way, before anybody cuts."},
	{"caution.escape_blocked", "The way out for the {saw operator} at a bearing of %s is blocked by %s. Clear it, or use the other side only."},

	// For every plan.
	{"caution.plus_minus", "Loads and uses are those of the values as typed, without their ±. How sure they are is said apart."},
	{"caution.competent", "These numbers are estimates. A competent person judges the anchor and the tree and gives the go-ahead; local codes and licensed practice come first."},
	{"caution.distance", "Everyone not needed for the pull stays two tree lengths away, out of the bight of the line and out of line with its ends."},
	{"caution.recoil", Recoil},
	{"caution.power_lines", "Look for {power lines} within reach of the tree, the line and the machine. If there are any, stop and ask the network operator."},
	{"caution.signals", "One person gives the signals, the {saw operator} is in charge, and any unclear signal means stop."},
	{"caution.statics", "Left out: shock when a line snatches, a line that slips on the {stem}, wood that splits along the grain, roots that lift, branches that catch, and decay other than what is entered."},
}

// What is out of the ordinary: cautions that are also reasons for the verdict.
var unusual = []row{
	{"caution.design_factor", "The design factor of %s is %s: out of the ordinary below 2."},
	{"caution.hinge_thick", "The {hinge} is %s thick at its thicker end: more than 15 % of the diameter. It takes much more pull, and the {stem} may split upward before it bends."},
	{"caution.hinge_very_thin", "The {hinge} is %s thick at its thinner end: less than 5 % of the diameter. It may break before it has steered the tree."},
	{"caution.lean_great", "The tree leans %s: out of the ordinary above 20°."},
	{"caution.slenderness", "The tree is %s times as high as it is thick: out of the ordinary below 8 and above 150. Check both numbers."},
	{"caution.cavity_large", "The cavity takes more than a third of the {hinge}'s length: what is left may not steer the tree."},
	{"caution.side_lean", "The tree leans %s to the side and no {hold line} takes it: out of the ordinary above 5°."},
	{"caution.off_lay", "The lines together pull %s off the {lay}: out of the ordinary above 30°."},
	{"caution.tie_in_top", "The line is tied in the top 15 % of the tree, where the {stem} is thin."},
}
