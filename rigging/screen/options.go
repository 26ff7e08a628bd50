package screen

import (
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// unitOptions are the systems to choose from.
func unitOptions() []Option {
	out := make([]Option, len(units.Systems))
	for i, s := range units.Systems {
		out[i] = Option{s.Key, s.Label}
	}
	return out
}

// wordOptions are the regions to choose from.
func wordOptions() []Option {
	out := make([]Option, words.Regions)
	for r := range words.Regions {
		out[r] = Option{r.Key(), r.Label()}
	}
	return out
}
