package words

import (
	"fmt"
	"strings"

	"pullline/rigging/plan"
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

// Retell puts the region's words into the sentences of a report. What was
// typed stays as it is: only the sentences' own words are changed.
func (r Region) Retell(rep *plan.Report) {
	swaps := r.Swaps()
	for i := range rep.Problems {
		p := &rep.Problems[i]
		if f := OwnWords(p.Format, swaps); f != p.Format {
			p.Format, p.Message = f, fmt.Sprintf(f, p.Args...)
		}
	}
	for i := range rep.Why {
		y := &rep.Why[i]
		if f := OwnWords(y.Format, swaps); f != y.Format {
			y.Format, y.Message = f, fmt.Sprintf(f, y.Args...)
		}
	}
	for i := range rep.Cautions {
		c := &rep.Cautions[i]
		if f := OwnWords(c.Format, swaps); f != c.Format {
			c.Format, c.Message = f, fmt.Sprintf(f, c.Args...)
		}
	}
	for i := range rep.Assumed {
		rep.Assumed[i].Why = OwnWords(rep.Assumed[i].Why, swaps)
	}
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
