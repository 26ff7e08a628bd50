package survey

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/request"
)

// A asked is what the page sends to have something measured.
type asked struct {
	Plan     any
	size     int
	Settings request.Settings
	Box      draw.Box // of the picture that shows how to stand
	Field    string
	Method   string            // "": the one kept in the plan, or the first
	Texts    map[string]string // by reading, as typed; nil: those kept in the plan
	PM       map[string]string // ± by reading, as typed
	Sights   map[string]sight  // readings taken with the phone; they replace the text
	Photos   []photoMarks      // up to two; marks in px of the picture
	Photo    int               // which of them is on the screen
	Use      string            // which result to use; "" for none
	Live     *sight            // only say what the phone shows now
}

// A sight is how a phone is held and its attitudes when they were taken.
type sight struct {
	hold  rigging.PhoneSight
	taken []rigging.Attitude
}

// photoMarks are a picture's size and the places marked in it.
type photoMarks struct {
	w, h  float64
	marks map[string]rigging.Pixel
}

// mostSights bounds the sights of one reading.
const mostSights = 60

// parse reads a request. What is of a wrong type counts as left out.
func parse(raw []byte) (*asked, error) {
	var req asked
	err := request.Members(raw, &req.Plan, &req.size, &req.Settings, func(key string, v any) {
		switch key {
		case "box":
			req.Box = request.Box(v)
		case "field":
			req.Field = request.Text(v)
		case "method":
			req.Method = request.Text(v)
		case "texts":
			req.Texts = request.Texts(v)
		case "plus_minus":
			req.PM = request.Texts(v)
		case "sights":
			m, _ := v.(map[string]any)
			req.Sights = make(map[string]sight, len(m))
			for key, s := range m {
				if taken := asSight(s); len(taken.taken) > 0 {
					req.Sights[key] = taken
				}
			}
		case "photos":
			list, _ := v.([]any)
			for _, item := range list[:min(len(list), 2)] {
				req.Photos = append(req.Photos, asPhoto(item))
			}
		case "photo":
			if n, ok := draft.Number(v); ok && n == 1 {
				req.Photo = 1
			}
		case "use":
			req.Use = request.Text(v)
		case "live":
			if s := asSight(v); len(s.taken) > 0 {
				req.Live = &s
			}
		}
	})
	return &req, err
}

func asSight(v any) (s sight) {
	s.hold = rigging.PhoneSight(request.Text(draft.Member(v, "hold")))
	list, _ := draft.Member(v, "taken").([]any)
	for _, item := range list[:min(len(list), mostSights)] {
		if beta, gamma, ok := request.Pair(item); ok {
			s.taken = append(s.taken, rigging.Attitude{Beta: beta * rigging.Deg, Gamma: gamma * rigging.Deg})
		}
	}
	return s
}

func asPhoto(v any) photoMarks {
	var p photoMarks
	p.w, _ = draft.Number(draft.Member(v, "w"))
	p.h, _ = draft.Number(draft.Member(v, "h"))
	m, _ := draft.Member(v, "marks").(map[string]any)
	p.marks = make(map[string]rigging.Pixel, len(m))
	for key, item := range m {
		if x, y, ok := request.Pair(item); ok && math.Abs(x) < 1e6 && math.Abs(y) < 1e6 {
			p.marks[key] = rigging.Pixel{X: x, Y: y}
		}
	}
	return p
}
