package judgement

import (
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// asked is what the page sends besides the plan and the settings.
//
//codec:request
type asked struct {
	request.Common
	Draws int `json:"draws" read:"draws"` // how sure: so many draws in all
	// Pieces are those of the crew's gear list.
	Pieces  any    `json:"pieces"`
	Sampled string `json:"sampled"` // the verdict with what is not known exactly counted in
	Point   string `json:"point"`   // that is to stand elsewhere
	// Side and Reach are what the crew can reach: keys of sides, and metres from the
	// stump; all that is drawn where they are empty.
	Side   string   `json:"side"`
	Reach  float64  `json:"reach"`
	Coarse bool     `json:"coarse"`
	Box    draw.Box `json:"box"` // of the map
}

func draws(v any) int {
	n, ok := draft.Number(v)
	if !ok || !(n >= 1 && n <= 20_000) {
		return 0
	}
	return int(n)
}

const (
	unread words.Text = "The page asked in a way that could not be read: %s"
	faulty words.Text = "Nothing was worked out: there is a fault in the program."
)

type written interface{ AppendJSON(*jsontext.Writer) }

// answer reads a request and has it answered; where it cannot be, none says why.
func answer(raw []byte, do func(*asked, *draft.Plan, *units.System) written, none func(message string) written) (out []byte) {
	var a asked
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(none(a.Settings.Locale().Say(faulty)))
		}
	}()
	if err := a.Read(raw, a.Take); err != nil {
		return jsontext.Encode(none(a.Settings.Locale().Say(unread, err.Error())))
	}
	d, u := a.Settings.Told(a.Plan)
	return jsontext.Encode(do(&a, d, u))
}

// change sets a value of the plan.
func change(path string, value any) parts.Change {
	if v, ok := value.(float64); ok {
		value = draft.FileNumber(v)
	}
	return parts.Change{Op: "set", At: draft.ParsePath(path), Value: value}
}

// verdictUse is a verdict with the use it comes from.
func verdictUse(verdict string, use plan.Num) string {
	if !use.Known() {
		return verdict
	}
	return verdict + ", " + units.Percent(float64(use))
}
