package screen

import "strings"

// Which way a number of the report is rounded, decided once for each quantity,
// wherever it is shown: up what must not be understated, down what must not be
// overstated, else to the nearest. By the end of its path.
var roundedUp = []string{
	"kN", "kNm", "kg", "haul_m", "rope_to_haul_m", "stop_rope_m", "keep_out_m", "length_change_m", "pay_out_m", "grows_m", "stretch_m",
	"commit_deg", "drift_deg", "use",
}

var roundedDown = []string{"capacity_kN", "margin_kN", "hold_puller_to_kN", "stop_haul_kN"}

// wayOf is the way the number at a path of the report is rounded.
func wayOf(path string) direction {
	for _, end := range roundedDown {
		if strings.HasSuffix(path, end) {
			return downward
		}
	}
	for _, end := range roundedUp {
		if strings.HasSuffix(path, end) {
			return upward
		}
	}
	return nearest
}

// resultUnits are the dimensions of the report's numbers, by the end of a path.
var resultUnits = []keyed[dimension]{
	{"_kN", kilonewt}, {"_kNm", moment}, {"_kg", kilograms}, {"_deg", degrees}, {"_m", metres}, {"_m3", volume},
}

// result writes the number at a path of the report in the user's units.
func (s *unitSystem) result(path string, v float64) string {
	for _, u := range resultUnits {
		if strings.HasSuffix(path, u.key) {
			return s.quantity(v, u.of, wayOf(path))
		}
	}
	return percent(v)
}
