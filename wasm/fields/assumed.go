package fields

import (
	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Default writes what was taken for a field, in the user's units; "" where
// there was nothing to work it out from.
func (spec *Spec) Default(d *draft.Plan, u *units.System, a *plan.Assumed) string {
	if n, ok := a.Number(); ok {
		if spec.Kind == Number {
			return u.Field(n, spec.Dim, spec.Way)
		}
		return units.Decimal(n, -1)
	}
	if spec.Kind == Number {
		return ""
	}
	text := draft.Written(a.Value)
	switch {
	case spec.Field == field.Species:
		return parts.Label(offer.Species.In(d.Locale), text)
	case spec.Kind == Choice:
		return parts.LabelOf(d.Locale, spec.Options, text)
	}
	return text
}

// Assumed tells of one default taken: of which field, how much and why.
func Assumed(d *draft.Plan, u *units.System, a *plan.Assumed) parts.Assumed {
	line := parts.Assumed{Path: a.Path, Label: LabelOf(d, a.Path), Why: a.Why, Source: a.Source}
	if _, number := a.Number(); number && a.Path != field.Version.Key() {
		line.Working = a.Path
	}
	if basis := rigging.Basis(a.Basis); basis != "" && basis != rigging.Published {
		line.Source = words.Listed(a.Source, d.Say(words.Text(basis.Words())))
	}
	if spec, known := At(a.Path); known {
		line.Value = spec.Default(d, u, a)
		if spec.Kind == Number && line.Value != "" {
			line.Value += u.Suffix(spec.Dim)
		}
	} else {
		line.Value = draft.Written(a.Value)
	}
	if line.Value == "" {
		line.Value = units.None
	}
	return line
}
