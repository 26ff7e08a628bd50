package rigging

// Moments are what turns the tree about its hinge at one turn, in N·m, by
// what causes them. Forward is toward the lay, side to the left; the levers
// (m) are those of all pull lines by their shares, per newton of tension.
type Moments struct {
	Hinge, Wind        float64 // against the lay, never below 0
	Weight, WeightSide float64
	Hold, HoldSide     float64 // of the hold lines
	Lever, SideLever   float64
	Forward, Left      float64 // of weight and all lines together, before hinge and wind
}

// MomentsAt gives the moments at a turn (rad) with the pull lines at a common
// tension (N); p is what Solve gave. The hinge bends until the face closes.
// The error is a *SetupLineError.
func (s Setup) MomentsAt(p *Pull, turn, tension float64) (Moments, error) {
	f, err := s.laidFall(p.Body)
	if err != nil {
		return Moments{}, err
	}
	b, err := f.at(turn, turn <= s.FaceOpening)
	if err != nil {
		return Moments{}, err
	}
	m := Moments{Weight: b.weightForward, WeightSide: b.weightSide, Wind: b.wind, Lever: b.lever, SideLever: b.sideLever}
	if turn <= s.FaceOpening {
		m.Hinge = p.HingeMoment
	}
	side := b.sideBeforeHold(tension)
	m.Hold, m.HoldSide = b.holds.forward(side), b.holds.side(side)
	m.Forward = m.Weight + tension*m.Lever + m.Hold
	m.Left = side + m.HoldSide
	return m, nil
}
