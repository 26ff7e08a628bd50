package field

import "pullline/rigging"

// What a line does.
const (
	Pull = "pull"
	Hold = "hold"
)

// Where a tree grew.
const (
	InForest = "forest"
	InOpen   = "open"
)

// AtStem names the stem where a piece sits or an end of a line is; LastEnd names
// the hauling end.
const (
	AtStem  = "stem"
	LastEnd = "end"
)

// The block of a simple tackle that its hauling part leaves.
const (
	Fixed  = "fixed"
	Moving = "moving"
)

// What limits a puller.
const (
	Stall   = "stall"   // it pulls until it stalls
	Device  = "device"  // a relief valve, slipping clutch or shear pin
	Grip    = "grip"    // it pulls by driving, until it slips
	Watched = "watched" // someone reads a load indicator and stops it
)

// The kinds of gear.
const (
	WireRope  = "wire_rope"
	FibreRope = "fibre_rope"
	Sling     = "sling"
	Shackle   = "shackle"
	Block     = "block"
	Chain     = "chain"
	Winch     = "winch"
	OtherGear = "other"
)

// Kinds of people and things that are treated apart.
const (
	SawOperator = "saw_operator"
	PowerLine   = "power_line" // its owner's to judge, never ours
)

// What a gear list calls itself, and the versions of the two formats that are
// written.
const (
	GearListKind    = "pull-line gear"
	GearListVersion = 1
	PlanVersion     = 1
)

var (
	nodeKinds   = wordsOf([]rigging.NodeKind{rigging.AnchorNode, rigging.MovingNode, rigging.LoadNode, rigging.HaulNode})
	defectKinds = wordsOf(rigging.DefectKinds)
	outcomes    = []string{rigging.Keep.String(), rigging.Judged.String(), rigging.Retire.String()}
)

// wordsOf are words of a type of their own.
func wordsOf[W ~string](list []W) []string {
	words := make([]string, len(list))
	for i, w := range list {
		words[i] = string(w)
	}
	return words
}
