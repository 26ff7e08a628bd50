package field

// An Anchor is a kind of anchor. Its zero value is none.
type Anchor uint8

// The kinds of anchor.
const (
	NoAnchor Anchor = iota
	Rated
	Machine
	StandingTree
	Stump
	BuriedLog
	Pickets
	Bridle  // shared between two or three points
	Anchors // how many there are
)

// An AnchorRow is what the format says of a kind of anchor.
type AnchorRow struct {
	Word   string  // in the plan
	Fields []Field // its own besides the kind, in the order of the form
	// Level: it holds against the level part of a pull; the others hold against
	// the whole of it.
	Level bool
}

var anchors = [Anchors]AnchorRow{
	Rated:        {Word: "rated", Fields: []Field{RatedCapacity}},
	Machine:      {Word: "machine", Fields: []Field{MachineMass, MachineTraction, MachineSlope, MachineRated}, Level: true},
	StandingTree: {Word: "tree", Fields: []Field{AnchorDiameter, AnchorHeight, AnchorSling, AnchorTurning, AnchorFactor, AnchorForm, AnchorDensity}, Level: true},
	Stump:        {Word: "stump", Fields: []Field{AnchorDiameter, AnchorHeight, AnchorSling, AnchorTurning, StumpFactor, AnchorForm, AnchorDensity}, Level: true},
	BuriedLog:    {Word: "buried_log", Fields: []Field{LogDepth, LogLength, LogDiameter, LogSlot, LogSoil, GroundFactor}},
	Pickets:      {Word: "pickets", Fields: []Field{PicketRows, PicketSoil, GroundFactor}},
	Bridle:       {Word: "bridle", Fields: []Field{BridleLegs, BridleSelfAdjusting}},
}

var anchorWords = func() (words []string) {
	for _, a := range AnchorKinds() {
		words = append(words, a.Row().Word)
	}
	return words
}()

// AnchorKinds are the kinds of anchor that there are.
func AnchorKinds() []Anchor {
	kinds := make([]Anchor, 0, Anchors-1)
	for a := NoAnchor + 1; a < Anchors; a++ {
		kinds = append(kinds, a)
	}
	return kinds
}

// AnchorNamed is the kind of anchor that a plan calls so, NoAnchor for a word
// that is none.
func AnchorNamed(word string) Anchor {
	for a := NoAnchor + 1; a < Anchors; a++ {
		if anchors[a].Word == word {
			return a
		}
	}
	return NoAnchor
}

// Row is the kind's row of the table, which is not to be changed.
func (a Anchor) Row() *AnchorRow { return &anchors[a] }
