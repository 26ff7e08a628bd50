package plan

// HoldSurely puts in the place of the haul to hold the puller to the one (kN) that is
// safe with what is not known exactly counted in, where that is less; 0 where none
// is. There is no room where it is less than the haul planned. It is for telling a
// report: its verdict and working stay those of the plan as it is given.
func (rep *Report) HoldSurely(kN float64) {
	computed := rep.Pull.HoldPullTo
	if !computed.Known() || kN >= float64(computed) {
		return
	}
	rep.Pull.HoldPullTo, rep.Pull.ComputedHold, rep.Brief.StopHaulKN = Num(kN), computed, Num(kN)
	for i := range rep.Lines {
		if l := &rep.Lines[i]; l.Role != "hold" {
			rep.NoRoom = rep.NoRoom || !(kN >= float64(l.HaulKN))
			break
		}
	}
}
