package words

import (
	"pullline/rigging/plan/text"
	"pullline/wasm/units"
)

// Voice says what package plan tells in this locale and the user's units.
func (l Locale) Voice(u *units.System) *text.Voice {
	v := &text.Voice{Word: l.tradeWord, Write: func(a text.Amount, bare bool) string { return written(u, a, bare) }}
	if l.language != nil {
		v.Translate = func(_, english string) string { return l.translate(Text(english)) }
	}
	return v
}

// written is an amount in the user's units, bare without its unit.
func written(u *units.System, a text.Amount, bare bool) string {
	dim := units.DimensionOf(a.Unit)
	if dim == units.Plain {
		if bare {
			a.Unit = ""
		}
		return a.String()
	}
	var number string
	switch a.Round {
	case text.Up:
		number = u.Number(a.Value, dim, units.Up)
	case text.Down:
		number = u.Number(a.Value, dim, units.Down)
	case text.Least: // so that what is written is itself accepted
		number = u.Field(a.Value, dim, units.Up)
	case text.Most:
		number = u.Field(a.Value, dim, units.Down)
	default:
		number = u.Field(a.Value, dim, units.Nearest)
	}
	if bare || number == units.None {
		return number
	}
	return number + u.Suffix(dim)
}
