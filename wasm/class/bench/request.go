package bench

import (
	"pullline/wasm/draw"
	"pullline/wasm/request"
)

// An asked is what the page sends to have a bench shown.
//
//codec:request
type asked struct {
	request.Common
	request.Pointing
	Bench    string            `json:"bench"`  // its id; "" for the first
	Values   map[string]string `json:"values"` // as the answer before gave them, changed where an address says so
	Box      draw.Box          `json:"box"`    // of the picture
	CurveBox draw.Box          `json:"curve_box"`
	Set      string            `json:"set"` // the key of a value, and what was typed for it
	Text     string            `json:"text"`
	Do       string            `json:"do"` // an action
	// Guess holds the numbers back until there is an Answer, or until Shown
	// asks for them without one.
	Guess  bool   `json:"guess"`
	Answer string `json:"answer"`
	Shown  bool   `json:"shown"`
}

// parse reads a request. What is of a wrong type counts as left out.
func parse(raw []byte) (*asked, error) {
	var req asked
	err := req.Read(raw, req.Take)
	if req.Values == nil {
		req.Values = map[string]string{}
	}
	return &req, err
}
