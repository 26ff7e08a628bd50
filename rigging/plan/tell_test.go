package plan

import "pullline/rigging/plan/text"

var plainly = &text.Voice{}

func say(s text.Saying) string { return plainly.Say(s) }

// said is a report with its sentences.
func said(rep Report) Report {
	rep.Tell(plainly)
	return rep
}
