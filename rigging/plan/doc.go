// Package plan is the one JSON format in and out: it reads a plan strictly,
// fills in stated defaults, has package rigging compute it, and writes the
// report with its problems, cautions, assumptions and workings.
//
// A problem is anything that keeps the plan from being judged: a value that
// is missing, of the wrong type, impossible or not finite, a field nobody
// knows (it may be a misspelt one, whose default would then be used
// silently), a missing link between tree and anchor. With any problem the
// verdict is unknown at best. A caution does not keep the plan from being
// judged.
package plan

// Version is the version of the format this package writes.
const Version = 1

// Limits on the size of a plan, against hostile files.
const (
	MaxBytes    = 256 << 10
	maxPoints   = 60
	maxLines    = 12
	maxStations = 16
	maxGear     = 150
	maxList     = 24 // stages, reductions, picket rows, bridle legs, nodes, ropes
	maxText     = 20000
)
