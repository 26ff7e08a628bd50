package fall

import (
	"math"

	"pullline/wasm/draw"
	"pullline/wasm/request"
)

// An asked is what the page sends to have the fall of a plan shown at one
// turn: one of Turn, Time and a place of the handle in the picture.
//
//codec:request
type asked struct {
	request.Common
	Box       draw.Box `json:"box"`        // of the picture
	CurveBox  draw.Box `json:"curve_box"`  // of the pull over the turn
	CourseBox draw.Box `json:"course_box"` // of the turn over time
	Turn      float64  `json:"turn_deg"`
	Time      float64  `json:"time_s"` // NaN where not asked for
	X         float64  `json:"x"`      // NaN where not asked for
	Y         float64  `json:"y"`
	Step      int      `json:"step"` // presses of an arrow key on from Turn, with Shift Fine ones
	Fine      bool     `json:"fine"`
	Speed     string   `json:"speed"` // at which the line comes in, as typed; "" for the usual
	// Light asks for pictures and numbers of this turn only.
	Light bool `json:"light"`
}

// parse reads a request. What is of a wrong type counts as left out.
func parse(raw []byte) (*asked, error) {
	nan := math.NaN()
	req := asked{Time: nan, X: nan, Y: nan}
	err := req.Read(raw, req.Take)
	return &req, err
}
