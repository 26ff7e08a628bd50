package changes

import (
	"slices"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// An Answer is the changes that bring a plan within its limits, least effort first.
type Answer struct {
	Verdict rigging.Verdict `json:"verdict"` // of the plan as it is
	Use     plan.Num        `json:"use"`     // of its worst row
	Changes []Change        `json:"changes"`
	// None says why there are none: "within", nothing has to change; "incomplete",
	// something is missing or wrong first; "nothing_serves"; "" where there are some.
	None     string         `json:"none"`
	Problems []plan.Problem `json:"problems"`
}

// A Change is one change, or two that serve only together.
type Change struct {
	Set     []Set           `json:"set"`
	Code    string          `json:"code"`    // what is changed, such as tie or move; of two, both with a +
	Verdict rigging.Verdict `json:"verdict"` // of the plan after it
	Use     plan.Num        `json:"use"`     // of its worst row after it
	Effort  int             `json:"effort"`  // from 1, a setting, on; it only orders
	// ToFind: it needs a piece, an anchor or a device that the plan and the gear list
	// do not have. Written into the plan before it is there, it would only reassure.
	ToFind  bool   `json:"to_find"`
	Message string `json:"message"`

	Said []text.Saying `json:"-"` // what Message says
}

// A Set is one value of the plan that changes.
type Set struct {
	Path string `json:"path"`
	From any    `json:"from"` // null where the plan leaves it out
	To   any    `json:"to"`
}

// Why there are no changes.
const (
	NoneWithin     = "within"
	NoneIncomplete = "incomplete"
	NoneServes     = "nothing_serves"
)

// Options are what the leader allows.
type Options struct {
	// TieUpTo is the height (m) up to which the line may be made fast on the stem; 0
	// leaves it to the rule for the top of a tree.
	TieUpTo float64
	// GearList is the crew's gear list, nil without one.
	GearList map[string]any
}

// JSON answers {"plan": …, "tie_up_to_m": 16, "gear_list": {…}} with an Answer; the last two
// may be left out.
func JSON(request []byte) []byte {
	q := plan.ReadRequest(request, "tie_up_to_m", "gear_list")
	upTo := field.StationStem.Row().Range
	upTo.Above = false // 0 leaves it to the rule
	o := Options{TieUpTo: q.Number("tie_up_to_m", upTo, 0), GearList: q.Object("gear_list")}
	var a Answer
	if len(q.Problems) == 0 {
		a = Of(q.Tree, q.Size, o)
	} else {
		rep := plan.EvaluateTo(q.Tree, q.Size, plan.ToReport)
		a = Answer{Verdict: rep.Verdict.Worse(rigging.Unknown), Use: rep.GoverningUse, Changes: []Change{}, None: NoneIncomplete, Problems: append(slices.Clone(q.Problems), rep.Problems...)}
	}
	a.Tell(&text.Voice{})
	return jsontext.Encode(&a)
}

// Tell says everything in it that is to be read.
func (a *Answer) Tell(v *text.Voice) {
	plan.TellProblems(a.Problems, v)
	for i := range a.Changes {
		c := &a.Changes[i]
		c.Message = ""
		for k, s := range c.Said {
			if k > 0 {
				c.Message += " "
			}
			c.Message += v.Say(s)
		}
	}
}
