package parts

import (
	"pullline/rigging/plan"
	"pullline/wasm/words"
)

// Standing are the notes always shown.
func Standing(l words.Locale) []Note {
	out := make([]Note, len(standingNotes))
	for i, n := range standingNotes {
		out[i] = Note{Code: n.code, Message: l.Say(n.message), Source: l.Say(n.source)}
	}
	return out
}

// Stands says whether a caution of that code is always shown: among the
// standing notes, or beside every anchor.
func Stands(code string) bool {
	switch code {
	case "competent", "distance", "recoil", "power_lines", "signals", "statics", "anchor_estimate":
		return true
	}
	return false
}

var standingNotes = []struct {
	code            string
	message, source words.Text
}{
	{"competent", "A competent, licensed person on site judges the tree, every anchor and the gear, and gives the go-ahead. Local codes and licensed practice come first; this page replaces neither.", words.CommonPractice},
	{"estimate", "Mass, {centre} of mass, {hinge} strength, side hold, anchor capacity and drift are estimates from what was typed. A wrong number typed gives a wrong answer.", words.CommonPractice},
	{"two-lengths", "Keep everyone but the {feller} at least two tree lengths from the tree. If the line is too short for that, redirect the pull.", plan.SourceTwoLengths},
	{"bight", "Nobody stands in the bight of a redirected line, or in line with a loaded rope, {block} or anchor: if something parts, both ends recoil. {Fibre} rope gives no warning.", "MGN 308 (M+F), 2.2; TB 55-1900-232-10, p. C-5; NAVEDTRA 14067"},
	{"signals", "One person gives the signals, the {saw operator} is in charge, and any unclear signal means stop.", "UK HSE, Winches in directional felling"},
	{"power-lines", "Look for {power lines} within reach of the tree, rope and machine, falling or recoiling. If any are near, stop and ask the network operator.", words.CommonPractice},
	{"left-out-dynamic", "Left out: jerk, shock and swing. Every load here is steady. A slack line that snatches tight, a machine that drives off or a tree that sits back can multiply it.", "the model of this page"},
	{"left-out-wood", "Left out: rot, cracks and dead wood other than what is entered, wood that splits along the grain (barber-chair), root failure, branches that catch, wood unlike the average of its species, gusts.", "the model of this page"},
	{"left-out-gear", "Left out: wear, damage, bent or mismatched fittings, and every piece not listed. A weak piece that is not in the list is not judged.", "the model of this page"},
}
