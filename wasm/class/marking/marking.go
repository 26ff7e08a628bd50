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
	Says  words.Text
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
func Judge(l words.Locale, u *units.System, text string, want Wanted) judgement {
	v, ok := u.Parse(text, want.Dim)
	if !ok {
		return judgement{Unread, NoSlip, words.Join(toType(l, u.Units[want.Dim].Name), whyUnread(l, text))}
	}
	if near(v, want.Value, want.Tolerance) {
		return judgement{Right, NoSlip, ""}
	}
	for i, s := range want.Slips {
		if near(v, s.Value, want.Tolerance) {
			return judgement{Wrong, i, l.Say(s.Says)}
		}
	}
	for _, s := range unitSlips(u, want.Dim) {
		if near(v, want.Value*s.Value, want.Tolerance) || near(v, want.Value/s.Value, want.Tolerance) {
			return judgement{Wrong, NoSlip, l.Say(s.Says)}
		}
	}
	if v < want.Value {
		return judgement{Wrong, NoSlip, l.Say("Too low.")}
	}
	return judgement{Wrong, NoSlip, l.Say("Too high.")}
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
				{1000, "Out by 1000: pounds and kips mixed up."},
				{2000, "Out by 2000: pounds and short tons mixed up."},
				{1 / rigging.Pound, "Out by 2.2: pounds and kilograms mixed up."},
			}
		}
		return []Slip{
			{1000, "Out by 1000: check the unit asked for."},
			{rigging.G, "Out by 9.81: tonnes and kilonewtons mixed up. A tonne weighs 9.81 kN."},
		}
	case units.Metres, units.Centimetres:
		if u.Key == units.US.Key {
			return []Slip{{12, "Out by 12: feet and inches mixed up."}}
		}
		return []Slip{{100, "Out by 100: metres and centimetres mixed up."}}
	case units.Plain:
		return []Slip{{100, "Out by 100: the answer is a factor. Type % after a percentage."}}
	case units.Percents:
		return []Slip{{100, "Out by 100: the answer is in percent."}}
	}
	return nil
}

// whyUnread says why a number that was typed is not read.
func whyUnread(l words.Locale, text string) string {
	number := strings.TrimLeft(units.Tidy(text), "+- ")
	_, unit, ok := units.LeadingNumber(number)
	switch {
	case strings.HasSuffix(unit, "ton") || strings.HasSuffix(unit, "tons"):
		return l.Say("A ton can mean two things: type tonnes or short tons.")
	case ok && unit != "":
		return l.Say("What follows the number in %s is not a unit of what is asked for.", words.Quoted(text))
	case number != "" && units.IsDigit(number[0]) && strings.Count(number, ",") == 1:
		return l.Say("The comma in %s can be read two ways: leave it out between thousands, or type a point for it.", words.Quoted(text))
	}
	return ""
}

func toType(l words.Locale, unit string) string {
	if unit == "" {
		return l.Say("Type a number.")
	}
	return l.Say("Type a number in %s, or with its unit after it.", unit)
}

// Right says that an answer is right, and how far off it may be.
func (w *Wanted) Right(l words.Locale, answer string) string {
	return w.says(l, answer, "Right: %s.", "Right: %s (counted as right within %s).")
}

// Answer says beside another one what was asked for, and how far off it may be.
func (w *Wanted) Answer(l words.Locale, answer string) string {
	return w.says(l, answer, "Answer: %s.", "Answer: %s (counted as right within %s).")
}

func (w *Wanted) says(l words.Locale, answer string, exactly, within words.Text) string {
	if w.Tolerance == Exactly {
		return l.Say(exactly, answer)
	}
	return l.Say(within, answer, units.Percent(w.Tolerance))
}
