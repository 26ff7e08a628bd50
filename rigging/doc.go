// Package rigging computes the statics of pulling a tree over with a line:
// the pull a leaning tree needs through its fall, what every leg of rope,
// block, tackle and anchor carries, and how each stands against its limit.
//
// # Axes
//
// x points along the lay (the intended fall direction), y to the left, z up.
// The hinge axis lies along y; places on the tree and on the ground are
// given from the middle of the hinge. A bearing is measured clockwise seen
// from above, from the lay: 0 straight ahead, a quarter turn to the right.
//
// # Units
//
// SI throughout; see the unit constants.
//
// # What the rule is where there is doubt
//
// Err toward the reading that protects the crew: a quantity that raises the
// pull needed is taken high when the pull is sized, and low when something
// is relied on to hold. Nothing missing or not finite is ever judged within
// its limit.
//
// # What is left out
//
// Everything is static. Shock from a line that snatches, a stem that slips
// or splits, a root plate that lifts, decay other than a cavity in the
// hinge, branches that catch, and the spread of living wood are not in it.
package rigging
