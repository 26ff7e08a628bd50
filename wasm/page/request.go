package page

import (
	"pullline/wasm/draft"
	"pullline/wasm/request"
	"pullline/wasm/scene"
)

// asked is what the page sends to have a plan shown.
//
//codec:request
type asked struct {
	request.Common
	Boxes   scene.Boxes `json:"boxes" read:"boxes"`
	Letters bool        `json:"letters"` // the drawings have those of the formulas
	// Light asks for a view without form, working and standing notes: for
	// the frames of a drag. Report asks for the plan's report in the view.
	Light bool `json:"light"`
	// Sampled is the verdict with what is not known exactly counted in, "" before that
	// has been worked out for this plan. It only worsens the plan's own.
	Sampled string `json:"sampled"`
	// SafeHold is the number (kN) to hold the puller to that is safe then, 0 where there
	// is none.
	SafeHold float64 `json:"safe_hold_kN"`
	Report   bool    `json:"report"`
}

// parse reads a request. A field of a wrong type counts as left out,
// and so does a box of an impossible size.
func parse(raw []byte) (*asked, error) {
	var req asked
	if err := req.Read(raw, req.Take); err != nil {
		return nil, err
	}
	req.Boxes.Letters = req.Letters
	return &req, nil
}

func boxes(v any) scene.Boxes {
	return scene.Boxes{Side: request.Box(draft.Member(v, "side")), Plan: request.Box(draft.Member(v, "plan")), Curve: request.Box(draft.Member(v, "curve"))}
}
