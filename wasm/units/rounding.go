package units

import (
	"strings"

	"pullline/wasm/keyed"
)

// Which way a number of the report is rounded, decided once for each quantity,
// wherever it is shown: up what must not be understated, down what must not be
// overstated, else to the nearest. By the end of its path.
var roundedUp = []string{
	"kN", "kNm", "kg", "haul_m", "rope_to_haul_m", "stop_rope_m", "keep_out_m", "length_change_m", "pay_out_m", "grows_m", "stretch_m",
	"commit_deg", "drift_deg", "use",
}

var roundedDown = []string{"capacity_kN", "margin_kN", "hold_puller_to_kN", "stop_haul_kN"}

// WayOf is the way the number at a path of the report is rounded.
func WayOf(path string) Direction {
	for _, end := range roundedDown {
		if strings.HasSuffix(path, end) {
			return Down
		}
	}
	for _, end := range roundedUp {
		if strings.HasSuffix(path, end) {
			return Up
		}
	}
	return Nearest
}

// resultUnits are the dimensions of the report's numbers, by the end of a path.
var resultUnits = []keyed.Row[Dimension]{
	{Key: "_kN", Value: Kilonewtons}, {Key: "_kNm", Value: KilonewtonMetres}, {Key: "_kg", Value: Kilograms}, {Key: "_deg", Value: Degrees}, {Key: "_m", Value: Metres}, {Key: "_m3", Value: CubicMetres},
}

// Result writes the number at a path of the report in the user's units.
func (s *System) Result(path string, v float64) string {
	for _, u := range resultUnits {
		if strings.HasSuffix(path, u.Key) {
			return s.Quantity(v, u.Value, WayOf(path))
		}
	}
	return Percent(v)
}
