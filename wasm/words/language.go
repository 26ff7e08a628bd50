package words

import "strings"

// A language says what texts are in it. It may put the arguments in another
// order.
type language struct {
	translate func(Text) string
}

// languages are those there are besides English, by their tag.
var languages = map[string]*language{
	MadeUp: {translate: madeUp},
}

// MadeUp is the tag of a language for trying the page out: English, with every
// text marked and a third longer, as other languages are. A text without the
// mark was never said. The page does not offer it.
const MadeUp = "x-long"

// The marks of the made-up language, and what makes its texts longer.
const (
	Opened = "⟦"
	Closed = "⟧"
	filler = " öäü"
)

func madeUp(t Text) string {
	if t == "" {
		return ""
	}
	return Opened + string(t) + strings.Repeat(filler, len(t)/(3*len(" aou"))+1) + Closed
}

// In is the locale of a language, as a browser names it ("en-GB"), and of a
// region. What is in no language there is is said in English.
func In(tag string, r Region) Locale {
	l, known := languages[tag]
	if !known {
		primary, _, _ := strings.Cut(tag, "-")
		l = languages[primary]
	}
	return Locale{r, l}
}
