package screen

import (
	"fmt"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/units"
)

// A region is where the words of the trade are at home. The zero value is
// New Zealand and Australia.
type region int

const (
	wordsNZ region = iota // New Zealand, Australia
	wordsUK               // United Kingdom, Ireland
	wordsUS               // United States, Canada
	regions               // how many there are
)

// regionTable holds each region's key in the settings, its name and the
// units it is usual to plan in there.
var regionTable = [regions]struct {
	key, label string
	units      *units.System
}{
	wordsNZ: {"nz", "New Zealand, Australia", &units.KN},
	wordsUK: {"uk", "United Kingdom, Ireland", &units.KN},
	wordsUS: {"us", "United States, Canada", &units.US},
}

// trade holds the words of the trade that differ from region to region: the
// one place that knows them. Labels and sentences name them in braces, with a
// capital for a capital: "{Scarf} opening". All of it is common practice, no
// source. The messages of package plan keep to words read alike everywhere.
var trade = [...]struct {
	key   string
	words [regions]string
}{
	{"scarf", [regions]string{"scarf", "gob", "face cut"}},
	{"hinge", [regions]string{"hinge", "hinge", "hinge"}},
	{"back cut", [regions]string{"back cut", "felling cut", "back cut"}},
	{"lay", [regions]string{"lay", "felling direction", "lay"}},
	{"stem", [regions]string{"stem", "stem", "stem"}},
	{"butt", [regions]string{"butt", "butt", "butt"}},
	{"crown", [regions]string{"crown", "crown", "crown"}},
	{"lean", [regions]string{"lean", "lean", "lean"}},
	{"strop", [regions]string{"strop", "sling", "sling"}},
	{"shackle", [regions]string{"shackle", "shackle", "shackle"}},
	{"block", [regions]string{"block", "pulley", "block"}},
	{"redirect", [regions]string{"redirect block", "offset pulley", "redirect block"}},
	{"tackle", [regions]string{"tackle", "pulley system", "block and tackle"}},
	{"dead end", [regions]string{"dead end", "fixed end", "dead end"}},
	{"pull line", [regions]string{"pull line", "pull line", "pull line"}},
	{"hold line", [regions]string{"hold line", "holding line", "hold line"}},
	{"puller", [regions]string{"puller", "puller", "puller"}},
	{"machines", [regions]string{"winch, tractor, digger", "winch, tractor, excavator", "winch, tractor, skidder, excavator"}},
	{"buried log", [regions]string{"buried log (deadman)", "buried log (deadman)", "buried log (deadman)"}},
	{"feller", [regions]string{"faller", "feller", "faller"}},
	{"saw operator", [regions]string{"saw operator", "chainsaw operator", "sawyer"}},
	{"power lines", [regions]string{"power lines", "overhead lines", "power lines"}},
	{"fibre", [regions]string{"fibre", "fibre", "fiber"}},
	{"centre", [regions]string{"centre", "centre", "center"}},
	{"judgement", [regions]string{"judgement", "judgement", "judgment"}},
}

// regionOf is the region of the settings: the one chosen or, while none is,
// a first guess from the language a browser asks for, such as "en-GB".
func regionOf(chosen, language string) region {
	for r := range regionTable {
		if regionTable[r].key == chosen {
			return region(r)
		}
	}
	_, country, _ := strings.Cut(strings.ToUpper(language), "-")
	switch country {
	case "GB", "IE":
		return wordsUK
	case "US", "CA":
		return wordsUS
	}
	return wordsNZ
}

// say puts the trade's words of the region into a text that names them in
// braces.
func (r region) say(text string) string {
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
		word, known := r.tradeWord(key)
		if !ok || !known {
			b.WriteByte('{') // not one of ours: leave the text as it is
			text = rest
			continue
		}
		b.WriteString(word)
		text = after
	}
}

// tradeWord is the region's word for a key of the trade table; a key with a
// capital gives it with one.
func (r region) tradeWord(key string) (string, bool) {
	if key == "" {
		return "", false
	}
	first, rest := key[0]|0x20, key[1:] // the key's first letter, small
	for i := range trade {
		if k := trade[i].key; k[0] != first || k[1:] != rest {
			continue
		}
		if w := trade[i].words[r]; key[0] == first {
			return w, true
		} else {
			return capital(w), true
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
	// onlyIfHeld is the word where a plan is near its limits for no other reason
	// than that its puller can pull more than it may.
	onlyIfHeld = "Within limits only if held to "
	// Where no piece, puller or point is: the hinge, the place of a puller, what
	// is out of the ordinary.
	notLikeThis = "Not to be pulled like this"
	lookAgain   = "Look again before pulling"
	pieceWords  = [...]string{
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
var commonPractice = rigging.CommonPractice.Words()

// standing are the notes always shown.
func (r region) standing() []Note {
	out := make([]Note, len(standingNotes))
	for i, n := range standingNotes {
		n.Message = r.say(n.Message)
		n.Short = firstSentence(n.Message)
		out[i] = n
	}
	return out
}

var standingNotes = []Note{
	{Code: "competent", Message: "Soundness of the tree, of every anchor and of the gear, and the go-ahead, are for a competent, licensed person on the spot. Local codes and licensed practice come first; this page replaces neither.", Source: commonPractice},
	{Code: "estimate", Message: "Mass, mass {centre}, hinge strength, side hold, anchor capacity and drift are estimates from what was typed. A number that is typed wrong gives an answer that is wrong.", Source: commonPractice},
	{Code: "two-lengths", Message: "Keep everyone but the {feller} at least two tree lengths from the tree. Where the line is too short for that, redirect the pull.", Source: plan.SourceTwoLengths},
	{Code: "bight", Message: "Nobody stands in the bight of a redirected line, or in line with a loaded rope, {block} or anchor: when something parts, both ends come back. {Fibre} rope gives no warning.", Source: "MGN 308 (M+F), 2.2; TB 55-1900-232-10, p. C-5; NAVEDTRA 14067"},
	{Code: "signals", Message: "One person gives the signals, the {saw operator} is in charge, and any unclear signal means stop.", Source: "UK HSE, Winches in directional felling"},
	{Code: "power-lines", Message: "Look for {power lines} within reach of the tree, the rope and the machine, falling or recoiling. Near them, stop and ask the network's owner.", Source: commonPractice},
	{Code: "left-out-dynamic", Message: "Left out: jerk, shock and swing. Every load here is steady. A slack line that snatches tight, a machine that drives off or a tree that sits back can multiply it.", Source: "the model of this page"},
	{Code: "left-out-wood", Message: "Left out: rot, cracks and dead wood other than the cavity in the {hinge}, barber-chair, root failure, a stem that breaks where the rope sits, branches that catch, wood that differs from its species' average, gusts.", Source: "the model of this page"},
	{Code: "left-out-gear", Message: "Left out: wear, damage, bent or mismatched fittings, and every piece that was not listed. The weakest piece that is not in the list is not judged.", Source: "the model of this page"},
}

// firstSentence is the first of several sentences, "" where there is but one.
func firstSentence(text string) string {
	for i := 0; i+2 < len(text); i++ {
		if text[i] == '.' && text[i+1] == ' ' && text[i+2] >= 'A' && text[i+2] <= 'Z' {
			return text[:i+1]
		}
	}
	return ""
}

// capital makes the first letter of a sentence a capital.
func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// neutral are the words of package plan's sentences that a region says or
// spells in its own way.
var neutral = [...]struct{ word, key string }{
	{"sling", "strop"}, {"block", "block"}, {"tackle", "tackle"}, {"face", "scarf"},
	{"lay", "lay"}, {"centre", "centre"}, {"fibre", "fibre"}, {"judgement", "judgement"}, {"hold line", "hold line"},
}

// A swap is a neutral word and the region's own for it.
type swap struct{ word, own string }

// swaps are the neutral words that the region says otherwise.
func (r region) swaps() []swap {
	out := make([]swap, 0, len(neutral))
	for _, n := range neutral {
		if own, known := r.tradeWord(n.key); known && own != n.word {
			out = append(out, swap{n.word, own})
		}
	}
	return out
}

// retell puts the region's words into the sentences of a report. What was
// typed stays as it is: only the sentences' own words are changed.
func (r region) retell(rep *plan.Report) {
	swaps := r.swaps()
	for i := range rep.Problems {
		p := &rep.Problems[i]
		if f := ownWords(p.Format, swaps); f != p.Format {
			p.Format, p.Message = f, fmt.Sprintf(f, p.Args...)
		}
	}
	for i := range rep.Why {
		y := &rep.Why[i]
		if f := ownWords(y.Format, swaps); f != y.Format {
			y.Format, y.Message = f, fmt.Sprintf(f, y.Args...)
		}
	}
	for i := range rep.Cautions {
		c := &rep.Cautions[i]
		if f := ownWords(c.Format, swaps); f != c.Format {
			c.Format, c.Message = f, fmt.Sprintf(f, c.Args...)
		}
	}
	for i := range rep.Assumed {
		rep.Assumed[i].Why = ownWords(rep.Assumed[i].Why, swaps)
	}
}

// ownWords changes the neutral words of a sentence, with their plural.
func ownWords(sentence string, swaps []swap) string {
	for _, s := range swaps {
		sentence = exchange(sentence, s.word, s.own)
		sentence = exchange(sentence, capital(s.word), capital(s.own))
	}
	return sentence
}

// exchange puts own in the place of a whole word, with its plural.
func exchange(sentence, word, own string) string {
	for at := 0; ; {
		i := strings.Index(sentence[at:], word)
		if i < 0 {
			return sentence
		}
		i += at
		end := i + len(word)
		after := end
		if after < len(sentence) && sentence[after] == 's' {
			after++
		}
		at = end
		if i > 0 && isLetter(sentence[i-1]) || after < len(sentence) && isLetter(sentence[after]) {
			continue
		}
		sentence = sentence[:i] + own + sentence[end:]
		at = i + len(own)
	}
}

// isLetter counts what stands inside a word or a name of the format, so that
// wire_rope is one.
func isLetter(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '_' || c >= 0x80
}
