package screen

import "pullline/wasm/units"

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
	out := make([]Option, regions)
	for r, t := range regionTable {
		out[r] = Option{t.key, t.label}
	}
	return out
}
