package rigging

import "strings"

// A reeving in letters is short enough for an address: a letter for every
// place the rope touches, from its made-fast end to its other end, and a dot
// between ropes. "LALH" is a rope made fast to the load, turned at the
// anchor, turned at the load and hauled on: a 3:1. The letters stand in the
// order of the places along the tackle, but for the two ends where it can be
// hauled.
//
//	A        the anchor
//	B, C, D  blocks that travel between anchor and load, B nearest the anchor
//	L        the load
//	Y        a block that travels beyond the load
//	Z        an anchor beyond the load
//	H        hauled on, past the anchor
//	R        hauled back, past the load
const ReevingLetters = "ABCDLYZ"

// The ends at which a rope is hauled.
const (
	HauledOn   = 'H'
	HauledBack = 'R'
)

// MaxReevingText is the longest text taken, letters and dots.
const MaxReevingText = 60

var letterNodes = [...]ReevingNode{
	{"A", AnchorNode, nearAnchorAt},
	{"B", MovingNode, 2.5},
	{"C", MovingNode, 5},
	{"D", MovingNode, 7.5},
	{"L", LoadNode, loadAt},
	{"Y", MovingNode, 11},
	{"Z", AnchorNode, farAnchorAt},
	{"H", HaulNode, nearHaulAt},
	{"R", HaulNode, farHaulAt},
}

// LetterNode is the place of a letter of ReevingLetters, or of a haul.
func LetterNode(letter byte) (ReevingNode, bool) {
	for _, n := range letterNodes {
		if n.ID[0] == letter {
			return n, true
		}
	}
	return ReevingNode{}, false
}

// ParseReeving reads a reeving in letters, large or small; spaces and hyphens
// between them are passed over, and so is a rope without a place. Whether it
// is finished and moves, only Solve tells: this refuses only what is no
// such text. Errors are *ReevingError.
func ParseReeving(text string) (Reeving, error) {
	var r Reeving
	if len(text) > MaxReevingText {
		return r, reevingErrorf("", "the text has %d letters; it has at most %d", len(text), MaxReevingText)
	}
	var used [len(letterNodes)]bool
	for _, rope := range strings.Split(strings.ToUpper(text), ".") {
		var path []string
		for _, letter := range rope {
			if letter == ' ' || letter == '-' {
				continue
			}
			at := -1
			for i, n := range letterNodes {
				if rune(n.ID[0]) == letter {
					at = i
				}
			}
			if at < 0 {
				return Reeving{}, reevingErrorf("", "%q is no place; the places are %s, and %c or %c where it is hauled", string(letter), ReevingLetters, HauledOn, HauledBack)
			}
			used[at] = true
			path = append(path, letterNodes[at].ID)
		}
		if path != nil {
			r.Ropes = append(r.Ropes, ReevingRope{Path: path})
		}
	}
	for i, n := range letterNodes {
		if used[i] {
			r.Nodes = append(r.Nodes, n)
		}
	}
	return r, nil
}

// Letters names the nodes of a reeving by the letters above, "" where there
// are more of a kind than letters. Anchors on one side of the load share one.
func (r Reeving) Letters() []string {
	at := 0.0
	for _, n := range r.Nodes {
		if n.Kind == LoadNode {
			at = n.At
		}
	}
	letters := make([]string, len(r.Nodes))
	for i, n := range r.Nodes {
		near := n.At < at
		switch {
		case n.Kind == LoadNode:
			letters[i] = "L"
		case n.Kind == AnchorNode && near:
			letters[i] = "A"
		case n.Kind == AnchorNode:
			letters[i] = "Z"
		case n.Kind == HaulNode && near:
			letters[i] = "H"
		case n.Kind == HaulNode:
			letters[i] = "R"
		default:
			before := 0
			for k, m := range r.Nodes {
				if m.Kind == MovingNode && m.At < at == near && (m.At < n.At || m.At == n.At && k < i) {
					before++
				}
			}
			switch {
			case near && before < 3:
				letters[i] = "BCD"[before : before+1]
			case !near && before == 0:
				letters[i] = "Y"
			}
		}
	}
	return letters
}

// ReevingText writes a reeving in letters; false where it has more places
// than there are letters. The order along the axis is kept, and so are all
// advantages and tensions; anchors on one side become one, and what a rope
// says of its own sheaves is left out.
func ReevingText(r Reeving) (string, bool) {
	letters := r.Letters()
	var b strings.Builder
	for i, rope := range r.Ropes {
		if i > 0 {
			b.WriteByte('.')
		}
		for _, id := range rope.Path {
			letter := ""
			for k, n := range r.Nodes {
				if n.ID == id {
					letter = letters[k]
				}
			}
			if letter == "" {
				return "", false
			}
			b.WriteString(letter)
		}
	}
	return b.String(), true
}
