package rigging

import (
	"slices"
	"strings"
)

// A reeving in words is short enough for an address: the places the rope
// touches, from its made-fast end to its other end, with hyphens between
// them, and a semicolon between ropes. "load-anchor-load-haul" is a rope made
// fast to the load, turned at the anchor, turned at the load and hauled on: a
// 3:1.

// MaxReevingText is the longest text taken, in bytes.
const MaxReevingText = 600

// reevingPlaces lie in the order of the tackle's axis, but for the two where it
// is hauled. Numbers count from the anchor's side.
var reevingPlaces = [...]ReevingNode{
	{"anchor", AnchorNode, nearAnchorAt},
	{"block1", MovingNode, 2.5},
	{"block2", MovingNode, 5},
	{"block3", MovingNode, 7.5},
	{"load", LoadNode, loadAt},
	{"block4", MovingNode, 11},
	{"anchor2", AnchorNode, farAnchorAt},
	{"haul", HaulNode, nearHaulAt},
	{"haulback", HaulNode, farHaulAt},
}

// ReevingPlaces are the places a reeving in words can have, from the anchor's
// side to the load's: the anchor, three blocks that travel between it and the
// load, the load, and beyond it another block and another anchor; then where
// it can be hauled, on past the anchor or back past the load. Their ids are
// their names.
func ReevingPlaces() []ReevingNode { return slices.Clone(reevingPlaces[:]) }

// ParseReeving reads a reeving in words, in large or small letters. Commas
// and spaces do for hyphens, a number may stand apart from its word, "haul
// on" is haul, "haul back" haulback and "anchor 1" anchor; a rope without a place is passed over.
// Whether the reeving is finished and moves, only Solve tells: this refuses
// only what is no such text. Errors are *ReevingError.
func ParseReeving(text string) (Reeving, error) {
	var r Reeving
	if len(text) > MaxReevingText {
		return r, reevingErrorf("", "the text has %d characters; it has at most %d", len(text), MaxReevingText)
	}
	var used [len(reevingPlaces)]bool
	for _, rope := range strings.Split(strings.ToLower(text), ";") {
		var path []string
		for _, name := range placeNames(rope) {
			i := placeNamed(name)
			if i < 0 {
				return Reeving{}, reevingErrorf("", "%q is no place; the places are %s", name, allPlaceNames())
			}
			used[i] = true
			path = append(path, reevingPlaces[i].ID)
		}
		if path != nil {
			r.Ropes = append(r.Ropes, ReevingRope{Path: path})
		}
	}
	for i, n := range reevingPlaces {
		if used[i] {
			r.Nodes = append(r.Nodes, n)
		}
	}
	return r, nil
}

// placeNames splits a rope into the names of its places. A number, "on" and
// "back" belong to the word before.
func placeNames(rope string) []string {
	var names []string
	for _, word := range strings.FieldsFunc(rope, func(c rune) bool { return c == '-' || c == ',' || c == ' ' }) {
		last := len(names) - 1
		if follows := strings.Trim(word, "0123456789") == "" || word == "on" || word == "back"; follows && last >= 0 {
			names[last] += word
		} else {
			names = append(names, word)
		}
	}
	return names
}

// placeNamed finds a place by its name, -1 where there is none.
func placeNamed(name string) int {
	switch name {
	case "haulon":
		name = "haul"
	case "anchor1":
		name = "anchor"
	}
	for i, n := range reevingPlaces {
		if n.ID == name {
			return i
		}
	}
	return -1
}

func allPlaceNames() string {
	var names []string
	for _, n := range reevingPlaces {
		names = append(names, n.ID)
	}
	return strings.Join(names, ", ")
}

// places names the nodes of a reeving in words, none where there are more
// blocks than names. Anchors on one side of the load share one.
func (r Reeving) places() map[string]string {
	names := map[string]string{}
	for _, n := range r.Nodes {
		if slices.Contains(reevingPlaces[:], n) {
			names[n.ID] = n.ID
		}
	}
	if len(names) == len(r.Nodes) {
		return names // read from words
	}
	clear(names)
	at := 0.0
	for _, n := range r.Nodes {
		if n.Kind == LoadNode {
			at = n.At
		}
	}
	for i, n := range r.Nodes {
		near, before := n.At < at, 0
		for k, m := range r.Nodes {
			if m.Kind == MovingNode && m.At < at == near && (m.At < n.At || m.At == n.At && k < i) {
				before++
			}
		}
		for _, place := range reevingPlaces {
			if place.Kind != n.Kind || place.Kind != LoadNode && place.At < loadAt != near {
				continue
			}
			if place.Kind != MovingNode || before == 0 {
				names[n.ID] = place.ID
				break
			}
			before--
		}
	}
	return names
}

// ReevingText writes a reeving in words; false where it has more blocks than
// there are names. The order along the axis is kept, and so are all
// advantages and tensions; anchors on one side become one, and what a rope
// says of its own sheaves is left out.
func ReevingText(r Reeving) (string, bool) {
	names := r.places()
	var ropes []string
	for _, rope := range r.Ropes {
		var path []string
		for _, id := range rope.Path {
			if names[id] == "" {
				return "", false
			}
			path = append(path, names[id])
		}
		ropes = append(ropes, strings.Join(path, "-"))
	}
	return strings.Join(ropes, ";"), true
}
