package parts

import (
	"strings"

	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Units are the systems to choose from.
func Units() []Option {
	out := make([]Option, len(units.Systems))
	for i, s := range units.Systems {
		out[i] = Option{s.Key, s.Label}
	}
	return out
}

// Words are the regions to choose from.
func Words() []Option {
	out := make([]Option, words.Regions)
	for r := range words.Regions {
		out[r] = Option{r.Key(), r.Label()}
	}
	return out
}

// Names are the values of some options, as those who type them read them.
func Names(options []Option) string {
	var names []string
	for _, o := range options {
		names = append(names, o.Value)
	}
	return strings.Join(names, ", ")
}

// LabelOf finds the words of a choice.
func LabelOf(l words.Locale, options []Option, value string) string {
	for _, o := range options {
		if o.Value == value {
			return l.Words(o.Label)
		}
	}
	return value
}

// Told puts the trade's words into the labels of choices.
func Told(l words.Locale, options []Option) []Option {
	out := make([]Option, len(options))
	for i, o := range options {
		out[i] = Option{o.Value, l.Words(o.Label)}
	}
	return out
}

// WithValue makes sure that a choice shows what the plan holds, however odd.
func WithValue(options []Option, value string) []Option {
	for _, o := range options {
		if o.Value == value {
			return options
		}
	}
	if value == "" {
		return append([]Option{{Value: "", Label: "choose"}}, options...)
	}
	// The slice may be shared between fields: never append in place.
	return append(options[:len(options):len(options)], Option{Value: value, Label: "“" + value + "” (not known here)"})
}
