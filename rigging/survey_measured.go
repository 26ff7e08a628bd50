package rigging

import "math"

// Measured is a value in SI with its ±: half the width of the band that holds
// the true value 19 times out of 20 (two standard deviations). A ± of 0 says
// that the value is taken as exact.
type Measured struct {
	Value     float64 `json:"value"`
	PlusMinus float64 `json:"plus_minus"`
}

// ReadingError says which reading cannot be, or cannot be used with the
// others.
type ReadingError struct {
	Key      string // of the reading
	What     string // the reading in plain words
	Given    string // its value with unit
	Accepted string // what would do
}

// Error gives all in one sentence.
func (e *ReadingError) Error() string { return e.What + " is " + e.Given + "; accepted: " + e.Accepted }

// A SurveyReading is one thing to read in the field. Angles are in rad,
// lengths in m, places in a picture in px; a unit of "" is a plain number.
type SurveyReading struct {
	Key      string  `json:"key"`
	Name     string  `json:"name"`
	Unit     string  `json:"unit"`
	Least    float64 `json:"least"`              // accepted range, both ends included
	Most     float64 `json:"most"`               //
	Accuracy string  `json:"accuracy"`           // key of its usual ± in Accuracies
	Optional bool    `json:"optional,omitempty"` // without it, Usual is taken, with the usual ±
	Usual    float64 `json:"usual,omitempty"`    //
}

// Read is a value with the usual ± of this kind of reading.
func (r SurveyReading) Read(value float64) Measured {
	a, _ := FindAccuracy(r.Accuracy)
	return Measured{value, a.PlusMinus(value)}
}

// check is an error unless the reading is finite, within its range and its ±
// is finite and not below 0.
func (r SurveyReading) check(m Measured) error {
	if !(m.Value >= r.Least && m.Value <= r.Most) {
		return r.wrong(m.Value, r.number(r.Least)+" to "+r.text(r.Most))
	}
	if !(m.PlusMinus >= 0 && m.PlusMinus <= math.MaxFloat64) {
		return &ReadingError{r.Key, "the ± of " + r.Name, r.text(m.PlusMinus), "a finite number of 0 or more"}
	}
	return nil
}

func (r SurveyReading) wrong(v float64, accepted string) error {
	return &ReadingError{r.Key, r.Name, r.text(v), accepted}
}

// tooUncertain is the error that a reading's ± reaches where nothing can be
// worked out any more.
func (r SurveyReading) tooUncertain(m Measured, what string) error {
	return &ReadingError{r.Key, "the ± of " + r.Name, r.text(m.PlusMinus), "less: within it " + what + " could not be worked out"}
}

// number is v in the unit people read: degrees for rad.
func (r SurveyReading) number(v float64) string {
	if r.Unit == "rad" {
		v /= Deg
	}
	return short(v, 4)
}

func (r SurveyReading) text(v float64) string {
	text := r.number(v)
	switch r.Unit {
	case "rad":
		text += "°"
	case "":
	default:
		text += " " + r.Unit
	}
	return givenText(v, text)
}

// The readings are tables: these functions are one expression each, so that
// the compiler lays the tables out and no code has to fill them in.

func lengthReading(key, name, accuracy string, least, most float64) SurveyReading {
	return SurveyReading{Key: key, Name: name, Unit: "m", Least: least, Most: most, Accuracy: accuracy}
}

func angleReading(key, name, accuracy string, reach float64) SurveyReading {
	return SurveyReading{Key: key, Name: name, Unit: "rad", Least: -reach, Most: reach, Accuracy: accuracy}
}

func bearingReading(key, name string) SurveyReading {
	return SurveyReading{Key: key, Name: name, Unit: "rad", Least: -2 * math.Pi, Most: 2 * math.Pi, Accuracy: "compass"}
}

// checkReadings checks each value against its reading, in order.
func checkReadings(readings []SurveyReading, given []Measured) error {
	for i, r := range readings {
		if err := r.check(given[i]); err != nil {
			return err
		}
	}
	return nil
}

func valuesOf(given []Measured) []float64 {
	v := make([]float64, len(given))
	for i, m := range given {
		v[i] = m.Value
	}
	return v
}

// changes is, for each reading, the larger change of f when that reading
// alone goes up or down by its ±. For a straight-line f this is the textbook's
// |∂f/∂x|·±; where f bends it is the cautious side. The first reading that
// leads to nothing finite is told by its index, else −1.
func changes(f func(v []float64) float64, given []Measured) (parts []float64, lost int) {
	v := valuesOf(given)
	at := f(v)
	parts = make([]float64, len(given))
	for i, m := range given {
		if m.PlusMinus == 0 {
			continue
		}
		v[i] = m.Value + m.PlusMinus
		up := math.Abs(f(v) - at)
		v[i] = m.Value - m.PlusMinus
		down := math.Abs(f(v) - at)
		v[i] = m.Value
		parts[i] = math.Max(up, down) // NaN if either is
		if !(parts[i] <= math.MaxFloat64) {
			return parts, i
		}
	}
	return parts, -1
}

// together is the root of the sum of squares: independent errors.
func together(parts []float64) float64 {
	var sum float64
	for _, p := range parts {
		sum += p * p
	}
	return math.Sqrt(sum)
}

// workOut is f at the readings, with the ± that theirs give it by the linear
// propagation of independent errors (any text on errors of measurement; Guide
// to the Expression of Uncertainty in Measurement, JCGM 100:2008, 5.1.2, from
// memory).
func workOut(what string, readings []SurveyReading, given []Measured, f func(v []float64) float64) (Measured, error) {
	value := f(valuesOf(given))
	if !(math.Abs(value) <= math.MaxFloat64) {
		return Measured{}, readings[0].wrong(given[0].Value, "a value from which "+what+" can be worked out")
	}
	parts, lost := changes(f, given)
	if lost >= 0 {
		return Measured{}, readings[lost].tooUncertain(given[lost], what)
	}
	return Measured{value, together(parts)}, nil
}

// workOutBearing is the bearing of a level direction (ahead, right), 0 to 2π,
// with its ±. Where the length of the direction is within its own ± the
// bearing may be any: ± is then π, and never more.
func workOutBearing(what string, readings []SurveyReading, given []Measured, direction func(v []float64) (ahead, right float64)) (Measured, error) {
	length, err := workOut(what, readings, given, func(v []float64) float64 { return math.Hypot(direction(v)) })
	if err != nil {
		return Measured{}, err
	}
	ahead, right := direction(valuesOf(given))
	if !(length.Value > length.PlusMinus) {
		return Measured{Vec{ahead, -right, 0}.Bearing(), math.Pi}, nil
	}
	turned := func(v []float64) float64 {
		a, r := direction(v)
		return math.Atan2(float64(ahead*r)-float64(right*a), float64(ahead*a)+float64(right*r))
	}
	parts, lost := changes(turned, given)
	if lost >= 0 {
		return Measured{}, readings[lost].tooUncertain(given[lost], what)
	}
	return Measured{Vec{ahead, -right, 0}.Bearing(), math.Min(together(parts), math.Pi)}, nil
}

// Accuracy is the usual ± (95 %) of one way of reading: an absolute part in
// the reading's unit and a share of the value, combined as independent.
type Accuracy struct {
	Key      string  `json:"key"`
	Name     string  `json:"name"`
	Absolute float64 `json:"absolute"`
	Share    float64 `json:"share"`
	Source   Source  `json:"source"`
}

// PlusMinus is the ± of a value read that way.
func (a Accuracy) PlusMinus(value float64) float64 { return math.Hypot(a.Absolute, a.Share*value) }

// Accuracies are the ± taken where the person measuring states none. They are
// assumptions, on the wide side for hand tools in the forest; a person who has
// checked tool and habit states better ones.
func Accuracies() []Accuracy { return append([]Accuracy(nil), accuracies[:]...) }

var handTools = Source{"an assumption for hand tools in the forest; state your own where you know it", CommonPractice}

var accuracies = [...]Accuracy{
	{"exact", "taken as exact", 0, 0, handTools},
	{"clinometer", "clinometer or phone level, held still", 0.5 * Deg, 0, handTools},
	{"by_eye", "angle held upright by eye", 3 * Deg, 0, handTools},
	{"compass", "hand compass", 2 * Deg, 0, handTools},
	{"paced", "paced distance", 0, 0.03, handTools},
	{"tape", "tape laid over the ground", 0.05, 0.01, handTools},
	{"rangefinder", "hand range finder", 0.5, 0, handTools},
	{"rule", "short length by rule", 0.005, 0, handTools},
	{"arm", "length at the end of the arm", 0.01, 0, handTools},
	{"girth", "tape around the stem", 0.01, 0.005, handTools},
	{"plumb", "level offset from a plumb line sighted against the stem", 0.1, 0, handTools},
	{"lean", "lean of the stem's middle seen from one side", 1 * Deg, 0, handTools},
	{"count", "paces counted", 1, 0, handTools},
	{"slope_percent", "slope in percent by clinometer", 0.01, 0, handTools},
	{"pixel", "place marked in a picture", 2, 0, handTools},
	{"pole_plumb", "pole held plumb", 1 * Deg, 0, handTools},
	{"camera_tilt", "camera held level by eye", 5 * Deg, 0, handTools},
	{"toward", "lean toward or away from the camera, not seen in the picture", 5 * Deg, 0, handTools},
	{"beside", "pole stood level with the tree, as seen from the camera", 0.5, 0, handTools},
}

// FindAccuracy is the way of reading of that key.
func FindAccuracy(key string) (Accuracy, bool) {
	for i := range accuracies {
		if accuracies[i].Key == key {
			return accuracies[i], true
		}
	}
	return Accuracy{}, false
}
