package rigging

import "math"

// ClipsByRule is the number of wire rope clips by the field rule, 3·D + 1
// rounded up, D the rope's diameter (m) in inches. Source: US Navy NAVEDTRA
// 14026 ch. 1; US Army FM 55-501, 12-101. A diameter that is not finite and
// above 0 is a *TableError.
func ClipsByRule(diameter float64) (int, error) {
	if err := clipRope(diameter); err != nil {
		return 0, err
	}
	// A hair less keeps 3·1 + 1 at 4 for an inch that has been converted.
	return int(math.Ceil(3*diameter/Inch + 1 - 1e-9)), nil
}

// ClipsByRegulation is the least number of drop-forged clips by 29 CFR 1918
// App. II, Table 1, for the next listed size up. A diameter above the table's
// 1 in, or not above 0, is a *TableError.
func ClipsByRegulation(diameter float64) (int, error) {
	if err := clipRope(diameter); err != nil {
		return 0, err
	}
	for _, row := range []struct {
		inches float64
		clips  int
	}{{1.0 / 2, 3}, {5.0 / 8, 3}, {3.0 / 4, 4}, {7.0 / 8, 4}, {1, 5}} {
		if diameter/Inch <= row.inches+1e-9 {
			return row.clips, nil
		}
	}
	return 0, outsideTable("the diameter of the rope for clips", diameter/MM, "mm", "up to 25.4 mm (1 in)")
}

// ClipCount is the number of clips to use: the larger of regulation and
// field rule, and above the regulation's table the rule, never below the
// table's last 5. ClipSpacing apart, saddle on the live part.
func ClipCount(diameter float64) (int, error) {
	rule, err := ClipsByRule(diameter)
	if err != nil {
		return 0, err
	}
	regulation, err := ClipsByRegulation(diameter)
	if err != nil {
		regulation = 5
	}
	return max(rule, regulation), nil
}

// ClipSpacing is the distance (m) between clips: six rope diameters, by both
// sources.
func ClipSpacing(diameter float64) float64 { return 6 * diameter }

func clipRope(diameter float64) error {
	// 0.1 m is above any rope held by clips; beyond it the unit is wrong.
	if !(diameter > 0 && diameter <= 0.1) {
		return outsideTable("the diameter of the rope for clips", diameter, "m", "above 0, up to 0.1 m")
	}
	return nil
}
