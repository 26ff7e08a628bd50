package page

import (
	"pullline/wasm/draft"
	"pullline/wasm/request"
	"pullline/wasm/scene"
)

// asked is what the page sends to have a plan shown.
type asked struct {
	Plan     any // as package jsontext reads it; not to be changed
	size     int // bytes of the plan's text
	Settings request.Settings
	Boxes    scene.Boxes
	// Light asks for a view without form, working and standing notes: for
	// the frames of a drag. Report asks for the plan's report in the view.
	Light  bool
	Report bool
}

// parse reads a request. A field of a wrong type counts as left out,
// and so does a box of an impossible size.
func parse(raw []byte) (*asked, error) {
	var req asked
	err := request.Members(raw, &req.Plan, &req.size, &req.Settings, func(key string, v any) {
		switch key {
		case "boxes":
			req.Boxes.Side, req.Boxes.Plan, req.Boxes.Curve = request.Box(draft.Member(v, "side")), request.Box(draft.Member(v, "plan")), request.Box(draft.Member(v, "curve"))
		case "light":
			req.Light = v == true
		case "report":
			req.Report = v == true
		case "letters":
			req.Boxes.Letters = v == true
		}
	})
	if err != nil {
		return nil, err
	}
	return &req, nil
}
