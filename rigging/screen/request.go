package screen

import (
	"math"

	"pullline/rigging/jsontext"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Request is what the page sends with every call.
type Request struct {
	Plan     any // as package jsontext reads it; not to be changed
	size     int // bytes of the plan's text
	Settings Settings
	Boxes    Boxes
	// Light asks for a view without form, working and standing notes: for
	// the frames of a drag. Report asks for the plan's report in the view.
	// Letters asks for the letters of the formulas in the drawings.
	Light   bool
	Report  bool
	Letters bool

	// For edit: the field's path and the text typed into it.
	Path string
	Text string
	// For act: an Action's Do and Path as the form gave them.
	Do string
	// For drag.
	Pointing
}

// Pointing is a handle, and where it is dragged to in the drawing's own
// pixels; or, from the keyboard, how many steps right and up.
type Pointing struct {
	Handle       string
	X, Y         float64
	StepX, StepY int
	Fine         bool
}

// take reads one of its members.
func (p *Pointing) take(key string, v any) {
	switch key {
	case "handle":
		p.Handle = asText(v)
	case "x":
		p.X, _ = draft.Number(v)
	case "y":
		p.Y, _ = draft.Number(v)
	case "step_x":
		p.StepX = asSteps(v)
	case "step_y":
		p.StepY = asSteps(v)
	case "fine":
		p.Fine = v == true
	}
}

// Settings are the user's choices that do not belong to the plan.
type Settings struct {
	// Units are "kN", "tf" or "us"; empty, the region's own; anything else kN.
	Units string `json:"units"`
	// Words are those of the region "nz", "uk" or "us"; anything else is
	// guessed from Language, as a browser names it ("en-GB").
	Words    string `json:"words"`
	Language string `json:"language"`
}

// Boxes are the sizes in CSS pixels of the drawings; a drawing whose box is
// empty is not made.
type Boxes struct{ Side, Plan, Curve draw.Box }

// largestBox bounds a drawing's sides, CSS pixels: beyond it a size is a
// mistake.
const largestBox = 20000

// parseRequest reads a request. A field of a wrong type counts as left out,
// and so does a box of an impossible size.
func parseRequest(raw []byte) (*Request, error) {
	var req Request
	err := parseMembers(raw, &req.Plan, &req.size, &req.Settings, func(key string, v any) {
		switch key {
		case "boxes":
			req.Boxes = Boxes{Side: asBox(member(v, "side")), Plan: asBox(member(v, "plan")), Curve: asBox(member(v, "curve"))}
		case "light":
			req.Light = v == true
		case "report":
			req.Report = v == true
		case "letters":
			req.Letters = v == true
		case "path":
			req.Path = asText(v)
		case "text":
			req.Text = asText(v)
		case "do":
			req.Do = asText(v)
		default:
			req.take(key, v)
		}
	})
	if err != nil {
		return nil, err
	}
	return &req, nil
}

// parseMembers reads what every request has: the plan, the bytes of its text
// and the settings. The others are handed on.
func parseMembers(raw []byte, plan *any, size *int, settings *Settings, other func(key string, v any)) error {
	return jsontext.Members(raw, func(key string, v any, n int) {
		switch key {
		case "plan":
			*plan, *size = v, n
		case "settings":
			*settings = Settings{Units: asText(member(v, "units")), Words: asText(member(v, "words")), Language: asText(member(v, "language"))}
		default:
			other(key, v)
		}
	})
}

// asPair reads a list of two numbers.
func asPair(v any) (a, b float64, ok bool) {
	pair, _ := v.([]any)
	if len(pair) != 2 {
		return 0, 0, false
	}
	a, okA := draft.Number(pair[0])
	b, okB := draft.Number(pair[1])
	return a, b, okA && okB
}

// member is a value's member of that name, nil if there is none.
func member(v any, key string) any {
	m, _ := v.(map[string]any)
	return m[key]
}

func asText(v any) string {
	s, _ := v.(string)
	return s
}

// mostSteps bounds the steps of one key press.
const mostSteps = 1000

func asSteps(v any) int {
	f, ok := draft.Number(v)
	if !ok || f != math.Trunc(f) || math.Abs(f) > mostSteps {
		return 0
	}
	return int(f)
}

func asBox(v any) draw.Box {
	var b draw.Box
	b.W, _ = draft.Number(member(v, "w"))
	b.H, _ = draft.Number(member(v, "h"))
	if !(b.W > 0 && b.W <= largestBox && b.H > 0 && b.H <= largestBox) {
		return draw.Box{}
	}
	frame, _ := member(v, "frame").([]any)
	for _, item := range frame {
		f, ok := draft.Number(item)
		if !ok {
			b.Frame = nil
			break
		}
		b.Frame = append(b.Frame, f)
	}
	return b
}

// told is the plan of the request, told in the words and units its settings
// ask for.
func (req *Request) told() (*draft.Plan, *units.System) {
	d := draft.Of(req.Plan)
	d.Letters = req.Letters
	d.Region = req.Settings.region()
	return d, req.Settings.units()
}

// region is the one whose words the settings ask for.
func (s Settings) region() words.Region { return words.RegionOf(s.Words, s.Language) }

// units are those the settings ask for; where they ask for none, the region's.
func (s Settings) units() *units.System {
	if s.Units == "" {
		return s.region().Units()
	}
	return units.Of(s.Units)
}
