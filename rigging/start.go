package rigging

import "math"

// Start is the tension (N) of a line with share 1 that just sets the tree
// going: Pull.Start without following the fall any further. The errors are
// ErrNoPullLine, *SetupLineError, and *CannotPullError where no tension would.
func (s Setup) Start() (float64, error) {
	f, err := s.laidFall(s.Tree.Body(s.Stump))
	if err != nil {
		return 0, err
	}
	b, err := f.at(0, true)
	if err != nil {
		return 0, err
	}
	for _, l := range s.Lines {
		if !l.Hold {
			if need := b.need(); !math.IsInf(need, 1) {
				return need, nil
			}
			return 0, &CannotPullError{}
		}
	}
	return 0, ErrNoPullLine
}
