package form

import (
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/offer"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Builder makes the fields of a form from those of a plan or of a gear list.
type Builder struct {
	d        *draft.Plan
	u        *units.System
	assumed  map[string]*plan.Assumed // default taken, by path
	problems map[string]string        // first problem, by exact path
	points   []parts.Option           // the plan's points to choose from
}

// NewBuilder makes a builder for what is being written, with the defaults taken and
// the problems found in it.
func NewBuilder(d *draft.Plan, u *units.System, assumed []plan.Assumed, problems []plan.Problem) *Builder {
	b := &Builder{
		d: d, u: u, points: fields.Points(d),
		assumed:  make(map[string]*plan.Assumed, len(assumed)),
		problems: make(map[string]string, len(problems)),
	}
	for i := range assumed {
		b.assumed[assumed[i].Path] = &assumed[i]
	}
	for _, p := range problems {
		if _, seen := b.problems[p.Path]; !seen {
			b.problems[p.Path] = p.Message
		}
	}
	return b
}

// Field makes the form's field of a path of the plan.
func (b *Builder) Field(path string) parts.Field {
	spec, ok := fields.At(path)
	if !ok {
		return parts.Field{Path: path, Label: path, Kind: fields.Text, Text: b.Written(path), Problem: b.problems[path]}
	}
	f := parts.Field{
		Path: path, Label: words.Capital(b.d.Say(spec.Label)), Kind: spec.Kind, Help: b.d.Say(spec.Help),
		Suggest: fields.Suggestions(b.d, path, spec), Problem: b.problems[path],
		Measure: spec.Measured && !strings.HasPrefix(path, draft.PlusMinus),
	}
	v, _ := b.d.At(path)
	switch spec.Kind {
	case fields.Number:
		f.Unit = b.u.Units[spec.Dim].Name
		if n, ok := draft.Number(v); ok {
			f.Text = b.u.Field(n, spec.Dim, spec.Way)
		} else if f.Text = draft.Written(v); f.Text != "" && f.Problem == "" {
			f.Problem = b.d.NotANumber(f.Text, f.Unit)
		}
	case fields.Flag:
		switch x := v.(type) {
		case bool:
			if x {
				f.Text = "true"
			}
		default:
			f.Text = draft.Written(v)
		}
	case fields.Lines:
		f.Kind, f.Text = fields.Long, JoinLines(v)
	case fields.Rows:
		f.Kind = fields.Text
		if rows, ok := v.([]any); ok {
			f.Text = joinRows(rows)
		} else {
			f.Text = draft.Written(v)
		}
	case fields.Date:
		f.Kind = fields.Text
		f.Text = draft.Written(v)
	case fields.Choice:
		f.Text = draft.Written(v)
		options := spec.Options
		switch {
		case spec.Field == field.Species:
			f.Options = offer.Species.In(b.d.Locale)
		case len(options) == 0:
			f.Options = b.points
		default:
			f.Options = parts.Told(b.d.Locale, options)
		}
		f.Options = parts.WithValue(b.d.Locale, f.Options, f.Text)
	default:
		f.Text = draft.Written(v)
	}
	if given, ok := b.assumed[path]; ok {
		if f.Default = spec.Default(b.d, b.u, given); f.Default != "" {
			f.Founded = b.d.Say(words.Text(rigging.Basis(given.Basis).Words()))
		}
	}
	return f
}

// Written is the text of whatever stands at a path.
func (b *Builder) Written(path string) string {
	v, _ := b.d.At(path)
	return draft.Written(v)
}

func joinRows(rows []any) string {
	words := make([]string, len(rows))
	for i, r := range rows {
		words[i] = draft.Written(r)
	}
	return strings.Join(words, "-")
}

// Fields makes fields of keys below a path ("" for the plan itself).
func (b *Builder) Fields(path string, keys ...string) []parts.Field {
	out := make([]parts.Field, len(keys))
	for i, key := range keys {
		out[i] = b.Field(draft.Sub(path, key))
	}
	return out
}

// Shown is a field in a summary: its text with its unit, "" if empty.
func (b *Builder) Shown(path string) string {
	spec, ok := fields.At(path)
	v, _ := b.d.At(path)
	if !ok || v == nil {
		return ""
	}
	if n, ok := draft.Number(v); ok && spec.Kind == fields.Number {
		if text := b.u.Field(n, spec.Dim, spec.Way); len(text) <= 6 {
			return text + b.u.Suffix(spec.Dim)
		}
		return b.u.Quantity(n, spec.Dim, spec.Way) // the long tail of a converted number
	}
	return draft.Written(v)
}

// Problem is the first problem of several paths.
func (b *Builder) Problem(paths ...string) string {
	for _, p := range paths {
		if m := b.problems[p]; m != "" {
			return m
		}
	}
	return ""
}
