package screen

import "math"

// What can come of an answer.
const (
	answerUnread = "unread" // no number, or of another kind: it is not counted as wrong
	answerRight  = "right"
	answerWrong  = "wrong"
)

// wanted is a number a student is asked for.
type wanted struct {
	value     float64 // in the file's unit
	dim       dimension
	tolerance float64 // share of the value by which an answer may be off
	// slips are the numbers that common mistakes lead to.
	slips []slip
}

// A slip is a common mistake: the number it leads to, and where it parts
// ways with the right working.
type slip struct {
	value float64
	says  string
}

// judge reads an answer in the user's unit, or in the one typed with it, and
// says how it compares.
func (b *benchWork) judge(text string, want wanted) (state, message string) {
	v, ok := b.u.parseTyped(text, want.dim)
	if !ok {
		return answerUnread, "Type a number" + unitToType(b.u.unit(want.dim)) + "."
	}
	near := func(w float64) bool { return math.Abs(v-w) <= want.tolerance*math.Abs(w)+slack }
	right := b.u.quantity(want.value, want.dim, nearest)
	within := " (counted as right within " + percent(want.tolerance) + ")."
	if near(want.value) {
		return answerRight, "Right: " + right + within
	}
	for _, s := range want.slips {
		if near(s.value) {
			return answerWrong, b.say(s.says) + " It is " + right + within
		}
	}
	way := "Too much."
	if v < want.value {
		way = "Too little."
	}
	return answerWrong, way + " It is " + right + within
}

func unitToType(unit string) string {
	if unit == "" {
		return ""
	}
	return ", in" + unit + " unless you type another unit after it"
}
