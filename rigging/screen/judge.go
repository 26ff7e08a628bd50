package screen

import (
	"math"
	"strings"

	"pullline/rigging"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// What can come of an answer.
const (
	answerUnread = "unread" // no number, or of another kind: it is not counted as wrong
	answerRight  = "right"
	answerWrong  = "wrong"
)

// wanted is a number a student is asked for.
type wanted struct {
	value     float64 // in the file's unit
	dim       units.Dimension
	way       units.Direction // as the number itself is shown
	tolerance float64         // share of the value by which an answer may be off
	// slips are the numbers that common mistakes lead to.
	slips []slip
}

// A slip is a common mistake: the number it leads to, and where it parts
// ways with the right working.
type slip struct {
	value float64
	says  string
}

// A judgement is what came of an answer.
type judgement struct {
	state string
	slip  int    // which of the slips wanted it is, or noSlip
	says  string // of a right answer nothing, of a wrong one where it parts ways, else how to type it
}

const noSlip = -1

// judgeAnswer reads an answer in the user's unit, or in the one typed with
// it, and says how it compares.
func judgeAnswer(u *units.System, text string, want wanted) judgement {
	v, ok := u.Parse(text, want.dim)
	if !ok {
		return judgement{answerUnread, noSlip, "Type a number" + unitToType(u.Suffix(want.dim)) + "." + whyUnread(text)}
	}
	if near(v, want.value, want.tolerance) {
		return judgement{answerRight, noSlip, ""}
	}
	for i, s := range want.slips {
		if near(v, s.value, want.tolerance) {
			return judgement{answerWrong, i, s.says}
		}
	}
	for _, s := range unitSlips(u, want.dim) {
		if near(v, want.value*s.value, want.tolerance) || near(v, want.value/s.value, want.tolerance) {
			return judgement{answerWrong, noSlip, s.says}
		}
	}
	if v < want.value {
		return judgement{answerWrong, noSlip, "Too little."}
	}
	return judgement{answerWrong, noSlip, "Too much."}
}

// near says whether a number counts as another.
func near(v, w, tolerance float64) bool { return math.Abs(v-w) <= tolerance*math.Abs(w)+units.Noise }

// apart says whether no answer can count as both numbers.
func apart(v, w, tolerance float64) bool {
	return math.Abs(v-w) > tolerance*(math.Abs(v)+math.Abs(w))+2*units.Noise
}

// unitSlips are the factors, as values, by which an answer is off that is in
// another unit than the one it was read in.
func unitSlips(u *units.System, dim units.Dimension) []slip {
	switch dim {
	case units.Kilonewtons, units.KilonewtonMetres, units.TonnesForce, units.Kilograms:
		if u.Key == units.US.Key {
			return []slip{
				{1000, "That is out by 1000: pounds and kips are mixed up."},
				{2000, "That is out by 2000: pounds and short tons are mixed up."},
				{1 / rigging.Pound, "That is out by 2.2: pounds and kilograms are mixed up."},
			}
		}
		return []slip{
			{1000, "That is out by 1000: look at the unit it is asked in."},
			{rigging.G, "That is out by 9.81: tonnes and kilonewtons are mixed up. A tonne weighs 9.81 kN."},
		}
	case units.Metres, units.Centimetres:
		if u.Key == units.US.Key {
			return []slip{{12, "That is out by 12: feet and inches are mixed up."}}
		}
		return []slip{{100, "That is out by 100: metres and centimetres are mixed up."}}
	case units.Plain:
		return []slip{{100, "That is out by 100: a factor is asked for. Type the sign % after a percentage."}}
	case units.Percents:
		return []slip{{100, "That is out by 100: it is asked for in percent."}}
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

// within says how far off an answer counts as right.
func (w *wanted) within() string {
	if w.tolerance == exactly {
		return ""
	}
	return " (counted as right within " + units.Percent(w.tolerance) + ")"
}

// inKN is what taking tonnes for kilonewtons comes to; nothing anyone types in
// a system where a mass and its weight are the same number.
func (b *benchWork) inKN(v float64) float64 {
	if b.u.Key != units.KN.Key {
		return math.NaN()
	}
	return v
}

// judge judges a guess and gives the right number with it.
func (b *benchWork) judge(text string, want wanted) (state, message string) {
	j := judgeAnswer(b.u, text, want)
	right := b.u.Quantity(want.value, want.dim, want.way) + want.within() + "."
	switch j.state {
	case answerUnread:
		return j.state, j.says
	case answerRight:
		return j.state, "Right: " + right
	}
	return j.state, b.Say(j.says) + " It is " + right
}
