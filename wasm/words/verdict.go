package words

import "pullline/rigging"

// Words for the verdicts. None of them says that anything is safe: a verdict
// is about the numbers typed, as far as the model goes.
var (
	Headline = [...]Text{
		rigging.Within:  "Within limits as computed",
		rigging.Near:    "Near the limit",
		rigging.Over:    "Over the limit",
		rigging.Unknown: "Not known – something is missing",
	}
	// OnlyIfHeld is the word where a plan is near its limits for no other reason
	// than that its puller can pull more than it may.
	OnlyIfHeld Text = "Within limits only if held to %s"
	// Where no piece, puller or point is: the hinge, the place of a puller, what
	// is out of the ordinary.
	NotLikeThis Text = "Do not pull like this"
	LookAgain   Text = "Check again before pulling"
	Verdict          = [...]Text{
		rigging.Within:  "Within",
		rigging.Near:    "Near",
		rigging.Over:    "Over",
		rigging.Unknown: "Not known",
	}
)

// AnchorEstimate stands beside every anchor.
const AnchorEstimate Text = "An estimate until a competent person has judged the anchor in place."
