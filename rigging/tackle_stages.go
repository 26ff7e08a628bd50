package rigging

import "fmt"

// Where the hauling part of a simple tackle leaves it.
const (
	HaulFixed  = "fixed"  // from the fixed block, back toward the load
	HaulMoving = "moving" // from the moving block, on toward the anchor
)

// A TackleStage is a simple tackle: how many parts of rope pull on its load
// (1 to 12; at least 2 where the haul leaves the moving block), and which
// block the hauling part leaves (HaulFixed or HaulMoving).
type TackleStage struct {
	Parts    int    `json:"parts"`
	HaulFrom string `json:"haul_from"`
}

// The largest set of stages accepted.
const (
	MaxStageParts = 12
	MaxStages     = 4
)

// check tells what is wrong with a stage, or nil.
func (s TackleStage) check(where string) error {
	least := 1
	switch s.HaulFrom {
	case HaulFixed:
	case HaulMoving:
		least = 2
	default:
		return tackleFault(where+".haul_from", "haul_from", "the haul leaves from %q; it is %q or %q", s.HaulFrom, HaulFixed, HaulMoving)
	}
	if s.Parts < least || s.Parts > MaxStageParts {
		return tackleFault(where+".parts", "parts", "%d parts; with the haul from the %s block it is %d to %d", s.Parts, s.HaulFrom, least, MaxStageParts)
	}
	return nil
}

func checkStages(stages []TackleStage) error {
	if len(stages) == 0 || len(stages) > MaxStages {
		return tackleFault("stages", "stages", "%d stages; a tackle has 1 to %d", len(stages), MaxStages)
	}
	for i, s := range stages {
		if err := s.check(fmt.Sprintf("stages[%d]", i)); err != nil {
			return err
		}
	}
	return nil
}

// The places of a tackle made of stages. A stage pulls its load toward its
// anchor, so one whose load is hauled back has its anchor beyond the load.
const (
	nearAnchorAt, farAnchorAt = 0.0, 12.0
	nearHaulAt, farHaulAt     = -2.0, 14.0
	loadAt                    = 10.0
)

// StagesReeving is the reeving of stages compounded in order from the load:
// the haul of one is the load of the next, and each has an anchor of its
// own. One stage is a simple tackle. Errors are *ReevingError.
//
// The nodes are "load", "haul", "anchor 1" … in order of the stages, and
// "block 1" … where one stage's haul is tied to the next one's moving block.
func StagesReeving(stages []TackleStage) (Reeving, error) {
	if err := checkStages(stages); err != nil {
		return Reeving{}, err
	}
	load := ReevingNode{ID: "load", Kind: LoadNode, At: loadAt}
	reeving := Reeving{Nodes: []ReevingNode{load}}
	toNear := true // the way the stage pulls its load
	for i, s := range stages {
		anchor := ReevingNode{ID: fmt.Sprintf("anchor %d", i+1), Kind: AnchorNode, At: farAnchorAt}
		if toNear {
			anchor.At = nearAnchorAt
		}
		if s.HaulFrom == HaulFixed {
			toNear = !toNear // the haul comes back
		}
		haul := ReevingNode{ID: fmt.Sprintf("block %d", i+1), Kind: MovingNode, At: (load.At + anchor.At) / 2}
		if i == len(stages)-1 {
			haul = ReevingNode{ID: "haul", Kind: HaulNode, At: farHaulAt}
			if toNear {
				haul.At = nearHaulAt
			}
		}
		reeving.Nodes = append(reeving.Nodes, anchor, haul)
		reeving.Ropes = append(reeving.Ropes, ReevingRope{Path: s.path(load.ID, anchor.ID, haul.ID)})
		load = haul
	}
	return reeving, nil
}

// path of the rope of one stage from its made-fast end. Seen from the haul
// the rope goes back and forth between the blocks until it has its parts.
func (s TackleStage) path(load, anchor, haul string) []string {
	blocks := [2]string{load, anchor}
	ends := s.Parts
	if s.HaulFrom == HaulFixed {
		blocks = [2]string{anchor, load}
		ends++ // the hauling part does not pull on the load
	}
	path := make([]string, ends+1)
	path[ends] = haul
	for i := range ends {
		path[ends-1-i] = blocks[i%2]
	}
	return path
}
