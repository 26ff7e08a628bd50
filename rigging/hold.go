package rigging

import "math"

// holdLines are the hold lines at one turn, gathered by the side they pull
// the stem to: the sums of their side and forward levers per newton in each.
type holdLines struct {
	leftSide, leftForward   float64 // lines that pull to the left; side lever > 0
	rightSide, rightForward float64 // lines that pull to the right; side lever > 0 as a size
}

// leastLever is the side lever of a hold line, as a part of how far from the
// hinge it is tied, under which it counts as pulling to neither side: as its
// lever goes to nothing the tension asked of it would grow without bound.
const leastLever = 0.05

func (h *holdLines) add(st *LineState) {
	switch st.pullsTo() {
	case 1:
		h.leftSide += st.Side
		h.leftForward += st.Forward
	case -1:
		h.rightSide -= st.Side
		h.rightForward += st.Forward
	}
}

// pullsTo is the side a hold line pulls the stem to, 1 left and −1 right, or
// 0 where its lever is too small to count.
func (st *LineState) pullsTo() int {
	switch least := leastLever * st.Arm; {
	case st.Side == 0 || math.Abs(st.Side) < least:
		return 0
	case st.Side > 0:
		return 1
	}
	return -1
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

// left is the side moment that the hold lines leave on the hinge: none where one
// is engaged, and nothing of the rounding of their sum either.
func (h *holdLines) left(side float64) float64 {
	if left, right := h.tension(side); left > 0 || right > 0 {
		return 0
	}
	return side
}

// on picks the tension of one hold line.
func (h *holdLines) on(st *LineState, side float64) float64 {
	left, right := h.tension(side)
	switch st.pullsTo() {
	case 1:
		return left
	case -1:
		return right
	}
	return 0
}
