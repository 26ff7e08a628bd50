package bench

import (
	"math"

	"pullline/wasm/class/marking"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// inKN is what taking tonnes for kilonewtons comes to; nothing anyone types in
// a system where a mass and its weight are the same number.
func (b *work) inKN(v float64) float64 {
	if b.u.Key != units.KN.Key {
		return math.NaN()
	}
	return v
}

// judge judges a guess and gives the right number with it.
func (b *work) judge(text string, want marking.Wanted) (state, message string) {
	j := marking.Judge(b.Locale, b.u, text, want)
	right := b.u.Quantity(want.Value, want.Dim, want.Way)
	switch j.State {
	case marking.Unread:
		return j.State, j.Says
	case marking.Right:
		return j.State, want.Right(b.Locale, right)
	}
	return j.State, words.Join(j.Says, want.Answer(b.Locale, right))
}
