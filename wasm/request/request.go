package request

import (
	"math"

	"pullline/rigging/jsontext"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Texts reads an object of strings; nil where it is none.
func Texts(v any) map[string]string {
	m, ok := v.(map[string]any)
	if !ok {
		return nil
	}
	out := make(map[string]string, len(m))
	for key, text := range m {
		out[key] = Text(text)
	}
	return out
}

// TextOrNumber is a text, or the digits of a number; "" for all else.
func TextOrNumber(v any) string {
	if n, ok := v.(jsontext.Number); ok {
		return n.String()
	}
	return Text(v)
}

// Common is what every request has.
//
//codec:request
type Common struct {
	Plan     any      `json:"plan"` // as package jsontext reads it; not to be changed
	Size     int      `json:"-"`    // bytes of the plan's text
	Settings Settings `json:"settings"`
}

// Read reads a request, each member by take.
func (c *Common) Read(raw []byte, take func(key string, v any)) error {
	return jsontext.Members(raw, func(key string, v any, size int) {
		if key == "plan" {
			c.Size = size
		}
		take(key, v)
	})
}

// Pointing is a handle, and where it is dragged to in the drawing's own
// pixels; or, from the keyboard, how many steps right and up.
//
//codec:request
type Pointing struct {
	Handle string  `json:"handle"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	StepX  int     `json:"step_x"`
	StepY  int     `json:"step_y"`
	Fine   bool    `json:"fine"`
}

// Settings are the user's choices that do not belong to the plan.
//
//codec:request
type Settings struct {
	// Units are "kN", "tf" or "us"; empty, the region's own; anything else kN.
	Units string `json:"units"`
	// Words are those of the region "nz", "uk" or "us"; anything else is
	// guessed from Language.
	Words string `json:"words"`
	// Language is what everything is said in, as a browser names it ("en-GB");
	// where there is no such language, English.
	Language string `json:"language"`
}

// largestBox bounds a drawing's sides, CSS pixels: beyond it a size is a
// mistake.
const largestBox = 20000

// Number reads a number; what is none leaves to as it is.
func Number(to *float64, v any) {
	if f, ok := draft.Number(v); ok {
		*to = f
	}
}

// Each hands over the members of an object.
func Each(v any, take func(key string, v any)) {
	m, _ := v.(map[string]any)
	for key, value := range m {
		take(key, value)
	}
}

// Pair reads a list of two numbers.
func Pair(v any) (a, b float64, ok bool) {
	pair, _ := v.([]any)
	if len(pair) != 2 {
		return 0, 0, false
	}
	a, okA := draft.Number(pair[0])
	b, okB := draft.Number(pair[1])
	return a, b, okA && okB
}

// Text reads a string, "" where it is none.
func Text(v any) string {
	s, _ := v.(string)
	return s
}

// mostSteps bounds the steps of one key press.
const mostSteps = 1000

// Steps reads a whole number of steps, 0 where it is none or absurd.
func Steps(v any) int {
	f, ok := draft.Number(v)
	if !ok || f != math.Trunc(f) || math.Abs(f) > mostSteps {
		return 0
	}
	return int(f)
}

// Box reads the size of a drawing, and the frame a drag began in.
func Box(v any) draw.Box {
	var b draw.Box
	b.W, _ = draft.Number(draft.Member(v, "w"))
	b.H, _ = draft.Number(draft.Member(v, "h"))
	if !(b.W > 0 && b.W <= largestBox && b.H > 0 && b.H <= largestBox) {
		return draw.Box{}
	}
	frame, _ := draft.Member(v, "frame").([]any)
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

// Told is the plan of a request, told in the words and units its settings ask
// for.
func (s Settings) Told(plan any) (*draft.Plan, *units.System) {
	d := draft.Of(plan)
	d.Locale = s.Locale()
	return d, s.System()
}

// Region is the one whose words the settings ask for.
func (s Settings) Region() words.Region { return words.RegionOf(s.Words, s.Language) }

// Locale is what the settings ask texts to be said in.
func (s Settings) Locale() words.Locale { return words.In(s.Language, s.Region()) }

// System is the one the settings ask for; where they ask for none, the one usual in the region.
func (s Settings) System() *units.System {
	if s.Units == "" {
		return s.Region().Units()
	}
	return units.Of(s.Units)
}
