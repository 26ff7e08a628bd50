package rigging

// holdLines are the hold lines at one turn, gathered by the side they pull
// the stem to: the sums of their side and forward levers per newton in each.
type holdLines struct {
	leftSide, leftForward   float64 // lines that pull to the left; side lever > 0
	rightSide, rightForward float64 // lines that pull to the right; side lever > 0 as a size
}

// leastLever is the side lever (m) under which a hold line counts as
// pulling to neither side.
const leastLever = 1e-9

func (h *holdLines) add(st *LineState) {
	switch {
	case st.Side > leastLever:
		h.leftSide += st.Side
		h.leftForward += st.Forward
	case st.Side < -leastLever:
		h.rightSide -= st.Side
		h.rightForward += st.Forward
	}
}

// tension is what each engaged hold line carries so that no side moment is
// left on the hinge, given the side moment (N·m, positive left) of gravity
// and the pull lines. Those that pull to the same side share equally; a
// line cannot push, so the ones on the other side are slack.
func (h *holdLines) tension(side float64) (left, right float64) {
	switch {
	case side > 0 && h.rightSide > 0:
		return 0, side / h.rightSide
	case side < 0 && h.leftSide > 0:
		return -side / h.leftSide, 0
	}
	return 0, 0
}

// forward is the moment toward the lay that the hold lines add.
func (h *holdLines) forward(side float64) float64 {
	left, right := h.tension(side)
	return left*h.leftForward + right*h.rightForward
}

// side is the side moment the hold lines add.
func (h *holdLines) side(side float64) float64 {
	left, right := h.tension(side)
	return left*h.leftSide - right*h.rightSide
}

// on picks the tension of one hold line.
func (h *holdLines) on(st *LineState, side float64) float64 {
	left, right := h.tension(side)
	switch {
	case st.Side > leastLever:
		return left
	case st.Side < -leastLever:
		return right
	}
	return 0
}
