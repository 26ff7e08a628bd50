package judgement

import (
	"pullline/rigging"
	"pullline/rigging/judgement/changes"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Right is what would make a plan right.
type Right struct {
	Items   []Item `json:"items"`
	Message string `json:"message"` // where there are none
}

// An Item is one change, with what the plan comes to before and after it.
type Item struct {
	Message string         `json:"message"`
	Before  string         `json:"before"`
	After   string         `json:"after"`
	Note    string         `json:"note"`    // why there are no changes
	Changes []parts.Change `json:"changes"` // none where something has to be found first
}

const (
	before     words.Text = "Now: %s"
	after      words.Text = "Then: %s"
	toFind     words.Text = "Enter it in the plan once you have it."
	rightNow   words.Text = "Nothing has to change: the plan is within its limits as computed."
	onlyKnown  words.Text = "As planned nothing has to change, but that is not sure enough: measure again, or leave more room."
	incomplete words.Text = "First give what is missing, and put right what is wrong."
	nothing    words.Text = "No single change, nor two together, that the page knows of brings this plan within its limits. Plan it another way, or have it looked at by someone with more experience."
)

// RightJSON answers a request for what would make a plan right.
//
//codec:call asked Right
func RightJSON(raw []byte) []byte {
	return answer(raw, func(a *asked, d *draft.Plan, u *units.System) written {
		return tellRight(a, d, u)
	}, func(message string) written { return &Right{Items: []Item{}, Message: message} })
}

func tellRight(req *asked, d *draft.Plan, u *units.System) *Right {
	o := changes.Options{}
	if pieces, ok := req.Pieces.([]any); ok {
		o.GearList = plan.NewInventory()
		o.GearList["pieces"] = pieces
	}
	a := changes.Of(req.Plan, req.Size, o)
	a.Tell(d.Voice(u))
	r := &Right{Items: []Item{}}
	for _, c := range a.Changes {
		i := Item{Message: c.Message, Before: d.Say(before, verdictUse(d.Say(words.Headline[a.Verdict]), a.Use)), After: d.Say(after, verdictUse(d.Say(words.Headline[c.Verdict]), c.Use))}
		if a.Verdict == rigging.Unknown {
			i.Before = d.Say(before, d.Say(words.Headline[a.Verdict]))
		}
		if i.Changes = []parts.Change{}; c.ToFind {
			i.Note = d.Say(toFind)
		} else {
			for _, s := range c.Set {
				i.Changes = append(i.Changes, change(s.Path, s.To))
			}
		}
		r.Items = append(r.Items, i)
	}
	switch a.None {
	case changes.NoneWithin:
		r.Message = d.Say(rightNow)
		if req.Sampled != rigging.Within.String() {
			r.Message = d.Say(onlyKnown)
		}
	case changes.NoneIncomplete:
		r.Message = d.Say(incomplete)
	case changes.NoneServes:
		r.Message = d.Say(nothing)
	}
	return r
}
