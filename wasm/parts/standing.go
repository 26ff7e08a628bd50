package parts

import (
	"pullline/rigging/plan"
	"pullline/wasm/words"
)

// Standing are the notes always shown.
func Standing(l words.Locale) []Note {
	out := make([]Note, len(standingNotes))
	for i, n := range standingNotes {
		n.Message = l.Words(n.Message)
		out[i] = n
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

var standingNotes = []Note{
	{Code: "competent", Message: "Soundness of the tree, of every anchor and of the gear, and the go-ahead, are for a competent, licensed person on the spot. Local codes and licensed practice come first; this page replaces neither.", Source: words.CommonPractice},
	{Code: "estimate", Message: "Mass, mass {centre}, hinge strength, side hold, anchor capacity and drift are estimates from what was typed. A number that is typed wrong gives an answer that is wrong.", Source: words.CommonPractice},
	{Code: "two-lengths", Message: "Keep everyone but the {feller} at least two tree lengths from the tree. Where the line is too short for that, redirect the pull.", Source: plan.SourceTwoLengths},
	{Code: "bight", Message: "Nobody stands in the bight of a redirected line, or in line with a loaded rope, {block} or anchor: when something parts, both ends come back. {Fibre} rope gives no warning.", Source: "MGN 308 (M+F), 2.2; TB 55-1900-232-10, p. C-5; NAVEDTRA 14067"},
	{Code: "signals", Message: "One person gives the signals, the {saw operator} is in charge, and any unclear signal means stop.", Source: "UK HSE, Winches in directional felling"},
	{Code: "power-lines", Message: "Look for {power lines} within reach of the tree, the rope and the machine, falling or recoiling. Near them, stop and ask the network's owner.", Source: words.CommonPractice},
	{Code: "left-out-dynamic", Message: "Left out: jerk, shock and swing. Every load here is steady. A slack line that snatches tight, a machine that drives off or a tree that sits back can multiply it.", Source: "the model of this page"},
	{Code: "left-out-wood", Message: "Left out: rot, cracks and dead wood other than the cavity in the {hinge}, barber-chair, root failure, a stem that breaks where the rope sits, branches that catch, wood that differs from its species' average, gusts.", Source: "the model of this page"},
	{Code: "left-out-gear", Message: "Left out: wear, damage, bent or mismatched fittings, and every piece that was not listed. The weakest piece that is not in the list is not judged.", Source: "the model of this page"},
}
