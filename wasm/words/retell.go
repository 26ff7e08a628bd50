package words

import (
	"strings"

	"pullline/rigging/plan"
	"pullline/wasm/units"
)

// neutral are the words of package plan's sentences that a region says or
// spells in its own way.
var neutral = [...]struct{ word, key string }{
	{"sling", "strop"}, {"block", "block"}, {"tackle", "tackle"}, {"face", "scarf"},
	{"lay", "lay"}, {"centre", "centre"}, {"fibre", "fibre"}, {"judgement", "judgement"}, {"hold line", "hold line"},
}

// A Swap is a neutral word and the region's own for it.
type Swap struct{ word, own string }

// Swaps are the neutral words that the region says otherwise.
func (r Region) Swaps() []Swap {
	out := make([]Swap, 0, len(neutral))
	for _, n := range neutral {
		if own, known := r.tradeWord(n.key); known && own != n.word {
			out = append(out, Swap{n.word, own})
		}
	}
	return out
}

// Tell says a report in this locale and the user's units.
func (l Locale) Tell(rep *plan.Report, u *units.System) {
	rep.Tell(l.Voice(u))
}

// OwnWords changes the neutral words of a sentence, with their plural.
func OwnWords(sentence string, swaps []Swap) string {
	for _, s := range swaps {
		sentence = exchange(sentence, s.word, s.own)
		sentence = exchange(sentence, Capital(s.word), Capital(s.own))
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
