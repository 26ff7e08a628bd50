package parts

import (
	"strings"

	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Units are the systems to choose from.
func Units(l words.Locale) []Option {
	return Told(l, []Choice{
		{units.KN.Key, "Metric, kilonewtons (kN)"},
		{units.TF.Key, "Metric, tonnes-force (tf)"},
		{units.US.Key, "Feet, inches, pounds-force (lbf)"},
	})
}

// Words are the regions to choose from.
func Words(l words.Locale) []Option {
	out := make([]Option, words.Regions)
	for r := range words.Regions {
		out[r] = Option{r.Key(), l.Say(r.Label())}
	}
	return out
}

// A Choice is an option that is yet to be said.
type Choice struct {
	Value string
	Label words.Text
}

// Names are the values of some options, as those who type them read them.
func Names(options []Option) string {
	var names []string
	for _, o := range options {
		names = append(names, o.Value)
	}
	return strings.Join(names, ", ")
}

// LabelOf says a choice.
func LabelOf(l words.Locale, choices []Choice, value string) string {
	for _, c := range choices {
		if c.Value == value {
			return l.Say(c.Label)
		}
	}
	return value
}

// Label finds what an option is called, its value where it is none of them.
func Label(options []Option, value string) string {
	for _, o := range options {
		if o.Value == value {
			return o.Label
		}
	}
	return value
}

// Told says choices.
func Told(l words.Locale, choices []Choice) []Option {
	out := make([]Option, len(choices))
	for i, c := range choices {
		out[i] = Option{c.Value, l.Say(c.Label)}
	}
	return out
}

// WithValue makes sure that a choice shows what the plan holds, however odd.
func WithValue(l words.Locale, options []Option, value string) []Option {
	for _, o := range options {
		if o.Value == value {
			return options
		}
	}
	if value == "" {
		return append([]Option{{Value: "", Label: l.Say("choose")}}, options...)
	}
	// The slice may be shared between fields: never append in place.
	return append(options[:len(options):len(options)], Option{Value: value, Label: l.Say("“%s” (not known here)", value)})
}
