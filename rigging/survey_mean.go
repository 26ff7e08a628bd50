package rigging

import (
	"math"
	"slices"
	"strconv"
)

// An Average is the mean of several readings of the same thing.
type Average struct {
	Mean      Measured `json:"mean"`
	Deviation float64  `json:"deviation"` // standard deviation of a single reading
	Count     int      `json:"count"`
	Suspects  []int    `json:"suspects,omitempty"` // readings, counted from 0, that stand far off; they are in the mean
}

// MeasureMean averages two or more readings of the same thing, taken anew each
// time. The ± of the mean is Student's t (95 %, two-sided) × deviation/√n,
// and never less than the resolution, the step to which each was read (same
// unit, above 0): an error that all of them share does not average out. A
// reading is flagged, not removed, when its distance from the median is above
// 3.5 of the deviation that the median distance stands for (1.4826 × it; a
// spread below the resolution counts as the resolution); needs 4 readings.
//
// Source: any text on statistics; the flag by Iglewicz and Hoaglin, How to
// Detect and Handle Outliers (1993), from memory.
//
// How: put the tool away between readings and start anew each time; look again
// at a reading that is flagged, and do not drop it only because it is off.
func MeasureMean(readings []float64, resolution float64) (Average, error) {
	if len(readings) < 2 {
		return Average{}, &ReadingError{"readings", "the number of readings", strconv.Itoa(len(readings)), "2 or more"}
	}
	if !(resolution > 0 && resolution <= math.MaxFloat64) {
		return Average{}, &ReadingError{"resolution", "the step of the readings", short(resolution, 4), "a finite number above 0"}
	}
	for i, r := range readings {
		// Beyond 1e100 squares overflow; no reading comes near.
		if !(math.Abs(r) <= 1e100) {
			return Average{}, &ReadingError{"readings", "reading " + strconv.Itoa(i+1), short(r, 4), "a finite number"}
		}
	}
	n := float64(len(readings))
	var mean, squares float64
	for _, r := range readings {
		mean += r / n
	}
	for _, r := range readings {
		squares += (r - mean) * (r - mean)
	}
	a := Average{Deviation: math.Sqrt(squares / (n - 1)), Count: len(readings)}
	a.Mean = Measured{mean, math.Max(studentT(len(readings)-1)*a.Deviation/math.Sqrt(n), resolution)}
	if len(readings) >= 4 {
		middle := median(readings)
		off := make([]float64, len(readings))
		for i, r := range readings {
			off[i] = math.Abs(r - middle)
		}
		limit := 3.5 * math.Max(1.4826*median(off), resolution)
		for i := range off {
			if off[i] > limit {
				a.Suspects = append(a.Suspects, i)
			}
		}
	}
	return a, nil
}

// MeasureMeanBearing is MeasureMean of bearings (rad), which run over: 359°
// and 1° make 0°. Each counts from the first by the shorter way round. The
// mean is from 0 to 2π.
func MeasureMeanBearing(bearings []float64, resolution float64) (Average, error) {
	turned := slices.Clone(bearings)
	for i := range turned {
		turned[i] = bearings[0] + math.Remainder(bearings[i]-bearings[0], 2*math.Pi)
	}
	a, err := MeasureMean(turned, resolution)
	if err != nil {
		return Average{}, err
	}
	a.Mean.Value = AtBearing(a.Mean.Value, 1, 0).Bearing()
	a.Mean.PlusMinus = math.Min(a.Mean.PlusMinus, math.Pi)
	return a, nil
}

func median(of []float64) float64 {
	s := slices.Clone(of)
	slices.Sort(s)
	n := len(s)
	return s[(n-1)/2]/2 + s[n/2]/2
}

// studentT is the factor of the 95 % band (two-sided) by degrees of freedom,
// any table of Student's t, from memory; beyond 30 the wider one of 30.
func studentT(freedom int) float64 {
	t := [...]float64{12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160, 2.145, 2.131,
		2.120, 2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042}
	return t[min(freedom, len(t))-1]
}
