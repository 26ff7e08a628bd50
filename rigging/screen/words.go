package screen

import (
	"strings"

	"pullline/rigging"
)

// trade holds the words of the trade that differ from region to region, as
// they are said in New Zealand and Australia. Labels and sentences name them
// in braces: "{scarf} opening". All else in this package is plain English.
var trade = [...]struct{ key, word string }{
	{"scarf", "scarf"},
	{"Scarf", "Scarf"},
	{"hinge", "hinge"},
	{"Hinge", "Hinge"},
	{"lay", "lay"},
	{"stem", "stem"},
	{"crown", "crown"},
	{"strop", "strop"},
	{"redirect", "redirect block"},
	{"hold line", "hold line"},
	{"Hold line", "Hold line"},
	{"pull line", "pull line"},
	{"Pull line", "Pull line"},
	{"tackle", "tackle"},
	{"Tackle", "Tackle"},
	{"puller", "puller"},
	{"Puller", "Puller"},
	{"buried log", "buried log (deadman)"},
	{"block", "block"},
	{"lean", "lean"},
	{"dead end", "dead end"},
}

// say puts the trade's words into a text that names them in braces.
func say(text string) string {
	if strings.IndexByte(text, '{') < 0 {
		return text
	}
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(text, "{")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		key, after, ok := strings.Cut(rest, "}")
		word, known := tradeWord(key)
		if !ok || !known {
			b.WriteByte('{') // not one of ours: leave the text as it is
			text = rest
			continue
		}
		b.WriteString(word)
		text = after
	}
}

func tradeWord(key string) (string, bool) {
	for i := range trade {
		if trade[i].key == key {
			return trade[i].word, true
		}
	}
	return "", false
}

// Words for the verdicts. None of them says that anything is safe: a verdict
// is about the numbers typed, as far as the model goes.
var (
	headlineWords = [...]string{
		rigging.Within:  "Within limits as computed",
		rigging.Near:    "Near the limit",
		rigging.Over:    "Over the limit",
		rigging.Unknown: "Not known – something is missing",
	}
	pieceWords = [...]string{
		rigging.Within:  "Within",
		rigging.Near:    "Near",
		rigging.Over:    "Over",
		rigging.Unknown: "Not known",
	}
)

// anchorEstimate stands beside every anchor.
const anchorEstimate = "An estimate until a competent person has judged the anchor in place."

// commonPractice is the source of a caution that rests on no publication of
// its own but on the trade's plain practice.
const commonPractice = "common practice, no source"

// standing are the notes always shown.
func standing() []Note {
	out := make([]Note, len(standingNotes))
	for i, n := range standingNotes {
		n.Message = say(n.Message)
		out[i] = n
	}
	return out
}

var standingNotes = []Note{
	{Code: "competent", Message: "Soundness of the tree, of every anchor and of the gear, and the go-ahead, are for a competent, licensed person on the spot. Local codes and licensed practice come first; this page replaces neither.", Source: commonPractice},
	{Code: "estimate", Message: "Mass, mass centre, hinge strength, side hold, anchor capacity and drift are estimates from what was typed. A number that is typed wrong gives an answer that is wrong.", Source: commonPractice},
	{Code: "two-lengths", Message: "Keep everyone but the feller at least two tree lengths from the tree. Where the line is too short for that, redirect the pull.", Source: "D. Vickers, A guide to assisted felling, part one: using an offset system (2015)"},
	{Code: "bight", Message: "Nobody stands in the bight of a redirected line, or in line with a loaded rope, {block} or anchor: when something parts, both ends come back. Fibre rope gives no warning.", Source: "MGN 308 (M+F), 2.2; TB 55-1900-232-10, p. C-5; NAVEDTRA 14067"},
	{Code: "signals", Message: "One person gives the signals, the saw operator is in charge, and any unclear signal means stop.", Source: "UK HSE, Winches in directional felling"},
	{Code: "power-lines", Message: "Look for power lines within reach of the tree, the rope and the machine, falling or recoiling. Near them, stop and ask the network's owner.", Source: commonPractice},
	{Code: "left-out-dynamic", Message: "Left out: jerk, shock and swing. Every load here is steady. A slack line that snatches tight, a machine that drives off or a tree that sits back can multiply it.", Source: "the model of this page"},
	{Code: "left-out-wood", Message: "Left out: rot, cracks and dead wood other than the cavity in the {hinge}, barber-chair, root failure, a stem that breaks where the rope sits, branches that catch, wood that differs from its species' average, gusts.", Source: "the model of this page"},
	{Code: "left-out-gear", Message: "Left out: wear, damage, bent or mismatched fittings, and every piece that was not listed. The weakest piece that is not in the list is not judged.", Source: "the model of this page"},
}

// capital makes the first letter of a sentence a capital.
func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
