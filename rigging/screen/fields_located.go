package screen

import (
	"strings"

	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/words"
)

// located is a problem's message with the part of the plan it lies in before
// it, unless the message names a part itself.
func located(d *draft.Plan, p plan.Problem) string {
	if p.Message == "" {
		return "The plan has a problem at " + p.Path + "."
	}
	if owner := ownerOf(d, p.Path); owner != "" && !strings.Contains(p.Message, "“") {
		return owner + ": " + p.Message
	}
	return words.Capital(p.Message)
}
