package marking

import (
	"math"
	"strings"

	"pullline/rigging"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// What can come of an answer.
const (
	Unread = "unread" // no number, or of another kind: it is not counted as wrong
	Right  = "right"
	Wrong  = "wrong"
)

// How far off an answer may be: where it is counted, where a factor is read,
// after a sum of one step, after one of several.
const (
	Exactly = 0
	Closely = 0.02
	Fairly  = 0.03
	Roughly = 0.05
)

// Wanted is a number a student is asked for.
type Wanted struct {
	Value     float64 // in the file's unit
	Dim       units.Dimension
	Way       units.Direction // as the number itself is shown
	Tolerance float64         // share of the value by which an answer may be off
	// Slips are the numbers that common mistakes lead to.
	Slips []Slip
}

// A Slip is a common mistake: the number it leads to, and where it parts
// ways with the right working.
type Slip struct {
	Value float64
	Says  string
}

// A judgement is what came of an answer.
type judgement struct {
	State string
	Slip  int    // which of the slips wanted it is, or noSlip
	Says  string // of a right answer nothing, of a wrong one where it parts ways, else how to type it
}

// NoSlip is the slip of an answer that is none of the known ones.
const NoSlip = -1

// Judge reads an answer in the user's unit, or in the one typed with
// it, and says how it compares.
func Judge(u *units.System, text string, want Wanted) judgement {
	v, ok := u.Parse(text, want.Dim)
	if !ok {
		return judgement{Unread, NoSlip, "Type a number" + unitToType(u.Suffix(want.Dim)) + "." + whyUnread(text)}
	}
	if near(v, want.Value, want.Tolerance) {
		return judgement{Right, NoSlip, ""}
	}
	for i, s := range want.Slips {
		if near(v, s.Value, want.Tolerance) {
			return judgement{Wrong, i, s.Says}
		}
	}
	for _, s := range unitSlips(u, want.Dim) {
		if near(v, want.Value*s.Value, want.Tolerance) || near(v, want.Value/s.Value, want.Tolerance) {
			return judgement{Wrong, NoSlip, s.Says}
		}
	}
	if v < want.Value {
		return judgement{Wrong, NoSlip, "Too little."}
	}
	return judgement{Wrong, NoSlip, "Too much."}
}

// near says whether a number counts as another.
func near(v, w, tolerance float64) bool { return math.Abs(v-w) <= tolerance*math.Abs(w)+units.Noise }

// Apart says whether no answer can count as both numbers.
func Apart(v, w, tolerance float64) bool {
	return math.Abs(v-w) > tolerance*(math.Abs(v)+math.Abs(w))+2*units.Noise
}

// unitSlips are the factors, as values, by which an answer is off that is in
// another unit than the one it was read in.
func unitSlips(u *units.System, dim units.Dimension) []Slip {
	switch dim {
	case units.Kilonewtons, units.KilonewtonMetres, units.TonnesForce, units.Kilograms:
		if u.Key == units.US.Key {
			return []Slip{
				{1000, "That is out by 1000: pounds and kips are mixed up."},
				{2000, "That is out by 2000: pounds and short tons are mixed up."},
				{1 / rigging.Pound, "That is out by 2.2: pounds and kilograms are mixed up."},
			}
		}
		return []Slip{
			{1000, "That is out by 1000: look at the unit it is asked in."},
			{rigging.G, "That is out by 9.81: tonnes and kilonewtons are mixed up. A tonne weighs 9.81 kN."},
		}
	case units.Metres, units.Centimetres:
		if u.Key == units.US.Key {
			return []Slip{{12, "That is out by 12: feet and inches are mixed up."}}
		}
		return []Slip{{100, "That is out by 100: metres and centimetres are mixed up."}}
	case units.Plain:
		return []Slip{{100, "That is out by 100: a factor is asked for. Type the sign % after a percentage."}}
	case units.Percents:
		return []Slip{{100, "That is out by 100: it is asked for in percent."}}
	}
	return nil
}

// whyUnread says why a number that was typed is not read.
func whyUnread(text string) string {
	number := strings.TrimLeft(units.Tidy(text), "+- ")
	_, unit, ok := units.LeadingNumber(number)
	switch {
	case strings.HasSuffix(unit, "ton") || strings.HasSuffix(unit, "tons"):
		return " A ton can be two things: type tonnes or short tons."
	case ok && unit != "":
		return " What stands after the number in " + words.Quoted(text) + " is no unit of what is asked for."
	case number != "" && units.IsDigit(number[0]) && strings.Count(number, ",") == 1:
		return " The comma in " + words.Quoted(text) + " can be read in two ways: leave it out between thousands, or type a point for it."
	}
	return ""
}

func unitToType(unit string) string {
	if unit == "" {
		return ""
	}
	return ", in" + unit + " unless you type another unit after it"
}

// Within says how far off an answer counts as right.
func (w *Wanted) Within() string {
	if w.Tolerance == Exactly {
		return ""
	}
	return " (counted as right within " + units.Percent(w.Tolerance) + ")"
}
