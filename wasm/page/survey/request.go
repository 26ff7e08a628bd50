package survey

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/request"
)

// An asked is what the page sends to have something measured.
//
//codec:request
type asked struct {
	request.Common
	Box    draw.Box          `json:"box"` // of the picture that shows how to stand
	Field  string            `json:"field"`
	Method string            `json:"method"`               // "": the one kept in the plan, or the first
	Texts  map[string]string `json:"texts"`                // by reading, as typed; nil: those kept in the plan
	PM     map[string]string `json:"plus_minus"`           // ± by reading, as typed
	Sights map[string]sight  `json:"sights" read:"sights"` // readings taken with the phone; they replace the text
	Photos []photoMarks      `json:"photos" read:"photos"` // up to two; marks in px of the picture
	Photo  int               `json:"photo"`                // which of them is on the screen
	Use    string            `json:"use"`                  // which result to use; "" for none
	Live   *sight            `json:"live" read:"live"`     // only say what the phone shows now
}

// A sight is how a phone is held and its attitudes when they were taken.
//
//codec:type { hold: string, taken: [beta: number, gamma: number][] }
type sight struct {
	hold  rigging.PhoneSight
	taken []rigging.Attitude
}

// photoMarks are a picture's size and the places marked in it.
//
//codec:type { w: number, h: number, marks: { [key: string]: [x: number, y: number] } }
type photoMarks struct {
	w, h  float64
	marks map[string]rigging.Pixel
}

// mostSights bounds the sights of one reading.
const mostSights = 60

// parse reads a request. What is of a wrong type counts as left out.
func parse(raw []byte) (*asked, error) {
	var req asked
	err := req.Read(raw, req.Take)
	if req.Photo != 1 {
		req.Photo = 0
	}
	return &req, err
}

func sights(v any) map[string]sight {
	m, _ := v.(map[string]any)
	out := make(map[string]sight, len(m))
	for key, s := range m {
		if s := asSight(s); len(s.taken) > 0 {
			out[key] = s
		}
	}
	return out
}

func photos(v any) (out []photoMarks) {
	list, _ := v.([]any)
	for _, item := range list[:min(len(list), 2)] {
		out = append(out, asPhoto(item))
	}
	return out
}

func live(v any) *sight {
	if s := asSight(v); len(s.taken) > 0 {
		return &s
	}
	return nil
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
