package plan

import (
	"strconv"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan/text"
)

// A Depth is how far a plan is worked out. Each goes on from the one before and
// costs about as much again; the numbers are the same at every depth. What a depth
// does not come to is empty, its numbers None, and without a judgement the verdict
// is unknown: less is never more reassuring. The zero Depth is the least.
type Depth int

// The depths, from the least.
const (
	// ToPull reads the plan and solves the pull: Tree and Pull without its curve
	// and what the puller may be held to, and the problems of these.
	ToPull Depth = iota
	// ToVerdict judges: Verdict with Why, the rows of Points and Gear, the problems,
	// and Lines without their legs and what the rope does by itself.
	ToVerdict
	// ToReport is everything but the working.
	ToReport
	// ToWorking shows how each number came about too.
	ToWorking
)

func (d Depth) String() string {
	switch d {
	case ToPull:
		return "pull"
	case ToVerdict:
		return "verdict"
	case ToReport:
		return "report"
	case ToWorking:
		return "working"
	}
	return "Depth(" + strconv.Itoa(int(d)) + ")"
}

// whyNotJudged is the reason of a report that does not come to a verdict.
const whyNotJudged = "not_judged"

// EvaluateJSON reads a plan and writes its report, without the working. It
// answers to any input with a report; what is wrong is in its problems.
func EvaluateJSON(raw []byte) []byte { return evaluateJSON(raw, ToReport, 16<<10) }

// WorkingJSON is EvaluateJSON with the working.
func WorkingJSON(raw []byte) []byte { return evaluateJSON(raw, ToWorking, 96<<10) }

func evaluateJSON(raw []byte, depth Depth, room int) []byte {
	rep := evaluateTo(raw, depth)
	rep.Tell(&text.Voice{})
	w := jsontext.NewWriter(room)
	rep.AppendJSON(w)
	return w.Bytes()
}

// Evaluate reads a plan and computes its report, with the working.
func Evaluate(raw []byte) Report { return evaluateTo(raw, ToWorking) }

func evaluateTo(raw []byte, depth Depth) Report {
	if len(raw) > MaxBytes {
		return EvaluateTo(nil, len(raw), depth)
	}
	tree, err := jsontext.Parse(raw)
	if err != nil {
		r := &reader{}
		key, args := unreadable(err)
		r.problem(CodeUnreadable, "", takes("json"), nil, key, args...)
		return r.report(nil)
	}
	return EvaluateTo(tree, len(raw), depth)
}

// EvaluateTree computes the report, with the working, of a plan that package
// jsontext has read from a text of so many bytes. The tree is left as it is.
func EvaluateTree(tree any, size int) Report { return EvaluateTo(tree, size, ToWorking) }

// EvaluateTo is EvaluateTree to a depth.
func EvaluateTo(tree any, size int, depth Depth) Report {
	r, e := workOut(&reader{}, tree, size, depth)
	return r.report(e)
}

// notJudged says that a report does not come to a verdict.
func (e *evaluation) notJudged(rep *Report) {
	rep.Why = append(rep.Why, e.r.whyProblems()...)
	rep.Why = append(rep.Why, Why{Code: whyNotJudged, Verdict: rigging.Unknown, Saying: text.Saying{Key: "why." + whyNotJudged}})
}
