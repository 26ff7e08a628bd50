package rigging

import "fmt"

// A ReadyReeving is a tackle that crews rig again and again, described by
// its structure. Ideal is its advantage without friction. Stages is set
// where it is a simple or a compound one, and then gives the same reeving.
type ReadyReeving struct {
	Key         string
	Name        string
	Description string
	Ideal       float64
	Stages      []TackleStage
	Reeving     Reeving
	Source      string // where it is published; "" for common practice
}

// ReadyReevings are the ready-made tackles: simple, compound, then complex,
// by rising advantage. Each call gives a fresh copy. The advantages follow
// from the arrangement (see Solve); which ones are listed is common
// practice, no source.
func ReadyReevings() []ReadyReeving {
	var ready []ReadyReeving
	for parts := 2; parts <= 5; parts++ {
		ready = append(ready, simpleReady(parts, HaulMoving))
	}
	for parts := 2; parts <= 5; parts++ {
		ready = append(ready, simpleReady(parts, HaulFixed))
	}
	for _, parts := range [][]int{{2, 2}, {2, 3}, {3, 2}, {2, 2, 2}, {3, 3}} {
		ready = append(ready, compoundReady(parts))
	}
	ready = append(ready, luffOnPurchase(), compoundReady([]int{2, 2, 2, 2}))
	for i := range ready {
		for _, p := range publishedTackles {
			if p[0] == ready[i].Key {
				ready[i].Source = p[1]
			}
		}
	}
	return append(append(ready, complexReady()...), thirdOrderReady())
}

// publishedTackles are the ready-made ones a publication works out, by key.
var publishedTackles = [...][2]string{
	{"simple-2-fixed", "gun tackle: US Navy training course, Builder 2 & 3, ch. 4"},
	{"simple-3-moving", "single luff tackle: US Navy training course, Builder 2 & 3, ch. 4"},
	{"simple-4-fixed", "twofold purchase: US Navy training course, Steelworker 2, allowance for friction"},
	{"compound-4-fixed-3", "twofold purchase with a tackle of three on its hauling part: Nicholls's Seamanship and Nautical Knowledge"},
	{"compound-2-2-2-2", "first order of pulleys, four that travel: Tayal, Engineering Mechanics, example 8.3"},
}

// luffOnPurchase is a twofold purchase with a tackle of three parts on its
// hauling part, which comes back past the load.
func luffOnPurchase() ReadyReeving {
	return ReadyReeving{Key: "compound-4-fixed-3", Ideal: 12,
		Name:        "12:1 compound, a 3:1 hauling a 4:1 that is hauled back",
		Description: "The hauling part of a 4:1 comes back past the load; a 3:1 is tied to it, with an anchor of its own beyond the load.",
	}.withStages([]TackleStage{{4, HaulFixed}, {3, HaulMoving}})
}

// thirdOrderReady is the third order of pulleys: every rope is tied to the
// load and turns at a block that hangs in the rope before.
func thirdOrderReady() ReadyReeving {
	r := ReadyReeving{Key: "complex-15-third-order", Ideal: 15,
		Name:        "15:1 complex, third order of pulleys, hauled back beyond the load",
		Description: "Four ropes are tied to the load. The first turns at the anchor; each of the others at a block tied to the end of the rope before.",
		Source:      "third order of pulleys, 2⁴ − 1: Khurmi, Engineering Mechanics, example 11.19",
	}
	r.Reeving, _ = ParseReeving("load-anchor-block1;load-block1-block2;load-block2-block3;load-block3-haulback")
	return r
}

func simpleReady(parts int, haulFrom string) ReadyReeving {
	r := ReadyReeving{
		Key:         fmt.Sprintf("simple-%d-%s", parts, haulFrom),
		Name:        fmt.Sprintf("%d:1 simple, hauled on toward the anchor", parts),
		Description: fmt.Sprintf("%d parts of rope pull on the moving block; the hauling part is one of them and leaves it toward the anchor.", parts),
		Ideal:       float64(parts),
	}
	if haulFrom == HaulFixed {
		r.Name = fmt.Sprintf("%d:1 simple, hauled back from the anchor", parts)
		r.Description = fmt.Sprintf("%d parts of rope pull on the moving block; the hauling part leaves the fixed block and only turns the rope back.", parts)
	}
	return r.withStages([]TackleStage{{parts, haulFrom}})
}

// compoundReady compounds simple tackles, all hauled from the moving block.
func compoundReady(parts []int) ReadyReeving {
	r := ReadyReeving{Key: "compound", Ideal: 1}
	how := ""
	var stages []TackleStage
	for i, n := range parts {
		stages = append(stages, TackleStage{n, HaulMoving})
		r.Ideal *= float64(n)
		r.Key += fmt.Sprintf("-%d", n)
		if i == 0 {
			how = fmt.Sprintf("a %d:1", n)
		} else {
			how = fmt.Sprintf("a %d:1 hauling %s", n, how)
		}
	}
	r.Name = fmt.Sprintf("%g:1 compound, %s", r.Ideal, how)
	r.Description = "Simple tackles one behind the other: the moving block of each is tied to the hauling part of the one before. Each has its own anchor point. The shorter travel of one of them ends the stroke of all."
	return r.withStages(stages)
}

// withStages fills in the stages and their reeving.
func (r ReadyReeving) withStages(stages []TackleStage) ReadyReeving {
	r.Stages = stages
	// The stages above are all in range, so there is no error to pass on;
	// every ready-made one is solved in the tests.
	r.Reeving, _ = StagesReeving(stages)
	return r
}

var (
	loadAnchorTie = []string{"load", "anchor", "tie"}           // one part on the load
	doubledAtLoad = []string{"anchor", "load", "anchor", "tie"} // two parts on the load
)

const (
	tied    = "The rope from the load turns back at the anchor and ends at a tie, which travels toward the load. "
	doubled = "The rope goes from the anchor round the load's block and the anchor's, and ends at a tie, which travels toward the load. "
)

var complexTackles = [...]struct {
	ideal       int
	key         string
	on          bool // hauled on toward the anchor, else back beyond the load
	description string
	first       []string
	second      []string
}{
	{3, "complex-3-back", false, tied + "A second rope goes from the load round a block at the tie and is hauled back beyond the load.",
		loadAnchorTie, []string{"load", "tie", "haul"}},
	{4, "complex-4-back", false, tied + "A second rope goes from the anchor round the load's block and a block at the tie and is hauled back beyond the load.",
		loadAnchorTie, []string{"anchor", "load", "tie", "haul"}},
	{4, "complex-4-on", true, doubled + "A second rope goes from the tie round the load's block and is hauled on.",
		doubledAtLoad, []string{"tie", "load", "haul"}},
	{5, "complex-5-on", true, tied + "A second rope goes from the load round a block at the tie and back round the load's block and is hauled on.",
		loadAnchorTie, []string{"load", "tie", "load", "haul"}},
	{5, "complex-5-back", false, tied + "A second rope goes from the tie round the load's block and a block at the tie and is hauled back beyond the load.",
		loadAnchorTie, []string{"tie", "load", "tie", "haul"}},
	{6, "complex-6-on", true, tied + "A second rope goes from the anchor round the load's block, a block at the tie and the load's block again and is hauled on.",
		loadAnchorTie, []string{"anchor", "load", "tie", "load", "haul"}},
	{7, "complex-7-on", true, tied + "A second rope goes from the tie round the load's block, a block at the tie and the load's block again and is hauled on.",
		loadAnchorTie, []string{"tie", "load", "tie", "load", "haul"}},
	{7, "complex-7-doubled", true, doubled + "A second rope goes from the load round a block at the tie and back round the load's block and is hauled on.",
		doubledAtLoad, []string{"load", "tie", "load", "haul"}},
}

// complexReady are the ones in which a block travels against the load: the
// rope from the load, turned back at the anchor, ends at a tie that moves
// toward the load, and a second run of rope works between the two.
func complexReady() []ReadyReeving {
	ready := make([]ReadyReeving, len(complexTackles))
	for i := range complexTackles {
		c := &complexTackles[i]
		way, haulAt := "hauled back beyond the load", farHaulAt
		if c.on {
			way, haulAt = "hauled on toward the anchor", nearHaulAt
		}
		name := fmt.Sprintf("%d:1 complex, %s", c.ideal, way)
		if c.key == "complex-7-doubled" {
			name = fmt.Sprintf("%d:1 complex, doubled at the load, %s", c.ideal, way)
		}
		ready[i] = ReadyReeving{
			Key: c.key, Name: name, Description: c.description, Ideal: float64(c.ideal),
			Reeving: Reeving{
				Nodes: []ReevingNode{
					{ID: "anchor", Kind: AnchorNode, At: nearAnchorAt},
					{ID: "tie", Kind: MovingNode, At: (nearAnchorAt + loadAt) / 2},
					{ID: "load", Kind: LoadNode, At: loadAt},
					{ID: "haul", Kind: HaulNode, At: haulAt},
				},
				Ropes: []ReevingRope{
					{Path: append([]string(nil), c.first...)},
					{Path: append([]string(nil), c.second...)},
				},
			},
		}
	}
	return ready
}
