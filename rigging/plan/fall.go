package plan

import (
	"errors"

	"pullline/rigging"
)

// ErrNotSolved says that there is no fall because the plan's pull could not
// be worked out; the report's problems say why.
var ErrNotSolved = errors.New("the pull could not be worked out from what is given")

// Fall computes the report of a plan, without the working, and lets its tree fall
// with the lines coming in at no more than a speed (m/s, above 0). The motion is
// nil with an error: ErrNotSolved or what rigging.Setup.Fall says. Its lines are
// those of the report.
func Fall(tree any, size int, speed float64) (Report, *rigging.Motion, error) {
	r, e := workOut(&reader{}, tree, size, ToReport)
	if e == nil || !e.solved {
		return r.report(e), nil, ErrNotSolved
	}
	m, err := e.m.setup.Fall(e.pull, speed)
	return r.report(e), m, err
}
